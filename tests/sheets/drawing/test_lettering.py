import pytest

from models.lengths import System
from solver.sheets.drawing.lettering import shorten, width, wrap
from solver.sheets.drawing.page import Page
from tests.sheets.drawn import text_boxes

WORDS = "12' 6-3/4\" from the garden wall, WAVES & Quay"


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("size", [5.0, 7.4, 14.0])
def test_measured_boxes_hold_what_is_drawn(size: float, bold: bool) -> None:
    page = Page(System.METRIC, landscape=True)
    measured = page.write(100, 100, WORDS, size, bold=bold)
    ((_, drawn),) = text_boxes(page)
    assert drawn.within(measured.grown(0.6))
    assert drawn.width > measured.width * 0.97


def test_an_upright_text_is_measured_upright() -> None:
    page = Page(System.METRIC, landscape=True)
    measured = page.write_at((200, 200), WORDS, 8, upright=True)
    ((_, drawn),) = text_boxes(page)
    assert drawn.within(measured.grown(0.6))
    assert measured.height > measured.width


def test_text_is_not_read_as_mathematics() -> None:
    page = Page(System.METRIC, landscape=True)
    page.write(100, 100, "store $5_x$ \\frac", 8)
    ((text, box),) = text_boxes(page)
    assert text == "store $5_x$ \\frac"
    assert box.width == pytest.approx(width(text, 8), rel=0.03)


def test_wrap_keeps_every_word_in_order_and_in_the_room() -> None:
    lines = wrap(WORDS, 90, 8)
    assert " ".join(lines) == WORDS
    assert all(width(line, 8) <= 90 for line in lines)
    assert len(lines) > 1


def test_a_word_too_long_for_a_line_is_shortened() -> None:
    (line,) = wrap("Bootshausversammlungssaal", 60, 8)
    assert line.endswith("…")
    assert width(line, 8) <= 60


def test_shorten_leaves_what_fits() -> None:
    assert shorten("galley", 100, 8) == "galley"
    assert wrap("", 100, 8) == []
