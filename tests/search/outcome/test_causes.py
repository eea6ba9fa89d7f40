"""What forces a break: only what bears on the lines the rule is about."""

from __future__ import annotations

from dataclasses import replace

import pytest

from models.floor.runs import runs_of, slabs
from models.floor.zone import zone_of
from models.job.data import (
    Axis,
    Bond,
    BondKind,
    Centred,
    CentreOn,
    Job,
    Kind,
    Link,
    Product,
    Rules,
    Share,
)
from models.lengths import TICKS_PER_MM as MM
from solver.search.bonds.grid import row_offsets
from solver.search.draft import draft
from solver.search.found import Found
from solver.search.outcome.verdicts import verdicts
from tests.floor.rooms import area_in
from tests.search.floors import (
    ALONG_X,
    STRAIGHT,
    TILE,
    Corners,
    box,
    job_of,
    laid,
    must,
    prefer,
    zone_in,
)
from tests.search.zoned import part, zoned

EAST_WEST = Axis("door", (0, 340 * MM), (1, 0))
NORTH_SOUTH = Axis("gate", (400 * MM, 0), (0, 1))


def held(*axes: str) -> tuple[Centred, ...]:
    return tuple(Centred(Kind.MUST, axis, CentreOn.JOINT) for axis in axes)


def test_an_axis_lines_are_held_on_is_named_as_the_cause() -> None:
    axis = Axis("door", (0, 460 * MM), (1, 0))
    rules = Rules(smallest_cut=must(70), centred=(Centred(Kind.MUST, "door", CentreOn.JOINT),))
    job = job_of(box(3600, 1000), axes=[axis], rules=rules)
    cut, held = verdicts(laid(job, 60, (0,) * 6))
    assert (cut.kept, cut.because) == (False, "lines are held on door")
    assert (held.kept, held.because) == (True, "")


def causes(axis: Axis, line: float, joint: float, rules: Rules) -> dict[str, str]:
    """The cause of each break in a room of 1000 by 400 in straight tile of 300."""
    rules = replace(rules, centred=held(axis.name))
    job = job_of(box(1000, 400), TILE, STRAIGHT, rules, axes=[axis])
    rows = 3 if line else 2
    return {v.key: v.because for v in verdicts(laid(job, line, (joint,) * rows)) if not v.kept}


def test_an_axis_square_to_the_rows_forces_end_cuts_and_no_rips() -> None:
    found = causes(NORTH_SOUTH, 0, 100, Rules(half_unit_edges=prefer(0)))
    assert found == {"half_unit_edges": "", "half_unit_ends": "lines are held on gate"}


def test_an_axis_along_the_rows_forces_rips_and_no_end_cuts() -> None:
    found = causes(EAST_WEST, 40, 40, Rules(half_unit_edges=prefer(0)))
    assert found["half_unit_ends"] == ""
    assert found["half_unit_edges"] == "lines are held on door"


@pytest.mark.parametrize(
    ("joint", "because"), [(100, "lines are held on gate"), (40, "")], ids=["held", "not held"]
)
def test_an_axis_no_line_lies_on_forces_nothing(joint: float, because: str) -> None:
    found = causes(NORTH_SOUTH, 0, joint, Rules(half_unit_edges=prefer(0)))
    assert found["half_unit_ends"] == because


def test_a_difference_of_rips_is_not_laid_to_an_axis_square_to_the_rows() -> None:
    rules = Rules(balanced_cuts=prefer(10))
    assert causes(NORTH_SOUTH, 0, 100, rules) == {"balanced_cuts": ""}
    assert causes(EAST_WEST, 40, 50, rules)["balanced_cuts"] == "lines are held on door"


def linked(share: Share) -> Job:
    """Two halves of a room on one set of lines; the west one is held on an axis."""
    rules = Rules(half_unit_edges=prefer(0))
    west = part(
        "west",
        ((0, 0), (1500, 0), (1500, 1300), (0, 1300)),
        TILE,
        STRAIGHT,
        replace(rules, centred=held("door")),
    )
    link = Link("west", "floor", share)
    return zoned(box(3100, 1300), [west], TILE, STRAIGHT, rules, [EAST_WEST], [link])


@pytest.mark.parametrize(
    ("share", "rips", "ends"),
    [
        (Share.ROW_LINES, "row lines are shared with west, held on door there", ""),
        (Share.JOINTS, "", "joints are shared with west"),
    ],
    ids=["row lines", "joints"],
)
def test_shared_lines_force_only_what_hangs_on_them(share: Share, rips: str, ends: str) -> None:
    job = linked(share)
    zone = zone_of(area_in(job), ALONG_X)
    runs = runs_of(zone, slabs(zone), TILE.pitch[1], 40 * MM)
    offsets = row_offsets(runs, 40 * MM, 40 * MM, TILE.pitch, STRAIGHT.step)
    found = {v.key: v for v in verdicts(draft(job, Found(zone, 40 * MM, runs, offsets, 0, 0)))}
    assert not any(v.kept for v in found.values())
    assert found["half_unit_edges"].because == rips
    assert found["half_unit_ends"].because == ends


def slanted(corners: Corners) -> str:
    """The cause of a sliver in a room in herringbone at 45 degrees."""
    bond = Bond(BondKind.HERRINGBONE, slant=45)
    plank = Product("block", 400 * MM, 100 * MM)
    job = job_of(corners, plank, bond, Rules(smallest_cut=must(99)))
    (found,) = verdicts(draft(job, Found(zone_in(job), 0, (), (0,), 0, 0)))
    assert not found.kept
    return found.because


def test_walls_along_the_line_of_points_are_no_cause_in_a_herringbone() -> None:
    assert slanted(box(2000, 1000)) == ""


def test_a_wall_at_a_slant_to_the_line_of_points_is_measured_against_the_units() -> None:
    because = slanted(((0, 0), (2000, 60), (2000, 1000), (0, 1000)))
    assert because == "wall 1 runs 43.28 degrees off the units"


def test_short_end_pieces_are_laid_to_an_axis_square_to_the_rows_alone() -> None:
    rules = Rules(smallest_end=must(120))
    assert causes(NORTH_SOUTH, 0, 100, rules) == {"smallest_end": "lines are held on gate"}
    assert causes(EAST_WEST, 40, 100, rules) == {"smallest_end": ""}


@pytest.mark.parametrize(
    ("rise", "because"), [(1, ""), (20, "wall 3 runs 0.32 degrees off the rows")]
)
def test_a_wall_off_by_less_than_a_tape_step_forces_nothing(rise: int, because: str) -> None:
    corners = ((0, 0), (3600, 0), (3600, 600 + rise), (0, 600))
    job = job_of(corners, rules=Rules(smallest_cut=must(30)))
    (found,) = verdicts(laid(job, 0, (0, 0, 0, 0)))
    assert (found.kept, found.because) == (False, because)
