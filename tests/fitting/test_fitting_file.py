"""The fitting file: what is written comes back equal; what cannot be used gets one sentence."""

import json
from datetime import date
from pathlib import Path

import pytest

from panelwright.app.fitting_file import FIELDS, fitting_document, load_fitting, read_fitting, save_fitting
from panelwright.errors import InputError
from panelwright.fitting.fitting import Fitting
from panelwright.fitting.full_bust import FullBust
from panelwright.fitting.length_note import LengthNote
from panelwright.fitting.seam_note import SeamNote
from panelwright.fitting.shoulder_note import ShoulderNote
from panelwright.fitting.strap_note import StrapNote
from panelwright.fitting.sway_back import SwayBack

WHOLE = Fitting(
    "w-07",
    (
        SeamNote("a", "take-in", "back-princess", "waist", 8.0, 12.5, "bust", "top-hip"),
        SeamNote("b", "let-out", "side", "hip", 9.525),
        LengthNote("c", "lengthen", "above-waist", 10.0),
        LengthNote("d", "shorten", "below-bust", 6.0),
        SwayBack("e", 12.0),
        FullBust("f", 8.0, 10.0),
        *(ShoulderNote(f"{shape}-1", shape, 7.0) for shape in ("square", "sloping", "forward")),
        StrapNote("g", "shorter", 10.0),
        StrapNote("h", "longer", 5.0),
    ),
    frozenset({"d", "h"}),
    date(2026, 11, 20),
)


def text(**changes: object) -> str:
    note = {"kind": "take-in", "seam": "side", "level": "waist", "amount_cm": 0.8} | changes
    return json.dumps({"format": "panelwright-fitting/1", "wearer": "w-07", "notes": [note]})


def test_every_kind_comes_back_equal(tmp_path: Path) -> None:
    save_fitting(WHOLE, tmp_path / "f.json")
    assert load_fitting(tmp_path / "f.json") == WHOLE
    assert {entry["kind"] for entry in fitting_document(WHOLE)["notes"]} == set(FIELDS)


def test_lengths_may_name_their_unit_and_notes_need_no_name() -> None:
    """3/8 in is 9.525 mm (25.4 mm to the inch, by definition)."""
    (note,) = read_fitting(text(amount_cm="3/8 in", above_cm="-15 mm")).notes
    assert (note.uid, note.amount, note.above) == ("note-1", pytest.approx(9.525), pytest.approx(-15.0))


@pytest.mark.parametrize(
    ("given", "told"),
    [
        (text(kind="takein"), "did you mean take-in"),
        (text(amount_cm=8), "give 0.1 to 4 cm"),
        (text(amount_cm="lots"), "is not a length"),
        (text(place="above-waist"), "has no meaning for take-in"),
        (text(seam=None), "needs seam, level, amount_cm"),
        (text(level="wrist"), "there is no level"),
        (text(colour="red"), "not a known field"),
        ('{"format": "panelwright-design/1"}', "holds a design, not fitting notes"),
        ('{"format": "panelwright-fitting/1", "wearer": "w-07", "date": "yesterday"}', "write a day like 2026-11-20"),
        ("[]", "named values"),
    ],
)
def test_what_cannot_be_used_gets_a_sentence(given: str, told: str) -> None:
    with pytest.raises(InputError, match=told) as caught:
        read_fitting(given)
    assert "\n" not in str(caught.value)
