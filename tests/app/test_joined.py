"""A seam walked: the motion is known for plain panels; on the troupe's garments partner places touch."""

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import shapely
from sewn_panels import two_panels

from panelwright.app.demo.troupe import DANCED, designs, troupe
from panelwright.app.drawn_design import sketch_design
from panelwright.app.joined import SHARES, JoinedSeam, joined
from panelwright.blocks.make_block import make_block
from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Span


@cache
def _danced(ref: str) -> Pattern:
    """A design of the troupe on the first who dances in it."""
    design = next(each.design for each in designs() if each.design.ref == ref)
    wearer = next(each.wearer for each in troupe() if each.wearer.ref == DANCED[ref][0])
    return sketch_design(design, make_block(wearer, design.block_options)).pattern


def _place(pattern: Pattern, chain: tuple[Span, ...], arc: float, laid: JoinedSeam, side: str) -> tuple[Array, Array]:
    """(point, outward normal) of a place on a side as it was laid."""
    span, point, normal = pattern.along_chain(chain, arc)
    pieces = laid.still if side == "a" else laid.moved
    at = next(each.placement for each in pieces if each.piece == span.piece)
    return at.points(point), at.vectors(normal)


def test_two_rectangles_need_one_shift_and_leave_no_gap() -> None:
    told = joined(two_panels(), "front-seam")
    assert len(told.joints) == SHARES
    for joint in told.joints:
        assert (joint.motion.angle, joint.motion.x, joint.motion.y) == pytest.approx((0.0, -120.0, 0.0), abs=1e-9)
        assert joint.gap == pytest.approx(0.0, abs=1e-9)
        assert joint.kink == pytest.approx(0.0, abs=1e-9)
    assert told.ends[0].lines == ("hem", "hem")
    assert told.ends[1].lines == ("top", "top")


def test_a_piece_that_lies_elsewhere_is_brought_back_by_the_known_motion() -> None:
    pattern = two_panels()
    away = Placement(0.3, 50.0, -70.0)
    told = joined(pattern.with_pieces(pattern.piece("B").placed(away)), "front-seam")
    wanted = Placement(x=-120.0).after(away.inverse)
    for joint in told.joints:
        assert (joint.motion.angle, joint.motion.x, joint.motion.y) == pytest.approx(
            (wanted.angle, wanted.x, wanted.y), abs=1e-9
        )


def test_ease_is_taken_up_along_the_way() -> None:
    told = joined(two_panels(ease=8.0), "front-seam")
    drops = [joint.motion.y for joint in told.joints]
    assert drops == pytest.approx(np.linspace(0.0, -8.0, SHARES))
    assert [told.joints[0].gap, told.joints[-1].gap] == pytest.approx([0.0, 8.0])


@pytest.mark.parametrize("drop", [-40.0, 0.0, 40.0])
def test_a_slanted_top_makes_a_peak_or_a_dip_of_its_slant(drop: float) -> None:
    pattern = two_panels()
    b = pattern.piece("B")
    corners = [(0.0, 0.0), (120.0, 0.0), (120.0, 400.0), (0.0, 400.0 - drop)]
    edges = tuple(
        replace(edge, curve=Curve.straight(corners[k], corners[(k + 1) % 4])) for k, edge in enumerate(b.edges)
    )
    told = joined(pattern.with_pieces(replace(b, edges=edges)), "front-seam")
    assert told.ends[1].kink == pytest.approx(-math.atan2(drop, 120.0))
    assert told.ends[0].kink == pytest.approx(0.0)


@pytest.mark.parametrize("seam_id", ["front-princess", "back-princess", "side"])
def test_partners_touch_and_face_each_other_all_along_a_fitted_seam(seam_id: str) -> None:
    pattern = _danced("lantern-01")
    seam, told = pattern.seam(seam_id), joined(pattern, seam_id)
    lengths = pattern.chain_length(seam.a), pattern.chain_length(seam.b)
    for joint in told.joints:
        a, out_a = _place(pattern, seam.a, joint.share * lengths[0], told, "a")
        b, out_b = _place(pattern, seam.b, joint.share * lengths[1], told, "b")
        assert joint.motion.points(b) == pytest.approx(a, abs=1e-6)
        facing = math.degrees(math.acos(np.clip(-joint.motion.vectors(out_b) @ out_a, -1.0, 1.0)))
        assert facing < 0.01
    assert told.joints[-1].gap > 1.0  # the edges bend away from each other: they touch at one place at a time


def test_the_kink_is_the_angle_between_the_lines_as_they_lie() -> None:
    pattern = _danced("lantern-01")
    told = joined(pattern, "front-princess")
    front, side = pattern.piece("CF"), pattern.piece("SF")
    hem_a = front.after(front.edge("CF.front-princess")).curve.start_tangent
    hem_b = -side.before(side.edge("SF.front-princess")).curve.end_tangent
    for joint in told.joints[: SHARES // 2]:
        on = -joint.motion.vectors(hem_b)
        turned = math.atan2(hem_a[0] * on[1] - hem_a[1] * on[0], hem_a @ on)
        assert abs(turned) == pytest.approx(abs(joint.kink or 0.0), abs=1e-6)
    assert any(abs(joint.kink or 0.0) > 0.1 for joint in told.joints[: SHARES // 2])
    assert told.joints[0].kink == pytest.approx(told.ends[0].kink)
    assert told.joints[-1].kink == pytest.approx(told.ends[1].kink)


def test_a_piece_of_the_other_hand_is_turned_over() -> None:
    pattern = _danced("river-06")
    told = joined(pattern, "STRAP.back")
    assert [laid.piece for laid in told.still] == ["CB", "SB"]
    assert all(laid.placement.mirrored for laid in told.still)
    assert not told.moved[0].placement.mirrored
    seam = pattern.seam("STRAP.back")
    ends = [_place(pattern, (span,), 0.0, told, "a")[0] for span in seam.a]
    reached = _place(pattern, seam.a[:1], pattern.chain_length(seam.a[:1]), told, "a")[0]
    assert reached == pytest.approx(ends[1], abs=1e-9)  # the second piece goes on where the first one ends
    assert told.ends[0].kink is None  # the strap ends within the neckline


def test_a_centre_seam_joins_a_piece_to_its_mirror_image() -> None:
    told = joined(_danced("river-06"), "centre-front")
    assert [laid.placement.mirrored for laid in (*told.still, *told.moved)] == [False, True]
    assert max(joint.gap for joint in told.joints) < 1e-6


def test_the_document_holds_numbers_alone() -> None:
    told = joined(two_panels(), "front-seam").document()
    assert (told["a"], told["b"]) == (["F"], ["B"])
    assert told["still"] == [{"piece": "F", "angle": 0.0, "x": 0.0, "y": 0.0, "mirrored": False}]
    steps = told["steps"]
    assert isinstance(steps, list)
    assert set(steps[0]) == {"share", "angle", "x", "y", "gap_mm", "degrees"}


def test_an_unknown_seam_is_refused() -> None:
    with pytest.raises(InputError, match="no such seam"):
        joined(two_panels(), "hem")


def _across(pattern: Pattern, told: JoinedSeam, share: float) -> float:
    """How much of side b lies on side a at a share of the seam, mm²: on grid points a millimetre and a half apart."""
    joint = told.joints[round(share * (SHARES - 1))]
    step = 1.5
    grounds = [(pattern.piece(each.piece).outline, each.placement) for each in told.still]
    count = 0
    for each in told.moved:
        outline = pattern.piece(each.piece).outline
        left, low, right, high = outline.bounds
        grid = np.stack(np.meshgrid(np.arange(left, right, step), np.arange(low, high, step)), axis=-1).reshape(-1, 2)
        own = grid[shapely.contains_xy(outline, grid)]
        on = joint.motion.points(each.placement.points(own))
        count += sum(int(shapely.contains_xy(ground, at.inverse.points(on)).sum()) for ground, at in grounds)
    return count * step**2


def _bulging(piece: Piece, by: float) -> Piece:
    """A panel whose seam edge bulges outwards, alike at both ends."""
    edges = []
    for edge in piece.edges:
        start, along = edge.curve.start, edge.curve.chord
        out = by / 0.75 * np.array([along[1], -along[0]]) / edge.curve.length  # a cubic reaches 3/4 of its handles
        curve = Curve(np.array([[start, start + along / 3 + out, start + 2 * along / 3 + out, start + along]]))
        edges.append(replace(edge, curve=curve) if edge.line == "front-seam" else edge)
    return replace(piece, edges=tuple(edges))


@pytest.mark.parametrize(
    ("ref", "seam"), [("lantern-01", "front-princess"), ("lantern-01", "side"), ("moon-05", "side")]
)
def test_a_seam_opens_where_its_pieces_lie_beside_each_other(ref: str, seam: str) -> None:
    pattern = _danced(ref)
    told = joined(pattern, seam)
    share = told.joints[told.clearest].share
    # At the start they lie across each other on an area that nobody can read through; a hand is about 130 cm².
    assert _across(pattern, told, 0.0) > 5000.0
    assert _across(pattern, told, share) < 0.2 * _across(pattern, told, 0.0)
    assert told.document()["opens_at"] == pytest.approx(share)


def test_a_straight_seam_opens_in_its_middle() -> None:
    assert joined(two_panels(), "front-seam").clearest == (SHARES - 1) / 2


def test_sides_that_bulge_apart_open_where_they_gape_evenly() -> None:
    # Two panels whose seam edges both bulge by 20 mm touch without overlap wherever they are laid: the middle gapes
    # least, since each side falls away from it alike.
    pattern = two_panels()
    pattern = pattern.with_pieces(*(_bulging(pattern.piece(id), 20.0) for id in "FB"))
    told = joined(pattern, "front-seam")
    assert told.joints[told.clearest].share == pytest.approx(0.5)
    assert _across(pattern, told, 0.5) == 0.0
