"""The words for the steps that belong to blocks other than the bodice, and for their fields."""

from collections.abc import Mapping
from typing import Final

from panelwright.app.block_record import CM
from panelwright.app.field_words import FieldWords, StepWords
from panelwright.design.waistband import BAND_WIDTHS, OVERLAPS

BLOCK_STEP_LABELS: Final[Mapping[str, StepWords]] = {
    "waistband": StepWords(
        "Waistband",
        "Sews a straight band to the waist of a skirt; it is as long as that waist, and closes where the skirt does.",
        {
            "width_cm": FieldWords("width when finished", limits=(BAND_WIDTHS[0] / CM, BAND_WIDTHS[1] / CM)),
            "overlap_cm": FieldWords("overlap of its ends", limits=(OVERLAPS[0] / CM, OVERLAPS[1] / CM)),
            "folded": FieldWords("folded along its upper edge, cut twice as wide"),
        },
    ),
}
