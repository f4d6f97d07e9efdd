"""The two sides of every seam as the learner drew them, held against each other."""

from collections.abc import Mapping
from dataclasses import dataclass

from panelwright.intake.review_point import SEAM, ReviewPoint
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam, Span


@dataclass(frozen=True)
class SeamReview:
    """A seam on the learner's own pieces, mm of the garment.

    Attributes:
        seam: of the model.
        a, b: lengths of its sides as drawn.
        off: how much longer side a is than it should be beside b; the model's own ease and ratio are allowed for.
    """

    seam: Seam
    a: float
    b: float
    off: float


def seam_reviews(model: Pattern, lengths: Mapping[str, float]) -> list[SeamReview]:
    """Seams and darts both of whose sides the learner drew. A centre seam is one edge twice and is left out.

    Args:
        model: the pattern as it should be.
        lengths: edge id of the model -> length of the learner's stretch, mm of the garment.
    """
    found = []
    for seam in model.seams:
        known = all(span.edge in lengths for span in seam.a + seam.b)
        if seam.kind in ("join", "dart") and not seam.is_centre and known:
            a, b = _length(seam.a, lengths), _length(seam.b, lengths)
            want = model.chain_length(seam.b) - model.chain_length(seam.a) * seam.ratio
            found.append(SeamReview(seam, a, b, (want - (b - a * seam.ratio)) / seam.ratio))
    return found


def seam_points(model: Pattern, reviews: list[SeamReview]) -> list[ReviewPoint]:
    """The seams whose sides differ by more than 2 mm too much."""
    return [_point(model, each) for each in reviews if abs(each.off) > SEAM]


def _length(chain: tuple[Span, ...], lengths: Mapping[str, float]) -> float:
    return sum(lengths[span.edge] * span.share for span in chain)


def _point(model: Pattern, each: SeamReview) -> ReviewPoint:
    seam = each.seam
    sides = tuple(tuple(dict.fromkeys(model.piece(s.piece).label for s in chain)) for chain in (seam.a, seam.b))
    first = model.edge(seam.a[0])
    return ReviewPoint(
        "seam",
        sides[0][0],
        (first.line,),
        each.off,
        SEAM,
        others=(sides[0], sides[1]),
        edge=first.id,
        beside=seam.b[0].edge,
    )
