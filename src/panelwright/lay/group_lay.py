"""Several garments on one cloth: as many to a lay as the table has room for, and lays one behind another."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import ceil
from typing import Final

from panelwright.body.units import Unit
from panelwright.errors import InputError, LayError
from panelwright.lay.cloth import Cloth
from panelwright.lay.garment_pieces import GarmentPieces
from panelwright.lay.laid_ways import shortest_way, ways_of
from panelwright.lay.lay import Lay
from panelwright.lay.lay_garment import SPACING
from panelwright.lay.piece_to_cut import PieceToCut
from panelwright.lay.planned_lay import Planning

# A lay is at most so long unless a group says otherwise, mm: what a long table holds.
LONGEST: Final = 4000.0
LONGEST_ALLOWED: Final = (500.0, 30_000.0)
MOST_SPARE: Final = 0.5
# How full a lay is taken to be while garments are shared out; one that comes out too long is parted.
_FULL: Final = 0.75
# (cloth, garments laid so far, all of them); may raise to stop.
ToldLay = Callable[[str, int, int], None]


@dataclass(frozen=True, eq=False)
class ClothToBuy:
    """One cloth of a group.

    Attributes:
        cloth: which.
        lays: one behind another.
        garments: whose pieces are cut from it.
        spare: share that is bought more, 0 … 0.5.
    """

    cloth: Cloth
    lays: tuple[Lay, ...]
    garments: tuple[GarmentPieces, ...]
    spare: float = 0.0

    @cached_property
    def length(self) -> float:
        """Of all lays, with a chalk line between two of them, mm."""
        return sum(lay.length for lay in self.lays) + SPACING * (len(self.lays) - 1)

    @property
    def to_buy(self) -> float:
        """What to buy, mm: with what is spare and what it shrinks, rounded up once to what the shop cuts."""
        return self.cloth.to_buy(self.length * (1.0 + self.spare))

    @property
    def cost(self) -> float | None:
        """What it costs, where the cloth has a price."""
        return self.cloth.cost(self.to_buy)

    @property
    def use(self) -> float:
        """Share of the lays that becomes pieces, 0 … 1."""
        return sum(lay.use * lay.length for lay in self.lays) / sum(lay.length for lay in self.lays)


def unheard(cloth: str, done: int, whole: int) -> None:
    """Tells nobody."""


def group_cloth(
    cloth: Cloth,
    garments: Sequence[GarmentPieces],
    spare: float = 0.0,
    longest: float = LONGEST,
    unit: Unit = Unit.CM,
    planning: Planning | None = None,
    told: ToldLay = unheard,
) -> ClothToBuy:
    """The lays of all garments on one cloth.

    Args:
        cloth: what is known of it; where it leaves the choice, every lay is folded or spread out as is shorter.
        garments: in the order in which they are cut; each has pieces on this cloth.
        spare: share that is bought more.
        longest: a lay that would be longer is parted, mm; one garment alone may be longer.
        unit: of the lengths in a refusal.
        planning: how hard to look for each lay.
        told: hears before each lay.

    Raises:
        LayError: if a piece is too wide for the cloth; every garment is looked at before any is laid.
        InputError: if there is no garment, or spare or longest cannot be.
    """
    if not garments or not any(garment.pieces for garment in garments):
        raise InputError("no garment has pieces to cut from this cloth", "garments")
    if not 0.0 <= spare <= MOST_SPARE:
        raise InputError(f"{100 * spare:g} percent are spare; give between 0 and {100 * MOST_SPARE:g}", "spare")
    refuse_longest(longest)
    _refuse_too_wide(cloth, garments, unit)
    sets = [garment for garment in garments for _ in range(garment.count)]
    lays: list[Lay] = []
    done = 0
    for batch in _batches(cloth, sets, longest):
        told(cloth.name, done, len(sets))
        lays += _laid(cloth, batch, longest, unit, planning)
        done += len(batch)
    return ClothToBuy(cloth, tuple(lays), tuple(garments), spare)


def _refuse_too_wide(cloth: Cloth, garments: Sequence[GarmentPieces], unit: Unit) -> None:
    for garment in garments:
        try:
            ways_of(cloth, garment.pieces, unit)
        except LayError as error:
            raise LayError(f"{garment.name}: {error}", error.where, error.across, error.room, error.remedy) from error


def refuse_longest(longest: float) -> None:
    """Refuse a length, mm, that no lay is parted at.

    Raises:
        InputError: if it is outside `LONGEST_ALLOWED`.
    """
    least, most = LONGEST_ALLOWED
    if not least <= longest <= most:
        raise InputError(
            f"the longest lay is {longest / 10:g} cm; give between {least / 10:g} and {most / 10:g} cm", "longest"
        )


def _batches(cloth: Cloth, sets: Sequence[GarmentPieces], longest: float) -> list[list[GarmentPieces]]:
    """The garments shared out over as few lays as their areas ask for, about as many to each."""
    whole = sum(garment.area for garment in sets)
    count = min(max(1, ceil(whole / (_FULL * cloth.width * longest))), len(sets))
    ends = [round(len(sets) * k / count) for k in range(count + 1)]
    return [list(sets[a:b]) for a, b in pairwise(ends)]


def _laid(
    cloth: Cloth, batch: Sequence[GarmentPieces], longest: float, unit: Unit, planning: Planning | None
) -> list[Lay]:
    """The lay of a batch; parted while it is too long."""
    lay = shortest_way(cloth, _pieces(batch), SPACING, unit, planning)
    if lay.length <= longest or len(batch) == 1:
        return [lay]
    half = len(batch) // 2
    return [part for own in (batch[:half], batch[half:]) for part in _laid(cloth, own, longest, unit, planning)]


def _pieces(batch: Sequence[GarmentPieces]) -> list[PieceToCut]:
    count = Counter(id(garment) for garment in batch)
    own = {id(garment): garment for garment in batch}
    return [piece for key, garment in own.items() for piece in garment.marked(count[key])]
