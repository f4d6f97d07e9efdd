"""How the seams run on above the upper-bust level, and where neck, shoulder and armhole cut the panels off."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicHermiteSpline

from panelwright.blocks.body_panel import BodyRows
from panelwright.body.upper_body import Half, UpperBody
from panelwright.geometry.arrays import Array
from panelwright.pattern import line as lines

Target = Literal["shoulder", "armhole"]
Part = Literal["neckline", "shoulder", "armhole"]

TALLEST_STEP = 42.0  # mm between two joints of the panels' splines
ROW_SAMPLES = 361  # as the torso's sections have
SHOULDER_SAMPLES = 25
LOWER_TURN = 0.5  # of the way from across point to underarm, where a seam beside the princess seam ends


@dataclass(frozen=True, eq=False)
class UpperLine:
    """A seam above the upper-bust level, on one of the sheets.

    Attributes:
        line: its id.
        half: front or back sheet.
        target: where it ends.
        end: (v, u) of its end.
        course: v -> u up to the shoulder; past the end it only bounds what is cut off.
    """

    line: str
    half: Half
    target: Target
    end: tuple[float, float]
    course: CubicHermiteSpline

    def u(self, v: Array) -> Array:
        """Its place on the sheet at each v."""
        at: Array = np.clip(self.course(v), 0.02, 1.0)
        return at


@dataclass(frozen=True, eq=False)
class TopPart:
    """A stretch of a panel's upper boundary, in the order of the panel's outline (front line to back line).

    Attributes:
        part: which line it is of.
        v, u: places on the sheet, shape (n,) each.
    """

    part: Part
    v: Array
    u: Array


class UpperPlan:
    """Seams and boundaries of the upper panels.

    Args:
        body: the two sheets.
        lower: the rows below them.
        seams: ids of the seams from centre front to centre back.
        arcs: arc position of every seam on the lower rows.
        side: id of the side seam.
        targets: where the princess seams end.
    """

    def __init__(
        self, body: UpperBody, lower: BodyRows, seams: Sequence[str], arcs: dict[str, Array], targets: dict[str, Target]
    ) -> None:
        self.body, self.seams = body, tuple(seams)
        self.under = body.side_at(body.shape.underarm)
        self._curves = {half: (body.neck(half), body.armhole(half)) for half in ("front", "back")}
        self._lines = {
            seam: self._line(seam, lower, arcs, targets.get(seam, "armhole")) for seam in seams if seam != lines.SIDE
        }

    def half(self, seam: str) -> Half:
        """The sheet that a seam (or a panel's own line) lies on; the side seam bounds both."""
        return "front" if self.seams.index(seam) < self.seams.index(lines.SIDE) else "back"

    def height(self, v: float) -> float:
        """Where the panels' splines count a v, mm above the waist."""
        return self.body.foot + v * self.body.height

    def _line(self, seam: str, lower: BodyRows, arcs: dict[str, Array], target: Target) -> UpperLine:
        half = self.half(seam)
        place = arcs[seam] if half == "front" else lower.arcs[:, -1] - arcs[seam]
        side = arcs[lines.SIDE] if half == "front" else lower.arcs[:, -1] - arcs[lines.SIDE]
        share = place / side
        slope = float((share[-1] - share[-2]) / (lower.z[-1] - lower.z[-2])) * self.body.height
        start = float(share[-1])
        if target == "shoulder":
            end = (1.0, (self.body.neck_at + 1) / 2)
            return UpperLine(seam, half, target, end, CubicHermiteSpline([0, 1], [start, end[1]], [slope, 0.0]))
        end = self._armhole_end(seam, half)
        rate = max((end[1] - start) / end[0], 0.1)
        course = CubicHermiteSpline([0, end[0], 1], [start, end[1], 1.0], [slope, rate, 0.0])
        return UpperLine(seam, half, target, end, course)

    def _armhole_end(self, seam: str, half: Half) -> tuple[float, float]:
        """On the armhole: at the height of the across points for a princess seam, on the lower turn for others.

        Front and back seams end at one height, so that the panels' splines have no joints close together.
        """
        curves = [armhole for _, armhole in self._curves.values()]
        across = sum(float(curve.v[len(curve.v) // 2]) for curve in curves) / len(curves)
        v = across if "princess" in seam else across - (across - self.under) * LOWER_TURN
        curve = self._curves[half][1]
        return v, float(np.interp(v, curve.v[::-1], curve.u[::-1]))

    @cached_property
    def joints(self) -> Array:
        """Joints of the panels' splines above the upper-bust level, rising, mm: every line's end is one."""
        ends = {self.height(line.end[0]) for line in self._lines.values()} | {self.height(self.under), self.height(1.0)}
        kept: list[float] = []
        for end in sorted(ends):
            if not kept or end - kept[-1] > 1e-6:
                kept.append(end)
        found, low = [], self.body.foot
        for end in kept:
            pieces = max(1, int(np.ceil((end - low) / TALLEST_STEP)))
            found += list(np.linspace(low, end, pieces + 1)[1:])
            low = end
        return np.array(found)

    def line_end(self, seam: str) -> float:
        """Height at which a seam ends, mm."""
        return self.height(self.under if seam == lines.SIDE else self._lines[seam].end[0])

    def top_of(self, front: str, back: str) -> float:
        """Up to which height a panel between two lines reaches, mm."""
        return self.height(max(float(part.v.max()) for part in self.parts(front, back)))

    def rows(self, half: Half, z: Array) -> BodyRows:
        """Rows of a sheet at heights z, from the panel's front to its back: the back sheet's start at the side."""
        u = np.linspace(0.0, 1.0, ROW_SAMPLES)
        v = (z - self.body.foot) / self.body.height
        sheet = self.body.sheet(half)
        coarse = sheet.rows(v)
        grid = np.stack([[np.interp(u, sheet.u, column) for column in row.T] for row in coarse])
        grid = np.swapaxes(grid, 1, 2)
        return BodyRows(z, grid if half == "front" else grid[:, ::-1])

    def line_arcs(self, line: str, rows: BodyRows, half: Half) -> Array:
        """Arc position of a line on rows of a sheet, as `rows` counts them, shape (r,)."""
        v = (rows.z - self.body.foot) / self.body.height
        return self._arcs(rows, half, self._u(line, v))

    def _u(self, line: str, v: Array) -> Array:
        if line in (lines.CENTRE_FRONT, lines.CENTRE_BACK):
            return np.zeros(len(v))
        return np.ones(len(v)) if line == lines.SIDE else self._lines[line].u(v)

    def _arcs(self, rows: BodyRows, half: Half, u: Array) -> Array:
        """Arc positions of places of the sheet, one on each row."""
        places = np.linspace(0.0, 1.0, ROW_SAMPLES)
        at = u if half == "front" else 1 - u
        return np.array([np.interp(a, places, arcs) for a, arcs in zip(at, rows.arcs, strict=True)])

    def places(self, bounds: tuple[str, str], v: Array, u: Array) -> tuple[Array, Array]:
        """(height, place across) in a panel between two lines, of places of its sheet: 0 at its front line … 1."""
        front, back = bounds
        half, z = self.panel_half(front, back), self.body.foot + v * self.body.height
        rows = self.rows(half, z)
        low, at, high = (self._arcs(rows, half, places) for places in (self._u(front, v), u, self._u(back, v)))
        return z, (at - low) / (high - low)

    def length(self, bounds: tuple[str, str], v: Array, u: Array) -> float:
        """Length in space from place to place of a panel's sheet, mm."""
        points = self.body.sheet(self.panel_half(*bounds)).points(v, u)
        return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())

    def covered(self, front: str, back: str, z: Array, across: Array) -> NDArray[np.bool_]:
        """Whether cloth is at heights z and places across a panel, shape (len(z), len(across))."""
        half = self.panel_half(front, back)
        found = np.ones((len(z), len(across)), bool)
        above = np.flatnonzero(z > self.body.foot)
        rows = self.rows(half, z[above])
        v = (z[above] - self.body.foot) / self.body.height
        low, high = self.line_arcs(front, rows, half), self.line_arcs(back, rows, half)
        places = np.linspace(0.0, 1.0, ROW_SAMPLES)
        for k, row in enumerate(above):
            u = np.interp(low[k] + (high[k] - low[k]) * across, rows.arcs[k], places)
            found[row] = self.covers(half, np.full(len(across), v[k]), u if half == "front" else 1 - u)
        return found

    def panel_half(self, front: str, back: str) -> Half:
        """The sheet that a panel between two lines lies on."""
        if back in (lines.CENTRE_BACK,) or front == lines.SIDE:
            return "back"
        return "front" if front == lines.CENTRE_FRONT or back == lines.SIDE else self.half(front)

    def covers(self, half: Half, v: Array, u: Array) -> NDArray[np.bool_]:
        """Whether places of a sheet lie inside neck, shoulder and armhole."""
        neck, armhole = self._curves[half]
        below_neck = np.where(u < self.body.neck_at, v <= np.interp(u, neck.u, neck.v), v <= 1.0)
        within = np.where(v > self.under, u <= np.interp(v, armhole.v[::-1], armhole.u[::-1]), u <= 1.0)
        return below_neck & within

    def parts(self, front: str, back: str) -> tuple[TopPart, ...]:
        """The upper boundary of a panel, from its front line to its back line."""
        half = self.panel_half(front, back)
        inner, outer = (front, back) if half == "front" else (back, front)
        start, end = self._boundary_place(inner), self._boundary_place(outer)
        cut = (self._cut(k, part, start, end) for k, part in enumerate(self._boundary(half)))
        found = [part for part in cut if part]
        if half == "front":
            return tuple(found)
        return tuple(TopPart(part.part, part.v[::-1], part.u[::-1]) for part in reversed(found))

    def _boundary(self, half: Half) -> tuple[TopPart, TopPart, TopPart]:
        """The whole upper boundary of a sheet, from its centre outwards."""
        neck, armhole = self._curves[half]
        shoulder = np.linspace(self.body.neck_at, 1.0, SHOULDER_SAMPLES)
        return (
            TopPart("neckline", neck.v, neck.u),
            TopPart("shoulder", np.ones(SHOULDER_SAMPLES), shoulder),
            TopPart("armhole", armhole.v, armhole.u),
        )

    def _boundary_place(self, line: str) -> tuple[int, float]:
        """(number of the part, place on it by u along the shoulder or v down the armhole) where a line ends."""
        if line in (lines.CENTRE_FRONT, lines.CENTRE_BACK):
            return 0, 0.0
        if line == lines.SIDE:
            return 2, 1.0 - self.under
        ended = self._lines[line]
        return (1, ended.end[1]) if ended.target == "shoulder" else (2, 1.0 - ended.end[0])

    def _cut(self, number: int, part: TopPart, start: tuple[int, float], end: tuple[int, float]) -> TopPart | None:
        """The stretch of a part between two places of the boundary, or None."""
        if not start[0] <= number <= end[0]:
            return None
        along = (part.u, part.u, 1.0 - part.v)[number]
        low = start[1] if number == start[0] else float(along[0])
        high = end[1] if number == end[0] else float(along[-1])
        if high - low < 1e-9:
            return None
        inside = along[(along > low + 1e-9) & (along < high - 1e-9)]
        places = np.concatenate([[low], inside, [high]])
        return TopPart(part.part, np.interp(places, along, part.v), np.interp(places, along, part.u))

    def armhole_nodes(self, bounds: tuple[str, str]) -> tuple[float, float]:
        """v of the across point and of the middle of the lower turn of the armhole on a panel's sheet."""
        curve = self._curves[self.panel_half(*bounds)][1]
        middle = len(curve.v) // 2
        return float(curve.v[middle]), float(curve.v[middle + middle // 2])

    def span_of(self, bounds: tuple[str, str], part: TopPart) -> tuple[float, float]:
        """Which share of its whole line a part is, from its start to its end.

        The neckline runs from centre front to centre back, the shoulder from the neck outwards, the armhole from
        the shoulder down the front and up the back.
        """
        half = self.panel_half(*bounds)
        neck, armhole = (
            [self._curves[each][k].length(self.body.sheet(each)) for each in ("front", "back")] for k in (0, 1)
        )
        if part.part == "shoulder":
            ends = (part.u[[0, -1]] - self.body.neck_at) / (1 - self.body.neck_at)
            return float(np.clip(ends[0], 0, 1)), float(np.clip(ends[1], 0, 1))
        share = {"neckline": neck, "armhole": armhole}[part.part][0]
        share /= sum({"neckline": neck, "armhole": armhole}[part.part])
        if part.part == "neckline":
            return (0.0, share) if half == "front" else (share, 1.0)
        down = (1 - part.v[[0, -1]]) / (1 - self.under)
        ends = share * down if half == "front" else 1 - (1 - share) * down
        return float(np.clip(ends[0], 0, 1)), float(np.clip(ends[1], 0, 1))
