"""The demo's designs on the wearers who dance in them, each made once."""

from dataclasses import dataclass, replace
from functools import cache

from panelwright.app.demo.troupe import DANCED, designs, troupe
from panelwright.blocks.make_block import make_block
from panelwright.design.replay import Design, Replay, replay
from panelwright.design.step import Step
from panelwright.pattern.pattern import Pattern

REFS = tuple(DANCED)


@dataclass(frozen=True)
class DemoGarment:
    """A design, the block that it is made on, and what it makes of that."""

    design: Design
    block: Pattern
    pattern: Pattern

    def step(self, uid: str) -> Step:
        return next(step for step in self.design.steps if step.uid == uid)

    def before(self, step: Step) -> Pattern:
        """What the steps before it make of the block."""
        uids = [own.uid for own in self.design.steps]
        return replay(replace(self.design, steps=self.design.steps[: uids.index(step.uid)]), self.block).pattern

    def with_step(self, changed: Step) -> Replay:
        """The whole design with one step in place of the one that has its uid."""
        steps = tuple(changed if step.uid == changed.uid else step for step in self.design.steps)
        return replay(replace(self.design, steps=steps), self.block)


@cache
def demo_garment(ref: str) -> DemoGarment:
    """A design of the troupe on the first wearer who dances in it."""
    garment = next(each.design for each in designs() if each.design.ref == ref)
    wearer = next(each.wearer for each in troupe() if each.wearer.ref == DANCED[ref][0])
    block = make_block(wearer, garment.block_options).pattern
    made = replay(garment.design, block)
    assert made.complete
    return DemoGarment(garment.design, block, made.pattern)
