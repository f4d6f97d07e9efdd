"""Where on a page a finding is put right: the field of the whole garment, or the step and its field, that it speaks of.

Remedies name both already, in the page's words and in brackets for whoever writes files; it is read from there, so
that what is shown and what is said are the same field.
"""

import re
from collections.abc import Mapping
from typing import Final

from panelwright.app.drawn_design import NOT_FINISHED
from panelwright.app.garment_words import garment_fields
from panelwright.app.remedied import Document, part_of, steps_of
from panelwright.app.remedy_fields import BY_LINE
from panelwright.app.remedy_steps import LENGTHS
from panelwright.app.step_labels import STEP_LABELS
from panelwright.file_words import file_words
from panelwright.finding import Finding

_WAY: Final = re.compile(r'\b((?:block|finish|wearing)\.\w+)(?:, "([\w-]+)")?')
# Findings about a length of the maker's own.
_OF_LENGTHS: Final = frozenset({"given-length-short", "given-length-long", "zip-not-sold"})
_ELSE: Final = " (else"


def finding_lead(finding: Finding, document: Document, labels: Mapping[str, str]) -> dict[str, object] | None:
    """`{"field": way}` of the whole garment, or `{"step": uid}`, also with its `field`; None where it is no one place.

    Args:
        finding: of a check of `document`.
        document: a `panelwright-design/1` that can be read.
        labels: uid -> what the page calls the step, of those that the document lists.
    """
    for words in file_words(finding.remedy):
        for way, entry in _WAY.findall(words):
            for known in (f"{way}.{entry}", way):
                if known in garment_fields():
                    return {"field": known}
    if finding.code == NOT_FINISHED and _of_a_line(finding, document):
        return {"field": f"finish.{BY_LINE}"}
    step = _step(finding, document, labels)
    if step is None:
        return None
    field = _field(finding, step)
    return {"step": str(step["uid"]), **({"field": field} if field else {})}


def _of_a_line(finding: Finding, document: Document) -> bool:
    """Whether it speaks of a line that the design gives an allowance of its own."""
    return any(line in finding.message for line in part_of(part_of(document, "finish"), BY_LINE))


def _step(finding: Finding, document: Document, labels: Mapping[str, str]) -> Document | None:
    """The step that it is about, or else the one that the remedy names."""
    steps = {str(step.get("uid")): step for step in steps_of(document)}
    about = finding.subject.partition(".")[2] or finding.subject
    own = steps.get(about.partition("/")[0])
    if own is not None:
        return own
    named = [uid for uid, label in labels.items() if f"“{label}”" in finding.remedy and uid in steps]
    return steps[named[0]] if len(named) == 1 else None


def _field(finding: Finding, step: Document) -> str | None:
    """The first field of the step that the remedy names."""
    if finding.code in _OF_LENGTHS:
        return next((length for length in LENGTHS if length in step), None)
    fields = STEP_LABELS[str(step["kind"])].fields
    for words in file_words(finding.remedy):
        if (first := words.partition(",")[0]) in fields:
            return first
    said = {name: finding.remedy.find(words.label.partition(_ELSE)[0]) for name, words in fields.items()}
    found = [(place, name) for name, place in said.items() if place >= 0 and len(fields[name].label.split()) > 1]
    return min(found)[1] if found else None
