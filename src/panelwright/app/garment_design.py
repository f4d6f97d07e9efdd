"""A garment's design: everything that is chosen about it, for whoever will wear it."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Final

from panelwright.app.darted_bodice import darted_steps
from panelwright.blocks.options import BlockOptions
from panelwright.checks.wearing import Wearing
from panelwright.design.bodice_top import BodiceTop
from panelwright.design.hem import Hem
from panelwright.design.position import Height
from panelwright.design.replay import Design
from panelwright.design.step import Step
from panelwright.design.top_edge import TopEdge
from panelwright.errors import InputError
from panelwright.file_words import in_file
from panelwright.finish.options import Finish
from panelwright.lay.cloth import Cloth
from panelwright.pattern import level as levels
from panelwright.quotation import quoted

REF_PATTERN: Final = r"[a-z][a-z0-9-]{0,39}"
LONGEST_TITLE: Final = 80

# A few mm below the block's own upper edge, so that the line runs true across every seam.
DEFAULT_TOP: Final = Height(levels.UPPER_BUST, offset=-3.0)
DEFAULT_HEM: Final = Height(levels.TOP_HIP)
TOP_STEP: Final = TopEdge("top", "straight", DEFAULT_TOP, DEFAULT_TOP, DEFAULT_TOP)
HEM_STEP: Final = Hem("hem", "straight", DEFAULT_HEM, DEFAULT_HEM, DEFAULT_HEM)
DEFAULT_STEPS: Final[tuple[Step, ...]] = (TOP_STEP, HEM_STEP)


@dataclass(frozen=True)
class Traced:
    """The traced block of the workroom that a design lies on.

    Attributes:
        ref: of the block.
        true: whether it is trued first.
    """

    ref: str
    true: bool = True


@dataclass(frozen=True)
class GarmentDesign:
    """What a design file holds.

    Attributes:
        ref: neutral reference, `lantern-01`: small letters, digits and hyphens, at most 40.
        title: what the garment is called on its sheets, at most 80 characters.
        block: ease, panels and seams.
        steps: the changes made to the block. On a bodice a top edge or a hem that is not among them is made by the
            one of `DEFAULT_STEPS`, because that block itself ends at levels and not in finished edges, as a skirt
            does.
        finish: allowances, facing, interfacing, notches.
        wearing: cloth and bones, for the checks.
        cloths: what is known of the cloths that it is cut from.
        off: uids of steps that are kept and not carried out: the garment is as if they were not there.
        notes: uid -> what the maker noted on the step.
        traced: the traced block that it lies on; then `block` says nothing, and no edge is put in by default.

    Raises:
        InputError: if the reference or title cannot be, or a step that is switched off or noted on is not there.
    """

    ref: str
    title: str
    block: BlockOptions = field(default_factory=BlockOptions)
    steps: tuple[Step, ...] = DEFAULT_STEPS
    finish: Finish = field(default_factory=Finish)
    wearing: Wearing = field(default_factory=Wearing)
    cloths: tuple[Cloth, ...] = ()
    off: frozenset[str] = frozenset()
    notes: Mapping[str, str] = field(default_factory=dict)
    traced: Traced | None = None

    def __post_init__(self) -> None:
        if not re.fullmatch(REF_PATTERN, self.ref):
            raise InputError(
                f"ref {quoted(self.ref)} cannot be used: give up to 40 small letters, digits and hyphens, "
                "a letter first, like lantern-01",
                "ref",
            )
        if not (self.title.strip() and len(self.title) <= LONGEST_TITLE and self.title.isprintable()):
            raise InputError(f"title must be one line of 1 to {LONGEST_TITLE} characters", "title")
        for uid in sorted({*self.off, *self.notes} - {step.uid for step in self.steps}):
            raise InputError(f"the design has no step {quoted(uid)} to switch off or to note on", "steps")

    @property
    def design(self) -> Design:
        """The steps, ready to replay on a block; a default edge comes before those that were chosen, and the darts of
        a darted bodice behind the edges."""
        if self.traced is not None:
            return Design(self.ref, self.title, self.steps, self.off)
        if self.block.type == "darted":
            return Design(self.ref, self.title, darted_steps(self.block, self.steps, self.off), self.off)
        return Design(self.ref, self.title, (*self._missing_edges(), *self.steps), self.off)

    @property
    def remarks(self) -> tuple[str, ...]:
        """What the maker noted on steps, and which are switched off, a line for each step."""
        said = [
            (step, [*(["switched off"] if step.uid in self.off else []), *filter(None, [self.notes.get(step.uid)])])
            for step in self.steps
        ]
        return tuple(f"{step.label}: {'. '.join(words)}" for step, words in said if words)

    @property
    def block_options(self) -> BlockOptions:
        """The options of its block: up to the shoulder where a step needs that, whatever the design says.

        Raises:
            InputError: if the panels that were chosen allow no shoulder, or the design lies on a traced block.
        """
        if self.traced is not None:
            raise InputError(
                f"{self.ref}: it is made on the traced block {quoted(self.traced.ref)}, not on measurements: save that "
                "block's table on its page, and give `panelwright own` the table and this design",
                "traced",
            )
        if self.block.type == "darted" and not any(
            isinstance(step, TopEdge) and step.uid not in self.off for step in self.steps
        ):
            return replace(self.block, top="shoulder")
        needing = next(
            (
                (number, step)
                for number, step in enumerate(self.steps, 1)
                if step.needs_shoulder and step.uid not in self.off
            ),
            None,
        )
        if needing is not None and not self.block.is_skirt:
            number, step = needing
            if self.block.panels in (3, 5):
                raise InputError(
                    f"the block has {self.block.panels} panels{in_file('block.panels')}; step {number}, "
                    f"{step.label}, needs a "
                    "side seam: choose 4 or 6",
                    "block.panels",
                )
            return replace(self.block, top="shoulder")
        return self.block

    def _missing_edges(self) -> Iterator[Step]:
        if self.block.is_skirt:
            return
        uids = {step.uid for step in self.steps}
        for edge, instead in ((TOP_STEP, TopEdge | BodiceTop), (HEM_STEP, Hem)):
            if not any(isinstance(step, instead) and step.uid not in self.off for step in self.steps):
                yield replace(edge, uid=_free(edge.uid, uids))


def _free(uid: str, taken: set[str]) -> str:
    """The uid, or one made from it that no step has."""
    return uid if uid not in taken else _free(f"default-{uid}", taken)
