"""``layouts.json``: everything an outside checker needs, in millimetres and job axes.

The keys are a contract: more may be added, none changed.
"""

from solver.sheets.contract.text import text_of
from solver.sheets.contract.values import Json
from solver.sheets.contract.whole import document

__all__ = ["Json", "document", "text_of"]
