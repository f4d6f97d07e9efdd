"""An SVG file as strokes and texts: groups, transforms and repeated parts unfolded."""

import math
import re
from collections import Counter
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from panelwright.errors import InputError
from panelwright.geometry.arrays import Array
from panelwright.intake.drawing_affine import Affine
from panelwright.intake.drawing_limits import Allotment, usable
from panelwright.intake.drawing_role import role_in_words
from panelwright.intake.drawing_stroke import GroupName, LinesRead, Stroke, Written, arc_cubics, without_length
from panelwright.intake.svg_number import MILLIMETRES, PIXEL, length, numbers, transform, user_length
from panelwright.intake.svg_path import elliptic_arc, path_lines
from panelwright.intake.svg_tree import Element, read_tree
from panelwright.quotation import quoted

DEEPEST_USE: Final = 12
MOST_USES: Final = 10_000
_GROUPS: Final = ("g", "a", "switch")
_SHAPES: Final = ("path", "line", "polyline", "polygon", "rect", "circle", "ellipse")
_UNDRAWN: Final = (
    "defs",
    "style",
    "title",
    "desc",
    "metadata",
    "clipPath",
    "mask",
    "pattern",
    "marker",
    "symbol",
    "script",
)
_HIDDEN: Final = re.compile(r"(?:^|;)\s*(?:display\s*:\s*none|visibility\s*:\s*(?:hidden|collapse))")


@dataclass(frozen=True)
class _Place:
    """Where an element lies: how it is placed, in which group, and what the groups round it are called."""

    placed: Affine
    group: str = ""
    names: tuple[str, ...] = ()
    used: tuple[str, ...] = ()


def read_svg(content: bytes) -> LinesRead:
    """What an SVG file draws, y up.

    Raises:
        InputError: if it is malformed, holds too much, or a part uses itself.
    """
    root = read_tree(content)
    unit, why, box = _unit(root)
    unfolded = _Unfolded(root, box)
    unfolded.take(root.children, _Place(Affine.scaling(1.0, -1.0)))
    return LinesRead(
        "SVG",
        tuple(unfolded.strokes),
        tuple(unfolded.texts),
        groups=unfolded.groups,
        unit=unit,
        unit_why=why,
        left_out=unfolded.left_out,
    )


def _unit(root: Element) -> tuple[float | None, str, Array | None]:
    """(mm to one user unit, why, corners of the page (2, 2) in user units); None where the file does not say."""
    box = numbers(root.own.get("viewBox", ""), 4)
    page = None
    if len(box) == 4 and box[2] > 0 and box[3] > 0:
        page = np.array([[box[0], box[1]], [box[0] + box[2], box[1] + box[3]]])
    sizes = [length(root.own.get(side, "")) for side in ("width", "height")]
    known = [each for each in sizes if each and each[1] in MILLIMETRES and each[0] > 0]
    if known and page is not None:
        drawn = [
            each[0] * MILLIMETRES[each[1]] / user
            for each, user in zip(sizes, (page[1] - page[0]).tolist(), strict=True)
            if each and each[1] in MILLIMETRES and each[0] > 0
        ]
        return min(drawn), f"the file says that its page measures {known[0][0]:g} {known[0][1]}", page
    if known:
        return PIXEL, f"the page has a size in {known[0][1]}, where SVG counts 96 units to an inch", page
    return None, "the file does not say its size", page


class _Unfolded:
    """What is drawn, element after element."""

    def __init__(self, root: Element, page: Array | None) -> None:
        self._named: dict[str, Element] = {}
        self._find_names(root)
        self._page = page
        self._uses = 0
        self._allotment = Allotment()
        self.strokes: list[Stroke] = []
        self.texts: list[Written] = []
        self.groups: dict[str, GroupName] = {}
        self.left_out: Counter[str] = Counter()

    def _find_names(self, root: Element) -> None:
        waiting = [root]
        while waiting:
            element = waiting.pop()
            if "id" in element.own:
                self._named.setdefault(element.own["id"], element)
            waiting += element.children

    def take(self, elements: list[Element], place: _Place) -> None:
        """Take in elements that lie in a place."""
        for element in elements:
            self._allotment.visit()
            if element.kind in _UNDRAWN or _is_hidden(element):
                continue
            own = replace(place, placed=place.placed.after(transform(element.own.get("transform", ""))))
            if element.kind in _GROUPS:
                self._group(element, own)
            elif element.kind == "svg":
                self.take(element.children, replace(own, placed=own.placed.after(_nested(element))))
            elif element.kind == "use":
                self._use(element, own)
            elif element.kind == "text":
                self._text(element, own)
            elif element.kind in _SHAPES:
                self._shape(element, own)
            else:
                self.left_out[element.kind[:40]] += 1

    def _group(self, element: Element, place: _Place) -> None:
        kinds = element.own.get("class", "")
        titled = any(child.kind == "title" for child in element.children)
        is_piece = "piece" in kinds.split() or (titled and role_in_words(kinds) is None)
        group = place.group
        if any(child.kind in (*_SHAPES, "use") for child in element.children):
            group = f"{place.group}/{len(self.groups) + 1}" if place.group else str(len(self.groups) + 1)
            title = next((child.text for child in element.children if child.kind == "title"), "")
            short = element.own.get("label", element.own.get("id", ""))
            self.groups[group] = GroupName(_plain(short), _plain(title))
        names = () if is_piece else _names(element)
        self.take(element.children, replace(place, group=group, names=names + place.names))

    def _use(self, element: Element, place: _Place) -> None:
        name = element.own.get("href", "").removeprefix("#")
        meant = self._named.get(name)
        if meant is None:
            self.left_out["use of a part that is not there"] += 1
            return
        if name in place.used or len(place.used) >= DEEPEST_USE:
            fault = "uses itself" if name in place.used else f"lies more than {DEEPEST_USE} deep in other parts"
            raise InputError(f"the part {quoted(name)} {fault}: save the drawing again, its copies made independent")
        self._uses += 1
        if self._uses > MOST_USES:
            raise InputError(f"the drawing repeats parts more than {MOST_USES:,} times: save the pieces alone")
        shift = Affine.shifting(*(user_length(element.own.get(side, "0")) for side in ("x", "y")))
        inside = replace(place, placed=place.placed.after(shift), used=(*place.used, name))
        self.take(meant.children if meant.kind == "symbol" else [meant], inside)

    def _shape(self, element: Element, place: _Place) -> None:
        for runs in _lines(element):
            self._allotment.stroke(sum(len(run) for run in runs))
            for run in runs:
                usable(run)
            if without_length(runs) or self._is_page(runs, place):
                continue
            own = _plain(element.own.get("data-name", element.own.get("label", "")))
            stroke = Stroke(runs, _names(element) + place.names, place.group, own)
            self.strokes.append(stroke.mapped(place.placed))

    def _is_page(self, runs: tuple[Array, ...], place: _Place) -> bool:
        """Whether a line runs round the page itself."""
        if self._page is None or place.group or len(runs) != 1 or runs[0].shape != (5, 2):
            return False
        off = np.abs([runs[0].min(axis=0) - self._page[0], runs[0].max(axis=0) - self._page[1]])
        return bool(off.max() < 0.01 * np.ptp(self._page, axis=0).max()) and place.placed == Affine.scaling(1.0, -1.0)

    def _text(self, element: Element, place: _Place) -> None:
        self._allotment.text()
        words = " ".join(_spoken(element)).split()
        first = next((each for each in (element, *element.children) if "x" in each.own), element)
        at = [user_length(first.own.get(side, "0").split(",")[0].split(" ")[0]) for side in ("x", "y")]
        x, y = usable(place.placed.points(np.array(at))).tolist()
        if words:
            self.texts.append(Written(_plain(" ".join(words)), (x, y), _names(element) + place.names, place.group))


def _plain(text: str) -> str:
    return " ".join("".join(letter if letter.isprintable() else " " for letter in text[:300]).split())[:120]


def _spoken(element: Element) -> list[str]:
    return [element.text, *(word for child in element.children if child.kind == "tspan" for word in _spoken(child))]


def _is_hidden(element: Element) -> bool:
    own = element.own
    if own.get("display") == "none" or own.get("visibility") in ("hidden", "collapse"):
        return True
    return "style" in own and _HIDDEN.search(own["style"][:2000]) is not None


def _names(element: Element) -> tuple[str, ...]:
    """Classes, label and id, those that are there."""
    found = (element.own.get("class", ""), element.own.get("label", ""), element.own.get("id", ""))
    return tuple(_plain(name) for name in found if name.strip())


def _nested(element: Element) -> Affine:
    """How an `svg` in an `svg` is placed."""
    shift = Affine.shifting(*(user_length(element.own.get(side, "0")) for side in ("x", "y")))
    box = numbers(element.own.get("viewBox", ""), 4)
    if len(box) < 4 or box[2] <= 0 or box[3] <= 0:
        return shift
    sizes = [user_length(element.own.get(side, ""), user) for side, user in (("width", box[2]), ("height", box[3]))]
    factor = max(1e-9, min(sizes[0] / box[2], sizes[1] / box[3]))
    return shift.after(Affine.scaling(factor, factor)).after(Affine.shifting(-box[0], -box[1]))


def _lines(element: Element) -> list[tuple[Array, ...]]:
    """The lines of a shape in its own coordinates."""
    own = element.own

    def at(*names: str) -> list[float]:
        return [user_length(own.get(name, "0")) for name in names]

    match element.kind:
        case "path":
            return path_lines(own.get("d", ""))
        case "line":
            return [(np.array(at("x1", "y1", "x2", "y2")).reshape(2, 2),)]
        case "rect":
            return _rectangle(at("x", "y", "width", "height"), at("rx", "ry"), own)
        case "circle" | "ellipse":
            rx, ry = at("r", "r") if element.kind == "circle" else at("rx", "ry")
            if not (rx > 0 and ry > 0):
                return []
            cubics = arc_cubics(np.array(at("cx", "cy")), np.array([rx, 0.0]), np.array([0.0, ry]), 0.0, 2 * math.pi)
            cubics[-1, 3] = cubics[0, 0]
            return [(cubics,)]
    given = numbers(own.get("points", ""), 400_000)
    points = np.array(given[: len(given) // 2 * 2]).reshape(-1, 2)
    if len(points) < 2:
        return []
    return [(np.concatenate([points, points[:1]]) if element.kind == "polygon" else points,)]


def _rectangle(box: list[float], radii: list[float], own: dict[str, str]) -> list[tuple[Array, ...]]:
    (x, y, width, height), (rx, ry) = box, radii
    if not (width > 0 and height > 0):
        return []
    rx, ry = (ry if "rx" not in own else rx), (rx if "ry" not in own else ry)
    rx, ry = min(max(rx, 0.0), width / 2), min(max(ry, 0.0), height / 2)
    right, low = x + width, y + height
    if rx * ry == 0.0:
        return [(np.array([(x, y), (right, y), (right, low), (x, low), (x, y)]),)]
    stops = [
        ((x + rx, y), (right - rx, y)),
        ((right, y + ry), (right, low - ry)),
        ((right - rx, low), (x + rx, low)),
        ((x, low - ry), (x, y + ry)),
    ]
    runs = []
    for (start, end), (after, _) in zip(stops, stops[1:] + stops[:1], strict=True):
        runs += [np.array([start, end]), elliptic_arc(end, after, (rx, ry), 0.0, False, True)]
    return [tuple(run for run in runs if not without_length((run,)))]
