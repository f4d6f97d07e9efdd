import math
from dataclasses import replace

import numpy as np
import pytest
from design.developable_block import HEIGHTS, WIDTHS, developable_block, place
from hypothesis import given
from hypothesis import strategies as st
from plain_block import BULGES, plain_block
from plain_block import HEIGHTS as PLAIN_HEIGHTS
from scipy.integrate import quad
from scipy.interpolate import CubicHermiteSpline

from panelwright.design.body_chart import half_chart, whole_chart
from panelwright.design.edge_point import EdgePoint, resolve_edge_point
from panelwright.design.position import BodyPoint, Height, resolve
from panelwright.errors import DesignError
from panelwright.pattern.level import LEVELS

BLOCK = plain_block()
CYLINDER, CONE = developable_block(), developable_block(900.0)
LINES = ("centre-front", "front-princess", "side", "back-princess", "centre-back")


def plain_arc(line: str, low: float, high: float) -> float:
    """Length of a plain block's seam between two heights, by scipy's spline and quadrature."""
    y = np.array([PLAIN_HEIGHTS[level] for level in LEVELS])[::-1]
    offsets = np.array(BULGES[line])[::-1]
    slope = CubicHermiteSpline(y, offsets, np.gradient(offsets, y)).derivative()
    return float(quad(lambda h: math.hypot(1.0, slope(h)), low, high, limit=200)[0])


def test_the_chart_orders_lines_by_walking_the_seams() -> None:
    chart = half_chart(BLOCK)
    assert tuple(upright.line for upright in chart.uprights) == LINES
    assert [panel.piece.id for panel in chart.panels] == ["CF", "SF", "SB", "CB"]
    whole = whole_chart(BLOCK)
    assert tuple(upright.line for upright in whole.uprights) == LINES[:0:-1] + LINES
    assert whole.centre == 4


@pytest.mark.parametrize("line", ["front-princess", "side", "back-princess"])
@pytest.mark.parametrize("level", ["bust", "waist", "top-hip"])
def test_an_offset_is_measured_along_the_line(line: str, level: str) -> None:
    found = resolve(BodyPoint(Height(level, 20.0), line), BLOCK)
    hip = PLAIN_HEIGHTS["hip"]
    assert found.arc == pytest.approx(plain_arc(line, hip, PLAIN_HEIGHTS[level]) + 20.0, abs=1e-4)
    height = found.point[1]
    assert plain_arc(line, PLAIN_HEIGHTS[level], height) == pytest.approx(20.0, abs=1e-3)


def test_a_share_is_part_of_the_way_to_the_next_level() -> None:
    up = resolve(BodyPoint(Height("waist", share=0.5), "side"), BLOCK)
    down = resolve(BodyPoint(Height("underbust", share=-0.5), "side"), BLOCK)
    assert up.arc == pytest.approx(plain_arc("side", -200.0, 0.0) + plain_arc("side", 0.0, 85.0) / 2, abs=1e-4)
    assert down.arc == pytest.approx(up.arc)


@given(st.sampled_from(LEVELS[1:-1]), st.floats(-10.0, 10.0), st.integers(0, 3), st.floats(0.01, 1.0))
def test_a_place_between_lines_on_a_cylinder_is_where_a_ruler_finds_it(
    level: str, offset: float, panel: int, fraction: float
) -> None:
    found = resolve(BodyPoint(Height(level, offset), LINES[panel], LINES[panel + 1], fraction), CYLINDER)
    width = list(WIDTHS.values())[panel]
    assert found.point == pytest.approx(place(None, fraction * width, HEIGHTS[level] + offset), abs=1e-4)


@given(st.sampled_from(LEVELS[1:-1]), st.floats(-10.0, 10.0), st.integers(0, 3), st.floats(0.01, 1.0))
def test_a_place_between_lines_on_a_cone_lies_on_its_circle(
    level: str, offset: float, panel: int, fraction: float
) -> None:
    found = resolve(BodyPoint(Height(level, offset), LINES[panel], LINES[panel + 1], fraction), CONE)
    width = list(WIDTHS.values())[panel]
    assert found.point == pytest.approx(place(900.0, fraction * width, HEIGHTS[level] + offset), abs=0.02)


def test_a_place_on_a_line_belongs_to_the_panel_nearer_the_front() -> None:
    assert resolve(BodyPoint(Height("waist"), "side"), BLOCK).piece == "SF"
    assert resolve(BodyPoint(Height("waist"), "centre-front"), BLOCK).piece == "CF"


@pytest.mark.parametrize(
    ("point", "sentence"),
    [
        (
            BodyPoint(Height("upper-bust", 30.0), "side"),
            "at the side line it would lie 3.0 cm above the block, which ends at upper bust; "
            "lower it by that much or choose another level",
        ),
        (BodyPoint(Height("hip", -12.0), "side"), "at the side line it would lie 1.2 cm below the block"),
        (BodyPoint(Height("wast"), "side"), "the block has no level 'wast'; did you mean 'waist'?"),
        (BodyPoint(Height("waist"), "sied"), "the block has no line 'sied'; did you mean 'side'?"),
        (BodyPoint(Height("waist"), "zzz"), "the block has no line 'zzz'; it has centre-front, front-princess"),
        (BodyPoint(Height("waist"), "side", "centre-front", 0.5), "side and centre front are not neighbours"),
        (BodyPoint(Height("hip", share=-0.5), "side"), "there is no level below hip to go part of the way to"),
        (
            BodyPoint(Height("hip", -9.0), "side", "back-princess", 0.5),
            "lies beyond the block; choose a height between",
        ),
    ],
)
def test_a_place_that_is_not_there_is_refused_in_one_sentence(point: BodyPoint, sentence: str) -> None:
    with pytest.raises(DesignError) as caught:
        resolve(point, BLOCK)
    assert sentence in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_level_that_is_not_drawn_is_never_taken_for_another() -> None:
    """`underbust` is spelt much like `upper-bust`, and is another place on the body."""
    pieces = [replace(p, inside=tuple(li for li in p.inside if li.id != "upper-bust")) for p in BLOCK.pieces]
    low = replace(BLOCK, pieces=tuple(pieces), levels=tuple(lv for lv in BLOCK.levels if lv.id != "upper-bust"))
    with pytest.raises(DesignError, match=r"the block has no upper bust level, only .*underbust.*; draw it") as caught:
        resolve(BodyPoint(Height("upper-bust"), "side"), low)
    assert "did you mean" not in str(caught.value)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Height("waist", 1001.0),
        lambda: Height("waist", math.nan),
        lambda: Height("waist", share=1.5),
        lambda: Height("waist", 5.0, 0.5),
        lambda: BodyPoint(Height("waist"), "side", "front-princess", 1.5),
        lambda: BodyPoint(Height("waist"), "side", None, 0.5),
        lambda: EdgePoint("top"),
        lambda: EdgePoint("top", 5.0, 0.5),
        lambda: EdgePoint("top", -1.0),
        lambda: EdgePoint("top", fraction=1.5),
    ],
)
def test_numbers_out_of_range_are_refused(wrong: object) -> None:
    with pytest.raises(DesignError):
        wrong()  # type: ignore[operator]


def test_an_edge_point_runs_along_its_line_from_either_end() -> None:
    start = resolve_edge_point(EdgePoint("front-princess", 50.0), CYLINDER)
    assert start.point == pytest.approx((-90.0, -150.0))
    assert (start.piece, start.arc) == ("CF", pytest.approx(350.0))  # its edge runs down the outline
    back = resolve_edge_point(EdgePoint("front-princess", 50.0, end="end", side="left"), CYLINDER)
    assert (back.piece, back.arc, back.point) == ("SF", pytest.approx(350.0), pytest.approx((0.0, 150.0)))
    half = resolve_edge_point(EdgePoint("side", fraction=0.5), CYLINDER)
    assert half.point == pytest.approx((-105.0, 0.0))


@pytest.mark.parametrize(
    ("point", "sentence"),
    [
        (EdgePoint("front-princess", 500.0), "50.0 cm along front-princess is past its end: it is 40.0 cm long"),
        (EdgePoint("neck/line", 5.0), "no edge lies on 'neck/line'"),
    ],
)
def test_an_edge_point_off_its_line_is_refused(point: EdgePoint, sentence: str) -> None:
    with pytest.raises(DesignError, match=sentence):
        resolve_edge_point(point, CYLINDER)
