"""Steps as JSON and back. Lengths are in cm here, and the fields say so; a text may name its own unit."""

import math
import re
from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from difflib import get_close_matches
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationError, model_validator

from panelwright.body.length_field import centimetres
from panelwright.design.edge_shape import HemShape, TopShape
from panelwright.design.finished_edge import FreePoint
from panelwright.design.hem import Hem
from panelwright.design.position import BodyPoint, Height
from panelwright.design.step import Step
from panelwright.design.top_edge import TopEdge
from panelwright.errors import DesignError
from panelwright.pattern.level import LEVELS

MOST_STEPS = 200
MOST_POINTS = 40
MOST_TEXT = 60

Text = Annotated[str, Field(min_length=1, max_length=MOST_TEXT)]
Share = Annotated[float, Field(ge=-1, le=1, allow_inf_nan=False)]
Fraction = Annotated[float, Field(ge=0, le=1, allow_inf_nan=False)]
Offset = Annotated[float, Field(ge=-100, le=100, allow_inf_nan=False), BeforeValidator(centimetres)]


class _Record(BaseModel):
    model_config = ConfigDict(hide_input_in_errors=True, extra="forbid", strict=True, frozen=True)


class _Height(_Record):
    level: Text
    offset_cm: Offset = 0.0
    share_to_next_level: Share = 0.0

    @model_validator(mode="after")
    def _one_of_two(self) -> "_Height":
        if self.offset_cm and self.share_to_next_level:
            raise ValueError("give offset_cm or share_to_next_level, not both")
        return self

    def height(self) -> Height:
        return Height(self.level, _mm(self.offset_cm), self.share_to_next_level)


class _Point(_Height):
    line: Text
    towards: Text | None = None
    fraction: Fraction = 0.0
    corner: bool = False

    @model_validator(mode="after")
    def _two_lines(self) -> "_Point":
        if self.fraction and self.towards is None:
            raise ValueError("a fraction needs `towards`, the line that it leads to")
        return self

    def point(self) -> FreePoint:
        return FreePoint(BodyPoint(self.height(), self.line, self.towards, self.fraction), self.corner)


class _Edge(_Record):
    uid: Text
    centre: _Height
    side: _Height
    back: _Height | None = None
    points: list[_Point] = Field(default=[], max_length=MOST_POINTS)
    point_at_centre: bool | None = None


class _TopEdge(_Edge):
    kind: Literal["top-edge"]
    shape: TopShape

    def step(self) -> TopEdge:
        return TopEdge(self.uid, self.shape, *_anchors(self))


class _Hem(_Edge):
    kind: Literal["hem"]
    shape: HemShape

    def step(self) -> Hem:
        return Hem(self.uid, self.shape, *_anchors(self))


_KINDS: Mapping[str, type[_TopEdge] | type[_Hem]] = {"top-edge": _TopEdge, "hem": _Hem}


def steps_from_json(entries: object, levels: Sequence[str] = LEVELS) -> tuple[Step, ...]:
    """The steps of a design file's `steps` list.

    Args:
        entries: what a JSON reader made of the list.
        levels: ids of the levels that the block has.

    Raises:
        DesignError: one sentence with the step, the field, what is wrong and what it may be.
    """
    if not isinstance(entries, list):
        raise DesignError("the steps of a design are a list: write [ ] for none", "steps")
    if len(entries) > MOST_STEPS:
        raise DesignError(f"a design has {len(entries)} steps; the most is {MOST_STEPS}", "steps")
    steps = tuple(_step(entry, f"step {number}", levels) for number, entry in enumerate(entries, 1))
    uids = [step.uid for step in steps]
    for number, uid in enumerate(uids, 1):
        if uid in uids[: number - 1]:
            raise DesignError(
                f"step {number} is called {uid!r} like step {uids.index(uid) + 1}; give it another uid",
                f"step {number}",
            )
    return steps


def steps_to_json(steps: Sequence[Step]) -> list[dict[str, Any]]:
    """The list for a design file; fields at their defaults are left out. Reading it gives equal steps.

    Raises:
        DesignError: if a step is of a kind that the file has no form for.
    """
    return [_entry(step) for step in steps]


def _step(entry: object, where: str, levels: Sequence[str]) -> Step:
    if not isinstance(entry, dict):
        raise DesignError(f"{where} is {_shown(entry)}; a step is an object with a kind and a uid", where)
    kind = entry.get("kind")
    if not isinstance(kind, str) or kind not in _KINDS:
        raise DesignError(f"{where} is of kind {_shown(kind)}, which is no step{_choice(kind, _KINDS)}", where)
    try:
        form = _KINDS[kind].model_validate(entry)
    except ValidationError as error:
        raise DesignError(_sentence(error, where, kind), where) from error
    for field, height in _heights(form):
        if height.level not in levels:
            raise DesignError(
                f"{where} ({kind}): {field} names the level {_shown(height.level)}, which the block has not"
                f"{_choice(height.level, levels)}",
                where,
            )
    try:
        return form.step()
    except DesignError as error:
        raise DesignError(f"{where}: {error}", where) from error


def _anchors(form: _Edge) -> tuple[Height, Height, Height | None, tuple[FreePoint, ...], bool | None]:
    back = form.back.height() if form.back else None
    points = tuple(point.point() for point in form.points)
    return form.centre.height(), form.side.height(), back, points, form.point_at_centre


def _heights(form: _Edge) -> list[tuple[str, _Height]]:
    named: list[tuple[str, _Height]] = [("centre", form.centre), ("side", form.side)]
    named += [("back", form.back)] if form.back else []
    return named + [(f"point {k}", point) for k, point in enumerate(form.points, 1)]


def _sentence(error: ValidationError, where: str, kind: str) -> str:
    """The first thing that is wrong, in one sentence."""
    found = error.errors(include_url=False)[0]
    field = ".".join(str(part + 1) if isinstance(part, int) else part for part in found["loc"])
    start = f"{where} ({kind}): {field or 'it'}"
    context = found.get("ctx", {})
    said: dict[str, Callable[[], str]] = {
        "missing": lambda: f"{start} is missing",
        "extra_forbidden": lambda: f"{where} ({kind}) has no field {field!r}{_choice(*_fields(found['loc'], kind))}",
        "literal_error": lambda: f"{start} is {_shown(found['input'])}{_choice(found['input'], _literals(context))}",
        "model_type": lambda: f"{start} is {_shown(found['input'])}; {_example(found['loc'], found['input'])}",
        "greater_than_equal": lambda: f"{start} is {_shown(found['input'])}; the least is {context['ge']:g}",
        "less_than_equal": lambda: f"{start} is {_shown(found['input'])}; the most is {context['le']:g}",
        "finite_number": lambda: f"{start} is not a finite number",
        "too_long": lambda: f"{start} has {context['actual_length']} entries; the most is {context['max_length']}",
        "string_too_long": lambda: f"{start} is longer than {context['max_length']} letters; shorten it",
        "string_too_short": lambda: f"{start} is empty",
        "value_error": lambda: f"{start}: {context['error']}",
    }
    if found["type"] in said:
        return said[found["type"]]()
    wanted = {"float_type": "a number", "string_type": "a text", "bool_type": "true or false", "list_type": "a list"}
    return f"{start} is {_shown(found['input'])}; it should be {wanted.get(found['type'], 'an object')}"


def _fields(place: tuple[int | str, ...], kind: str) -> tuple[str, tuple[str, ...]]:
    """(the last name of a place in a step, the names that may stand there)."""
    *outer, last = place
    record = _KINDS[kind] if not outer else _Point if outer[0] == "points" else _Height
    return str(last), tuple(record.model_fields)


def _literals(context: Mapping[str, Any]) -> list[str]:
    """The words that a fault's context says are expected."""
    return re.findall(r"'([^']*)'", context["expected"])


def _example(place: tuple[int | str, ...], given: object) -> str:
    """How a height or a point is written; a level that was given by itself is put in it."""
    if place and place[0] == "points":
        return 'write it like {"line": "side", "level": "bust"}'
    if isinstance(given, str):
        level = (get_close_matches(given, LEVELS, 1) or ["bust"])[0]
        return f'write {{"level": "{level}"}}'
    return 'write it like {"level": "bust", "offset_cm": -2}'


def _choice(name: object, known: Sequence[str] | Mapping[str, object]) -> str:
    near = get_close_matches(name, list(known), 1) if isinstance(name, str) else []
    return f"; did you mean {near[0]!r}?" if near else f"; use one of {', '.join(known)}"


def _shown(value: object) -> str:
    """A value from the file, short."""
    plain = {list: "a list", dict: "an object", type(None): "nothing", bool: str(value).lower()}
    return plain.get(type(value)) or repr(value)[:MOST_TEXT]


def _entry(step: Step) -> dict[str, Any]:
    if not isinstance(step, TopEdge | Hem):
        raise DesignError(f"a step of kind {step.kind!r} cannot be written to a design file", f"step {step.uid}")
    entry: dict[str, Any] = {"kind": step.kind, "uid": step.uid, "shape": step.shape}
    entry |= {"centre": _height_entry(step.centre), "side": _height_entry(step.side)}
    if step.back is not None:
        entry["back"] = _height_entry(step.back)
    if step.points:
        entry["points"] = [_point_entry(point) for point in step.points]
    if step.point_at_centre is not None:
        entry["point_at_centre"] = step.point_at_centre
    return entry


def _height_entry(height: Height) -> dict[str, Any]:
    entry: dict[str, Any] = {"level": height.level}
    if height.offset:
        entry["offset_cm"] = _cm(height.offset)
    if height.share:
        entry["share_to_next_level"] = height.share
    return entry


def _point_entry(point: FreePoint) -> dict[str, Any]:
    entry: dict[str, Any] = {"line": point.at.line}
    if point.at.towards is not None:
        entry |= {"towards": point.at.towards, "fraction": point.at.fraction}
    entry |= _height_entry(point.at.height)
    return entry | ({"corner": True} if point.corner else {})


def _mm(cm: float) -> float:
    """Exact in decimals, so that what was written as cm comes back as the same mm."""
    return float(Decimal(repr(cm)) * 10) if math.isfinite(cm) else cm


def _cm(mm: float) -> float:
    return float(Decimal(repr(mm)) / 10)
