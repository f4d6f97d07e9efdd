"""The neckline against the bust point, judged where it crosses the front princess seam, not at the centre front."""

from collections.abc import Iterator
from typing import Final

from panelwright.body.units import format_length
from panelwright.checks.corner import Corner, chain_corner
from panelwright.checks.design_words import drawing_step
from panelwright.checks.practice import PRACTICE
from panelwright.checks.seam_height import Stretch, first_above, runs_up, upwards
from panelwright.checks.wearing import Wearing
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.pattern.level import BUST, UNDERBUST, WAIST
from panelwright.pattern.line import FRONT_PRINCESS
from panelwright.pattern.mark import Point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam, Span

AT_THE_END: Final = 5.0  # mm below the block's end where an edge lies as high as it can: the usual one lies 3 below
HIGHER_UP: Final = (
    f"let straps grow out of the panels on that seam{in_file('a step of kind strap, type grown')}, or carry the bodice "
    f"to the shoulder instead of the top edge{in_file('a step of kind bodice-top')}"
)
HIGHER_ON_PAPER: Final = "draw the block higher there on paper"


def check_neckline(pattern: Pattern, block: Pattern | None, wearing: Wearing) -> tuple[Finding, ...]:
    """`neckline-bust-point`: a warning below 40 mm above the bust point, an error below the bust point itself.

    Args:
        block: the pattern before any step. A top edge below the bust has cut its level away: only the block knows
            how far below; without it the finding's value is 0. Where the block itself ends too low for the seam to
            be long enough, the remedy names what reaches higher.
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
    where, line = (top.piece.id, top.top), ends[0][1].finished.line
    depth = first_above(sides, BUST)
    if depth is not None and depth > 0:
        yield from _shallow(seam.id, depth, where, _remedy(pattern, line, depth, block, wearing), wearing)
    elif any(first_above(sides, level) is not None for level in (UNDERBUST, WAIST)):
        below = _below_bust(sides, block)
        yield _below(seam.id, below, where, _remedy(pattern, line, below, block, wearing), wearing)


def _remedy(pattern: Pattern, line: str, depth: float, block: Pattern | None, wearing: Wearing) -> str:
    """To raise the edge, as far as the block goes; where that is not enough, what reaches higher."""
    end = _block_end(block)
    if block is None or end is None or end >= PRACTICE.neckline:
        return f"{_raise(pattern, line)}; it may still dip at the centre front."
    higher, room = HIGHER_UP if block.body else HIGHER_ON_PAPER, end - depth
    if room <= AT_THE_END:
        return (
            f"The edge lies as high as this block goes: {higher}; or see at the toile whether the bust stays in when "
            "the wearer moves."
        )
    most = format_length(room, wearing.unit)
    return f"{_raise(pattern, line)}, by at most {most}, for there this block ends; to reach higher {higher}."


def _raise(pattern: Pattern, line: str) -> str:
    step = drawing_step(pattern, line)
    how = (
        f" (in {step} set the height at side higher, and that at centre front too where that is not enough)"
        if step
        else ""
    )
    return f"Raise the top edge where it crosses the front princess seam{how}"


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
    whole = _of_block(block)
    bust = first_above(whole, BUST)
    for level in (UNDERBUST, WAIST):
        kept, uncut = first_above(sides, level), first_above(whole, level)
        if kept is not None and uncut is not None and bust is not None:
            return min(0.0, kept - (uncut - bust))
    return 0.0


def _block_end(block: Pattern | None) -> float | None:
    """How far above the bust point the block's own front princess seam ends, mm; None where that is not known."""
    return first_above(_of_block(block), BUST)


def _of_block(block: Pattern | None) -> list[list[Stretch]]:
    """Both sides of the front princess seam before any step; none without a block or without that seam."""
    seam = next((s for s in block.seams if block.edge(s.a[0]).line == FRONT_PRINCESS), None) if block else None
    return [upwards(block, chain) for chain in (seam.a, seam.b)] if block and seam else []


def _top_corner(pattern: Pattern, chain: tuple[Span, ...]) -> Corner | None:
    """The corner with the top edge in which a chain ends, or None where it ends in a seam."""
    up = runs_up(pattern, chain[0])
    return chain_corner(pattern, chain[-1 if up else 0], up)
