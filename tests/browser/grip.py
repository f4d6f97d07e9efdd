"""A handle on the paper, and whether the line it belongs to is where the handle is."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from playwright.sync_api import Locator, Page, expect

# The handle in mm of its piece, y up, and how far the piece's nearest line is from it, mm.
WHERE = """([handle, piece]) => {
  const lines = [...piece.querySelectorAll('path[d]:not([d=""])')];
  const screen = lines[0].getScreenCTM(), middle = handle.getScreenCTM();
  const at = new DOMPoint(middle.e, middle.f).matrixTransform(screen.inverse());
  const apart = point => Math.hypot(point.x - at.x, point.y - at.y);
  const gaps = lines.flatMap(line => {
    const length = line.getTotalLength();
    return Array.from({ length: 101 }, (_, part) => apart(line.getPointAtLength((part * length) / 100)));
  });
  return { y: at.y, gap: Math.min(...gaps), scale: Math.abs(screen.d), left: middle.e, top: middle.f };
}"""
REACHED = f"""([handle, piece, y, within]) => {{
  const where = ({WHERE})([handle, piece]);
  return handle.isConnected && Math.abs(where.y - y) <= within && where.gap <= within;
}}"""
NEAR_MM = 0.3  # a pixel is about a mm, and the browser knows parts of it


@dataclass(frozen=True)
class Grip:
    """A handle by its label, its step and the label of its piece."""

    page: Page
    label: str
    step: str
    piece_label: str

    @property
    def handle(self) -> Locator:
        """What the hand takes hold of."""
        name = ", ".join(re.escape(part) for part in (self.label, self.piece_label, self.step))
        return self.page.get_by_label(re.compile(f"^{name}$"))

    @property
    def piece(self) -> Locator:
        """The piece that it is on."""
        return self.page.get_by_label(f"Piece {self.piece_label}", exact=True)

    def height(self) -> float:
        """Where it is, mm above the waist of its piece."""
        return float(self._where()["y"])

    def wait_for(self, height: float) -> None:
        """Until it is at that height, and its line with it."""
        expect(self.handle).to_be_visible()
        elements = [self.handle.element_handle(), self.piece.element_handle(), height, NEAR_MM]
        self.page.wait_for_function(REACHED, arg=elements)

    @contextmanager
    def held(self) -> Iterator["Hold"]:
        """Hold it; it is let go at the end."""
        where = self._where()
        start = where["left"], where["top"]
        self.page.mouse.move(*start)
        self.page.mouse.down()
        yield Hold(self.page, start, where["scale"])
        self.page.mouse.up()

    def _where(self) -> dict[str, float]:
        expect(self.handle).to_be_visible()
        found: dict[str, float] = self.page.evaluate(WHERE, [self.handle.element_handle(), self.piece.element_handle()])
        return found


@dataclass(frozen=True)
class Hold:
    """A handle in the hand, from where it was taken, in pixels; `scale` is pixels per mm."""

    page: Page
    start: tuple[float, float]
    scale: float

    def to(self, right_mm: float, up_mm: float) -> None:
        """Drag it to so many mm of paper from where it was taken."""
        x, y = self.start
        self.page.mouse.move(x + right_mm * self.scale, y - up_mm * self.scale, steps=5)

    def nudge(self, up_mm: float, right_mm: float = 0.0) -> None:
        """Drag it there in one move of the mouse."""
        x, y = self.start
        self.page.mouse.move(x + right_mm * self.scale, y - up_mm * self.scale)
