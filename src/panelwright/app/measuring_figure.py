"""The figure on which a measurement is shown: a size of our table, seen from the front, the side or the back."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import Final, Literal

import numpy as np
import shapely
from shapely import MultiPoint, Polygon

from panelwright.app.torso_mesh import TorsoMesh, shoulders, torso_mesh
from panelwright.body.measurements import Measurements
from panelwright.body.size_table import size
from panelwright.body.torso import Torso
from panelwright.body.torso_shape import TorsoShape
from panelwright.body.upper_body import UpperBody
from panelwright.errors import BlockError
from panelwright.geometry.arrays import Array

View = Literal["front", "side", "back"]
Joint = tuple[float, float, float, float]  # x, y, z and radius of a ball, mm
BUST_CM: Final = 88
SLICE: Final = 10.0  # mm: the trunk is seen as slices of this height
SMOOTH: Final = 8.0  # mm: the least radius where two parts of the body meet
PITCH: Final = np.radians(9.0)  # seen from a little above, so that a tape round the body is seen to go round
# Head and limbs are no measurements but a picture: own choice, mm.
HEAD: Final = (74.0, 92.0, 118.0)  # half width, half depth, half height
HEAD_ABOVE_NECK: Final = 150.0  # its middle above the side neck point
ARM: Final = (
    (-18.0, 0.0, -36.0, 40.0),
    (34.0, -8.0, -250.0, 36.0),
    (52.0, 22.0, -470.0, 25.0),
    (56.0, 30.0, -560.0, 27.0),
)
ELBOW, WRIST = 1, 2  # of `ARM`, whose wrist lies an arm length from the end of the shoulder
THIGH: Final = ((84.0, 0.0, -330.0, 82.0),)
LEG: Final = (*THIGH, (78.0, 6.0, -590.0, 52.0), (76.0, -8.0, -760.0, 50.0), (74.0, -4.0, -960.0, 36.0))
FOOT: Final = (74.0, 60.0, -975.0, 34.0)
_AZIMUTH: Final = {"front": 0.0, "side": np.pi / 2, "back": np.pi}


@dataclass(frozen=True, eq=False)
class MeasuringFigure:
    """One body.

    Attributes:
        wearer, torso, upper, mesh: the size, its surface, its shoulders, and both as triangles.
    """

    wearer: Measurements
    torso: Torso
    upper: UpperBody
    mesh: TorsoMesh

    @property
    def head_top(self) -> float:
        """Height of the top of the head above the waist, mm."""
        return self.upper.side_neck + HEAD_ABOVE_NECK + HEAD[2]

    @cached_property
    def arm(self) -> tuple[Joint, ...]:
        """The right arm from shoulder to hand, hanging, as long as the wearer's."""
        x, z = self.upper.shoulder_point
        down = [np.zeros(3), *(np.array(joint[:3]) for joint in ARM[ELBOW : WRIST + 1])]
        stretch = self.wearer["arm_length"] / sum(float(np.linalg.norm(b - a)) for a, b in pairwise(down))
        return tuple((x + a * stretch, b * stretch, z + c * stretch, radius) for a, b, c, radius in ARM)

    @property
    def floor(self) -> float:
        """Height of the floor, mm, below 0."""
        return self.head_top - self.wearer["stature"]


@lru_cache(maxsize=1)
def measuring_figure() -> MeasuringFigure:
    """The figure of all pictures.

    Raises:
        BlockError: if no shoulders can be built on it, which would be a fault of ours.
    """
    wearer = size(BUST_CM)
    torso = Torso(TorsoShape.of(wearer))
    upper = shoulders(wearer, torso)
    if upper is None:
        raise BlockError("no shoulders can be built on the figure of the measuring pictures")
    return MeasuringFigure(wearer, torso, upper, torso_mesh(wearer, torso))


def seen(points: Array, view: View) -> Array:
    """Points in space, shape (n, 3), as they are seen, shape (n, 2), mm: x rightwards, y up."""
    turn = _AZIMUTH[view]
    towards = np.array([np.sin(turn), np.cos(turn)])
    right = np.array([-towards[1], towards[0]])
    across, ahead = points[:, :2] @ right, points[:, :2] @ towards
    return np.column_stack([across, points[:, 2] * np.cos(PITCH) - ahead * np.sin(PITCH)])


def facing(points: Array, view: View) -> Array:
    """Whether the surface at points of a ring about the body's axis looks at who sees it, shape (n,)."""
    turn = _AZIMUTH[view]
    step = np.roll(points, -1, axis=0) - np.roll(points, 1, axis=0)
    ahead = step[:, 1] * np.sin(turn) - step[:, 0] * np.cos(turn)
    around = np.sign(np.sum(points[:, 0] * np.roll(points[:, 1], -1) - points[:, 1] * np.roll(points[:, 0], -1)))
    looks: Array = np.asarray(ahead * around > 0)
    return looks


@lru_cache(maxsize=6)
def outlines(view: View, whole: bool = False) -> tuple[Polygon, ...]:
    """The figure's outlines as they are seen, from the hindmost to the foremost, mm.

    Args:
        view: from the side the arms are left out, so that the body is seen.
        whole: with legs down to the floor, else as far as the thighs.
    """
    figure = measuring_figure()
    trunk = _trunk(figure, view)
    hips = [_limb(_legs(figure, whole), side, view, _hip(figure, side)) for side in (1.0, -1.0)]
    arms = [] if view == "side" else [_limb(figure.arm, side, view) for side in (1.0, -1.0)]
    body = shapely.union_all([trunk, *hips])
    return (*arms, _one(body))


def _legs(figure: MeasuringFigure, whole: bool) -> list[Joint]:
    if not whole:
        return list(THIGH)
    foot = (FOOT[0], FOOT[1], figure.floor + FOOT[3], FOOT[3])
    stretch = (figure.floor + 30.0) / LEG[-1][2]
    return [*((x, y, z * stretch, r) for x, y, z, r in LEG), foot]


def _trunk(figure: MeasuringFigure, view: View) -> Polygon:
    skin = figure.mesh.skin
    corners = skin.points[skin.triangles]
    slices = np.floor(corners[:, :, 2].mean(axis=1) / SLICE)
    flat = seen(skin.points, view)[skin.triangles]
    shown = [MultiPoint(flat[slices == k].reshape(-1, 2)).convex_hull for k in np.unique(slices)]
    neck = figure.upper.side_neck
    angles = np.linspace(0, 2 * np.pi, 48)
    width = HEAD[1] if view == "side" else HEAD[0]
    middle = seen(np.array([[0.0, 25.0, neck + HEAD_ABOVE_NECK]]), view)[0]
    head = Polygon(middle + np.column_stack([width * np.cos(angles), HEAD[2] * np.sin(angles)]))
    collar = seen(
        np.array([[x, y, neck + z] for x in (-48.0, 48.0) for y in (-36.0, 56.0) for z in (10.0, 110.0)]), view
    )
    return _one(shapely.union_all([*shown, head, MultiPoint(collar).convex_hull]))


def _hip(figure: MeasuringFigure, side: float) -> Array:
    """The half of the torso's lowest row that a thigh begins with."""
    points = figure.mesh.skin.points
    lowest = points[points[:, 2] < points[:, 2].min() + 1e-6]
    half: Array = lowest[lowest[:, 0] * side > -1.0]
    return half


def _limb(joints: Sequence[Joint], side: float, view: View, root: Array | None = None) -> Polygon:
    """A limb as balls joined to each other; it may begin at places of the trunk."""
    balls = [
        shapely.Point(*seen(np.array([[side * x, y, z]]), view)[0]).buffer(radius, quad_segs=12)
        for x, y, z, radius in joints
    ]
    parts = [*([MultiPoint(seen(root, view))] if root is not None else []), *balls]
    return _one(
        shapely.union_all([shapely.convex_hull(shapely.GeometryCollection([a, b])) for a, b in pairwise(parts)])
    )


def _one(shape: shapely.Geometry) -> Polygon:
    """The largest part of a shape without holes and without steps finer than a pen."""
    smooth = shapely.simplify(shapely.buffer(shapely.buffer(shape, SMOOTH), -SMOOTH), 0.4)
    largest = max(shapely.get_parts(smooth), key=lambda part: part.area)
    return Polygon(largest.exterior)
