"""What is to be laid, for the search: outlines with their grain along x, and how each may be turned."""

from dataclasses import dataclass

import numpy as np
import shapely

from panelwright.errors import LayError
from panelwright.geometry.arrays import Array

# A piece this much too wide for its cloth still counts as fitting it, as a share of the width: rounding.
_ROUNDING = 1e-9


@dataclass(frozen=True)
class Turn:
    """How an outline lies: mirrored about the x axis first if so, then turned anticlockwise.

    Attributes:
        degrees: of the rotation, 0 to 360.
        mirrored: turned over.
    """

    degrees: float = 0.0
    mirrored: bool = False

    @property
    def matrix(self) -> Array:
        """Shape (2, 2)."""
        c, s = np.round([np.cos(np.radians(self.degrees)), np.sin(np.radians(self.degrees))], 14)
        return np.array([[c, s], [s, -c]] if self.mirrored else [[c, -s], [s, c]])

    def points(self, outline: Array) -> Array:
        """The outline turned, shape (n, 2)."""
        turned: Array = outline @ self.matrix.T
        return turned


@dataclass(frozen=True)
class ToLay:
    """One thing to lay.

    Attributes:
        shape: number of its outline.
        turns: how it may lie; at least one.
        fold: the edge of the outline, by the number of its first vertex, that must lie on a fold, or None.
    """

    shape: int
    turns: tuple[Turn, ...]
    fold: int | None = None


@dataclass(frozen=True, eq=False)
class LayTask:
    """All that is to be laid on one cloth, which is the half strip x >= 0, 0 <= y <= width.

    Attributes:
        width: of the cloth, mm.
        outlines: shape (n, 2) each, open, anticlockwise, mm.
        pieces: what is laid.
        spacing: least distance of two pieces, mm; it does not apply to the cloth's edges.
        names: of the outlines, for messages.
        tubular: the cloth is a tube laid flat: y = width is a fold too, not only y = 0.

    Raises:
        LayError: if a piece has no area or is too wide for the cloth however it is turned.
    """

    width: float
    outlines: tuple[Array, ...]
    pieces: tuple[ToLay, ...]
    spacing: float = 0.0
    names: tuple[str, ...] = ()
    tubular: bool = False

    def __post_init__(self) -> None:
        for piece in self.pieces:
            name, outline = self._name(piece.shape), self.outlines[piece.shape]
            if not shapely.Polygon(outline).area > 0.0:
                raise LayError(f"{name} has no area: draw its outline anew", name)
            across = [float(np.ptp(turn.points(outline)[:, 1])) for turn in piece.turns]
            if not across or min(across) > self.width * (1 + _ROUNDING):
                raise LayError(
                    f"{name} is {min(across, default=0.0):.0f} mm across and the cloth {self.width:.0f} mm: take a "
                    "wider cloth, lay it open, or divide the piece",
                    name,
                )

    @property
    def area(self) -> float:
        """Of all pieces, mm²."""
        return sum(float(shapely.Polygon(self.outlines[piece.shape]).area) for piece in self.pieces)

    @property
    def bound(self) -> float:
        """No lay can be shorter, mm: the area over the width, or the edges on the fold one after another."""
        edges = 0.0
        for piece in self.pieces:
            if piece.fold is not None:
                outline = self.outlines[piece.shape]
                edges += float(np.hypot(*(outline[(piece.fold + 1) % len(outline)] - outline[piece.fold])))
        return max(self.area / self.width, edges / 2 if self.tubular else edges)

    @property
    def longest(self) -> tuple[float, str]:
        """The piece that takes most of the cloth's length however it is turned: that length, mm, and its name."""
        lengths = [
            (min(float(np.ptp(turn.points(self.outlines[piece.shape])[:, 0])) for turn in piece.turns), piece.shape)
            for piece in self.pieces
        ]
        length, shape = max(lengths, default=(0.0, 0))
        return length, self._name(shape)

    def fold_line(self, piece: ToLay, turn: Turn) -> float | None:
        """y of the fold that a piece in a turn lies on: the far one of a tube where it lies below its edge, else 0."""
        if piece.fold is None:
            return None
        points = turn.points(self.outlines[piece.shape])
        return self.width if self.tubular and points[:, 1].mean() < points[piece.fold, 1] else 0.0

    def _name(self, shape: int) -> str:
        return self.names[shape] if shape < len(self.names) else f"piece {shape + 1}"


@dataclass(frozen=True)
class Place:
    """Where one thing lies: turned about the origin of its outline, then shifted by (x, y)."""

    turn: Turn
    x: float
    y: float

    def points(self, outline: Array) -> Array:
        """The outline on the cloth, shape (n, 2)."""
        laid: Array = self.turn.points(outline) + np.array([self.x, self.y])
        return laid


@dataclass(frozen=True)
class Found:
    """Places for everything of a task, in its order.

    Attributes:
        length: how far along the cloth they reach, mm.
        places: one for each.
    """

    length: float
    places: tuple[Place, ...]
