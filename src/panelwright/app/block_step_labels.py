"""The words for the steps that belong to blocks other than the bodice, and for their fields."""

from collections.abc import Mapping
from typing import Final

from panelwright.app.block_record import CM
from panelwright.app.field_words import FieldWords, StepWords
from panelwright.blocks.skirt_options import CLOTH_WIDTHS, FLARES, GORES, SKIRT_LENGTHS
from panelwright.design.skirt_step import EASES, HIP_EASES, OPENINGS
from panelwright.design.sleeve import ARMS, CAP_EASES, CAP_HEIGHTS, LENGTHS, WRISTS
from panelwright.design.waistband import BAND_WIDTHS, OVERLAPS


def _cm(limits: tuple[float, float]) -> tuple[float, float]:
    return limits[0] / CM, limits[1] / CM


BLOCK_STEP_LABELS: Final[Mapping[str, StepWords]] = {
    "sleeve": StepWords(
        "Sleeve",
        "Sets a sleeve in one piece into the armhole; its cap is trued to the armhole that is there.",
        {
            "length_cm": FieldWords("length from the shoulder (else to the wrist)", limits=_cm(LENGTHS)),
            "ease_cm": FieldWords("ease of the cap in the armhole", limits=_cm(CAP_EASES)),
            "cap_height_cm": FieldWords("height of the cap (else a third of the armhole)", limits=_cm(CAP_HEIGHTS)),
            "upper_arm_cm": FieldWords("girth of the upper arm (else the wearer's)", limits=_cm(ARMS)),
            "wrist_cm": FieldWords("width at its edge (else as the wearer's hand passes)", limits=_cm(WRISTS)),
        },
    ),
    "skirt": StepWords(
        "Skirt",
        "Sews a skirt to a bodice that ends at the waist: its waist is drawn from the bodice's edge, a zip runs on.",
        {
            "line": FieldWords("edge that it is sewn to"),
            "type": FieldWords(
                "shape",
                {"circle-skirt": "part of a circle", "gored-skirt": "gored", "straight-skirt": "straight, with darts"},
            ),
            "length_cm": FieldWords("length from the waist to its hem", limits=_cm(SKIRT_LENGTHS)),
            "circle": FieldWords(
                "how much of a circle it is",
                {"full": "full", "three-quarter": "three quarters", "half": "half", "quarter": "a quarter"},
                when={"type": ("circle-skirt",)},
            ),
            "cloth_width_cm": FieldWords(
                "width of its cloth", limits=_cm(CLOTH_WIDTHS), when={"type": ("circle-skirt",)}
            ),
            "gores": FieldWords(
                "gores, all round (4, 6, 8, 10 or 12)", limits=(GORES[0], GORES[-1]), when={"type": ("gored-skirt",)}
            ),
            "flare_cm": FieldWords(
                "flare of each side of a gore at the hem", limits=_cm(FLARES), when={"type": ("gored-skirt",)}
            ),
            "ease_cm": FieldWords("by which its waist is longer, eased in", limits=_cm(EASES)),
            "hip_ease_cm": FieldWords(
                "ease at the hip", limits=_cm(HIP_EASES), when={"type": ("gored-skirt", "straight-skirt")}
            ),
            "opening_cm": FieldWords("how far a zip runs on into it (else to the hip)", limits=_cm(OPENINGS)),
        },
    ),
    "waistband": StepWords(
        "Waistband",
        "Sews a straight band to the waist of a skirt; it is as long as that waist, and closes where the skirt does.",
        {
            "width_cm": FieldWords("width when finished", limits=_cm(BAND_WIDTHS)),
            "overlap_cm": FieldWords("overlap of its ends", limits=_cm(OVERLAPS)),
            "folded": FieldWords("folded along its upper edge, cut twice as wide"),
        },
    ),
}
