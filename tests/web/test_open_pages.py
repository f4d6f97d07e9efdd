"""Pages that show the same are told, others are not, and one that does not listen holds nobody up."""

import anyio
import pytest

from panelwright.store.version import Kind
from panelwright.web import open_pages
from panelwright.web.open_pages import OpenPages


class Listener:
    """A page that shows one design and counts what it is told."""

    def __init__(self, ref: str, deaf: bool = False) -> None:
        self.ref, self.deaf, self.kinds = ref, deaf, list[Kind]()

    @property
    def told(self) -> int:
        return len(self.kinds)

    def shows(self, kind: Kind, ref: str) -> bool:
        return (kind, ref) == ("design", self.ref)

    async def say_changed(self, kind: Kind) -> None:
        if self.deaf:
            await anyio.sleep_forever()
        self.kinds.append(kind)


def test_only_the_others_that_show_it_are_told() -> None:
    pages = OpenPages()
    saving, same, other, gone = (Listener(ref) for ref in ("lantern-01", "lantern-01", "drum-03", "lantern-01"))
    for page in (saving, same, other, gone):
        pages.add(page)
    pages.remove(gone)
    anyio.run(pages.changed, "design", "lantern-01", saving)
    anyio.run(pages.changed, "wearer", "lantern-01", None)
    assert [page.told for page in (saving, same, other, gone)] == [0, 1, 0, 0]
    assert same.kinds == ["design"]


def test_a_page_that_does_not_listen_holds_nobody_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(open_pages, "PATIENCE_S", 0.01)
    pages = OpenPages()
    listening = [Listener("lantern-01") for _ in range(3)]
    for page in (Listener("lantern-01", deaf=True), *listening):
        pages.add(page)
    anyio.run(pages.changed, "design", "lantern-01", None)
    assert [page.told for page in listening] == [1, 1, 1]
