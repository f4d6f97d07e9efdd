"""The messages of one page that wait for their turn; what a newer drag has made idle is passed over."""

from collections import deque
from typing import Final

import anyio

Order = dict[str, object]
MOST_WAITING: Final = 64


class Orders:
    """A queue. A drag right behind a drag, or behind the rest that the hand did not keep, takes its place, so that a
    quick hand is followed and not run after."""

    def __init__(self) -> None:
        """Empty."""
        self._waiting: deque[Order] = deque()
        self._came = anyio.Event()
        self._ended = False

    def put(self, order: Order) -> bool:
        """Add an order; False if too many wait already."""
        if self._waiting and order.get("do") == "drag" and self._waiting[-1].get("do") in ("drag", "rest"):
            self._waiting.pop()
        if len(self._waiting) >= MOST_WAITING:
            return False
        self._waiting.append(order)
        self._came.set()
        return True

    def end(self) -> None:
        """No more come: whoever waits is told when the rest is taken."""
        self._ended = True
        self._came.set()

    async def next(self) -> Order | None:
        """The oldest order, when there is one; None at the end."""
        while not self._waiting:
            if self._ended:
                return None
            self._came = anyio.Event()
            await self._came.wait()
        return self._waiting.popleft()
