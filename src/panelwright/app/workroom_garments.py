"""Garments of the workroom for pictures, lays and sheets: made when they are asked for, the last ones kept."""

from panelwright.app.block_shelf import BlockShelf
from panelwright.store.workroom import Workroom


class WorkroomGarments:
    """Designs of the workroom on its wearers."""

    def __init__(self, room: Workroom, shelf: BlockShelf) -> None:
        """Nothing is made yet."""
        self._room, self._shelf = room, shelf
