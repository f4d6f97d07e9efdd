"""Which drawn edges are sewn to each other: suggestions for the whole pattern at once, each with its reason."""

from dataclasses import dataclass, replace
from itertools import combinations
from typing import Final

from panelwright.body.units import Unit
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.drawn_seam import DrawnSeam
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.edge_trait import EdgeTrait, traits
from panelwright.intake.seam_matching import best_pairs
from panelwright.intake.seam_score import score
from panelwright.intake.stitch_line import stitch_lines
from panelwright.pattern import line as lines

USUAL: Final = {
    ("CF", "SF"): lines.FRONT_PRINCESS,
    ("CF", "SP"): lines.FRONT_PRINCESS,
    ("SF", "SB"): lines.SIDE,
    ("SB", "CB"): lines.BACK_PRINCESS,
    ("SP", "CB"): lines.BACK_PRINCESS,
    ("CF", "CB"): lines.SIDE,
    ("SF", "UA"): "front-underarm",
    ("SF", "UF"): "front-underarm",
    ("UF", "UB"): lines.SIDE,
    ("UA", "SB"): "back-underarm",
    ("UB", "SB"): "back-underarm",
}


@dataclass(frozen=True)
class SeamSuggestion:
    """A seam that looks likely.

    Attributes:
        seam: its two edges and a name for it.
        sides: those edges in words, numbered as they were drawn: `SF, edge 2`.
        score: 0 … 1.
        reason: in words.
    """

    seam: DrawnSeam
    sides: tuple[str, str]
    score: float
    reason: str


def suggested_seams(drawn: DrawnPattern, unit: Unit = Unit.CM) -> tuple[SeamSuggestion, ...]:
    """Likely partners among the edges that are in no confirmed seam yet, at any scale.

    Folds, openings and centre lines, and finished edges, have none. Of all ways to pair the others the one in
    which most agrees is taken, so that a second-best pair never takes an edge that another pair needs.
    """
    whole = stitch_lines(drawn)
    free = [trait for trait in traits(whole) if trait.role == "seam" and trait.ref not in drawn.sewn]
    weighed = {
        (a, b): score(free[a], free[b], unit)
        for a, b in combinations(range(len(free)), 2)
        if free[a].piece.id != free[b].piece.id
    }
    names = set(drawn.sewn.values())
    found = []
    for a, b in best_pairs(free, weighed):
        name = _name(free[a], free[b], names)
        names.add(name)
        seam, weight = DrawnSeam(free[a].ref, free[b].ref, name), weighed[a, b]
        sides = whole.edge_name(seam.a), whole.edge_name(seam.b)
        found.append(SeamSuggestion(seam, sides, weight.value, weight.reason))
    return tuple(found)


def with_suggestions(drawn: DrawnPattern, suggestions: tuple[SeamSuggestion, ...]) -> DrawnPattern:
    """The pattern with suggestions taken for confirmed."""
    return replace(drawn, seams=(*drawn.seams, *(suggestion.seam for suggestion in suggestions)))


def recognised_finished(drawn: DrawnPattern) -> tuple[EdgeRef, ...]:
    """The edges that are taken for a top, a hem or another finished edge, at any scale."""
    return tuple(trait.ref for trait in traits(stitch_lines(drawn)) if trait.role == "finished")


def _name(a: EdgeTrait, b: EdgeTrait, taken: set[str]) -> str:
    """The line's own name, else the usual one between such panels, else one made of the two pieces' names."""
    usual = USUAL.get((a.piece.id, b.piece.id)) or USUAL.get((b.piece.id, a.piece.id))
    for name in (a.edge.line, b.edge.line, usual):
        if name and name not in taken:
            return name
    name = plain = f"{a.piece.id}-{b.piece.id}".lower().replace(" ", "-")
    k = 1
    while name in taken:
        k += 1
        name = f"{plain}-{k}"
    return name
