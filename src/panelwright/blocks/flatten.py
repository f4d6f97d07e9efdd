"""All panels laid flat together: least strain, with girths exact and seams equal.

One constrained least-squares problem, solved by sequential quadratic programming: the strain energy of every
panel under equality constraints on arc lengths. Gauss-Newton steps settle it in about eight; where they swing to
and fro (seams far from where the body would have them), exact second derivatives take over.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import cho_factor, cho_solve
from threadpoolctl import threadpool_limits

from panelwright.blocks.arc_constraint import ArcConstraint
from panelwright.blocks.strain_energy import StrainEnergy
from panelwright.blocks.tensor_spline import Breaks
from panelwright.errors import BlockError
from panelwright.geometry.arrays import Array

MOST_STEPS = 60
GAUSS_NEWTON_STEPS = 10  # after which second derivatives are worth their price
SETTLED = 1e-5  # mm: root mean square of the last change of the coefficients
EXACT = 1e-9  # mm: every constraint
LONGEST_STEP = 20.0  # mm: no coefficient moves farther in one step
DAMPING = 1e-7  # of the mean curvature of the energy: keeps a panel from turning or drifting, which costs nothing


@dataclass(frozen=True, eq=False)
class PanelProblem:
    """One panel's part of the problem.

    Attributes:
        energy: its strain energy.
        heights, across: joints of its spline.
        straight_front, straight_back: the line lies at x = 0 and every level meets it square, as it must where
            a panel is mirrored there.
    """

    energy: StrainEnergy
    heights: Breaks
    across: Breaks
    straight_front: bool = False
    straight_back: bool = False

    @cached_property
    def kept(self) -> NDArray[np.int64]:
        """Indices of the free unknowns among the x and then the y coefficients, shape (m,)."""
        return np.setdiff1d(np.arange(self._index.size), np.concatenate([*self._tied(), np.array([], np.int64)]))

    @cached_property
    def freedom(self) -> Array:
        """0/1 matrix, shape (2c, m), from the free unknowns to the x and then the y coefficients."""
        matrix = np.eye(self._index.size)
        for _, edge, inner in self._pinned():
            matrix[self._index[1, :, edge], self._index[1, :, inner]] = 1.0
        free: Array = matrix[:, self.kept]
        return free

    @cached_property
    def _index(self) -> NDArray[np.int64]:
        return np.arange(2 * self.heights.count * self.across.count).reshape(2, self.heights.count, -1)

    def _pinned(self) -> list[tuple[bool, int, int]]:
        sides = ((self.straight_front, 0, 1), (self.straight_back, -1, -2))
        return [side for side in sides if side[0]]

    def _tied(self) -> list[NDArray[np.int64]]:
        return [self._index[:, :, edge].ravel() for _, edge, _ in self._pinned()]


def flatten(
    problems: Sequence[PanelProblem],
    starts: Sequence[Array],
    constraints: Sequence[ArcConstraint],
    progress: Callable[[float], None] | None = None,
) -> tuple[Array, ...]:
    """Coefficients of least strain, each shape (2, c), that meet every constraint within 1e-9 mm.

    Args:
        problems: one a panel.
        starts: where to start from, shape (2, c) each.
        constraints: arc lengths to keep.
        progress: called with the size of each step, mm; may raise to cancel.

    Raises:
        BlockError: if the panels do not settle.
    """
    with threadpool_limits(1, "blas"):  # small matrices: threads only wait for each other
        return _settled(problems, starts, constraints, progress)


def _settled(
    problems: Sequence[PanelProblem],
    starts: Sequence[Array],
    constraints: Sequence[ArcConstraint],
    progress: Callable[[float], None] | None,
) -> tuple[Array, ...]:
    at = [start.ravel()[problem.kept] for problem, start in zip(problems, starts, strict=True)]
    pull: Array | None = None
    for step in range(MOST_STEPS):
        full = [_full(problem, free) for problem, free in zip(problems, at, strict=True)]
        exact = pull if step >= GAUSS_NEWTON_STEPS else None
        change, off, pull = _step(problems, full, constraints, exact)
        largest = max(float(np.abs(part).max()) for part in change)
        if not np.isfinite(largest):
            break
        scale = min(1.0, LONGEST_STEP / max(largest, SETTLED))
        at = [free + scale * part for free, part in zip(at, change, strict=True)]
        size = float(np.sqrt(np.mean(np.concatenate(change) ** 2)))
        if progress:
            progress(size)
        if size < SETTLED and off < EXACT:
            return tuple(_full(problem, free) for problem, free in zip(problems, at, strict=True))
    raise BlockError("the panels do not settle in the flat")


def _full(problem: PanelProblem, free: Array) -> Array:
    full: Array = (problem.freedom @ free).reshape(2, -1)
    return full


def _step(
    problems: Sequence[PanelProblem],
    full: list[Array],
    constraints: Sequence[ArcConstraint],
    last_pull: Array | None,
) -> tuple[list[Array], float, Array]:
    """(step of each panel's free unknowns, largest constraint error, pull of each constraint).

    By the constraints' Schur complement. Given the constraints' last pull (their Lagrange multipliers), the step is
    Newton's; without it, Gauss-Newton's.
    """
    off, slopes = _constraints(full, constraints)
    bends = [None] * len(full) if last_pull is None else _bends(full, constraints, last_pull)
    schur, right = np.zeros((len(off), len(off))), off.copy()
    solved = []
    for problem, coefficients, slope, bend in zip(problems, full, slopes, bends, strict=True):
        free, both = _panel_step(problem, coefficients, slope, bend)
        schur += free @ both[:, 1:]
        right -= free @ both[:, 0]
        solved.append(both)
    pull = np.asarray(np.linalg.lstsq(schur, right, rcond=1e-13)[0], np.float64) if len(off) else right
    change = [-both[:, 0] - both[:, 1:] @ pull for both in solved]
    return change, float(np.abs(off).max(initial=0.0)), pull


def _panel_step(problem: PanelProblem, coefficients: Array, slope: Array, bend: Array | None) -> tuple[Array, Array]:
    """(slopes of the constraints by the free unknowns, curvature⁻¹ · [gradient, slopes]) of one panel."""
    residuals, jacobian = problem.energy.residuals(coefficients)
    freedom = problem.freedom
    curvature = jacobian.T @ jacobian
    if bend is not None:
        curvature += problem.energy.second_derivatives(residuals) + bend
    curvature = freedom.T @ curvature @ freedom
    curvature[np.diag_indices_from(curvature)] += DAMPING * np.trace(curvature) / len(curvature)
    free = slope @ freedom
    wanted = np.column_stack([(residuals @ jacobian) @ freedom, free.T])
    if bend is None:
        return free, cho_solve(cho_factor(curvature), wanted)
    return free, np.asarray(np.linalg.solve(curvature, wanted), np.float64)


def _bends(full: list[Array], constraints: Sequence[ArcConstraint], pull: Array) -> list[Array]:
    """Second derivatives of the constraints, weighted by their pull, one matrix (2c, 2c) a panel."""
    bends = [np.zeros((coefficients.size, coefficients.size)) for coefficients in full]
    for weight, constraint in zip(pull, constraints, strict=True):
        for sign, term in constraint.terms:
            bends[term.panel] += weight * sign * term.second_derivatives(full[term.panel])
    return bends


def _constraints(full: list[Array], constraints: Sequence[ArcConstraint]) -> tuple[Array, list[Array]]:
    off = np.array([-constraint.target for constraint in constraints])
    slopes = [np.zeros((len(constraints), coefficients.size)) for coefficients in full]
    for k, constraint in enumerate(constraints):
        for sign, term in constraint.terms:
            off[k] += sign * term.length(full[term.panel])
            slopes[term.panel][k] += sign * term.gradient(full[term.panel])
    return off, slopes
