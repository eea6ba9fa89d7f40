"""The audit's tolerances, all in millimetres unless a name says otherwise."""

from __future__ import annotations

TOUCH = 0.02
"""Two lines this near are one line: the tolerance of every comparison of places."""

SIZE = 0.05
"""A claimed size, distance or worst value may differ this much from the measured one."""

NOISE = 0.001
"""Rounding of coordinates written to six decimals and turned; less than one tick."""

ROUNDING = 1e-4
"""Rounding within one piece: a tenth of ``NOISE``, which is for whole rooms."""

LEAN_DEG = 15.0
"""A cut edge within this angle of a unit's side is a rip or a cross cut, in degrees."""

LEAN_DOUBT_DEG = 0.05
"""Edges this near to ``LEAN_DEG`` may be read either way, in degrees."""

SAME_SHIFT = 12.7
"""Two row shifts that differ by no more than this are equal (half an inch)."""

PARALLEL = 1e-4
"""Sine of the angle under which two lines count as parallel."""

PERCENT = 0.005
"""Claimed percentages may differ this much from the measured ones."""

LONGEST = 1e7
"""No coordinate or length of a floor is larger than this (10 km)."""
