"""Remedies that change the list of steps."""

from typing import Any, Final

from panelwright.app.remedied import Document, Remedied, steps_of
from panelwright.app.unmade_steps import HOLDING
from panelwright.body.units import Unit
from panelwright.finding import Finding
from panelwright.pattern.line import CENTRE_BACK
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.step_name import step_name

Entry = dict[str, Any]

# Fields that give a reckoned length instead of leaving it to be reckoned.
LENGTHS: Final = ("length_cm", "zip_cm", "cord_cm")
# What a closure keeps when another fastening takes its place.
_KEPT: Final = ("kind", "uid", "place", "note")
_UNFASTENED: Final = ("seam", "fold")


def as_reckoned(finding: Finding, document: Document, pattern: Pattern, _unit: Unit) -> Remedied | None:
    """A length of the maker's own is left out, so that the reckoned one is drawn."""
    uid = finding.subject.partition("/")[0]
    steps = steps_of(document)
    for number, step in enumerate(steps):
        own = [field for field in LENGTHS if field in step]
        if step.get("uid") == uid and own:
            steps[number] = {field: value for field, value in step.items() if field not in own}
            words = f"Use the reckoned length in {step_name(pattern, uid).rstrip(',')}"
            return Remedied(words, {**document, "steps": steps})
    return None


def tied(finding: Finding, document: Document, _pattern: Pattern, _unit: Unit) -> Remedied | None:
    """A tie is sewn to the centre that ties are to hold; at a side no step can."""
    steps = steps_of(document)
    for number, step in enumerate(steps):
        place = step.get("place")
        if step.get("uid") == finding.subject and place in ("centre-front", "centre-back"):
            tie = {"kind": "tie", "uid": _free("ties", steps), "from": place}
            steps.insert(number + 1, tie)
            return Remedied(f"Add ties at the {_spoken(place)}", {**document, "steps": steps})
    return None


def bones_last(_finding: Finding, document: Document, _pattern: Pattern, _unit: Unit) -> Remedied:
    """Bones are laid after everything else."""
    steps = steps_of(document)
    bones = [step for step in steps if step.get("kind") == "bones"]
    others = [step for step in steps if step.get("kind") != "bones"]
    return Remedied("Lay the bones last", {**document, "steps": [*others, *bones]})


def boned(_finding: Finding, document: Document, _pattern: Pattern, _unit: Unit) -> Remedied | None:
    """Bones hold the bodice up; none where a step that is to do so is in the design and not carried out yet."""
    steps = steps_of(document)
    if any(step.get("kind") in HOLDING for step in steps):
        return None
    steps.append({"kind": "bones", "uid": _free("bones", steps)})
    return Remedied("Add bones along the seams", {**document, "steps": steps})


def opened_behind(_finding: Finding, document: Document, _pattern: Pattern, _unit: Unit) -> Remedied | None:
    """The centre back opens from top to hem. A back that is tied has no centre; one that opens so is no remedy."""
    steps = steps_of(document)
    carried_out = [step for step in steps if not step.get("off")]
    if any(step.get("kind") == "tie" and step.get("from", "side") == "side" for step in carried_out):
        return None
    for number, step in enumerate(steps):
        if step in carried_out and step.get("kind") == "closure" and step.get("place") == CENTRE_BACK:
            opened = _opened(step)
            steps[number] = opened
            words = "Open the centre back down to the hem"
            return Remedied(words, {**document, "steps": steps}) if opened != step else None
    before = next((number for number, step in enumerate(steps) if step.get("kind") == "bones"), len(steps))
    steps.insert(before, {"kind": "closure", "uid": _free("back", steps), "place": CENTRE_BACK, "type": "zip"})
    return Remedied("Open the centre back with a zip", {**document, "steps": steps})


def _opened(closure: Entry) -> Entry:
    """The closure open from top to hem; sewn or on the fold, it gets a zip."""
    if closure.get("type") in _UNFASTENED:
        return {**{field: closure[field] for field in _KEPT if field in closure}, "type": "zip"}
    ends = ("down_to", "opening_cm", *(("zip_cm",) if {"down_to", "opening_cm"} & closure.keys() else ()))
    return {field: value for field, value in closure.items() if field not in ends}


def _free(uid: str, steps: list[Entry]) -> str:
    """The uid, or one made from it that no step has."""
    taken = {step.get("uid") for step in steps}
    return next(name for name in (uid, *(f"{uid}-{n}" for n in range(2, len(steps) + 3))) if name not in taken)


def _spoken(place: object) -> str:
    return str(place).replace("-", " ")
