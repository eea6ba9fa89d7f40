"""The command line: what is typed, what is printed, and what the exit codes mean."""

from __future__ import annotations

from solver.cli.entry import main

__all__ = ["main"]
