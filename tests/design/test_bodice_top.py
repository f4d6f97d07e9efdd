"""The bodice to the shoulder as a step: where it cuts, how it runs on, and what it refuses."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plausible_bodies import plausible_bodies

from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.design.bodice_top import BodiceTop
from panelwright.design.hem import Hem
from panelwright.design.position import Height
from panelwright.design.step_file import steps_from_json, steps_to_json
from panelwright.design.top_edge import TopEdge
from panelwright.errors import DesignError

WEARER = next(plausible_bodies(1, seed=4))
BLOCK = make_block(WEARER, BlockOptions(top="shoulder")).pattern
TO_ARMHOLE = make_block(
    WEARER, BlockOptions(top="shoulder", front_princess_to="armhole", back_princess_to="armhole")
).pattern
HEM = Hem("hem", "shaped", Height("hip", offset=20.0), Height("top-hip"))
SHAPES = ("round", "v", "square")


def test_nothing_asked_for_is_the_blocks_own_top() -> None:
    plain = BodiceTop("top", armhole_lower=0.0).apply(BLOCK, BLOCK)
    whole = BLOCK.to_shoulder
    assert whole is not None
    for piece in whole.pieces:
        made = plain.piece(piece.id)
        assert made.outline.symmetric_difference(piece.outline).area < 0.5


@pytest.mark.parametrize("shape", SHAPES)
def test_depths_and_width_are_where_they_were_asked_for(shape: str) -> None:
    step = BodiceTop("top", shape, front_depth=70.0, back_depth=25.0, width=20.0, armhole_lower=15.0)  # type: ignore[arg-type]
    plain, made = BodiceTop("top", armhole_lower=0.0).apply(BLOCK, BLOCK), step.apply(BLOCK, BLOCK)
    for piece, line, less in (
        ("CF", "centre-front", 70.0),
        ("CB", "centre-back", 25.0),
        ("CF", "shoulder", 20.0),
        ("CB", "shoulder", 20.0),
        ("SF", "side", 15.0),
        ("SB", "side", 15.0),
    ):
        (before,), (after,) = plain.piece(piece).on_line(line), made.piece(piece).on_line(line)
        assert before.curve.length - after.curve.length == pytest.approx(less, abs=1e-6)


@settings(deadline=None, max_examples=25)
@given(
    shape=st.sampled_from(SHAPES),
    depth=st.floats(0.0, 90.0),
    back=st.floats(0.0, 60.0),
    width=st.floats(0.0, 30.0),
    lower=st.floats(0.0, 30.0),
    inwards=st.floats(0.0, 20.0),
    armhole=st.booleans(),
)
def test_front_and_back_run_on_into_each_other(
    shape: str, depth: float, back: float, width: float, lower: float, inwards: float, armhole: bool
) -> None:
    block = TO_ARMHOLE if armhole else BLOCK
    made = BodiceTop("top", shape, depth, back, width, lower, inwards).apply(block, block)  # type: ignore[arg-type]
    shoulder = made.seam("shoulder")
    assert made.chain_length(shoulder.a) == pytest.approx(made.chain_length(shoulder.b), abs=0.05)
    for piece in made.pieces:
        for edge in piece.edges:
            after = piece.after(edge)
            if {edge.line, after.line} & {"shoulder"} and {edge.kind, after.kind} == {"seam", "finished"}:
                assert np.degrees(piece.inner_angle(edge)) == pytest.approx(90.0, abs=0.5)
    front, back_piece = made.piece("SF"), made.piece("SB")
    (up,), (down,) = back_piece.on_line("side"), front.on_line("side")
    angle = np.degrees(back_piece.inner_angle(up) + front.inner_angle(front.before(down)))
    assert angle == pytest.approx(180.0, abs=1.0)


def test_it_does_not_matter_whether_the_hem_comes_first() -> None:
    step = BodiceTop("top", front_depth=40.0)
    one = HEM.apply(step.apply(BLOCK, BLOCK), BLOCK)
    other = step.apply(HEM.apply(BLOCK, BLOCK), BLOCK)
    for piece in one.pieces:
        assert piece.outline.symmetric_difference(other.piece(piece.id).outline).area < 0.5


def test_a_top_edge_after_it_makes_the_bodice_strapless_again() -> None:
    top = TopEdge("edge", "straight", Height("upper-bust", -10.0), Height("upper-bust", -10.0))
    direct = top.apply(BLOCK, BLOCK)
    round_about = top.apply(BodiceTop("top").apply(BLOCK, BLOCK), BLOCK)
    assert "shoulder" not in {seam.id for seam in round_about.seams}
    for piece in direct.pieces:
        assert piece.outline.symmetric_difference(round_about.piece(piece.id).outline).area < 0.5


def test_reading_and_writing_gives_the_same_step() -> None:
    for step in (BodiceTop("top"), BodiceTop("top", "v", 80.0, 12.5, 15.0, 20.0, 5.0)):
        assert steps_from_json(steps_to_json((step,))) == (step,)


@pytest.mark.parametrize(
    ("step", "sentence"),
    [
        (BodiceTop("top", width=100.0), "lead the princess seam to the armhole"),
        (BodiceTop("top", "square", 150.0, 0.0, 45.0), "make it narrower or less deep"),
        (BodiceTop("top", shoulder_in=100.0), "leave 1.5 cm"),
    ],
)
def test_what_does_not_fit_is_refused_with_a_remedy(step: BodiceTop, sentence: str) -> None:
    with pytest.raises(DesignError, match="bodice top"):
        step.apply(BLOCK, BLOCK)
    with pytest.raises(DesignError, match=sentence):
        step.apply(BLOCK, BLOCK)


def test_it_needs_a_block_to_the_shoulder_and_comes_before_other_tops() -> None:
    with pytest.raises(DesignError, match="needs a block up to the shoulder"):
        BodiceTop("top").apply(replace(BLOCK, to_shoulder=None), replace(BLOCK, to_shoulder=None))
    cut = TopEdge("edge", "straight", Height("bust", 30.0), Height("bust", 30.0)).apply(BLOCK, BLOCK)
    with pytest.raises(DesignError, match="put this step before any top edge"):
        BodiceTop("top").apply(cut, BLOCK)


@pytest.mark.parametrize("field", ["front_depth", "back_depth", "width", "armhole_lower", "shoulder_in"])
def test_measures_out_of_range_are_refused(field: str) -> None:
    for value in (-1.0, 1e4, float("nan")):
        with pytest.raises(DesignError, match="give 0 to"):
            BodiceTop("top", **{field: value})  # type: ignore[arg-type]
