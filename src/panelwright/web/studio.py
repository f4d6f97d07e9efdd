"""What all requests of one server share: the workroom, the blocks, whoever has a design open, and who may work."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Final, TypeVar

from anyio import CapacityLimiter
from anyio.to_thread import run_sync

from panelwright.app.block_shelf import BlockShelf
from panelwright.app.picture_shelf import PictureShelf
from panelwright.app.workroom_garments import WorkroomGarments
from panelwright.app.workroom_lays import WorkroomLays
from panelwright.store.version import Kind
from panelwright.store.workroom import Workroom
from panelwright.web.open_pages import OpenPages

Result = TypeVar("Result")
_AT_ONCE: Final = 4


@dataclass(eq=False)
class Studio:
    """The shared things of a server.

    Geometry that a hand waits for runs in one thread, but for the line in the hand, which the listening thread tells
    at once; pictures and sheets run in another, so that no print holds up a drag; what only reads and saves has threads
    of its own.
    """

    room: Workroom
    shelf: BlockShelf = field(default_factory=BlockShelf)
    pictures: PictureShelf = field(default_factory=PictureShelf)
    pages: OpenPages = field(default_factory=OpenPages)
    _hand: CapacityLimiter = field(init=False)
    _paper: CapacityLimiter = field(init=False)
    _store: CapacityLimiter = field(init=False)
    _long: CapacityLimiter = field(init=False)

    def __post_init__(self) -> None:
        self.garments = WorkroomGarments(self.room, self.shelf, self.pictures)
        self.lays = WorkroomLays(self.room, self.garments)
        self._hand, self._paper, self._store = CapacityLimiter(1), CapacityLimiter(1), CapacityLimiter(_AT_ONCE)
        self._long = CapacityLimiter(1)

    async def by_hand(self, work: Callable[[], Result]) -> Result:
        """Geometry that a hand waits for."""
        return await run_sync(work, limiter=self._hand)

    async def on_paper(self, work: Callable[[], Result]) -> Result:
        """Pictures, lays and sheets."""
        return await run_sync(work, limiter=self._paper)

    async def at_length(self, work: Callable[[], Result]) -> Result:
        """What takes long enough to be stopped; nobody's drag, picture or sheet waits for it."""
        return await run_sync(work, limiter=self._long)

    async def in_store(self, work: Callable[[], Result]) -> Result:
        """Reading and saving."""
        return await run_sync(work, limiter=self._store)

    async def tell_of(self, kind: Kind, ref: str) -> None:
        """Tell every page that shows the item that it was changed."""
        await self.pages.changed(kind, ref)
