"""Who has what open: a page that saves tells the others that show the same."""

from typing import Final, Protocol

from anyio import move_on_after

from panelwright.store.version import Kind

PATIENCE_S: Final = 2.0  # a page that does not listen must not hold up the one that saves


class OpenPage(Protocol):
    """A page with a socket."""

    def shows(self, kind: Kind, ref: str) -> bool:
        """Whether it shows this wearer or design."""

    async def say_changed(self, kind: Kind) -> None:
        """Tell it that something of a kind that it shows was changed elsewhere."""


class OpenPages:
    """The pages that are open now."""

    def __init__(self) -> None:
        """None yet."""
        self._pages: set[OpenPage] = set()

    def add(self, page: OpenPage) -> None:
        """A page was opened."""
        self._pages.add(page)

    def remove(self, page: OpenPage) -> None:
        """A page was closed."""
        self._pages.discard(page)

    async def changed(self, kind: Kind, ref: str, by: OpenPage | None = None) -> None:
        """Tell all that show the item, but not the one that changed it."""
        for page in tuple(self._pages):
            if page is not by and page.shows(kind, ref):
                with move_on_after(PATIENCE_S):
                    await page.say_changed(kind)
