"""Splitting and unfolding as steps: what is cut, what stays whole, and what is refused."""

from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.sewing_rules import faults
from plausible_bodies import plausible_bodies
from surgery.surgery_garment import bare, edges, made, reason, replayed

from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.design.step_file import steps_from_json
from panelwright.errors import DesignError

YOKE: dict[str, Any] = {
    "kind": "split",
    "uid": "yoke",
    "way": "yoke",
    "pieces": ["SF", "SB"],
    "height": {"level": "underbust"},
}
PANEL: dict[str, Any] = {
    "kind": "split", "uid": "extra", "way": "panel", "pieces": ["SF"], "line": "front-princess", "towards": "side",
}  # fmt: skip
BOTH: dict[str, Any] = {"kind": "unfold", "uid": "both"}


def across(start: dict[str, Any], end: dict[str, Any], **more: Any) -> dict[str, Any]:
    return {"kind": "split", "uid": "cut", "pieces": ["SF"], "start": start, "end": end, **more}


def at_level(line: str, level: str, offset: float = 0.0) -> dict[str, Any]:
    return {"line": line, "level": level, "offset_cm": offset}


@settings(max_examples=20)
@given(
    st.sampled_from(["front-princess", "side"]),
    st.floats(0.1, 0.9),
    st.sampled_from(["neck/line", "hem/line"]),
    st.floats(0.2, 0.8),
)
def test_parts_fill_the_piece_and_still_sew_together(line: str, at: float, other: str, along: float) -> None:
    cut = across({"line": line, "fraction": at}, {"line": other, "fraction": along})
    result = replayed([*edges(), cut])
    if result.outcomes[-1].state == "failed":  # the seam is hollow there, so a straight line leaves the piece
        assert "run it inside the piece" in result.outcomes[-1].reason
        return
    pattern = result.pattern
    assert faults(pattern) == []
    areas = [pattern.piece(id).outline.area for id in ("SF", "SF-cut")]
    assert sum(areas) == pytest.approx(bare().piece("SF").outline.area, abs=1.0)
    (seam,) = [seam for seam in pattern.seams if seam.id == "cut/line"]
    ends = np.linalg.norm(pattern.edge(seam.a[0]).curve.chord)
    assert pattern.chain_length(seam.a) == pytest.approx(ends, abs=1e-6), "straight"


def test_a_place_by_its_level_is_where_the_level_meets_the_line() -> None:
    pattern = made(across(at_level("front-princess", "underbust", 2.0), at_level("side", "waist", -3.0)))
    before = bare().piece("SF")
    for line, level, offset in (("front-princess", "underbust", 20.0), ("side", "waist", -30.0)):
        edge = before.on_line(line)[0]
        wanted = bare().level_place(edge, before, level)
        assert wanted is not None
        low = min(
            (part for id in ("SF", "SF-cut") for part in pattern.piece(id).on_line(line)), key=lambda e: e.interval
        )
        start = 0.0
        assert low.curve.length == pytest.approx(wanted + offset - start, abs=1e-3)


def test_a_line_runs_through_the_places_between() -> None:
    through = [{"line": "front-princess", "towards": "side", "fraction": 0.4, "level": "underbust"}]
    pattern = made(across({"line": "neck/line", "fraction": 0.5}, at_level("side", "waist"), through=through))
    assert faults(pattern) == []
    cut = pattern.piece("SF").on_line("cut/line")[0].curve
    level = bare().piece("SF").inside_line("underbust")
    assert level is not None
    # The level runs from the side (x = 0 of its arc) to the princess seam; 0.4 of the way from the seam is 0.6.
    assert cut.nearest(level.curve.point(0.6 * level.curve.length))[1] < 0.5


def test_a_yoke_is_one_line_across_its_pieces_at_one_height() -> None:
    pattern = made(YOKE)
    assert faults(pattern) == []
    assert {piece.id for piece in pattern.pieces} == {"CF", "SF", "SF-yoke", "SB", "SB-yoke", "CB"}
    edges = [pattern.piece(f"{id}-yoke").on_line("side")[0] for id in ("SF", "SB")]
    assert edges[0].interval == pytest.approx(edges[1].interval, abs=1e-9)
    assert edges[0].curve.length == pytest.approx(edges[1].curve.length, abs=1e-3)


def test_a_new_panel_seam_lies_at_its_share_of_every_level() -> None:
    pattern = made({**PANEL, "fraction": 0.3})
    assert faults(pattern) == []
    for level in ("bust", "waist", "lower-waist"):
        whole = bare().piece("SF").inside_line(level)
        part = pattern.piece("SF").inside_line(level)  # what lies at the first line keeps the name
        assert whole
        assert part
        assert part.curve.length / whole.curve.length == pytest.approx(0.3, abs=0.01)


def test_both_sides_may_differ_after_unfolding() -> None:
    cut = {**across(at_level("front-princess", "underbust"), at_level("side", "waist")), "pieces": ["SF/left"]}
    pattern = made(BOTH, cut)
    assert faults(pattern) == []
    assert pattern.has_piece("SF/left-cut")
    assert not pattern.has_piece("SF-cut")
    assert {piece.extent for piece in pattern.pieces} == {"one_side", "whole"}
    assert pattern.piece("SF").outline.area == pytest.approx(bare().piece("SF").outline.area)


def test_a_diagonal_runs_over_an_unfolded_front() -> None:
    start, end = at_level("front-princess", "underbust"), {**at_level("front-princess", "waist"), "side": "left"}
    pattern = made(BOTH, {**across(start, end), "pieces": ["CF"]})
    assert faults(pattern) == []
    line = pattern.piece("CF").on_line("cut/line")[0].curve
    assert shapely.LineString([line.start, line.end]).length > 2 * 60


@pytest.mark.parametrize(
    ("step", "said"),
    [
        ({**YOKE, "pieces": ["XX"]}, "no piece 'XX'"),
        ({**YOKE, "height": {"level": "hip"}}, "misses the side front piece"),
        ({**YOKE, "height": {"level": "top-hip", "offset_cm": 0.5}}, "nowhere 1.5 cm wide"),
        ({**PANEL, "pieces": ["CB"]}, "does not lie between front princess and side"),
        ({**PANEL, "towards": "back-princess"}, "not the two sides of one panel"),
        (across({"line": "centre-back", "fraction": 0.5}, {"line": "side", "fraction": 0.5}), "no edge on the line"),
        (across({"line": "side", "fraction": 0.2}, {"line": "side", "fraction": 0.8}), "does not split the side front"),
        (across(at_level("side", "hip"), {"line": "front-princess", "fraction": 0.5}), "hip level does not meet"),
        (across(at_level("side", "waist", -30.0), {"line": "neck/line", "fraction": 0.5}), "beyond the side edge"),
        ({"kind": "split", "uid": "cut", "pieces": ["SF"]}, "where on the outline"),
    ],
)
def test_what_cannot_be_split_says_why(step: dict[str, Any], said: str) -> None:
    assert said in reason(step)


def test_nothing_is_left_to_unfold_twice() -> None:
    assert "take this step out" in reason(BOTH, {**BOTH, "uid": "again"})


@pytest.mark.parametrize(
    "more",
    [
        {"pieces": ["SF", "SF"]},
        {"height": {"level": "bust"}},
        {"way": "panel", "fraction": 0.99},
        {"start": {"line": "side"}},
        {"start": {"line": "side", "fraction": 0.5, "level": "bust"}},
        {"start": {"line": "side", "fraction": 1.5}},
    ],
)
def test_a_step_that_cannot_be_is_refused_when_it_is_read(more: dict[str, Any]) -> None:
    with pytest.raises(DesignError):
        steps_from_json([{"kind": "split", "uid": "cut", "pieces": ["SF"], **more}])


def test_a_part_with_a_bit_of_the_waist_in_its_corner_has_its_grain_square_to_that_bit() -> None:
    """On a body whose waist line bends: what is left of it there runs 2.7 degrees off the line as a whole."""
    block = make_block(list(plausible_bodies(84))[83], BlockOptions(centre_back_shape="straight")).pattern
    cut = across(at_level("side", "underbust", 0.48), {"line": "back-princess", "fraction": 0.34}, pieces=["SB"])
    part = made(cut, block=block).piece("SB-cut")
    waist = part.inside_line("waist")
    assert waist is not None
    assert 0.5 <= waist.curve.length < 1.0
    along, chord = part.grain.vector / part.grain.length, waist.curve.chord / np.linalg.norm(waist.curve.chord)
    assert abs(along @ chord) < np.sin(np.radians(0.25))
