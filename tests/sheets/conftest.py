from collections.abc import Iterator

import pytest

from models.floor.layout import Solution
from models.job.data import Job
from solver.sheets.drawing.saving import house_settings
from tests.sheets.builders import plank_solution, tile_solution
from tests.sheets.jobs import plank_job, tile_job


@pytest.fixture(autouse=True)
def _house() -> Iterator[None]:
    with house_settings():
        yield


@pytest.fixture(scope="session")
def planks() -> tuple[Job, Solution]:
    return plank_job(), plank_solution()


@pytest.fixture(scope="session")
def tiles() -> tuple[Job, Solution]:
    return tile_job(), tile_solution()
