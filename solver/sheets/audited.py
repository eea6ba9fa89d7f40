"""Layouts as plain data, audited: what fails its audit never comes to paper or screen."""

from __future__ import annotations

from models.floor.layout import Solution
from solver.audit import Finding, audit
from solver.sheets.contract import document


class AuditFailure(Exception):  # noqa: N818 (a finding about the layout, not a fault of the call)
    """The audit found that the layouts are not what they claim; nothing was written."""

    def __init__(self, findings: tuple[Finding, ...], whose: str = "the layouts") -> None:
        super().__init__(
            f"{whose} failed their audit and no papers were written:\n"
            + "\n".join(f"  {finding}" for finding in findings)
        )
        self.findings = findings


def audited(solution: Solution, whose: str = "the layouts") -> dict[str, object]:
    """The document of a solution, with nothing found wrong in it; AuditFailure otherwise."""
    found = document(solution)
    report = audit(found)
    if not report.clean:
        raise AuditFailure(report.findings, whose)
    return found
