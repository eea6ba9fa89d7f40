"""What ``startrow audit`` prints: what was found, what was checked, what could not be."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from solver.audit import AuditReport


def audit_text(report: AuditReport) -> str:
    """The whole report as text; the verdict is its last line."""
    lines = [
        *_listed("Checked:", report.checks),
        *_listed("Could not be checked:", report.unchecked),
        *_listed("Found:", map(str, report.findings)),
        _verdict(report),
    ]
    return "\n".join(lines) + "\n"


def _listed(heading: str, entries: Iterable[str]) -> Iterator[str]:
    """A heading with its entries below, or nothing at all."""
    found = [f"  {entry}" for entry in entries]
    if found:
        yield heading
        yield from found


def _verdict(report: AuditReport) -> str:
    """The last line."""
    if report.clean:
        return "Clean: the layouts are what the file says they are."
    things = len(report.findings)
    return (
        f"Not clean: {things} {'finding' if things == 1 else 'findings'}; do not set out from it."
    )
