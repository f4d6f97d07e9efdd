"""Garments of the plain block after steps as a design file has them, and how a test asks for them."""

from functools import lru_cache
from typing import Any

from plain_block import plain_block

from panelwright.design.replay import Design, Outcome, Replay, ReplayMemo, replay
from panelwright.design.step_file import steps_from_json, steps_to_json
from panelwright.pattern.pattern import Pattern

BLOCK = plain_block()
Entry = dict[str, Any]


def edges(hem: str = "top-hip") -> list[Entry]:
    """A top edge 1 cm below the upper bust and a straight hem."""
    top, low = {"level": "upper-bust", "offset_cm": -1}, {"level": hem}
    return [
        {"kind": "top-edge", "uid": "neck", "shape": "straight", "centre": top, "side": top},
        {"kind": "hem", "uid": "hem", "shape": "straight", "centre": low, "side": low},
    ]


def replayed(entries: list[Entry], block: Pattern = BLOCK) -> Replay:
    """What a design of these steps makes; what is written down again and read is the same steps."""
    steps = steps_from_json(entries)
    assert steps_from_json(steps_to_json(steps)) == steps
    return replay(Design("d-1", "D", steps), block, ReplayMemo())


def made(*entries: Entry, hem: str = "top-hip", block: Pattern = BLOCK) -> Pattern:
    """The pattern after the two edges and these steps, each of which must be carried out."""
    result = replayed([*edges(hem), *entries], block)
    assert [outcome for outcome in result.outcomes if outcome.state != "done"] == []
    return result.pattern


def reason(*entries: Entry, hem: str = "top-hip", block: Pattern = BLOCK) -> str:
    """Why the last of these steps is not carried out; it changes nothing then."""
    result = replayed([*edges(hem), *entries], block)
    last: Outcome = result.outcomes[-1]
    assert last.state == "failed"
    assert result.pattern.pieces == replayed([*edges(hem), *entries[:-1]], block).pattern.pieces
    return last.reason


@lru_cache(maxsize=8)
def bare(hem: str = "top-hip") -> Pattern:
    """The pattern after the two edges alone."""
    return made(hem=hem)
