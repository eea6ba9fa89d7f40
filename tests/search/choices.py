"""Random choices of row offsets in whole inches, for tests of what lays and improves them."""

from __future__ import annotations

from hypothesis import strategies as st

from models.lengths import TICKS_PER_INCH as INCH
from models.program.spans import Choice
from tests.program.solved import choice_of, meet_of, span_of


@st.composite
def choices(draw: st.DrawFn, rows: int = 6, pitch: int = 24) -> Choice:
    """Rows of one run each under any rules, some of which cannot be kept."""
    spans = []
    for row in range(1, draw(st.integers(1, rows)) + 1):
        start = draw(st.integers(0, 6))
        needs = draw(st.tuples(st.integers(0, 6), st.integers(0, 6)))
        spans.append(span_of(row, start, start + draw(st.integers(7, 3 * pitch)), needs))
    near, second = (
        tuple(meet_of(spans, i, i + apart) for i in range(len(spans) - apart)) for apart in (1, 2)
    )
    return choice_of(
        spans,
        pitch,
        draw(st.integers(0, 1)),
        meets=near,
        second=second,
        apart=draw(st.integers(0, pitch // 3)) * INCH,
        second_apart=draw(st.integers(0, 4)) * INCH,
        stair=draw(st.sampled_from([None, 1, 2])),
        within=draw(st.sampled_from([None, 0, 1])),
        second_must=draw(st.booleans()),
        stair_must=draw(st.booleans()),
    )
