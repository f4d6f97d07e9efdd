import json
from typing import Any

import pytest
from design.closed_garment import closing
from hypothesis import given
from hypothesis import strategies as st

from panelwright.design.buttons import Buttons
from panelwright.design.closure import ClosureStep
from panelwright.design.hooks import Hooks
from panelwright.design.lacing import Lacing
from panelwright.design.position import Height
from panelwright.design.step import Step
from panelwright.design.step_file import steps_from_json, steps_to_json
from panelwright.design.tied import Tied
from panelwright.design.zip import Zip
from panelwright.errors import DesignError


def lengths(least: float, most: float) -> st.SearchStrategy[float]:
    """mm, to a thousandth: what a file gives back to the last digit."""
    return st.floats(least, most).map(lambda length: round(length, 3))


HEIGHTS = st.builds(Height, st.sampled_from(("waist", "bust")), lengths(-90.0, 90.0))
ENDS = st.one_of(st.tuples(st.none() | HEIGHTS, st.none()), st.tuples(st.none(), lengths(50.0, 400.0)))
ZIPS = st.builds(Zip, st.sampled_from(("centred", "lapped", "invisible")), st.just(0.0), st.none() | lengths(30, 900))
WHOLE = st.one_of(
    st.builds(Zip, st.just("exposed"), lengths(2.0, 40.0), st.none() | lengths(30.0, 900.0)),
    st.builds(
        Lacing, lengths(0.0, 200.0), lengths(8.0, 80.0), lengths(5.0, 30.0), st.none() | lengths(300.0, 9000.0),
        st.none() | lengths(10.0, 100.0),
    ),
    st.builds(Buttons, lengths(8.0, 60.0), lengths(15.0, 200.0)),
    st.sampled_from(("fold", "seam")),
)  # fmt: skip
PARTLY = st.one_of(ZIPS, st.builds(Hooks, lengths(8.0, 100.0), st.none() | lengths(8.0, 80.0)), st.just(Tied()))
STEPS = st.one_of(
    st.builds(ClosureStep, st.just("shut"), st.sampled_from(("centre-front", "centre-back")), WHOLE),
    st.builds(
        lambda place, how, ends, hand: ClosureStep("shut", place, how, *ends, hand if place == "side" else "left"),
        st.sampled_from(("centre-front", "centre-back", "side")), PARTLY, ENDS, st.sampled_from(("left", "right")),
    ),
)  # fmt: skip


def test_what_a_hand_can_move_is_always_written() -> None:
    laced, buttoned = (closing(place, kind) for place, kind in (("centre-back", "lacing"), ("centre-front", "buttons")))
    assert steps_to_json(steps_from_json([laced, {**buttoned, "uid": "front"}])) == [
        {**laced, "gap_cm": 5.0},
        {**buttoned, "uid": "front", "spacing_cm": 6.0},
    ]


def test_the_least_that_a_maker_writes_is_enough() -> None:
    entry = {"kind": "closure", "uid": "back", "place": "centre-back", "type": "zip"}
    assert steps_from_json([entry]) == (ClosureStep("back", "centre-back", Zip()),)
    assert steps_to_json(steps_from_json([entry])) == [entry]


def test_a_file_says_what_a_maker_would_in_centimetres() -> None:
    laced = closing(
        "centre-back", "lacing", gap_cm=6, pitch_cm=2, eyelet_inset_cm=1.5, cord_cm=400, modesty_overlap_cm=3
    )
    side = closing(
        "side", "zip", style="invisible", zip_cm=23, down_to={"level": "waist", "offset_cm": -5}, hand="right"
    )
    exposed = closing("centre-front", "zip", style="exposed")
    steps = steps_from_json([laced, {**side, "uid": "side"}, {**exposed, "uid": "front"}])
    assert steps == (
        ClosureStep("shut", "centre-back", Lacing(60.0, 20.0, 15.0, 4000.0, 30.0)),
        ClosureStep("side", "side", Zip("invisible", given=230.0), Height("waist", -50.0), hand="right"),
        ClosureStep("front", "centre-front", Zip("exposed", 6.0)),
    )
    assert steps_to_json(steps) == [laced, {**side, "uid": "side"}, {**exposed, "uid": "front"}]
    assert [step.label for step in steps] == [
        "Closure: centre back, lacing",
        "Closure: side, invisible zip",
        "Closure: centre front, exposed zip",
    ]


@given(STEPS)
def test_writing_and_reading_is_the_identity(step: Step) -> None:
    text = json.dumps(steps_to_json([step]), allow_nan=False)
    assert steps_from_json(json.loads(text)) == (step,)
    assert hash(steps_from_json(json.loads(text))[0]) == hash(step)


@pytest.mark.parametrize(
    ("entry", "sentence"),
    [
        ({"place": "back", "type": "zip"}, "place is 'back'; use one of centre-front, centre-back, side"),
        ({"place": "side", "type": "velvet"}, "type is 'velvet'; use one of fold, seam, zip"),
        ({"type": "zip"}, "place is missing"),
        ({"place": "side", "type": "zip", "gap_cm": 3}, "gap_cm does not belong to the type zip; it takes style"),
        (
            {"place": "centre-back", "type": "fold", "stand_cm": 3},
            "stand_cm does not belong to the type fold; it takes",
        ),
        ({"place": "centre-back", "type": "zip", "hand": "left"}, "only a side opens on one hand; leave out hand"),
        ({"place": "centre-back", "type": "lacing", "gap_cm": 30}, "the gap of a lacing is 30 cm; give between 0 and"),
        ({"place": "centre-back", "type": "zip", "style": "hidden"}, "style is 'hidden'"),
        ({"place": "centre-back", "type": "zip", "down_to": {"level": "wast"}}, "down_to names the level 'wast'"),
        ({"place": "side", "type": "lacing"}, "closure: a lacing takes its gap off both side seams"),
        ({"place": "centre-back", "type": "zip", "opening_cm": "20"}, "names no unit"),
        ({"place": "centre-back", "type": "zip", "colour": "red"}, "has no field 'colour'"),
    ],
)
def test_each_fault_has_its_sentence(entry: dict[str, Any], sentence: str) -> None:
    with pytest.raises(DesignError) as caught:
        steps_from_json([{"kind": "closure", "uid": "shut", **entry}])
    assert sentence in str(caught.value)
    assert "\n" not in str(caught.value)
