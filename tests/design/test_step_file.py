import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.design.edge_shape import HEM_SHAPES, TOP_SHAPES
from panelwright.design.finished_edge import FreePoint
from panelwright.design.hem import Hem
from panelwright.design.position import BodyPoint, Height
from panelwright.design.step import Step
from panelwright.design.step_file import step_list_from_json, steps_from_json, steps_to_json
from panelwright.design.top_edge import TopEdge
from panelwright.errors import DesignError
from panelwright.pattern.level import LEVELS

TOP: dict[str, Any] = {
    "kind": "top-edge",
    "uid": "neck",
    "shape": "sweetheart",
    "centre": {"level": "bust", "offset_cm": 0.5},
    "side": {"level": "upper-bust", "offset_cm": -1.5},
    "points": [{"line": "front-princess", "towards": "side", "fraction": 0.25, "level": "bust", "offset_cm": 3}],
}
HEM: dict[str, Any] = {
    "kind": "hem",
    "uid": "hem",
    "shape": "shaped",
    "centre": {"level": "waist", "share_to_next_level": -0.5},
    "side": {"level": "waist"},
    "back": {"level": "top-hip"},
    "point_at_centre": False,
}

LEVEL = st.sampled_from(LEVELS)
HEIGHTS = st.one_of(
    st.builds(Height, LEVEL, st.floats(-900.0, 900.0)),
    st.builds(Height, LEVEL, st.just(0.0), st.floats(-1.0, 1.0)),
)
POINTS = st.builds(
    FreePoint,
    st.one_of(
        st.builds(BodyPoint, HEIGHTS, st.just("side")),
        st.builds(BodyPoint, HEIGHTS, st.just("side"), st.just("back-princess"), st.floats(0.0, 1.0)),
    ),
    st.booleans(),
)
REST = (HEIGHTS, st.none() | HEIGHTS, st.lists(POINTS, max_size=3).map(tuple), st.none() | st.just(True))
STEPS = st.one_of(
    st.builds(TopEdge, st.just("neck"), st.sampled_from(TOP_SHAPES), HEIGHTS, *REST),
    st.builds(Hem, st.just("low"), st.sampled_from(HEM_SHAPES[1:]), HEIGHTS, *REST),
)


def test_a_file_says_what_a_maker_would_in_centimetres() -> None:
    steps = steps_from_json([TOP, HEM])
    assert steps == (
        TopEdge(
            "neck", "sweetheart", Height("bust", 5.0), Height("upper-bust", -15.0),
            points=(FreePoint(BodyPoint(Height("bust", 30.0), "front-princess", "side", 0.25)),),
        ),
        Hem(
            "hem", "shaped", Height("waist", share=-0.5), Height("waist"), Height("top-hip"), point_at_centre=False,
        ),
    )  # fmt: skip
    assert steps_to_json(steps) == [TOP, HEM]


@given(STEPS)
def test_writing_and_reading_is_the_identity(step: Step) -> None:
    text = json.dumps(steps_to_json([step]), allow_nan=False)
    assert steps_from_json(json.loads(text)) == (step,)


def test_a_step_that_is_off_or_noted_on_is_read_and_written_as_such() -> None:
    entries = [{**TOP, "note": "as low as the drum's strap allows"}, {**HEM, "off": True}]
    listed = step_list_from_json(entries)
    assert listed.steps == steps_from_json([TOP, HEM])
    assert listed.off == {"hem"}
    assert listed.notes == {"neck": "as low as the drum's strap allows"}
    assert steps_to_json(listed.steps, listed.off, listed.notes) == entries
    assert steps_to_json(step_list_from_json([{**HEM, "off": False}]).steps) == [HEM]


def test_a_level_that_a_maker_named_may_be_used_when_the_block_has_it() -> None:
    entry = {**HEM, "side": {"level": "dance-belt"}}
    assert steps_from_json([entry], (*LEVELS, "dance-belt"))[0].side.level == "dance-belt"  # type: ignore[attr-defined]
    with pytest.raises(DesignError, match="side names the level 'dance-belt', which the block has not"):
        steps_from_json([entry])


@pytest.mark.parametrize(
    ("entries", "sentence"),
    [
        ({}, "the steps of a design are a list: write [ ] for none"),
        ([TOP] * 201, "a design has 201 steps; the most is 200"),
        ([3], "step 1 is 3; a step is an object with a kind and a uid"),
        ([TOP, None], "step 2 is nothing; a step is an object with a kind and a uid"),
        ([{}], "step 1 is of kind nothing, which is no step; use one of top-edge, hem"),
        ([{**TOP, "kind": "top edge"}], "step 1 is of kind 'top edge', which is no step; did you mean 'top-edge'?"),
        ([{**TOP, "kind": ["hem"]}], "step 1 is of kind a list, which is no step"),
        ([TOP, {**HEM, "uid": "neck"}], "step 2 is called 'neck' like step 1; give it another uid"),
        ([{**TOP, "uid": ""}], "step 1 (top-edge): uid is empty"),
        ([{**TOP, "uid": "x" * 99}], "step 1 (top-edge): uid is longer than 60 letters; shorten it"),
        ([{**TOP, "uid": "Neck Line"}], "step 1: a step cannot be called 'Neck Line'"),
        ([{**TOP, "off": "yes"}], "step 1 (top-edge): off is 'yes'; it should be true or false"),
        ([{**TOP, "off": 1}], "step 1 (top-edge): off is 1; it should be true or false"),
        ([{**TOP, "note": 3}], "step 1 (top-edge): note is 3; it should be a text"),
        ([{**TOP, "note": "x" * 301}], "step 1 (top-edge): note is longer than 300 letters; shorten it"),
        ([{**TOP, "note": " "}], "step 1 (top-edge): note: write a note in one line of 1 to 300 letters, or leave it"),
        ([{**TOP, "note": "two\nlines"}], "note: write a note in one line of 1 to 300 letters, or leave it out"),
        ([{**TOP, "shape": "heart"}], "step 1 (top-edge): shape is 'heart'; did you mean 'sweetheart'?"),
        ([{k: v for k, v in TOP.items() if k != "side"}], "step 1 (top-edge): side is missing"),
        (
            [{**TOP, "colour": "red"}],
            "step 1 (top-edge) has no field 'colour'; use one of uid, off, note, shape",
        ),
        ([{**TOP, "centre": {"level": "busst"}}], "centre names the level 'busst', which the block has not; did you"),
        ([{**TOP, "centre": "bust"}], 'step 1 (top-edge): centre is \'bust\'; write {"level": "bust"}'),
        ([{**TOP, "back": 3}], 'step 1 (top-edge): back is 3; write it like {"level": "bust", "offset_cm": -2}'),
        ([{**TOP, "points": ["side"]}], 'points.1 is \'side\'; write it like {"line": "side", "level": "bust"}'),
        ([{**TOP, "shape": "circle"}], "shape is 'circle'; use one of straight, scooped, sweetheart, v, square"),
        ([{**TOP, "side": {"level": "bust", "offset": 3}}], "has no field 'side.offset'; did you mean 'offset_cm'?"),
        (
            [{**TOP, "points": [{"line": "side", "level": "bust", "fractoin": 0.5}]}],
            "has no field 'points.1.fractoin'; did you mean 'fraction'?",
        ),
        ([{**TOP, "centre": {"level": 3}}], "step 1 (top-edge): centre.level is 3; it should be a text"),
        (
            [{**TOP, "centre": {"level": "bust", "offset_cm": "3"}}],
            'centre.offset_cm: "3" names no unit: write it like',
        ),
        ([{**TOP, "centre": {"level": "bust", "offset_cm": []}}], "centre.offset_cm is a list; it should be a number"),
        ([{**TOP, "centre": {"level": "bust", "offset_cm": True}}], "centre.offset_cm is true; it should be a number"),
        ([{**TOP, "centre": {"level": "bust", "offset_cm": 101}}], "centre.offset_cm is 101; the most is 100"),
        ([{**TOP, "centre": {"level": "bust", "offset_cm": -101}}], "centre.offset_cm is -101; the least is -100"),
        ([{**TOP, "centre": {"level": "bust", "offset_cm": float("nan")}}], "offset_cm is not a finite number"),
        (
            [{**TOP, "centre": {"level": "bust", "offset_mm": 3}}],
            "has no field 'centre.offset_mm'; did you mean 'offset_cm'?",
        ),
        (
            [{**TOP, "centre": {"level": "bust", "offset_cm": 1, "share_to_next_level": 0.5}}],
            "centre: give offset_cm or share_to_next_level, not both",
        ),
        ([{**TOP, "points": [{"line": "side", "level": "bust", "fraction": 0.5}]}], "points.1: a fraction needs"),
        ([{**TOP, "points": [{"line": "side", "level": "hipp"}]}], "point 1 names the level 'hipp'"),
        ([{**TOP, "points": [{"line": "side", "level": "hip"}] * 41}], "points has 41 entries; the most is 40"),
        ([{**TOP, "points": {}}], "step 1 (top-edge): points is an object; it should be a list"),
        ([{**TOP, "point_at_centre": 1}], "point_at_centre is 1; it should be true or false"),
        ([{**TOP, "shape": "v", "point_at_centre": False}], "a V has a point at the centre; choose scooped"),
        ([{**HEM, "shape": "straight"}], "a straight hem runs at one height all round; choose shaped for several"),
    ],
)
def test_each_fault_has_its_sentence(entries: object, sentence: str) -> None:
    with pytest.raises(DesignError) as caught:
        steps_from_json(entries)
    assert sentence in str(caught.value)
    assert "\n" not in str(caught.value)
    assert caught.value.where == "steps" or caught.value.where.startswith("step ")
