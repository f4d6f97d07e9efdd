"""One message of a page, read strictly and carried out on the design that it has open."""

from collections.abc import Callable, Mapping
from typing import Final

from panelwright.app.board_piece import Document
from panelwright.app.open_design import OpenDesign
from panelwright.body.units import Unit
from panelwright.body.worded_length import worded_in
from panelwright.design.drawn_line import Stroke
from panelwright.design.fitted_line import EdgeKind
from panelwright.errors import InputError
from panelwright.geometry.tolerances import TOLERANCES
from panelwright.pattern.mark import Point
from panelwright.web.body import object_of, text_of
from panelwright.web.orders import Order
from panelwright.web.studio import Studio

MOST_STROKES: Final = 64
MOST_POINTS: Final = 5000
_UNITS: Final = {"cm": Unit.CM, "inches": Unit.INCH}


def opened(order: Order, studio: Studio) -> tuple[OpenDesign, Document]:
    """A design opened for a page, and the answer.

    Raises:
        InputError: if the message is not as the contract has it, or there is no such design or wearer.
        BlockError: if the wearer gives no block.
    """
    unit = order.get("units", "cm")
    if not isinstance(unit, str) or unit not in _UNITS:
        raise InputError("units must be cm or inches", "units")
    design, wearer = text_of(order, "design"), text_of(order, "wearer")
    with worded_in(_UNITS[unit]):
        page = OpenDesign(studio.room, studio.shelf, design, wearer, _UNITS[unit])
        return page, page.answer()


def carried_out(page: OpenDesign, order: Order) -> Document:
    """The answer to a message about the open design.

    Raises:
        PanelwrightError: one sentence, where it cannot be done; nothing is changed then.
    """
    do = order.get("do")
    if not isinstance(do, str) or do not in _ORDERS:
        raise InputError(f"do must be open or one of {', '.join(_ORDERS)}", "do")
    with worded_in(page.unit):
        return _ORDERS[do](page, order)


def leading(page: OpenDesign, order: Order) -> Document | None:
    """What is told of a drag ahead of its answer: the line in the hand. None where there is nothing to tell, or the
    answer will say what is wrong with the message."""
    try:
        return page.lead(*_held(order)) if order.get("do") == "drag" else None
    except InputError:
        return None


def _drag(page: OpenDesign, order: Order) -> Document:
    return page.drag(*_held(order))


def _held(order: Order) -> tuple[str, str, Point, str | None, bool]:
    """(step, handle, place, piece, whether it goes without snapping) of a drag."""
    piece = text_of(order, "piece") if order.get("piece") is not None else None
    free = _switch(order, "free")
    to = _point(order.get("to"), "to")
    return text_of(order, "step"), text_of(order, "handle"), to, piece, free


def _change(page: OpenDesign, order: Order) -> Document:
    return page.change(object_of(order, "document"), text_of(order, "what"))


def _draw(page: OpenDesign, order: Order) -> Document:
    kind = text_of(order, "kind")
    if kind not in ("top-edge", "hem"):
        raise InputError("kind must be top-edge or hem", "kind")
    strokes = order.get("strokes")
    if not isinstance(strokes, list) or not 1 <= len(strokes) <= MOST_STROKES:
        raise InputError(f"strokes must be a list of 1 to {MOST_STROKES} stretches of a line", "strokes")
    edge: EdgeKind = "top-edge" if kind == "top-edge" else "hem"
    return page.draw(edge, [_stroke(stroke) for stroke in strokes])


def _stroke(value: object) -> Stroke:
    if not isinstance(value, dict) or not isinstance(value.get("piece"), str):
        raise InputError("each of the strokes must have a piece and points", "strokes")
    points = value.get("points")
    if not isinstance(points, list) or not 1 <= len(points) <= MOST_POINTS:
        raise InputError(f"each of the strokes must have 1 to {MOST_POINTS} points", "strokes")
    return Stroke(value["piece"], tuple(_point(point, "strokes") for point in points))


def _upto(page: OpenDesign, order: Order) -> Document:
    before = _switch(order, "before")
    return page.upto(None if order.get("step") is None else text_of(order, "step"), before)


def _switch(order: Order, name: str) -> bool:
    value = order.get(name, False)
    if not isinstance(value, bool):
        raise InputError(f"{name} must be true or false", name)
    return value


def _point(value: object, where: str) -> Point:
    if isinstance(value, list) and len(value) == 2 and all(_is_place(part) for part in value):
        return float(value[0]), float(value[1])
    raise InputError(f"{where} must be two numbers in mm like [120.5, -40]", where)


def _is_place(value: object) -> bool:
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    return is_number and abs(value) <= TOLERANCES.extent  # type: ignore[arg-type]


_ORDERS: Final[Mapping[str, Callable[[OpenDesign, Order], Document]]] = {
    "drag": _drag,
    "drop": lambda page, _: page.drop(),
    "rest": lambda page, _: page.rest(),
    "leave": lambda page, _: page.leave(),
    "change": _change,
    "remedy": lambda page, order: page.remedy(text_of(order, "code"), text_of(order, "subject")),
    "draw": _draw,
    "undo": lambda page, _: page.undo(),
    "redo": lambda page, _: page.redo(),
    "upto": _upto,
}
