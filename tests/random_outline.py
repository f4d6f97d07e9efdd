"""Hypothesis generators of smooth edges, and of outlines with allowances: edges round a rough oval."""

import numpy as np
import shapely
from hypothesis import assume
from hypothesis import strategies as st
from scipy.interpolate import CubicSpline

from panelwright.geometry.curve import Curve
from panelwright.geometry.offset import Allowance

STYLES = ("mitre", "square", "fold_back")


def through(points: np.ndarray) -> Curve:
    """The natural cubic spline through points, shape (n, 2), as Béziers (an edge as the block draws it)."""
    spline = CubicSpline(np.arange(len(points)), points, bc_type="natural")
    slopes = spline(np.arange(len(points)), 1)
    cubics = [
        [points[k], points[k] + slopes[k] / 3, points[k + 1] - slopes[k + 1] / 3, points[k + 1]]
        for k in range(len(points) - 1)
    ]
    return Curve(np.array(cubics))


def edge_curve(start: np.ndarray, end: np.ndarray, bulges: list[float]) -> Curve:
    """A smooth curve from start to end that bulges to its right by shares of its chord."""
    share = np.linspace(0, 1, len(bulges) + 2)[:, None]
    chord = end - start
    right = np.array([chord[1], -chord[0]])
    points = start + share * chord + np.array([0.0, *bulges, 0.0])[:, None] * right
    points[0], points[-1] = start, end
    return through(points)


@st.composite
def curves(draw: st.DrawFn) -> Curve:
    """One smooth edge of one to six cubics, 20 to 500 mm long, anywhere on a garment."""
    start = np.array([draw(st.floats(-600.0, 600.0)) for _ in range(2)])
    angle, length = draw(st.floats(0.0, 2 * np.pi)), draw(st.floats(20.0, 450.0))
    end = start + length * np.array([np.cos(angle), np.sin(angle)])
    return edge_curve(start, end, [draw(st.floats(-0.12, 0.12)) for _ in range(draw(st.integers(0, 5)))])


@st.composite
def outlines(draw: st.DrawFn, most_bulge: float = 0.12, most_width: float = 30.0) -> tuple[Allowance, ...]:
    """Four to six smooth edges anticlockwise, each with its own allowance and corner."""
    number = draw(st.integers(4, 6))
    angles = 2 * np.pi * (np.arange(number) + [draw(st.floats(-0.2, 0.2)) for _ in range(number)]) / number
    radii = np.array([draw(st.floats(0.75, 1.25)) for _ in range(number)])[:, None]
    size = [draw(st.floats(45.0, 120.0)), draw(st.floats(80.0, 250.0))]
    corners = radii * np.column_stack([np.cos(angles), np.sin(angles)]) * size
    edges = []
    for start, end in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        bulges = [draw(st.floats(-most_bulge, most_bulge)) for _ in range(draw(st.integers(1, 4)))]
        edges.append(
            Allowance(
                edge_curve(start, end, bulges),
                draw(st.sampled_from([0.0, 6.0, 10.0, 15.0]) | st.floats(0.5, most_width)),
                corner=draw(st.sampled_from(STYLES)),
                turned=draw(st.sampled_from(["this", "next"])),
            )
        )
    assume(shapely.Polygon(ring(tuple(edges), 0.05)).is_valid)
    return tuple(edges)


def ring(edges: tuple[Allowance, ...], tolerance: float = 0.001) -> np.ndarray:
    """The outline as a polyline within `tolerance` mm."""
    return np.concatenate([edge.curve.polyline(tolerance)[:-1] for edge in edges])
