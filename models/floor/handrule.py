"""The trade's hand rule for setting out one dimension of a room: the baseline to beat.

Source: NAVEDTRA 14044 (US Navy, Builder, training course), p. 7-23: the middle of the room
is found, units are laid out dry from it, and where the edge unit comes out under half, the
line is moved by half a unit. In figures, for a width D and a unit t:

    n = floor(D / t),  r = D - n t
    joint on the centre: edge cuts (r + t)/2 if n is odd, r/2 if n is even
    unit on the centre:  the other way round

If r > 0 exactly one of the two gives edge cuts of half a unit or more; if r = 0 one of the
two needs no cut at all. That one is what the rule picks.
"""

from __future__ import annotations

from dataclasses import dataclass

from models.job.data import CentreOn


@dataclass(frozen=True, slots=True)
class SettingOut:
    """One dimension set out: lengths in ticks, lowest edge first.

    ``on`` says what lies on the centre, a joint or a unit. ``whole`` is the number of whole
    units, ``cuts`` the widths of the two edge units, zero where the last whole unit ends at
    the wall. The two are equal but for a single tick where their sum is odd.
    """

    on: CentreOn
    unit: int
    whole: int
    cuts: tuple[int, int]

    @property
    def width(self) -> int:
        """What is covered from wall to wall, in ticks."""
        return self.whole * self.unit + sum(self.cuts)

    @property
    def start(self) -> int:
        """Distance of the first joint from the low wall, in [0, unit), in ticks."""
        return self.cuts[0] % self.unit

    @property
    def needs_cut(self) -> bool:
        """True when the edge units are cut."""
        return any(self.cuts)

    @property
    def half_or_more(self) -> bool:
        """True when no edge unit is cut to under half a unit (on their mean: exact to the tick)."""
        return not self.needs_cut or sum(self.cuts) >= self.unit


@dataclass(frozen=True, slots=True)
class HandRule:
    """Both ways to centre one dimension, and the one the rule picks."""

    joint_on_centre: SettingOut
    unit_on_centre: SettingOut

    @property
    def picked(self) -> SettingOut:
        """The way without a cut, else the one whose edge cuts are half a unit or more."""
        ways = (self.joint_on_centre, self.unit_on_centre)
        return min(ways, key=lambda way: (way.needs_cut, not way.half_or_more))


def hand_rule(width: int, unit: int) -> HandRule:
    """Set out ``width`` in units of ``unit`` (both ticks) by the hand rule.

    Raises ValueError when the unit is not positive or wider than the width: then one piece
    fills it and there is nothing to centre. Source: NAVEDTRA 14044 p. 7-23.
    """
    if unit <= 0:
        raise ValueError(f"unit is {unit} ticks; it must be more than 0")
    if width < unit:
        raise ValueError(
            f"width of {width} ticks is less than one unit of {unit}; one piece fills it"
        )
    number, rest = divmod(width, unit)
    wide, narrow = (number - 1, rest + unit), (number, rest)
    joint, centred = (wide, narrow) if number % 2 else (narrow, wide)
    return HandRule(
        joint_on_centre=_setting_out(CentreOn.JOINT, unit, *joint),
        unit_on_centre=_setting_out(CentreOn.UNIT, unit, *centred),
    )


def _setting_out(on: CentreOn, unit: int, whole: int, both_cuts: int) -> SettingOut:
    """Share what the whole units leave between the two edges."""
    low = both_cuts // 2
    return SettingOut(on, unit, whole, (low, both_cuts - low))
