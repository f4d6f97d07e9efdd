"""The plain cutting pattern with as much text on its pieces as a finished garment carries, and its sheets."""

from dataclasses import replace
from datetime import date

from plain_block import plain_block
from plain_cutting_pattern import plain_cutting_pattern

from panelwright.drawing.heading import Heading
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.pattern.pattern import Pattern

TEXT = ("Lantern dance bodice", "wearer w-07", "estimated: measure before cutting")
MADE_ON = date(2026, 11, 25)


def garment(faced: bool = True) -> CuttingPattern:
    """Four outer pieces (and their facings): a name, a cut and three more lines of text on each."""
    plain = plain_cutting_pattern(faced)
    cut = {id: replace(piece, text=piece.text + TEXT) for id, piece in plain.cut.items()}
    pattern = replace(plain.pattern, wearer="w-07", estimated=("bust_point_span", "waist_to_top_hip"))
    return replace(plain, pattern=pattern, cut=cut)


def block() -> Pattern:
    """The block that the garment came from: its top and hem are straight."""
    return plain_block()


def heading(finished: CuttingPattern) -> Heading:
    """The heading of the garment's sheets."""
    return Heading.of(finished.pattern, "Lantern dance bodice", MADE_ON)
