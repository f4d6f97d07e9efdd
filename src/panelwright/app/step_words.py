"""The steps of a design for a page that asks for them: every field with its label, its kind, choices and limits."""

from typing import Final

from panelwright.app.step_labels import COMMON, STEP_LABELS
from panelwright.app.told_field import Document, told_fields
from panelwright.design.step_file import FORMS

NAMES_THE_KIND: Final = "kind"


def step_vocabulary() -> Document:
    """kind -> `label`, `about` (one sentence) and `fields`, for every kind of step that a design file may hold.

    Each field has `name`, `label`, `type` (`length`, `number`, `whole`, `choice`, `height`, `switch`, `text`, `points`
    or `list`) and `optional`; where they apply, `unit`, `least`, `most`, `choices`, `default`, `when` (field ->
    values with which alone it acts) and, of points and lists, `of`: `text`, or the fields of each entry.
    """
    found = {}
    for form in FORMS:
        words = STEP_LABELS[form.makes.kind]
        fields = told_fields(form, {**COMMON, **words.fields}, leave_out=NAMES_THE_KIND)
        found[form.makes.kind] = {"label": words.label, "about": words.about, "fields": fields}
    return found
