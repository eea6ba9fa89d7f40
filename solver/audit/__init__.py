"""Re-checks a finished layout from its geometry alone; shares no code with the search."""

from solver.audit.checks import audit
from solver.audit.findings import (
    AuditReport,
    BesideFeature,
    Finding,
    MeasuredLayout,
    MeasuredRule,
    SideCuts,
    SmallestCut,
)
from solver.audit.load import load
from solver.audit.node import AuditInputError

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
