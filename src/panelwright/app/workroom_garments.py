"""Garments of the workroom for pictures and sheets: drawn when they are asked for, the last ones kept."""

from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass
from threading import Lock
from typing import Final

from panelwright.app.block_shelf import BlockShelf
from panelwright.app.block_under import block_under
from panelwright.app.body_view import body_view
from panelwright.app.design_file import read_design
from panelwright.app.drawn_design import DrawnDesign, draw_design, sketch_design
from panelwright.app.joined import joined
from panelwright.app.paper import PaperChoice, PrintJob
from panelwright.app.paper_block import PaperBlock
from panelwright.app.picture_shelf import PictureShelf
from panelwright.app.toile import Toile
from panelwright.app.workroom_item import Item, found_item
from panelwright.app.worn_item import worn_item
from panelwright.body.units import Unit
from panelwright.body.worded_length import worded_in
from panelwright.drawing.garment_picture import NAME_SIZE, garment_picture
from panelwright.drawing.piece_drawing import PieceDrawing
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.errors import InputError
from panelwright.output.pdf import pdf_bytes
from panelwright.output.svg import svg_text
from panelwright.store.workroom import Workroom

KEPT: Final = 12
NO_BODY: Final = (
    "This design lies on a block that was traced from paper. Paper says nothing about the body under it, so there is "
    "nothing to show worn: look at the pieces Flat or Joined, and sew a toile."
)
# Of the small picture, mm on paper.
PICTURE: Final = (120.0, 90.0)
PICTURE_MARGIN: Final = 3.0
LARGE_NAMES: Final = 6.0


@dataclass(frozen=True, eq=False, repr=False)
class Drawn:
    """A design on a wearer, drawn with a unit, and what was made of it so far.

    Attributes:
        sheets: scale and paper -> its sheets.
    """

    design: DrawnDesign
    sheets: dict[tuple[str, PaperChoice], tuple[Sheet, ...]]


class WorkroomGarments:
    """Designs of the workroom on its wearers, at their current versions. Several threads may ask."""

    def __init__(self, room: Workroom, shelf: BlockShelf, pictures: PictureShelf | None = None) -> None:
        """Nothing is drawn yet, but what an earlier day left among the small pictures."""
        self._room, self._shelf, self._pictures = room, shelf, pictures or PictureShelf()
        self._kept: OrderedDict[tuple[str, str, str, Unit, bool], Drawn] = OrderedDict()
        self._lock = Lock()

    def picture(self, design: str, wearer: str, large_names: bool = False) -> str:
        """A small picture of the garment's outer pieces as far as they can be drawn, SVG.

        Args:
            large_names: whether the names of its pieces can be read from afar, by an audience.

        Raises:
            NotThereError: if there is no such design or wearer.
            InputError, BlockError: if nothing can be drawn.
        """
        of, on = self._items(design, wearer)
        shape = self._trace(of) or on
        picture = self._pictures.found(of, shape, large_names)
        if picture is None:
            # Both are drawn from the same pieces, which take nearly all of the time.
            plain, large = self._both_pictures(of, on)
            self._pictures.keep(of, shape, plain)
            self._pictures.keep(of, shape, large, large_names=True)
            self._pictures.tidy(self._room)
            picture = large if large_names else plain
        return picture

    def kept_picture(self, design: str, wearer: str, large_names: bool = False) -> str | None:
        """That picture where it was drawn before, which takes no time; raises `NotThereError` as it does."""
        of, on = self._items(design, wearer)
        return self._pictures.found(of, self._trace(of) or on, large_names)

    def tidy_pictures(self) -> None:
        """Keep no picture of what the workroom no longer has."""
        self._pictures.tidy(self._room)

    def _items(self, design: str, wearer: str) -> tuple[Item, Item]:
        return found_item(self._room, "design", design), worn_item(self._room, wearer)

    def _trace(self, design: Item) -> Item | None:
        """The traced block that a design lies on, whose shape the pieces then have, whoever the wearer is."""
        traced = read_design(design.text).traced
        return None if traced is None else found_item(self._room, "trace", traced.ref)

    def _both_pictures(self, of: Item, on: Item) -> tuple[str, str]:
        """With names as usual, and large ones."""
        chosen = read_design(of.text)
        drawn = sketch_design(chosen, block_under(self._room, self._shelf, chosen, on, Unit.CM))
        job = PrintJob(drawn.cutting, drawn.design.title)
        title = drawn.design.title
        return _small_picture(job.quarter, title, NAME_SIZE), _small_picture(job.quarter, title, LARGE_NAMES)

    def sheets(
        self, design: str, wearer: str, scale: str, choice: PaperChoice, named: bool = True
    ) -> tuple[Sheet, ...]:
        """The sheets of a scale: `quarter`, `full` or `sheet`.

        Args:
            named: whether they say whom they are for: not before an audience.

        Raises:
            InputError: if a piece is larger than the paper can show.
            DesignError: if a step could not be carried out: half a design is not cut.
            Others as for `picture`.
        """
        drawn = self.complete(design, wearer, choice.unit, named)
        key = (scale, choice)
        if key not in drawn.sheets:
            job = PrintJob(drawn.design.cutting, drawn.design.design.title, choice, drawn.design.block.pattern)
            drawn.sheets[key] = tuple(job.sheets(scale))
        return drawn.sheets[key]

    def sheet(self, design: str, wearer: str, scale: str, choice: PaperChoice, number: int, named: bool = True) -> str:
        """One sheet, counted from 1, as SVG.

        Raises:
            InputError: if there is no such sheet.
            Others as for `sheets`.
        """
        sheets = self.sheets(design, wearer, scale, choice, named)
        if not 1 <= number <= len(sheets):
            raise InputError(f"there is no sheet {number}: they run from 1 to {len(sheets)}", "sheet")
        return svg_text(sheets[number - 1])

    def pdf(self, design: str, wearer: str, scale: str, choice: PaperChoice, named: bool = True) -> bytes:
        """The sheets of a scale as one PDF; raises as `sheets` does."""
        sheets: Sequence[Sheet] = self.sheets(design, wearer, scale, choice, named)
        title = self._drawn(design, wearer, choice.unit).design.design.title
        return pdf_bytes(sheets, f"{title}, {wearer}" if named else title, choice.made_on)

    def toile_pdf(self, design: str, wearer: str, which: str, choice: PaperChoice, named: bool = True) -> bytes:
        """The toile's sheets, one of `toile.PRINTS`, as one PDF; raises as `sheets` does."""
        drawn = self.complete(design, wearer, choice.unit, named).design
        toile = Toile(drawn.pattern, drawn.design, choice, drawn.findings)
        title = f"{toile.title}, {wearer}" if named else toile.title
        return pdf_bytes(toile.sheets(which), title, choice.made_on)

    def joined(self, design: str, wearer: str, seam: str) -> dict[str, object]:
        """The *Joined* answer of docs/board.md for a seam of any layer.

        Raises:
            InputError: if there is no such seam.
            Others as for `picture`.
        """
        return joined(self._drawn(design, wearer, Unit.CM).design.cutting.pattern, seam).document()

    def body(self, design: str, wearer: str) -> dict[str, object]:
        """The *Body* answer of docs/board.md.

        Raises:
            InputError: if the design lies on a traced block, which has no body under it.
            Others as for `picture`.
        """
        drawn = self._drawn(design, wearer, Unit.CM).design
        if isinstance(drawn.block, PaperBlock):
            raise InputError(NO_BODY, "body")
        return body_view(drawn.pattern, drawn.block, drawn.worn_straps).document()

    def complete(self, design: str, wearer: str, unit: Unit, named: bool = True) -> Drawn:
        """A design whose every step could be carried out.

        Raises:
            DesignError: if one could not, or the design's own allowances cannot be made: half a design is not cut.
            Others as for `picture`.
        """
        drawn = self._drawn(design, wearer, unit, named)
        drawn.design.refuse_half()
        return drawn

    def _drawn(self, design: str, wearer: str, unit: Unit, named: bool = True) -> Drawn:
        of, on = self._items(design, wearer)
        under = self._trace(of)
        key = (of.text, on.text + on.notes, under.text if under else "", unit, named)
        with self._lock:
            found = self._kept.get(key)
            if found is not None:
                self._kept.move_to_end(key)
                return found
        made = Drawn(self._draw(of, on, unit, named), {})
        with self._lock:
            self._kept[key] = made
            while len(self._kept) > KEPT:
                self._kept.popitem(last=False)
        return made

    def _draw(self, design: Item, wearer: Item, unit: Unit, named: bool) -> DrawnDesign:
        chosen = read_design(design.text)
        with worded_in(unit):
            block = block_under(self._room, self._shelf, chosen, wearer, unit, named)
            return draw_design(chosen, block, unit)


def _small_picture(pieces: Sequence[PieceDrawing], title: str, name_size: float) -> str:
    width, height = PICTURE
    strip = garment_picture(pieces, width, height, noted=False, name_size=name_size)
    page = width + 2 * PICTURE_MARGIN, strip.height + 2 * PICTURE_MARGIN
    laid = Laid(strip.drawing, (PICTURE_MARGIN, page[1] - PICTURE_MARGIN))
    return svg_text(Sheet(*page, title, (laid,)))
