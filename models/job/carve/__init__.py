"""Carving: which floor each zone gets, once the lengths a job leaves open are chosen."""
