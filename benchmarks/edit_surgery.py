"""How long an edit of a design of twelve steps takes, with scissors and tape: replay from the edited step on, and the
outer pieces cut again.

Each run gives one step a value that was never used before; the steps before it are remembered, those behind it are
carried out anew, but for what they do to pieces that the edit leaves alone. The target is that of any edit while
something is dragged.
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
# Which step is edited: what it is called, and where its number stands.
EDITED: dict[str, tuple[str, tuple[str, ...]]] = {
    "half": ("the first swing", ("to", "fraction")),
    "rest": ("the last swing", ("to", "fraction")),
    "full": ("the spread", ("amount_cm",)),
    "skirt": ("the peplum", ("length_cm",)),
    "flounce": ("the last frill", ("width_cm",)),
}
_moves = count(1)


def design() -> GarmentDesign:
    """The design of twelve steps."""
    head = {"format": "panelwright-design/1", "ref": "twelve-1", "title": "Twelve steps"}
    return read_design(json.dumps({**head, "steps": STEPS}))


def edited(steps: tuple[Step, ...], uid: str) -> tuple[Step, ...]:
    """The steps with one of them changed a little, as never before."""
    entries = steps_to_json(steps)
    record = next(entry for entry in entries if entry["uid"] == uid)
    *way, field = EDITED[uid][1]
    for name in way:
        record = record[name]
    record[field] = record[field] + next(_moves) * 1e-5
    return steps_from_json(entries)


def recut(cut: GarmentDesign, block: Block, uid: str) -> CuttingPattern:
    """Edit, replay, finish the outer pieces."""
    made = replay(replace(cut.design, steps=edited(cut.steps, uid)), block.pattern)
    assert made.complete
    return finish(made.pattern, cut.finish, False)


if __name__ == "__main__":
    runs = runs_asked(__doc__, 40)
    cut = design()
    block = make_block(next(troupe()).wearer, cut.block_options)
    every: list[float] = []
    for uid, (name, _) in EDITED.items():
        work: Callable[[], object] = partial(recut, cut, block, uid)
        milliseconds(work, 3)
        times = milliseconds(work, runs)
        tell(f"{name} of 12 steps is edited", times)
        every += times
    tell("all edits", every, MEDIAN, P95)
