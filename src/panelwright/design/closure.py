"""The step that opens, shuts or folds the centre front, the centre back or a side seam."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import ClassVar, Final, Literal, get_args

from panelwright.design.backing_strip import with_strip
from panelwright.design.centre_edge import CentreEdge, centre_seam, on_fold, refuse_unfinished
from panelwright.design.chain import resewn
from panelwright.design.closure_opening import Opening, Spot, height_on
from panelwright.design.edge_shift import Parts, moved_in, moved_out
from panelwright.design.fastening import Fastening, Fitted
from panelwright.design.lacing import Lacing
from panelwright.design.lacing_settled import with_settled_lacing
from panelwright.design.position import Height, spoken
from panelwright.design.side_opening import side_edges
from panelwright.design.step import blamed, checked_uid
from panelwright.errors import DesignError
from panelwright.file_words import in_file
from panelwright.geometry.placement import Placement
from panelwright.pattern.closure import Closure, ClosureHand, ClosurePlace
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import TOP_HIP, Level
from panelwright.pattern.line import CENTRE_FRONT, SIDE
from panelwright.pattern.mark import Mark
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.skirt_below import runs_into_skirt
from panelwright.pattern.step_name import step_name

SPOKEN: Final = "closure"
Shut = Literal["fold", "seam"]
# Where a side opening ends unless told: so low that the hips pass.
SIDE_ENDS: Final = Height(TOP_HIP)


@dataclass(frozen=True)
class ClosureStep:
    """Makes one place open, or shuts it.

    It comes after the top edge and the hem, whose length along the opening it needs. The block's own centre back is
    what this step makes of it.

    Attributes:
        uid: permanent name in the design.
        place: `centre-front`, `centre-back` or `side`.
        fastening: how it is closed; or `fold` (cut on the fold) or `seam` (sewn shut).
        down_to: where it ends, from the upper edge down; None: at the hem, at the side at the top hip.
        opening: instead of `down_to`, how long it is, mm.
        hand: of a side, the wearer's side that opens.

    Raises:
        DesignError: if the parts do not go together.
    """

    kind: ClassVar[str] = "closure"
    needs_shoulder: ClassVar[bool] = False

    uid: str
    place: ClosurePlace
    fastening: Fastening | Shut
    down_to: Height | None = None
    opening: float | None = None
    hand: Literal["left", "right"] = "left"

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        if self.place not in get_args(ClosurePlace):
            raise DesignError(f"a closure is at the {', '.join(get_args(ClosurePlace))}, not {self.place!r}", self.uid)
        if fault := self._fault():
            raise DesignError(f"{SPOKEN}: {fault}", f"step {self.uid}")

    def _fault(self) -> str:
        if self.down_to is not None and self.opening is not None:
            return f"give the lower end of the opening or its length, not both{in_file('down_to, opening_cm')}"
        ends = self.down_to is not None or self.opening is not None
        if isinstance(self.fastening, str):
            if self.fastening == "fold" and self.place == SIDE:
                return "a side cannot be cut on the fold here; choose a seam, a zip, hooks or a tie"
            return (
                f"a {self.fastening} opens nowhere; leave out where it ends{in_file('down_to, opening_cm')}"
                if ends
                else ""
            )
        return (self.fastening.side_fault if self.place == SIDE else "") or (self.fastening.part_fault if ends else "")

    @property
    def label(self) -> str:
        """`Closure: centre back, invisible zip`."""
        if isinstance(self.fastening, str):
            return f"Closure: {spoken(self.place)}, {self.fastening}"
        return f"Closure: {spoken(self.place)}, {' '.join(filter(None, (self.fastening.style, self.fastening.kind)))}"

    @property
    def slots(self) -> tuple[str, ...]:
        """None: what it opens stays on its own line."""
        return ()

    @property
    def uses(self) -> frozenset[str]:
        """No earlier step."""
        return frozenset()

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern with this place opened or shut; only the piece at the place itself changes.

        Raises:
            DesignError: if the place is gone, already closed by another step, or still ends at the block's own edges;
                if it cannot lie on a fold; or if the fastening does not fit there.
        """
        with blamed(self.uid, SPOKEN):
            self._refuse_twice(pattern)
            if self.place == SIDE:
                return self._at_side(pattern, block)
            centre = CentreEdge.of(pattern, self.place)
            if self.fastening == "fold":
                return on_fold(pattern, centre)
            if isinstance(self.fastening, str):
                return centre.sewn(pattern, centre.piece, "seam", (centre_seam(centre, self.place, "join"),))
            refuse_unfinished(centre.piece, centre.edge)
            return self._at_centre(pattern, block, centre, self.fastening)

    def settled(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern with the cord of a lacing, which depends on every other opening of the finished design."""
        if not isinstance(self.fastening, Lacing) or all(closure.id != self.uid for closure in pattern.closures):
            return pattern
        return with_settled_lacing(pattern, block, self.uid, self.fastening)

    def _refuse_twice(self, pattern: Pattern) -> None:
        for other in pattern.closures:
            if other.place == self.place and other.hand in ("centre", self.hand):
                raise DesignError(
                    f"the {spoken(self.place)} is already closed by the step {step_name(pattern, other.id)}; take "
                    "one of the "
                    "two out",
                    self.place,
                )

    def _low(self, block: Pattern, edge: Edge) -> float:
        """Where the opening ends, mm up the edge; below 0 at the hem."""
        if self.opening is not None:
            return edge.curve.length - self.opening
        ends = self.down_to or (SIDE_ENDS if self.place == SIDE else None)
        return 0.0 if ends is None else height_on(block, edge, ends)

    def _at_side(self, pattern: Pattern, block: Pattern) -> Pattern:
        """Marks and records: both hands share the drawing, so the seam itself stays as it is."""
        if isinstance(self.fastening, str):
            return pattern
        seam, sides = side_edges(pattern)
        refuse_unfinished(*sides[0])
        low = self._low(block, sides[0][1])
        openings = [Opening.of(self.uid, self.place, pattern, *side, low) for side in sides]
        _refuse_above_skirt(pattern, openings)
        fitted = self.fastening.fitted(openings[0])
        for opening in openings:
            pattern = pattern.with_pieces(_marked(opening.piece, opening, fitted.spots))
        return self._recorded(pattern, openings[0], fitted, seam, self.hand)

    def _at_centre(self, pattern: Pattern, block: Pattern, centre: CentreEdge, fastening: Fastening) -> Pattern:
        piece, parts = centre.piece, Parts()
        if fastening.gap:
            piece, parts = moved_in(piece, centre.edge, fastening.gap / 2)
        edge = piece.edge(centre.edge.id)
        opening = Opening.of(self.uid, self.place, pattern, piece, edge, self._low(block, edge))
        _refuse_above_skirt(pattern, [opening])
        fitted = fastening.fitted(opening)
        closed = opening
        if fastening.stand:
            piece, run_on = moved_out(piece, edge, fastening.stand)
            parts = {**parts, **run_on}
            closed = Opening.of(self.uid, self.place, pattern, piece, piece.edge(edge.id))
        piece = _at_zero(_marked(piece, opening, fitted.spots), self.place)
        moved = _resewn(pattern, centre, piece, parts)
        made = _opened(moved, centre, piece, closed)
        levels = tuple(_apart(level, piece.id, fastening) for level in made.levels)
        seam = self.place if closed.to_hem else f"{self.uid}/{self.place}"
        return self._recorded(replace(made, levels=levels), closed, fitted, seam, "centre")

    def _recorded(self, pattern: Pattern, opening: Opening, fitted: Fitted, seam: str, hand: ClosureHand) -> Pattern:
        """The pattern with the closure, what it asks for and the strip behind it."""
        if isinstance(self.fastening, str):
            return pattern
        closure = Closure(
            self.uid, self.place, self.fastening.kind, self.fastening.style, hand, seam, opening.low, opening.high,
            to_hem=opening.to_hem, gap=self.fastening.gap, overlap=2 * self.fastening.stand, spreads=fitted.spreads,
        )  # fmt: skip
        made = replace(
            pattern,
            closures=(*pattern.closures, closure),
            notions=(*(notion for notion in pattern.notions if notion.step != self.uid), *fitted.notions),
            workings=(*pattern.workings, *fitted.workings),
        )
        return with_strip(made, fitted.strip, self.uid) if fitted.strip else made


def _refuse_above_skirt(pattern: Pattern, openings: Iterable[Opening]) -> None:
    if any(opening.to_hem and runs_into_skirt(pattern, opening.piece, opening.edge) for opening in openings):
        raise DesignError(
            "it would open down to the waist seam, which holds the bodice to its skirt; put it before the skirt, "
            "into which a zip at a centre then runs on, or let it end above the waist",
        )


def _marked(piece: Piece, opening: Opening, spots: Iterable[Spot]) -> Piece:
    marks = tuple(
        Mark(f"{opening.uid}/{spot.name}", spot.kind, opening.at(spot.height, spot.inwards)) for spot in spots
    )
    return replace(piece, marks=piece.marks + marks) if marks else piece


def _at_zero(piece: Piece, place: ClosurePlace) -> Piece:
    """A front piece is laid with its edge on x = 0, wherever its centre line has come to lie."""
    right = max(float(edge.curve.points[:, 0].max()) for edge in piece.on_line(place))
    return piece.placed(Placement(x=-right)) if place == CENTRE_FRONT and right else piece


def _resewn(pattern: Pattern, centre: CentreEdge, piece: Piece, parts: Parts) -> Pattern:
    """The pattern with the moved piece, its other seams on what is left of their edges."""
    own = {centre.edge.id}
    others = tuple(seam for seam in pattern.seams if not own & {span.edge for span in seam.a + seam.b})
    bare = replace(pattern.with_pieces(piece), seams=())
    return replace(bare, seams=resewn(others, parts, pattern, bare) if parts else others)


def _opened(pattern: Pattern, centre: CentreEdge, piece: Piece, opening: Opening) -> Pattern:
    """The pattern with its centre edge open, or sewn below the place where the opening ends."""
    line = centre.edge.line
    if opening.to_hem:
        return centre.sewn(pattern, piece, "opening", (centre_seam(centre, line, "closure"),))
    share = opening.low / opening.high
    sewn = centre_seam(centre, line, "join", 0.0, share)
    closed = centre_seam(centre, f"{opening.uid}/{line}", "closure", share, 1.0)
    return centre.sewn(pattern, piece, "seam", (sewn, closed))


def _apart(level: Level, piece: str, fastening: Fastening) -> Level:
    """The level with what the closed edges leave free or lap, if it runs through the piece."""
    if all(step.piece != piece for step in level.path):
        return level
    return replace(level, gap=level.gap + fastening.gap, overlap=level.overlap + 2 * fastening.stand)
