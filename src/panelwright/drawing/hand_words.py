"""The sentences of a hand sheet: plain, each kind always built alike, so that nobody has to guess."""

from collections.abc import Sequence
from typing import Final

from panelwright.body.units import Unit, format_length
from panelwright.drawing.hand_guide import READ
from panelwright.drawing.hand_names import kind_words
from panelwright.drawing.hand_told import (
    AtLevel,
    Becomes,
    Cross,
    Drawn,
    FromCross,
    Lettered,
    LevelLines,
    Levels,
    Marked,
    OnLine,
    Place,
    Round,
    Same,
    Told,
    Trace,
)

TIMES: Final = 4.0  # a length on the garment is so many times that on paper
_LEAST: Final = 0.05  # what reads as 0 mm
_BENT: Final = 0.4  # a level line that bends less is drawn straight, mm on paper


def sentence(told: Told, unit: Unit = Unit.CM) -> str:
    """The sentence for one thing to do.

    Args:
        told: what is to be done; its lengths are mm on paper.
        unit: of the lengths on the garment that stand beside those on paper.
    """
    match told:
        case Cross(piece):
            return (
                f"Take fresh paper for {piece} and draw a cross: a long straight line upright, which is the grain, and "
                "one straight across, square to it. Where they meet is O."
            )
        case Trace(piece, source):
            return f"Trace {source} with its cross, letters, marks and lines; the tracing becomes {piece}."
        case Same(piece, source):
            return f"Trace {source} with its letters and marks; {piece} has the same outline."
        case Lettered(letter, place):
            return f"{letter}: {place_words(place, unit)}."
        case Marked(name, place):
            return f"Mark {name}: {place_words(place, unit)}."
        case Drawn():
            return _drawn(told, unit)
        case Levels(line, start, marks):
            listed = ", ".join(f"{level} {on_paper(far)}" for level, far in marks)
            return f"On the {line} mark the levels, measuring up along the line from {start}: {listed}."
        case LevelLines(bows):
            return _level_lines(bows)
        case Round(piece, stretches):
            listed = "; ".join(f"{a} to {b} along the {line}" for a, b, line in stretches)
            return f"Now go round {piece}: {listed}."
        case Becomes(name, kind):
            return f"The {name} {kind_words(kind)}."


def alike(source: str, others: Sequence[str]) -> str:
    """The sentence for pieces that are drawn as one that was drawn before."""
    *most, last = others
    named = f"{', '.join(most)} and {last}" if most else last
    return f"Trace {source} with its letters and marks for {named}: {len(others) + 1} alike."


def on_paper(length: float) -> str:
    """A length on paper, `41 mm` or `12.5 mm`, to a tenth of a millimetre."""
    return f"{abs(round(length, READ)):g} mm"


def on_garment(length: float, unit: Unit) -> str:
    """The same length on the garment, `16.4 cm`."""
    return format_length(TIMES * abs(length), unit)


def place_words(place: Place, unit: Unit) -> str:
    """How a place is found, as part of a sentence."""
    match place:
        case FromCross(up, right):
            ways = ((up, "up" if up > 0 else "down"), (right, "right" if right > 0 else "left"))
            named = [(length, way) for length, way in ways if abs(length) >= _LEAST]
            if not named:
                return "at O"
            far = " and ".join(f"{on_paper(length)} {way}" for length, way in named)
            true = " and ".join(on_garment(length, unit) for length, _ in named)
            return f"from O measure {far} ({true} on the garment)"
        case OnLine(line, start, distance, way):
            start = start if start[0].isupper() else f"the {start}"
            far, true = on_paper(distance), on_garment(distance, unit)
            if way in ("up", "down"):
                return f"on the {line} measure {far} {way} from {start} along the line ({true} on the garment)"
            return f"on the {line} measure {far} from {start} towards {way} along the line ({true} on the garment)"
        case AtLevel(line, level):
            return f"where the {line} meets the {level}"


def _drawn(told: Drawn, unit: Unit) -> str:
    name, ends = told.name[0].upper() + told.name[1:], f"from {told.start} to {told.end}"
    length = told.guide.curve.length
    long = f"{on_paper(length)} long; {on_garment(length, unit)} on the garment"
    if not told.guide.points:
        return f"{name}: draw a straight line {ends} ({long})."
    listed = "; ".join(_offset(*point) for point in told.guide.points)
    return (
        f"{name}: lay the ruler {ends}. Square to it, looking {ends}, mark points: {listed}. Draw one smooth curve "
        f"{ends} through them ({long})."
    )


def _offset(along: float, off: float) -> str:
    side = "left" if off > 0 else "right"
    return f"at {on_paper(along)}, {on_paper(off)} {side}" if abs(off) >= _LEAST else f"at {on_paper(along)}, 0 mm"


def _level_lines(bows: tuple[tuple[str, float], ...]) -> str:
    bent = [f"the {level} {on_paper(bow)} {'up' if bow > 0 else 'down'}" for level, bow in bows if abs(bow) >= _BENT]
    bend = f" Bend the middle of these: {', '.join(bent)}." if bent else ""
    return f"Join the two marks of each level with the ruler.{bend}"
