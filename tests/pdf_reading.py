"""Reads a PDF's pages back with pikepdf, operator by operator: what is really drawn, where, in mm.

This knows nothing of the code that wrote the file; it follows ISO 32000-1 (paths, clipping, optional content).
"""

from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import pikepdf

MM = 25.4 / 72


@dataclass
class ReadPath:
    """A painted path: layer, painting operator, line width and grey, runs of points (cubics as given, in order)."""

    layer: str
    painted: str
    width: float
    grey: float
    dash: tuple[float, ...]
    window: tuple[float, float, float, float] | None
    runs: list[list[tuple[str, np.ndarray]]] = field(default_factory=list)

    @property
    def polylines(self) -> list[np.ndarray]:
        """Each run as points (m, 2) in mm from the lower left corner, cubics in 24 steps."""
        found = []
        for run in self.runs:
            points = [run[0][1][:1]]
            for kind, given in run[1:]:
                points.append(given if kind == "l" else _cubic(points[-1][-1], given))
            found.append(np.concatenate(points))
        return found


@dataclass
class State:
    matrix: np.ndarray
    width: float = 1.0
    grey: float = 0.0
    fill_grey: float = 0.0
    dash: tuple[float, ...] = ()
    window: tuple[float, float, float, float] | None = None


def _cubic(start: np.ndarray, rest: np.ndarray) -> np.ndarray:
    t = np.linspace(0, 1, 25)[1:, None]
    s = 1 - t
    return s**3 * start + 3 * s * s * t * rest[0] + 3 * s * t * t * rest[1] + t**3 * rest[2]


def read_paths(page: pikepdf.Page) -> list[ReadPath]:
    """Every painted path of a page, in order."""
    names = {str(key): str(group.Name) for key, group in page.obj.get("/Resources", {}).get("/Properties", {}).items()}
    stack: list[State] = []
    state = State(np.eye(3))
    layers: list[str] = []
    runs: list[list[tuple[str, np.ndarray]]] = []
    clip = None
    found: list[ReadPath] = []

    def points(numbers: list[float]) -> np.ndarray:
        given = np.array(numbers, float).reshape(-1, 2)
        return (np.column_stack([given, np.ones(len(given))]) @ state.matrix)[:, :2] * MM

    for operands, operator in pikepdf.parse_content_stream(page):
        name = str(operator)
        numbers = [float(value) for value in operands] if name in ("m", "l", "c", "re", "cm", "w", "G", "g") else []
        match name:
            case "q":
                stack.append(State(**vars(state)))
            case "Q":
                state = stack.pop()
            case "cm":
                a, b, c, d, e, f = numbers
                state.matrix = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ state.matrix
            case "w":
                state.width = numbers[0] * MM
            case "G":
                state.grey = numbers[0]
            case "g":
                state.fill_grey = numbers[0]
            case "d":
                state.dash = tuple(float(value) * MM for value in operands[0])
            case "BDC":
                layers.append(names[str(operands[1])])
            case "EMC":
                layers.pop()
            case "m":
                runs.append([("m", points(numbers))])
            case "l" | "c":
                runs[-1].append((name, points(numbers)))
            case "re":
                x, y, w, h = numbers
                corners = points([x, y, x + w, y, x + w, y + h, x, y + h, x, y])
                runs.append([("m", corners[:1]), ("l", corners[1:])])
            case "h":
                runs[-1].append(("l", runs[-1][0][1]))
            case "W":
                corners = np.concatenate([given for _, given in runs[-1]])
                clip = (*corners.min(axis=0), *corners.max(axis=0))
            case "n" | "S" | "f" | "B":
                if name != "n":
                    grey = state.grey if name == "S" else state.fill_grey
                    layer = layers[-1] if layers else ""
                    found.append(ReadPath(layer, name, state.width, grey, state.dash, state.window, runs))
                elif clip is not None:
                    state.window, clip = clip, None
                runs = []
    return found


def text_of(path: Path, number: int) -> str:
    """The text of a page as pypdfium2 reads it."""
    import pypdfium2

    document = pypdfium2.PdfDocument(path)
    page = document[number]
    words = page.get_textpage().get_text_range()
    document.close()
    return str(words)
