import re
from pathlib import Path

import matplotlib
import pytest

from models.floor.layout import Solution
from models.job.data import Job
from models.lengths import System
from solver.sheets.compare.page import compare_page
from solver.sheets.drawing.page import Page
from solver.sheets.drawing.saving import house_settings, pdf, png, svg
from solver.sheets.setout.pages import setout_pages

Pair = tuple[Job, Solution]


def test_the_same_page_gives_the_same_bytes(planks: Pair) -> None:
    for save in (png, svg):
        assert save(compare_page(planks[1])) == save(compare_page(planks[1]))
    once, again = (pdf(setout_pages(planks[1], planks[1].layouts[0]), "x") for _ in range(2))
    assert once == again


def test_no_date_and_no_version_is_written(planks: Pair) -> None:
    page = compare_page(planks[1])
    for content in (png(page), svg(page), pdf([page], "x")):
        assert not re.search(rb"(?i)matplotlib v|\b3\.\d+\.\d+\b|CreationDate|<dc:date>", content)


def test_a_book_has_all_its_pages() -> None:
    pages = [Page(System.METRIC, landscape=False) for _ in range(3)]
    assert len(re.findall(rb"/Type /Page\b", pdf(pages, "Tern House"))) == 3


def test_pictures_are_of_the_page_size() -> None:
    content = png(Page(System.IMPERIAL, landscape=False))
    wide, tall = (int.from_bytes(content[i : i + 4]) for i in (16, 20))
    assert (wide, tall) == (1275, 1650)


def test_the_users_plotting_settings_play_no_part(
    planks: Pair, monkeypatch: pytest.MonkeyPatch
) -> None:
    plain = png(compare_page(planks[1]))
    monkeypatch.setitem(matplotlib.rcParams, "font.size", 30)
    monkeypatch.setitem(matplotlib.rcParams, "savefig.bbox", "tight")
    with house_settings():
        assert png(compare_page(planks[1])) == plain


def test_settings_are_put_back(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(matplotlib.rcParams, "font.size", 17)
    with house_settings():
        assert matplotlib.rcParams["font.size"] == 10
    assert matplotlib.rcParams["font.size"] == 17


def test_no_module_here_uses_the_global_plotting_state() -> None:
    folder = Path(__file__).parents[2] / "solver" / "sheets"
    assert not [path for path in folder.glob("*.py") if "pyplot" in path.read_text()]
