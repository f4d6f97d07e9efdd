"""The step that carries a bodice up to the shoulder: its neckline and its armholes."""

import math
from dataclasses import dataclass
from typing import ClassVar, Final, get_args

from panelwright.body.worded_length import given_words, range_words
from panelwright.design.armhole_curve import armhole_cut
from panelwright.design.neck_curve import NeckDesign, NeckShape, neckline_cut
from panelwright.design.raised import raised
from panelwright.design.step import blamed, checked_uid
from panelwright.errors import DesignError
from panelwright.pattern.pattern import Pattern

SPOKEN: Final = "bodice top"
DEEPEST: Final = 300.0  # mm below the neck base
WIDEST: Final = 120.0  # mm along the shoulder
LOWEST_ARMHOLE: Final = 60.0  # mm below the underarm


@dataclass(frozen=True)
class BodiceTop:
    """Carries every panel up to neck, shoulder and armhole, in place of a top edge.

    Slots: `neckline`, `shoulder`, `armhole`.

    Attributes:
        uid: permanent name in the design.
        shape: of the front neckline; the back's is round.
        front_depth, back_depth: below the neck base at the centres, mm.
        width: along the shoulder from the side neck point, mm.
        armhole_lower: below the underarm at the side seam, mm (10 is common practice, from memory).
        shoulder_in: how much shorter the shoulder is at its outer end, mm.

    Raises:
        DesignError: if a measure is out of range.
    """

    kind: ClassVar[str] = "bodice-top"
    needs_shoulder: ClassVar[bool] = True

    uid: str
    shape: NeckShape = "round"
    front_depth: float = 0.0
    back_depth: float = 0.0
    width: float = 0.0
    armhole_lower: float = 10.0
    shoulder_in: float = 0.0

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        if self.shape not in get_args(NeckShape):
            raise DesignError(f"a neckline is {', '.join(get_args(NeckShape))}, not {self.shape!r}", f"step {self.uid}")
        for name, most in (
            ("front_depth", DEEPEST),
            ("back_depth", DEEPEST),
            ("width", WIDEST),
            ("armhole_lower", LOWEST_ARMHOLE),
            ("shoulder_in", WIDEST),
        ):
            value = getattr(self, name)
            if not (math.isfinite(value) and 0.0 <= value <= most):
                raise DesignError(
                    f"{SPOKEN}: {name.replace('_', ' ')} is {given_words(value)}; give {range_words(0.0, most)}",
                    f"step {self.uid}",
                )
            object.__setattr__(self, name, round(float(value), 6) + 0.0)

    @property
    def label(self) -> str:
        """`Bodice to the shoulder: round neckline`."""
        return f"Bodice to the shoulder: {'V' if self.shape == 'v' else self.shape} neckline"

    @property
    def slots(self) -> tuple[str, ...]:
        """The lines that it draws."""
        return ("neckline", "shoulder", "armhole")

    @property
    def uses(self) -> frozenset[str]:
        """No earlier step."""
        return frozenset()

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern up to the shoulder.

        Raises:
            DesignError: if the block ends at the upper bust, the pattern has another top edge already, or neckline
                and armhole do not leave room for each other.
        """
        with blamed(self.uid, SPOKEN):
            whole = raised(pattern, block)
            design = NeckDesign(self.shape, self.front_depth, self.back_depth, self.width)
            whole = neckline_cut(whole, self.uid, design)
            return armhole_cut(whole, self.uid, self.armhole_lower, self.shoulder_in)
