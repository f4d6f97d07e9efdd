"""The step that turns a dart into gathers or tucks."""

from dataclasses import dataclass
from typing import ClassVar, Final, get_args

from panelwright.body.worded_length import given_words, range_words
from panelwright.design.dart import dart_on
from panelwright.design.position import spoken
from panelwright.design.released_dart import Fullness, released
from panelwright.design.sound_outline import refuse_crossed
from panelwright.design.squared_grain import squared
from panelwright.design.step import blamed, checked_uid
from panelwright.errors import DesignError
from panelwright.pattern.pattern import Pattern

SPOKEN = "gather"
TUCK: Final = 40.0  # mm, where no length is given
TUCK_RANGE: Final = (10.0, 300.0)


@dataclass(frozen=True)
class Gather:
    """Takes a dart out and leaves its mouth as gathers or tucks in the seam that it opens into.

    Attributes:
        uid: permanent name in the design.
        dart: its line.
        fullness: `gathers` or `tucks`.
        tuck: how far tucks are stitched down from the seam, mm; None: 4 cm.

    Raises:
        DesignError: if the fullness is unknown, or a tuck's length is out of range or given for gathers.
    """

    kind: ClassVar[str] = "gather"
    needs_shoulder: ClassVar[bool] = False

    uid: str
    dart: str
    fullness: Fullness = "gathers"
    tuck: float | None = None

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        if self.fullness not in get_args(Fullness):
            self._refuse(f"a dart becomes {' or '.join(get_args(Fullness))}, not {self.fullness!r}")
        if self.tuck is not None and self.fullness != "tucks":
            self._refuse("gathers are not stitched down; leave the length of tucks out")
        if self.tuck is not None and not TUCK_RANGE[0] <= self.tuck <= TUCK_RANGE[1]:
            self._refuse(f"a tuck of {given_words(self.tuck)} cannot be sewn; give {range_words(*TUCK_RANGE)}")

    def _refuse(self, why: str) -> None:
        raise DesignError(f"{SPOKEN}: {why}", f"step {self.uid}")

    @property
    def label(self) -> str:
        """`Dart to gathers: to side dart`."""
        return f"Dart to {self.fullness}: {spoken(self.dart).replace('/', ' ')}"

    @property
    def slots(self) -> tuple[str, ...]:
        """None: no line is new."""
        return ()

    @property
    def uses(self) -> frozenset[str]:
        """The step that made the dart, if one did."""
        maker, slash, _ = self.dart.partition("/")
        return frozenset({maker}) if slash else frozenset()

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:  # noqa: ARG002  # every step is given the block
        """The pattern without the dart, with a ratio or ease in its seam.

        Raises:
            DesignError: if there is no such dart, or it opens where nothing holds the fullness.
        """
        with blamed(self.uid, SPOKEN):
            dart = dart_on(pattern, self.dart)
            after = released(pattern, dart, self.fullness, self.tuck or TUCK, self.uid)
            refuse_crossed(after, (dart.piece.id,), "swing the dart to another place first")
            return squared(after, (dart.piece.id,))
