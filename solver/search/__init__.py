"""Search: start lines, offsets, bounds, the best three. The one place that runs a solver."""

from solver.search.solve import solve

__all__ = ["solve"]
