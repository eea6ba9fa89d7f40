"""A commented job file to start from."""

from __future__ import annotations

from importlib.resources import files


def template() -> str:
    """The text of ``template.yaml``: itself a valid job, every line explained."""
    return files("models.job").joinpath("template.yaml").read_text(encoding="utf-8")
