"""Swinging a dart: its angle is kept, what is moved moves rigidly, and everything still sews together."""

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.sewing_rules import faults
from surgery.surgery_garment import bare, edges, made, reason, replayed

from panelwright.checks.allowance import check_allowances
from panelwright.design.dart import Dart, dart_on
from panelwright.design.dart_mouth import MouthCorner
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge
from panelwright.pattern.seam import Seam, Span

FRONT: dict[str, Any] = {"kind": "join", "uid": "front", "seam": "front-princess", "misfit": "dart"}
TO: dict[str, Any] = {"kind": "swing", "uid": "to", "dart": "front/dart"}
SIDE, NECK, HEM = (
    {"line": line, "fraction": share} for line, share in (("side", 0.6), ("neck/line", 0.25), ("hem/line", 0.8))
)
PLACES = st.one_of(
    st.builds(lambda share: {"line": "side", "fraction": share}, st.floats(0.1, 0.9)),
    st.builds(lambda share: {"line": "neck/line", "fraction": share}, st.floats(0.05, 0.35)),
    st.builds(lambda share: {"line": "hem/line", "fraction": share}, st.floats(0.6, 0.95)),
)


def angle(dart: Dart) -> float:
    """At the pivot between the ends of the mouth, by the law of cosines."""
    at, (one, other) = dart.pivot, dart.mouth
    a, b, c = math.dist(at, one), math.dist(at, other), math.dist(one, other)
    return math.acos((a * a + b * b - c * c) / (2 * a * b))


def before() -> Dart:
    return dart_on(made(FRONT, hem="waist"), "front/dart")


@settings(max_examples=20)
@given(PLACES)
def test_the_whole_dart_keeps_its_angle_and_its_pivot(place: dict[str, Any]) -> None:
    result = replayed([*edges("waist"), FRONT, {**TO, "to": place}])
    if result.outcomes[-1].state == "failed":
        assert any(
            said in result.outcomes[-1].reason
            for said in ("is seen from the point", "lap over itself", "from a corner")
        )
        return
    pattern = result.pattern
    assert faults(pattern) == []
    assert {seam.id for seam in pattern.seams if seam.kind == "dart"} == {"to/dart"}
    dart = dart_on(pattern, "to/dart")
    assert angle(dart) == pytest.approx(angle(before()), abs=1e-9)
    assert dart.pivot == pytest.approx(before().pivot, abs=1e-9)
    assert not any(line.id == "front/dart" for line in pattern.lines)


@settings(max_examples=15)
@given(st.floats(0.15, 0.85), st.floats(0.6, 3.0), st.sampled_from(["side", "hem"]))
def test_two_darts_share_one_angle(share: float, back: float, where: str) -> None:
    place = SIDE if where == "side" else HEM
    result = replayed([*edges("waist"), FRONT, {**TO, "to": place, "share": share, "point_back_cm": round(back, 3)}])
    if result.outcomes[-1].state == "failed":
        assert any(
            said in result.outcomes[-1].reason
            for said in ("wide at its new mouth", "lap over itself", "cross itself", "from a corner")
        )
        return
    darts = [dart_on(result.pattern, line) for line in ("front/dart", "to/dart")]
    assert faults(result.pattern) == []
    whole = angle(before())
    assert [angle(dart) for dart in darts] == pytest.approx([(1 - share) * whole, share * whole], abs=1e-9)
    for dart in darts:
        assert math.dist(dart.point, dart.pivot) == pytest.approx(10 * round(back, 3), abs=1e-6)
        assert dart.pivot == pytest.approx(before().pivot, abs=1e-9)


def test_a_dart_that_goes_out_and_comes_back_lies_where_it_lay() -> None:
    out = {**TO, "to": SIDE}
    mouth = before().mouth
    hem = made(FRONT, hem="waist").piece("CF").on_line("hem/line")
    # Its old mouth lies between two parts of the hem; the first, from the centre front, is as long as to the mouth.
    first = min(hem, key=lambda edge: edge.interval)
    back = {**TO, "uid": "again", "dart": "to/dart", "to": {"line": "hem/line", "distance_cm": first.curve.length / 10}}
    assert "clear" in reason(FRONT, out, back, hem="waist")  # the two parts of the hem meet in a corner there
    near = {**back, "to": {**back["to"], "distance_cm": first.curve.length / 10 + 1.3}}
    after = dart_on(made(FRONT, out, near, hem="waist"), "again/dart")
    assert angle(after) == pytest.approx(angle(before()), abs=1e-9)
    assert math.dist(after.mouth[0], after.mouth[1]) == pytest.approx(math.dist(*mouth), rel=0.12)


def test_what_is_moved_moves_rigidly_and_the_fold_stays() -> None:
    old, new = made(FRONT, hem="waist"), made(FRONT, {**TO, "to": SIDE}, hem="waist")
    folds = [next(edge for edge in pattern.piece("CF").edges if edge.kind == "fold") for pattern in (old, new)]
    assert folds[0].curve == folds[1].curve
    # The side seam is cut in two; both parts keep their shape, and sew to the side back as the whole did.
    parts = new.piece("CF").on_line("side")
    assert sum(part.curve.length for part in parts) == pytest.approx(old.piece("CF").on_line("side")[0].curve.length)
    assert len(new.seam("side").a) == 2
    assert new.piece("SB") == old.piece("SB")
    placements = {region.placement for region in new.piece("CF").material if region.panel == "SF"}
    assert len(placements) == 2
    turns = [placement.angle for placement in placements]
    assert abs(turns[0] - turns[1]) == pytest.approx(angle(before()), abs=1e-9)


def test_girths_change_by_what_the_closed_legs_leave_open_and_say_so() -> None:
    old, new = made(FRONT, hem="waist"), made(FRONT, {**TO, "to": SIDE}, hem="waist")
    assert new.level("bust").finished_girth == pytest.approx(old.level("bust").finished_girth, abs=1e-6)
    gained = new.level("underbust").ease - old.level("underbust").ease
    assert gained > 0  # the legs bulge towards each other below the bust, so closing them on end leaves cloth there
    assert new.level("waist").ease == pytest.approx(old.level("waist").ease, abs=0.5)


def test_a_shared_dart_is_swung_on_from_its_pivot() -> None:
    half = {**TO, "to": SIDE, "share": 0.5}
    pattern = made(FRONT, half, {**TO, "uid": "rest", "to": NECK}, hem="waist")
    assert faults(pattern) == []
    values = [angle(dart_on(pattern, line)) for line in ("to/dart", "rest/dart")]
    assert values == pytest.approx([angle(before()) / 2] * 2, abs=1e-9)


@pytest.mark.parametrize(
    ("step", "said"),
    [
        ({**TO, "dart": "side", "to": SIDE}, "side is no dart"),
        ({**TO, "to": {"line": "centre-front", "fraction": 0.5}}, "into the fold"),
        ({**TO, "to": {"line": "back-princess", "fraction": 0.5}}, "no edge on the line"),
        ({**TO, "to": {"line": "front/dart", "fraction": 0.5}}, "into its own leg"),
        ({**TO, "to": {"line": "side", "fraction": 0.001}}, "from a corner"),
        ({**TO, "to": SIDE, "share": 0.5, "point_back_cm": 0}, "cloth between their points"),
        ({**TO, "to": SIDE, "point_back_cm": 9.9}, "cannot be drawn back"),
    ],
)
def test_what_cannot_be_swung_says_why(step: dict[str, Any], said: str) -> None:
    assert said in reason(FRONT, step, hem="waist")


def test_a_dart_needs_a_dart() -> None:
    assert "join two panels with a dart first" in reason({**TO, "dart": "side", "to": SIDE})
    result = replayed([*edges(), {**TO, "to": SIDE}])
    assert result.outcomes[-1].state == "waiting"


def test_edges_of_the_plain_piece_stay() -> None:
    assert np.allclose(
        bare("waist").piece("CB").vertices, made(FRONT, {**TO, "to": SIDE}, hem="waist").piece("CB").vertices
    )


def test_a_dart_of_one_side_is_swung_after_unfolding() -> None:
    both = {"kind": "unfold", "uid": "both"}
    left = {**TO, "dart": "front/dart/left", "to": {**SIDE, "side": "left"}}
    pattern = made(FRONT, both, left, hem="waist")
    assert faults(pattern) == []
    darts = [dart_on(pattern, line) for line in ("front/dart", "to/dart")]
    assert [angle(dart) for dart in darts] == pytest.approx([angle(before())] * 2, abs=1e-9)
    assert pattern.seam("side/left").a[0].piece != pattern.seam("side").b[0].piece
    assert len(pattern.seam("side").a) + len(pattern.seam("side").b) == 2


def test_an_edge_is_drawn_before_its_piece_is_slashed() -> None:
    late = {**edges("waist")[0], "uid": "late", "centre": {"level": "bust", "offset_cm": 2}}
    low = {**late, "shape": "scooped", "side": {"level": "upper-bust", "offset_cm": -1.5}}
    assert "was slashed" in reason(FRONT, {**TO, "to": SIDE}, low, hem="waist")


@pytest.mark.parametrize("share", [0.3, 0.5])
def test_a_slanting_dart_keeps_the_allowances_of_its_edge(share: float) -> None:
    step = {**TO, "to": {"line": "neck/line", "fraction": 0.2}, "share": share}
    assert check_allowances(finish(made(FRONT, step, hem="waist"), Finish(allowance=15.0))) == ()


def test_a_dart_is_not_swung_on_through_the_point_of_another() -> None:
    part, rest = {**TO, "to": SIDE, "share": 0.4}, {**TO, "uid": "rest", "to": NECK}
    on = {**TO, "uid": "on", "dart": "to/dart", "to": {"line": "side", "fraction": 0.3}}
    assert "turns, 2.0 cm before its point, the dart would cross another dart or edge" in reason(
        FRONT, part, rest, on, hem="waist"
    )


@settings(max_examples=10)
@given(st.floats(0.15, 0.8))
def test_what_is_left_of_a_dart_is_open_as_far_as_its_point(share: float) -> None:
    """Half of this dart's angle is taken by the bulge of its legs near the point, so they crossed there."""
    pattern = made(FRONT, {**TO, "to": SIDE, "share": round(share, 3)}, hem="waist")
    assert faults(pattern) == []
    dart = dart_on(pattern, "front/dart")
    chords = dart.mouth[0] - dart.point, dart.mouth[1] - dart.point
    whole = math.acos(chords[0] @ chords[1] / np.linalg.norm(chords[0]) / np.linalg.norm(chords[1]))
    length = dart.first.curve.length
    for back in (0.5, 2.0, 10.0, 40.0):
        one, other = dart.first.curve.point(length - back) - dart.point, dart.second.curve.point(back) - dart.point
        assert math.atan2(one[0] * other[1] - one[1] * other[0], one @ other) > 0.2 * whole


def test_a_dart_too_much_aslant_for_the_room_beside_it_says_how_much_there_is() -> None:
    step = {**TO, "to": {"line": "neck/line", "distance_cm": 2}, "share": 0.2}
    said = reason(FRONT, step, hem="waist")
    assert "leave the neck edge at 31°" in said
    assert "of 2.0 cm to the next corner, and 0.7 cm is the most" in said


@settings(max_examples=15)
@given(st.floats(0.2, 1.4), st.floats(10.0, 40.0), st.floats(20.0, 80.0))
def test_a_slanting_mouth_is_cut_short_over_what_the_closed_form_says(
    slant: float, mouth: float, length: float
) -> None:
    """Beside a straight edge the middle line reaches the height of the allowance 15 / tan of the slant from the mouth's
    middle."""
    corner, middle = np.array([mouth / 2, 0.0]), np.array([math.cos(slant), math.sin(slant)])
    legs = Curve.straight(-corner, -60.0 * middle), Curve.straight(-60.0 * middle, corner)
    first, second = (
        Edge(f"P.{side}", "dart", side, "seam", leg) for side, leg in zip(("left", "right"), legs, strict=True)
    )
    seam = Seam("dart", "dart", (Span("P", first.id),), (Span("P", second.id, 1.0, 0.0),), "front")
    hem = Edge("P.hem", "hem", "right", "finished", Curve.straight(corner, (mouth / 2 + length, 0.0)))
    found = MouthCorner(
        Dart(bare().piece("SF"), first, second, seam), hem, corner, np.array([1.0, 0.0]), np.array([0.0, 1.0])
    )
    assert found.slant == pytest.approx(slant, abs=1e-9)
    assert found.cut_short == pytest.approx(15.0 / math.tan(slant) - mouth / 2, abs=1e-6)
    assert found.most == pytest.approx(min(15.0, length / 3))
