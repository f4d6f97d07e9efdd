"""Handles: a step taken hold of on the flat pieces goes where the hand goes, and stays the kind of step it was."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from design.demo_garments import REFS, DemoGarment, demo_garment
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_block import plain_block

from panelwright.app.demo.troupe import troupe
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.design.body_chart import half_chart
from panelwright.design.bones import Bones
from panelwright.design.closure import ClosureStep
from panelwright.design.finished_edge import FreePoint
from panelwright.design.handle import Handle, dragged, handles
from panelwright.design.hem import Hem
from panelwright.design.moved_height import moved_on_line
from panelwright.design.position import BodyPoint, Height, height_at
from panelwright.design.replay import Design, replay
from panelwright.design.step import Step
from panelwright.design.tie import Tie
from panelwright.design.top_edge import TopEdge
from panelwright.errors import DesignError
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern

BLOCK = plain_block()
HEM = Hem("hem", "straight", Height("waist"), Height("waist"))
WITHIN = 0.2  # mm

# What can be taken hold of in each demo design: step -> handles.
EXPECTED = {
    "lantern-01": {"neckline": "centre side back", "hem": "centre side back", "back": "end", "bones": ""},
    "ribbon-02": {
        "neckline": "centre side back", "hem": "centre side back", "straps": "shoulder width front back foot",
        "back": "end",
    },
    "drum-03": {
        "neckline": "centre side back", "hem": "centre side back", "straps": "front back end width",
        "front": "spacing", "back": "gap",
    },
    "round-04": {"neckline": "centre side", "hem": "centre side", "tie": "end height"},
    "moon-05": {
        "top": "front-depth back-depth width armhole shoulder", "hem": "centre side back", "back": "",
        "side-opening": "end",
    },
    "river-06": {
        "neckline": "centre side back", "hem": "centre side back", "straps": "front back end width",
        "front": "end", "front-ties": "end width", "back": "",
    },
    "star-07": {
        "neckline": "centre side back", "hem": "centre side back", "halter": "front end width", "front": "",
        "back": "end", "sash": "end height width", "bones": "",
    },
    "ring-08": {"zip-back": "end", "band": ""},
}  # fmt: skip


def found(step: Step, name: str, pattern: Pattern, block: Pattern, before: Pattern | None = None) -> Handle:
    (handle,) = [each for each in handles(step, pattern, block, before) if each.name == name]
    return handle


def along(handle: Handle, distance: float) -> Point:
    """A place on the handle's way, no farther than its end."""
    at, way = np.array(handle.at), np.array(handle.way)
    direction = (way[1] - way[0]) / np.linalg.norm(way[1] - way[0])
    low, high = (way - at) @ direction
    x, y = at + min(max(distance, low), high) * direction
    return float(x), float(y)


def off(handle: Handle, place: Point) -> float:
    return float(np.linalg.norm(np.subtract(handle.at, place)))


def held(garment: DemoGarment, step: Step) -> tuple[Handle, ...]:
    """The handles of a step of a demo design."""
    return handles(step, garment.pattern, garment.block, garment.before(step))


def steps(ref: str) -> tuple[Step, ...]:
    return demo_garment(ref).design.steps


@pytest.mark.parametrize("ref", REFS)
def test_every_demo_design_can_be_taken_hold_of(ref: str) -> None:
    garment = demo_garment(ref)
    names = {
        step.uid: " ".join(each.name.replace(" ", "-") for each in held(garment, step)) for step in garment.design.steps
    }
    assert names == EXPECTED[ref]


@pytest.mark.parametrize("ref", REFS)
def test_one_handle_asked_for_by_name_is_the_one_among_all(ref: str) -> None:
    garment = demo_garment(ref)
    for step in garment.design.steps:
        for handle in held(garment, step):
            (alone,) = handles(step, garment.pattern, garment.block, garment.before(step), handle.name)
            assert (alone.name, alone.piece, alone.at) == (handle.name, handle.piece, handle.at)


# Openings, whose only handle is their end, have tests of their own: near the hem they are held to it.
MOVED = [(ref, uid) for ref in REFS for uid, names in EXPECTED[ref].items() if names not in ("", "end")]


@pytest.mark.parametrize(("ref", "uid"), MOVED)
def test_a_handle_goes_where_it_is_dragged(ref: str, uid: str) -> None:
    garment = demo_garment(ref)
    step = garment.step(uid)
    for handle in held(garment, step):
        arrived = [place for place in (-8.0, 3.0) if _arrives(garment, step, handle, place)]
        assert arrived, f"{handle.name} went nowhere"


def _arrives(garment: DemoGarment, step: Step, handle: Handle, distance: float) -> bool:
    """Whether a handle can be dragged that far; if it can, it is there within 0.2 mm."""
    to, before = along(handle, distance), garment.before(step)
    if off(handle, to) < 1.0:
        return False
    try:
        changed = dragged(step, handle.name, handle.piece, to, garment.pattern, garment.block, before=before)
    except DesignError:
        return False
    made = garment.with_step(changed)
    if not made.complete:
        return False
    after = found(changed, handle.name, made.pattern, garment.block, before)
    if after.piece != handle.piece:  # a strap's end that was moved across a seam
        return False
    assert changed != step
    assert off(after, to) < WITHIN, (handle.name, distance)
    return True


@pytest.mark.parametrize("ref", REFS)
def test_a_handle_left_where_it_is_changes_nothing(ref: str) -> None:
    garment = demo_garment(ref)
    for step in garment.design.steps:
        before = garment.before(step)
        for handle in held(garment, step):
            at = handle.piece, handle.at
            same = dragged(step, handle.name, *at, garment.pattern, garment.block, before=before)
            assert same == step


@cache
def on_plain_block(step: Step, *others: Step) -> Pattern:
    made = replay(Design("test-01", "Test", (step, *others)), BLOCK)
    assert made.complete, made.outcomes
    return made.pattern


def moved(step: Step, name: str, distance: float, *others: Step, snap: bool = False) -> Step:
    """A step on the plain block with a handle moved along its way."""
    pattern = on_plain_block(step, *others)
    handle = found(step, name, pattern, BLOCK)
    return dragged(step, name, handle.piece, along(handle, distance), pattern, BLOCK, snap)


OFFSETS = TopEdge("neck", "sweetheart", Height("bust", 5.0), Height("upper-bust", -15.0))
SHARES = replace(OFFSETS, centre=Height("bust", share=0.25), side=Height("bust", share=0.8))


def test_an_offset_stays_one_and_is_kept_to_a_tenth_of_a_millimetre() -> None:
    step = moved(OFFSETS, "centre", 7.04, HEM)
    assert isinstance(step, TopEdge)
    assert step.centre == Height("bust", 12.0)
    assert (step.side, step.back) == (OFFSETS.side, None)


def test_what_was_in_proportion_stays_so() -> None:
    step = moved(SHARES, "centre", -4.0, HEM)
    assert isinstance(step, TopEdge)
    assert step.centre.level == "bust"
    assert 0.0 < step.centre.share < 0.25
    assert step.centre.offset == 0.0


def test_a_height_in_proportion_goes_on_past_its_levels() -> None:
    chart = half_chart(BLOCK)
    line = chart.uprights[0]
    row = chart.row("waist")
    between = (line.rows[row + 1] + line.rows[row + 2]) / 2 * line.length
    height = moved_on_line(chart, 0, between, Height("waist", share=0.5))
    assert height.share == pytest.approx(0.5) or height.share == pytest.approx(-0.5)
    assert height.level in (chart.rows[row + 1].level, chart.rows[row + 2].level)


def test_the_back_gets_a_height_of_its_own_when_it_is_moved() -> None:
    step = moved(OFFSETS, "back", -6.0, HEM)
    assert isinstance(step, TopEdge)
    assert step.back is not None
    assert step.back.level == "upper-bust"
    assert step.side == OFFSETS.side


def test_a_straight_hem_moves_as_a_whole() -> None:
    top = TopEdge("neck", "straight", Height("bust", 5.0), Height("bust", 5.0))
    step = moved(HEM, "side", 5.0, top)
    assert isinstance(step, Hem)
    assert step.centre == step.side
    assert 2.0 < step.centre.offset < 6.0


def test_a_height_snaps_to_a_level_within_three_millimetres_only() -> None:
    near, far = Height("waist", -2.4), Height("waist", -8.0)
    for start, expected in ((near, Height("waist")), (far, Height("waist", -7.0))):
        hem = replace(HEM, shape="shaped", centre=start, side=Height("waist", -20.0))
        step = moved(hem, "centre", 1.0, OFFSETS, snap=True)
        assert isinstance(step, Hem)
        assert step.centre == expected
    free = moved(replace(HEM, shape="shaped", centre=near), "centre", 1.0, OFFSETS)
    assert isinstance(free, Hem)
    assert free.centre == Height("waist", -1.4)


def test_a_height_snaps_to_another_level_than_its_own() -> None:
    arc = half_chart(BLOCK).uprights[0].rows[half_chart(BLOCK).row("bust")] * half_chart(BLOCK).uprights[0].length
    height = moved_on_line(half_chart(BLOCK), 0, arc - 2.0, Height("waist", 100.0), snap=True)
    assert height == Height("bust")


def free_point(step: Step) -> BodyPoint:
    assert isinstance(step, TopEdge)
    return step.points[0].at


def put(step: TopEdge, by: tuple[float, float], snap: bool) -> BodyPoint:
    """The free point of an edge on the plain block, moved by so many mm on its piece."""
    pattern = on_plain_block(step, HEM)
    handle = found(step, "point 1", pattern, BLOCK)
    to = (handle.at[0] + by[0], handle.at[1] + by[1])
    return free_point(dragged(step, handle.name, handle.piece, to, pattern, BLOCK, snap))


def test_a_free_point_snaps_to_the_seam_beside_it() -> None:
    chart = half_chart(BLOCK)
    width = chart.widths[1].at(height_at(chart, 1.5, BETWEEN.at.height))[0]
    step = replace(OFFSETS, shape="straight", points=(BETWEEN,))
    for share, expected in ((0.5 - 2.0 / width, 0.0), (0.5 - 8.0 / width, None), (2.0 / width - 0.5, 1.0)):
        # On a side front piece the front princess seam lies on the right: across runs against x.
        for snap in (True, False):
            at = put(step, (share * width, 0.0), snap)
            if snap and expected is not None:
                assert at.fraction == expected
            else:
                assert 0.0 < at.fraction < 1.0


def test_a_place_level_with_the_one_beside_it_makes_the_edge_run_square() -> None:
    chart = half_chart(BLOCK)
    level = height_at(chart, 0.0, Height("bust", 30.0))
    line = chart.uprights[1]
    for off, squared in ((2.0, True), (-2.0, True), (6.0, False)):
        arc = line.shares.at(level + off)[0] * line.length
        height = moved_on_line(chart, 1, arc, Height("bust", 10.0), snap=True, square=(level,))
        reached = height_at(chart, 1.0, height)
        assert (abs(reached - level) < 0.2) == squared
        assert abs(reached - level - (0.0 if squared else off)) < 0.3


def test_what_lies_beyond_the_block_is_refused_in_one_sentence() -> None:
    pattern = on_plain_block(OFFSETS, HEM)
    handle = found(OFFSETS, "centre", pattern, BLOCK)
    high = (handle.at[0], handle.at[1] + 900.0)
    with pytest.raises(DesignError, match=r"^top edge: at the centre front line it would lie .* above") as refused:
        dragged(OFFSETS, "centre", handle.piece, high, pattern, BLOCK)
    assert refused.value.where == "step neck"


def test_a_handle_that_is_not_there_is_refused() -> None:
    pattern = on_plain_block(OFFSETS, HEM)
    handle = found(OFFSETS, "centre", pattern, BLOCK)
    for name, piece in (("point 1", handle.piece), ("centre", "CB")):
        with pytest.raises(DesignError, match="has no handle"):
            dragged(OFFSETS, name, piece, handle.at, pattern, BLOCK)
    with pytest.raises(DesignError, match="two numbers"):
        dragged(OFFSETS, "centre", handle.piece, (float("nan"), 0.0), pattern, BLOCK)


ON_LINE = FreePoint(BodyPoint(Height("bust", 40.0), "front-princess"))
BETWEEN = FreePoint(BodyPoint(Height("bust", 45.0), "front-princess", "side", 0.5))
BACKWARDS = FreePoint(BodyPoint(Height("bust", 45.0), "side", "front-princess", 0.3))


@pytest.mark.parametrize("point", [ON_LINE, BETWEEN, BACKWARDS])
def test_free_points_are_handles_that_keep_how_they_were_told(point: FreePoint) -> None:
    neck = replace(OFFSETS, points=(point,))
    step = moved(neck, "point 1", 6.0, HEM)
    assert isinstance(step, TopEdge)
    (after,) = step.points
    assert (after.at.line, after.at.towards, after.corner) == (point.at.line, point.at.towards, False)
    assert after.at.height.level == "bust"
    assert 3.0 < after.at.height.offset - point.at.height.offset < 7.0
    assert after.at.fraction == pytest.approx(point.at.fraction, abs=0.01)


@given(x=st.floats(-25.0, 25.0), y=st.floats(-30.0, 3.0))
@settings(max_examples=40)
def test_a_point_between_two_lines_goes_anywhere_on_its_panel(x: float, y: float) -> None:
    neck = replace(OFFSETS, points=(BETWEEN,))
    pattern = on_plain_block(neck, HEM)
    handle = found(neck, "point 1", pattern, BLOCK)
    to = (handle.at[0] + x, handle.at[1] + y)
    changed = dragged(neck, "point 1", handle.piece, to, pattern, BLOCK)
    assert handle.anywhere
    assert off(found(changed, "point 1", pattern, BLOCK), to) < WITHIN


def test_a_point_on_an_anchors_line_stands_in_its_place() -> None:
    neck = replace(OFFSETS, points=(FreePoint(BodyPoint(Height("bust", 10.0), "centre-front")),))
    names = [each.name for each in handles(neck, on_plain_block(neck, HEM), BLOCK)]
    assert names == ["side", "back", "point 1"]


@cache
def five_panels() -> Pattern:
    return make_block(next(troupe()).wearer, BlockOptions(panels=5)).pattern


@pytest.mark.parametrize("side", [Height("upper-bust", -15.0), Height("bust", share=0.75)])
def test_a_side_in_the_middle_of_a_panel_is_dragged_like_any_other(side: Height) -> None:
    block = five_panels()
    neck = TopEdge("neck", "scooped", Height("bust", 20.0), side)
    made = replay(Design("test-01", "Test", (neck, HEM)), block)
    handle = found(neck, "side", made.pattern, block)
    to = along(handle, -5.0)
    changed = dragged(neck, "side", handle.piece, to, made.pattern, block)
    after = replay(Design("test-01", "Test", (changed, HEM)), block)
    assert off(found(changed, "side", after.pattern, block), to) < WITHIN
    assert isinstance(changed, TopEdge)
    assert bool(changed.side.share) == bool(side.share)


def test_a_given_length_of_a_tie_changes_and_a_reckoned_one_keeps_its_reckoning() -> None:
    garment = demo_garment("round-04")
    given_length = garment.step("tie")
    assert isinstance(given_length, Tie)
    for step in (given_length, replace(given_length, length=None)):
        pattern = garment.with_step(step).pattern
        handle = found(step, "end", pattern, garment.block)
        longer = dragged(step, "end", handle.piece, along(handle, 20.0), pattern, garment.block)
        assert isinstance(longer, Tie)
        if step.length is not None:
            assert longer == replace(step, length=step.length + 20.0)
        else:
            assert longer == replace(step, tail=step.tail + 20.0)


@pytest.mark.parametrize(("ref", "uid"), [("lantern-01", "back"), ("moon-05", "side-opening")])
def test_an_opening_keeps_being_a_length_or_a_height(ref: str, uid: str) -> None:
    garment = demo_garment(ref)
    whole = garment.step(uid)
    assert isinstance(whole, ClosureStep)
    by_length, by_height = replace(whole, opening=160.0), replace(whole, down_to=Height("waist", -10.0))
    for step in (by_length, by_height):
        pattern = garment.with_step(step).pattern
        handle = found(step, "end", pattern, garment.block)
        to = along(handle, -5.0)
        lower = dragged(step, "end", handle.piece, to, pattern, garment.block)
        assert off(found(lower, "end", garment.with_step(lower).pattern, garment.block), to) < WITHIN
        assert isinstance(lower, ClosureStep)
        if step.opening is not None:
            assert lower.opening is not None
            assert 161.0 < lower.opening < 165.2
            assert lower.down_to is None
        else:
            assert lower.down_to is not None
            assert -15.2 < lower.down_to.offset < -11.0
            assert lower.down_to.level == "waist"
            assert lower.opening is None


def test_an_opening_dragged_to_the_hem_of_a_centre_opens_all_of_it() -> None:
    garment = demo_garment("lantern-01")
    step = replace(garment.step("back"), down_to=Height("top-hip", 30.0))  # type: ignore[type-var]  # a closure
    pattern = garment.with_step(step).pattern
    handle = found(step, "end", pattern, garment.block)
    changed = dragged(step, "end", handle.piece, along(handle, -25.0), pattern, garment.block)
    assert changed == garment.step("back")


def test_the_height_of_bones_is_a_handle_where_one_is_given() -> None:
    garment = demo_garment("lantern-01")
    bones = Bones("bones", up_to=Height("bust", -20.0))
    pattern = garment.with_step(bones).pattern
    handle = found(bones, "top", pattern, garment.block)
    changed = dragged(bones, "top", handle.piece, along(handle, -3.0), pattern, garment.block)
    assert isinstance(changed, Bones)
    assert changed.up_to is not None
    assert changed.up_to.offset == pytest.approx(-23.0, abs=0.2)
