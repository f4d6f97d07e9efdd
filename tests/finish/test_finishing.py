import copy
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_cutting_pattern import shell
from shapely import Polygon
from verifier import violations

from panelwright.errors import InputError
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.finish.options import Cloths, Finish
from panelwright.geometry.curve import Curve
from panelwright.output.pattern_file import pattern_to_json
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

OPTIONS = {
    "plain": Finish(),
    "deep hem": Finish(lines={"hem": 25, "centre-back": 15}),
    "mitred hem": Finish(lines={"hem": 40}, corners={"turned_edge": "mitre"}),
    "faced": Finish(facing="full", interfacing=True),
    "faced in one cloth": Finish(facing="full", cloths=Cloths(facing="outer")),
    "squared": Finish(facing="full", corners={"seam_end": "square", "other": "square"}),
    "full bust": Finish(extra_notches="always"),
    "bare": Finish(allowance=0.0),
    "wide": Finish(allowance=25.0, lines={"hem": 60}),
}


def below_the_bust(pattern: Pattern, piece: Piece) -> Pattern:
    """The pattern with a piece that is cut open above the bust line: that level is no more."""
    levels = tuple(level for level in pattern.levels if level.id != "bust")
    pieces = tuple(piece if other.id == piece.id else other for other in pattern.pieces)
    return replace(pattern, pieces=pieces, levels=levels)


def square_neckline() -> Pattern:
    """The centre front cut out to a corner 60 mm below its top edge: a hollow corner and a new outer one."""
    pattern = shell()
    piece = pattern.piece("CF")
    hem, fold, top, princess = piece.edges
    arc = top.curve.length * 0.55
    corner, high = (float(top.curve.point(arc)[0]), 140.0), top.curve.point(arc)
    low = (0.0, 140.0)
    edges = (
        hem,
        replace(fold, curve=Curve.straight(fold.curve.start, low)),
        replace(top, id="CF.top", curve=Curve.straight(low, corner), pointed_end=True),
        replace(top, id="CF.top-2", curve=Curve.straight(corner, high), pointed_end=True),
        replace(top.part(arc, top.curve.length), id="CF.top-3"),
        princess,
    )
    inside = tuple(line for line in piece.inside if line.id != "bust")
    cut = Piece.closed(
        edges, id="CF", label=piece.label, extent=piece.extent, hand=piece.hand, grain=piece.grain,
        inside=inside, marks=piece.marks, material=piece.material,
    )  # fmt: skip
    return below_the_bust(pattern, cut)


def v_neckline() -> Pattern:
    """A point at the centre front, as steep as its allowances bear: 42° to the level."""
    pattern = shell()
    piece = pattern.piece("CF")
    hem, fold, top, princess = piece.edges
    low = (0.0, 122.0)
    edges = (
        hem,
        replace(fold, curve=Curve.straight(fold.curve.start, low), pointed_end=True),
        replace(top, curve=Curve.straight(low, top.curve.end), pointed_end=True),
        princess,
    )
    inside = tuple(line for line in piece.inside if line.id != "bust")
    return below_the_bust(pattern, replace(piece, edges=edges, inside=inside))


WIDTHS = st.just(0.0) | st.floats(0.05, 30.0)
PATTERNS: dict[str, Callable[[], Pattern]] = {"blended": shell, "square": square_neckline, "v": v_neckline}


def document(pattern: Pattern, options: Finish) -> dict[str, Any]:
    return pattern_to_json(finish(pattern, options), [])


@pytest.mark.parametrize("options", OPTIONS.values(), ids=OPTIONS.keys())
@pytest.mark.parametrize("make", PATTERNS.values(), ids=PATTERNS.keys())
def test_the_outside_verifier_finds_nothing_to_say(make: Callable[[], Pattern], options: Finish, shared: Path) -> None:
    assert violations(shared, document(make(), options)) == []


# Each rule that finishing touches, proved by breaking just that


def rule_1_cut_span(data: dict[str, Any]) -> None:
    data["pieces"][1]["cut_spans"][0]["edge"] = "SF.nowhere"


def rule_5_place(data: dict[str, Any]) -> None:
    data["notches"][0]["at_b"] += 0.2


def rule_5_count(data: dict[str, Any]) -> None:
    next(n for n in data["notches"] if n["seam"] == "back-princess")["count"] = 1


def rule_5_side(data: dict[str, Any]) -> None:
    place = next(n for n in data["notches"] if n["seam"] == "back-princess")["at_a"]
    side = next(n for n in data["notches"] if n["seam"] == "side")
    side["at_a"] = side["at_b"] = place + 1.0


def rule_5_side_of_a_layer(data: dict[str, Any]) -> None:
    place = next(n for n in data["notches"] if n["seam"] == "facing/back-princess")["at_a"] + 30.0
    next(n for n in data["notches"] if n["seam"] == "facing/back-princess").update(at_a=place, at_b=place, level=None)
    side = next(n for n in data["notches"] if n["seam"] == "side")
    side["at_a"] = side["at_b"] = place - 1.0


def rule_6_fold(data: dict[str, Any]) -> None:
    next(e for e in data["pieces"][0]["edges"] if e["kind"] == "fold")["allowance"] = 10.0


def rule_8_shifted(data: dict[str, Any]) -> None:
    data["pieces"][1]["cut_line"] = [[x + 0.3, y] for x, y in data["pieces"][1]["cut_line"]]


def rule_8_another_width(data: dict[str, Any]) -> None:
    next(e for e in data["pieces"][2]["edges"] if e["line"] == "side")["allowance"] += 0.2


def rule_8_crossing(data: dict[str, Any]) -> None:
    line = data["pieces"][1]["cut_line"]
    line[0], line[2] = line[2], line[0]


def rule_8_beyond_the_fold(data: dict[str, Any]) -> None:
    line = data["pieces"][0]["cut_line"]
    k = max(range(len(line)), key=lambda k: line[k][1] if abs(line[k][0]) < 1e-6 else -1e9)
    line[k] = [1.0, line[k][1]]


def rule_9_grain(data: dict[str, Any]) -> None:
    data["pieces"][1]["grain"][1][1] += 400.0


def rule_10_mode(data: dict[str, Any]) -> None:
    data["pieces"][0]["cut"][0]["mode"] = "pair"


def rule_10_odd_pair(data: dict[str, Any]) -> None:
    data["pieces"][1]["cut"][0]["count"] = 3


def rule_10_no_cut(data: dict[str, Any]) -> None:
    data["pieces"][-1]["cut"] = []


MUTATIONS = [
    rule_1_cut_span, rule_5_place, rule_5_count, rule_5_side, rule_5_side_of_a_layer, rule_6_fold, rule_8_shifted,
    rule_8_another_width, rule_8_crossing, rule_8_beyond_the_fold, rule_9_grain, rule_10_mode, rule_10_odd_pair,
    rule_10_no_cut,
]  # fmt: skip


@pytest.mark.parametrize("mutation", MUTATIONS, ids=lambda mutation: mutation.__name__)
def test_breaking_one_thing_breaks_its_rule(mutation: Callable[[dict[str, Any]], None], shared: Path) -> None:
    data = copy.deepcopy(document(shell(), Finish(facing="full", interfacing=True)))
    mutation(data)
    found = violations(shared, data)
    rule = int(mutation.__name__.split("_")[1])
    assert any(line.split("|")[0].split()[1] == str(rule) for line in found)


# Whatever the widths are


@given(name=st.sampled_from(sorted(PATTERNS)), seam=WIDTHS, hem=WIDTHS, faced=st.booleans())
@settings(max_examples=40)
def test_any_widths_obey_rule_8(name: str, seam: float, hem: float, faced: bool, shared: Path) -> None:
    options = Finish(allowance=seam, lines={"hem": hem}, facing="full" if faced else "none")
    assert violations(shared, document(PATTERNS[name](), options)) == []


@given(WIDTHS, WIDTHS)
@settings(max_examples=40)
def test_cut_lines_are_simple_contain_their_pieces_and_meet_the_fold(seam: float, hem: float) -> None:
    cutting = finish(shell(), Finish(allowance=seam, lines={"hem": hem}))
    for piece, cut in cutting.pieces:
        area = Polygon(cut.cut_line)
        assert area.is_valid
        assert area.exterior.is_ccw
        assert area.buffer(0.03).contains(piece.outline)
    assert cutting.cut["CF"].cut_line[:, 0].max() == pytest.approx(0.0, abs=1e-9)


# Together


@pytest.fixture(scope="module")
def cutting() -> CuttingPattern:
    return finish(shell(), Finish(facing="full", interfacing=True))


def test_every_piece_has_its_cutting_side(cutting: CuttingPattern) -> None:
    assert list(cutting.cut) == [piece.id for piece in cutting.pattern.pieces]
    for piece, cut in cutting.pieces:
        edges = {edge.id for edge in piece.edges}
        assert cut.piece == piece.id
        assert cut.allowances.keys() == cut.corners.keys() == edges
        assert {span.edge for span in cut.spans} == edges
        assert all(0 <= span.first < len(cut.cut_line) and 0 <= span.last < len(cut.cut_line) for span in cut.spans)


def test_interfacing_ends_on_the_stitch_line(cutting: CuttingPattern) -> None:
    for piece, cut in cutting.pieces:
        if piece.layer == "interfacing":
            assert Polygon(cut.cut_line).symmetric_difference(piece.outline).area < 0.02 * piece.outline.length


def test_allowances_of_two_sewn_edges_are_alike(cutting: CuttingPattern) -> None:
    for seam in cutting.pattern.seams:
        if seam.kind == "join":
            widths = {cutting.cut[span.piece].allowances[span.edge] for span in seam.a + seam.b}
            assert len(widths) == 1


def test_cut_edges_of_a_seam_differ_by_what_the_turning_says() -> None:
    """Mated curved edges: the cut edge is longer than the stitch line by s · θ, θ the angle it turns (geometry)."""
    pattern = shell()
    cutting = finish(pattern, Finish(facing="full"))
    piece, cut = pattern.piece("SF"), cutting.cut["SF"]
    edge = piece.edge("SF.side")
    run = next(span for span in cut.spans if span.edge == edge.id)
    points = cut.cut_line[
        np.arange(run.first, run.last + (len(cut.cut_line) if run.last < run.first else 0) + 1) % len(cut.cut_line)
    ]
    feet = shapely.line_locate_point(shapely.linestrings(edge.curve.polyline(0.001)), shapely.points(points))
    own = points[(feet > 20) & (feet < edge.curve.length - 20)]
    a, b = (edge.curve.nearest(point)[0] for point in (own[0], own[-1]))
    ta, tb = edge.curve.tangent(a), edge.curve.tangent(b)
    turned = float(np.arctan2(ta[0] * tb[1] - ta[1] * tb[0], ta @ tb))
    length = float(np.linalg.norm(np.diff(own, axis=0), axis=1).sum())
    assert length == pytest.approx(b - a + 10.0 * turned, abs=0.05)
    assert abs(turned) > 0.01


def test_scaled_up_without_allowance_the_cutting_pattern_is_the_same_shape() -> None:
    cutting = finish(shell(), Finish(allowance=0.0))
    for piece, cut in cutting.pieces:
        assert Polygon(cut.cut_line).area == pytest.approx(piece.outline.area, rel=1e-4)


def test_the_same_pattern_and_options_give_the_same_result_twice() -> None:
    one, other = (finish(shell(), OPTIONS["faced"]) for _ in range(2))
    assert one.pattern == other.pattern
    assert one.notches == other.notches
    assert all((one.cut[id].cut_line == other.cut[id].cut_line).all() for id in one.cut)


def test_an_allowance_for_no_line_is_refused() -> None:
    with pytest.raises(InputError, match="which is no line of this pattern"):
        finish(shell(), Finish(lines={"yoke": 10}))
