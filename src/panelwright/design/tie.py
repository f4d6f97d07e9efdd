"""The step that adds a tie."""

from dataclasses import dataclass, replace
from typing import ClassVar, Final, Literal, get_args

from panelwright.body.worded_length import given_words, range_words
from panelwright.design.added_tie import AddedTie
from panelwright.design.back_tie import MISFITS, BackTie, Misfit
from panelwright.design.body_chart import half_chart
from panelwright.design.position import Height
from panelwright.design.step import blamed, checked_uid
from panelwright.design.tie_knot import KNOTS, Knot
from panelwright.design.tie_length import Tying
from panelwright.design.tie_shape import TIE_ENDS, TieEnd
from panelwright.design.tied_edge import refuse_strapped
from panelwright.errors import DesignError
from panelwright.file_words import in_file
from panelwright.pattern.line import is_centre_front
from panelwright.pattern.pattern import Pattern

SPOKEN = "tie"
TieStart = Literal["side", "centre-front", "centre-back", "caught-in-side"]
TIE_STARTS: Final[tuple[str, ...]] = get_args(TieStart)

BACK_WIDTH, ADDED_WIDTH = 70.0, 30.0  # mm, where none is given
MOST_TIES: Final = 8
_LIMITS: Final = {
    "width": (10.0, 300.0, "cm"),
    "end_width": (10.0, 500.0, "cm"),
    "tail": (20.0, 1500.0, "cm"),
    "loop": (30.0, 500.0, "cm"),
    "length": (50.0, 3000.0, "cm"),
    "thickness": (0.05, 10.0, "mm"),
    "layers": (1, 4, ""),
    "count": (1, MOST_TIES, ""),
}


@dataclass(frozen=True)
class Tie:
    """Makes the back a tie, or adds ties of their own.

    Slots: of a tie that is the back: `upper`, `end` and `lower`, its edges. Of added ties: `sides`, `end` and `seam`.

    Attributes:
        uid: permanent name in the design.
        start: where the tie starts. `side`: the back panels are joined and run on as the tie; with 3 or 5 panels the
            first seam behind the side stands for the side seam. `centre-front`, `centre-back`: a strip is sewn to each
            edge of an opening. `caught-in-side`: a strip is caught in each side seam, to be tied at the back.
        knot: a `double` knot or a `bow`.
        width: where it is knotted, mm; None: 7 cm for a back that is a tie, 3 cm for an added one.
        end_width: at its end, mm; None: as wide as where it is knotted.
        end: `square` or `pointed`.
        tail: that hangs from the knot, mm.
        loop: of a bow, from the knot to its tip, mm.
        length: along the middle from where the tie starts, mm; None: reckoned for the wearer.
        height: of the middle of the tie, at the centre back or on the edge that it is sewn to. None: at the waist, or
            as near as the garment allows; several ties are spread evenly.
        count: how many pairs of added ties.
        misfit: what becomes of the fullness where back panels are joined: `eased` or sewn as a `dart`.
        grain_along: a back that is a tie is cut with the grain along it; an added one always is.
        thickness: of one layer of cloth, mm.
        layers: of cloth in the tie: two when it is faced.

    Raises:
        DesignError: if a choice is unknown, a number out of range, or an option has nothing to act on.
    """

    kind: ClassVar[str] = "tie"
    needs_shoulder: ClassVar[bool] = False

    uid: str
    start: TieStart = "side"
    knot: Knot = "double"
    width: float | None = None
    end_width: float | None = None
    end: TieEnd = "square"
    tail: float = 100.0
    loop: float = 120.0
    length: float | None = None
    height: Height | None = None
    count: int = 1
    misfit: Misfit = "eased"
    grain_along: bool = False
    thickness: float = 0.4
    layers: int = 2

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        if is_centre_front(self.uid):
            self._refuse('its lines would be taken for the centre front; call it otherwise, such as "front-tie"')
        for name, value, known in (
            ("starts from", self.start, TIE_STARTS),
            ("is tied in", self.knot, KNOTS),
            ("has an end that is", self.end, TIE_ENDS),
            ("has a misfit that is", self.misfit, MISFITS),
        ):
            if value not in known:
                self._refuse(f"a tie {name} {', '.join(known)}, not {value!r}")
        for field, (least, most, unit) in _LIMITS.items():
            self._check_range(field, least, most, unit)
        if self.start in ("side", "caught-in-side") and self.count > 1:
            self._refuse("there is one tie on each side of the wearer; start several from the centre back")
        if self.height is not None and self.count > 1:
            self._refuse("several ties are spread evenly; leave the height out, or add each by a step of its own")
        if self.start != "side" and (self.misfit != "eased" or self.grain_along):
            self._refuse(
                "an added tie has no joined panels and its grain along it; leave the fullness and the grain of a "
                "joined back "
                f"out{in_file('misfit and grain_along')}"
            )

    def _check_range(self, field: str, least: float, most: float, unit: str) -> None:
        value = getattr(self, field)
        if value is not None and not least <= value <= most:
            of_length = unit == "cm"
            shown = given_words(value) if of_length else f"{value:g} {unit}".rstrip()
            limits = range_words(least, most) if of_length else f"{least:g} to {most:g} {unit}".rstrip()
            self._refuse(f"its {field.replace('_', ' ')} is {shown}; give {limits}")

    def _refuse(self, why: str) -> None:
        raise DesignError(f"{SPOKEN}: {why}", f"step {self.uid}")

    @property
    def label(self) -> str:
        """`Tie: from the side seam, double knot`."""
        places = {"side": "the back runs on", "caught-in-side": "caught in the side seam"}
        start = places.get(self.start, f"at the {self.start.replace('-', ' ')}")
        return f"Tie: {start}, {'double knot' if self.knot == 'double' else 'bow'}"

    @property
    def slots(self) -> tuple[str, ...]:
        """Its edges."""
        return ("upper", "end", "lower") if self.start == "side" else ("sides", "end", "seam")

    @property
    def uses(self) -> frozenset[str]:
        """No earlier step."""
        return frozenset()

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern with the tie, its length as a working, and its closure.

        Raises:
            DesignError: if there is no finished top edge or hem yet, the centre does not open or is closed otherwise,
                or the tie has no room.
        """
        with blamed(self.uid, SPOKEN):
            chart, before = half_chart(block), _without(pattern, self.uid)
            tying, ids = self._tying(), _free_ids(pattern, self.count)
            end_width = self.end_width or tying.width
            if self.start != "side":
                added = AddedTie(self.start, tying, end_width, self.end, self.height)
                return added.on(before, chart, self.uid, ids)
            refuse_strapped(before)
            tie = BackTie(tying, end_width, self.end, self.height, self.misfit, self.grain_along)
            return tie.on(before, chart, self.uid, ids[0], "Tie")

    def _tying(self) -> Tying:
        width = self.width or (BACK_WIDTH if self.start == "side" else ADDED_WIDTH)
        return Tying(self.knot, width, self.thickness, self.layers, self.tail, self.loop, self.length)


def _without(pattern: Pattern, uid: str) -> Pattern:
    """The pattern without what a step of this name added beside its pieces."""
    return replace(
        pattern,
        closures=tuple(closure for closure in pattern.closures if closure.id != uid),
        workings=tuple(working for working in pattern.workings if working.id.partition("/")[0] != uid),
    )


def _free_ids(pattern: Pattern, count: int) -> tuple[str, ...]:
    """`TIE`, or `TIE-1`, `TIE-2`, …: ids that no piece has."""
    if count == 1 and not pattern.has_piece("TIE"):
        return ("TIE",)
    numbers = (number for number in range(1, 999) if not pattern.has_piece(f"TIE-{number}"))
    return tuple(f"TIE-{next(numbers)}" for _ in range(count))
