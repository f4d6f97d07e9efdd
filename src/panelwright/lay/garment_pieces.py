"""The pieces of one garment on a cloth that several garments are cut from."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from string import ascii_uppercase

from panelwright.errors import InputError
from panelwright.lay.piece_to_cut import PieceToCut


@dataclass(frozen=True, eq=False)
class GarmentPieces:
    """What one garment takes of a cloth.

    Attributes:
        mark: short, `A`; it stands on every piece of the garment.
        name: what and whose it is, `Lantern bodice for w-01`.
        pieces: of one garment.
        count: how many garments alike.

    Raises:
        InputError: if there is not even one.
    """

    mark: str
    name: str
    pieces: tuple[PieceToCut, ...]
    count: int = 1

    def __post_init__(self) -> None:
        if self.count < 1:
            raise InputError(f"{self.name} is wanted {self.count} times; give at least 1", "count")

    @property
    def area(self) -> float:
        """What one garment takes, mm²: pieces that are drawn by halves count whole."""
        return sum(piece.area for piece in self.pieces)

    def marked(self, count: int) -> Iterator[PieceToCut]:
        """The pieces of `count` garments, each bearing the mark."""
        for piece in self.pieces:
            yield replace(
                piece,
                id=f"{self.mark}/{piece.id}",
                label=f"{self.mark}: {piece.label}",
                code=f"{self.mark}: {piece.code}",
                face_up=piece.face_up * count,
                face_down=piece.face_down * count,
            )


def marks(count: int) -> Sequence[str]:
    """`A` … `Z`, then `AA`, `AB` …"""
    letters = ascii_uppercase
    return [
        letters[k] if k < len(letters) else letters[k // len(letters) - 1] + letters[k % len(letters)]
        for k in range(count)
    ]
