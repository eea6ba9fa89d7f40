"""Constraint programs built from a floor: one function per rule. Nothing is solved here."""
