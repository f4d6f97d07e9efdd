"""What changed between two documents, in words that a sewing teacher would use."""

import copy
from typing import Any

import pytest
from app.broken_designs import BONES, HEM, STRAPS, TIE, TOP, ZIP, Record, at, design

from panelwright.app.version_changes import design_changes, wearer_changes
from panelwright.app.version_heading import retold
from panelwright.body.units import Unit

BEFORE = design(TOP, HEM, ZIP, BONES)


def changed(**fields: Any) -> Record:
    """The hem with other fields; None leaves one out."""
    hem = {name: value for name, value in {**HEM, **fields}.items() if value is not None}
    return design(TOP, hem, ZIP, BONES)


@pytest.mark.parametrize(
    ("after", "told"),
    [
        (BEFORE, ()),
        (
            changed(centre=at("waist", -2), side=at("waist", -2)),
            (
                "“Hem: straight”: height at centre front, from top hip to waist, 2.0 cm below",
                "“Hem: straight”: height at side, from top hip to waist, 2.0 cm below",
            ),
        ),
        (
            changed(shape="shaped", back=at("hip", 1.5)),
            (
                "“Hem: shaped”: shape, from straight to shaped",
                "“Hem: shaped”: height at centre back, from as usual to hip, 1.5 cm above",
            ),
        ),
        (changed(off=True), ("“Hem: straight”: left out for now",)),
        (changed(note="clear of the belt"), ("“Hem: straight”: note, from none to “clear of the belt”",)),
        (
            changed(points=[{"line": "side", "level": "hip"}]),
            ("“Hem: straight”: point 1 of the line, added",),
        ),
        (design(TOP, HEM, ZIP), ("Removed: “Bones: spiral”",)),
        (design(TOP, HEM, STRAPS, ZIP, BONES), ("Added: “Straps: grown out of the panels”",)),
        (design(HEM, ZIP, BONES, TOP), ("“Top edge: scooped”: moved from place 1 to place 4",)),
        (design(TOP, {**HEM, "uid": "low"}, ZIP, BONES), ("“Hem: straight”: name in the design, from h-2 to low",)),
        (
            design(TOP, HEM, {**ZIP, "zip_cm": 25}, BONES),
            ("“Closure: centre back, centred zip”: length of the zip, from as usual to 25.0 cm",),
        ),
        ({**BEFORE, "title": "Drum"}, ("Title: from “X” to “Drum”",)),
        ({**BEFORE, "block": {"ease_cm": {"waist": -1}}}, ("Block: ease at the waist, from as usual to -1.0 cm",)),
        ({**BEFORE, "finish": {"facing": "full"}}, ("Making up: facing, from as usual to the whole shape again",)),
        (
            {**BEFORE, "finish": {"allowance_by_line_cm": {"centre-back": 2, "n-1/line": 1}}},
            (
                "Making up: allowance of a line, centre back, from as usual to 2.0 cm",
                "Making up: allowance of a line, n 1, from as usual to 1.0 cm",
            ),
        ),
        (
            {**BEFORE, "cloth_to_buy": {"outer": {"width_cm": 90, "folded": True}}},
            ("Cloth: outer, width, from as usual to 90.0 cm", "Cloth: outer, folded, from as usual to yes"),
        ),
    ],
)
def test_a_change_is_told_with_step_field_and_both_values(after: Record, told: tuple[str, ...]) -> None:
    before = copy.deepcopy(BEFORE)
    assert design_changes(before, after) == told
    assert before == BEFORE


def test_lengths_are_told_in_inches_on_request() -> None:
    (front, _) = design_changes(BEFORE, changed(centre=at("waist", -2.54), side=at("waist", -2.54)), Unit.INCH)
    assert front.endswith("from top hip to waist, 1 in below")


def test_two_steps_of_one_name_are_told_apart() -> None:
    tie = {**TIE, "from": "centre-back"}
    one, two = {**tie, "uid": "a"}, {**tie, "uid": "b"}
    (told,) = design_changes(design(TOP, HEM, one, two), design(TOP, HEM, one, {**two, "tail_cm": 20}))
    assert "number 2 of 2" in told
    assert told.endswith("what hangs from the knot, from 10.0 cm to 20.0 cm")


def test_what_can_no_longer_be_read_is_told_all_the_same() -> None:
    old = design({**TOP, "shape": "heart-shaped", "frill": 3}, HEM)
    told = design_changes(old, design(TOP, HEM))
    assert "“Top edge: scooped”: shape, from heart shaped to scooped" in told
    assert "“Top edge: scooped”: frill, from 3 to as usual" in told


def test_measurements_that_changed_are_told_with_both_amounts() -> None:
    girths = {"bust_girth": 88, "underbust_girth": 75, "waist_girth": 72, "hip_girth": 96, "back_neck_to_waist": 40}
    before = {"format": "panelwright-measurements/1", "ref": "w-07", "unit": "cm", "measurements": girths}
    after = {**before, "measurements": {**girths, "waist_girth": 73.5, "shoulder_length": 12}}
    told = wearer_changes(before, after)
    assert told == (
        "Waist girth: from 72.0 cm to 73.5 cm",
        "Shoulder length: from not measured to 12.0 cm",
    )
    assert wearer_changes(before, before) == ()


POINTS = [
    {"line": "side", "level": "hip"},
    {"line": "front-princess", "towards": "side", "fraction": 0.5, "level": "hip"},
    {"line": "centre-back", "level": "waist"},
]


@pytest.mark.parametrize(
    ("points", "told"),
    [
        (
            [POINTS[0], {**POINTS[1], "offset_cm": 1}, POINTS[2]],
            ["2 of the line, height, from hip to hip, 1.0 cm above"],
        ),
        (
            [{**POINTS[0], "level": "waist"}, POINTS[1], {**POINTS[2], "corner": True}],
            ["1 of the line, height, from hip to waist", "3 of the line, a sharp turn, from no to yes"],
        ),
        (
            [POINTS[0], {**POINTS[1], "fraction": 0.25}, POINTS[2]],
            ["2 of the line, share of the way there, from 0.5 to 0.25"],
        ),
        ([POINTS[0], POINTS[2]], ["2 of the line, taken out"]),
        ([*POINTS, {"line": "side", "level": "bust"}], ["4 of the line, added"]),
        (POINTS, []),
    ],
)
def test_free_points_are_told_by_their_numbers(points: list[Record], told: list[str]) -> None:
    found = design_changes(changed(points=POINTS), changed(points=points))
    assert list(found) == [f"“Hem: straight”: point {each}" for each in told]


@pytest.mark.parametrize(
    ("what", "told"),
    [
        ("Change Hem: straight", "Change Hem: shaped"),
        ("Hem: straight: drawn by hand", "Hem: shaped: drawn by hand"),
        ("Back to: Change Hem: straight", "Back to: Change Hem: straight"),  # that version is called so
        ("Hem: straight is too long", "Hem: straight is too long"),  # a maker's own words
        ("Change Top edge: scooped", "Change Top edge: scooped"),
    ],
)
def test_a_version_is_headed_with_the_name_that_its_change_gave_the_step(what: str, told: str) -> None:
    assert retold(what, BEFORE, changed(shape="shaped")) == told
    assert retold(what, BEFORE, BEFORE) == what


def test_of_two_steps_of_one_name_neither_is_headed_anew() -> None:
    twice = design(HEM, {**HEM, "uid": "low"})
    after = design(HEM, {**HEM, "uid": "low", "shape": "shaped"})
    assert retold("Change Hem: straight", twice, after) == "Change Hem: straight"
