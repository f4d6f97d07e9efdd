"""What a maker should know about a skirt's fit over the hips."""

from panelwright.blocks.skirt_body import SkirtBody
from panelwright.body.worded_length import length_words
from panelwright.finding import Finding
from panelwright.pattern.level import HIP, TOP_HIP
from panelwright.pattern.pattern import Pattern


def skirt_findings(pattern: Pattern, body: SkirtBody) -> tuple[Finding, ...]:
    """`skirt-tight-over-hip`, a warning for each level where the skirt's shape gives less than the body needs.

    At the hip that is its girth with the chosen ease, at the top hip its bare girth.
    """
    needs = {TOP_HIP: body.bare[TOP_HIP], HIP: body.hip}
    found = []
    for level in pattern.levels:
        need = needs.get(level.id)
        if need is not None and level.finished_girth < need - 0.5:
            found.append(_tight(level.id, level.finished_girth, need))
    return tuple(found)


def _tight(level: str, drawn: float, need: float) -> Finding:
    words = level.replace("-", " ")
    return Finding(
        "skirt-tight-over-hip",
        "warning",
        level,
        drawn,
        need,
        f"At the {words} the skirt measures {length_words(drawn)}, and the wearer with the ease that was chosen "
        f"{length_words(need)}: it catches there.",
        "Choose a larger part of a circle, more flare, fewer centimetres of ease at the hip or more at the waist.",
    )
