"""A lacing over a gap."""

from dataclasses import dataclass
from typing import ClassVar, Final

from panelwright.body.worded_length import given_words, length_words
from panelwright.design.closure_opening import Opening, Spot
from panelwright.design.fastening import Fitted, Strip, within
from panelwright.design.lacing_cord import LacingCord
from panelwright.design.spaced import evenly
from panelwright.errors import DesignError
from panelwright.file_words import in_file
from panelwright.pattern.closure import ClosureKind
from panelwright.pattern.notion import Notion
from panelwright.pattern.spoken_piece import spoken_piece

FROM_ENDS: Final = 15.0  # mm from upper edge and hem to the nearest eyelet
FROM_SEAM: Final = 6.0  # mm from an eyelet to another seam
CLOSEST: Final = 8.0  # mm between two eyelets
WIDEST: Final = 200.0  # mm of gap


@dataclass(frozen=True)
class Lacing:
    """Eyelets along both edges and a cord through them.

    Attributes:
        gap: between the edges as worn, whole, mm.
        pitch: wanted from one eyelet to the next, mm; it is made to come out even.
        inset: of each eyelet from its edge, mm.
        given: a length of the cord that the maker asked for, mm, or None.
        behind: by how much a modesty panel behind the gap reaches under each edge, mm, or None for no panel.

    Raises:
        DesignError: if a number is out of range.
    """

    kind: ClassVar[ClosureKind] = "lacing"
    style: ClassVar[str] = ""
    stand: ClassVar[float] = 0.0
    side_fault: ClassVar[str] = (
        "a lacing takes its gap off both side seams, though one alone opens; lace the centre back or the centre front, "
        "or choose a zip or hooks here"
    )
    part_fault: ClassVar[str] = (
        f"a lacing opens to the hem: its edges are parallel; leave out where it ends{in_file('down_to, opening_cm')}"
    )

    gap: float = 50.0
    pitch: float = 25.0
    inset: float = 12.0
    given: float | None = None
    behind: float | None = None

    def __post_init__(self) -> None:
        faults = [
            within("the gap of a lacing", self.gap, 0.0, WIDEST),
            within("the pitch of eyelets", self.pitch, CLOSEST, 80.0),
            within("the distance of eyelets from the edge", self.inset, 5.0, 30.0),
            within("the length of a lacing cord", self.given, 300.0, 100_000.0) if self.given is not None else "",
            within("the modesty panel's reach under an edge", self.behind, 10.0, 100.0)
            if self.behind is not None
            else "",
        ]
        if fault := next(filter(None, faults), ""):
            raise DesignError(fault, "lacing")

    def fitted(self, opening: Opening) -> Fitted:
        """Eyelets in an even row, the cord as worn, and the panel behind it.

        How far the cord must let the edges apart depends on the garment's other openings: it is settled after them.

        Raises:
            DesignError: if two eyelets have no room along the edge, or one would come too near to another seam.
        """
        low, high = opening.clear(self.inset, FROM_ENDS)
        if high - low < CLOSEST:
            raise DesignError(
                f"the {length_words(opening.length)} that open have no room for two pairs of eyelets; choose hooks "
                "or a tie",
                opening.piece.id,
            )
        room = opening.room(self.inset, low, high)
        if room < FROM_SEAM:
            raise DesignError(
                f"eyelets {given_words(self.inset)} from the edge would come within {length_words(room)} of another "
                f"seam of {spoken_piece(opening.piece)}; keep {given_words(FROM_SEAM)} by a smaller gap or eyelets "
                "nearer the edge",
                opening.piece.id,
            )
        heights = evenly(low, high, self.pitch)
        cord = LacingCord(len(heights), heights[1] - heights[0], self.inset)
        working = cord.working(self.cord_id(opening.uid), self.gap, None, self.given)
        spots = tuple(Spot("eyelet", f"eyelet-{k}", height, self.inset) for k, height in enumerate(heights, 1))
        notions = (
            Notion("eyelet", "eyelet", 2 * len(heights), None, opening.uid, f"{opening.words}, half on each edge"),
            Notion("cord", "lacing cord", 1, working.length, opening.uid, opening.words, working.id),
        )
        strip = None
        if self.behind is not None:
            width = self.gap + 2 * self.behind
            strip = Strip("modesty-panel", "Modesty panel", width, opening.length)
        return Fitted(notions, (working,), spots, strip, self.gap)

    @staticmethod
    def cord_id(uid: str) -> str:
        """Id of the working of the cord that the step `uid` asks for."""
        return f"{uid}/cord"
