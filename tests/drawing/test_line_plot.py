"""A plot shows its numbers at the places that its own axes tell."""

import re

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from lettering_room import letterings, overlaps

from panelwright.drawing.drawing import Fill, Lettering
from panelwright.drawing.line_plot import Series, line_plot
from panelwright.drawing.page_flow import Strip

WIDE, HIGH = 180.0, 90.0


def axis(strip: Strip, along: int) -> tuple[float, float]:
    """(value of one mm, value at 0), read off two numbers on an axis: those below if `along` is 0, else at its left."""
    words = [text for text in letterings(strip.drawing) if re.fullmatch(r"[\d.e+-]+", text.text)]
    own = [text for text in words if (text.anchor == "middle") == (along == 0)]
    places = [text.at[along] + (0.33 * text.size if along else 0.0) for text in own]
    slope, start = np.polyfit(places, [float(text.text) for text in own], 1)
    return float(slope), float(start)


@given(
    st.lists(
        st.tuples(st.floats(10.0, 400.0), st.floats(0.5, 3000.0)),
        min_size=3,
        max_size=9,
        unique_by=lambda p: round(p[0]),
    ),
)
def test_dots_stand_where_the_axes_say(values: list[tuple[float, float]]) -> None:
    points = np.array(sorted(values))
    strip = line_plot([Series("folded", points)], "width, cm", "length, cm", WIDE, HIGH)
    dots = [sign for sign in strip.drawing if isinstance(sign, Fill)]
    middles = np.array([np.array(dot.bounds).reshape(2, 2).mean(axis=0) for dot in dots])
    assert len(middles) == len(points)
    for along in (0, 1):
        numbers = [text for text in letterings(strip.drawing) if re.fullmatch(r"[\d.e+-]+", text.text)]
        if len([text for text in numbers if (text.anchor == "middle") == (along == 0)]) < 2:
            continue
        slope, start = axis(strip, along)
        span = float(np.ptp(points[:, along])) or 1.0
        assert middles[:, along] * slope + start == pytest.approx(points[:, along], abs=0.01 * span + 1e-6)
    left, bottom, right, top = strip.drawing.bounds
    assert (left, right) == (pytest.approx(0.0, abs=0.5), pytest.approx(WIDE, abs=4.0))
    assert bottom >= -HIGH
    assert top <= 0.0


def test_names_of_lines_that_end_together_do_not_touch() -> None:
    ends = np.array([(90.0, 50.0), (150.0, 30.0)])
    lines = [Series(name, ends + np.array([0.0, k])) for k, name in enumerate(("one", "two", "three"))]
    strip = line_plot(lines, "width, cm", "length, cm", WIDE, HIGH)
    names = [text for text in letterings(strip.drawing) if text.text in ("one", "two", "three")]
    assert len(names) == 3
    assert overlaps([text for text in letterings(strip.drawing) if isinstance(text, Lettering)]) == []
