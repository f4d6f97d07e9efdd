"""How a drawn design lies on each of its cloths, as a page shows it: every cloth by itself."""

from dataclasses import asdict, dataclass, replace
from functools import lru_cache
from typing import Final

from panelwright.app.board_piece import Document
from panelwright.app.drawn_design import DrawnDesign
from panelwright.app.lay import cloths_for, wide_enough
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
    """

    lays: tuple[Lay, ...]
    refused: tuple[tuple[Cloth, Finding], ...]
    unit: Unit
    notions: tuple[NotionWords, ...] = ()

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
        if not 1 <= number <= len(self.lays):
            raise InputError(f"there is no lay {number}: there are {len(self.lays)}", "lay")
        return svg_text(lay_alone(self.lays[number - 1], self.unit))

    @property
    def unlaid(self) -> str:
        """Why cloths have no lay, or nothing."""
        return " ".join(finding.message.rstrip(".") for _, finding in self.refused)

    def _laid(self, number: int, lay: Lay) -> Document:
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
    lays = tuple(lay_pieces(cloth, pieces_to_cut(drawn.cutting, cloth.name), unit=unit) for cloth in wide)
    return ClothLays(
        lays,
        tuple((cloths[finding.subject], finding) for finding in refused),
        unit,
        notion_words(drawn.cutting.pattern.notions, unit),
    )


def _refused(cloth: Cloth, finding: Finding) -> Document:
    return {**_cloth(cloth), "message": finding.message, "remedy": without_file_words(finding.remedy)}


def _cloth(cloth: Cloth) -> Document:
    return {
        "cloth": cloth.name,
        "label": cloth_words(cloth.name),
        "width_mm": round(cloth.width, 2),
        "assumed": cloth.assumed,
    }
