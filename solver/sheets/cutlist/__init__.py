"""The cut list: every cut in laying order, cuts for the bench, diagrams."""
