from collections.abc import Iterator

import pytest

from solver.sheets.drawing.saving import house_settings


@pytest.fixture(autouse=True)
def _house() -> Iterator[None]:
    with house_settings():
        yield
