"""A review in words: what is right, and each point with its number and limit, why it matters and how to mend it."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import degrees
from typing import Final

from panelwright.drawing.hand_names import line_name
from panelwright.intake.review import Review
from panelwright.intake.review_point import PENCIL, SEAM, PointKind, ReviewPoint
from panelwright.pattern.pattern import Pattern

MOST_TOLD: Final = 5
_WHY: Final[dict[PointKind, str]] = {
    "seam": "Two sides of unequal length pucker, or one is left over at the end.",
    "edge": "The garment grows or shrinks by as much wherever this line is sewn, on both sides of the body.",
    "corner": "A corner is where seams meet: if one is off, the lines beside it are too, and the ends do not meet.",
    "fold-angle": "The cloth lies double here: an angle that is off makes a point or a dent at the middle.",
    "shape": "Without its corners no line of this piece can be held against the design.",
    "missing": "The garment cannot be sewn without it.",
    "unknown": "It belongs to no part of this design, or it is so far off that it was not known again.",
}
_MEND: Final[dict[PointKind, str]] = {
    "seam": "Walk one side along the other with a pin, see where they part, and redraw the end of the side that is "
    "off the faint line.",
    "edge": "Measure its points again at the number, mark them, and draw the line anew through them.",
    "corner": "Measure the corner again from the level next to it, and draw both lines to it anew.",
    "fold-angle": "Lay the set square on the fold and draw the first 2 cm of the other line anew.",
    "shape": "Look for a corner that was left out or put in, and type its edges again from corner to corner.",
    "missing": "Draw it, and type it into the table under the name that the design gives it.",
    "unknown": "Give it the name of the piece that it is, or look whether its points were typed right.",
}


@dataclass(frozen=True)
class ToldPoint:
    """A point with its number on the sheet and its words."""

    number: int
    point: ReviewPoint
    says: str

    @property
    def why(self) -> str:
        """Why it matters, one sentence."""
        return _WHY[self.point.kind]

    @property
    def mend(self) -> str:
        """How to mend it, one sentence."""
        return _MEND[self.point.kind]


def told_points(review: Review) -> list[ToldPoint]:
    """The points in the order in which they matter, numbered from 1; the first five are told at length."""
    return [ToldPoint(k, point, _says(point, review)) for k, point in enumerate(review.points, 1)]


def what_is_right(review: Review) -> list[str]:
    """What the learner did well, in sentences with numbers."""
    outer = [piece for piece in review.model.pieces if piece.layer == "outer"]
    edges = [pair.model.id for piece in review.pieces for pair in piece.pairs or ()]
    off = {point.edge for point in review.points if point.kind == "edge"}
    corners = {point.edge for point in review.points if point.kind == "corner"}
    bad = sum(point.kind == "seam" for point in review.points)
    said = [f"{len(review.pieces)} of {len(outer)} pieces are there."]
    if edges:
        said.append(
            f"{len(edges) - len(off)} of {len(edges)} lines and {len(edges) - len(corners)} of {len(edges)} corners "
            f"lie within {PENCIL:g} mm of their place on paper, the width of a pencil's line."
        )
    if review.seams:
        fit = len(review.seams) - bad
        said.append(
            f"On {fit} of {len(review.seams)} seams the two sides fit each other within {SEAM:g} mm at full scale."
        )
    return said if review.points else [*said, "Nothing is to be mended: this pattern is drawn as the design asks."]


def _says(point: ReviewPoint, review: Review) -> str:
    names = [_line(review.model, id) for id in point.lines]
    piece = f"piece “{point.piece}”"
    match point.kind:
        case "missing":
            return f"{piece} is missing."
        case "unknown":
            return f"{piece} is not one of the design's."
        case "shape":
            return (
                f"{piece} has {point.value:g} corners where the design's has {point.limit:g}, and it cannot be told "
                "which is which."
            )
        case "seam":
            return _seam(point, names[0], review.scale)
        case "edge":
            every = " from end to end" if point.all_along else ""
            return f"{names[0]}, {piece}: lies {_off(point, review.scale)}{every}."
        case "corner":
            return f"corner of {names[0]} and {names[1]}, {piece}: lies {_off(point, review.scale)}."
        case "fold-angle":
            more = "wider" if point.value > 0 else "narrower"
            size, limit = degrees(abs(point.value)), degrees(point.limit)
            return (
                f"angle of {names[0]} and {names[1]}, {piece}: {size:.1f}° {more} than it should be "
                f"(limit {limit:.0f}°)."
            )


def _seam(point: ReviewPoint, name: str, scale: float) -> str:
    first, second = (" and ".join(f"“{label}”" for label in side) for side in point.others or ((), ()))
    longer = "longer" if point.value > 0 else "shorter"
    paper = f" ({abs(point.value) / scale:.1f} mm on your paper)" if scale != 1 else ""
    return (
        f"{name}: the side on {first} is {abs(point.value):.1f} mm {longer} at full scale{paper} than it should be "
        f"beside {second} (limit {point.limit:g} mm)."
    )


def _off(point: ReviewPoint, scale: float) -> str:
    side = "outside" if point.value > 0 else "inside"
    garment = f", {abs(point.value):.1f} mm at full scale" if scale != 1 else ""
    return f"{abs(point.value) / scale:.1f} mm {side} its place on your paper{garment} (limit {PENCIL:g} mm on paper)"


def _line(model: Pattern, id: str) -> str:
    return line_name(model.line(id))


def most_and_rest(told: Sequence[ToldPoint]) -> tuple[Sequence[ToldPoint], Sequence[ToldPoint]]:
    """The points that matter most, and the others."""
    return told[:MOST_TOLD], told[MOST_TOLD:]
