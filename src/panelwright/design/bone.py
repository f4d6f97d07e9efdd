"""A bone: where it lies on the pieces, and how long it is."""

from dataclasses import dataclass
from math import floor
from typing import Final

from panelwright.design.bone_bed import Bed, Stretch
from panelwright.geometry.curve import Curve
from panelwright.pattern.piece import Piece

STEP_OF_LENGTHS: Final = 5.0  # mm: bones are sold and cut in whole half centimetres (CP)
SHORTEST: Final = 50.0  # mm: a shorter bone holds nothing (own choice)
CHANNEL_ROOM: Final = 2.0  # mm by which a channel is wider than its bone, so that it slides in (MEM)


@dataclass(frozen=True)
class LaidBone:
    """A bone's bed and the stretch of it that the bone may fill.

    Attributes:
        bed: the strip of the piece.
        stretch: (low, high) on the bed's path, mm.
        walls: stitch lines that hold the bone, mm to the right of the path (left: negative).
    """

    bed: Bed
    stretch: Stretch
    walls: tuple[float, ...] = ()

    @property
    def long(self) -> bool:
        """Whether there is room for any bone at all."""
        return self.stretch[1] - self.stretch[0] > STEP_OF_LENGTHS

    @property
    def outline(self) -> Curve:
        """The half of a bone on a seam that lies on this piece: from the seam in, along it, and back to it."""
        low, high = self.stretch
        inner = self.bed.right if abs(self.bed.right) > abs(self.bed.left) else -self.bed.left
        along = self.bed.parallel(low, high, inner)
        into = Curve.straight(self.bed.path.point(low), along.start)
        return into.joined(along).joined(Curve.straight(along.end, self.bed.path.point(high)))


@dataclass(frozen=True)
class Bone:
    """So many equal bones of the garment.

    Attributes:
        name: unique in the step, `front-princess` or `channel-1`.
        place: where it lies, `along the front princess seam`.
        count: how many a garment.
        whole: what it lies along, from stitched edge to stitched edge, mm.
        low, high: kept free at its lower and its upper end, mm.
        laid: its beds: two on a seam, one on each piece.
        over_bust_point: whether it may lie there.
    """

    name: str
    place: str
    count: int
    whole: float
    low: float
    high: float
    laid: tuple[LaidBone, ...]
    over_bust_point: bool = True

    @property
    def room(self) -> float:
        """The longest bone that fits, mm."""
        return self.whole - self.low - self.high

    @property
    def length(self) -> float:
        """The longest that is sold and fits, mm."""
        return STEP_OF_LENGTHS * floor(self.room / STEP_OF_LENGTHS + 1e-6)


def is_half(piece: Piece) -> bool:
    """Whether the piece stands for both sides of the body: what is on it is there twice."""
    return piece.extent == "half_on_fold" or (piece.extent == "one_side" and piece.hand == "both")
