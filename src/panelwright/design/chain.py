"""Seam chains when their edges are narrowed, split, renamed or turned round."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from panelwright.design.position import spoken
from panelwright.errors import DesignError
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam, Span

# A span shorter than this share of an edge is what rounding left over.
NOTHING = 1e-9


@dataclass(frozen=True)
class EdgePart:
    """What became of the stretch `low` … `high` (shares of arc length) of an edge: the whole of a new edge."""

    piece: str
    edge: str
    low: float = 0.0
    high: float = 1.0


# id of an old edge -> what is left of it, from its start to its end; edges that are not named stay as they were.
Parts = Mapping[str, tuple[EdgePart, ...]]


def rechained(chain: Iterable[Span], parts: Parts) -> tuple[Span, ...]:
    """The chain on the new edges, in the same order; stretches that are gone are left out."""
    spans: list[Span] = []
    for span in chain:
        if span.edge not in parts:
            spans.append(span)
            continue
        found = [new for part in parts[span.edge] if (new := _on(span, part))]
        spans += found if span.end > span.start else found[::-1]
    return tuple(spans)


def _on(span: Span, part: EdgePart) -> Span | None:
    width = part.high - part.low
    start, end = (min(max((share - part.low) / width, 0.0), 1.0) for share in (span.start, span.end))
    if abs(end - start) < NOTHING:
        return None
    return replace(span, piece=part.piece, edge=part.edge, start=start, end=end)


def resewn(seams: Iterable[Seam], parts: Parts, before: Pattern, after: Pattern) -> tuple[Seam, ...]:
    """The seams on the new edges. A seam that is gone on both sides is left out; ease shrinks with its seam.

    Args:
        seams: of the old pattern.
        parts: what became of its edges.
        before: the old pattern.
        after: a pattern with the new pieces (its seams are not looked at).

    Raises:
        DesignError: if a seam loses one side only, or its sides no longer match.
    """
    sewn = []
    for seam in seams:
        if all(span.edge not in parts for span in seam.a + seam.b):
            sewn.append(seam)
            continue
        a, b = rechained(seam.a, parts), rechained(seam.b, parts)
        if not a and not b:
            continue
        if not a or not b:
            raise DesignError(f"it would cut away one side of the {spoken(seam.id)} seam and leave the other", seam.id)
        length = after.chain_length(a)
        ease = seam.ease * length / before.chain_length(seam.a)
        off = after.chain_length(b) - (length * seam.ratio + ease)
        if seam.kind != "closure" and abs(off) > TOLERANCES.seam:
            raise DesignError(f"the two sides of the {spoken(seam.id)} seam would differ by {abs(off):.2f} mm", seam.id)
        sewn.append(replace(seam, a=a, b=b, ease=ease))
    return tuple(sewn)
