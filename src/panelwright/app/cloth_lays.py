"""How a drawn design lies on each of its cloths, as a page shows it: every cloth by itself."""

from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass, replace
from functools import lru_cache
from typing import Final

from panelwright.app.board_piece import Document
from panelwright.app.cloth_lay import ClothLay, told_cloth
from panelwright.app.drawn_design import DrawnDesign
from panelwright.app.laid_for import LaidFor
from panelwright.app.lay import cloths_for, wide_enough
from panelwright.app.lay_search import LaySearch
from panelwright.app.lays_file import LayRecord
from panelwright.body.units import Unit
from panelwright.drawing.lay_sheet import lay_alone
from panelwright.drawing.notion_words import NotionWords, notion_words
from panelwright.errors import InputError
from panelwright.file_words import without_file_words
from panelwright.finding import Finding
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay import Lay
from panelwright.lay.lay_garment import lay_pieces
from panelwright.lay.piece_to_cut import pieces_to_cut
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
        fault: why what the workroom keeps of them is not used, or nothing.
    """

    lays: tuple[ClothLay, ...]
    refused: tuple[tuple[Cloth, Finding], ...]
    unit: Unit
    notions: tuple[NotionWords, ...] = ()
    fault: str = ""

    def known(
        self, kept: Sequence[LayRecord], search_for: Callable[[LaidFor], LaySearch | None], fault: str = ""
    ) -> "ClothLays":
        """The same with what is kept of them, the newest first, and the searches for shorter ones."""
        lays = tuple(_known(lay, kept, search_for(lay.laid_for)) for lay in self.lays)
        return replace(self, lays=lays, fault=fault)

    @property
    def used(self) -> tuple[Lay, ...]:
        """The lays that are cut by."""
        return tuple(own.lay for own in self.lays)

    def one(self, number: int) -> ClothLay:
        """One of the lays, counted from 1.

        Raises:
            InputError: if there is no such lay.
        """
        if not 1 <= number <= len(self.lays):
            raise InputError(f"there is no lay {number}: there are {len(self.lays)}", "lay")
        return self.lays[number - 1]

    def laid(self, number: int) -> Document:
        """One of the lays, as `document` has it; raises as `one` does."""
        return self.one(number).document(number, self.unit)

    def document(self) -> Document:
        """The *Lays* answer of docs/board.md."""
        return {
            "lays": [lay.document(number, self.unit) for number, lay in enumerate(self.lays, 1)],
            "refused": [_refused(cloth, finding) for cloth, finding in self.refused],
            "notions": [asdict(words) for words in self.notions],
            "fault": self.fault,
        }

    def picture(self, number: int) -> str:
        """One of the lays as SVG; raises as `one` does."""
        return svg_text(lay_alone(self.one(number).lay, self.unit))

    @property
    def unlaid(self) -> str:
        """Why cloths have no lay, or nothing."""
        return " ".join(finding.message.rstrip(".") for _, finding in self.refused)


@lru_cache(maxsize=KEPT)
def cloth_lays(drawn: DrawnDesign, unit: Unit) -> ClothLays:
    """The first lays of a drawn design; the last ones are kept, since they take longest of all.

    Args:
        drawn: with every step carried out.
        unit: of the lengths that people read.
    """
    cloths = cloths_for(drawn.cutting, drawn.design.cloths)
    wide, refused = wide_enough(drawn.cutting, drawn.design.cloths, unit)
    pieces = tuple(pieces_to_cut(drawn.cutting, cloth.name) for cloth in wide)
    lays = (ClothLay(lay_pieces(cloth, own, unit=unit), own) for cloth, own in zip(wide, pieces, strict=True))
    return ClothLays(
        tuple(lays),
        tuple((cloths[finding.subject], finding) for finding in refused),
        unit,
        notion_words(drawn.cutting.pattern.notions, unit),
    )


def _known(lay: ClothLay, kept: Sequence[LayRecord], search: LaySearch | None) -> ClothLay:
    own = next((each for each in kept if each.laid_for == lay.laid_for), None)
    earlier = next((each for each in kept if each.cloth == lay.laid_for.cloth and own is None), None)
    return replace(lay, kept=own, earlier=earlier, search=search)


def _refused(cloth: Cloth, finding: Finding) -> Document:
    return {**told_cloth(cloth), "message": finding.message, "remedy": without_file_words(finding.remedy)}
