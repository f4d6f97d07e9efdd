"""A surface that remembers what is drawn on it, for tests and for measuring a sheet."""

from dataclasses import dataclass, field

from panelwright.drawing.drawing import Bounds, Fill, Lettering, Sign, Stroke
from panelwright.drawing.path import Path
from panelwright.drawing.pen import Pen


@dataclass
class RecordedPage:
    """One page: its size in mm and what was drawn, each sign with the window that it shows in (or None)."""

    width: float
    height: float
    signs: list[tuple[Sign, Bounds | None]] = field(default_factory=list)

    @property
    def letterings(self) -> list[Lettering]:
        """Every line of text."""
        return [sign for sign, _ in self.signs if isinstance(sign, Lettering)]

    def strokes(self, layer: str) -> list[Stroke]:
        """The strokes on a layer, in the order of drawing."""
        return [sign for sign, _ in self.signs if isinstance(sign, Stroke) and sign.layer == layer]


class Recorder:
    """The surface; `pages` holds what it was given.

    Raises:
        RuntimeError: if pages, windows and layers are not opened and closed in turn.
    """

    def __init__(self) -> None:
        self.pages: list[RecordedPage] = []
        self._open: list[str] = []
        self._window: Bounds | None = None

    def begin_page(self, width: float, height: float) -> None:
        """Open a page."""
        self._enter("page", [])
        self.pages.append(RecordedPage(width, height))

    def end_page(self) -> None:
        """Close it."""
        self._leave("page")

    def begin_window(self, window: Bounds) -> None:
        """Open a window."""
        self._enter("window", ["page"])
        self._window = window

    def end_window(self) -> None:
        """Close it."""
        self._leave("window")
        self._window = None

    def begin_layer(self, name: str) -> None:
        """Open a layer."""
        self._enter(name, ["page"] if self._window is None else ["page", "window"])

    def end_layer(self) -> None:
        """Close it."""
        self._leave(self._layer)

    def stroke(self, path: Path, pen: Pen) -> None:
        """Remember a stroke."""
        self._record(Stroke(path, pen, self._layer))

    def fill(self, path: Path, shade: float) -> None:
        """Remember a fill."""
        self._record(Fill(path, shade, self._layer))

    def text(self, lettering: Lettering) -> None:
        """Remember a line of text; it must be on the layer that it names."""
        if lettering.layer != self._layer:
            raise RuntimeError(f"lettering of layer {lettering.layer} drawn on layer {self._layer}")
        self._record(lettering)

    @property
    def _layer(self) -> str:
        if not self._open or self._open[-1] in ("page", "window"):
            raise RuntimeError("nothing is drawn outside a layer")
        return self._open[-1]

    def _record(self, sign: Sign) -> None:
        self.pages[-1].signs.append((sign, self._window))

    def _enter(self, name: str, inside: list[str]) -> None:
        if self._open != inside:
            raise RuntimeError(f"{name} opened inside {self._open}")
        self._open.append(name)

    def _leave(self, name: str) -> None:
        if not self._open or self._open.pop() != name:
            raise RuntimeError(f"{name} closed before it was opened")
