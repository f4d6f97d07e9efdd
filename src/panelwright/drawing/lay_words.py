"""What stands above a lay: the cloth, what to buy, how to measure, what to mind."""

from collections.abc import Iterable

from panelwright.body.units import Unit, format_length
from panelwright.finish.cut_count import cloth_words
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.lay.lay import Lay


def group_words(lay: Lay, number: int, of: int, unit: Unit) -> str:
    """`Outer cloth, 140.0 cm wide, spread out, right side up: lay 1 of 2. It is 345.0 cm long; 71 % of it …`"""
    which = f"lay {number} of {of}" if of > 1 else "one lay"
    length = format_length(lay.length, unit)
    return f"{_lying(lay, unit)}: {which}. It is {length} long; {100 * lay.use:.0f} % of it becomes pieces."


def buying_words(lay: Lay, unit: Unit) -> str:
    """`Outer cloth, 140.0 cm wide, folded lengthwise: buy 40.0 cm. The lay is 34.5 cm long and uses 61 % of it.`"""
    buy, length = (format_length(value, unit) for value in (lay.to_buy, lay.length))
    cost = "" if lay.cost is None else f" ({lay.cost:.2f} at {lay.cloth.price:.2f} a metre)"
    return (
        f"{_lying(lay, unit)}: buy {buy}{cost}. The lay is {length} long; {100 * lay.use:.0f} % of it becomes pieces."
    )


def edge_words(lay: Lay) -> str:
    """What the grain of its pieces is measured from."""
    return "fold" if lay.tubular else "selvage"


def _lying(lay: Lay, unit: Unit) -> str:
    name = cloth_words(lay.cloth.name)
    if lay.tubular:
        return f"{name[:1].upper()}{name[1:]}, a tube that is {format_length(lay.width, unit)} wide as it lies flat"
    way = "folded lengthwise, right sides together" if lay.folded else "spread out, right side up"
    return f"{name[:1].upper()}{name[1:]}, {format_length(lay.cloth.width, unit)} wide, {way}"


def lay_notes(lay: Lay, unit: Unit) -> list[str]:
    """What to mind on this lay, the important first."""
    return [
        "The two lengths on a piece, or in the list, are the distances of its grain line from the "
        f"{edge_words(lay)} at both ends: they are equal. Measure both before cutting"
        f"{', from the nearer of the two folds' if lay.tubular else ', from the edge of the usable width'}.",
        *_cloth_notes(lay, unit),
        *_piece_notes(lay),
        *_turned_notes(lay),
    ]


def _cloth_notes(lay: Lay, unit: Unit) -> Iterable[str]:
    cloth = lay.cloth
    if cloth.assumed:
        yield f"Nobody said how wide this cloth is: {format_length(cloth.width, unit)} is assumed."
    if cloth.shrinkage:
        yield f"Wash it before cutting: it loses {100 * cloth.shrinkage:g} % of its length, and so much more is bought."
    if cloth.one_way:
        yield "One-way cloth: no piece may be turned round."


def _turned_notes(lay: Lay) -> Iterable[str]:
    """Pieces that lie across the cloth or slantwise, as only a lay of outlines may have them."""
    distances = ((laid.piece.label, lay.grain_distances(laid)) for laid in lay.laid)
    names = dict.fromkeys(label for label, (near, far) in distances if abs(near - far) > TOLERANCES.laid)
    if names:
        yield f"Turned off the straight grain, so that the two lengths differ: {', '.join(names)}."


def _piece_notes(lay: Lay) -> Iterable[str]:
    names = list(dict.fromkeys(laid.piece.label for laid in lay.spares))
    if names:
        gives = "A tube" if lay.tubular else "Folded cloth"
        remedy = "" if lay.tubular else " Spread out it would not be cut."
        yield f"{gives} gives two of each: one is spare of {', '.join(names)}.{remedy}"
    if any(laid.piece.opened is not None for laid in lay.laid):
        yield "Opened pieces: lay the half, trace it, turn it over along the broken line and trace it again."
    if not lay.folded and any(laid.placement.mirrored for laid in lay.laid):
        yield "Face down: turn the paper over before it is traced."
