"""Re-checks a finished layout from its geometry alone; shares no code with the search."""

from solver.audit.document.load import load
from solver.audit.document.node import AuditInputError
from solver.audit.findings import (
    AuditReport,
    BesideFeature,
    Finding,
    MeasuredLayout,
    MeasuredRule,
    SideCuts,
    SmallestCut,
)
from solver.audit.run import audit

__all__ = [
    "AuditInputError",
    "AuditReport",
    "BesideFeature",
    "Finding",
    "MeasuredLayout",
    "MeasuredRule",
    "SideCuts",
    "SmallestCut",
    "audit",
    "load",
]
