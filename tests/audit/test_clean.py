from __future__ import annotations

import subprocess
import sys
import time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from solver.audit import audit
from tests.audit.conftest import Fresh
from tests.audit.rooms import ROOMS, off_square_room, plank_room, turned
from tests.audit.said import moved, pieces, said
from tests.audit.scene import document


@pytest.mark.parametrize("name", ROOMS)
def test_a_right_document_is_clean(fresh: Fresh, name: str) -> None:
    report = audit(fresh(name))
    assert report.findings == ()
    assert report.clean
    assert report.unchecked == ()
    assert report.checks


@settings(max_examples=10, deadline=None)
@given(
    name=st.sampled_from(sorted(ROOMS)),
    degrees=st.floats(-180, 180),
    dx=st.floats(-30_000, 30_000),
    dy=st.floats(-30_000, 30_000),
)
def test_turning_and_moving_the_job_changes_nothing(
    name: str, degrees: float, dx: float, dy: float
) -> None:
    scene = turned(ROOMS[name](), round(degrees, 6), round(dx, 3), round(dy, 3))
    report = audit(document(scene))
    assert report.findings == ()
    still = audit(document(ROOMS[name]())).measured[0]
    for one, two in zip(report.measured[0].rules, still.rules, strict=True):
        assert (one.worst is None) == (two.worst is None)
        if one.worst is not None:
            assert one.worst == pytest.approx(two.worst, abs=0.01)


OFFSETS = st.lists(st.integers(0, 1199), min_size=14, max_size=14)


@settings(max_examples=10, deadline=None)
@given(
    width=st.integers(2500, 4000),
    height=st.integers(700, 1500),
    low=st.integers(-149, 0),
    offsets=OFFSETS,
)
def test_any_square_room_laid_right_is_clean(
    width: int, height: int, low: int, offsets: list[int]
) -> None:
    room = plank_room(
        room=box(0, 0, width, height), low=low, offset=lambda row: float(offsets[row])
    )
    assert said(document(room)) == []


@settings(max_examples=10, deadline=None)
@given(
    bends=st.lists(st.integers(-120, 120), min_size=8, max_size=8),
    low=st.integers(-149, -1),
    offsets=OFFSETS,
)
def test_any_room_off_square_laid_right_is_clean(
    bends: list[int], low: int, offsets: list[int]
) -> None:
    corners = np.array([(0, 0), (3100, 0), (3100, 1400), (0, 1400)])
    room = Polygon((corners + np.array(bends).reshape(4, 2)).tolist())
    scene = off_square_room(
        room=room,
        low=room.bounds[1] + low,
        offset=lambda row: float(offsets[row]),
        rules=(("smallest_cut", "prefer", 50.0), ("smallest_end", "prefer", 100.0)),
    )
    assert said(document(scene)) == []


@settings(max_examples=10, deadline=None)
@given(
    place=st.integers(0, 60),
    angle=st.floats(0, 6.28),
    by=st.floats(0.1, 500),
)
def test_no_moved_piece_goes_unnoticed(place: int, angle: float, by: float) -> None:
    broken = document(plank_room())
    moved(pieces(broken)[place], by * np.cos(angle), by * np.sin(angle))
    assert said(broken) != []


def test_the_audit_imports_nothing_of_the_search() -> None:
    code = (
        "import sys, solver.audit; print([m for m in sys.modules if m.startswith(("
        "'models.floor', 'models.program', 'solver.search', 'solver.stock', 'solver.sheets'))])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_it_is_fast_enough_to_run_before_every_paper() -> None:
    scene = plank_room(room=box(0, 0, 15_000, 10_000), rules=(), share=False)
    big = document(scene)
    assert len(pieces(big)) > 800
    begin = time.perf_counter()
    audit(big)
    # Measured at 0.03 s on the machine it was written on; a loaded one is given much longer.
    assert time.perf_counter() - begin < 2.0
