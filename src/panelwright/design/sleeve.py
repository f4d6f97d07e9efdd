"""A one-piece set-in sleeve, its cap trued to the armhole that is there."""

import math
from dataclasses import dataclass, replace
from functools import cached_property
from typing import ClassVar, Final

from panelwright.body.terms import OF_THE_ARM
from panelwright.body.worded_length import given_words, length_words, range_words
from panelwright.design.armhole_row import ArmholeRow, armhole_row
from panelwright.design.sleeve_arm import arm_under
from panelwright.design.sleeve_cap import BACK, FRONT, half_cap, trued_width
from panelwright.design.step import blamed, checked_uid
from panelwright.errors import DesignError
from panelwright.geometry.arc import arc_from
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.pattern.arm import Arm
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Grain, InsideLine, Mark
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, SeamRegion, Span
from panelwright.pattern.working import Part, Working

LENGTHS: Final = (100.0, 800.0)
CAP_EASES: Final = (0.0, 60.0)
CAP_HEIGHTS: Final = (40.0, 250.0)
ARMS: Final = (150.0, 700.0)
WRISTS: Final = (120.0, 700.0)
# Common practice: the cap is a third of the armhole high; from memory: a little more than half of its ease lies behind.
CAP_SHARE: Final = 1 / 3
BACK_EASE: Final = 0.55
# From memory, unverified: a hand passes an opening that is 6 cm wider than the wrist, and an arm bends 55 % of its
# length below the shoulder.
HAND: Final = 60.0
ELBOW_SHARE: Final = 0.55
LEAST_BELOW: Final = 20.0  # mm of underarm seam
SLEEVE_WIDTH: Final = "Sleeve at the upper arm"
_ROUNDS: Final = 60
_SLOTS: Final = ("wrist", "underarm-side", "cap-front", "cap-back")
_LABELS: Final = ("Wrist", "Underarm seam of the sleeve", "Cap, front", "Cap, back")


@dataclass(frozen=True)
class Sleeve:
    """A pair of sleeves in one piece each, set into the armholes of a bodice to the shoulder.

    Attributes:
        uid: permanent name; slots `wrist`, `underarm-side`, `cap-front`, `cap-back`.
        length: from the shoulder over the crown to its edge, mm; None: the wearer's arm length.
        ease: by which the cap is longer than the armhole, mm.
        cap_height: mm; None: a third of the armhole.
        upper_arm: girth, mm; None: the wearer's.
        wrist: finished width, mm; None: as wide as the wearer's hand passes, and wider the shorter the sleeve.

    Raises:
        DesignError: if a number is out of range.
    """

    kind: ClassVar[str] = "sleeve"
    needs_shoulder: ClassVar[bool] = True

    uid: str
    length: float | None = None
    ease: float = 20.0
    cap_height: float | None = None
    upper_arm: float | None = None
    wrist: float | None = None

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        with blamed(self.uid, "sleeve"):
            for what, given, limits in (
                ("length", self.length, LENGTHS),
                ("ease", self.ease, CAP_EASES),
                ("cap height", self.cap_height, CAP_HEIGHTS),
                ("upper arm", self.upper_arm, ARMS),
                ("wrist", self.wrist, WRISTS),
            ):
                if given is not None and not (math.isfinite(given) and limits[0] <= given <= limits[1]):
                    words = range_words(*limits, "and")
                    raise DesignError(f"its {what} is {given_words(given)}; give between {words}", what)

    @property
    def label(self) -> str:
        """`Sleeve`."""
        return "Sleeve"

    @property
    def slots(self) -> tuple[str, ...]:
        """The lines that it draws."""
        return _SLOTS

    @property
    def uses(self) -> frozenset[str]:
        """No earlier step by name: it takes the armhole that is there."""
        return frozenset()

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern with the sleeve sewn to the armhole, front to front and back to back.

        Raises:
            DesignError: if there is no armhole, or no sleeve of these measures fits into it.
        """
        with blamed(self.uid, "sleeve"):
            row = armhole_row(pattern)
            armhole = pattern.chain_length(row.front), pattern.chain_length(row.back)
            draft = SleeveDraft(self, *armhole, arm_under(block))
            piece = draft.piece()
        lines = tuple(Line(f"{self.uid}/{slot}", label, self.uid) for slot, label in zip(_SLOTS, _LABELS, strict=True))
        sewn = {span.edge for span in row.front + row.back}
        pieces = tuple(
            replace(own, edges=tuple(replace(edge, kind="seam") if edge.id in sewn else edge for edge in own.edges))
            for own in pattern.pieces
        )
        return replace(
            pattern,
            pieces=(*pieces, piece),
            lines=(*pattern.lines, *lines),
            seams=(*pattern.seams, *self._seams(row, draft)),
            workings=(*pattern.workings, *draft.workings()),
            estimated=(*pattern.estimated, *draft.estimated),
        )

    def _seams(self, row: ArmholeRow, draft: "SleeveDraft") -> tuple[Seam, ...]:
        def set_in(half: SeamRegion, chain: tuple[Span, ...], ease: float) -> Seam:
            cap = Span(self.uid, f"{self.uid}.{self.uid}/cap-{half}", 1.0, 0.0)
            return Seam(f"{self.uid}/{half}-armhole", "join", chain, (cap,), half, ease=ease, blend=False)

        line = f"{self.uid}/underarm-side"
        front, back = Span(self.uid, f"{self.uid}.{line}"), Span(self.uid, f"{self.uid}.{line}-2", 1.0, 0.0)
        return (
            set_in("front", row.front, draft.front_ease),
            set_in("back", row.back, self.ease - draft.front_ease),
            Seam(line, "join", (front,), (back,), "side"),
        )


@dataclass(frozen=True)
class SleeveDraft:
    """The sleeve of an armhole: the crown above x = 0, its front on the right, the underarm at y = 0.

    Attributes:
        step: what was asked for.
        front, back: of the armhole, mm.
        arm: for whom.
    """

    step: Sleeve
    front: float
    back: float
    arm: Arm

    @property
    def estimated(self) -> tuple[str, ...]:
        """Ids of the measurements that the sleeve takes from the arm and that are estimates."""
        own = zip(OF_THE_ARM, (self.step.length, self.step.upper_arm, self.step.wrist), strict=True)
        return tuple(term for term, given in own if given is None and term in self.arm.estimated)

    @property
    def length(self) -> float:
        """From the shoulder to its edge, mm."""
        return self.arm.length if self.step.length is None else self.step.length

    @property
    def front_ease(self) -> float:
        """Of the front half of the cap, mm."""
        return (1 - BACK_EASE) * self.step.ease

    @property
    def height(self) -> float:
        """Of the cap, mm."""
        return CAP_SHARE * (self.front + self.back) if self.step.cap_height is None else self.step.cap_height

    @cached_property
    def _shape(self) -> tuple[float, float, float, float]:
        """(width in front, behind, width at the wrist, lean of the underarm seam); the lean and the widths depend on
        each other.

        Raises:
            DesignError: if the sleeve is too short for its cap.
        """
        below = self.length - self.height
        if below < LEAST_BELOW:
            raise DesignError(
                f"a sleeve of {length_words(self.length)} ends at its cap, which is {length_words(self.height)} "
                f"high; make it {length_words(self.height + LEAST_BELOW)} long or more, or the cap lower"
            )
        lean = 0.0
        for _ in range(_ROUNDS):
            front = trued_width(self.height, self.front + self.front_ease, lean, FRONT)
            back = trued_width(self.height, self.back + self.step.ease - self.front_ease, lean, BACK)
            wrist = self._wrist(front + back, below)
            half = wrist / 2 * (math.sin(lean) / lean if lean else 1.0)
            down = below + half * math.tan(lean / 2)
            lean, before = math.atan2((front + back) / 2 - half, down), lean
            if abs(lean - before) < 1e-13:
                break
        return front, back, wrist, lean

    def _wrist(self, width: float, below: float) -> float:
        if self.step.wrist is not None:
            return self.step.wrist
        share = min(1.0, below / max(self.arm.length - self.height, LEAST_BELOW))
        return width + share * (min(self.arm.wrist + HAND, width) - width)

    @property
    def width(self) -> float:
        """Of the sleeve at the upper arm, mm."""
        return self._shape[0] + self._shape[1]

    def piece(self) -> Piece:
        """The sleeve of the right arm, outer face up."""
        front, back, wrist, lean = self._shape
        uid, middle = self.step.uid, (front - back) / 2
        half = wrist / 2 * (math.sin(lean) / lean if lean else 1.0)
        top = self.height - self.length  # of the wrist in its middle
        low = top - half * math.tan(lean / 2)
        cap_front = half_cap(self.height, front, lean, FRONT).reversed()
        cap_back = half_cap(self.height, back, lean, BACK).placed(Placement(mirrored=True))
        hem = arc_from((middle - half, low), lean, -2 * lean, wrist)
        right = Curve.straight((middle + half, low), (front, 0.0))
        left = Curve.straight((-back, 0.0), (middle - half, low))
        edges = (
            Edge(f"{uid}.{uid}/wrist", f"{uid}/wrist", "left", "finished", hem),
            Edge(f"{uid}.{uid}/underarm-side", f"{uid}/underarm-side", "left", "seam", right),
            Edge(f"{uid}.{uid}/cap-front", f"{uid}/cap-front", "left", "seam", cap_front),
            Edge(f"{uid}.{uid}/cap-back", f"{uid}/cap-back", "left", "seam", cap_back),
            Edge(f"{uid}.{uid}/underarm-side-2", f"{uid}/underarm-side", "right", "seam", left),
        )
        tall = self.height - top
        grain = Grain((middle, top + 0.15 * tall), (middle, top + 0.85 * tall))
        return Piece.closed(
            edges,
            id=uid,
            label="Sleeve",
            extent="one_side",
            hand="both",
            grain=grain,
            inside=self._inside(right),
            marks=(Mark(f"{uid}-crown", "point", (0.0, self.height)),),
        )

    def _inside(self, seam: Curve) -> tuple[InsideLine, ...]:
        """The line of the upper arm, and that of the elbow where the sleeve reaches so far."""
        front, back, _, _ = self._shape
        found = [InsideLine("upper-arm", "guide", Curve.straight((-back, 0.0), (front, 0.0)))]
        elbow = self.height - ELBOW_SHARE * self.arm.length
        if seam.start[1] + LEAST_BELOW < elbow < -LEAST_BELOW:
            share = elbow / float(seam.start[1])
            x = front + share * float(seam.start[0] - front)
            found.append(InsideLine("elbow", "guide", Curve.straight((front - back - x, elbow), (x, elbow))))
        return tuple(found)

    def workings(self) -> tuple[Working, ...]:
        """The cap against the armhole, and the width against the arm."""
        uid, step = self.step.uid, self.step
        arm = self.arm.upper_arm if step.upper_arm is None else step.upper_arm
        estimated = "upper_arm_girth" in self.estimated
        note = "The upper arm is estimated: measure it before cutting. " if estimated else ""
        cap = (
            Part("front of the armhole", self.front),
            Part("back of the armhole", self.back),
            Part("ease", step.ease),
        )
        wide = (
            Part("upper arm, estimated" if estimated else "upper arm", arm),
            Part("ease, as armhole and cap leave it", self.width - arm),
        )
        return (
            Working(
                f"{uid}/cap", "Cap of the sleeve", cap, note="Ease it in between the notches, most over the crown.",
            ),
            Working(
                f"{uid}/width", SLEEVE_WIDTH, wide,
                note=f"{note}A lower cap makes the sleeve wider, a higher one narrower.",
            ),
        )  # fmt: skip
