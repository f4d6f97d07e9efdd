"""A zip."""

from dataclasses import dataclass
from typing import ClassVar, Final, Literal, get_args

from panelwright.design.closure_opening import Opening, Spot
from panelwright.design.fastening import Fitted, within
from panelwright.design.zip_length import SOLD_CM, sold_length
from panelwright.errors import DesignError
from panelwright.file_words import in_file
from panelwright.pattern.closure import ClosureKind
from panelwright.pattern.notion import Notion
from panelwright.pattern.working import OR_LONGER, Part, Working

ZipStyle = Literal["centred", "lapped", "exposed", "invisible"]

SOLD_AS: Final = "the lengths sold are those of a stockist's list; other shops sell others"


@dataclass(frozen=True)
class Zip:
    """A zip between two edges.

    Attributes:
        style: how it is set in. An `exposed` one lies open between the edges; the others leave them as they are.
        teeth: visible width of the teeth of an exposed one, mm; half of it comes off each edge.
        given: a length that the maker asked for, mm, or None.

    Raises:
        DesignError: if a number is out of range or does not belong to the style.
    """

    kind: ClassVar[ClosureKind] = "zip"
    stand: ClassVar[float] = 0.0

    style: ZipStyle = "centred"
    teeth: float = 0.0
    given: float | None = None

    def __post_init__(self) -> None:
        if self.style not in get_args(ZipStyle):
            raise DesignError(f"a zip is {', '.join(get_args(ZipStyle))}, not {self.style!r}", "style")
        if self.teeth and self.style != "exposed":
            reason = f"a {self.style} zip shows no teeth; leave their width out{in_file('teeth_width_cm')}"
            raise DesignError(reason, "teeth_width_cm")
        fault = within("the width of an exposed zip's teeth", self.teeth, 2.0, 40.0) if self.style == "exposed" else ""
        fault = fault or (within("the length of a zip", self.given, 30.0, 2000.0) if self.given is not None else "")
        if fault:
            raise DesignError(fault, "zip")

    @property
    def gap(self) -> float:
        """The teeth of an exposed zip, mm."""
        return self.teeth

    @property
    def side_fault(self) -> str:
        """Teeth would come off both side seams, though one alone opens."""
        return (
            "an exposed zip takes half its teeth off the edges, and both side seams share one drawing; choose centred, "
            "lapped or invisible"
            if self.gap
            else ""
        )

    @property
    def part_fault(self) -> str:
        """Teeth that come off the edge only part of the way would leave a step in it."""
        return (
            "an exposed zip that ends above the hem would leave a step in the edge; open it to the hem, or choose "
            "centred, lapped or invisible"
            if self.gap
            else ""
        )

    def fitted(self, opening: Opening) -> Fitted:
        """The zip, the shortest one sold that is at least as long as the opening, and where it ends."""
        parts = (Part(f"{opening.words}, the edge that opens", opening.length),)
        notion, working = zip_to_buy(opening.uid, opening.words, self.style, parts, self.given, opening.to_hem)
        spots = () if opening.to_hem else (Spot("point", "zip-end", opening.low),)
        return Fitted((notion,), (working,), spots)


def zip_to_buy(
    uid: str, words: str, style: str, edges: tuple[Part, ...], given: float | None, separating: bool
) -> tuple[Notion, Working]:
    """A zip, the shortest one sold that is at least as long as the edges that open, and how its length is reckoned.

    Args:
        uid: of the step that asks for it.
        words: `Centre back`.
        style: how it is set in.
        edges: what it closes, one behind the other.
        given: a length that the maker asked for, mm, or None.
        separating: whether it comes apart at its lower end.
    """
    length = sum(part.length for part in edges)
    sold = sold_length(length)
    stock = length if sold is None else sold
    more = (Part("up to the next length that is sold", stock - length),) if stock > length else ()
    id = f"{uid}/zip"
    cut_down = "shortened at its upper end only" if separating else "cut down"
    working = Working(
        id, "Zip", (*edges, *more), given, max(0.0, stock - length), OR_LONGER,
        "No zip sold ready is as long: buy it from the roll and cut it to length." if sold is None
        else f"A zip that is longer is {cut_down}; one that is shorter does not close the edge.",
        f"The next longer of the {len(SOLD_CM)} lengths sold ({SOLD_AS}).",
    )  # fmt: skip
    apart = "; it comes apart at its lower end" if separating else ""
    rest = f"; longer than the opening, so {cut_down}" if stock > length else ""
    name = {"invisible": "invisible zip", "exposed": "zip with visible teeth"}.get(style, "zip")
    notion = Notion(
        "zip", f"separating {name}" if separating else name, 1, working.length, uid,
        f"{words}, {style}{apart}{rest}", id,
    )  # fmt: skip
    return notion, working
