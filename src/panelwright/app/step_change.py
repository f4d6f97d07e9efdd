"""What is different between two lists of steps, in plain words: which step, which field, from what to what."""

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Any, Final

from panelwright.app.list_change import list_changes
from panelwright.app.step_words import step_vocabulary
from panelwright.app.value_words import Field, value_words
from panelwright.body.units import Unit
from panelwright.design.step_file import steps_from_json
from panelwright.errors import PanelwrightError
from panelwright.pattern.step_name import named_step

Entry = Mapping[str, Any]
_APART: Final = frozenset({"kind", "uid", "off", "note"})


def step_changes(before: Sequence[Entry], after: Sequence[Entry], unit: Unit) -> list[str]:
    """Sentences, each with the name that the step has in the list.

    Args:
        before, after: the `steps` of two design documents; a step keeps its uid.
        unit: of lengths.
    """
    renamed = _renamed(before, after)
    old: dict[str, Entry] = {renamed.get(str(entry["uid"]), str(entry["uid"])): entry for entry in before}
    new = {entry["uid"]: entry for entry in after}
    was_called, is_called = _names(before), _names(after)
    found: list[str] = [f"Removed: {was_called[old[uid]['uid']]}" for uid in old if uid not in new]
    found += [f"Added: {is_called[uid]}" for uid in new if uid not in old]
    for uid, entry in new.items():
        if uid in old:
            found += _changed(is_called[uid], old[uid], entry, unit)
    found += [f"{is_called[name]}: name in the design, from {was} to {name}" for was, name in renamed.items()]
    return found + _moved([uid for uid in old if uid in new], [uid for uid in new if uid in old], is_called)


def new_labels(before: Sequence[Entry], after: Sequence[Entry]) -> dict[str, str]:
    """Old label -> new label of the steps that a change gave another one; a label that two steps had is left out."""
    was, now = (_plain_labels(entries) for entries in (before, after))
    given = [(was[uid], now[uid]) for uid in was if uid in now]
    labels = [label for label, _ in given]
    return {old: new for old, new in given if old != new and labels.count(old) == 1}


def _plain_labels(entries: Sequence[Entry]) -> dict[str, str]:
    return {str(entry["uid"]): _label(entry) for entry in entries}


def _changed(name: str, before: Entry, after: Entry, unit: Unit) -> Iterator[str]:
    if before.get("off", False) != after.get("off", False):
        yield f"{name}: {'left out for now' if after.get('off') else 'put back'}"
    if before.get("note") != after.get("note"):
        yield f"{name}: note, from {_quoted(before.get('note'))} to {_quoted(after.get('note'))}"
    fields = _fields(after.get("kind", ""))
    for field in dict.fromkeys([*fields, *before, *after]):
        was, now = before.get(field), after.get(field)
        if field in _APART or was == now:
            continue
        own = fields.get(field, {"label": field.replace("_", " ")})
        if isinstance(own.get("of"), list) and _is_rows(was) and _is_rows(now):
            yield from (f"{name}: {told}" for told in list_changes(own, was or [], now or [], own["of"], unit))
            continue
        label = str(own["label"]).partition(" (")[0]  # what is left out is told by its value
        if was is None or now is None:
            was, now = (own.get("default") if value is None else value for value in (was, now))
        words = [value_words(value, own, unit) for value in (was, now)]
        if words[0] == words[1]:
            yield f"{name}: {label}, changed" if was != now else f"{name}: {label}, now stated"
        else:
            yield f"{name}: {label}, from {words[0]} to {words[1]}"


def _is_rows(value: object) -> bool:
    return value is None or (isinstance(value, list) and all(isinstance(row, Mapping) for row in value))


def _moved(before: list[str], after: list[str], names: Mapping[str, str]) -> list[str]:
    """The one step that was carried to another place, or how many changed places."""
    if before == after:
        return []
    for uid in after:
        if [other for other in before if other != uid] == [other for other in after if other != uid]:
            return [f"{names[uid]}: moved from place {before.index(uid) + 1} to place {after.index(uid) + 1}"]
    return ["The steps are in another order"]


def _renamed(before: Sequence[Entry], after: Sequence[Entry]) -> dict[str, str]:
    """Old uid -> new uid of a step that is as it was but for its uid."""

    def rest(entry: Entry) -> dict[str, Any]:
        return {field: value for field, value in entry.items() if field != "uid"}

    kept = {entry["uid"] for entry in before} & {entry["uid"] for entry in after}
    found: dict[str, str] = {}
    for old in before:
        for new in after:
            if (
                old["uid"] not in kept | {*found}
                and new["uid"] not in kept | {*found.values()}
                and rest(old) == rest(new)
            ):
                found[old["uid"]] = new["uid"]
    return found


def _names(entries: Sequence[Entry]) -> dict[str, str]:
    labels = [(str(entry["uid"]), _label(entry)) for entry in entries]
    return {uid: named_step(labels, uid).rstrip(",") for uid, _ in labels}


def _label(entry: Entry) -> str:
    """As the list of steps has it; what can no longer be read is called by its kind."""
    try:
        return steps_from_json([dict(entry)])[0].label
    except PanelwrightError:
        kind = step_vocabulary_kept().get(entry.get("kind", ""))
        return str(kind["label"] if kind else entry.get("kind", "step"))


def _fields(kind: str) -> dict[str, Field]:
    known = step_vocabulary_kept().get(kind)
    return {field["name"]: field for field in known["fields"]} if known else {}


@lru_cache(maxsize=1)
def step_vocabulary_kept() -> dict[str, Any]:
    """The vocabulary, made once."""
    return step_vocabulary()


def _quoted(note: object) -> str:
    return f"“{note}”" if note else "none"
