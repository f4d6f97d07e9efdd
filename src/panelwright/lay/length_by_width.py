"""How much cloth the same pieces need from cloth of one width or another."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from panelwright.body.units import Unit
from panelwright.errors import InputError, LayError
from panelwright.lay.cloth import Cloth
from panelwright.lay.laid_ways import ways_of
from panelwright.lay.lay import Lay
from panelwright.lay.lay_garment import SPACING, lay_pieces
from panelwright.lay.piece_to_cut import PieceToCut
from panelwright.lay.planned_lay import Planning

MOST_WIDTHS: Final = 60
# (widths done, all of them); may raise to stop.
ToldWidth = Callable[[int, int], None]


@dataclass(frozen=True, eq=False)
class OneWidth:
    """What one width comes to.

    Attributes:
        width: of the cloth, mm.
        lays: one for each way in which it may lie, folded first; none where a piece is too wide.
        refusal: why there are none, or empty.
    """

    width: float
    lays: tuple[Lay, ...]
    refusal: str = ""

    def lay(self, folded: bool) -> Lay | None:
        """The lay on folded cloth, or on cloth that is spread out."""
        return next((lay for lay in self.lays if lay.folded == folded), None)

    @property
    def best(self) -> Lay | None:
        """The one that asks for least cloth."""
        return min(self.lays, key=lambda lay: (lay.to_buy, lay.length), default=None)


def unheard(done: int, whole: int) -> None:
    """Tells nobody."""


def length_by_width(
    cloth: Cloth,
    pieces: Sequence[PieceToCut],
    widths: Sequence[float],
    spacing: float = SPACING,
    unit: Unit = Unit.CM,
    planning: Planning | None = None,
    told: ToldWidth = unheard,
) -> tuple[OneWidth, ...]:
    """The lays on cloth of every width, from narrow to wide; wider cloth never needs more.

    Args:
        cloth: all that is known of it but its width.
        pieces: what is cut.
        widths: mm.
        spacing: least distance of two pieces, mm.
        unit: of the lengths in a refusal.
        planning: how hard to look for each lay; None for the first lay, which takes a moment.
        told: hears before each width.

    Raises:
        InputError: if there are no pieces, no widths or more than `MOST_WIDTHS`, or no cloth has such a width.
    """
    if not pieces:
        raise InputError("no piece is cut from this cloth: choose one that pieces are cut from", "cloth")
    if not 0 < len(widths) <= MOST_WIDTHS:
        raise InputError(f"{len(widths)} widths are given; give 1 to {MOST_WIDTHS}", "widths")
    ordered = [replace(cloth, width=width, assumed=False) for width in sorted(set(widths))]
    rows: list[OneWidth] = []
    for done, own in enumerate(ordered):
        told(done, len(ordered))
        rows.append(_one(own, pieces, spacing, unit, planning, rows[-1] if rows else None))
    return tuple(rows)


def _one(
    cloth: Cloth,
    pieces: Sequence[PieceToCut],
    spacing: float,
    unit: Unit,
    planning: Planning | None,
    narrower: OneWidth | None,
) -> OneWidth:
    """One width. What fits on narrower cloth fits here too, and is kept where nothing shorter is found."""
    try:
        ways = ways_of(cloth, pieces, unit)
    except LayError as error:
        return OneWidth(cloth.width, (), str(error))
    lays = []
    for way in ways:
        lay = lay_pieces(way, pieces, spacing, unit, planning)
        before = None if narrower is None else narrower.lay(lay.folded)
        if before is not None and before.length < lay.length:
            lay = replace(before, cloth=lay.cloth)
        lays.append(lay)
    return OneWidth(cloth.width, tuple(lays))
