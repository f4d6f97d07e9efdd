"""What is bought and cut: cloths with their pieces, and notions, for the sign-off page."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Final

from panelwright.body.units import Unit
from panelwright.drawing.amount import amount
from panelwright.drawing.notion_words import notion_words
from panelwright.drawing.page_flow import Strip, kept_together
from panelwright.drawing.paragraph import SMALL, Column, paragraph, section, table
from panelwright.finish.cut_count import cloth_words
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.cutting_list import ClothList, counted_cut, cutting_lists
from panelwright.finish.piece_code import code_words, shape_of
from panelwright.lay.lay import Lay
from panelwright.pattern.notion import Notion

PIECE_SHARE: Final = 0.34
NOTHING: Final = "–"
ASSUMED: Final = "*"
# So few shapes, or notions, stay on one page.
FEW: Final = 12
NOTION_COLUMNS: Final = (
    Column("", 0.1, "right", bold=True),
    Column("", 0.32),
    Column("", 0.24, "right"),
    Column("", 0.34),
)


def cloth_strips(cutting: CuttingPattern, lays: Sequence[Lay], unlaid: str, unit: Unit, width: float) -> list[Strip]:
    """A row for each shape, a column for each cloth, and under them how many pieces that makes and what to buy.

    `unlaid` says why that is not known, or is empty.
    """
    lists = cutting_lists(cutting)
    cloths = [listed.cloth for listed in lists]
    laid = {lay.cloth.name: lay for lay in lays}
    columns = [Column("Piece", PIECE_SHARE)]
    columns += [Column(_opening(cloth_words(cloth)), (1 - PIECE_SHARE) / len(cloths)) for cloth in cloths]
    rows = [[label, *(cells.get(cloth, NOTHING) for cloth in cloths)] for label, cells in _shapes(cutting).items()]
    totals = [["In all", *map(_total, lists)], *_bought(cloths, laid, unit)]
    bold = [replace(column, title="", bold=True) for column in columns]
    strips = [section("Cloth", width), *table(columns, rows, width), *table(bold, totals, width)]
    if any(lay.cloth.assumed for lay in lays):
        strips.append(paragraph(f"{ASSUMED} assumed: give the width of your own cloth", width, SMALL))
    strips += [
        paragraph(f"{_opening(cloth_words(one.cloth))}: {one.two_ways}", width, SMALL) for one in lists if one.two_ways
    ]
    if unlaid:
        strips.append(paragraph(f"What to buy is not known: {unlaid}.", width, bold=True))
    return kept_together(strips) if len(rows) <= FEW else strips


def notion_strips(notions: Sequence[Notion], unit: Unit, width: float) -> list[Strip]:
    """How many of what, how long each, and where it goes."""
    rows = [words.row for words in notion_words(notions, unit)]
    listed = table(NOTION_COLUMNS, rows, width) if rows else [paragraph("Thread only.", width)]
    strips = [section("Notions", width), *listed]
    return kept_together(strips) if len(rows) <= FEW else strips


def _bought(cloths: Sequence[str], laid: Mapping[str, Lay], unit: Unit) -> Iterator[list[str]]:
    """Length, width and cost of every cloth whose lay is known."""

    def row(name: str, cell: Callable[[Lay], str]) -> list[str]:
        return [name, *(cell(laid[cloth]) if cloth in laid else NOTHING for cloth in cloths)]

    if laid:
        yield row("Buy", lambda lay: amount(lay.to_buy, unit))
        yield row("Usable width", lambda lay: amount(lay.cloth.width, unit) + (ASSUMED if lay.cloth.assumed else ""))
    if any(lay.cost is not None for lay in laid.values()):
        yield row("Cost", lambda lay: NOTHING if lay.cost is None else f"{lay.cost:.2f}")


def _shapes(cutting: CuttingPattern) -> dict[str, dict[str, str]]:
    """Label of a shape -> cloth -> how it is cut there; layers of one shape share a row."""
    own = {piece.id: piece for piece, _ in cutting.pieces}
    shapes: dict[str, dict[str, list[str]]] = {}
    for piece, side in cutting.pieces:
        shape = shape_of(piece, own)
        cells = shapes.setdefault(f"{shape.label} ({code_words(shape.id)})", {})
        for cut in side.cuts:
            cells.setdefault(cut.cloth, []).append(counted_cut(cut))
    return {label: {cloth: ", ".join(ways) for cloth, ways in cells.items()} for label, cells in shapes.items()}


def _total(listed: ClothList) -> str:
    return f"{listed.total} {'piece' if listed.total == 1 else 'pieces'}"


def _opening(text: str) -> str:
    return text[:1].upper() + text[1:]
