"""A design that lies open on a page: dragged, changed, undone, and drawn anew each time."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from panelwright.app.block_shelf import BlockShelf
from panelwright.app.block_under import block_under
from panelwright.app.board_pattern import board_pattern
from panelwright.app.board_piece import Document, curve_path, pair
from panelwright.app.board_places import board_places
from panelwright.app.design_change import with_step
from panelwright.app.design_file import read_design
from panelwright.app.drawn_design import DrawnDesign, draw_design, sketch_design
from panelwright.app.drawn_edge import drawn_over
from panelwright.app.finding_lead import finding_lead
from panelwright.app.garment_design import GarmentDesign
from panelwright.app.paper_block import PaperBlock
from panelwright.app.remedied import Remedied
from panelwright.app.remedy import remedy
from panelwright.app.workroom_faults import ChangedElsewhereError
from panelwright.app.workroom_item import (
    Item,
    checked_text,
    checked_what,
    found_item,
    redone_item,
    saved_item,
    undone_item,
)
from panelwright.app.worn_item import worn_item
from panelwright.blocks.block import Block
from panelwright.body.units import Unit
from panelwright.body.worded_length import worded_in
from panelwright.design.drawn_line import Stroke
from panelwright.design.fitted_line import EdgeKind, fitted_line
from panelwright.design.handle import Handle
from panelwright.design.held_line import draws_line, held_line
from panelwright.design.step import Step
from panelwright.errors import DesignError, InputError, PanelwrightError
from panelwright.finding import Finding
from panelwright.pattern.mark import Point
from panelwright.quotation import quoted
from panelwright.store.workroom import Workroom


@dataclass(frozen=True, eq=False)
class Shown:
    """What lies on the page: a saved version, read and drawn."""

    item: Item
    design: GarmentDesign
    drawn: DrawnDesign


@dataclass(frozen=True, eq=False)
class Held:
    """A drag that is under way: the design as it would be saved, the step, and what was done in words."""

    document: Document
    design: GarmentDesign
    step: str
    what: str


class OpenDesign:
    """One page's view of a design on a wearer. Every change is a version in the workroom before it is answered.

    Not for several threads at once; what it shares (workroom, shelf) is.
    """

    def __init__(self, room: Workroom, shelf: BlockShelf, design: str, wearer: str, unit: Unit = Unit.CM) -> None:
        """Open the current version.

        Raises:
            NotThereError: if there is no such design or wearer.
            InputError, BlockError: if they cannot be drawn.
        """
        self.design, self.wearer = design, wearer
        self._room, self._shelf, self._unit = room, shelf, unit
        self._body = worn_item(room, wearer)
        self._places: dict[str, Point] = {}
        self._held: Held | None = None
        self._refused: DesignError | None = None  # why the hand holds nothing, though it dragged
        self._taken: Handle | None = None  # of the drags so far on the saved version
        with worded_in(unit):
            self._shown = self._read(found_item(room, "design", design))

    @property
    def unit(self) -> Unit:
        """Of the lengths that people read."""
        return self._unit

    @property
    def traced(self) -> str | None:
        """The traced block that it lies on."""
        traced = self._shown.design.traced
        return traced.ref if traced else None

    @property
    def version(self) -> int:
        """Number of the version that is shown."""
        return self._shown.item.version

    def answer(self) -> Document:
        """The `pattern` message of the saved version."""
        self._taken = self._refused = None
        drawn = self._shown.drawn
        self._places = board_places(drawn.cutting, {}, self._places)
        return self._told(self._shown.item.document, drawn)

    def drag(self, step: str, handle: str, to: Point, piece: str | None = None, free: bool = False) -> Document:
        """The outer pieces with a step's handle moved; nothing is saved.

        Args:
            step: uid.
            handle: its name.
            to: mm, on the handle's piece.
            piece: of the handle, where several bear the name.
            free: False lets it snap to a level that is near.

        Raises:
            DesignError: if it cannot go there; the drag stays where it was last.
        """
        before = self._step(step)
        taken = self._take(before, handle, piece)
        try:
            moved = self._shown.drawn.dragged(before, taken, to, snap=not free)
            told = self._tried(before, moved, f"{before.label}: {taken.label}")
        except DesignError as error:
            self._refused = error
            raise
        self._refused = None
        return told

    def lead(self, step: str, handle: str, to: Point, piece: str | None = None, free: bool = False) -> Document | None:
        """The line that the pieces of a drag will be cut along and its handle, told ahead of them; None where it has
        none, or cannot be drawn, which the drag then says.

        Args:
            step, handle, to, piece, free: as for `drag`.
        """
        drawn = self._shown.drawn
        try:
            before = self._step(step)
            if not draws_line(before):
                return None
            taken = self._take(before, handle, piece)
            moved = drawn.dragged(before, taken, to, snap=not free)
            line = held_line(moved, drawn.pattern, drawn.block.pattern)
            if not line:
                return None
            here = _handle_of(moved, taken.name, taken.piece, drawn.handles(moved, taken.name))
        except PanelwrightError:
            return None
        paths = {piece: "".join(curve_path(curve) for curve in curves) for piece, curves in line.items()}
        held = {"step": step, "handle": here.name, "piece": here.piece, "at": pair(here.at)}
        return {"say": "line", **held, "pieces": paths}

    def draw(self, kind: EdgeKind, strokes: Sequence[Stroke]) -> Document:
        """The outer pieces with the top edge or hem along a line drawn by hand; nothing is saved until it is dropped.

        Args:
            kind: which edge.
            strokes: the line, mm on each piece.

        Raises:
            DesignError: if the line cannot be used, or the design has its top from another kind of step.
        """
        saved = self._shown
        steps = saved.drawn.steps.steps
        before = drawn_over(kind, (step for step in steps if step.uid not in saved.design.off))
        moved = fitted_line(kind, strokes, saved.drawn.pattern, saved.drawn.block.pattern, before.uid, before)
        return self._tried(before, moved, f"{before.label}: drawn by hand")

    def drop(self) -> Document:
        """Save what was dragged or drawn as a version.

        Raises:
            DesignError: if all that was dragged was refused.
            ChangedElsewhereError: if another page has changed the design meanwhile.
        """
        held, refused = self._held, self._refused
        self._held = self._refused = None
        if held is not None:
            return self.change(held.document, held.what)
        if refused is not None:
            raise refused
        return self.answer()

    def rest(self) -> Document:
        """All layers of what was dragged or drawn, checked as if it were dropped; nothing is saved.

        Raises:
            InputError: if nothing is held.
            DesignError: if the step cannot be carried out so.
        """
        held = self._held
        if held is None:
            raise InputError("nothing is being dragged: take hold of a handle first", "do")
        drawn = draw_design(held.design, self._block(held.design), self._unit)
        self._places = board_places(drawn.cutting, self._places)
        return self._told(held.document, drawn, held=held.step)

    def leave(self) -> Document:
        """Forget the drag."""
        self._held = None
        return self.answer()

    def change(self, document: Mapping[str, object], what: str) -> Document:
        """Save a changed document as a version; steps that cannot be carried out say so and stop nothing.

        Raises:
            InputError, BlockError: if the document cannot be used; nothing is changed.
            ChangedElsewhereError: if another page has changed the design meanwhile.
        """
        self._held = None
        design = read_design(checked_text("design", self.design, document))
        drawn = draw_design(design, self._block(design), self._unit)
        item = saved_item(self._room, "design", self.design, document, checked_what(what), self.version)
        self._shown = Shown(item, design, drawn)
        return self.answer()

    def remedy(self, code: str, subject: str) -> Document:
        """Put a finding right, saved as a version.

        Args:
            code, subject: of a finding of the saved version.

        Raises:
            InputError: if there is no such finding, or what to do about it is for the maker to decide.
            ChangedElsewhereError: if another page has changed the design meanwhile.
        """
        shown = self._shown
        for finding in shown.drawn.findings:
            if (finding.code, finding.subject) == (code, subject) and (offer := self._offer(finding, shown)):
                return self.change(offer.document, offer.words)
        raise InputError("there is nothing certain to be done about that: read what it says, and decide", "code")

    def undo(self) -> Document:
        """One version back from the one that is shown.

        Raises:
            ChangedElsewhereError: if another page has changed the design meanwhile.
        """
        self._refuse_behind()
        return self._moved(undone_item(self._room, "design", self.design))

    def redo(self) -> Document:
        """One version on; errors as for `undo`."""
        self._refuse_behind()
        return self._moved(redone_item(self._room, "design", self.design))

    def upto(self, step: str | None, before: bool = False) -> Document:
        """The pattern after the steps up to one, or after all; nothing is saved.

        Args:
            step: uid; None for all.
            before: stop before that step instead.

        Raises:
            DesignError: if there is no such step.
        """
        if step is None:
            return self.answer()
        shown = self._shown
        drawn = draw_design(shown.design, shown.drawn.block, self._unit, step, before)
        self._places = board_places(drawn.cutting, {}, self._places)
        return {**self._told(shown.item.document, drawn), "upto": step}

    def _take(self, step: Step, name: str, piece: str | None) -> Handle:
        """The handle as it was on the saved version, the same throughout a drag."""
        taken = self._taken
        if taken is None or (taken.step, taken.name) != (step.uid, name) or piece not in (None, taken.piece):
            taken = self._taken = _handle_of(step, name, piece, self._shown.drawn.handles(step))
        return taken

    def _tried(self, before: Step, after: Step, what: str) -> Document:
        """The outer pieces with a step changed, which is held until it is dropped or left.

        Raises:
            DesignError: if the step cannot be carried out so.
        """
        saved = self._shown
        document = with_step(saved.item.document, saved.design, after)
        # What the document says; it is read and checked again when it is saved.
        own = saved.design.steps
        steps = tuple(after if step.uid == after.uid else step for step in own)
        design = replace(saved.design, steps=steps if after in steps else (after, *steps))
        drawn = sketch_design(design, self._block(design), self._unit, after.uid, saved.drawn)
        for outcome in drawn.outcomes:
            if outcome.step == after.uid and outcome.state != "done":
                raise DesignError(outcome.reason, f"step {after.uid}")
        self._held = Held(document, design, after.uid, what) if after != before else None
        self._places = board_places(drawn.cutting, self._places)
        return self._told(document, drawn, held=after.uid)

    def _refuse_behind(self) -> None:
        if found_item(self._room, "design", self.design).version != self.version:
            raise ChangedElsewhereError(
                f"design {quoted(self.design)} was changed elsewhere meanwhile; look at the newer version first",
                self.design,
            )

    def _moved(self, item: Item) -> Document:
        self._held = None
        self._shown = self._read(item)
        return self.answer()

    def _read(self, item: Item) -> Shown:
        design = read_design(item.text)
        return Shown(item, design, draw_design(design, self._block(design), self._unit))

    def _block(self, design: GarmentDesign) -> Block | PaperBlock:
        return block_under(self._room, self._shelf, design, self._body, self._unit)

    def _step(self, uid: str) -> Step:
        for step in self._shown.design.design.steps:
            if step.uid == uid:
                return step
        raise DesignError(f"the design has no step {uid[:40]!r}; open it again", "step")

    def _told(self, document: Document, drawn: DrawnDesign, held: str | None = None) -> Document:
        item = self._shown.item
        labels = {step.uid: step.label for step in drawn.steps.steps}
        return {
            "say": "pattern",
            "dragging": held is not None,
            "design": document,
            "wearer": self.wearer,
            "version": item.version,
            "can_undo": item.can_undo,
            "can_redo": item.can_redo,
            **board_pattern(
                drawn,
                self._places,
                held,
                self._words_of_offer,
                lambda finding: finding_lead(finding, document, labels),
            ),
        }

    def _words_of_offer(self, finding: Finding) -> str | None:
        """What a button beside a finding of the saved version says; those of half a design have none."""
        shown = self._shown
        offer = self._offer(finding, shown) if finding in shown.drawn.findings else None
        return offer.words if offer else None

    def _offer(self, finding: Finding, shown: Shown) -> Remedied | None:
        return remedy(finding, shown.item.document, shown.drawn.pattern, self._unit)


def _handle_of(step: Step, name: str, piece: str | None, found: tuple[Handle, ...]) -> Handle:
    for handle in found:
        if handle.name == name and piece in (None, handle.piece):
            return handle
    raise DesignError(f"{step.label}: it has no handle {name[:40]!r} there; open it again", f"step {step.uid}")
