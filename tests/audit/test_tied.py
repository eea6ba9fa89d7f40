from __future__ import annotations

import pytest

from models.job.data import Share
from tests.audit.compose import add_up
from tests.audit.floors import bordered, linked, seams, twins
from tests.audit.said import finds, finds_only, pieces, rule, said
from tests.audit.scene import Document

ROW_LINES, JOINTS = Share.ROW_LINES.value, Share.JOINTS.value


@pytest.mark.parametrize("angle", [0.0, 33.7, -90.0])
def test_a_zone_and_its_reflection_are_clean(angle: float) -> None:
    assert said(twins(angle)) == []


def mirrored(document: Document) -> list[Document]:
    """The pieces of the mirrored zone."""
    return [piece for piece in pieces(document) if piece["zone"] == "south cabin"]


def test_a_mirrored_piece_that_is_not_where_its_partner_is() -> None:
    broken = twins()
    row = [p for p in mirrored(broken) if p["row"] == 5]
    joint = next(x for x, _ in row[0]["outer"] if any(x == a for a, _ in row[1]["outer"]))
    for piece in row[:2]:
        piece["outer"] = [[x + 9 if x == joint else x, y] for x, y in piece["outer"]]
    partner = r"claimed the reflection of a piece of zone north cabin, found 9.000 mm off that of"
    finds(
        broken, rf"mirror image: piece {row[0]['id']} \(zone south cabin\): {partner} north cabin"
    )
    finds(broken, r"rules: mirror image north cabin, zone south cabin: claimed worst 0.000 mm, "
                  r"found 9.000 mm")  # fmt: skip
    finds(broken, r"rules: mirror image .*claimed kept .*, found broken, worst 9.000 mm")


def test_a_mirror_about_another_axis() -> None:
    broken = twins()
    broken["zones"][1]["mirrors"]["axis"]["point"][0] += 3
    finds(broken, r"mirror image: piece south cabin P1 .*found 6.000 mm off that of north cabin")


def test_two_pieces_for_one() -> None:
    broken = twins()
    whole = next(p for p in mirrored(broken) if not p["cut"])
    xs, ys = zip(*whole["outer"], strict=True)
    left, right, low, high = min(xs), max(xs), min(ys), max(ys)
    middle = (left + right) / 2
    parts = [
        {**whole, "id": f"{whole['id']}{n}", "unit": f"{whole['unit']}{n}", "outer": [
            [a, low], [b, low], [b, high], [a, high]]}
        for n, (a, b) in enumerate([(left, middle), (middle, right)])
    ]  # fmt: skip
    place = pieces(broken).index(whole)
    pieces(broken)[place : place + 1] = parts
    finds(broken, rf"mirror image: piece {parts[0]['id']} .*found 424.500 mm off that of")


def test_a_piece_reflected_nowhere() -> None:
    broken = twins()
    gone = mirrored(broken)[10]
    pieces(broken).remove(gone)
    add_up(broken)
    finds(broken, r"mirror image: piece north cabin P\d+ \(zone north cabin\): claimed reflected "
                  r"in zone south cabin, found no such piece")  # fmt: skip


def test_a_zone_mirrors_one_there_is() -> None:
    broken = twins()
    broken["zones"][1]["mirrors"]["zone"] = "attic"
    with pytest.raises(ValueError, match=r"zones\[1\].mirrors.zone: 'attic' is not one of north"):
        said(broken)


@pytest.mark.parametrize("share", [ROW_LINES, JOINTS])
def test_zones_on_shared_lines_are_clean(share: str) -> None:
    assert said(linked(share)) == []
    assert said(linked(share, low=300.0, offset=-600.0)) == []


@pytest.mark.parametrize(
    ("share", "low", "offset", "worst"),
    [(ROW_LINES, 7.0, 0.0, 7.0), (ROW_LINES, -7.0, 30.0, 7.0), (ROW_LINES, 290.0, 0.0, 10.0),
     (JOINTS, 0.0, 120.0, 120.0), (JOINTS, 44.0, 160.0, 140.0)],
)  # fmt: skip
def test_lines_that_are_not_shared(share: str, low: float, offset: float, worst: float) -> None:
    broken = linked(share, low, offset)
    finds(broken, rf"rules: on the lines of the zone beside hall floor, zone study floor: claimed "
                  rf"worst 0.000 mm, found {worst:.3f} mm")  # fmt: skip
    finds(broken, rf"rules: on the lines .*found broken, worst {worst:.3f} mm")
    rule(broken, "linked").update(worst=worst, kept=False)
    broken["layouts"][0]["figures"]["broken_must"] += 1
    assert said(broken) == []


def test_the_other_lines_may_be_their_own() -> None:
    assert said(linked(ROW_LINES, offset=55.0)) == []
    assert said(linked(JOINTS, low=55.0)) == []


def test_lines_of_zones_that_are_not_linked() -> None:
    broken = linked(ROW_LINES)
    broken["links"] = []
    finds_only(broken, "rules: on the lines of .*claimed worst 0.000 mm, found nothing measured")


def test_seams_as_they_are_are_clean() -> None:
    document = bordered()
    document["layouts"][0]["seams"] = seams()
    assert said(document) == []
    for seam in document["layouts"][0]["seams"]:
        seam["zones"].reverse()
        seam["edges"].reverse()
    assert said(document) == []


SEAMS = [
    (0, {"length": 4002.0}, r"field and border, south wall: claimed 4002.000 mm long, found 4000"),
    (0, {"trim": 6.0}, "field and border, south wall: claimed a strip of 6.000 mm, found 0.000 mm"),
    (0, {"edges": ["factory", "factory"]}, "side of field: claimed factory edges, found cut"),
    (2, {"edges": ["mixed", "factory"]}, "side of field: claimed mixed edges, found factory"),
    (6, {"edges": ["factory", "factory"]}, "side of border, east wall: claimed factory edges, f"),
    (8, {"edges": ["cut", "cut"]}, "side of compass inset: claimed cut edges, found factory"),
    (5, {"zones": ["compass inset", "field"], "length": 2400.0},
     "told twice over|claimed no seam, found 300.000 mm of edge in common|claimed factory edges"),
    (8, {"zones": ["border, south wall", "border, north wall"]},
     "claimed 2400.000 mm long, found 0.000 mm|claimed no seam, found 2400.000 mm of edge in com"),
]  # fmt: skip


@pytest.mark.parametrize(("place", "lie", "pattern"), SEAMS)
def test_a_seam_that_is_not_so(place: int, lie: Document, pattern: str) -> None:
    broken = bordered()
    broken["layouts"][0]["seams"] = seams()
    broken["layouts"][0]["seams"][place].update(lie)
    finds_only(broken, rf"seams: .*({pattern})")


def test_a_seam_left_out() -> None:
    broken = bordered()
    broken["layouts"][0]["seams"] = seams()[1:]
    finds_only(broken, "seams: field and border, south wall: claimed no seam, found 4000.000 mm of")


def test_an_edge_of_both_kinds_is_mixed() -> None:
    broken = bordered()
    broken["layouts"][0]["seams"] = seams()
    # One tile of the south border said to be of a unit 10 mm higher: its upper edge is cut then.
    tile = next(p for p in pieces(broken) if p["zone"] == "border, south wall" and not p["cut"])
    tile["corner"][1] += 10.0
    tile["outer"] = [[x, y + 5 if y == 0.0 else y] for x, y in tile["outer"]]
    finds(broken, "side of border, south wall: claimed factory edges, found mixed")
