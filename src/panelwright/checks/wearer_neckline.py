"""The neckline against the bust point, judged where it crosses the front princess seam, not at the centre front."""

from collections.abc import Iterator

from panelwright.body.units import format_length
from panelwright.checks.corner import Corner, chain_corner
from panelwright.checks.design_words import drawing_step
from panelwright.checks.practice import PRACTICE
from panelwright.checks.seam_height import Stretch, first_above, runs_up, upwards
from panelwright.checks.wearing import Wearing
from panelwright.finding import Finding
from panelwright.pattern.level import BUST, UNDERBUST, WAIST
from panelwright.pattern.line import FRONT_PRINCESS
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam, Span


def check_neckline(pattern: Pattern, block: Pattern | None, wearing: Wearing) -> tuple[Finding, ...]:
    """`neckline-bust-point`: a warning below 40 mm above the bust point, an error below the bust point itself.

    Args:
        block: the pattern before any step. A top edge below the bust has cut its level away: only the block knows
            how far below; without it the finding's value is 0.
    """
    seams = (seam for seam in pattern.seams if any(pattern.edge(span).line == FRONT_PRINCESS for span in seam.a))
    return tuple(
        finding
        for seam in seams
        if seam.kind == "join" and all(pattern.piece(span.piece).layer == "outer" for span in seam.a + seam.b)
        for finding in _check(pattern, seam, block, wearing)
    )


def _check(pattern: Pattern, seam: Seam, block: Pattern | None, wearing: Wearing) -> Iterator[Finding]:
    ends = [(chain, corner) for chain in (seam.a, seam.b) if (corner := _top_corner(pattern, chain)) is not None]
    if not ends:
        return
    sides = [upwards(pattern, chain) for chain, _ in ends]
    top = sides[0][-1]
    where, remedy = (top.piece.id, top.top), _raise(pattern, ends[0][1].finished.line)
    depth = first_above(sides, BUST)
    if depth is not None and depth > 0:
        yield from _shallow(seam.id, depth, where, remedy, wearing)
    elif any(first_above(sides, level) is not None for level in (UNDERBUST, WAIST)):
        yield _below(seam.id, _below_bust(sides, block), where, remedy, wearing)


def _raise(pattern: Pattern, line: str) -> str:
    step = drawing_step(pattern, line)
    how = (
        f" (in {step} set the height at side higher, and that at centre front too where that is not enough)"
        if step
        else ""
    )
    return f"Raise the top edge where it crosses the front princess seam{how}; it may still dip at the centre front."


def _shallow(seam: str, depth: float, where: tuple[str, Point], remedy: str, wearing: Wearing) -> Iterator[Finding]:
    if depth >= PRACTICE.neckline:
        return
    shown, least = (format_length(length, wearing.unit) for length in (depth, PRACTICE.neckline))
    message = (
        f"The top edge crosses the front princess seam {shown} above the bust point; {least} is a sensible least, "
        "because a lower edge lets the bust slip out when the wearer moves."
    )
    yield Finding("neckline-bust-point", "warning", seam, depth, PRACTICE.neckline, message, remedy, *where)


def _below(seam: str, depth: float, where: tuple[str, Point], remedy: str, wearing: Wearing) -> Finding:
    by = f" by {format_length(-depth, wearing.unit)}" if depth < 0 else ""
    message = f"The top edge crosses the front princess seam below the bust point{by}: the bust is not held."
    return Finding("neckline-bust-point", "error", seam, depth, 0, message, remedy, *where)


def _below_bust(sides: list[list[Stretch]], block: Pattern | None) -> float:
    """How far above the bust point the top edge crosses, below 0: by the block's length from a lower level up to it."""
    seam = next((s for s in block.seams if block.edge(s.a[0]).line == FRONT_PRINCESS), None) if block else None
    if block is None or seam is None:
        return 0.0
    whole = [upwards(block, chain) for chain in (seam.a, seam.b)]
    bust = first_above(whole, BUST)
    for level in (UNDERBUST, WAIST):
        kept, uncut = first_above(sides, level), first_above(whole, level)
        if kept is not None and uncut is not None and bust is not None:
            return min(0.0, kept - (uncut - bust))
    return 0.0


def _top_corner(pattern: Pattern, chain: tuple[Span, ...]) -> Corner | None:
    """The corner with the top edge in which a chain ends, or None where it ends in a seam."""
    up = runs_up(pattern, chain[0])
    return chain_corner(pattern, chain[-1 if up else 0], up)
