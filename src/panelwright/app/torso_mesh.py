"""The wearer's torso as triangles: hip to upper bust, and on to neck and shoulders where they can be built."""

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Final

import numpy as np

from panelwright.app.surface_mesh import SurfaceMesh
from panelwright.body.measurements import Measurements
from panelwright.body.section import ANGLES, plane
from panelwright.body.torso import Torso
from panelwright.body.upper_body import Half, UpperBody, UpperShape
from panelwright.errors import BlockError
from panelwright.geometry.arrays import Array
from panelwright.pattern.level import LEVELS

KEPT: Final = 8  # meshes: shoulders take half a second
EVERY: Final = 10  # of the 361 angles of a half section
BETWEEN_ROWS: Final = 10.0  # mm at most
ROWS_ABOVE: Final = 15
COLUMNS_ABOVE: Final = 13
HOLLOW: Final = 0.7  # of the depth between the breasts: the form is made for girths, and deeper than most there
NECK_LENGTH: Final = 45.0  # mm; how the neck goes on is own choice, for the picture alone
NECK_LEAN: Final = 12.0  # mm to the front at its upper end


@dataclass(frozen=True, eq=False)
class TorsoMesh:
    """Both halves of the torso.

    Attributes:
        skin: the body itself.
        taped: the same with the tape drawn round it, from breast to breast, as cloth lies.
    """

    skin: SurfaceMesh
    taped: SurfaceMesh


@lru_cache(maxsize=KEPT)
def torso_mesh(wearer: Measurements, torso: Torso) -> TorsoMesh:
    """The torso of a wearer; the last few are kept.

    Every level is a row of points, so that a girth read along it is the wearer's. Where no shoulders can be built on
    the measurements the torso ends at the upper-bust level.
    """
    upper = shoulders(wearer, torso)
    above = [] if upper is None else _upper(upper)
    z = _heights(torso)
    taped = torso.taped(z)
    heights = torso.shape.heights
    rise = np.clip((z - heights["bust"]) / (heights["upper-bust"] - heights["bust"]), 0.0, 1.0)
    smooth = (rise**2 * (3 - 2 * rise))[:, None]  # chest and back stand on the taped section
    hollow = HOLLOW * (1 - smooth)
    skin = torso.bare(z) * hollow + taped * (1 - hollow)
    return TorsoMesh(*(_both([_lower(z, radii), *above]) for radii in (skin, taped)))


def _both(right: list[SurfaceMesh]) -> SurfaceMesh:
    half = SurfaceMesh.together(right)
    return SurfaceMesh.together([half, half.mirrored])


def _heights(torso: Torso) -> Array:
    """Heights of the rows, from the hip to the upper-bust level; all levels among them."""
    levels = sorted(torso.shape.heights[level] for level in LEVELS)
    parts = []
    for low, high in pairwise(levels):
        count = max(1, int(np.ceil((high - low) / BETWEEN_ROWS)))
        parts.append(np.linspace(low, high, count, endpoint=False))
    return np.concatenate([*parts, levels[-1:]])


def _lower(z: Array, radii: Array) -> SurfaceMesh:
    """The right half below the upper-bust level, rows from centre front to centre back."""
    flat = plane(radii)[:, ::EVERY]
    rows = np.concatenate([flat, np.broadcast_to(z[:, None, None], (*flat.shape[:2], 1))], axis=-1)
    return SurfaceMesh.of_grid(rows[:, ::-1])


@lru_cache(maxsize=KEPT)
def shoulders(wearer: Measurements, torso: Torso) -> UpperBody | None:
    """Chest, back and shoulders on the body itself, without ease; None where none can be built."""
    foot = torso.shape.heights["upper-bust"]
    half_section = plane(torso.taped(np.array([foot])))[0]
    arcs = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(half_section, axis=0), axis=1))])
    z = np.linspace(0.0, foot, 40)
    back = np.column_stack([torso.taped(z)[:, -1], z])
    back_below = float(np.linalg.norm(np.diff(back, axis=0), axis=1).sum())
    known: dict[float, Array] = {}

    def section(height: float) -> Array:
        if height not in known:
            known[height] = plane(torso.taped(np.array([height])))[0]
        return known[height]

    try:
        side = float(np.interp(np.pi / 2, ANGLES, arcs))
        return UpperBody(UpperShape.of(wearer), section, foot, side, back_below)
    except BlockError:
        return None


def _upper(body: UpperBody) -> list[SurfaceMesh]:
    """The right half's two sheets up to neck and shoulder line, and a short neck on them."""
    found = []
    for half, outwards in (("front", True), ("back", False)):
        sheet_rows, rim = _sheet(body, half)  # type: ignore[arg-type]
        found += [SurfaceMesh.of_grid(sheet_rows, outwards=not outwards), _neck(rim, outwards=not outwards)]
    return found


def _sheet(body: UpperBody, half: Half) -> tuple[Array, Array]:
    """(grid up to neck and shoulder line, the neck's rim from the centre to the side neck point)."""
    sheet, neck = body.sheet(half), body.neck(half)
    inside = body.neck_at * np.sin(np.linspace(0.0, np.pi / 2, COLUMNS_ABOVE))
    u = np.concatenate([inside, np.linspace(body.neck_at, 1.0, COLUMNS_ABOVE)[1:]])
    tops = np.where(u < body.neck_at, np.interp(u, neck.u, neck.v), 1.0)
    rows = [sheet.points(share * tops, u) for share in np.linspace(0.0, 1.0, ROWS_ABOVE)]
    grid = np.stack(rows)
    return grid, grid[-1, :COLUMNS_ABOVE]


def _neck(rim: Array, outwards: bool) -> SurfaceMesh:
    """A short upright neck above its rim, a little narrower and leaning to the front."""
    middle = rim[-1] * np.array([0.0, 1.0, 1.0])
    rows = []
    for share in np.linspace(0.0, 1.0, 4):
        ring = middle + (rim - middle) * np.array([1 - 0.08 * share, 1 - 0.08 * share, 1 - 0.5 * share])
        rows.append(ring + np.array([0.0, NECK_LEAN * share, NECK_LENGTH * share]))
    return SurfaceMesh.of_grid(np.stack(rows), outwards)
