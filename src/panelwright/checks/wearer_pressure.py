"""How hard a tight waist presses, as an order of magnitude.

A band of tension T (force along it, by its width) on a cylinder of radius r presses with P = T / r (literature on
compression bandages). Measured pressures fall up to 42 % below it, and at a waist it does not hold (J. Wound Care
30(4); J. Home Economics of Japan 67(1)): a body is no cylinder, and gives. It never says what is safe.
"""

import math
from dataclasses import dataclass
from typing import Final

from panelwright.body.units import format_length
from panelwright.checks.design_words import ease_field
from panelwright.checks.practice import PRACTICE
from panelwright.checks.wearing import Wearing
from panelwright.finding import Finding
from panelwright.pattern.level import WAIST
from panelwright.pattern.pattern import Pattern

EASY_TENSION: Final = 200.0  # N/m: a snug band; what a cloth takes is not known from a pattern
HARD_TENSION: Final = 500.0  # N/m: pulled hard
DISCOMFORT: Final = 4.7  # kPa, about 35 mmHg, above which a waistband is felt as too tight (Fiber 47(6) 282)
UNBONED_MEAN: Final = 0.94  # kPa, measured under a corset without bones (the same source as the next)
UNBONED_PEAK: Final = 3.0
BONED_PEAK: Final = 7.0  # kPa, boned, 10 to 20 % under the waist (doi 10.1007/s12221-015-0471-5)
FALLS_SHORT: Final = 0.42  # share by which measured pressures fell below the formula
MMHG_PER_KPA: Final = 7.50062


def band_pressure(tension: float, radius: float) -> float:
    """P = T / r, kPa.

    Args:
        tension: along the band, N for each metre of its width.
        radius: of the cylinder that it lies on, mm, above 0.

    >>> round(band_pressure(200.0, 120.0), 2)
    1.67
    """
    return tension / radius


@dataclass(frozen=True)
class WaistPressure:
    """A waist that is drawn in, and the pressure on it by `band_pressure` at an assumed tension.

    Attributes:
        body, finished: girths, mm.
        low, high: at `EASY_TENSION` and `HARD_TENSION`, kPa.
        held: the garment is boned or laced, and so can be drawn in harder than cloth alone.
    """

    body: float
    finished: float
    low: float
    high: float
    held: bool

    @property
    def reduction(self) -> float:
        """Share of the body's girth by which the garment is smaller."""
        return 1 - self.finished / self.body

    @property
    def words(self) -> str:
        """`1.7 to 4.2 kPa (13 to 31 mmHg)`."""
        low, high = (pressure * MMHG_PER_KPA for pressure in (self.low, self.high))
        return f"{self.low:.1f} to {self.high:.1f} kPa ({low:.0f} to {high:.0f} mmHg)"


def waist_pressure(pattern: Pattern, wearing: Wearing) -> WaistPressure | None:
    """The pressure on a waist that is at least 5 % under the body; None where it is not, or the cloth gives."""
    if wearing.cloth != "woven" or not pattern.has_level(WAIST):
        return None
    level = pattern.level(WAIST)
    body, finished = level.body_girth, level.finished_girth
    if level.ease > -PRACTICE.tight_share * body or finished <= 0:
        return None
    radius = body / math.tau
    pressures = band_pressure(EASY_TENSION, radius), band_pressure(HARD_TENSION, radius)
    return WaistPressure(body, finished, *pressures, is_boned(pattern, wearing) or is_laced(pattern))


def is_boned(pattern: Pattern, wearing: Wearing) -> bool:
    """Whether bones hold the garment: the design says so, or has a step that lays them."""
    return wearing.boned or any(notion.kind == "bone" for notion in pattern.notions)


def is_laced(pattern: Pattern) -> bool:
    """Whether a lacing closes it."""
    return any(closure.kind == "lacing" for closure in pattern.closures)


def check_pressure(pattern: Pattern, wearing: Wearing) -> tuple[Finding, ...]:
    """`tight-lacing`, a warning (boned or laced), or `tight-bodice`, advice: a waist 5 % or more under the body."""
    found = waist_pressure(pattern, wearing)
    if found is None:
        return ()
    finished, body = (format_length(girth, wearing.unit) for girth in (found.finished, found.body))
    drawn_in = f"Waist: {finished} finished is {found.reduction:.0%} under the body's {body}"
    reckoned = (
        f"a band pulled with {EASY_TENSION:g} to {HARD_TENSION:g} N a metre of width presses such a waist with about "
        f"{found.words}, and waistbands are felt as too tight from about {DISCOMFORT:g} kPa "
        f"({DISCOMFORT * MMHG_PER_KPA:.0f} mmHg)"
    )
    limits = (
        f"That is an order of magnitude and never says what is safe: measured pressures lay up to {FALLS_SHORT:.0%} "
        "below it, and it does not hold at the waist"
    )
    numbers = (100 * found.reduction, 100 * PRACTICE.tight_share)
    if not found.held:
        message = (
            f"{drawn_in}; {reckoned}; without bones, {UNBONED_MEAN:g} kPa in the mean and {UNBONED_PEAK:g} kPa at the "
            "worst place were measured."
        )
        remedy = (
            f"{limits}. Give more ease {ease_field(WAIST)}, or judge it on the wearer at the toile; at "
            "pain, short breath or numbness let it out."
        )
        return (Finding("tight-bodice", "advice", WAIST, *numbers, message, remedy, unit="%"),)
    message = (
        f"{drawn_in}; {reckoned}; boned and 10 to 20 % under the waist, peaks of about {BONED_PEAK:g} kPa "
        f"({BONED_PEAK * MMHG_PER_KPA:.0f} mmHg) were measured."
    )
    remedy = (
        f"{limits}. Give more ease {ease_field(WAIST)}, or have it fitted by someone who fits tight "
        "bodices, a little at a time and never for dancing; at pain, short breath or numbness loosen it at once."
    )
    return (Finding("tight-lacing", "warning", WAIST, *numbers, message, remedy, unit="%"),)
