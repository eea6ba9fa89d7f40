"""The shipped jobs: each can be read, is described, and shows what its line says."""

from __future__ import annotations

import pytest

from models.job.data import BondKind, Job
from models.job.reader import read_job
from models.lengths import TICKS_PER_FOOT, System
from scenarios.catalogue import SCENARIOS

NAMES = list(SCENARIOS)


def read(name: str) -> Job:
    return read_job(SCENARIOS[name].path)


def test_there_are_jobs_easy_to_nasty() -> None:
    assert len(NAMES) >= 7
    assert {"reading-room", "long-room", "net-loft"} <= set(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_a_shipped_job_is_read_and_described(name: str) -> None:
    job = read(name)
    assert job.name == f"Tern House {name.replace('-', ' ')}"
    assert SCENARIOS[name].about.endswith(".")


def test_both_systems_and_every_bond_are_shown() -> None:
    jobs = [read(name) for name in NAMES]
    assert {job.system for job in jobs} == set(System)
    assert {zone.bond.kind for job in jobs for zone in job.zones} == set(BondKind)


def test_the_gallery_is_off_square_with_two_columns() -> None:
    job = read("gallery")
    slanted = [w for w in job.walls if w.start[0] != w.end[0] and w.start[1] != w.end[1]]
    assert slanted
    assert len(job.columns) == 2


def test_the_boat_hall_axis_is_midway_between_the_jambs() -> None:
    job = read("boat-hall")
    (door,), (axis,), (inset,) = job.doors, job.axes, job.features
    (ax, ay), (bx, by) = door.jambs
    assert axis.point == ((ax + bx) // 2, (ay + by) // 2)
    assert inset.axis == axis.name
    assert inset.centre[0] == axis.point[0]


def test_the_long_room_is_about_a_thousand_square_feet() -> None:
    job = read("long-room")
    doubled = sum(
        a[0] * b[1] - b[0] * a[1]
        for a, b in zip(job.room, (*job.room[1:], job.room[0]), strict=True)
    )
    assert 1000 <= doubled / 2 / TICKS_PER_FOOT**2 <= 1100
    assert (len(job.columns), len(job.features), len(job.field.directions)) == (1, 1, 2)


def test_the_net_loft_axis_leaves_a_sliver_on_a_joint_and_on_a_unit() -> None:
    job = read("net-loft")
    width = job.products[0].width
    low, high = job.axes[0].point[1], max(y for _, y in job.room) - job.axes[0].point[1]
    assert job.field.rules.smallest_cut is not None
    for shift in (0, width // 2):
        cuts = [(reach - shift) % width for reach in (low, high)]
        assert min(cuts) < job.field.rules.smallest_cut.limit
