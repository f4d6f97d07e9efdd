"""A block: the fitted pattern of one wearer before any design, and the body it was made on."""

from dataclasses import dataclass
from functools import cached_property

from panelwright.blocks.fit_panels import PanelFitter
from panelwright.blocks.options import BlockOptions
from panelwright.blocks.panel_fit import PanelFit, SeamSpan
from panelwright.body.measurements import Measurements
from panelwright.body.torso import Torso
from panelwright.body.torso_shape import TorsoShape
from panelwright.finding import Finding
from panelwright.pattern.pattern import Pattern

SHORTFALL = 3.0  # mm


@dataclass(frozen=True, eq=False, repr=False)
class Block:
    """What `make_block` returns.

    Attributes:
        pattern: the pieces, up to the upper-bust level and down to the hip, ready for design steps.
        wearer: whose block it is.
        options: what the maker chose.
        surface: that it was flattened from; None where it was drawn without one, as skirts are.
        fits: the panels on body and paper, from centre front to centre back; none where it was drawn.
        spans: every seam between neighbouring levels, on the body and on paper, before any fitting note; none where it
            was drawn.
        fitter: that fitted the panels; fitting notes go on from it. None where it was drawn.
        given: what there is to know about it beside its seams.
    """

    pattern: Pattern
    wearer: Measurements
    options: BlockOptions
    surface: Torso | None = None
    fits: tuple[PanelFit, ...] = ()
    spans: tuple[SeamSpan, ...] = ()
    fitter: PanelFitter | None = None
    given: tuple[Finding, ...] = ()

    @cached_property
    def torso(self) -> Torso:
        """The wearer's surface.

        Raises:
            BlockError: if the measurements make none.
        """
        return self.surface or Torso(TorsoShape.of(self.wearer))

    @property
    def strain_p95(self) -> dict[str, float]:
        """Panel id -> 95th percentile of its length strain (0.03 is 3 %)."""
        return {fit.id: fit.strain_p95 for fit in self.fits}

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Seams that differ from the body line by more than 3 mm between two levels: the price of keeping girths; and
        what was `given`."""
        return self.given + tuple(_shortfall(span) for span in self.spans if abs(span.difference) > SHORTFALL)


def _shortfall(span: SeamSpan) -> Finding:
    way, shows = ("shorter", "pulls") if span.difference < 0 else ("longer", "wrinkles")
    return Finding(
        code="seam-off-body",
        severity="advice",
        subject=span.seam,
        value=span.difference,
        limit=SHORTFALL,
        message=(
            f"The {span.seam.replace('-', ' ')} seam is {abs(span.difference):.1f} mm {way} on paper than on the body "
            f"between {span.lower.replace('-', ' ')} and {span.upper.replace('-', ' ')}: the cloth {shows} there."
        ),
        remedy=(
            'Write "keep": "both" or "length" in the design\'s block, so that seams keep their length on the body, or '
            "settle it at the toile fitting."
        ),
    )
