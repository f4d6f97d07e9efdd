"""How the pieces of one cloth of a garment lie: as they were first laid, as a search found, as a hand moved them."""

import hashlib
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

from panelwright.app.board_piece import Document
from panelwright.app.hand_lay import HandLay, lay_numbers
from panelwright.app.laid_for import LaidFor
from panelwright.app.lay_search import SHORTER, LaySearch
from panelwright.app.lays_file import LayRecord
from panelwright.app.place_record import placed, places_of
from panelwright.body.units import Unit, format_length
from panelwright.drawing.lay_words import lay_notes
from panelwright.finish.cut_count import cloth_words
from panelwright.lay.cloth import Cloth
from panelwright.lay.fault import lay_faults
from panelwright.lay.lay import Lay
from panelwright.lay.piece_to_cut import PieceToCut, as_laid
from panelwright.lay.planned_lay import LayPlan

Made = Literal["first", "found", "hand"]


@dataclass(frozen=True, eq=False)
class ClothLay:
    """The lay of one cloth, whoever made it.

    Attributes:
        first: as the planner lays it at once.
        pieces: what it lays, as the pattern has them.
        kept: what the workroom keeps of it, or None.
        earlier: the newest lay that is kept for other pieces or for the cloth as it was, where none is for these.
        search: the last one of this program, or None.
    """

    first: Lay
    pieces: tuple[PieceToCut, ...]
    kept: LayRecord | None = None
    earlier: LayRecord | None = None
    search: LaySearch | None = None

    @cached_property
    def laid_for(self) -> LaidFor:
        """What it is for."""
        return LaidFor.of(self.first, self.pieces)

    @cached_property
    def found(self) -> Lay:
        """As the planner lays it: the shortest lay that a search found and the true outlines prove, or the first."""
        best = self.first
        kept = () if self.kept is None else self.kept.found
        searched = () if self.search is None else places_of(self.search.best.laid)
        for places in (kept, searched):
            lay = placed(self.first, places)
            if lay is not None and lay.length < best.length - SHORTER and not lay_faults(lay, self._laid_pieces):
                best = lay
        return best

    @cached_property
    def hand(self) -> HandLay:
        """As a hand has moved it."""
        return HandLay(self.found, self.pieces, None if self.kept is None else self.kept.hand)

    @property
    def made(self) -> Made:
        """Who made the lay that is cut by."""
        if self.hand.is_moved and not self.hand.faults:
            return "hand"
        return "first" if self.found is self.first else "found"

    @property
    def lay(self) -> Lay:
        """The lay that is cut by: the hand's where it has moved anything and it can be cut so, else the planner's."""
        return self.hand.lay if self.made == "hand" else self.found

    @property
    def revision(self) -> str:
        """Another one for every way in which the pieces lie; empty for the first."""
        if self.made == "first":
            return ""
        lie = "".join(place.model_dump_json() for place in places_of(self.lay.laid))
        return hashlib.sha256(lie.encode()).hexdigest()[:16]

    def with_found(self, record: LayRecord, found: Lay) -> LayRecord:
        """What is kept once a search has found a lay: the same where it holds one as short, as another search may have
        found it meanwhile. Where a hand has moved pieces, the length stays the hand's.
        """
        if replace(self, kept=record, search=None).found.length <= found.length:
            return record
        length = record.length_mm if record.is_by_hand else found.length
        return record.model_copy(update={"found": places_of(found.laid), "length_mm": length})

    def document(self, number: int, unit: Unit) -> Document:
        """One of the lays of docs/board.md.

        Args:
            number: by which it is asked for.
            unit: of the lengths in sentences.
        """
        lay = self.lay
        return {
            **told_cloth(lay.cloth),
            "folded": lay.folded,
            **lay_numbers(lay),
            "cost": None if lay.cost is None else round(lay.cost, 2),
            # The page says beside the field of the width whether it is assumed.
            "notes": lay_notes(replace(lay, cloth=replace(lay.cloth, assumed=False)), unit),
            "picture": number,
            "made": self.made,
            "revision": self.revision,
            "hand_revision": self.hand.revision,
            "first": lay_numbers(self.first),
            "found": lay_numbers(self.found),
            "search": self._searched(),
            "shortest": self._shortest_words(unit),
            "earlier": None if self.earlier is None else _earlier_words(self.earlier, self.laid_for, unit),
        }

    def _searched(self) -> Document | None:
        """How the last search stands; None where nobody has looked."""
        if self.search is not None:
            search = self.search
            return {
                "going_on": search.going_on,
                "share": round(search.share, 3),
                "seconds": search.seconds,
                "elapsed": round(search.elapsed, 1),
                "fault": search.fault,
            }
        if self.kept is not None and self.kept.searches:
            return {"going_on": False, "share": 1.0, "seconds": None, "elapsed": None, "fault": ""}
        return None

    def _shortest_words(self, unit: Unit) -> str | None:
        """`No lay can be shorter: strap alone takes 44.3 cm along the grain.`; None where one may be."""
        cloth = self.first.cloth
        plan = LayPlan.of(self._laid_pieces, self.first.width, self.first.folded, cloth.one_way, self.first.spacing)
        length, name = plan.task.longest
        if self.found.length > max(length, plan.task.bound) + SHORTER:
            return None
        if length >= plan.task.bound:
            return f"No lay can be shorter: {name} alone takes {format_length(length, unit)} along the grain."
        return "No lay can be shorter: the edges on the fold lie one after another without a gap."

    @property
    def _laid_pieces(self) -> tuple[PieceToCut, ...]:
        return as_laid(self.pieces, self.first.folded)


def told_cloth(cloth: Cloth) -> Document:
    """A cloth as a page is told of it."""
    return {
        "cloth": cloth.name,
        "label": cloth_words(cloth.name),
        "width_mm": round(cloth.width, 2),
        "assumed": cloth.assumed,
    }


def _earlier_words(lay: LayRecord, now: LaidFor, unit: Unit) -> str:
    """`A lay 93.4 cm long, moved by hand, is kept for an earlier state: cloth 96.0 cm wide. It is not used now, and
    holds again once that is as it was.`
    """
    made = "moved by hand" if lay.is_by_hand else "found by a search"
    length = format_length(lay.length_mm, unit)
    return (
        f"A lay {length} long, {made}, is kept for an earlier state: {lay.laid_for.unlike(now, unit)}. "
        "It is not used now, and holds again once that is as it was."
    )
