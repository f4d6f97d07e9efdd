"""A maker's hand on the page."""

import json
import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from browser.grip import Grip
from browser.watched_page import Watch
from playwright.sync_api import Locator, Page, expect

PATIENCE_MS = 90_000  # for a machine that is busy with other tests
AWAY = "The workroom does not answer"


@dataclass(frozen=True)
class Hand:
    """Presses, drags, types and looks, by the names that a person sees or hears."""

    page: Page
    watch: Watch

    def __post_init__(self) -> None:
        """Slow machines are waited for."""
        self.page.set_default_timeout(PATIENCE_MS)
        expect.set_options(timeout=PATIENCE_MS)

    def button(self, name: str) -> Locator:
        """The button of that whole name."""
        return self.page.get_by_role("button", name=name, exact=True)

    def press(self, name: str) -> None:
        """Press a button."""
        self.button(name).click()

    def unfold(self) -> None:
        """On a narrow screen: open the menu that holds what the bar has no room for."""
        more = self.button("More")
        if more.is_visible():
            more.click()

    def see(self, text: str | re.Pattern[str]) -> None:
        """Wait until it can be read."""
        expect(self.page.get_by_text(text).first).to_be_visible()

    def see_no_more(self, text: str) -> None:
        """Wait until it can be read nowhere."""
        expect(self.page.get_by_text(text)).to_have_count(0)

    def open_design(self, title: str) -> None:
        """From the start page, and wait until a handle can be taken."""
        self.press(f"Open {title}")
        expect(self.back.handle).to_be_visible()

    @property
    def back(self) -> Grip:
        """The top edge at the centre back, which no level is near, of the demo's lantern bodice."""
        return self.grip("height at centre back", "Top edge: sweetheart", "Centre back")

    def grip(self, label: str, step: str, piece: str) -> Grip:
        """A handle by its label, its step and its piece."""
        return Grip(self.page, label, step, piece)

    def lower_back(self, mm: float) -> float:
        """Drag the centre back down and let go; gives its new height, mm, once that is saved."""
        height = self.back.height() - mm
        with self.saving(), self.back.held() as hold:
            hold.to(0, -mm)
            self.back.wait_for(height)
        return height

    @contextmanager
    def saving(self) -> Iterator[None]:
        """Until the server has told that what is done meanwhile is saved."""
        with self.watch.socket.expect_event("framereceived", _tells_what_is_saved):
            yield

    def keys(self, *names: str) -> None:
        """Press keys one after the other."""
        for name in names:
            self.page.keyboard.press(name)


def _tells_what_is_saved(frame: str | bytes) -> bool:
    said = json.loads(frame)
    return bool(said["say"] == "pattern" and not said["dragging"])
