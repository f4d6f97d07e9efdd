"""Rule 3: what is drawn at a level is what the level says it measures."""

from collections.abc import Iterator

from panelwright.body.worded_length import length_words
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.level import Level
from panelwright.pattern.mark import as_point
from panelwright.pattern.pattern import Pattern


def drawn_girth(pattern: Pattern, level: Level) -> float:
    """Girth of the closed garment as it is drawn, mm: Σ arc · times + lacing gap − overlap."""
    lines = ((pattern.piece(step.piece).inside_line(step.inside), step.times) for step in level.path)
    return sum(line.curve.length * times for line, times in lines if line) + level.gap - level.overlap


def check_level_girths(cutting: CuttingPattern) -> tuple[Finding, ...]:
    """`level-girth` errors."""
    return tuple(finding for level in cutting.pattern.levels for finding in _check(cutting.pattern, level))


def _check(pattern: Pattern, level: Level) -> Iterator[Finding]:
    drawn, wanted = drawn_girth(pattern, level), level.finished_girth
    if abs(drawn - wanted) <= TOLERANCES.level:
        return
    off = drawn - wanted
    message = (
        f"{level.label} is drawn {length_words(drawn, 2)} round, {length_words(abs(off), 2)} "
        f"{'more' if off > 0 else 'less'} than the {length_words(wanted, 2)} of body girth and ease."
    )
    way = "Take in" if off > 0 else "Let out"
    remedy = f"{way} the seams at this level by {length_words(abs(off), 2)} in all, or change the level's ease."
    line = pattern.piece(level.path[0].piece).inside_line(level.path[0].inside) if level.path else None
    piece, at = (level.path[0].piece, as_point(line.curve.start)) if line else (None, None)
    yield Finding("level-girth", "error", level.id, abs(off), TOLERANCES.level, message, remedy, piece, at)
