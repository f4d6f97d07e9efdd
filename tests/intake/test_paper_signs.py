"""What is drawn on paper is read from a photo: grain, levels, fold, notches; against what was drawn there."""

from itertools import pairwise

import numpy as np
import pytest
from intake.photo_compare import compared
from intake.photo_outcome import marks_right
from intake.photo_partners import partners
from intake.photo_shapes import shaped
from intake.rendered_photo import Scene, jpeg, render

from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.intake.cut_notch import without_gaps
from panelwright.intake.drawn_edge import DrawnEdge
from panelwright.intake.paper_signs import paper_signs
from panelwright.intake.paper_strokes import PaperStroke
from panelwright.intake.photo import read_photo
from panelwright.intake.photo_pieces import PhotoPieces
from panelwright.intake.signs_told import signs_told

SCENE = {"size": (1900, 1425), "tilt": 8.0, "pen": (0.5, 0.3)}


def table(**settings: object) -> Scene:
    pieces = (
        shaped("front", 0.9, True).placed(0.03, np.zeros(2)),
        shaped("sleeve", 0.7, True).placed(-0.05, np.array([75.0, 0.0])),
    )
    return Scene(pieces, **{**SCENE, **settings})  # type: ignore[arg-type]


def read(what: Scene) -> PhotoPieces:
    return read_photo(jpeg(render(what)[0], 90))


@pytest.mark.parametrize("paper", ["white", "squared"])
def test_grain_levels_fold_and_notches_are_read(paper: str) -> None:
    what = table(table="walnut", colour=paper)
    found = read(what)
    right = marks_right(found.pieces, compared(found.pieces, what.pieces), what.pieces)
    assert right["grain"] == (2, 2)
    assert right["levels"][0] == 4
    assert right["levels"][1] <= (4 if paper == "white" else 5)
    assert right["folds"] == (1, 1)
    assert right["notches"][0] >= 3
    if paper == "squared":  # where its rulings end at the outline, some look like notches
        return
    assert right["notches"][1] <= 5
    front = found.pieces[0]
    assert [line.id for line in front.inside if line.kind == "level"] == ["level-1", "level-2"]
    heights = [line.curve.point(line.curve.length / 2)[1] for line in front.inside if line.kind == "level"]
    assert heights[0] > heights[1]
    told = signs_told(front)
    assert told.startswith("piece-1: grain line ")
    assert "lies on the fold" in told


def test_partners_of_a_photographed_block_are_found() -> None:
    true, found = partners("lantern-01", 0, "walnut")
    assert true <= found


@pytest.mark.soak
def test_partners_of_every_photographed_block() -> None:
    from design.demo_garments import REFS

    tables = ("dark", "walnut", "grey cloth", "mat", "linen")
    pairs = [partners(ref, k, tables[k % 5]) for k, ref in enumerate(REFS)]
    right, every = sum(len(a & b) for a, b in pairs), sum(len(a | b) for a, b in pairs)
    assert right / every >= 0.9


def rectangle(wide: float, high: float) -> Array:
    corners = np.array([(0, 0), (wide, 0), (wide, high), (0, high), (0, 0)], float)
    parts = [a + np.arange(0, 1, 0.2 / np.hypot(*(b - a)))[:, None] * (b - a) for a, b in pairwise(corners)]
    return np.concatenate(parts)


def with_bay(wide: float, deep: float) -> Array:
    """A rectangle of 80 by 60 with a V cut into its lower side at x = 30."""
    outline = rectangle(80, 60)
    low = (outline[:, 1] < 1e-9) & (np.abs(outline[:, 0] - 30) < wide / 2)
    outline[low, 1] = deep * (1 - 2 * np.abs(outline[low, 0] - 30) / wide)
    return outline


def test_a_notch_cut_into_the_paper_is_found_and_the_edge_runs_straight_across() -> None:
    whole, mouths = without_gaps(with_bay(3.0, 4.0))
    assert len(mouths) == 1
    assert np.hypot(*(mouths[0] - [30, 0])) < 0.7
    assert whole[:, 1].min() > -1e-9
    assert whole[(np.abs(whole[:, 0] - 30) < 8) & (whole[:, 1] < 30), 1].max() < 0.4


@pytest.mark.parametrize("outline", [rectangle(80, 60), with_bay(12.0, 30.0), with_bay(14.0, 5.0)])
def test_darts_corners_and_wide_hollows_are_the_shape(outline: Array) -> None:
    assert without_gaps(outline)[1] == []


def stroke(*points: tuple[float, float], arrows: tuple[bool, bool] = (False, False)) -> PaperStroke:
    ends = np.array(points, float)
    arcs = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(ends, axis=0).T))])
    at = np.arange(0, arcs[-1], 0.4)
    return PaperStroke(np.column_stack([np.interp(at, arcs, ends[:, k]) for k in (0, 1)]), 0.1, arrows)


CORNERS = [(0.0, 0.0), (50.0, 0.0), (50.0, 90.0), (0.0, 90.0)]
EDGES = [DrawnEdge(Curve.straight(a, b)) for a, b in zip(CORNERS, CORNERS[1:] + CORNERS[:1], strict=True)]


def test_a_line_along_the_piece_is_its_grain_with_a_doubt_unless_it_has_arrow_heads() -> None:
    plain = paper_signs([stroke((20, 15), (20, 75))], rectangle(50, 90), EDGES)
    assert plain.grain is not None
    assert "guessed" in plain.doubts[0]
    sure = paper_signs(
        [stroke((20, 15), (20, 75)), stroke((30, 70), (34, 20), arrows=(True, True))], rectangle(50, 90), EDGES
    )
    assert sure.grain is not None
    assert sure.grain.start[0] == pytest.approx(34, abs=0.5)
    assert sure.doubts == ()


def test_more_signs_than_a_piece_has_are_doubted() -> None:
    ticks = [stroke((0, y), (4, y)) for y in range(9, 88, 6)]
    few, many = (paper_signs(some, rectangle(50, 90), EDGES) for some in (ticks[:5], [*ticks, *across()]))
    assert few.doubts == ()
    assert "as on squared paper" in many.doubts[-1]


def across() -> list[PaperStroke]:
    return [stroke((0, y), (50, y)) for y in (12, 30, 48)]


def test_lines_across_are_levels_and_ticks_are_notches() -> None:
    found = paper_signs(
        [
            stroke((0.8, 30), (49.2, 31)),
            stroke((3, 60), (47, 60)),
            stroke((49.3, 45), (45, 45)),
            stroke((10, 0.6), (10, 5)),
            stroke((13, 0.6), (13, 5)),
            stroke((20, 40), (28, 40)),
        ],
        rectangle(50, 90),
        EDGES,
    )
    levels = [line for line in found.lines if line.kind == "level"]
    assert [line.id for line in levels] == ["level-1", "level-2"]
    assert levels[0].curve.start[1] == pytest.approx(60, abs=0.2)
    assert sorted((round(n.at[0]), round(n.at[1]), n.count) for n in found.notches) == [(12, 0, 2), (50, 45, 1)]
    assert found.grain is None


def test_a_bracket_marks_its_edge_as_the_fold() -> None:
    line, arms = stroke((6, 20), (6, 70)), [stroke((0.8, 20), (6, 20)), stroke((6, 70), (0.8, 70))]
    found = paper_signs([line, *arms], rectangle(50, 90), EDGES)
    assert found.folds == (3,)
    assert found.notches == ()
    assert found.grain is None
    half = paper_signs([line, arms[0]], rectangle(50, 90), EDGES)
    assert half.folds == ()
    assert "may say that it lies on the fold" in half.doubts[0]
