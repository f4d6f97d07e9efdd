"""The step that moves a dart to another place."""

from dataclasses import dataclass
from typing import ClassVar, Final

from panelwright.body.worded_length import given_words, range_words
from panelwright.design.dart import dart_on
from panelwright.design.dart_mouth import refuse_aslant
from panelwright.design.outline_point import OutlinePoint
from panelwright.design.position import spoken
from panelwright.design.sound_outline import refuse_crossed
from panelwright.design.squared_grain import squared
from panelwright.design.step import blamed, checked_uid
from panelwright.design.swung_dart import Swing, swung
from panelwright.errors import DesignError
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern

SPOKEN = "swing"
LEAST_SHARE: Final = 0.1
USUAL_BACK: Final = 20.0  # mm by which the points of two darts beside each other are drawn back from the pivot
LEAST_BACK: Final = 5.0
MOST_BACK: Final = 100.0


@dataclass(frozen=True)
class SwingDart:
    """Moves a dart, or a share of it, about its point to another place of the outline.

    Slots: `dart`, the dart in its new place.

    Attributes:
        uid: permanent name in the design.
        dart: its line, `one-front/dart`.
        to: where the outline of its piece is slashed, and the new mouth opens.
        share: how much of its value is moved, 0.1 … 1; the rest stays where it was.
        point_back: mm by which its point is drawn back from where the dart turns; None: not at all, or 2 cm where two
            darts share.

    Raises:
        DesignError: if a number is out of range.
    """

    kind: ClassVar[str] = "swing"
    needs_shoulder: ClassVar[bool] = False

    uid: str
    dart: str
    to: OutlinePoint
    share: float = 1.0
    point_back: float | None = None

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        if not LEAST_SHARE <= self.share <= 1.0:
            self._refuse(f"a share of {self.share:g} of a dart is not {LEAST_SHARE:g} to 1")
        if self.point_back is not None and not 0.0 <= self.point_back <= MOST_BACK:
            self._refuse(
                f"a point drawn back by {given_words(self.point_back)} is too far; give {range_words(0.0, MOST_BACK)}"
            )

    def _refuse(self, why: str) -> None:
        raise DesignError(f"{SPOKEN}: {why}", f"step {self.uid}")

    @property
    def label(self) -> str:
        """`Swing: one front dart to the side`."""
        some = "" if self.share >= 1.0 else f", {100 * self.share:.0f} %"
        return f"Swing: {_spoken(self.dart)} to {_spoken(self.to.line)}{some}"

    @property
    def slots(self) -> tuple[str, ...]:
        """The dart in its new place."""
        return ("dart",)

    @property
    def uses(self) -> frozenset[str]:
        """The step that made the dart, if one did."""
        maker, slash, _ = self.dart.partition("/")
        return frozenset({maker}) if slash else frozenset()

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:  # noqa: ARG002  # every step is given the block
        """The pattern with the dart in its new place.

        Raises:
            DesignError: if there is no such dart, the place is not on its piece, on a fold or too near a corner, the
                straight line from there to the point leaves the piece, or the dart leaves its edge too much aslant.
        """
        with blamed(self.uid, SPOKEN):
            dart = dart_on(pattern, self.dart)
            back = self.point_back if self.point_back is not None else 0.0 if self.share >= 1.0 else USUAL_BACK
            if self.share < 1.0 and back < LEAST_BACK:
                raise DesignError(
                    f"two darts that share need cloth between their points; draw them back at least "
                    f"{given_words(LEAST_BACK)}"
                )
            line = Line(f"{self.uid}/dart", "Dart", self.uid)
            after = swung(pattern, dart, Swing(self.to.on(dart.piece), line, self.share, back))
            refuse_crossed(after, (dart.piece.id,), "choose another place or a smaller share")
            refuse_aslant(after, dart.piece)
            return squared(after, (dart.piece.id,))


def _spoken(line: str) -> str:
    return spoken(line).replace("/", " ").removesuffix(" line")
