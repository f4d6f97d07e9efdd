"""Fits the panels of a half to a torso: cuts its surface along the seams and lays it flat."""

from collections.abc import Callable
from functools import cached_property, partial
from itertools import pairwise

import numpy as np

from panelwright.blocks.arc_constraint import ArcConstraint, ArcTerm
from panelwright.blocks.body_panel import BodyPanel, BodyRows
from panelwright.blocks.flatten import PanelProblem, flatten
from panelwright.blocks.options import PLANS, BlockOptions
from panelwright.blocks.panel_fit import PanelFit, SeamSpan
from panelwright.blocks.seam_angles import seam_arcs
from panelwright.blocks.strain_energy import FAIRNESS, StrainEnergy
from panelwright.blocks.tensor_spline import Breaks, FlatPanel
from panelwright.blocks.upper_plan import UpperPlan
from panelwright.body.section import plane
from panelwright.body.torso import Torso
from panelwright.body.upper_body import UpperBody, UpperShape
from panelwright.body.worded_length import given_words, length_words
from panelwright.errors import BlockError
from panelwright.geometry.arrays import Array
from panelwright.geometry.fair_spline import fair_spline
from panelwright.pattern import line as lines
from panelwright.pattern.level import LEVELS

# Joints of the spline between neighbouring levels, from the hip up: closest where the breast turns fastest.
JOINTS = (2, 1, 1, 3, 3, 2)
JOINTS_ACROSS = 2
ROWS_PER_JOINT = 4
NARROWEST = 15.0  # mm
SEAM_BAND = 0.006  # of the back length, 2.4 mm at 40 cm: how far a seam may differ from the body when both are kept

Progress = Callable[[float], None]


class PanelFitter:
    """One fit in the making; `fit()` returns its panels and how long each seam came out.

    Args:
        torso: the body.
        options: seams, ease and panels.
        upper: what is measured above the upper-bust level, for a block to the shoulder.
    """

    def __init__(self, torso: Torso, options: BlockOptions, upper: UpperShape | None = None) -> None:
        self.torso, self.options, self.plan = torso, options, PLANS[options.panels]
        self.levels = LEVELS[::-1]
        self.z = np.array([torso.shape.heights[level] for level in self.levels])
        self.heights = Breaks(_subdivided(self.z, JOINTS))
        self.across = Breaks(np.linspace(0.0, 1.0, JOINTS_ACROSS + 1))
        self.rows = self._rows()
        self.seams = tuple(line for line, _ in self.plan.lines)
        self.bounds = tuple(pairwise((lines.CENTRE_FRONT, *self.seams, lines.CENTRE_BACK)))
        self.seam_arcs = seam_arcs(torso, self.rows, options, self.seams)
        self.upper = self._upper(upper) if upper else None
        self.panel_heights = [self._heights(k) for k in range(len(self.bounds))]
        self.panels = self._cut()
        self.problems = [self._problem(k) for k in range(len(self.panels))]

    @property
    def eases(self) -> Array:
        """Ease at each level, from the hip up, mm."""
        given = [self.options.ease.at(level) for level in self.levels]
        known = [k for k, value in enumerate(given) if value is not None]
        eases: Array = np.interp(self.z, self.z[known], [float(given[k] or 0.0) for k in known])
        return eases

    @cached_property
    def body_girths(self) -> Array:
        """Tape girth of the body at each level, from the hip up, mm."""
        return np.array([self.torso.girth(z) for z in self.z])

    def _rows(self) -> BodyRows:
        z = _between_joints(self.heights.at)
        return BodyRows.of(self.torso, z, self._stretch(z))

    def _stretch(self, z: Array) -> Array:
        """The cloth's girth over the body's at heights z."""
        girths = self.body_girths
        stretch: Array = fair_spline(self.z, (girths + self.eases) / girths)(z)
        return stretch

    def _upper(self, shape: UpperShape) -> UpperPlan:
        def section(height: float) -> Array:
            z = np.array([height])
            points: Array = plane(self.torso.taped(z) * self._stretch(z)[:, None])[0]
            return points

        above_waist = self.rows.z >= 0
        back = self.rows.sections[above_waist, -1]
        foot, side = float(self.z[-1]), float(self.seam_arcs[lines.SIDE][-1])
        back_below = float(np.linalg.norm(np.diff(back, axis=0), axis=1).sum())
        body = UpperBody(shape, section, foot, side, back_below)
        options = self.options
        targets = {lines.FRONT_PRINCESS: options.front_princess_to, lines.BACK_PRINCESS: options.back_princess_to}
        return UpperPlan(body, self.rows, self.seams, self.seam_arcs, targets)

    def _heights(self, k: int) -> Breaks:
        """The joints of a panel's spline: a block to the shoulder goes on up to where its neck or armhole lies."""
        if self.upper is None:
            return self.heights
        joints, top = self.upper.joints, self.upper.top_of(*self.bounds[k])
        return Breaks(np.concatenate([self.heights.at, joints[: int((joints < top - 1e-6).sum()) + 1]]))

    def _cut(self) -> list[BodyPanel]:
        ends = [np.zeros(len(self.rows.z)), *(self.seam_arcs[seam] for seam in self.seams), self.rows.arcs[:, -1]]
        for (_, label), front, back in zip(self.plan.panels, ends, ends[1:], strict=False):
            narrow = int((back - front).argmin())
            if (back - front)[narrow] < NARROWEST:
                raise BlockError(
                    f"the {label.lower()} panel would be {length_words(float((back - front)[narrow]), 2)} wide "
                    f"{length_words(float(self.rows.z[narrow]), 0)} above the waist; a panel needs "
                    f"{given_words(NARROWEST)}: "
                    "move its seams apart, or use fewer panels"
                )
        return [self._panel(k, front, back) for k, (front, back) in enumerate(pairwise(ends))]

    def _panel(self, k: int, front: Array, back: Array) -> BodyPanel:
        if self.upper is None:
            return BodyPanel(self.rows, front, back)
        bounds, above = self.bounds[k], self.panel_heights[k].at[len(self.heights.at) - 1 :]
        half = self.upper.panel_half(*bounds)
        rows = self.upper.rows(half, _between_joints(above)[1:])
        upper_front, upper_back = (self.upper.line_arcs(line, rows, half) for line in bounds)
        fronts, backs = np.concatenate([front, upper_front]), np.concatenate([back, upper_back])
        return BodyPanel(self.rows.followed_by(rows), fronts, backs)

    def _problem(self, k: int) -> PanelProblem:
        fairness = FAIRNESS * self.torso.shape.back_length
        heights = self.panel_heights[k]
        covered = partial(self.upper.covered, *self.bounds[k]) if self.upper else None
        energy = StrainEnergy.of(self.panels[k], heights, self.across, fairness, covered)
        last = k == len(self.panels) - 1
        straight = last and self.options.centre_back_shape == "straight"
        return PanelProblem(energy, heights, self.across, straight_front=k == 0, straight_back=straight)

    def fit(self, progress: Progress | None = None) -> tuple[tuple[PanelFit, ...], tuple[SeamSpan, ...]]:
        """The fitted panels from centre front to centre back, and every seam between levels.

        Raises:
            BlockError: if the panels do not settle.
        """
        try:
            return self._fit(progress)
        except BlockError as error:
            remedy = (
                "measurements that do not go together, or ease that jumps from level to level; look at both again"
                if self.options.keep == "girth"
                else 'seams as long as on the body cannot be had with these girths; choose keep "girth" in the block'
            )
            raise BlockError(f"{error}: {remedy}") from error

    def _fit(self, progress: Progress | None) -> tuple[tuple[PanelFit, ...], tuple[SeamSpan, ...]]:
        constraints = [*self._girths(), *self._seams(), *self._upper_seams(), *self._upper_edges()]
        flat = flatten(self.problems, [self._start(k) for k in range(len(self.panels))], constraints, progress)
        held: dict[tuple[int, int], ArcConstraint] = {}
        while self.options.keep == "both":
            strayed = self._strayed(flat, held)
            if not strayed:
                break
            held |= strayed
            flat = flatten(self.problems, flat, [*constraints, *held.values()], progress)
        fits = tuple(self._fitted(k, coefficients) for k, coefficients in enumerate(flat))
        return fits, self._spans(flat)

    def _start(self, k: int) -> Array:
        """Unrolled along its middle: as wide as on the body at every height, and as tall as the torso."""
        z, u = (breaks.places for breaks in (self.panel_heights[k], self.across))
        problem = self.problems[k]
        middle = 0.0 if problem.straight_front else 1.0 if problem.straight_back else 0.5
        x = -(u - middle) * self.panels[k].widths(z)[:, None]
        return np.stack([x, np.broadcast_to(z[:, None], x.shape)]).reshape(2, -1)

    def _girths(self) -> list[ArcConstraint]:
        return [
            ArcConstraint(((1.0, ArcTerm.level(k, self.panel_heights[k], self.across, z)),), float(width))
            for k, panel in enumerate(self.panels)
            for z, width in zip(self.z, panel.widths(self.z), strict=True)
        ]

    def _term(self, panel: int, back: bool, span: int) -> ArcTerm:
        return self._stretch_of_line(panel, back, (self.z[span], self.z[span + 1]))

    def _stretch_of_line(self, panel: int, back: bool, span: tuple[float, float]) -> ArcTerm:
        return ArcTerm.line(panel, self.panel_heights[panel], self.across, back, span)

    def _upper_seams(self) -> list[ArcConstraint]:
        """Both sides of every seam equal between neighbouring joints above the upper-bust level."""
        if self.upper is None:
            return []
        found = []
        for k, seam in enumerate(self.seams):
            end = self.upper.line_end(seam)
            joints = [self.z[-1], *(joint for joint in self.upper.joints if joint < end + 1e-6)]
            for span in pairwise(joints):
                front, back = self._stretch_of_line(k, True, span), self._stretch_of_line(k + 1, False, span)
                found.append(ArcConstraint(((1.0, front), (-1.0, back))))
        return found

    def _upper_edges(self) -> list[ArcConstraint]:
        """Neck as long as on the body, every part of the shoulder as long as on the body and straight."""
        if self.upper is None:
            return []
        found = []
        for k, bounds in enumerate(self.bounds):
            for part in self.upper.parts(*bounds):
                if part.part == "armhole":
                    continue
                v, u = (part.v[[0, -1]], part.u[[0, -1]]) if part.part == "shoulder" else (part.v, part.u)
                z, across = self.upper.places(bounds, v, u)
                term = ArcTerm.through(k, self.panel_heights[k], self.across, z, across)
                found.append(ArcConstraint(((1.0, term),), self.upper.length(bounds, v, u)))
        return found

    def _seams(self) -> list[ArcConstraint]:
        """Both sides of every seam equal between neighbouring levels; as long as on the body if that is kept."""
        found = []
        for seam in range(len(self.panels) - 1):
            body = self.panels[seam].line_lengths(True, self.z)
            for span, length in enumerate(body):
                front, back = self._term(seam, True, span), self._term(seam + 1, False, span)
                found.append(ArcConstraint(((1.0, front), (-1.0, back))))
                if self.options.keep == "length":
                    found.append(ArcConstraint(((1.0, front),), float(length)))
        return found

    def _strayed(
        self, flat: tuple[Array, ...], held: dict[tuple[int, int], ArcConstraint]
    ) -> dict[tuple[int, int], ArcConstraint]:
        """A constraint for each seam span not yet held that left the band: it is brought to the band's edge."""
        strayed = {}
        band = SEAM_BAND * self.torso.shape.back_length
        for seam in range(len(self.panels) - 1):
            for span, length in enumerate(self.panels[seam].line_lengths(True, self.z)):
                term = self._term(seam, True, span)
                off = term.length(flat[seam]) - float(length)
                if abs(off) > 1.004 * band and (seam, span) not in held:
                    target = float(length) + np.copysign(band, off)
                    strayed[seam, span] = ArcConstraint(((1.0, term),), float(target))
        return strayed

    def _spans(self, flat: tuple[Array, ...]) -> tuple[SeamSpan, ...]:
        spans = []
        for seam, (line, _) in enumerate(self.plan.lines):
            for span, length in enumerate(self.panels[seam].line_lengths(True, self.z)):
                paper = self._term(seam, True, span).length(flat[seam])
                spans.append(SeamSpan(line, self.levels[span + 1], self.levels[span], float(length), paper))
        return tuple(spans)

    def _fitted(self, k: int, coefficients: Array) -> PanelFit:
        heights = self.panel_heights[k]
        grid = coefficients.T.reshape(heights.count, self.across.count, 2)
        strain = self.problems[k].energy.stretch_p95(coefficients)
        id, label = self.plan.panels[k]
        return PanelFit(id, label, self.panels[k], FlatPanel(heights, self.across, grid), strain)


def _subdivided(at: Array, counts: tuple[int, ...]) -> Array:
    """`at` with each interval cut into `counts` equal parts."""
    parts = [np.linspace(a, b, n, endpoint=False) for (a, b), n in zip(pairwise(at), counts, strict=True)]
    return np.concatenate([*parts, at[-1:]])


def _between_joints(joints: Array) -> Array:
    """Heights of the rows: the joints, and as many between them as the body's shape needs."""
    return _subdivided(joints, (ROWS_PER_JOINT,) * (len(joints) - 1))
