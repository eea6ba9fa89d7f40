from dataclasses import replace

from models.floor.layout import Solution
from models.job.data import Job
from solver.sheets.chalk import bears_on_itself, chalk
from solver.sheets.setout.steps import CAUTIONS, steps
from tests.sheets.jobs import inch, walls

Pair = tuple[Job, Solution]


def words(pair: Pair, rank: int = 1) -> dict[str, str]:
    job, solution = pair
    zone = solution.layouts[rank - 1].zones[0]
    return {step.heading: step.text for step in steps(job, zone, chalk(job, zone))}


def test_the_start_line_is_marked_at_both_ends(planks: Pair) -> None:
    assert words(planks)["Start line"] == (
        "at hall wall mark 8' 5\" from sea wall; at lane wall mark 3' 2\" from wall step. "
        "Snap between the marks."
    )


def test_off_square_walls_give_two_readings(tiles: Pair) -> None:
    # At 2310 mm the lamp wall is at 3180 + 30 x 2310 / 4655 = 3194.9; left of there it is lower,
    # so the tape goes right, where the net wall is at 4620 + 35 x 3194.9 / 3210 = 4654.8.
    text = words(tiles)["Cross line"]
    assert text == (
        "at quay wall mark 2310 mm from stair wall; at lamp wall mark 2344.8 mm from net wall. "
        "Snap between the marks."
    )
    assert "1590 mm from quay wall" in words(tiles)["Start line"]


def test_a_broken_line_is_marked_part_by_part(planks: Pair) -> None:
    text = words(planks, 3)["Cross line"]
    assert text.startswith("Part 1: at lane wall mark")
    assert "Part 2: at post mark" in text
    assert text.endswith("Snap each part.")


def test_the_check_says_where_both_marks_are(planks: Pair) -> None:
    # 12 and 9 ft would fit the lines, but then the tape would cut the corner at the return.
    assert words(planks)["Check for square"] == (
        "from the crossing mark 8' 0\" along the start line toward the right and 6' 0\" along "
        "the cross line toward the top. The marks must be 10' 0\" apart; if not, keep the start "
        "line and move the other."
    )


def test_two_rows_go_first_and_the_rest_follow(planks: Pair) -> None:
    assert words(planks)["First rows"] == (
        "lay row 18 on the top side of the start line, then row 19 against it. "
        "When they hold, go on with rows 20 to 36, then rows 17 to 1."
    )


def test_a_start_line_at_the_last_row_goes_down(planks: Pair) -> None:
    job, solution = planks
    layout = solution.layouts[0]
    zone = replace(layout.zones[0], start_row=36)
    found = {step.heading: step.text for step in steps(job, zone, chalk(job, zone))}
    assert "lay row 36" in found["First rows"]
    assert "then row 35 against it" in found["First rows"]
    assert found["First rows"].endswith("go on with rows 34 to 1.")


def test_first_and_last_rows_and_other_rips(planks: Pair) -> None:
    assert words(planks)["Edge rows"] == (
        'row 1 is 5" wide and row 36 is 4-1/2" wide. Other rips: row 24 at step 2".'
    )


def test_cuts_beside_the_feature_are_listed_on_all_sides(planks: Pair) -> None:
    text = words(planks)["Beside compass"]
    assert text.startswith('cuts left 8" to ')
    assert text.endswith('bottom 4", top 2".')


def test_joints_are_explained_only_when_there_are_any(planks: Pair, tiles: Pair) -> None:
    assert "Joints" not in words(planks)
    assert "the 2 mm joint" in words(tiles)["Joints"]


def test_what_the_plan_leaves_out_is_said(planks: Pair) -> None:
    job, solution = planks
    zone = solution.layouts[0].zones[0]
    last = steps(job, zone, chalk(job, zone), unnamed=["step", "return"])[-1]
    assert (last.heading, last.text) == (
        "Not named on the plan",
        "step and return, for want of room.",
    )


def test_cautions_put_the_makers_and_asbestos_first() -> None:
    assert CAUTIONS.index("maker's instructions") < CAUTIONS.index("knife")
    for word in ("asbestos", "dry sweep", "silica", "local codes"):
        assert word in CAUTIONS


def curved(job: Job, out: int) -> Job:
    """The reading room with its hall wall in sides of one name, as an arc is, ``out`` deep."""
    low, high = inch("8'"), inch("9'")
    room = (*job.room, (0, high), (-out, (low + high) // 2), (0, low))
    names = [wall.name for wall in job.walls[:-1]] + ["bay"] * 4
    return replace(job, room=room, walls=walls(room, names), doors=())


def test_a_curved_wall_is_measured_from_only_where_there_is_no_other(planks: Pair) -> None:
    zone = planks[1].layouts[0].zones[0]
    for out, measured, blind in (("-3", "sea wall", False), ("3", "bay", True)):
        end = chalk(curved(planks[0], inch(out)), zone).start[0].start
        assert (end.ends_on, end.measured_from) == ("bay", measured)
        assert bears_on_itself(end) == blind


def test_an_end_no_tape_finds_is_found_by_the_check(planks: Pair) -> None:
    job, solution = planks
    zone = solution.layouts[0].zones[0]
    lines = chalk(job, zone)
    mark = lines.cross[0].start
    blind = replace(mark, measured_from=mark.ends_on)
    part = replace(lines.cross[0], start=blind)
    text = steps(job, zone, replace(lines, cross=(part,)))[1].text
    assert "toward sea wall it runs square to the other line: find that end by step 3" in text
