"""Panels of a surface that can be unrolled are laid together without a gap: a cylinder's are one rectangle, a cone's
one sector of a ring. What is left when a cone's panels are laid together about a point of their seam is the angle that
the cone takes out of the paper there: none, since it is flat everywhere but at its apex."""

import math

import numpy as np
import pytest
from design.developable_block import HEIGHTS, WIDTHS, developable_block

from panelwright.design.join_step import Join
from panelwright.errors import DesignError
from panelwright.pattern.piece import Piece

REACHES = [None, 700.0, 900.0, 2000.0]
FRONT = WIDTHS["CF"] + WIDTHS["SF"]
BACK = WIDTHS["CB"] + WIDTHS["SB"]


def level(piece: Piece, name: str) -> np.ndarray:
    """Points along a level, which may cross the piece in several stretches, shape (n, 2)."""
    curves = [line.curve for line in piece.inside if line.kind == "level" and line.id.removesuffix("-2") == name]
    assert curves, name
    return np.concatenate([[curve.point(share * curve.length) for share in np.linspace(0, 1, 9)] for curve in curves])


def apex(points: np.ndarray) -> np.ndarray:
    """Centre of the circle through three of the points, shape (2,)."""
    a, b, c = points[0], points[len(points) // 2], points[-1]
    rows = 2 * np.array([b - a, c - a])
    return np.linalg.solve(rows, [b @ b - a @ a, c @ c - a @ a])


@pytest.mark.parametrize("reach", REACHES)
@pytest.mark.parametrize(("seam", "girth"), [("front-princess", FRONT), ("back-princess", BACK)])
def test_two_panels_become_one_rectangle_or_one_sector(seam: str, girth: float, reach: float | None) -> None:
    block = developable_block(reach)
    made = Join("join", seam, grain="first").apply(block, block)
    [joined] = [piece for piece in made.pieces if len({region.panel for region in piece.material}) == 2]
    [misfit] = [working for working in made.workings if working.id == "join/misfit"]
    assert misfit.length == pytest.approx(0.0, abs=0.02)
    for name, height in HEIGHTS.items():
        points = level(joined, name)
        if reach is None:
            assert np.ptp(points[:, 1]) == pytest.approx(0.0, abs=1e-6)
            assert np.ptp(points[:, 0]) == pytest.approx(girth, abs=1e-6)
            continue
        centre = apex(points)
        radii = np.linalg.norm(points - centre, axis=1)
        assert radii == pytest.approx(np.full(len(points), reach - height), abs=0.05)
        ends = points - centre
        angles = np.unwrap(np.arctan2(ends[:, 1], ends[:, 0]))
        assert np.ptp(angles) == pytest.approx(girth / reach, abs=1e-4)
        assert math.dist(centre, apex(level(joined, "waist"))) < 0.3, "all levels run round one apex"


@pytest.mark.parametrize("reach", REACHES)
def test_there_is_no_dart_to_sew_where_nothing_gapes(reach: float | None) -> None:
    block = developable_block(reach)
    with pytest.raises(DesignError, match="lap over each other where the dart should open"):
        Join("join", "front-princess", misfit="dart").apply(block, block)
