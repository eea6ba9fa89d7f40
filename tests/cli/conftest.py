"""Running a command in this process, and the code and texts it ends with."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import pytest

from solver.cli import main


@dataclass(frozen=True)
class Ended:
    code: int
    out: str
    err: str


Run = Callable[..., Ended]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    def call(*argv: object) -> Ended:
        capsys.readouterr()
        code = main([str(word) for word in argv])
        texts = capsys.readouterr()
        return Ended(code, texts.out, texts.err)

    return call
