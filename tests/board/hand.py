"""A maker's hand on the page."""

from dataclasses import dataclass

from board.watched_page import Watch
from playwright.sync_api import Page


@dataclass(frozen=True)
class Hand:
    """Presses, drags, types and looks, by the names that a person sees or hears."""

    page: Page
    watch: Watch
