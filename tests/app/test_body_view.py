"""The Body view: the torso has the wearer's girths, and the pieces lie on it as they are sewn."""

from dataclasses import replace
from functools import cache
from itertools import pairwise

import numpy as np
import pytest
import shapely

from panelwright.app.body_view import OUTSIDE, BodyView, Patch, body_view
from panelwright.app.demo.troupe import DANCED, designs, troupe
from panelwright.app.drawn_design import sketch_design
from panelwright.app.flat_mesh import even_points
from panelwright.app.panel_map import PieceMap, panel_maps
from panelwright.app.torso_mesh import torso_mesh
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.body.measurements import Measurements
from panelwright.body.size_table import size
from panelwright.body.torso import Torso
from panelwright.body.torso_shape import GIRTHS, TorsoShape
from panelwright.design.position import Height
from panelwright.design.top_edge import TopEdge
from panelwright.geometry.arrays import Array
from panelwright.pattern.pattern import Pattern

BARE = "round-04"  # ends below the shoulders; its tie was grown from two panels
HIGH = "moon-05"  # to the shoulder
MEET = 1.6  # mm


@cache
def _worn(ref: str) -> tuple[Pattern, Block, BodyView]:
    design = next(each.design for each in designs() if each.design.ref == ref)
    wearer = next(each.wearer for each in troupe() if each.wearer.ref == DANCED[ref][0])
    block = make_block(wearer, design.block_options)
    drawn = sketch_design(design, block)
    return drawn.pattern, block, body_view(drawn.pattern, block, drawn.worn_straps)


def _ring(points: Array, height: float) -> Array:
    """The points of one height, in order round the body."""
    row = np.unique(np.round(points[np.abs(points[:, 2] - height) < 1e-6], 6), axis=0)
    return row[np.argsort(np.arctan2(row[:, 0], row[:, 1]))]


def _girth(ring: Array) -> float:
    return float(np.linalg.norm(ring - np.roll(ring, 1, axis=0), axis=1).sum())


@pytest.mark.parametrize("bust", [76, 88, 128])
def test_a_tape_round_the_torso_reads_the_wearers_girths(bust: int) -> None:
    wearer = size(bust)
    torso = Torso(TorsoShape.of(wearer))
    mesh = torso_mesh(wearer, torso)
    waist = _ring(mesh.skin.points, 0.0)
    assert len(waist) == 72
    assert _girth(waist) == pytest.approx(wearer["waist_girth"], abs=1.0)
    for level, term in GIRTHS.items():
        ring = _ring(mesh.taped.points, torso.shape.heights[level])
        assert _girth(ring) == pytest.approx(wearer[term], abs=1.0), level


def test_all_triangles_of_the_torso_face_outwards() -> None:
    wearer = size(92)
    skin = torso_mesh(wearer, Torso(TorsoShape.of(wearer))).skin
    a, b, c = (skin.points[skin.triangles[:, k]] for k in range(3))
    faces, middles = np.cross(b - a, c - a), (a + b + c) / 3
    outwards = middles * np.array([1.0, 1.0, 0.0])
    lower = middles[:, 2] < 0  # below the waist the body is round about its axis
    assert (np.einsum("nk,nk->n", faces, outwards)[lower] > 0).all()
    assert skin.points[:, 2].max() > wearer["back_neck_to_waist"]  # with shoulders and neck


def test_a_wearer_on_whom_no_shoulders_can_be_built_ends_at_the_upper_bust() -> None:
    taken = {"bust_girth": 880, "underbust_girth": 750, "waist_girth": 720, "hip_girth": 960, "back_neck_to_waist": 400}
    wearer = Measurements.of("w-50", taken | {"shoulder_length": 215, "underarm_to_waist": 300})
    torso = Torso(TorsoShape.of(wearer))
    skin = torso_mesh(wearer, torso).skin
    assert skin.points[:, 2].max() == pytest.approx(torso.shape.heights["upper-bust"])


@pytest.mark.parametrize("ref", [BARE, HIGH])
def test_the_whole_view_is_small_enough_to_be_sent(ref: str) -> None:
    view = _worn(ref)[2]
    count = len(view.torso.triangles) + sum(len(patch.triangles) for patch in view.panels)
    assert 5_000 < count <= 20_000


@pytest.mark.parametrize("ref", [BARE, HIGH])
def test_the_triangles_fill_their_piece(ref: str) -> None:
    pattern, _, view = _worn(ref)
    for patch in view.panels:
        piece = pattern.piece(patch.piece)
        if any(region.boundary for region in piece.material):
            continue  # a tie hangs off the body
        a, b, c = (patch.flat[patch.triangles[:, k]] for k in range(3))
        areas = ((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]) / 2
        assert ((areas > 0) == (patch.hand == "right")).all()
        assert np.abs(areas).sum() == pytest.approx(piece.outline.area, rel=2e-3)


def _barycentric(corners: Array, point: Array) -> Array:
    """Weights of three corners, shape (3, k), nearest to a point."""
    sides = (corners[1:] - corners[0]).T
    inner = np.linalg.lstsq(sides, point - corners[0], rcond=None)[0]
    return np.array([1.0 - inner.sum(), *inner])


def _found(patch: Patch, grid: Array, point: Array) -> tuple[int, Array]:
    """(triangle, weights) of the place in one of the two grids that lies nearest to a point."""
    best: tuple[float, int, Array] | None = None
    middles = grid[patch.triangles].mean(axis=1)
    for k in np.argsort(np.linalg.norm(middles - point, axis=1))[:12].tolist():
        corners = grid[patch.triangles[k]]
        weights = np.clip(_barycentric(corners, point), 0.0, 1.0)
        weights /= weights.sum()
        away = float(np.linalg.norm(weights @ corners - point))
        if best is None or away < best[0]:
            best = away, k, weights
    assert best is not None
    return best[1], best[2]


@pytest.mark.parametrize("ref", [BARE, HIGH])
def test_a_flat_place_is_found_on_the_body_and_back(ref: str) -> None:
    view = _worn(ref)[2]
    chance = np.random.default_rng(7)
    for patch in view.panels:
        for k in chance.integers(len(patch.triangles), size=6).tolist():
            flat = patch.flat[patch.triangles[k]].mean(axis=0)
            triangle, weights = _found(patch, patch.flat, flat)
            body = weights @ patch.body[patch.triangles[triangle]]
            triangle, weights = _found(patch, patch.body, body)
            assert weights @ patch.flat[patch.triangles[triangle]] == pytest.approx(flat, abs=1e-6)


@pytest.mark.parametrize("ref", [BARE, HIGH])
def test_pieces_meet_along_their_seams_on_the_body(ref: str) -> None:
    pattern, _, view = _worn(ref)
    places = {(patch.piece, patch.hand): patch for patch in view.panels}
    met = 0
    for seam in pattern.seams:
        if seam.kind != "join" or len(seam.a) != 1 or len(seam.b) != 1:
            continue
        length = pattern.chain_length(seam.a)
        for share in np.linspace(0.0, 1.0, 40):
            ends = []
            for chain in (seam.a, seam.b):
                span, point, _ = pattern.along_chain(chain, float(share) * length)
                patch = places[span.piece, "right"]
                triangle, weights = _found(patch, patch.flat, point)
                ends.append(weights @ patch.body[patch.triangles[triangle]])
            # The block's own price for equal seams: places at one length up the two edges lie 1.5 mm apart at most.
            assert np.linalg.norm(ends[0] - ends[1]) < MEET, (seam.id, share)
            met += 1
    assert met >= 80


@pytest.mark.parametrize("ref", [BARE, HIGH])
def test_lengths_on_the_body_are_those_of_the_cloth_within_the_blocks_strain(ref: str) -> None:
    """Before it is kept outside the body, which draws it a little larger."""
    pattern, block, view = _worn(ref)
    maps = panel_maps(block)
    for patch in view.panels:
        piece = pattern.piece(patch.piece)
        if piece.id not in block.strain_p95 or patch.hand != "right":
            continue
        space = PieceMap(piece, maps).in_space(patch.flat)
        flat, body = patch.flat[patch.triangles], space[patch.triangles]
        on_paper, worn = (np.linalg.norm(each - np.roll(each, 1, axis=1), axis=-1) for each in (flat, body))
        stretch = np.abs(worn / on_paper - 1)
        # The block's figure is of the whole panel and along its own two directions; a garment has the part where the
        # body turns most, and triangles have sides in all directions.
        assert np.percentile(stretch, 95) < 2.0 * block.strain_p95[piece.id]
        assert np.median(stretch) < block.strain_p95[piece.id] / 2
        assert np.percentile(stretch, 95) > 1e-4  # a body is no cylinder: some strain there must be


def test_cloth_lies_outside_the_body() -> None:
    _, block, view = _worn(HIGH)
    taped = torso_mesh(block.wearer, block.torso).taped
    for patch in view.panels:
        again = taped.kept_outside(patch.body, OUTSIDE)
        assert np.linalg.norm(again - patch.body, axis=1).max() < 1.0


def test_both_sides_are_mirror_images() -> None:
    view = _worn(BARE)[2]
    for right, left in pairwise(view.panels):
        if right.hand == "right":
            assert (left.piece, left.hand) == (right.piece, "left")
            assert left.body == pytest.approx(right.body * np.array([-1.0, 1.0, 1.0]))
    assert {patch.piece for patch in view.panels} == {"CF", "SF", "TIE"}


def test_ties_without_cloth_of_the_block_are_named_and_not_drawn() -> None:
    view = _worn("river-06")[2]
    assert view.hanging == ("TIE-1", "TIE-2", "TIE-3")
    assert not {patch.piece for patch in view.panels} & set(view.hanging)


def _way_length(points: Array) -> float:
    return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())


@pytest.mark.parametrize("ref", ["drum-03", "river-06", "star-07"])
def test_a_strap_of_its_own_lies_over_the_shoulder_at_its_length(ref: str) -> None:
    pattern, _, view = _worn(ref)
    strip = "HALTER" if ref == "star-07" else "STRAP"
    patch = next(each for each in view.panels if each.piece == strip)
    count = len(patch.body) // 2
    rails = patch.body[:count], patch.body[count:]
    middle = (rails[0] + rails[1]) / 2
    (reckoned,) = [sum(p.length for p in w.parts) for w in pattern.workings if "strap" in w.what.lower()]
    knotted = [p.length for w in pattern.workings if "strap" in w.what.lower() for p in w.parts[2:]]
    assert _way_length(middle) == pytest.approx(reckoned - sum(knotted), rel=0.06)
    across = np.linalg.norm(rails[0] - rails[1], axis=1)
    flat = np.linalg.norm(patch.flat[:count] - patch.flat[count:], axis=1)
    assert np.median(np.abs(across / flat - 1)) < 0.25
    assert middle[:, 2].max() > view.torso.points[:, 2].max() - 90  # over the shoulder, and not round the arm


def test_a_strap_that_crosses_comes_down_on_the_other_side() -> None:
    view = _worn("river-06")[2]
    ends = {patch.hand: patch.body[len(patch.body) // 2 - 1, 0] for patch in view.panels if patch.piece == "STRAP"}
    assert ends["right"] < -5
    assert ends["left"] > 5
    straight = _worn("drum-03")[2]
    ends = {patch.hand: patch.body[len(patch.body) // 2 - 1, 0] for patch in straight.panels if patch.piece == "STRAP"}
    assert ends["right"] > 5
    assert ends["left"] < -5


def test_levels_that_an_edge_crosses_are_told() -> None:
    """Held against the outlines: of such a level a part of the block's line lies inside the pieces, and a part not."""
    _, block, _ = _worn("lantern-01")
    design = next(each.design for each in designs() if each.design.ref == "lantern-01")
    (neckline,) = (step for step in design.steps if isinstance(step, TopEdge))
    deep = replace(neckline, centre=Height("bust", -8.0))
    steps = tuple(deep if step is neckline else step for step in design.steps)
    pattern = sketch_design(replace(design, steps=steps), block).pattern
    in_part = set()
    for level in block.pattern.levels:
        inside = []
        for piece in block.pattern.pieces:
            now = next(each for each in pattern.pieces if each.id == piece.id)
            for line in piece.inside:
                if line.id == level.id:
                    shape = now.outline.buffer(0.5)
                    inside += [shape.contains(shapely.Point(place)) for place in even_points(line.curve)]
        if any(inside) and not all(inside):
            in_part.add(level.id)
    assert "bust" in in_part
    assert {level.id for level in body_view(pattern, block).crossed} == in_part


def test_the_document_is_flat_lists_of_one_length() -> None:
    told = _worn(HIGH)[2].document()
    for panel in told["panels"]:  # type: ignore[attr-defined]
        assert len(panel["flat"]) / 2 == len(panel["body"]) / 3 == max(panel["triangles"]) + 1
    lines = {line["line"] for line in told["lines"]}  # type: ignore[attr-defined]
    assert {"front-princess", "waist", "side"} <= lines
