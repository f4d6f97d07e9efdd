"""A block read off paper, as designs lie on it: for one wearer or for nobody, with no body under it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Final

from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit
from panelwright.finding import Finding
from panelwright.intake.divided import Division, divided
from panelwright.intake.division_findings import division_findings
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.own_edges import own_edges
from panelwright.intake.own_findings import check_own_block, pencil_findings, suggestion_findings
from panelwright.intake.own_pattern import sewn_pattern
from panelwright.intake.seam_partners import SeamSuggestion, suggested_seams, with_suggestions
from panelwright.intake.stitch_line import stitch_lines
from panelwright.intake.truing import Trued, TruingChange, trued, turned_down
from panelwright.pattern.pattern import Pattern

TITLE: Final = "Own block"


@dataclass(frozen=True, eq=False, repr=False)
class PaperBlock:
    """What `paper_block` returns.

    Attributes:
        as_drawn: the pattern at full scale, before any truing.
        truing: what truing changes; it is offered even where it was not asked for.
        is_trued: whether it was asked for.
        drawn_at: edge id -> where it was drawn.
        kept: ids of the edges that truing leaves as they were drawn.
        suggestions: seams that nobody named and that were taken.
        divisions: edges that were divided, because several are sewn to them.
        wearer: whom it is for, or None.
        scale: at which it was drawn, 1 or 4.
        unit: of the lengths in its findings.
    """

    as_drawn: Pattern
    truing: Trued
    is_trued: bool
    drawn_at: Mapping[str, EdgeRef]
    kept: frozenset[str]
    suggestions: tuple[SeamSuggestion, ...]
    divisions: tuple[Division, ...]
    wearer: Measurements | None
    scale: float
    unit: Unit

    @property
    def pattern(self) -> Pattern:
        """What steps are carried out on."""
        return self.truing.pattern if self.is_trued else self.as_drawn

    @cached_property
    def turned_down(self) -> tuple[TruingChange, ...]:
        """What truing would change of the edges that are kept."""
        return turned_down(self.as_drawn, self.kept)

    @property
    def strain_p95(self) -> dict[str, float]:
        """Nothing: how far paper is strained over a body is not known without one."""
        return {}

    @property
    def _left(self) -> frozenset[str]:
        return frozenset(each.seam for each in self.truing.left) if self.is_trued else frozenset()

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """What a maker should know of the block itself."""
        return (
            *check_own_block(self.pattern, self.wearer, self.unit, self._left),
            *suggestion_findings(self.suggestions),
            *division_findings(self.as_drawn, self.divisions, self.drawn_at, self.unit),
            *pencil_findings(self.pattern, self.scale, self.unit),
        )


def paper_block(
    drawn: DrawnPattern, wearer: Measurements | None = None, true: bool = False, unit: Unit = Unit.CM
) -> PaperBlock:
    """The block that was drawn.

    Args:
        drawn: the pieces; edges in no confirmed seam get the likeliest partner, and a finding says so.
        wearer: whom it is for; without one nothing is said about fit.
        true: whether it is trued.
        unit: of the lengths that people read.

    Raises:
        InputError: if the pieces make no pattern.
    """
    whole = stitch_lines(drawn)
    suggestions = suggested_seams(whole, unit)
    sewn = divided(with_suggestions(whole, suggestions))
    as_drawn = replace(sewn_pattern(sewn, wearer), title=drawn.title or TITLE)
    drawn_at = {edge.id: sewn.was[ref] for ref, edge in own_edges(sewn.pattern).items()}
    kept = frozenset(id for id, ref in drawn_at.items() if whole.edge(ref).as_drawn)
    truing = trued(as_drawn, kept=kept)
    return PaperBlock(as_drawn, truing, true, drawn_at, kept, suggestions, sewn.divisions, wearer, drawn.scale, unit)
