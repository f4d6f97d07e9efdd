"""Fitting notes as a page offers them: every kind with its fields in a fitter's words, told as steps are."""

from collections.abc import Mapping, Sequence
from typing import Final

from panelwright.app.fitting_file import FIELDS
from panelwright.fitting import full_bust, length_note, seam_note, shoulder_note, strap_note, sway_back
from panelwright.fitting.note import LEAST, spoken
from panelwright.pattern.level import LEVELS

Field = dict[str, object]
CM: Final = 10.0
KINDS: Final[Mapping[str, tuple[str, str]]] = {
    "take-in": ("Take in a seam", "Pinned narrower: the amount is for each side of the seam."),
    "let-out": ("Let out a seam", "Opened wider: the amount is for each side of the seam."),
    "lengthen": ("Lengthen", "Every panel longer between two levels; girths stay."),
    "shorten": ("Shorten", "Every panel shorter between two levels; girths stay."),
    "sway-back": ("Sway back", "A wedge out at the centre back waist, running to nothing at the side."),
    "full-bust": ("Full bust", "Wider at the bust and longer over it."),
    "square-shoulder": ("Square shoulder", "The shoulder seam up at the shoulder point, nothing at the neck."),
    "sloping-shoulder": ("Sloping shoulder", "The shoulder seam down at the shoulder point, nothing at the neck."),
    "forward-shoulder": ("Forward shoulder", "The shoulder seam forward: down in front and up behind."),
    "strap-shorter": ("Straps shorter", "Every strap whose length is reckoned for this wearer."),
    "strap-longer": ("Straps longer", "Every strap whose length is reckoned for this wearer."),
}
_MOST: Final = {
    "amount_cm": {
        "take-in": seam_note.MOST,
        "let-out": seam_note.MOST,
        "lengthen": length_note.MOST,
        "shorten": length_note.MOST,
        "sway-back": sway_back.MOST,
        "strap-shorter": strap_note.MOST,
        "strap-longer": strap_note.MOST,
    },
    "width_cm": {"full-bust": full_bust.MOST_WIDTH},
    "length_cm": {"full-bust": full_bust.MOST_LENGTH},
}
_LABELS: Final = {
    "seam": "Seam",
    "level": "At",
    "above_cm": "Above it (below: −)",
    "nothing_above": "Nothing at, above",
    "nothing_below": "Nothing at, below",
    "place": "Where",
    "amount_cm": "Amount",
    "width_cm": "Wider, each side of the front princess",
    "length_cm": "Longer over the bust",
}
_PLACES: Final = {place: place.replace("-", " the ") for place in length_note.PLACES}


def note_kinds(seams: Sequence[tuple[str, str]]) -> list[dict[str, object]]:
    """Every kind of note: `kind`, `label`, `about`, `fields`.

    Args:
        seams: (id, label) of those that can be pinned.
    """
    return [
        {
            "kind": kind,
            "label": label,
            "about": about,
            "fields": [_field(kind, name, name in FIELDS[kind][1], seams) for names in FIELDS[kind] for name in names],
        }
        for kind, (label, about) in KINDS.items()
    ]


def _field(kind: str, name: str, optional: bool, seams: Sequence[tuple[str, str]]) -> Field:
    label = "On each side" if name == "amount_cm" and kind in seam_note.WAYS else _LABELS[name]
    field: Field = {"name": name, "label": label, "optional": optional}
    if name.endswith("_cm"):
        if name == "above_cm":
            least, most = -seam_note.MOST_ABOVE, seam_note.MOST_ABOVE
        else:
            least, most = LEAST, _MOST[name].get(kind, shoulder_note.MOST)
        return field | {"type": "length", "unit": "cm", "least": least / CM, "most": most / CM}
    if name == "seam":
        choices = list(seams)
    elif name == "place":
        choices = list(_PLACES.items())
    else:
        choices = [(level, spoken(level)) for level in LEVELS]
    return field | {"type": "choice", "choices": [{"value": value, "label": words} for value, words in choices]}
