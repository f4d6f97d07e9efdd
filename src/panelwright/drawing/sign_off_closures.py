"""Where the garment opens and how it is shut, for the sign-off page."""

from collections.abc import Iterator
from typing import Final

from panelwright.body.units import Unit
from panelwright.drawing.amount import amount
from panelwright.drawing.page_flow import Strip
from panelwright.drawing.paragraph import paragraph, section
from panelwright.pattern.closure import SPREAD_OPEN, Closure, carried_on
from panelwright.pattern.line import CENTRE_BACK, CENTRE_FRONT
from panelwright.pattern.pattern import Pattern

KINDS: Final = {"zip": "zip", "lacing": "lacing", "hooks": "hooks and eyes", "buttons": "buttons", "tie": "ties"}
PLACES: Final = {"centre-front": "Centre front", "centre-back": "Centre back", "side": "Side seam"}
CENTRES: Final = {CENTRE_FRONT: "centre front", CENTRE_BACK: "centre back"}


def closure_strips(pattern: Pattern, unit: Unit, width: float) -> list[Strip]:
    """A sentence for each closure; for openings that no step shuts, or a garment without any, what that means."""
    below = carried_on(pattern.closures)
    sentences = [
        closure_words(closure, unit, below.get(closure.id))
        for closure in pattern.closures
        if closure not in below.values()
    ]
    shut = {closure.place for closure in pattern.closures}
    sentences += [
        f"The {name} stands open: nothing says yet how it is shut."
        for line, name in CENTRES.items()
        if line not in shut and any(edge.kind == "opening" for _, edge in pattern.pieces_on_line(line))
    ]
    if not sentences:
        sentences = ["It has no opening: it goes on over the head or from the feet."]
    return [section("Closures", width), *(paragraph(sentence, width) for sentence in sentences)]


def closure_words(closure: Closure, unit: Unit, below: Closure | None = None) -> str:
    """`Centre back: invisible zip, opens 31.2 cm from the upper edge to the hem.`

    Args:
        closure: which.
        unit: of the lengths.
        below: of a skirt, what it runs on into.
    """
    hand = "" if closure.hand == "centre" else f", the wearer’s {closure.hand}"
    shut = f"{closure.style} {KINDS[closure.kind]}" if closure.style else KINDS[closure.kind]
    opens = f"opens {amount(closure.opening, unit)} {_reach(closure)}"
    opens += f" and {amount(below.opening, unit)} of the skirt" if below is not None else ""
    return f"{PLACES[closure.place]}{hand}: {', '.join([shut, opens, *_edges(closure, unit)])}."


def _reach(closure: Closure) -> str:
    if closure.runs_on:
        return "from the upper edge to the waist seam"
    if closure.to_top and closure.to_hem:
        return "from the upper edge to the hem"
    if closure.to_top:
        return "from the upper edge down"
    return "from the hem up" if closure.to_hem else "within the line"


def _edges(closure: Closure, unit: Unit) -> Iterator[str]:
    if closure.gap:
        yield f"edges {amount(closure.gap, unit)} apart when closed"
    if closure.overlap:
        yield f"edges lap {amount(closure.overlap, unit)}"
    let_out = closure.spreads != SPREAD_OPEN and not closure.runs_on
    if let_out and amount(closure.spreads, unit) != amount(closure.gap, unit):
        yield f"{amount(closure.spreads, unit)} apart when let out"
