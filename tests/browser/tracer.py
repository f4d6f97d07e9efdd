"""A hand that traces a paper block on the board."""

import re
from dataclasses import dataclass

import numpy as np
from browser.hand import Hand
from browser.paper_block import PaperBlock
from playwright.sync_api import Locator, expect

from panelwright.geometry.arrays import Array

SCALE = "+document.querySelector('.canvas svg > g').getAttribute('transform').match(/scale.(.*)[)]/)[1]"
CLOSE = 1.6  # pixels of the screen to one of the picture, from which a press is fine enough


@dataclass(frozen=True)
class Tracer:
    """Presses on places of the picture, given in its pixels."""

    hand: Hand
    block: PaperBlock

    @property
    def canvas(self) -> Locator:
        return self.hand.page.get_by_role("group", name="The picture and what is traced on it")

    def choose(self, name: str = "block.png", content: bytes | None = None) -> None:
        """Lay the picture under the page."""
        expect(self.canvas).to_be_visible()
        file = {"name": name, "mimeType": "image/png", "buffer": content or self.block.png()}
        self.hand.page.locator("#trace-picture").set_input_files(file)  # type: ignore[arg-type]
        expect(self.hand.page.get_by_role("img", name="Picture to work from")).to_be_visible()

    def camera(self) -> tuple[float, float, float]:
        """(x, y, scale) of the picture on the screen of the drawing."""
        transform = self.canvas.locator("> g").get_attribute("transform") or ""
        x, y, scale = (float(number) for number in re.findall(r"-?[\d.]+(?:e-?\d+)?", transform))
        return x, y, scale

    def on_screen(self, place: Array) -> tuple[float, float]:
        x, y, scale = self.camera()
        box = self.canvas.bounding_box()
        assert box is not None
        return box["x"] + x + place[0] * scale, box["y"] + y + place[1] * scale

    def look_at(self, place: Array) -> tuple[float, float]:
        """Bring a place well onto the screen, near enough to press finely; gives where it is then."""
        mouse = self.hand.page.mouse
        while self.camera()[2] < CLOSE:
            mouse.move(*self.on_screen(place))
            before = self.camera()[2]
            mouse.wheel(0, -250)
            self.hand.page.wait_for_function(f"before => ({SCALE}) > before", arg=before)
        box = self.canvas.bounding_box()
        assert box is not None
        middle = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        x, y = self.on_screen(place)
        if abs(x - middle[0]) > box["width"] * 0.45 or abs(y - middle[1]) > box["height"] * 0.4:
            mouse.move(*middle)
            mouse.down(button="right")
            mouse.move(middle[0] * 2 - x, middle[1] * 2 - y)
            mouse.up(button="right")
        return self.on_screen(place)

    def press(self, place: Array, times: int = 1) -> None:
        x, y = self.look_at(place)
        self.hand.page.mouse.move(x, y)
        for _ in range(times):
            self.hand.page.mouse.down()
            self.hand.page.mouse.up()

    def set_scale(self) -> None:
        """The ruler's 100 mm."""
        self.hand.press("Press it in the picture")
        for end in self.block.ruler:
            self.press(end)
        expect(self.hand.button("Trace edges")).to_have_attribute("aria-pressed", "true")

    def trace(self, piece: str, unsure: float = 0.0, seed: int = 1) -> None:
        """Round a piece from corner to corner; between corners the hand is off by up to `unsure` mm."""
        off = np.random.default_rng(seed)
        edges = len(self.block.drawn.piece(piece).edges)
        for number in range(edges):
            points = self.block.edge(piece, number)
            if number == 0:
                self.press(points[0])
            for point in points[1:-1]:
                self.press(point + off.uniform(-unsure, unsure, 2) * 150 / 25.4)
            self.press(points[-1], times=1 if number == edges - 1 else 2)

    def across(self, level: str, piece: str) -> None:
        """Draw a level line across a piece, where it was drawn."""
        self.hand.page.get_by_role("combobox", name="Level", exact=True).select_option(level)
        curve = next(line for line in self.block.drawn.piece(piece).inside if line.id == level).curve
        points = self.block.line(piece, curve, 5)
        for point in points[:-1]:
            self.press(point)
        self.press(points[-1], times=2)
