"""How long an edit of a design of twelve steps takes, with scissors and tape: replay from the edited step on, and the
outer pieces cut again.

Each run gives one step a value that was never used before; the steps before it are remembered, those behind it are
carried out anew. The target is that of any edit while something is dragged.
"""

import json
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from itertools import count
from typing import Any

from stopwatch import milliseconds, runs_asked, tell

from panelwright.app.demo.troupe import troupe
from panelwright.app.design_file import read_design
from panelwright.app.garment_design import GarmentDesign
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.design.replay import replay
from panelwright.design.step import Step
from panelwright.design.step_file import steps_from_json, steps_to_json
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish

MEDIAN, P95 = None, 33.0  # ms
TOP, LOW = {"level": "upper-bust", "offset_cm": -1}, {"level": "waist"}
STEPS: list[dict[str, Any]] = [
    {"kind": "top-edge", "uid": "neck", "shape": "straight", "centre": TOP, "side": TOP},
    {"kind": "hem", "uid": "hem", "shape": "straight", "centre": LOW, "side": LOW},
    {"kind": "closure", "uid": "zip", "place": "centre-back", "type": "zip"},
    {"kind": "join", "uid": "front", "seam": "front-princess", "misfit": "dart"},
    {"kind": "swing", "uid": "half", "dart": "front/dart", "to": {"line": "neck/line", "fraction": 0.2}, "share": 0.4},
    {"kind": "swing", "uid": "rest", "dart": "front/dart", "to": {"line": "side", "fraction": 0.6}},
    {"kind": "gather", "uid": "soft", "dart": "rest/dart"},
    {"kind": "split", "uid": "yoke", "way": "yoke", "pieces": ["SB"], "height": {"level": "underbust"}},
    {
        "kind": "spread", "uid": "full", "piece": "SB", "open": "hem/line", "closed": "yoke/line", "amount_cm": 5,
        "closed_amount_cm": 5,
    },
    {"kind": "frill", "uid": "ruffle", "line": "yoke/line", "width_cm": 4},
    {"kind": "peplum", "uid": "skirt", "line": "hem/line", "length_cm": 18, "flare": 1.4},
    {"kind": "frill", "uid": "flounce", "line": "skirt/edge", "width_cm": 6},
]  # fmt: skip
# Which step is edited, and where its number stands.
EDITED: dict[str, tuple[str, ...]] = {
    "swing": ("to", "fraction"), "spread": ("amount_cm",), "peplum": ("length_cm",), "frill": ("width_cm",),
}  # fmt: skip
_moves = count(1)


def design() -> GarmentDesign:
    """The design of twelve steps."""
    head = {"format": "panelwright-design/1", "ref": "twelve-1", "title": "Twelve steps"}
    return read_design(json.dumps({**head, "steps": STEPS}))


def edited(steps: tuple[Step, ...], kind: str) -> tuple[Step, ...]:
    """The steps with the last one of a kind changed a little, as never before."""
    entries = steps_to_json(steps)
    number = max(k for k, entry in enumerate(entries) if entry["kind"] == kind)
    record = entries[number]
    *way, field = EDITED[kind]
    for name in way:
        record = record[name]
    record[field] = record[field] + next(_moves) * 1e-5
    return steps_from_json(entries)


def recut(cut: GarmentDesign, block: Block, kind: str) -> CuttingPattern:
    """Edit, replay, finish the outer pieces."""
    made = replay(replace(cut.design, steps=edited(cut.steps, kind)), block.pattern)
    assert made.complete
    return finish(made.pattern, cut.finish, False)


if __name__ == "__main__":
    runs = runs_asked(__doc__, 40)
    cut = design()
    block = make_block(next(troupe()).wearer, cut.block_options)
    every: list[float] = []
    for kind in EDITED:
        work: Callable[[], object] = partial(recut, cut, block, kind)
        milliseconds(work, 3)
        times = milliseconds(work, runs)
        tell(f"the last {kind} of 12 steps is edited", times)
        every += times
    tell("all edits", every, MEDIAN, P95)
