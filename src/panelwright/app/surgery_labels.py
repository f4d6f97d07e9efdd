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
    "gather": StepWords(
        "Dart to gathers or tucks",
        "Takes a dart out; its mouth becomes gathers or tucks in the seam that it opens into.",
        {
            "dart": FieldWords("dart that is taken out"),
            "fullness": FieldWords("it becomes", {"gathers": "gathers", "tucks": "tucks"}),
            "tuck_cm": FieldWords(
                "length that a tuck is stitched down (else 4)", limits=(1.0, 30.0), when={"fullness": ("tucks",)}
            ),
        },
    ),
    "spread": StepWords(
        "Slash and spread",
        "Slashes a piece between two edges and spreads it: flare where one stays closed, fullness where both open.",
        {
            "piece": FieldWords("piece that is slashed"),
            "open": FieldWords("edge that gets wider"),
            "closed": FieldWords("edge opposite, where the slashes begin"),
            "amount_cm": FieldWords("what the first gains in all", limits=(0.2, 100.0)),
            "closed_amount_cm": FieldWords("what the other gains (0: flare)", limits=(0.0, 100.0)),
            "slashes": FieldWords("slashes"),
            "side": FieldWords("on a piece drawn entire, the wearer's side", {"right": "right", "left": "left"}),
        },
    ),
    "peplum": StepWords(
        "Peplum",
        "Sews a flared piece to a lower edge: a peplum at the waist, or a longer hem below it.",
        {
            "line": FieldWords("edge that it is sewn to"),
            "length_cm": FieldWords("length from that edge to its own hem", limits=(1.0, 150.0)),
            "flare": FieldWords("its hem in lengths of the edge that it is sewn to (1: straight)"),
        },
    ),
    "frill": StepWords(
        "Frill",
        "Sews a strip to a finished edge, or sets it in a seam; its length is reckoned from the edge.",
        {
            "line": FieldWords("edge or seam that it is sewn to"),
            "shape": FieldWords("shape", {"straight": "straight, gathered", "circular": "circular, cut in a curve"}),
            "width_cm": FieldWords("width", limits=(1.0, 150.0)),
            "ratio": FieldWords("gathering ratio (circular: its free edge in lengths of its sewn one)"),
        },
    ),
}
