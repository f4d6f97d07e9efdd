"""The words for the steps of panel surgery and their fields."""

from collections.abc import Mapping
from typing import Final

from panelwright.app.field_words import FieldWords, StepWords

SURGERY_LABELS: Final[Mapping[str, StepWords]] = {
    "split": StepWords(
        "Split",
        "Cuts a piece apart along a line, several along one height (a yoke), or a panel between its seams.",
        {
            "way": FieldWords(
                "how",
                {
                    "line": "from one place of the outline to another",
                    "yoke": "a yoke at one height",
                    "panel": "a panel seam between two lines",
                },
            ),
            "pieces": FieldWords("pieces that are cut"),
            "start": FieldWords("where the line starts", when={"way": ("line",)}),
            "end": FieldWords("where it ends", when={"way": ("line",)}),
            "through": FieldWords("places that it runs through (else straight)", when={"way": ("line",)}),
            "height": FieldWords("height of the yoke's seam", when={"way": ("yoke",)}),
            "line": FieldWords("between the line", when={"way": ("panel",)}),
            "towards": FieldWords("and the line", when={"way": ("panel",)}),
            "fraction": FieldWords("share of the way from the first to the second", when={"way": ("panel",)}),
        },
    ),
    "unfold": StepWords(
        "Unfold",
        "Draws both sides of the wearer, so that they may differ from there on.",
        {},
    ),
    "join": StepWords(
        "Join",
        "Makes two pieces one along the seam between them; what does not fit becomes ease or a dart.",
        {
            "seam": FieldWords("seam that they are joined along"),
            "first": FieldWords("piece that stays where it is (else the one on the fold)"),
            "misfit": FieldWords(
                "what does not fit becomes",
                {"ease": "ease, the edges laid end on end", "dart": "a dart at one side of a point"},
            ),
            "point": FieldWords("point of the dart, on the seam (else at the bust)", when={"misfit": ("dart",)}),
            "opens": FieldWords("the dart opens", {"down": "down", "up": "up"}, when={"misfit": ("dart",)}),
            "grain": FieldWords(
                "grain of the new piece", {"square": "square to its waist line", "first": "as the first piece had it"}
            ),
        },
    ),
    "swing": StepWords(
        "Swing a dart",
        "Moves a dart, or a share of it, about its point to another place of the outline.",
        {
            "dart": FieldWords("dart that is moved"),
            "to": FieldWords("where it opens from now on"),
            "share": FieldWords("share of it that is moved, up to 1 for all"),
            "point_back_cm": FieldWords(
                "how far its point ends before the place that it turns about (else 0, or 2 beside another dart)",
                limits=(0.0, 10.0),
            ),
        },
    ),
}
