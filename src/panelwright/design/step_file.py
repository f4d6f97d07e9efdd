"""Steps as JSON and back. Lengths are in cm here, and the fields say so; a text may name its own unit."""

import re
from collections.abc import Callable, Collection, Mapping, Sequence
from difflib import get_close_matches
from typing import Any, get_args

from pydantic import BaseModel, ValidationError

from panelwright.design.bodice_top_form import BodiceTopForm
from panelwright.design.bones_form import BonesForm
from panelwright.design.closure_form import ClosureForm
from panelwright.design.edge_forms import HemForm, TopEdgeForm
from panelwright.design.frill_forms import FrillForm, PeplumForm
from panelwright.design.gather_form import GatherForm
from panelwright.design.join_form import JoinForm
from panelwright.design.skirt_form import SkirtForm
from panelwright.design.sleeve_form import SleeveForm
from panelwright.design.split_form import SplitForm
from panelwright.design.spread_form import SpreadForm
from panelwright.design.step import Step
from panelwright.design.step_form import MOST_TEXT, StepForm
from panelwright.design.step_list import StepList
from panelwright.design.strap_form import StrapForm
from panelwright.design.swing_form import SwingForm
from panelwright.design.tie_form import TieForm
from panelwright.design.unfold_form import UnfoldForm
from panelwright.design.waistband_form import WaistbandForm
from panelwright.errors import DesignError
from panelwright.pattern.level import LEVELS

MOST_STEPS = 200

# Every kind of step that a design file may hold; a new kind adds its form here.
FORMS: tuple[type[StepForm], ...] = (
    TopEdgeForm, HemForm, BonesForm, ClosureForm, TieForm, BodiceTopForm, StrapForm,
    SplitForm, UnfoldForm, JoinForm, SwingForm, GatherForm, SpreadForm, FrillForm, PeplumForm,
    WaistbandForm, SleeveForm, SkirtForm,
)  # fmt: skip
_KINDS: Mapping[str, type[StepForm]] = {form.makes.kind: form for form in FORMS}


def steps_from_json(entries: object, levels: Sequence[str] = LEVELS) -> tuple[Step, ...]:
    """The steps of a design file's `steps` list, those that are switched off too; as `step_list_from_json`."""
    return step_list_from_json(entries, levels).steps


def step_list_from_json(entries: object, levels: Sequence[str] = LEVELS) -> StepList:
    """A design file's `steps` list: the steps, and what is remarked on them.

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
    read = [_step(entry, f"step {number}", levels) for number, entry in enumerate(entries, 1)]
    steps = tuple(step for step, _ in read)
    uids = [step.uid for step in steps]
    for number, uid in enumerate(uids, 1):
        if uid in uids[: number - 1]:
            raise DesignError(
                f"step {number} is called {uid!r} like step {uids.index(uid) + 1}; give it another uid",
                f"step {number}",
            )
    off = frozenset(step.uid for step, form in read if form.off)
    return StepList(steps, off, {step.uid: form.note for step, form in read if form.note is not None})


def steps_to_json(
    steps: Sequence[Step], off: Collection[str] = (), notes: Mapping[str, str] | None = None
) -> list[dict[str, Any]]:
    """The list for a design file; fields at their defaults are left out. Reading it gives equal steps.

    Args:
        off: uids of steps that are switched off.
        notes: uid -> note on the step.

    Raises:
        DesignError: if a step is of a kind that the file has no form for.
    """
    remarks = notes or {}
    return [
        _entry(step)
        | ({"off": True} if step.uid in off else {})
        | ({"note": remarks[step.uid]} if step.uid in remarks else {})
        for step in steps
    ]


def _step(entry: object, where: str, levels: Sequence[str]) -> tuple[Step, StepForm]:
    if not isinstance(entry, dict):
        raise DesignError(f"{where} is {_shown(entry)}; a step is an object with a kind and a uid", where)
    kind = entry.get("kind")
    if not isinstance(kind, str) or kind not in _KINDS:
        raise DesignError(f"{where} is of kind {_shown(kind)}, which is no step{_choice(kind, _KINDS)}", where)
    try:
        form = _KINDS[kind].model_validate(entry)
    except ValidationError as error:
        raise DesignError(_sentence(error, where, kind), where) from error
    for field, height in form.heights():
        if height.level not in levels:
            raise DesignError(
                f"{where} ({kind}): {field} names the level {_shown(height.level)}, which the block has not"
                f"{_choice(height.level, levels)}",
                where,
            )
    try:
        return form.step(), form
    except DesignError as error:
        raise DesignError(f"{where}: {error}", where) from error


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
    wanted = {
        "float_type": "a number",
        "int_type": "a whole number",
        "string_type": "a text",
        "bool_type": "true or false",
        "list_type": "a list",
    }
    return f"{start} is {_shown(found['input'])}; it should be {wanted.get(found['type'], 'an object')}"


def _fields(place: tuple[int | str, ...], kind: str) -> tuple[str, tuple[str, ...]]:
    """(the last name of a place in a step, the names that may stand there)."""
    *outer, last = place
    record: type[BaseModel] = _KINDS[kind]
    for name in outer:
        inner = _record_in(record.model_fields[name].annotation) if isinstance(name, str) else record
        record = inner or record
    return str(last), tuple(field.alias or name for name, field in record.model_fields.items())


def _record_in(annotation: object) -> type[BaseModel] | None:
    """The record that a field holds, by itself, or none, or in a list."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for part in get_args(annotation) if (found := _record_in(part))), None)


def _literals(context: Mapping[str, Any]) -> list[str]:
    """The words that a fault's context says are expected."""
    return re.findall(r"'([^']*)'", context["expected"])


def _example(place: tuple[int | str, ...], given: object) -> str:
    """How a height, a point or a channel is written; a level that was given by itself is put in it."""
    if place and place[0] == "channels":
        return 'write it like {"line": "front-princess", "towards": "side"}'
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
    form = _KINDS.get(step.kind)
    if form is None or not isinstance(step, form.makes):
        raise DesignError(f"a step of kind {step.kind!r} cannot be written to a design file", f"step {step.uid}")
    written = form.of(step).model_dump(mode="json", exclude_defaults=True)
    return {"kind": written.pop("kind"), **written}
