"""Offcuts, units and cartons: which pieces come from one unit, and what to order."""
