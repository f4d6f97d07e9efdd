"""What holds a bodice up."""

from panelwright.checks.shoulder import hangs
from panelwright.checks.wearer_pressure import is_boned
from panelwright.checks.wearing import Wearing
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.pattern.level import BUST
from panelwright.pattern.pattern import Pattern


def check_support(pattern: Pattern, wearing: Wearing) -> tuple[Finding, ...]:
    """`unboned-strapless`, a warning: a bodice that covers the bust without straps, shoulders or bones."""
    if is_boned(pattern, wearing) or not is_strapless(pattern):
        return ()
    message = (
        "Nothing but its fit holds this strapless bodice up: it has no bones and no straps, so it slides down and "
        "folds at the waist."
    )
    remedy = (
        f"Add bones{in_file('a step of kind bones')} and plan a firm lining or waist stay, or give it straps; or see "
        "how it "
        "sits at the toile."
    )
    return (Finding("unboned-strapless", "warning", pattern.design, 0, 1, message, remedy, unit="bones"),)


def is_strapless(pattern: Pattern) -> bool:
    """Whether the outer pieces cover the bust, and none has a shoulder or strap."""
    outer = [piece for piece in pattern.pieces if piece.layer == "outer"]
    covers = any(line.id == BUST for piece in outer for line in piece.inside)
    covers |= any(mark.id == "bust-point" for piece in outer for mark in piece.marks)
    return covers and not any(hangs(edge.line) for piece in outer for edge in piece.edges)
