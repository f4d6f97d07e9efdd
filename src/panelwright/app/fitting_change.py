"""What a fitting changed on a garment, told in words: the notes, and girths and seam lines before and after."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from panelwright.body.units import Unit, format_length
from panelwright.body.worded_length import worded_in
from panelwright.fitting.fitting import Fitting
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam

CHANGE_FILE: Final = "what-changed.txt"
LEAST: Final = 0.5  # mm: less is no change that anybody could sew
KEPT: Final = "as it was"
_NAME: Final = 34  # columns
_LENGTH: Final = 11


@dataclass(frozen=True)
class Change:
    """A girth or a seam line, mm.

    Attributes:
        name: what it is, in words.
        before, after: the fitting.
    """

    name: str
    before: float
    after: float

    @property
    def by(self) -> float:
        """How much longer it is now (shorter: negative)."""
        return self.after - self.before


def girth_changes(before: Pattern, after: Pattern) -> tuple[Change, ...]:
    """The finished girth of every level that runs whole through both patterns of one design."""
    return tuple(
        Change(level.label, level.finished_girth, after.level(level.id).finished_girth)
        for level in before.levels
        if after.has_level(level.id)
    )


def seam_changes(before: Pattern, after: Pattern) -> tuple[Change, ...]:
    """The length of every seam that both patterns of one design have, as it is sewn."""
    there = {seam.id: seam for seam in after.seams}
    return tuple(
        Change(_seam_name(before, seam), before.chain_length(seam.a), after.chain_length(there[seam.id].a))
        for seam in before.seams
        if seam.id in there
    )


def change_text(title: str, fitting: Fitting, before: Pattern, after: Pattern, unit: Unit = Unit.CM) -> str:
    """The page: each note, and what they did together.

    Args:
        title: of the design that the toile was sewn from.
        fitting: the notes; those that are switched off are told apart.
        before, after: the design's pattern on the wearer's block, and on that block with the notes carried out.
        unit: of the lengths.
    """
    with worded_in(unit):
        done = [note.label for note in fitting.working]
        off = [note.label for note in fitting.notes if note.uid in fitting.off]
    day = f", fitted on {fitting.made_on.isoformat()}" if fitting.made_on is not None else ""
    lines = [f"{title}, for {fitting.wearer}{day}: what the fitting changed", ""]
    lines += ["Pinned on the toile, and carried out on the block", *_numbered(done), ""]
    if off:
        lines += ["Noted and not carried out", *_numbered(off), ""]
    lines += _table("Finished girth", girth_changes(before, after), unit)
    lines += _table("Seam, as it is sewn", seam_changes(before, after), unit)
    lines.append("The body's measurements stay as they are: a pin changes cloth, not the body.")
    return "\n".join(lines) + "\n"


def _numbered(labels: Sequence[str]) -> Iterator[str]:
    yield from (f"{number:>2}. {label}" for number, label in enumerate(labels, 1))


def _table(head: str, changes: Sequence[Change], unit: Unit) -> Iterator[str]:
    if not changes:
        return
    yield f"{head:<{_NAME}}{'before':>{_LENGTH}}{'after':>{_LENGTH}}  change"
    for change in changes:
        lengths = "".join(f"{format_length(length, unit):>{_LENGTH}}" for length in (change.before, change.after))
        yield f"{change.name:<{_NAME}}{lengths}  {_by(change, unit)}"
    yield ""


def _by(change: Change, unit: Unit) -> str:
    if abs(change.by) < LEAST:
        return KEPT
    return f"{format_length(abs(change.by), unit)} {'more' if change.by > 0 else 'less'}"


def _seam_name(pattern: Pattern, seam: Seam) -> str:
    return pattern.line(pattern.edge(seam.a[0]).line).label
