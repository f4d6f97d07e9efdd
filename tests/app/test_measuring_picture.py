"""The pictures of how a wearer is measured: the tape lies where the figure has that measurement."""

import re
from itertools import pairwise
from xml.etree import ElementTree

import numpy as np
import pytest
import shapely

from panelwright.app.measuring_figure import measuring_figure, outlines, seen
from panelwright.app.measuring_picture import PAGE, TAPE, measuring_drawing, measuring_picture
from panelwright.app.measuring_places import SHOWN
from panelwright.body.measurement_file import FIELDS
from panelwright.body.term import TermId
from panelwright.body.terms import TERMS
from panelwright.drawing.drawing import Stroke
from panelwright.errors import InputError
from panelwright.geometry.arrays import Array


def _tape(term: str, width: float = PAGE[0], height: float = PAGE[1]) -> Array:
    """The strong line of a picture, mm on paper; the longest where there are several."""
    drawing = measuring_drawing(FIELDS[term], width, height)
    widest = max(sign.pen.width for sign in drawing if isinstance(sign, Stroke))
    tapes = [sign.path.points for sign in drawing if isinstance(sign, Stroke) and sign.pen.width == widest]
    return max(tapes, key=len)


def _height(term: str) -> float:
    return float(np.ptp(_tape(term)[:, 1]))


@pytest.mark.parametrize("name", list(FIELDS))
def test_every_measurement_has_a_picture_of_its_own(name: str) -> None:
    text = measuring_picture(name)
    root = ElementTree.fromstring(text)
    assert root.tag.endswith("svg")
    assert FIELDS[name].label in text
    others = {measuring_picture(other) for other in FIELDS if other != name}
    assert text not in others
    drawing = measuring_drawing(FIELDS[name], *PAGE)
    left, bottom, right, top = drawing.bounds
    assert min(left, bottom, PAGE[0] - right, PAGE[1] - top) > 0.0
    assert re.search(r"https?://(?!www\.w3\.org)", text) is None


def test_girths_lie_one_above_the_other_as_on_the_body() -> None:
    order = ("hip_girth", "top_hip_girth", "waist_girth", "underbust_girth", "bust_girth", "upper_bust_girth")
    heights = [_tape(term)[:, 1].min() for term in order]
    assert heights == sorted(heights)
    assert len(set(heights)) == len(heights)


def test_lengths_are_drawn_in_the_proportion_of_the_figure() -> None:
    wearer = measuring_figure().wearer
    assert _height("waist_to_hip") / _height("waist_to_top_hip") == pytest.approx(
        wearer["waist_to_hip"] / wearer["waist_to_top_hip"], rel=0.08
    )
    across = np.ptp(_tape("across_back")[:, 0]) / np.ptp(_tape("across_front")[:, 0])
    assert across == pytest.approx(
        wearer["across_back"] / wearer["across_front"], rel=0.02
    )  # the views differ a little in scale


def test_arms_are_measured_on_the_arms_of_the_figure() -> None:
    """The arm is as long as the wearer's; the wrist lies at its end, the fullest part in its upper half."""
    figure = measuring_figure()
    shoulder = np.array([figure.upper.shoulder_point[0], 0.0, figure.upper.shoulder_point[1]])
    joints = [shoulder, *(np.array(joint[:3]) for joint in figure.arm[1:3])]
    along = sum(float(np.linalg.norm(b - a)) for a, b in pairwise(joints))
    assert along == pytest.approx(figure.wearer["arm_length"], abs=0.5)
    tapes = {term: seen(_places(term), "front") for term in ("upper_arm_girth", "wrist_girth", "arm_length")}
    arm = outlines("front")[0]
    for term in ("upper_arm_girth", "wrist_girth"):
        assert shapely.Polygon(tapes[term]).centroid.within(arm), term
    top, wrist = tapes["arm_length"][0], tapes["arm_length"][-1]
    assert tapes["wrist_girth"][:, 1].mean() == pytest.approx(wrist[1], abs=15.0)
    share = (top[1] - tapes["upper_arm_girth"][:, 1].mean()) / (top[1] - wrist[1])
    assert 0.15 < share < 0.45


def _places(term: TermId) -> Array:
    shown = SHOWN[term](measuring_figure())
    return shown.round if shown.round is not None else shown.tapes[0][0]


def test_the_figure_is_as_tall_as_its_stature() -> None:
    figure = measuring_figure()
    whole = shapely.union_all(outlines("front", whole=True))
    assert whole.bounds[3] - whole.bounds[1] == pytest.approx(figure.wearer["stature"], rel=0.03)
    assert outlines("front")[0].bounds[1] > figure.floor / 2


def test_the_wearers_right_is_on_the_left_of_a_front_view() -> None:
    right = np.array([[100.0, 0.0, 0.0]])
    assert seen(right, "front")[0, 0] == pytest.approx(-100.0)
    assert seen(right, "back")[0, 0] == pytest.approx(100.0)
    front = np.array([[0.0, 100.0, 0.0]])
    assert seen(front, "side")[0, 0] == pytest.approx(100.0)


def test_a_small_picture_has_finer_lines() -> None:
    drawing = measuring_drawing(TERMS["waist_girth"], 26.0, 30.5)
    widths = [sign.pen.width for sign in drawing if isinstance(sign, Stroke)]
    assert max(widths) == pytest.approx(TAPE.width * 0.45, rel=0.01)


def test_an_unknown_measurement_is_refused() -> None:
    with pytest.raises(InputError, match="not a measurement"):
        measuring_picture("../waist_girth")
