"""What a step of a design brings that no line shows: an opening and how it is shut, a length, what is to be bought."""

from collections.abc import Iterator

from panelwright.body.units import Unit
from panelwright.drawing.hand_words import TIMES, on_garment, on_paper
from panelwright.pattern.closure import Closure, carried_on
from panelwright.pattern.notion import Notion
from panelwright.pattern.pattern import Pattern


def notes(before: Pattern, after: Pattern, unit: Unit) -> Iterator[str]:
    """The sentences, for what is in the pattern after a step and was not before it."""
    below = carried_on(after.closures)
    for closure in after.closures:
        if closure in before.closures:
            continue
        if closure in below.values():
            yield _carried_on(closure, unit)
        elif closure.id not in below:
            yield _opening(closure, unit)
    for notion in after.notions:
        if notion not in before.notions:
            yield _to_buy(notion, unit)


def _carried_on(closure: Closure, unit: Unit) -> str:
    """What a zip of the bodice opens of the skirt."""
    far = f"{on_paper(closure.opening / TIMES)} ({on_garment(closure.opening / TIMES, unit)} on the garment)"
    return f"The {closure.place.replace('-', ' ')} opens on for {far} below the waist seam, for one {closure.kind}."


def _opening(closure: Closure, unit: Unit) -> str:
    place = closure.place.replace("-", " ")
    side = f" of the {closure.hand} side" if closure.place == "side" and closure.hand != "centre" else ""
    kind = " ".join(filter(None, (closure.style, closure.kind)))
    far = f"{on_paper(closure.opening / TIMES)} ({on_garment(closure.opening / TIMES, unit)} on the garment)"
    if closure.to_top and closure.to_hem:
        ends = "from the lower to the upper edge"
    elif closure.to_top:
        ends = "down from the upper edge"
    elif closure.to_hem:
        ends = "up from the lower edge"
    else:
        ends = "between its two edges"
    return f"The {place}{side} opens {ends} for {far} and is shut by {kind}."


def _to_buy(notion: Notion, unit: Unit) -> str:
    long = f", {on_garment(notion.length / TIMES, unit)} long" if notion.length else ""
    where = f" ({notion.detail.rstrip('.')})" if notion.detail else ""
    return f"To buy: {notion.count} × {notion.name}{long}{where}."
