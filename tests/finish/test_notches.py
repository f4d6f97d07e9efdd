from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_cutting_pattern import shell
from sewn_panels import panel, two_panels

from panelwright.finish.finishing import finish
from panelwright.finish.notches import APART, FROM_END, SIDE_APART, place_notches
from panelwright.finish.options import Finish
from panelwright.finish.seam_walk import SeamWalk
from panelwright.pattern.mark import Mark
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Notch, Seam, Span

WORN = {"waist": 180.0, "bust": 330.0}


def on(pattern: Pattern, seam: str, options: Finish | None = None) -> dict[str, Notch]:
    """The notches of a seam by what they are called."""
    return {
        notch.id.rpartition("/")[2]: notch
        for notch in place_notches(pattern, options or Finish())
        if notch.seam == seam
    }


# Where


def test_front_seams_take_single_notches_at_the_bust_point_and_the_waist() -> None:
    """Single on front seams; at the bust point on the princess seam (common practice, CP)."""
    found = on(shell(), "front-princess")
    assert {name: (notch.count, notch.level) for name, notch in found.items()} == {
        "bust": (1, "bust"),
        "waist": (1, "waist"),
    }
    pattern = shell()
    for name, notch in found.items():
        for chain, place in (
            (pattern.seam("front-princess").a, notch.at_a),
            (pattern.seam("front-princess").b, notch.at_b),
        ):
            _, at, _ = pattern.along_chain(chain, place)
            assert at[1] == pytest.approx({"bust": 150.0, "waist": 0.0}[name], abs=1e-6)


def test_back_seams_take_double_notches_at_the_waist_and_about_the_middle() -> None:
    found = on(shell(), "back-princess")
    assert {name: (notch.count, notch.level) for name, notch in found.items()} == {
        "waist": (2, "waist"),
        "middle": (2, None),
    }


def test_a_centre_back_seam_is_a_back_seam() -> None:
    pattern = shell()
    cb = pattern.piece("CB")
    sewn = replace(cb, edges=tuple(replace(e, kind="seam") if e.kind == "opening" else e for e in cb.edges))
    seams = tuple(replace(s, kind="join") if s.kind == "closure" else s for s in pattern.seams)
    pattern = replace(pattern.with_pieces(sewn), seams=seams)
    assert [notch.count for notch in on(pattern, "centre-back").values()] == [2, 2]


def test_closures_take_none() -> None:
    assert on(shell(), "centre-back") == {}


def test_darts_take_none() -> None:
    assert on(two_panels(front=WORN, back=WORN, kind="dart"), "front-seam") == {}


def test_the_side_seam_takes_one_where_no_other_seam_has_one() -> None:
    notches = place_notches(shell(), Finish())
    (side,) = [notch for notch in notches if notch.seam == "side"]
    assert (side.count, side.level) == (1, None)
    for other in notches:
        if other.seam != "side":
            assert abs(other.at_a - side.at_a) >= min(SIDE_APART)
    waist = SeamWalk.of(shell(), shell().seam("side"), ("waist",)).levels["waist"]
    assert abs(waist - side.at_a) >= min(SIDE_APART)


@given(st.lists(st.floats(16.0, 184.0), max_size=8))
@settings(max_examples=60)
def test_the_side_seams_notch_keeps_clear_whatever_the_others_are(places: list[float]) -> None:
    """Eight notches with 16 mm about each leave room on 170 mm of seam: 2 mm is the rule, 8 mm ours."""
    pattern = two_panels(200.0, region="side")
    front = [panel(f"P{k}", (50.0, 200.0), levels={"waist": y}) for k, y in enumerate(places)]
    seams = [
        Seam(f"front-{k}", "join", (Span(p.id, p.edges[1].id),), (Span(p.id, p.edges[3].id, 1, 0),), "front")
        for k, p in enumerate(front)
    ]
    front = [replace(p, edges=tuple(replace(e, line="hem") for e in p.edges)) for p in front]
    pattern = replace(pattern, pieces=(*pattern.pieces, *front), seams=(*pattern.seams, *seams))
    notches = place_notches(pattern, Finish())
    (side,) = [notch for notch in notches if notch.seam == "side-seam"]
    others = [notch.at_a for notch in notches if notch.seam != "side-seam"]
    assert len(others) == len(places)
    assert FROM_END <= side.at_a <= 200.0 - FROM_END
    assert all(abs(side.at_a - other) >= 8.0 for other in others)


def test_no_notch_lies_near_the_end_of_a_seam() -> None:
    levels = {"waist": FROM_END - 1.0, "bust": 400.0 - FROM_END + 1.0}
    assert list(on(two_panels(front=levels, back=levels), "front-seam")) == ["middle"]
    levels = {"waist": FROM_END, "bust": 400.0 - FROM_END}
    assert sorted(on(two_panels(front=levels, back=levels), "front-seam")) == ["bust", "waist"]


def test_a_seam_that_no_level_meets_is_notched_in_its_middle() -> None:
    (notch,) = on(two_panels(), "front-seam").values()
    assert (notch.at_a, notch.count, notch.level) == (200.0, 1, None)


def test_a_very_short_seam_takes_none() -> None:
    assert on(two_panels(2 * FROM_END - 1), "front-seam") == {}
    assert on(two_panels(2 * FROM_END - 1, region="side"), "side-seam") == {}


def test_a_level_that_a_neckline_cut_open_still_marks_its_place_without_its_name() -> None:
    pattern = two_panels(front=WORN, back=WORN)
    cut_open = replace(pattern, levels=tuple(level for level in pattern.levels if level.id != "bust"))
    notch = on(cut_open, "front-seam")["bust"]
    assert (notch.at_a, notch.level) == (330.0, None)


def test_a_bust_point_on_the_seam_marks_it_where_the_level_is_gone() -> None:
    marks = (Mark("bust-point", "point", (0.0, 310.0)),)
    notch = on(two_panels(front={"waist": 180.0}, back={"waist": 180.0}, marks=marks), "front-seam")["bust"]
    assert (notch.at_a, notch.level) == (310.0, None)


def test_a_bust_point_beside_the_seam_does_not_mark_it() -> None:
    """Its notch is its level on the seam."""
    marks = (Mark("bust-point", "point", (6.0, 310.0)),)
    assert "bust" not in on(two_panels(front={"waist": 180.0}, back={"waist": 180.0}, marks=marks), "front-seam")
    assert on(two_panels(front=WORN, back=WORN, marks=marks), "front-seam")["bust"].at_a == 330.0


def test_a_notch_that_would_crowd_a_more_important_one_is_left_out() -> None:
    levels = {"bust": 200.0, "waist": 200.0 - APART + 1.0}
    assert list(on(two_panels(front=levels, back=levels), "front-seam")) == ["bust"]


# Full busts


@pytest.mark.parametrize(("over", "extra"), [(199.0, False), (200.0, True), (240.0, True)])
def test_a_full_bust_gets_notches_above_and_below_its_point(over: float, extra: bool) -> None:
    """Bust minus underbust of 20 cm is full; extra notches 4 to 5 cm above and below (common practice, CP)."""
    levels = {**WORN, "underbust": 270.0}
    found = on(two_panels(front=levels, back=levels, bust_over_underbust=over), "front-seam")
    assert ("above-bust" in found, "below-bust" in found) == (extra, extra)
    if extra:
        assert found["above-bust"].at_a == 330.0 + 45.0
        assert found["below-bust"].at_a == 330.0 - 45.0
        assert found["above-bust"].level is None


def test_extra_notches_can_be_asked_for_or_left_out() -> None:
    levels = {**WORN, "underbust": 270.0}
    full = two_panels(front=levels, back=levels, bust_over_underbust=240.0)
    assert len(on(full, "front-seam", Finish(extra_notches="never"))) == 2
    found = on(shell(), "front-princess", Finish(extra_notches="always", notch_distance=30.0))
    assert found["bust"].at_a - found["below-bust"].at_a == pytest.approx(30.0)


def test_extra_notches_beyond_the_neckline_are_left_out() -> None:
    found = on(two_panels(front={"bust": 370.0}, back={"bust": 370.0}), "front-seam", Finish(extra_notches="always"))
    assert sorted(found) == ["below-bust", "bust"]


# Both sides of a seam


@given(
    st.floats(-12.0, 12.0),
    st.floats(0.8, 1.5),
    st.floats(60.0, 150.0),
    st.floats(200.0, 340.0),
    st.floats(-9.0, 9.0),
    st.floats(-9.0, 9.0),
)
@settings(max_examples=150)
def test_ease_is_taken_up_steadily_along_a_seam(
    ease: float, ratio: float, waist: float, bust: float, off_waist: float, off_bust: float
) -> None:
    """Rule 5: at_b − at_a · ratio grows from 0 to the seam's ease and never turns back."""
    back = {"waist": waist * ratio + off_waist, "bust": bust * ratio + off_bust}
    pattern = two_panels(400.0, ease, ratio, {"waist": waist, "bust": bust}, back)
    found = on(pattern, "front-seam", Finish(extra_notches="always"))
    shares = [0.0, *(n.at_b - n.at_a * ratio for n in sorted(found.values(), key=lambda n: n.at_a)), ease]
    steps = [(b - a) * (1 if ease >= 0 else -1) for a, b in pairwise(shares)]
    assert min(steps) >= -1e-9


def test_ease_lies_where_the_levels_of_both_sides_say() -> None:
    """6 mm eased in between waist and bust: none below the waist, all of it above the bust, half in between."""
    pattern = two_panels(400.0, 6.0, 1.0, {"waist": 100.0, "bust": 300.0}, {"waist": 100.0, "bust": 306.0})
    walk = SeamWalk.of(pattern, pattern.seam("front-seam"), ("waist", "bust"))
    places = {50.0: 50.0, 100.0: 100.0, 200.0: 203.0, 300.0: 306.0, 350.0: 356.0, 400.0: 406.0}
    assert {place: walk.partner(place) for place in places} == pytest.approx(places)
    found = on(pattern, "front-seam")
    assert (found["bust"].at_a, found["bust"].at_b) == pytest.approx((300.0, 306.0), abs=1e-9)


def test_ease_without_levels_is_spread_evenly() -> None:
    (notch,) = on(two_panels(400.0, 8.0, 1.5), "front-seam").values()
    assert (notch.at_a, notch.at_b) == (200.0, 304.0)


def test_both_sides_of_a_notch_meet_when_the_seam_is_sewn() -> None:
    """Walked from the start along each drawn edge, both ticks stand at the same length of seam."""
    pattern = shell()
    for notch in place_notches(pattern, Finish(extra_notches="always")):
        assert notch.at_a == pytest.approx(notch.at_b)


# Attached pieces


def banded() -> Pattern:
    """A band of 400 mm sewn to the hems of two panels of 160 and 240 mm."""
    one = panel("A", (160.0, 200.0), ("lower", "front-seam", "top", "cf"), ("seam", "seam", "finished", "finished"))
    two = panel("B", (240.0, 200.0), ("lower", "cb", "top", "front-seam"), ("seam", "finished", "finished", "seam"))
    band = panel("W", (400.0, 50.0), ("edge", "cb", "lower", "cf"), ("finished", "finished", "seam", "finished"))
    pattern = two_panels()
    joined = Seam("front-seam", "join", (Span("A", "A.front-seam"),), (Span("B", "B.front-seam", 1, 0),), "front")
    sewn = Seam("band", "attach", (Span("A", "A.lower"), Span("B", "B.lower")), (Span("W", "W.lower", 1, 0),), "front")
    lines = tuple(replace(pattern.lines[0], id=id) for id in ("lower", "front-seam", "top", "cf", "cb", "edge"))
    return replace(pattern, pieces=(one, two, band), seams=(joined, sewn), lines=lines, levels=())


def test_a_band_is_notched_where_the_panels_seams_meet_it() -> None:
    (notch,) = on(banded(), "band").values()
    assert (notch.at_a, notch.at_b, notch.count, notch.level) == (160.0, 160.0, 1, None)


def test_the_panels_own_corner_is_not_marked_there() -> None:
    cutting = finish(banded())
    marks = {id: [mark.notch for mark in cut.notches] for id, cut in cutting.cut.items()}
    assert marks == {"A": ["front-seam/middle"], "B": ["front-seam/middle"], "W": ["band/seam-1"]}
    (mark,) = cutting.cut["W"].notches
    assert mark.at == pytest.approx((160.0, 50.0))
    assert mark.to == pytest.approx((160.0, 60.0))


def test_the_joints_may_be_on_either_side() -> None:
    pattern = banded()
    band = pattern.seam("band")
    turned = replace(pattern, seams=(pattern.seams[0], replace(band, a=band.b, b=band.a)))
    (notch,) = on(turned, "band").values()
    assert (notch.at_a, notch.at_b) == (160.0, 160.0)


def test_something_attached_to_one_edge_is_notched_in_its_middle() -> None:
    assert on(two_panels(front=WORN, back=WORN, kind="attach"), "front-seam")["middle"].at_a == 200.0


# Layers


def test_a_facing_has_the_notches_of_its_outer_pieces_and_interfacing_none() -> None:
    cutting = finish(shell(), Finish(facing="full", interfacing=True))
    own = {notch.id: notch for notch in cutting.notches if not notch.id.startswith("facing/")}
    faced = {notch.id: notch for notch in cutting.notches if notch.id.startswith("facing/")}
    assert len(own) == len(faced) == 5
    for id, notch in own.items():
        assert faced[f"facing/{id}"] == replace(notch, id=f"facing/{id}", seam=f"facing/{notch.seam}")
    assert all(not cut.notches for id, cut in cutting.cut.items() if id.endswith("interfacing"))
