"""A lay: where every piece lies on a cloth, how long it is, what to buy and how much of it is used."""

from dataclasses import dataclass, replace
from functools import cached_property

from shapely import Polygon

from panelwright.errors import LayError
from panelwright.geometry.arrays import Array
from panelwright.geometry.placement import Placement
from panelwright.lay.cloth import Cloth
from panelwright.lay.piece_to_cut import PieceToCut


@dataclass(frozen=True, eq=False)
class LaidPiece:
    """One piece in its place. x runs along the cloth from its end, y across it: from the fold, or from a selvage.

    Attributes:
        piece: what is laid.
        copy: numbers what is laid of one piece, from 0.
        placement: from the piece's own coordinates to the cloth's, mm.
        spare: on folded cloth, whether one of the two that are cut here is not needed.
    """

    piece: PieceToCut
    copy: int
    placement: Placement
    spare: bool = False

    @cached_property
    def outline(self) -> Array:
        """The cut line on the cloth, shape (m, 2)."""
        return self.placement.points(self.piece.outline)

    @cached_property
    def area(self) -> Polygon:
        """What is inside it."""
        return Polygon(self.outline)

    @property
    def grain(self) -> Array:
        """The ends of its grain line on the cloth, shape (2, 2), from the lower end of the piece to its top."""
        return self.placement.points(self.piece.grain)

    def moved(self, x: float, y: float) -> "LaidPiece":
        """The same, shifted on the cloth by (x, y) mm."""
        place = self.placement
        return replace(self, placement=replace(place, x=place.x + x, y=place.y + y))


@dataclass(frozen=True, eq=False)
class Lay:
    """Pieces on one cloth, from x = 0 on.

    Attributes:
        cloth: what they lie on.
        folded: whether it lies double. Then y = 0 is its fold and y = `width` both selvages, and every piece
            beside the fold is cut twice, once in each hand. Otherwise its right side is up, y = 0 and y = `width` are
            its selvages, and a mirrored placement cuts a piece that lies face down.
        laid: the pieces.
        spacing: least distance between two pieces, mm.
        tubular: it lies double since it is a tube laid flat: y = `width` is a fold too, and there is no selvage.

    Raises:
        LayError: if a tube is not to lie double.
    """

    cloth: Cloth
    folded: bool
    laid: tuple[LaidPiece, ...]
    spacing: float = 0.0
    tubular: bool = False

    def __post_init__(self) -> None:
        if self.tubular and not self.folded:
            raise LayError("a tube lies double: give a folded lay", "folded")

    @property
    def width(self) -> float:
        """What there is of the cloth across the lay: half of it where it is folded, mm."""
        return self.cloth.half if self.folded else self.cloth.width

    @cached_property
    def length(self) -> float:
        """How far the pieces reach along the cloth, mm."""
        return max((float(laid.outline[:, 0].max()) for laid in self.laid), default=0.0)

    @property
    def to_buy(self) -> float:
        """Length to buy, mm: see `Cloth.to_buy`."""
        return self.cloth.to_buy(self.length)

    @property
    def cost(self) -> float | None:
        """What it costs, where the cloth has a price."""
        return self.cloth.cost(self.to_buy)

    @cached_property
    def use(self) -> float:
        """Share of the cloth, over the length of the lay, that becomes pieces of the garment, 0 … 1.

        Spare pieces count as waste; so does what is between the lay's end and the length that the shop cuts.
        """
        layers = 2 if self.folded else 1
        used = sum(laid.area.area * (1 if laid.spare else layers) for laid in self.laid)
        return float(used) / (self.length * self.cloth.width) if self.length else 0.0

    @property
    def spares(self) -> tuple[LaidPiece, ...]:
        """The places where folded cloth gives one piece more than is needed."""
        return tuple(laid for laid in self.laid if laid.spare)

    def grain_distances(self, laid: LaidPiece) -> tuple[float, float]:
        """Distance of both ends of a grain line from an edge of the cloth, mm: equal where the piece lies straight.

        It is the edge that `grain_edge` says; a selvage is measured from the edge of the usable width.
        """
        start, end = laid.grain[:, 1]
        at = self.grain_edge(laid)
        return abs(float(at - start)), abs(float(at - end))

    def grain_edge(self, laid: LaidPiece) -> float:
        """y of the edge that a piece's grain is measured from, mm: on folded cloth both selvages, which lie together,
        else the nearer selvage or, on a tube, the nearer fold.
        """
        middle = float(laid.grain[:, 1].mean())
        selvages_together = self.folded and not self.tubular
        return 0.0 if not selvages_together and middle < self.width / 2 else self.width
