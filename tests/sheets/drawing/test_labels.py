from models.lengths import System
from solver.sheets.drawing.boxes import Box
from solver.sheets.drawing.labels import Label, around, beside, nearest, place
from solver.sheets.drawing.page import Page
from tests.sheets.drawn import lines, texts

BOUNDS = Box(50, 50, 550, 550)
LINE = ((100.0, 300.0), (300.0, 300.0))


def page() -> Page:
    return Page(System.METRIC, landscape=False)


def spots(label: Label) -> list[tuple[tuple[float, float], bool]]:
    return list(beside(LINE, label, (3, 20), (0.5, 0.2)))


def test_the_first_free_spot_is_taken() -> None:
    label = Label("garden wall", 8, LINE)
    found = place(page(), label, spots(label), BOUNDS)
    assert found is not None
    assert found.middle[0] == 200
    assert found.top < 300


def test_a_second_label_goes_elsewhere() -> None:
    paper, label = page(), Label("garden wall", 8, LINE)
    first = place(paper, label, spots(label), BOUNDS)
    second = place(paper, label, spots(label), BOUNDS)
    assert first is not None
    assert second is not None
    assert not first.overlaps(second)


def test_a_label_keeps_off_lines_while_it_can() -> None:
    paper, label = page(), Label("garden wall", 8, LINE)
    paper.keep_off.append(((200, 200), (200, 299)))
    found = place(paper, label, spots(label), BOUNDS)
    assert found is not None
    assert not found.meets(paper.keep_off[0])


def test_a_label_over_a_line_clears_the_paper() -> None:
    paper, label = page(), Label("garden wall", 8, LINE)
    paper.keep_off.append(((50, 250), (550, 250.1)))
    assert place(paper, label, [((200, 250), False)], BOUNDS) is not None
    assert len(paper.axes.patches) == 1


def test_no_spot_is_no_label() -> None:
    paper, label = page(), Label("garden wall", 8, LINE)
    assert place(paper, label, spots(label), Box(0, 0, 60, 60)) is None
    assert texts(paper) == []


def test_a_label_far_off_has_a_leader() -> None:
    paper, label = page(), Label("garden wall", 8, LINE)
    place(paper, label, [((200, 250), False)], BOUNDS)
    (leader,) = lines(paper, "leader")
    assert leader[1].tolist() == [200, 300]


def test_labels_beside_an_upright_line_read_upwards_first() -> None:
    label = Label("garden wall", 8, LINE)
    first, *_ = beside(((300, 100), (300, 300)), label, (3,), (0.5,))
    assert first[1]
    assert first[0][0] > 300


def test_a_label_fits_inside_its_thing_or_stands_about_it() -> None:
    label = Label("post", 6, LINE)
    assert next(around(Box(100, 100, 160, 160), label)) == ((130, 130), False)
    assert next(around(Box(100, 100, 104, 104), label))[0][1] > 104


def test_nearest_point_of_a_line() -> None:
    assert nearest(LINE, (150, 0)) == (150, 300)
    assert nearest(LINE, (0, 0)) == (100, 300)
    assert nearest((LINE[0], LINE[0]), (9, 9)) == LINE[0]
