"""Truing, against the outside verifier, against lengths measured on the written file, and on what it must not do."""

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from design.demo_garments import demo_garment
from hypothesis import given, settings
from hypothesis import strategies as st
from intake.drawn_pieces import on_paper
from measured_pattern import MeasuredPattern, length
from plain_block import plain_block
from verifier import violations

from panelwright.checks import check_drafting
from panelwright.checks.level_girth import drawn_girth
from panelwright.errors import InputError
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.geometry.curve import Curve
from panelwright.intake.bent_end import turned_end, with_ends
from panelwright.intake.own_findings import check_own_block
from panelwright.intake.own_pattern import pattern_of
from panelwright.intake.pencil import pencil_girth
from panelwright.intake.points_curve import curve_through
from panelwright.intake.truing import trued, turned_down
from panelwright.output.pattern_document import pattern_to_json
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern

# Block -> least share of levels within 4 mm: six panels a half have half as many edges again as four.
BLOCKS = {"plain": 0.85, "lantern-01": 0.85, "star-07": 0.7}


def block(name: str) -> Pattern:
    return plain_block() if name == "plain" else demo_garment(name).block


@pytest.mark.parametrize("name", BLOCKS)
def test_a_block_drawn_at_quarter_scale_by_hand_comes_true_again(name: str, shared: Path) -> None:
    """Points off by up to 0.2 mm of paper. Girths stay within what a pencil gives, most of them within 4 mm."""
    original = block(name)
    off = []
    for seed in range(4):
        made = trued(pattern_of(on_paper(original, noise=0.2, seed=seed, spacing=5)))
        assert made.left == ()
        assert violations(shared, pattern_to_json(finish(made.pattern, Finish(allowance=10.0)))) == []
        for level in made.pattern.levels:
            off.append(abs(drawn_girth(made.pattern, level) - drawn_girth(original, original.level(level.id))))
            assert off[-1] < pencil_girth(made.pattern, level.id, 0.2, 4.0).girth
    assert len(off) == 28
    assert np.sqrt(np.mean(np.square(off))) < 3.0
    assert np.mean(np.array(off) < 4.0) >= BLOCKS[name]


def top_at_the_fold(pattern: Pattern) -> Edge:
    """The edge of CF before the corner at which the neckline meets the centre front."""
    piece = pattern.piece("CF")
    at = [k for k, edge in enumerate(piece.edges) if "fold" in (edge.kind, piece.edges[k - 1].kind)]
    corners = [piece.edges[k - 1] for k in at]
    return max(corners, key=lambda edge: float(edge.curve.end[1]))


def test_the_point_of_a_sweetheart_is_no_mistake_of_the_hand() -> None:
    """33 degrees off square is meant; the fold, straightened beside it, turns by a few; the hem is squared."""
    original = demo_garment("lantern-01").pattern
    made = trued(pattern_of(on_paper(original, noise=0.2, spacing=5))).pattern
    before, after = (math.degrees(each.piece("CF").inner_angle(top_at_the_fold(each))) for each in (original, made))
    assert before == pytest.approx(123.0, abs=0.5)
    assert after == pytest.approx(before, abs=6.0)
    assert top_at_the_fold(made).pointed_end
    told = check_drafting(finish(made, Finish(allowance=10.0)))
    assert [finding.code for finding in told if finding.code == "fold-angle"] == []
    low = [edge for edge in made.piece("CF").edges if edge.pointed_end]
    assert low == [top_at_the_fold(made)]


def test_a_block_to_the_shoulder_comes_true_again(shared: Path) -> None:
    """Seams that end in other seams: moving one end changes the other's length."""
    original = demo_garment("drum-03").block.to_shoulder
    assert original is not None
    made = trued(pattern_of(on_paper(original, noise=0.2, spacing=5)))
    cutting = finish(made.pattern, Finish(allowance=10.0))
    assert violations(shared, pattern_to_json(cutting)) == []
    assert check_drafting(cutting) == ()
    assert {seam.id for seam in made.pattern.seams} >= {"shoulder", "shoulder-2", "side"}


def test_the_two_halves_meet_in_the_middle_or_follow_the_master() -> None:
    """Lengths are measured on the written file by a ruler that knows nothing of our geometry."""
    own = pattern_of(on_paper(plain_block(), noise=0.2, seed=4, spacing=5))
    before = lengths(own, "side")
    assert abs(before[0] - before[1]) > 0.5
    both, a, b = (lengths(trued(own, {"side": master}).pattern, "side") for master in ("both", "a", "b"))  # type: ignore[dict-item]
    assert both == pytest.approx([sum(before) / 2] * 2, abs=0.4)
    assert a == pytest.approx([before[0]] * 2, abs=0.2)
    assert b == pytest.approx([before[1]] * 2, abs=0.2)


def lengths(pattern: Pattern, seam: str) -> tuple[float, float]:
    document = pattern_to_json(finish(pattern, Finish(allowance=0.0)))
    return MeasuredPattern(document).seam_sides(next(s for s in document["seams"] if s["id"] == seam))


def test_between_levels_both_sides_are_one_length() -> None:
    made = trued(pattern_of(on_paper(demo_garment("lantern-01").block, noise=0.2, spacing=5))).pattern
    for seam in made.seams:
        if seam.kind == "join":
            arcs = []
            for span in (seam.a[0], seam.b[0]):
                edge, piece = made.edge(span), made.piece(span.piece)
                places = [made.level_place(edge, piece, level.id) for level in made.levels]
                assert None not in places
                arcs.append(np.diff(np.array(places, float)))
            assert np.allclose(arcs[0], arcs[1], atol=1e-4)


def test_what_is_true_already_is_hardly_touched() -> None:
    """Only the ends of upper edge and hem are turned, which the plain block draws straight."""
    original = plain_block()
    made = trued(original)
    assert {change.edge.split(".")[1] for change in made.changes} <= {"top", "hem"}
    assert all(change.most < 8.0 for change in made.changes)
    again = trued(made.pattern)
    assert again.changes == ()


def test_changes_name_every_edge_that_moved_and_by_how_much() -> None:
    own = pattern_of(on_paper(plain_block(), noise=0.2, spacing=5))
    made = trued(own)
    told = {change.edge: change for change in made.changes}
    for piece in own.pieces:
        for edge in piece.edges:
            new = made.pattern.piece(piece.id).edge(edge.id).curve
            gaps = [edge.curve.nearest(new.point(arc))[1] for arc in np.arange(0.0, new.length, 0.7)]
            ends = [np.linalg.norm(edge.curve.start - new.start), np.linalg.norm(edge.curve.end - new.end)]
            most = max(*gaps, *map(float, ends))
            if most > 0.1:
                assert told[edge.id].most == pytest.approx(most, abs=0.05)
                assert told[edge.id].old == edge.curve
                assert told[edge.id].new == new
    assert [c.most for c in made.changes] == sorted((c.most for c in made.changes), reverse=True)


def test_a_seam_of_very_different_sides_is_left_and_told() -> None:
    own = plain_block()
    odd = replace(own.seams[1], a=own.seams[1].a, b=own.seams[1].b, ease=60.0)
    made = trued(replace(own, seams=(own.seams[0], odd, *own.seams[2:])))
    assert [(left.seam, round(left.off)) for left in made.left] == [("side", 60)]


@given(st.tuples(*[st.floats(-3, 3)] * 4), st.booleans(), st.floats(-0.4, 0.4))
@settings(max_examples=30)
def test_carried_and_turned_curves(by: tuple[float, ...], at_end: bool, angle: float) -> None:
    """Ends go where they are put and nothing moves farther than they do; a turned end turns by just its angle."""
    curve = curve_through([(0, 0), (60, 14), (130, 10), (200, 30)])
    start, end = curve.start + by[:2], curve.end + by[2:]
    moved = with_ends(curve, start, end)
    assert (moved.start == start).all()
    assert (moved.end == end).all()
    reach = max(np.hypot(*by[:2]), np.hypot(*by[2:])) + 1e-6
    assert max(curve.nearest(place)[1] for place in moved.polyline()) <= reach
    turned = turned_end(curve, at_end, angle)
    old, new = (c.end_tangent if at_end else c.start_tangent for c in (curve, turned))
    assert np.arctan2(old[0] * new[1] - old[1] * new[0], old @ new) == pytest.approx(angle, abs=1e-9)
    kept = turned.start_tangent if at_end else turned.end_tangent
    assert np.allclose(kept, curve.start_tangent if at_end else curve.end_tangent)
    assert isinstance(turned, Curve)


@pytest.mark.parametrize("swapped", [False, True])
@pytest.mark.parametrize("ease", [8.0, -8.0])
def test_stated_ease_is_kept_by_truing(ease: float, swapped: bool, shared: Path) -> None:
    """Measured on the written file: b stays that much longer than a, whichever way round the seam was written."""
    drawn = on_paper(plain_block(), noise=0.2, spacing=5)
    named = next(seam for seam in drawn.seams if seam.line == "front-princess")
    sides = (named.b, named.a) if swapped else (named.a, named.b)
    eased = replace(named, a=sides[0], b=sides[1], ease=ease)
    seams = tuple(eased if seam is named else seam for seam in drawn.seams)
    made = trued(pattern_of(replace(drawn, seams=seams)))
    document = pattern_to_json(finish(made.pattern, Finish(allowance=10.0)))
    assert violations(shared, document) == []
    measured = MeasuredPattern(document)
    long, short = (measured.edge(f"{side.piece}.front-princess") for side in (eased.b, eased.a))
    assert length(long) - length(short) == pytest.approx(ease, abs=0.02)


def test_more_than_can_be_eased_in_is_refused() -> None:
    named = on_paper(plain_block()).seams[0]
    with pytest.raises(InputError, match="an ease of 6 cm cannot be eased in"):
        replace(named, ease=60.0)


def hand_drawn() -> Pattern:
    return pattern_of(on_paper(plain_block(), noise=0.2, seed=4, spacing=5))


@given(st.data())
@settings(max_examples=6, deadline=None)
def test_an_edge_that_is_left_stays_where_it_was_drawn(data: st.DataObject) -> None:
    """Whichever edges are left: the maker's own lines stay, corners too, and every change of the others is told."""
    own = hand_drawn()
    ids = [edge.id for piece in own.pieces for edge in piece.edges]
    kept = data.draw(st.sets(st.sampled_from(ids), min_size=1, max_size=len(ids)))
    made = trued(own, kept=kept)
    for piece in own.pieces:
        for edge in piece.edges:
            new = made.pattern.piece(piece.id).edge(edge.id).curve
            if edge.id in kept:
                assert np.allclose(new.points, edge.curve.points, atol=1e-9)
    assert not {change.edge for change in made.changes} & kept
    assert {change.edge for change in turned_down(own, kept)} == kept


def test_what_is_sewn_to_an_edge_that_is_left_comes_to_it() -> None:
    """The whole difference, where both give half of it otherwise; measured on the written file."""
    own = hand_drawn()
    front, back = lengths(own, "side")
    assert abs(front - back) > 0.5
    for kept, wanted in (("SF.side", front), ("SB.side", back)):
        made = trued(own, kept={kept}).pattern
        assert lengths(made, "side") == pytest.approx([wanted] * 2, abs=0.02)
        assert check_own_block(made) == ()


def test_a_hem_that_is_left_keeps_its_corners_and_the_next_piece_comes_to_them() -> None:
    own = hand_drawn()
    made = trued(own, kept={"SF.hem"}).pattern
    assert made.piece("SF").edge("SF.hem").curve == own.piece("SF").edge("SF.hem").curve
    assert check_own_block(made) == ()
    for seam in ("front-princess", "side", "back-princess"):
        assert np.diff(lengths(made, seam)) == pytest.approx(0.0, abs=0.02)


def test_where_both_hems_are_left_the_last_stretch_stays_uneven_and_is_told() -> None:
    """The side of SF reaches 6 mm lower than that of SB, of the garment; the other stretches are evened."""
    drawn = on_paper(plain_block(), noise=0.2, seed=4, spacing=5)
    front = drawn.piece("SF")
    hem, side = front.edges[0], front.edges[-1]
    low = hem.curve.start - (0.0, 1.5)
    edges = (
        replace(hem, curve=hem.curve.ending_at(start=low)),
        *front.edges[1:-1],
        replace(side, curve=side.curve.ending_at(end=low)),
    )
    pieces = tuple(replace(front, edges=edges) if piece is front else piece for piece in drawn.pieces)
    own = pattern_of(replace(drawn, pieces=pieces))
    (found,) = check_own_block(trued(own, kept={"SF.hem", "SB.hem"}).pattern)
    assert found.subject == "side"
    assert "the hem" in found.message
    assert found.value == pytest.approx(abs(float(np.diff(lengths(own, "side"))[0])), abs=1.5)
    assert check_own_block(trued(own).pattern) == ()


def test_across_a_seam_the_edge_that_is_not_left_turns_by_the_whole_angle() -> None:
    own = hand_drawn()
    for kept in ({"SF.hem"}, {"SB.hem"}, set()):
        assert check_drafting(finish(trued(own, kept=kept).pattern, Finish(allowance=10.0))) == ()
    rough = check_drafting(finish(trued(own, kept={"SF.hem", "SB.hem"}).pattern, Finish(allowance=10.0)))
    assert "blend" in {finding.code for finding in rough}
