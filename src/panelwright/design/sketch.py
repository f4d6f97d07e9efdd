"""A design replayed quickly while one of its steps is held in the hand."""

from dataclasses import replace
from itertools import pairwise

from panelwright.design.bodice_top import BodiceTop
from panelwright.design.bones import Bones
from panelwright.design.hem import Hem
from panelwright.design.replay import Design, Replay, ReplayMemo, replay
from panelwright.design.step import Step
from panelwright.design.top_edge import TopEdge
from panelwright.pattern.mark import InsideLine
from panelwright.pattern.pattern import Pattern


def sketch(design: Design, block: Pattern, held: str, before: Replay, memo: ReplayMemo | None = None) -> Replay:
    """The block after a design's steps, where one of them was just changed.

    Every edge is where `replay` puts it, though a piece's edges may be counted from another corner. What the hand does
    not wait for is left: steps that move no edge are not carried out again, and what they drew before stays.

    Args:
        design: the steps as they are now.
        block: the unmodified block.
        held: uid of the step that was changed.
        before: what the design made of the same block before the step was taken hold of.
        memo: as for `replay`.
    """
    drawn = {outcome.step for outcome in before.outcomes if outcome.state == "done"}
    left = {step.uid for step in design.steps if isinstance(step, Bones) and step.uid != held and step.uid in drawn}
    quick = replace(design, steps=_hem_first(design.steps, held), off=design.off | left)
    made = replay(quick, block, memo)
    found = {outcome.step: outcome for outcome in made.outcomes}
    found.update({outcome.step: outcome for outcome in before.outcomes if outcome.step in left})
    outcomes = tuple(found[step.uid] for step in design.steps)
    return Replay(_with_lines_of(left, before.pattern, made.pattern), outcomes)


def _hem_first(steps: tuple[Step, ...], held: str) -> tuple[Step, ...]:
    """A hem right behind the top edge that is held comes before it: it is cut out of the block once, and not again
    out of every new shape of the pieces. The two edges lie at either end of the pieces, whichever is cut first."""
    for place, (step, after) in enumerate(pairwise(steps)):
        if step.uid == held and isinstance(step, TopEdge | BodiceTop) and isinstance(after, Hem):
            return (*steps[:place], after, step, *steps[place + 2 :])
    return steps


def _with_lines_of(steps: set[str], before: Pattern, pattern: Pattern) -> Pattern:
    def drawn(piece: str) -> tuple[InsideLine, ...]:
        known = before.piece(piece).inside if before.has_piece(piece) else ()
        return tuple(line for line in known if line.id.split("/")[0] in steps)

    added = {piece.id: drawn(piece.id) for piece in pattern.pieces}
    changed = [replace(piece, inside=(*piece.inside, *added[piece.id])) for piece in pattern.pieces if added[piece.id]]
    return pattern.with_pieces(*changed) if changed else pattern
