"""A wearer's block after the fitting notes: where every design for that wearer starts."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from panelwright.blocks.block import Block
from panelwright.blocks.block_pieces import block_pattern
from panelwright.blocks.fit_panels import PanelFitter
from panelwright.blocks.make_block import laid_out
from panelwright.errors import BlockError, GeometryError, InputError
from panelwright.finding import Finding
from panelwright.fitting.fitting import Fitting, FittingNote
from panelwright.fitting.reshape import reshaped
from panelwright.fitting.strap_note import StrapNote
from panelwright.fitting.worked_panel import WorkedPanel
from panelwright.pattern.pattern import Pattern, StepRecord
from panelwright.quotation import quoted

# Codes of the findings that tell of notes which changed nothing.
LEFT_OUT: Final = ("fitting-not-taken", "note-left-out")


def fitted(block: Block, fitting: Fitting) -> Block:
    """The block with the notes carried out, each on what the one before it left.

    A pure function: the block that went in is not changed, and without notes it comes back as it is. Levels state
    the body's girth as before; what notes took off or gave is in their ease, and apart in `Level.fitted`.

    Raises:
        InputError: if the notes are another wearer's, or one cannot be carried out; the message names the note.
    """
    if fitting.wearer != block.wearer.ref:
        raise InputError(
            f"the fitting notes are {quoted(fitting.wearer)}'s and the measurements {quoted(block.wearer.ref)}'s; take "
            "the two of one wearer",
            "wearer",
        )
    if not fitting.working:
        return block
    if block.fitter is None:
        return replace(block, given=(*block.given, _not_taken(len(fitting.working))))
    panels = tuple(WorkedPanel.of(block.fits, k, block.fitter) for k in range(len(block.fits)))
    done: list[FittingNote] = []
    for note in fitting.working:
        changed = _after(panels, block.fitter, note)
        if changed is not None or isinstance(note, StrapNote):
            done.append(note)
        panels = changed or panels
    return _drawn(block, block.fitter, panels, done)


def _not_taken(count: int) -> Finding:
    """A skirt is drawn from girths, not flattened from the body that notes were pinned on."""
    return Finding(
        "fitting-not-taken",
        "advice",
        "fitting",
        count,
        0,
        f"The wearer's {count} fitting note{'s were' if count > 1 else ' was'} pinned on a bodice and change"
        f"{'' if count > 1 else 's'} nothing on this block, which is drawn from girths.",
        "Measure waist, top hip and hip again if the note was about them.",
        unit="notes",
    )


def fitted_as_far(block: Block, fitting: Fitting) -> Block:
    """The block with those notes carried out that it can take; each of the others is a finding of the block.

    A wearer's notes are made on one design's toile, and the next design may have no such seam.

    Raises:
        InputError: if the notes are another wearer's.
    """
    left_out: dict[str, str] = {}
    while True:
        tried = replace(fitting, off=fitting.off | left_out.keys())
        try:
            made = fitted(block, tried)
            return replace(made, given=(*made.given, *(_left_out(uid, why) for uid, why in left_out.items())))
        except InputError as error:
            uid = error.where.removeprefix("note ")
            if uid not in {note.uid for note in tried.working}:
                if error.where == "wearer":
                    raise
                uid = tried.working[-1].uid
            left_out[uid] = str(error)


def _left_out(uid: str, why: str) -> Finding:
    return Finding(
        code="note-left-out",
        severity="warning",
        subject=uid,
        value=1.0,
        limit=0.0,
        message=f"A fitting note is not carried out on this block. {why}.",
        remedy="Leave it as it is if it was pinned on another design's toile, or change it. The note is the wearer's: "
        "changed or switched off, it is so for every design.",
        unit="notes",
    )


def _after(panels: tuple[WorkedPanel, ...], fitter: PanelFitter, note: FittingNote) -> tuple[WorkedPanel, ...] | None:
    """The panels after a note; None where it changes none of them."""
    try:
        asked = note.reshape(panels, fitter)
        return None if asked is None else reshaped(panels, fitter, asked)
    except BlockError as error:
        raise InputError(
            f"{note.label}: {error}; make the amount smaller, or let it run out over more of the seam",
            f"note {note.uid}",
        ) from error
    except InputError as error:
        raise InputError(f"{note.label}: {error}", f"note {note.uid}") from error


def _drawn(block: Block, fitter: PanelFitter, panels: Sequence[WorkedPanel], notes: Sequence[FittingNote]) -> Block:
    fits = laid_out(
        tuple(replace(fit, flat=panel.flat) for fit, panel in zip(block.fits, panels, strict=True)), block.options
    )
    try:
        pattern = block_pattern(fits, fitter, block.wearer)
    except GeometryError as error:
        raise InputError(
            f"the notes together leave no block that can be drawn ({error}); switch some of them off", "notes"
        ) from error
    records = tuple(StepRecord(note.uid, note.kind, note.label) for note in notes)
    straps = sum(note.signed for note in notes if isinstance(note, StrapNote))
    after = _noted(pattern, block.pattern, records, straps)
    if pattern.to_shoulder is not None and block.pattern.to_shoulder is not None:
        upper = _noted(pattern.to_shoulder, block.pattern.to_shoulder, records, straps)
        after = replace(after, to_shoulder=upper)
    return replace(block, pattern=after, fits=fits)


def _noted(pattern: Pattern, before: Pattern, records: tuple[StepRecord, ...], straps: float) -> Pattern:
    """The pattern with what the notes changed told in its levels."""
    changes = [_drawn_girth(pattern, level.id) - _drawn_girth(before, level.id) for level in pattern.levels]
    levels = tuple(
        replace(level, ease=level.ease + change, fitted=change)
        for level, change in zip(pattern.levels, changes, strict=True)
    )
    return replace(pattern, levels=levels, fitting=records, strap_change=straps)


def _drawn_girth(pattern: Pattern, level: str) -> float:
    found = 0.0
    for span in pattern.level(level).path:
        line = pattern.piece(span.piece).inside_line(span.inside)
        found += 0.0 if line is None else span.times * line.curve.length
    return found
