"""Numbers, lengths and transforms as SVG writes them."""

import math
import re
from typing import Final

from panelwright.errors import InputError
from panelwright.intake.drawing_affine import Affine
from panelwright.intake.drawing_limits import LARGEST
from panelwright.quotation import quoted

NUMBER: Final = r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?"
_NUMBER: Final = re.compile(NUMBER)
_LENGTH: Final = re.compile(rf"\s*({NUMBER})\s*([a-zA-Z]*|%)\s*")
_STEP: Final = re.compile(r"\s*,?\s*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)")
# mm to one; `px` and no unit stand for user units and are told apart by whoever asks.
MILLIMETRES: Final = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6, "q": 0.25, "m": 1000.0}
PIXEL: Final = 25.4 / 96
_COUNTS: Final = {"matrix": (6,), "translate": (1, 2), "scale": (1, 2), "rotate": (1, 3), "skewX": (1,), "skewY": (1,)}
MOST_STEPS: Final = 200


def number(text: str) -> float:
    """A finite number of usual size.

    Raises:
        InputError: if the text is none.
    """
    try:
        value = float(text)
    except ValueError:
        value = math.nan
    if not abs(value) <= LARGEST:
        raise InputError(f"{quoted(text)} is not a finite number of usual size: save the drawing again")
    return value


def numbers(text: str, most: int) -> list[float]:
    """All numbers of a list, commas and spaces between them.

    Raises:
        InputError: if something else stands in it, or there are more than `most`.
    """
    found, place = list[float](), 0
    for match in _NUMBER.finditer(text):
        if text[place : match.start()].strip(" \t\r\n\f,"):
            break
        found.append(number(match[0]))
        place = match.end()
        if len(found) > most:
            raise InputError("a list of numbers in it has no end: save the pattern's pieces alone")
    rest = text[place:].strip(" \t\r\n\f,")
    if rest:
        raise InputError(f"{quoted(rest[:20])} stands where a number should be: save the drawing again")
    return found


def length(text: str) -> tuple[float, str] | None:
    """(number, unit in small letters) of a length; None where it is none, like `auto`.

    Raises:
        InputError: if its number is beyond use.
    """
    match = _LENGTH.fullmatch(text[:100])
    return None if match is None else (number(match[1]), match[2].lower())


def user_length(text: str, otherwise: float = 0.0) -> float:
    """A length in user units: 96 to an inch where it bears a unit; `otherwise` where it is a share or none.

    Raises:
        InputError: if its number is beyond use.
    """
    found = length(text)
    if found is None or found[1] in ("%", "em", "ex", "rem"):
        return otherwise
    return found[0] * MILLIMETRES.get(found[1], PIXEL) / PIXEL


def transform(text: str) -> Affine:
    """The map of a `transform`.

    Raises:
        InputError: if it is malformed or beyond use.
    """
    made, place, steps = Affine(), 0, 0
    while text[place:].strip():
        match = _STEP.match(text, place)
        steps += 1
        if match is None or steps > MOST_STEPS:
            raise InputError(f"the transform {quoted(text)} cannot be read: save the drawing again")
        made = made.after(_step(match[1], numbers(match[2], 6), text))
        place = match.end()
    return made


def _step(kind: str, given: list[float], text: str) -> Affine:
    if len(given) not in _COUNTS[kind]:
        raise InputError(f"the transform {quoted(text)} cannot be read: save the drawing again")
    match kind:
        case "matrix":
            return Affine(*given)
        case "translate":
            return Affine.shifting(given[0], given[1] if len(given) > 1 else 0.0)
        case "scale":
            return Affine.scaling(given[0], given[-1])
        case "rotate":
            turned = Affine.turning(math.radians(math.fmod(given[0], 360.0)))
            if len(given) == 1:
                return turned
            return Affine.shifting(given[1], given[2]).after(turned).after(Affine.shifting(-given[1], -given[2]))
        case "skewX":
            return Affine(c=math.tan(math.radians(given[0])))
    return Affine(b=math.tan(math.radians(given[0])))
