"""The lays of the workroom's garments: laid, looked for, moved by hand, and kept."""

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from threading import Lock
from typing import Final

from panelwright.app.board_piece import Document
from panelwright.app.cloth_lay import ClothLay
from panelwright.app.cloth_lays import ClothLays, cloth_lays
from panelwright.app.hand_lay import HandLay, read_moves
from panelwright.app.hand_record import HandRecord
from panelwright.app.kept_lays import KeptLays
from panelwright.app.laid_for import LaidFor
from panelwright.app.lay_search import LaySearches
from panelwright.app.lays_file import LayRecord
from panelwright.app.workroom_faults import ChangedElsewhereError
from panelwright.app.workroom_garments import WorkroomGarments
from panelwright.body.units import Unit
from panelwright.lay.lay import Lay
from panelwright.store.workroom import Workroom

REMEMBERED: Final = 24


@dataclass(frozen=True)
class LayAsked:
    """Which lay is asked for.

    Attributes:
        design, wearer: refs.
        unit: of the lengths that people read.
        number: of the cloth's lay, from 1.
    """

    design: str
    wearer: str
    unit: Unit
    number: int = 1


class WorkroomLays:
    """By design and wearer. Several threads may ask.

    Every method raises `NotThereError` if there is no such design or wearer, `InputError` if there is no such lay, and
    what `WorkroomGarments.complete` raises if the garment cannot be cut.
    """

    def __init__(self, room: Workroom, garments: WorkroomGarments) -> None:
        """Nobody looks yet; what was found before is in the workroom."""
        self._garments, self._kept, self._searches = garments, KeptLays(room), LaySearches()
        self._told: OrderedDict[str, HandRecord] = OrderedDict()  # what pages begin with before anything is moved
        self._lock = Lock()

    def of(self, asked: LayAsked) -> ClothLays:
        """The lays of every cloth as they are cut by: the hand's, else the shortest that a search has found."""
        drawn = self._garments.complete(asked.design, asked.wearer, asked.unit).design
        kept = self._kept.of(asked.design, asked.wearer)
        fault = self._kept.fault(asked.design, asked.wearer)
        return cloth_lays(drawn, asked.unit).known(kept, lambda of: self._searches.last(_search_key(asked, of)), fault)

    def look(self, asked: LayAsked, seconds: float) -> Document:
        """Begin to look for a shorter lay of one cloth, beginning with what was found before.

        Raises:
            InputError: if there can be no such time.
        """
        own = self.of(asked).one(asked.number)

        def begun(record: LayRecord) -> LayRecord:
            return record.model_copy(update={"searches": record.searches + 1})

        def keep(found: Lay) -> None:
            self._change(asked, own, lambda record: own.with_found(record, found))

        seed = 1 + (own.kept.searches if own.kept is not None else 0)
        key = _search_key(asked, own.laid_for)
        self._searches.start(key, own.found, own.pieces, seconds, seed, keep)
        self._change(asked, own, begun)
        return self.of(asked).laid(asked.number)

    def stop(self) -> None:
        """Nobody looks any more; what was found stays."""
        self._searches.stop()

    def by_hand(self, asked: LayAsked) -> Document:
        """One lay as a hand has moved it."""
        own = self.of(asked).one(asked.number).hand
        with self._lock:
            self._told[own.revision] = own.record
            self._told.move_to_end(own.revision)
            while len(self._told) > REMEMBERED:
                self._told.popitem(last=False)
        return own.document()

    def move(self, asked: LayAsked, text: str) -> Document:
        """Take the single moves of a request, see `read_moves`.

        Raises:
            ChangedElsewhereError: if pieces were moved meanwhile: these moves were made on something else.
            InputError: if it holds anything but moves of pieces that are laid here.
        """
        moves, based_on = read_moves(text)

        def moved(hand: HandLay) -> HandRecord:
            return hand.moved(moves, self._as_told(hand, based_on))

        return self._by_hand_changed(asked, moved)

    def undo(self, asked: LayAsked) -> Document:
        """Take back the last move; nothing happens where there is none."""
        return self._by_hand_changed(asked, lambda hand: hand.record.undone())

    def redo(self, asked: LayAsked) -> Document:
        """Make the move again that was last taken back; nothing happens where there is none."""
        return self._by_hand_changed(asked, lambda hand: hand.record.redone())

    def begin_anew(self, asked: LayAsked) -> Document:
        """Every piece where the planner lays it; taken back like a move, unless a search has found a shorter lay."""
        return self._by_hand_changed(asked, lambda hand: hand.record.put_back())

    def forget_earlier(self, asked: LayAsked) -> Document:
        """Forget what is kept of this cloth for an earlier state."""
        own = self.of(asked).one(asked.number)
        self._kept.forget_others(asked.design, asked.wearer, own.laid_for)
        return self.of(asked).laid(asked.number)

    def _by_hand_changed(self, asked: LayAsked, change: Callable[[HandLay], HandRecord]) -> Document:
        own = self.of(asked).one(asked.number)

        def changed(record: LayRecord) -> LayRecord:
            before = HandLay(own.found, own.pieces, record.hand)
            hand = change(before)
            if hand == before.record:
                return record
            length = HandLay(own.found, own.pieces, hand).lay.length
            return record.model_copy(update={"hand": hand, "length_mm": length})

        self._change(asked, own, changed)
        return self.by_hand(asked)

    def _as_told(self, hand: HandLay, revision: str) -> HandRecord:
        """What a page was told before pieces were moved there.

        Raises:
            ChangedElsewhereError: if that was something else, and not only a search has found a shorter lay since.
        """
        if hand.revision == revision:
            return hand.record
        with self._lock:
            told = self._told.get(revision)
        if told is None or told.moves or hand.is_moved:
            raise ChangedElsewhereError("pieces were moved on another page meanwhile: move yours again", "moves")
        return told

    def _change(self, asked: LayAsked, own: ClothLay, change: Callable[[LayRecord], LayRecord]) -> None:
        self._kept.change(asked.design, asked.wearer, own.laid_for, own.found.length, change)


def _search_key(asked: LayAsked, of: LaidFor) -> tuple[str, str, LaidFor]:
    return asked.design, asked.wearer, of
