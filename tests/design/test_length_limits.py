"""Every length of a step: a refusal names the limits that hold, so that what it offers is accepted."""

import re
from typing import Any

import pytest

from panelwright.design.step_file import FORMS, steps_from_json
from panelwright.errors import DesignError

# What else a step must hold for the field to have something to act on.
BESIDE: dict[str, dict[str, Any]] = {
    "teeth_width_cm": {"type": "zip", "style": "exposed"},
    "zip_cm": {"type": "zip"},
    "gap_cm": {"type": "lacing"},
    "pitch_cm": {"type": "lacing"},
    "eyelet_inset_cm": {"type": "lacing"},
    "cord_cm": {"type": "lacing"},
    "modesty_overlap_cm": {"type": "lacing"},
    "spacing_cm": {"type": "hooks"},
    "underlap_cm": {"type": "hooks"},
    "stand_cm": {"type": "buttons"},
    "opening_cm": {"type": "zip"},
}
# What a step of a kind must hold in any case.
NEEDED: dict[str, dict[str, Any]] = {
    "closure": {"place": "centre-back"},
    "swing": {"dart": "joined/dart", "to": {"line": "side", "fraction": 0.5}},
    "gather": {"dart": "joined/dart", "fullness": "tucks"},
    "spread": {"piece": "SF", "open": "hem", "closed": "waist", "amount_cm": 2},
    "frill": {"line": "hem"},
    "peplum": {"line": "hem"},
    "skirt": {"line": "hem/line", "type": "gored-skirt"},
}
STRAPS = {"tail_cm": {"type": "halter", "nape": "tie"}, "loop_cm": {"type": "halter", "nape": "tie"}}
LENGTHS = [
    (str(form.makes.kind), name) for form in FORMS for name, field in form.model_fields.items() if name.endswith("_cm")
]
LIMITS = re.compile(r"(?:give (?:between )?|a bone (?:is|stays) )([\d.]+) (?:to|and) ([\d.]+) cm")


def read(kind: str, name: str, length_cm: float) -> None:
    beside = {"closure": BESIDE, "strap": STRAPS}.get(kind, {}).get(name, {})
    steps_from_json([{"kind": kind, "uid": "own", **NEEDED.get(kind, {}), **beside, name: length_cm}])


@pytest.mark.parametrize(("kind", "name"), LENGTHS)
def test_what_a_refusal_offers_is_accepted(kind: str, name: str) -> None:
    said = set()
    for wrong in (-3.0, 1e6):
        with pytest.raises(DesignError) as caught:
            read(kind, name, wrong)
        found = LIMITS.search(str(caught.value))
        assert found is not None, str(caught.value)
        said.add(found.groups())
    ((least, most),) = said
    for limit in (float(least), float(most)):
        read(kind, name, limit)
    for beyond in (float(least) - 0.01, float(most) + 0.01):
        with pytest.raises(DesignError):
            read(kind, name, beyond)


def test_every_length_of_the_steps_is_looked_at() -> None:
    assert {("strap", "width_cm"), ("tie", "width_cm"), ("closure", "zip_cm"), ("bones", "width_cm")} <= set(LENGTHS)


@pytest.mark.parametrize("wrong", [float("nan"), float("inf")])
def test_no_number_at_all_is_still_refused(wrong: float) -> None:
    with pytest.raises(DesignError, match="width_cm is not a finite number"):
        read("strap", "width_cm", wrong)
