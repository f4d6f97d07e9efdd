"""What makers hold a garment against: numbers of the trade, each with where it comes from.

MEM: from memory, unverified: it may advise or warn, never stop a sign-off. CP: common practice.
"""

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from panelwright.pattern.level import BUST, UNDERBUST, UPPER_BUST, WAIST


def _ease() -> MappingProxyType[str, tuple[float, float]]:
    return MappingProxyType({UPPER_BUST: (-20.0, 0.0), BUST: (0.0, 20.0), UNDERBUST: (-20.0, 0.0), WAIST: (0.0, 20.0)})


def _shouldered() -> MappingProxyType[str, tuple[float, float]]:
    return MappingProxyType({BUST: (40.0, 80.0)})


def _strain() -> MappingProxyType[str, float]:
    return MappingProxyType({"CF": 0.05, "SF": 0.06, "SB": 0.05, "CB": 0.04})


@dataclass(frozen=True)
class Practice:
    """Named limits; `PRACTICE` is the one instance that the checks read.

    Attributes:
        strapless_ease: level -> (least, most) ease on the whole girth of a strapless top in woven cloth, mm (MEM).
        shouldered_ease: the same of a fitted bodice that hangs from its shoulders, mm (CP); other levels are free.
        tight_share: a level smaller than the body by more than this share of it is called tight: where the waist
            reduction of corsets starts (MEM).
        tape: girths that differ by less are one reading of a tape, mm (CP: tapes are read to half a centimetre).
        most_waist_ease: more at the waist neither follows the body nor holds a bodice up, mm on the whole girth (MEM).
        neckline: least length of the front princess seam above the bust point, mm (MEM).
        least_height: a garment lower than this at a seam is a band, mm (MEM).
        least_shell: where the hem lies above the underbust, an upright seam or centre shorter than this holds nothing,
            mm (own choice).
        usual_allowance: seam allowance, mm (CP).
        least_allowance: a seam with less frays out, mm (MEM).
        least_head: a neckline below it hardly lets a grown head through; most heads are 540 to 580 mm round, mm (MEM).
        bust_point_reach: a bust point lies at most this far beside its seam, mm (own choice).
        panel_strain: panel -> 95th percentile of its length strain above which ease or a dart is advised. Own
            trials: nine of ten model bodies stay about there.
        other_strain: the same for panels that the trials did not have.
        strong_strain: above it the advice is urgent (own trials).
    """

    strapless_ease: MappingProxyType[str, tuple[float, float]] = field(default_factory=_ease)
    shouldered_ease: MappingProxyType[str, tuple[float, float]] = field(default_factory=_shouldered)
    tight_share: float = 0.05
    tape: float = 5.0
    most_waist_ease: float = 120.0
    neckline: float = 40.0
    least_height: float = 60.0
    least_shell: float = 80.0
    usual_allowance: float = 10.0
    least_allowance: float = 3.0
    least_head: float = 500.0
    bust_point_reach: float = 60.0
    panel_strain: MappingProxyType[str, float] = field(default_factory=_strain)
    other_strain: float = 0.05
    strong_strain: float = 0.09


PRACTICE: Final = Practice()
