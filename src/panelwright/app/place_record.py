"""Where one piece of a lay lies, as it is kept."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Annotated, Final

from pydantic import Field

from panelwright.app.block_record import Record
from panelwright.geometry.placement import Placement
from panelwright.lay.lay import LaidPiece, Lay

MOST_LAID: Final = 2000
_FARTHEST: Final = 1e6
_ROUNDING: Final = 1e-6  # mm, degrees

PieceId = Annotated[str, Field(min_length=1, max_length=200)]
CopyNumber = Annotated[int, Field(ge=0, le=10_000)]
Coordinate = Annotated[float, Field(ge=-_FARTHEST, le=_FARTHEST)]


class PlaceRecord(Record):
    """One piece: turned over about its y axis if mirrored, turned anticlockwise, then shifted, mm: a `Placement`."""

    piece: PieceId
    number: CopyNumber
    x: Coordinate
    y: Coordinate
    rotation_deg: Annotated[float, Field(ge=-_FARTHEST, le=_FARTHEST)] = 0.0
    mirrored: bool = False

    @classmethod
    def of(cls, laid: LaidPiece) -> "PlaceRecord":
        """The place of a piece."""
        place = laid.placement
        return cls(
            piece=laid.piece.id,
            number=laid.copy,
            x=place.x,
            y=place.y,
            rotation_deg=math.degrees(place.angle),
            mirrored=place.mirrored,
        )

    @property
    def placement(self) -> Placement:
        """From the piece's own coordinates to the cloth's."""
        return Placement(math.radians(self.rotation_deg), self.x, self.y, self.mirrored)


def places_of(laid: Iterable[LaidPiece]) -> tuple[PlaceRecord, ...]:
    """Where pieces lie, in their order."""
    return tuple(map(PlaceRecord.of, laid))


def placed(lay: Lay, places: Sequence[PlaceRecord]) -> Lay | None:
    """The lay with its pieces in other places, not yet proved; None where the places are not of its pieces."""
    by_piece = {(place.piece, place.number): place for place in places}
    if by_piece.keys() != {(laid.piece.id, laid.copy) for laid in lay.laid} or len(by_piece) != len(lay.laid):
        return None
    laid = (replace(each, placement=by_piece[each.piece.id, each.copy].placement) for each in lay.laid)
    return replace(lay, laid=tuple(laid))


def lie_alike(places: Sequence[PlaceRecord], others: Sequence[PlaceRecord]) -> bool:
    """Whether the same pieces lie in the same places, but for rounding."""
    by_piece = {(place.piece, place.number): place for place in others}
    return len(places) == len(others) and all(
        (other := by_piece.get((place.piece, place.number))) is not None
        and place.mirrored == other.mirrored
        and max(abs(place.x - other.x), abs(place.y - other.y), abs(place.rotation_deg - other.rotation_deg))
        < _ROUNDING
        for place in places
    )
