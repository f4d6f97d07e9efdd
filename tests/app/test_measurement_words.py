"""The vocabulary of measurements: everything is in it, with limits that the reader keeps to."""

import math

import pytest

from panelwright.app.measurement_words import measurement_vocabulary
from panelwright.app.plausible import checked_measurements
from panelwright.body.measurement_file import FIELDS
from panelwright.body.terms import REQUIRED
from panelwright.pattern.level import LEVELS

WORDS = measurement_vocabulary()


def test_every_measurement_is_told_once_with_a_sentence() -> None:
    assert [entry["name"] for entry in WORDS] == list(FIELDS)
    assert [entry["name"] for entry in WORDS if entry["required"]] == list(REQUIRED)
    for entry in WORDS:
        assert str(entry["how"])[0].isupper()
        assert str(entry["how"]).endswith(".")
        assert entry.get("level", "waist") in LEVELS


@pytest.mark.parametrize("entry", WORDS, ids=lambda entry: str(entry["name"]))
def test_a_value_at_its_limit_is_taken_and_one_beyond_is_refused(entry: dict[str, object]) -> None:
    is_angle = entry["quantity"] == "angle"
    least, most = (float(str(entry[f"{end}_{'deg' if is_angle else 'mm'}"])) for end in ("least", "most"))

    def refused(amount: float) -> object:
        document: dict[str, object] = {"format": "panelwright-measurements/1", "ref": "w-07", "unit": "mm"}
        return checked_measurements({**document, "measurements": {str(entry["name"]): amount}})["refused"]

    inside = 1e-6 if is_angle else 0.0
    assert math.isfinite(least)
    assert least < most
    assert refused(most - inside) is None
    assert refused(least + inside) is None
    assert refused(most + 1.0) is not None
