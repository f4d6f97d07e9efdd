"""The steps of a hand sheet: what a learner does to the pieces, one step of the design after another."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from panelwright.body.units import Unit
from panelwright.drawing.hand_draft import Drafted, drafted
from panelwright.drawing.hand_notes import notes
from panelwright.drawing.hand_piece import HandPiece
from panelwright.drawing.hand_told import Same
from panelwright.drawing.hand_words import sentence
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

UNCHANGED: Final = "Nothing is drawn in this step."
KEY: Final = (
    "Bold: new in this step. Thin: drawn before. Dotted: the outline before this step. Fine: the cross, the ruler and "
    "the distances square to it. Short dashes: levels."
)
SAME_OUTLINES: Final = "Of the same outline:"
Known = dict[str, tuple[HandPiece, Piece]]


@dataclass(frozen=True, eq=False)
class Stage:
    """A design as far as one of its steps.

    Attributes:
        title: of the step.
        about: what it is for, a sentence.
        pattern: after it.
    """

    title: str
    about: str
    pattern: Pattern


@dataclass(frozen=True)
class Passage:
    """What is to be done on one piece, or on several alike.

    Attributes:
        head: says which.
        sentences: one for each thing to do.
    """

    head: str
    sentences: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class HandStep:
    """One step.

    Attributes:
        title: of the step.
        about: what it is for, and what is to be known besides; a paragraph each.
        passages: what is done, piece by piece.
        drafts: the pieces that change, to be drawn over the words.
        key: what the lines of the pictures mean.
    """

    title: str
    about: tuple[str, ...]
    passages: tuple[Passage, ...]
    drafts: tuple[Drafted, ...] = ()
    key: str = ""


@dataclass(frozen=True, eq=False)
class Course:
    """The steps of the drawing, and what is on paper after them."""

    steps: tuple[HandStep, ...]
    known: Known


def course(stages: Sequence[Stage], unit: Unit = Unit.CM) -> Course:
    """The steps from one stage to the next; the first begins on fresh paper.

    Args:
        stages: the block, then the design after each of its steps, then with its derived layers.
        unit: of the lengths on the garment.
    """
    known: Known = {}
    steps = []
    before: Pattern | None = None
    for stage in stages:
        drafts: list[Drafted] = []
        now: Known = {}
        for piece in stage.pattern.pieces:
            draft = drafted(piece, stage.pattern, {**known, **now})
            now[piece.id] = (draft.after, piece)
            drafts += [draft] if draft.told else []
        about = [stage.about, *(notes(before, stage.pattern, unit) if before else ())]
        about += [] if drafts else [UNCHANGED]
        steps.append(HandStep(stage.title, tuple(filter(None, about)), _passages(drafts, unit), _shown(drafts), KEY))
        known, before = now, stage.pattern
    return Course(tuple(steps), known)


def head_of(piece: Piece) -> str:
    """The line above what is done on a piece."""
    return f"On {piece.id} ({piece.label[0].lower()}{piece.label[1:]}):"


def _passages(drafts: Sequence[Drafted], unit: Unit) -> tuple[Passage, ...]:
    shown, same = _shown(drafts), [told for draft in drafts for told in draft.told if isinstance(told, Same)]
    each = (Passage(head_of(draft.piece), tuple(sentence(told, unit) for told in draft.told)) for draft in shown)
    return (*each, *([Passage(SAME_OUTLINES, tuple(sentence(told, unit) for told in same))] if same else []))


def _shown(drafts: Sequence[Drafted]) -> tuple[Drafted, ...]:
    """Those with something to see: a tracing of the same outline is not drawn again."""
    return tuple(draft for draft in drafts if not isinstance(draft.told[0], Same))
