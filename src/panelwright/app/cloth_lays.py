"""How a drawn design lies on each of its cloths, as a page shows it: every cloth by itself."""

from dataclasses import asdict, dataclass, replace
from functools import lru_cache
from typing import Final

from panelwright.app.board_piece import Document
from panelwright.app.drawn_design import DrawnDesign
from panelwright.app.hand_lay import HandLay, HandLays
from panelwright.app.lay import cloths_for, wide_enough
from panelwright.app.lay_search import LaySearch, LaySearches
from panelwright.body.units import Unit
from panelwright.drawing.lay_sheet import lay_alone
from panelwright.drawing.lay_words import lay_notes
from panelwright.drawing.notion_words import NotionWords, notion_words
from panelwright.errors import InputError
from panelwright.file_words import without_file_words
from panelwright.finding import Finding
from panelwright.finish.cut_count import cloth_words
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay import Lay
from panelwright.lay.lay_garment import lay_pieces
from panelwright.lay.piece_to_cut import PieceToCut, pieces_to_cut
from panelwright.output.svg import svg_text

KEPT: Final = 12


@dataclass(frozen=True, eq=False)
class ClothLays:
    """The lays of a garment.

    Attributes:
        lays: of every cloth that takes its pieces.
        refused: a cloth that a piece is too wide for, and what there is to say of it.
        unit: of the lengths in words and pictures.
        notions: what is bought beside the cloth.
        pieces: of every lay, as the pattern has them.
        searches: for a shorter lay than each, or None where nobody has looked.
    """

    lays: tuple[Lay, ...]
    refused: tuple[tuple[Cloth, Finding], ...]
    unit: Unit
    notions: tuple[NotionWords, ...] = ()
    pieces: tuple[tuple[PieceToCut, ...], ...] = ()
    searches: tuple[LaySearch | None, ...] = ()

    def searched(self, searches: LaySearches) -> "ClothLays":
        """The same with the shortest lays that searches have found."""
        own = tuple(searches.found(lay, pieces) for lay, pieces in zip(self.lays, self.pieces, strict=True))
        lays = tuple(
            lay if search is None else replace(search.best, cloth=lay.cloth)
            for lay, search in zip(self.lays, own, strict=True)
        )
        return replace(self, lays=lays, searches=own)

    def laid(self, number: int) -> Document:
        """One of the lays, counted from 1, as `document` has it.

        Raises:
            InputError: if there is no such lay.
        """
        self._refuse_other(number)
        return self._laid(number, self.lays[number - 1])

    def document(self) -> Document:
        """The *Lays* answer of docs/board.md."""
        return {
            "lays": [self._laid(number, lay) for number, lay in enumerate(self.lays, 1)],
            "refused": [_refused(cloth, finding) for cloth, finding in self.refused],
            "notions": [asdict(words) for words in self.notions],
        }

    def picture(self, number: int) -> str:
        """One of the lays, counted from 1, as SVG.

        Raises:
            InputError: if there is no such lay.
        """
        self._refuse_other(number)
        return svg_text(lay_alone(self.lays[number - 1], self.unit))

    @property
    def unlaid(self) -> str:
        """Why cloths have no lay, or nothing."""
        return " ".join(finding.message.rstrip(".") for _, finding in self.refused)

    def look(self, number: int, searches: LaySearches, seconds: float) -> None:
        """Begin to look for a shorter lay of one cloth.

        Raises:
            InputError: if there is no such lay, or there can be no such time.
        """
        self._refuse_other(number)
        searches.start(self.lays[number - 1], self.pieces[number - 1], seconds)

    def by_hand(self, number: int, hands: HandLays, moving: bool = False) -> HandLay:
        """One of the lays as hands have moved it; `moving` where moves are about to come, as for `HandLays.of`.

        Raises:
            InputError: if there is no such lay.
        """
        self._refuse_other(number)
        return hands.of(self.lays[number - 1], self.pieces[number - 1], moving)

    def begin_anew(self, number: int, hands: HandLays) -> None:
        """Forget what hands have moved in one of the lays; raises as `by_hand` does."""
        self._refuse_other(number)
        hands.forget(self.lays[number - 1], self.pieces[number - 1])

    def _refuse_other(self, number: int) -> None:
        if not 1 <= number <= len(self.lays):
            raise InputError(f"there is no lay {number}: there are {len(self.lays)}", "lay")

    def _laid(self, number: int, lay: Lay) -> Document:
        search = self.searches[number - 1] if self.searches else None
        return {
            **_cloth(lay.cloth),
            "folded": lay.folded,
            "length_mm": round(lay.length, 1),
            "to_buy_mm": round(lay.to_buy, 1),
            "cost": None if lay.cost is None else round(lay.cost, 2),
            "use": round(lay.use, 4),
            # The page says beside the field of the width whether it is assumed.
            "notes": lay_notes(replace(lay, cloth=replace(lay.cloth, assumed=False)), self.unit),
            "picture": number,
            "search": None if search is None else _looked(search),
        }


@lru_cache(maxsize=KEPT)
def cloth_lays(drawn: DrawnDesign, unit: Unit) -> ClothLays:
    """The lays of a drawn design; the last ones are kept, since they take longest of all.

    Args:
        drawn: with every step carried out.
        unit: of the lengths that people read.
    """
    cloths = cloths_for(drawn.cutting, drawn.design.cloths)
    wide, refused = wide_enough(drawn.cutting, drawn.design.cloths, unit)
    pieces = tuple(pieces_to_cut(drawn.cutting, cloth.name) for cloth in wide)
    lays = tuple(lay_pieces(cloth, own, unit=unit) for cloth, own in zip(wide, pieces, strict=True))
    return ClothLays(
        lays,
        tuple((cloths[finding.subject], finding) for finding in refused),
        unit,
        notion_words(drawn.cutting.pattern.notions, unit),
        pieces,
    )


def _looked(search: LaySearch) -> Document:
    """How a search stands, beside the lay that it began with."""
    return {
        "going_on": search.going_on,
        "share": round(search.share, 3),
        "seconds": search.seconds,
        "revision": search.revision,
        "first_mm": round(search.first.length, 1),
        "first_to_buy_mm": round(search.first.to_buy, 1),
        "first_use": round(search.first.use, 4),
    }


def _refused(cloth: Cloth, finding: Finding) -> Document:
    return {**_cloth(cloth), "message": finding.message, "remedy": without_file_words(finding.remedy)}


def _cloth(cloth: Cloth) -> Document:
    return {
        "cloth": cloth.name,
        "label": cloth_words(cloth.name),
        "width_mm": round(cloth.width, 2),
        "assumed": cloth.assumed,
    }
