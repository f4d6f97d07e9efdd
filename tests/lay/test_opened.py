"""A half opened along its fold, against shapely's union of the half and its reflection."""

import numpy as np
import pytest
import shapely
from plain_cutting_pattern import plain_cutting_pattern
from shapely import Polygon, affinity

from panelwright.errors import GeometryError
from panelwright.lay.opened import opened_outline


def reflected(half: Polygon, fold: np.ndarray) -> Polygon:
    """Reflection in a line, by turning it upright and back: shapely's own transformations."""
    (x0, y0), (x1, y1) = fold
    angle = np.degrees(np.arctan2(x1 - x0, y1 - y0))
    upright = affinity.rotate(half, angle, origin=(x0, y0))
    return affinity.rotate(affinity.scale(upright, -1.0, 1.0, origin=(x0, y0)), -angle, origin=(x0, y0))


@pytest.mark.parametrize("turned", [0.0, 0.4, 2.5, -1.2])
def test_the_opened_piece_is_the_half_and_its_reflection(turned: float) -> None:
    piece, cut = next(pair for pair in plain_cutting_pattern().pieces if pair[0].extent == "half_on_fold")
    fold = next(edge.curve for edge in piece.edges if edge.kind == "fold")
    c, s = np.cos(turned), np.sin(turned)
    turn = np.array([[c, s], [-s, c]])
    outline, line = cut.cut_line @ turn, np.array([fold.start, fold.end]) @ turn
    whole, half = Polygon(opened_outline(outline, line)), Polygon(outline)
    assert whole.is_valid
    assert whole.exterior.is_ccw
    assert whole.area == pytest.approx(2 * half.area, rel=1e-9)
    both = shapely.union(half.buffer(1e-6), reflected(half, line).buffer(1e-6))
    assert whole.symmetric_difference(both).area < 0.01


def test_a_fold_that_is_a_little_bent_is_straightened() -> None:
    """A pattern file may have a fold that strays 0.2 mm: docs/pattern-file.md, rule 6."""
    half = np.array([(-50.0, 0.0), (0.0, 0.0), (0.15, 40.0), (0.0, 100.0), (-50.0, 100.0)])
    whole = Polygon(opened_outline(half, np.array([(0.0, 0.0), (0.0, 100.0)])))
    assert whole.equals(shapely.box(-50, 0, 50, 100))


def test_a_piece_without_an_edge_on_the_line_is_refused() -> None:
    box = np.array([(-50.0, 0.0), (-10.0, 0.0), (-10.0, 100.0), (-50.0, 100.0)])
    with pytest.raises(GeometryError, match="along its fold"):
        opened_outline(box, np.array([(0.0, 0.0), (0.0, 100.0)]))
