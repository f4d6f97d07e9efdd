"""A learner's pattern reviewed: what was put wrong is found by its size and place, and nothing else is."""

import json
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from intake.learner_table import Faults, drawn_points, run_length, table
from plain_block import plain_block

from panelwright.app.design_file import load_design
from panelwright.app.drawn_file import read_drawn
from panelwright.app.garment import make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.body.size_table import size
from panelwright.errors import InputError
from panelwright.intake.review import Review, review
from panelwright.intake.review_point import SEAM
from panelwright.pattern.pattern import Pattern

NEAR = 0.2 * 4  # 0.2 mm at quarter scale, mm of the garment


@pytest.fixture(scope="module")
def lantern(repository: Path) -> Pattern:
    design: GarmentDesign = load_design(repository / "src/panelwright/app/demo/data/design-lantern-01.json")
    return make_garment(size(88), design).cutting.pattern


def reviewed(pattern: Pattern, faults: Faults) -> Review:
    return review(read_drawn(json.dumps(table(pattern, faults))), pattern)


def seams_off(pattern: Pattern, faults: Faults) -> dict[str, float]:
    """How much longer the first side of each seam became, by straight stretches through the points themselves."""
    grown = {}
    for piece in pattern.pieces:
        if piece.layer == "outer":
            drawn, right = drawn_points(piece, faults), drawn_points(piece, Faults(scale=faults.scale))
            for edge, a, b in zip(piece.edges, drawn, right, strict=True):
                grown[edge.id] = (run_length(a) - run_length(b)) * faults.scale
    off = {}
    for seam in pattern.seams:
        if seam.kind in ("join", "dart") and not seam.is_centre and all(s.edge in grown for s in seam.a + seam.b):
            a, b = (sum(grown[s.edge] * s.share for s in chain) for chain in (seam.a, seam.b))
            off[seam.id] = a - b / seam.ratio
    return {id: value for id, value in off.items() if abs(value) > SEAM}


def outward(pattern: Pattern, piece: str, corner: int) -> np.ndarray:
    """Unit vector out of the piece, halfway between its two edges at a corner."""
    drawn = pattern.piece(piece)
    way = drawn.edges[corner - 1].curve.end_tangent - drawn.edges[corner].curve.start_tangent
    return np.asarray(way / np.hypot(*way))


@pytest.mark.parametrize("seed", range(1, 6))
def test_what_a_pencil_is_off_is_nothing_to_tell(seed: int) -> None:
    assert reviewed(plain_block(), Faults(noise=0.1, seed=seed, lying=True)).points == ()


def test_a_garment_drawn_as_it_should_be_is_right(lantern: Pattern) -> None:
    found = reviewed(lantern, Faults(noise=0.1, seed=4, lying=True))
    assert found.points == ()
    assert len(found.pieces) == sum(piece.layer == "outer" for piece in lantern.pieces)
    assert found.seams


@pytest.mark.parametrize(("piece", "corner"), [("SF", 0), ("SF", 2), ("SB", 1), ("CB", 3)])
@pytest.mark.parametrize("off", [2.0, -1.5])
def test_a_corner_moved_is_found_by_its_size_and_side(lantern: Pattern, piece: str, corner: int, off: float) -> None:
    way = off * outward(lantern, piece, corner)
    faults = Faults({(piece, corner): (float(way[0]), float(way[1]))}, noise=0.1, seed=7, lying=True)
    found = reviewed(lantern, faults)
    (point,) = [point for point in found.points if point.kind != "seam"]
    assert point.kind == "corner"
    assert point.edge == lantern.piece(piece).edges[corner].id
    assert point.value == pytest.approx(off * 4, abs=NEAR)
    assert point.at == pytest.approx(tuple(lantern.piece(piece).vertices[corner]), abs=1e-6)
    _seams_agree(found, lantern, faults)


@pytest.mark.parametrize(("piece", "edge"), [("CF", 0), ("SF", 1), ("SB", 2), ("CB", 3)])
@pytest.mark.parametrize("off", [1.5, -1.2])
def test_a_bowed_edge_is_found_by_its_size_and_side(lantern: Pattern, piece: str, edge: int, off: float) -> None:
    faults = Faults(bows={(piece, edge): off}, noise=0.1, seed=3, lying=True)
    found = reviewed(lantern, faults)
    (point,) = [point for point in found.points if point.kind != "seam"]
    assert (point.kind, point.all_along) == ("edge", False)
    model = lantern.piece(piece).edges[edge]
    assert point.edge == model.id
    assert point.value == pytest.approx(off * 4, abs=NEAR)
    assert point.at is not None
    arc, away = model.curve.nearest(point.at)
    assert away < 0.01
    assert 0.3 < arc / model.curve.length < 0.7
    _seams_agree(found, lantern, faults)


def _seams_agree(found: Review, pattern: Pattern, faults: Faults) -> None:
    """Seams that are told are those that grew by more than the limit; within the noise of a length either is right."""
    told = {each.seam.id: each.off for each in found.seams if abs(each.off) > SEAM}
    assert len(told) == sum(point.kind == "seam" for point in found.points)
    wanted = seams_off(pattern, faults)
    for id in told.keys() ^ wanted.keys():
        assert abs({**told, **wanted}[id]) < SEAM + 2 * NEAR
    for id in told.keys() & wanted.keys():
        assert told[id] == pytest.approx(wanted[id], abs=2 * NEAR)


def test_a_line_drawn_beside_its_place_is_one_point() -> None:
    """The hem 2 mm too high on paper, the seams cut short by it: the hem is told, not three things."""
    block = plain_block()
    document = table(block, Faults(noise=0.05))
    number, piece = next((k, piece) for k, piece in enumerate(block.pieces) if piece.id == "SF")
    edges = document["pieces"][number]["edges"]  # type: ignore[index]
    hem = next(k for k, edge in enumerate(piece.edges) if edge.line == "hem")
    edges[hem]["points"] = [[x, y + 2.0] for x, y in edges[hem]["points"]]
    edges[hem - 1]["points"][-1] = edges[hem]["points"][0]
    edges[(hem + 1) % len(edges)]["points"][0] = edges[hem]["points"][-1]
    points = [p for p in review(read_drawn(json.dumps(document)), block).points if p.kind != "seam"]
    assert [(p.kind, p.all_along, p.lines) for p in points] == [("edge", True, ("hem",))]
    assert points[0].value == pytest.approx(-8.0, abs=NEAR)


def test_an_angle_on_the_fold_is_told_where_no_line_is_off() -> None:
    """Top and fold each lie off by less than a pencil's width, and together turn the corner between them."""
    block = plain_block()
    piece = block.piece("CF")
    top = next(k for k, edge in enumerate(piece.edges) if edge.line == "top")
    fold = next(k for k in (top - 1, (top + 1) % len(piece.edges)) if piece.edges[k].kind == "fold")
    far = top if fold != top - 1 and fold != len(piece.edges) - 1 else (top + 1) % len(piece.edges)
    shared = ({top, (top + 1) % len(piece.edges)} - {far}).pop()
    corner = piece.vertices[shared] / 4
    document = table(block, Faults({("CF", far): (0.0, 0.45)}))
    edge = document["pieces"][0]["edges"][fold]  # type: ignore[index]
    inward = np.sign(piece.vertices[far, 0] - piece.vertices[shared, 0])
    edge["points"] = [
        [x - 0.45 * inward * (12 < np.hypot(x - corner[0], y - corner[1]) < 28), y] for x, y in edge["points"]
    ]
    (point,) = review(read_drawn(json.dumps(document)), block).points
    assert point.kind == "fold-angle"
    assert point.at == pytest.approx(tuple(piece.vertices[shared]))
    assert point.value == pytest.approx(2 * 0.45 / 21, abs=0.01)


def test_missing_and_unknown_pieces_are_told_and_seams_beside_them_left_out() -> None:
    block = plain_block()
    document = table(block, Faults(without=("SB",), lying=True))
    square = [[0, 0], [20, 0], [20, 20], [0, 20]]
    edges = [{"points": [a, b]} for a, b in zip(square, square[1:] + square[:1], strict=True)]
    document["pieces"].append({"id": "pocket", "edges": edges})  # type: ignore[attr-defined]
    found = review(read_drawn(json.dumps(document)), block)
    assert [(p.kind, p.piece) for p in found.points] == [("missing", "Side back"), ("unknown", "pocket")]
    assert [each.seam.id for each in found.seams] == ["front-princess"]


def test_pieces_without_names_are_told_by_their_shape(lantern: Pattern) -> None:
    outer = [piece.id for piece in lantern.pieces if piece.layer == "outer"]
    names = {id: f"piece-{k}" for k, id in enumerate(reversed(outer), 1)}
    found = reviewed(lantern, Faults(noise=0.1, lying=True, names=names))
    assert {p.match.model.id: p.match.learner.id for p in found.pieces} == names
    assert found.points == ()
    assert not any(p.match.by_name for p in found.pieces)


def test_a_corner_too_many_does_not_hide_the_others() -> None:
    """An edge typed in two parts is still one edge."""
    block = plain_block()
    document = table(block, Faults(noise=0.05))
    edges = document["pieces"][1]["edges"]  # type: ignore[index]
    points = edges[1]["points"]
    half = len(points) // 2
    edges[1:2] = [{"points": points[: half + 1]}, {"points": points[half:]}]
    found = review(read_drawn(json.dumps(document)), block)
    assert found.points == ()
    assert all(piece.pairs is not None for piece in found.pieces)


def test_full_scale_is_held_against_half_a_millimetre() -> None:
    block = plain_block()
    assert reviewed(block, Faults(bows={("SF", 1): 0.3}, scale=1)).points == ()
    (point,) = reviewed(block, Faults(bows={("SF", 1): 1.0}, scale=1)).points
    assert point.limit == 0.5
    assert point.value == pytest.approx(1.0, abs=0.1)


@given(seed=st.integers(0, 10_000), bow=st.floats(1.0, 2.5))
@settings(max_examples=8, deadline=None)
def test_how_the_paper_lies_changes_nothing(seed: int, bow: float) -> None:
    """Turned, moved and mirrored pieces give the same points to a hundredth of a millimetre."""
    block = plain_block()
    faults = {("SB", 1): bow}
    still = reviewed(block, Faults(bows=faults))
    lying = reviewed(block, Faults(bows=faults, lying=True, seed=seed))
    assert [(p.kind, p.lines) for p in still.points] == [(p.kind, p.lines) for p in lying.points]
    assert [p.value for p in still.points] == pytest.approx([p.value for p in lying.points], abs=0.05)


def test_nothing_like_the_design_is_refused() -> None:
    document = table(plain_block(), Faults(names={id: f"{id}-x" for id in ("CF", "SF", "SB", "CB")}))
    document["scale"] = 1
    with pytest.raises(InputError, match=r"none of these pieces is like one of the design's: name them .* the scale"):
        review(read_drawn(json.dumps(document)), plain_block())
