"""A change of a block's flat panels: what is wanted of it, and the panels that come nearest with all else kept.

Wanted is a movement of every panel. Kept are girths at every joint of the panels' splines, both sides of every seam
equal, and the length of every line that is not said to change. Of all panels that keep them exactly, those are taken
whose movement differs least from the wanted one: least in its slopes, so that what must give way gives way smoothly.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np
from scipy.linalg import cho_factor, cho_solve
from threadpoolctl import threadpool_limits

from panelwright.blocks.arc_constraint import ArcConstraint, ArcTerm
from panelwright.blocks.fit_panels import PanelFitter
from panelwright.blocks.tensor_spline import Breaks
from panelwright.errors import BlockError
from panelwright.fitting.worked_panel import WorkedPanel
from panelwright.geometry.arrays import Array
from panelwright.pattern import line as lines

MOST_ROUNDS = 25
EXACT = 1e-9  # mm: every constraint
STIFF = 20.0  # mm: how far a bend is spread
HELD = 0.002  # 1/mm: how strongly a movement that bends nothing is held back

Joints = Callable[[Array], Array]


@dataclass(frozen=True)
class Pinned:
    """A place of a panel that moves by a given amount up the paper, or stays."""

    panel: int
    z: float
    across: float
    up: float


@dataclass(frozen=True, eq=False)
class Reshape:
    """What a note asks for.

    Attributes:
        joints: joints of a panel's spline -> those that the change needs.
        wanted: (index, panel) -> wanted movement of its coefficients, shape (heights, across, 2), mm.
        widths: (index, panel, height) -> by how much the panel changes its width there, mm.
        lengths: (line, span between two levels) -> by how much the line changes its length, mm; 0 if left out.
        free: lines whose length is whatever comes out.
        pinned: places that are held.

    Lines are counted from the centre front, 0; spans from the hip up.
    """

    joints: Joints
    wanted: Callable[[int, WorkedPanel], Array]
    widths: Callable[[int, WorkedPanel, float], float] = lambda _k, _panel, _z: 0.0
    lengths: Mapping[tuple[int, int], float] = field(default_factory=dict)
    free: frozenset[int] = frozenset()
    pinned: tuple[Pinned, ...] = ()


def reshaped(panels: Sequence[WorkedPanel], fitter: PanelFitter, asked: Reshape) -> tuple[WorkedPanel, ...]:
    """The panels after a change.

    Raises:
        BlockError: if there are none that keep what is to be kept.
    """
    finer = [panel.with_joints(asked.joints(panel.flat.heights.at)) for panel in panels]
    wanted = [asked.wanted(k, panel).reshape(-1, 2).T for k, panel in enumerate(finer)]
    constraints = [*_widths(finer, fitter, asked), *_lines(finer, fitter, asked), *_upper(finer, fitter)]
    with threadpool_limits(1, "blas"):
        found = _solved(finer, wanted, constraints, asked.pinned)
    return tuple(_with(panel, coefficients) for panel, coefficients in zip(finer, found, strict=True))


def _with(panel: WorkedPanel, coefficients: Array) -> WorkedPanel:
    flat = panel.flat
    grid = coefficients.T.reshape(flat.coefficients.shape)
    return WorkedPanel(type(flat)(flat.heights, flat.across, grid), panel.straight_front, panel.straight_back)


def _widths(panels: list[WorkedPanel], fitter: PanelFitter, asked: Reshape) -> list[ArcConstraint]:
    """The width of every panel at every joint up to the upper-bust level."""
    found = []
    for k, panel in enumerate(panels):
        heights, across = panel.flat.heights, panel.flat.across
        for z in heights.at[heights.at <= fitter.z[-1] + 1e-9]:
            term = ArcTerm.level(k, heights, across, float(z))
            width = term.length(panel.coefficients) + asked.widths(k, panel, float(z))
            found.append(ArcConstraint(((1.0, term),), width))
    return found


def _lines(panels: list[WorkedPanel], fitter: PanelFitter, asked: Reshape) -> list[ArcConstraint]:
    """Both sides of every seam equal between levels; every line that is not free as long as it is to be."""
    found = []
    for line in range(len(panels) + 1):
        for span, ends in enumerate(pairwise(fitter.z)):
            sides = _sides(panels, line, (float(ends[0]), float(ends[1])))
            if len(sides) == 2:
                found.append(ArcConstraint(((1.0, sides[0]), (-1.0, sides[1]))))
            if line not in asked.free:
                now = sides[0].length(panels[sides[0].panel].coefficients)
                found.append(ArcConstraint(((1.0, sides[0]),), now + asked.lengths.get((line, span), 0.0)))
    return found


def _sides(panels: list[WorkedPanel], line: int, span: tuple[float, float]) -> list[ArcTerm]:
    """A line as the back line of the panel before it and the front line of the panel after it."""
    found = []
    for k, back in ((line - 1, True), (line, False)):
        if 0 <= k < len(panels):
            flat = panels[k].flat
            found.append(ArcTerm.line(k, flat.heights, flat.across, back, span))
    return found


def _upper(panels: list[WorkedPanel], fitter: PanelFitter) -> list[ArcConstraint]:
    """Above the upper-bust level: seams equal, neck and shoulder as long as they are."""
    upper = fitter.upper
    if upper is None:
        return []
    found = []
    for line, seam in enumerate(fitter.seams, 1):
        end = upper.line_end(seam)
        for low, high in pairwise([fitter.z[-1], *(joint for joint in upper.joints if joint < end + 1e-6)]):
            front, back = _sides(panels, line, (float(low), float(high)))
            found.append(ArcConstraint(((1.0, front), (-1.0, back))))
    for k, bounds in enumerate(fitter.bounds):
        for part in upper.parts(*bounds):
            if part.part == "armhole":
                continue
            v, u = (part.v[[0, -1]], part.u[[0, -1]]) if part.part == "shoulder" else (part.v, part.u)
            term = ArcTerm.through(k, panels[k].flat.heights, panels[k].flat.across, *upper.places(bounds, v, u))
            found.append(ArcConstraint(((1.0, term),), term.length(panels[k].coefficients)))
    return found


def _solved(
    panels: list[WorkedPanel],
    wanted: list[Array],
    constraints: list[ArcConstraint],
    pinned: Sequence[Pinned],
) -> list[Array]:
    """Coefficients (2, c) of each panel: each round the constraints are made straight where they are now."""
    before = [panel.coefficients for panel in panels]
    freedoms = [_freedom(panel) for panel in panels]
    factors = [cho_factor(f.T @ np.kron(np.eye(2), _slopes(p)) @ f) for f, p in zip(freedoms, panels, strict=True)]
    rows = [_pin_row(panels[pin.panel], pin) for pin in pinned]
    aims = [row @ before[pin.panel].ravel() + up for (row, up), pin in zip(rows, pinned, strict=True)]
    wishes = [(f.T @ w.ravel()) / f.sum(axis=0) for f, w in zip(freedoms, wanted, strict=True)]
    moves = list(wishes)
    count = len(constraints) + len(pinned)
    for _ in range(MOST_ROUNDS):
        now = [b + (f @ m).reshape(2, -1) for b, f, m in zip(before, freedoms, moves, strict=True)]
        off = np.array([-constraint.target for constraint in constraints] + [-aim for aim in aims])
        pulls = [np.zeros((count, coefficients.size)) for coefficients in now]
        for row, constraint in enumerate(constraints):
            for sign, term in constraint.terms:
                off[row] += sign * term.length(now[term.panel])
                pulls[term.panel][row] += sign * term.gradient(now[term.panel])
        for row, ((weights, _), pin) in enumerate(zip(rows, pinned, strict=True), len(constraints)):
            off[row] += weights @ now[pin.panel].ravel()
            pulls[pin.panel][row] = weights
        if np.abs(off).max() < EXACT:
            return now
        slopes = [pull @ f for pull, f in zip(pulls, freedoms, strict=True)]
        answers = [cho_solve(factor, slope.T) for factor, slope in zip(factors, slopes, strict=True)]
        schur = sum(slope @ answer for slope, answer in zip(slopes, answers, strict=True))
        right = off + sum(s @ (wish - move) for s, wish, move in zip(slopes, wishes, moves, strict=True))
        pull = np.linalg.lstsq(schur, right, rcond=1e-12)[0]
        moves = [wish - answer @ pull for wish, answer in zip(wishes, answers, strict=True)]
        if not np.isfinite(pull).all():
            break
    raise BlockError("the panels cannot be drawn so")


def _pin_row(panel: WorkedPanel, pin: Pinned) -> tuple[Array, float]:
    """(weights of a panel's coefficients, x and then y, that give the height of a place; its movement)."""
    flat = panel.flat
    basis = np.outer(flat.heights.basis(np.array([pin.z]))[0], flat.across.basis(np.array([pin.across]))[0]).ravel()
    return np.concatenate([np.zeros(len(basis)), basis]), pin.up


def _freedom(panel: WorkedPanel) -> Array:
    """0/1 matrix from the free movements to those of x and y coefficients: a straight line keeps its x."""
    index = np.arange(panel.coefficients.size).reshape(2, panel.flat.heights.count, -1)
    matrix, tied = np.eye(index.size), []
    for straight, edge, inner in ((panel.straight_front, 0, 1), (panel.straight_back, -1, -2)):
        if straight:
            matrix[index[1, :, edge], index[1, :, inner]] = 1.0
            tied.append(index[:, :, edge].ravel())
    free: Array = np.delete(matrix, np.concatenate(tied), axis=1) if tied else matrix
    return free


def _slopes(panel: WorkedPanel) -> Array:
    """Quadratic form of a movement of one coordinate, shape (c, c): its slopes and bends over the panel."""
    flat = panel.flat
    (z, wz), (u, wu) = flat.heights.nodes(3), flat.across.nodes(3)
    ways = np.einsum("zi,uj,ijk->zuk", flat.heights.basis(z), flat.across.basis(u, 1), flat.coefficients)
    width = np.maximum(np.linalg.norm(ways, axis=-1).mean(axis=1), 1.0)

    def spread(heights: Breaks, by_z: int, by_u: int) -> Array:
        up, over = heights.basis(z, by_z), flat.across.basis(u, by_u)
        scaled = up / width[:, None] ** by_u
        products: Array = np.einsum("zi,uj->zuij", scaled, over).reshape(len(z) * len(u), -1)
        return products

    weights = np.outer(wz * width, wu).ravel()
    form = np.zeros((flat.heights.count * flat.across.count,) * 2)
    for factor, by_z, by_u in ((1, 1, 0), (1, 0, 1), (STIFF**2, 2, 0), (STIFF**2, 0, 2), (HELD**2, 0, 0)):
        values = spread(flat.heights, by_z, by_u)
        form += factor * (values.T * weights) @ values
    return form


def line_number(fitter: PanelFitter, line: str) -> int | None:
    """Place of a line among those of the block from the centre front, 0; None where it has no such line."""
    known = (lines.CENTRE_FRONT, *fitter.seams, lines.CENTRE_BACK)
    return known.index(line) if line in known else None
