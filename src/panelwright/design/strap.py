"""The step that adds straps."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from functools import lru_cache
from typing import ClassVar, Final, Literal, get_args

from panelwright.body.worded_length import given_words, length_words, range_words
from panelwright.design.grown_strap import Grown, grown
from panelwright.design.separate_strap import SewnPlace, Strip, Upper, over_shoulder, round_neck, sewn_place
from panelwright.design.step import blamed, checked_uid
from panelwright.design.strap_cut import HalfStrap, StrapCut
from panelwright.design.strap_drawing import bearing, drawn
from panelwright.design.strap_fields import ALL, foreign_fault
from panelwright.design.strap_length import WornBlock, worn
from panelwright.design.strap_panel import StrapHalf, strap_half
from panelwright.design.tie_knot import KNOTS, Knot, gathered_diameter, knot_parts
from panelwright.errors import DesignError
from panelwright.pattern.line import SHOULDER, Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.working import Part, Working

SPOKEN: Final = "strap"
StrapType = Literal["grown", "separate", "halter"]
Nape = Literal["seam", "one", "tie"]
STRAP_TYPES: Final[tuple[str, ...]] = get_args(StrapType)
NAPES: Final[tuple[str, ...]] = get_args(Nape)

RIGHT_WITHIN: Final = 20.0  # mm by which a strap's length is uncertain before the fitting
MOST_CHANGE: Final = 40.0  # mm by which a given length may change a grown strap
LENGTH_FOUND: Final = 0.02  # mm
MOVES: Final = (
    0.0,
    2.5,
    -2.5,
    6.0,
    -6.0,
    12.0,
    -12.0,
    20.0,
    -20.0,
    30.0,
    -30.0,
)  # mm along the shoulder from where a share asks
NOTE: Final = "By the wearer's block; pin the strap at the fitting and mark its length there."
TIED_NOTE: Final = (
    "By the wearer's block, with a knot reckoned from the gathered cloth, two layers of it; tie it at the fitting "
    "before you cut the ends."
)
GIVEN_NOTE: Final = (
    "Nothing was reckoned: the block was read off paper and has no body under it; pin the strap at the fitting and "
    "mark its length there."
)
TAPE: Final = "Without a pattern, a tape from the front top edge over the shoulder to the back top edge, standing."
CUT_ALIKE: Final = "Narrow straps are cut to one length for everybody, ends and all, and shortened at the fitting."
NARROW_STRIP, CUT_LONG = 25.0, 558.8  # mm: a strip not wider than this is bought or cut to 22 in (home-sewing pages)
THICKNESS, LAYERS = 0.4, 2  # mm and count: of the cloth in a knot

_LIMITS: Final = {
    "at_shoulder": (0.0, 200.0),
    "width": (8.0, 120.0),
    "foot_width": (8.0, 200.0),
    "at_front": (5.0, 400.0),
    "at_back": (5.0, 400.0),
    "rounding": (5.0, 100.0),
    "length": (50.0, 1500.0),
    "tail": (20.0, 1000.0),
    "loop": (30.0, 500.0),
}


@dataclass(frozen=True)
class Strap:
    """Adds a pair of straps.

    Slots: of a grown strap `strap-neckline`, `shoulder` and `strap-armhole`; of others `strap-edge` and the ends.

    Attributes:
        uid: permanent name in the design.
        type: `grown` out of the front and back panels and sewn together at the shoulder; `separate`, a strip sewn to
            the top edge before and behind; `halter`, a strip round the neck.
        at_shoulder: distance of the strap's inner edge from the side neck point along the shoulder, mm.
        share: instead, the share of what the shoulder leaves beside the strap, 0 at the neck … 1 at the shoulder point.
            It is taken to the nearest place within 3 cm where the panels can carry the strap. Neither: in the middle.
        width: at the shoulder; of a strip, at its upper end, mm.
        foot_width: where a grown strap stands on the top edge; of a strip, at its front end, mm. None: `width`, but a
            grown strap widens there where its panels leave no room otherwise.
        at_front, at_back: from the centre along the top edge to the middle of the strap's foot, mm. None: a grown strap
            stands below its place on the shoulder, a strip on the princess seam.
        rounding: how far before the corner the neckline begins to run up into a grown strap, mm; the armhole begins
            half as far again.
        corner: leave corners there instead.
        length: along the middle, mm; None: reckoned for the wearer.
        crossed: separate straps cross behind.
        nape: what becomes of a halter at the nape: a `seam`, `one` strip without a seam, or two ends that `tie`.
        knot, tail, loop: of ends that are tied (see `Tie`).

    Raises:
        DesignError: if a choice is unknown, a number out of range, or an option has nothing to act on.
    """

    kind: ClassVar[str] = "strap"
    needs_shoulder: ClassVar[bool] = True

    uid: str
    type: StrapType = "grown"
    at_shoulder: float | None = None
    share: float | None = None
    width: float = 30.0
    foot_width: float | None = None
    at_front: float | None = None
    at_back: float | None = None
    rounding: float = 25.0
    corner: bool = False
    length: float | None = None
    crossed: bool = False
    nape: Nape = "seam"
    knot: Knot = "bow"
    tail: float = 100.0
    loop: float = 120.0

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        for name, value, known in (
            ("is", self.type, STRAP_TYPES),
            ("ends at the nape as", self.nape, NAPES),
            ("is tied in", self.knot, KNOTS),
        ):
            if value not in known:
                self._refuse(f"a strap {name} {', '.join(known)}, not {value!r}")
        for field, (least, most) in _LIMITS.items():
            value = getattr(self, field)
            if value is not None and not (math.isfinite(value) and least <= value <= most):
                words = f"its {field.replace('_', ' ')} is {given_words(value)}"
                self._refuse(f"{words}; give {range_words(least, most)}")
        if self.share is not None and not 0.0 <= self.share <= 1.0:
            self._refuse(
                f"its share of the shoulder is {self.share:g}; give 0 (at the neck) to 1 (at the shoulder point)"
            )
        if self.share is not None and self.at_shoulder is not None:
            self._refuse("give a distance along the shoulder or a share of it, not both")
        plain = {own.name: own.default for own in fields(self)}
        changed = (field for field, name in ALL.items() if getattr(self, name) != plain[name])
        if fault := foreign_fault(self.type, self.nape, changed):
            self._refuse(fault)

    def _refuse(self, why: str) -> None:
        raise DesignError(f"{SPOKEN}: {why}", f"step {self.uid}")

    @property
    def label(self) -> str:
        """`Straps: grown out of the panels`."""
        napes = {"seam": "with a seam at the nape", "one": "in one piece", "tie": "tied at the nape"}
        words = {
            "grown": "grown out of the panels",
            "separate": "separate, crossed behind" if self.crossed else "separate",
            "halter": f"halter, {napes[self.nape]}",
        }
        return f"Straps: {words[self.type]}"

    @property
    def slots(self) -> tuple[str, ...]:
        """Its lines."""
        if self.type == "grown":
            return ("strap-neckline", "shoulder", "strap-armhole")
        return ("strap-edge", "strap-front", *_UPPER_LINES[self._upper])

    @property
    def uses(self) -> frozenset[str]:
        """No earlier step."""
        return frozenset()

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern with its straps, and their length as a working.

        Raises:
            DesignError: if the block ends at the upper bust, there is no top edge yet, or the strap has no room.
        """
        with blamed(self.uid, SPOKEN):
            before = replace(pattern, workings=tuple(w for w in pattern.workings if w.id.partition("/")[0] != self.uid))
            if self.type == "grown":
                return self._grown(before, *grown_halves(self, pattern, block), block.strap_change)
            return self._strip(before, block)

    def _grown(self, pattern: Pattern, front: Grown, back: Grown, fitted: float) -> Pattern:
        panels, straps = (front.panels, back.panels), (front.strap, back.strap)
        parts = (
            Part("in front, from the top edge up to the shoulder seam", straps[0].length),
            Part("behind, from the shoulder seam down to the top edge", straps[1].length),
        )
        working = self._working((*parts, *_fitted_part(fitted)), NOTE)
        if self.length is not None or fitted:
            straps = _as_long(panels, straps, working.reckoned if self.length is None else self.length)
        made = grown(pattern, self.uid, *map(Grown, panels, straps))
        return replace(made, workings=(*made.workings, working))

    def halves(self, front: StrapHalf, back: StrapHalf) -> tuple[HalfStrap, HalfStrap]:
        """The strap where it was asked for; a share of the shoulder may give way a little."""
        first: DesignError | None = None
        for cut in self._cuts(min(front.shoulder, back.shoulder)):
            try:
                for half in (front, back):
                    bearing(half, cut)
                return self._half(front, cut, self.at_front), self._half(back, cut, self.at_back)
            except DesignError as error:
                first = first or error
        raise first or DesignError("it has no room on the shoulder")

    def _cuts(self, shoulder: float) -> Iterator[StrapCut]:
        room = shoulder - self.width
        if room < 0:
            raise DesignError(
                f"it is {given_words(self.width)} wide and the shoulder {length_words(shoulder)}; make it narrower"
            )
        foot, rounding = self.foot_width or self.width, None if self.corner else self.rounding
        if self.at_shoulder is not None:
            yield StrapCut(self.at_shoulder, self.width, foot, rounding, self.foot_width is None)
            return
        start = room * (0.5 if self.share is None else self.share)
        for move in MOVES if self.share is not None else (0.0,):
            if 0 <= start + move <= room:
                yield StrapCut(start + move, self.width, foot, rounding, self.foot_width is None)

    @staticmethod
    def _half(half: StrapHalf, cut: StrapCut, at: float | None) -> HalfStrap:
        try:
            return drawn(half, cut, None if at is None else at - half.inner.top.length)
        except DesignError as error:
            raise DesignError(f"on the {half.half}, {error}", half.seam) from error

    def _working(self, parts: tuple[Part, ...], note: str) -> Working:
        what = "Halter strap" if self.type == "halter" else "Strap, along its middle"
        rule = self._rule()
        return Working(f"{self.uid}/length", what, parts, self.length, RIGHT_WITHIN, RIGHT_WITHIN, note, *rule)

    def _rule(self) -> tuple[str, float | None]:
        """The trade's own rule, and what it comes to, mm; there is none for a halter or for straps that cross."""
        if self.type == "halter" or self.crossed:
            return "", None
        if self.type == "separate" and max(self.width, self.foot_width or 0.0) <= NARROW_STRIP:
            return CUT_ALIKE, CUT_LONG
        return TAPE, None

    @property
    def _upper(self) -> Upper:
        """What becomes of a strip's upper end."""
        if self.type != "halter":
            return "back"
        napes: dict[Nape, Upper] = {"seam": "nape", "one": "other-front", "tie": "free"}
        return napes[self.nape]

    def sewn(self, pattern: Pattern, block: Pattern) -> tuple[SewnPlace, SewnPlace | None]:
        """Where a strip is sewn to the front and, but for a halter, to the back.

        Args:
            pattern: before the step.
            block: the unmodified block.

        Raises:
            DesignError: if it has no room there.
        """
        front = sewn_place(
            strap_half(pattern, block, "front", shoulder=False), self.foot_width or self.width, self.at_front
        )
        if self.type == "halter":
            return front, None
        return front, sewn_place(strap_half(pattern, block, "back", shoulder=False), self.width, self.at_back)

    def _strip(self, pattern: Pattern, block: Pattern) -> Pattern:
        low = self.foot_width or self.width
        high = low if self._upper == "other-front" else self.width
        at_front, at_back = self.sewn(pattern, block)
        working = self._given(block) or self._reckoned(at_front, at_back, worn(block), block)
        name = "HALTER" if self.type == "halter" else "STRAP"
        strip = Strip(_free(pattern, name), name.capitalize(), self.uid, working.length, low, high, self._upper)
        seams = strip.seams(at_front, at_back, self.crossed)
        marked = at_front.marked(pattern, self.uid)
        marked = at_back.marked(marked, self.uid) if at_back is not None else marked
        lines = tuple(Line(f"{self.uid}/{slot}", LABELS[slot], self.uid) for slot in self.slots)
        return replace(
            marked,
            pieces=(*marked.pieces, strip.piece()),
            seams=(*marked.seams, *seams),
            lines=(*marked.lines, *lines),
            workings=(*marked.workings, working),
        )

    def _given(self, block: Pattern) -> Working | None:
        """A given length on a block that knows of no body: nothing is reckoned, and the working says so."""
        if block.body or self.length is None:
            return None
        what = "Halter strap" if self.type == "halter" else "Strap, along its middle"
        return Working(f"{self.uid}/length", what, (Part("as it was given", self.length),), note=GIVEN_NOTE)

    def _reckoned(self, at_front: SewnPlace, at_back: SewnPlace | None, body: WornBlock, block: Pattern) -> Working:
        if at_back is not None:
            parts = over_shoulder(at_front, at_back, self.over(at_front.half.shoulder), body, self.crossed)
        else:
            parts = round_neck(at_front, body, 2 if self._upper == "other-front" else 1)
        parts = (*parts, *_fitted_part(block.strap_change))
        if self._upper != "free":
            return self._working(parts, NOTE)
        diameter = gathered_diameter(self.width, THICKNESS, LAYERS)
        parts = (*parts, *knot_parts(self.knot, diameter, self.loop), Part("tail", self.tail))
        return self._working(parts, TIED_NOTE)

    def over(self, shoulder: float) -> float:
        """Where the middle of a strip crosses a shoulder that is so long, mm from the side neck point."""
        if self.at_shoulder is not None:
            return self.at_shoulder + self.width / 2
        share = 0.5 if self.share is None else self.share
        return self.width / 2 + share * max(shoulder - self.width, 0.0)


_UPPER_LINES: Final[dict[Upper, tuple[str, ...]]] = {
    "back": ("strap-back",),
    "nape": ("strap-nape",),
    "free": ("strap-end",),
    "other-front": ("strap-front-2",),
}
LABELS: Final = {
    "strap-edge": "Strap, long edges",
    "strap-front": "Strap, front end",
    "strap-front-2": "Strap, other front end",
    "strap-back": "Strap, back end",
    "strap-nape": "Strap, nape seam",
    "strap-end": "Strap, end",
}


@lru_cache(maxsize=8)
def grown_halves(step: Strap, pattern: Pattern, block: Pattern) -> tuple[Grown, Grown]:
    """(front, back) of a grown strap before it is given a length; remembered, as its handles ask for it again.

    Args:
        step: of the type `grown`.
        pattern: before the step.
        block: the unmodified block.

    Raises:
        DesignError: if the strap has no room.
    """
    front, back = strap_half(pattern, block, "front"), strap_half(pattern, block, "back")
    straps = step.halves(front, back)
    return Grown(front, straps[0]), Grown(back, straps[1])


def _as_long(
    halves: tuple[StrapHalf, StrapHalf], straps: tuple[HalfStrap, HalfStrap], length: float
) -> tuple[HalfStrap, HalfStrap]:
    """The straps with the shoulder seam moved in front and behind alike until both together have a given length.

    Raises:
        DesignError: if that changes them by more than 4 cm.
    """
    reckoned = straps[0].length + straps[1].length
    off = length - reckoned
    if abs(off) > MOST_CHANGE:
        raise DesignError(
            f"a length of {length_words(length)} is {length_words(abs(off))} {'longer' if off > 0 else 'shorter'} than "
            f"the {length_words(reckoned)} over this wearer's {SHOULDER}; a grown strap may be changed by "
            f"{given_words(MOST_CHANGE)}: leave the length out, or move the top edge"
        )
    lift = off / 2
    for _ in range(8):
        one, two = (drawn(half, s.cut, s.foot, lift) for half, s in zip(halves, straps, strict=True))
        straps = one, two
        off = length - straps[0].length - straps[1].length
        if abs(off) < LENGTH_FOUND:
            break
        lift += off / 2
    return straps


def _fitted_part(change: float) -> tuple[Part, ...]:
    """What the wearer's fitting notes add to a strap, as a part of its working."""
    return (Part("by the wearer's fitting notes", change),) if change else ()


def _free(pattern: Pattern, name: str) -> str:
    """`STRAP`, or `STRAP-2`, …: an id that no piece has."""
    number = 2
    while pattern.has_piece(name if number == 2 else f"{name}-{number - 1}"):
        number += 1
    return name if number == 2 else f"{name}-{number - 1}"
