"""The cord of a lacing once every opening of the garment is known: only then is it known what it must let through."""

from dataclasses import replace

from panelwright.design.lacing import Lacing
from panelwright.design.lacing_cord import LacingCord
from panelwright.design.way_in import laced_way_in, spread_to_step_in
from panelwright.pattern.pattern import Pattern


def with_settled_lacing(pattern: Pattern, block: Pattern, uid: str, lacing: Lacing) -> Pattern:
    """The pattern with the cord of a lacing, and how far it spreads, as the finished design asks for them.

    It looks at nothing that another lacing's settling changes, so their order does not matter.

    Args:
        pattern: after every step.
        block: the unmodified block.
        uid: of the lacing's step.
        lacing: its numbers.
    """
    eyelets = next(notion for notion in pattern.notions if notion.step == uid and notion.kind == "eyelet")
    worn = next(working for working in pattern.workings if working.id == lacing.cord_id(uid))
    cord = LacingCord.of_worn(eyelets.count // 2, worn.parts[0].length, lacing.gap, lacing.inset)
    way_in = laced_way_in(pattern)
    lets_in = way_in is not None and way_in.id == uid
    spread = spread_to_step_in(pattern, block, lacing.gap) if lets_in else None
    working = cord.working(worn.id, lacing.gap, spread, lacing.given)
    # What a reckoned cord is longer than it need be stays in the hands.
    held = cord.needed(lacing.gap, spread) if lacing.given is None else lacing.given
    spreads = max(lacing.gap, cord.spread(held))
    return replace(
        pattern,
        closures=tuple(replace(own, spreads=spreads) if own.id == uid else own for own in pattern.closures),
        notions=tuple(
            replace(notion, length=working.length) if notion.working == worn.id else notion
            for notion in pattern.notions
        ),
        workings=tuple(working if own.id == worn.id else own for own in pattern.workings),
    )
