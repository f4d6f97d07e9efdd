"""The steps of a hand sheet: what a learner does to the pieces, one step of the design after another."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from panelwright.body.units import Unit
from panelwright.drawing.hand_draft import Drafted, drafted
from panelwright.drawing.hand_notes import notes
from panelwright.drawing.hand_piece import HandPiece
from panelwright.drawing.hand_told import Cross, Same
from panelwright.drawing.hand_words import alike, sentence
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
        drafts: the pieces that change, to be drawn over the words; one of those that are alike.
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
        groups = _groups(drafts, unit)
        shown = tuple(first for first, *_ in groups)
        passages = _passages(drafts, groups, unit)
        steps.append(HandStep(stage.title, tuple(filter(None, about)), passages, shown, KEY))
        known, before = now, stage.pattern
    return Course(tuple(steps), known)


def head_of(piece: Piece) -> str:
    """The line above what is done on a piece."""
    return f"On {piece.id} ({piece.label[0].lower()}{piece.label[1:]}):"


def _passages(drafts: Sequence[Drafted], groups: Sequence[Sequence[Drafted]], unit: Unit) -> tuple[Passage, ...]:
    same = [told for draft in drafts for told in draft.told if isinstance(told, Same)]
    each = (_passage(group, unit) for group in groups)
    return (*each, *([Passage(SAME_OUTLINES, tuple(sentence(told, unit) for told in same))] if same else []))


def _passage(group: Sequence[Drafted], unit: Unit) -> Passage:
    first, *others = group
    head, told = head_of(first.piece), tuple(sentence(told, unit) for told in first.told)
    if not others:
        return Passage(head, told)
    return Passage(
        f"{head} {len(group)} alike, drawn once.", (*told, alike(first.piece.id, [draft.piece.id for draft in others]))
    )


def _groups(drafts: Sequence[Drafted], unit: Unit) -> list[list[Drafted]]:
    """Pieces with something to see, those that begin on fresh paper with the same words, as equal ties do, together.

    A tracing of the same outline is in none: it is not drawn again.
    """
    groups: dict[tuple[str, ...], list[Drafted]] = {}
    for draft in drafts:
        if isinstance(draft.told[0], Same):
            continue
        id = draft.piece.id
        is_fresh = isinstance(draft.told[0], Cross)
        said = (
            (draft.piece.layer, *(sentence(told, unit).replace(id, "") for told in draft.told)) if is_fresh else (id,)
        )
        groups.setdefault(said, []).append(draft)
    return list(groups.values())
