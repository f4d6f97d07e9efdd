"""The rules of the cutting table, each held against garments that the program makes; every check names its source.

CP: common practice. G: geometry, derivable. MEM: from memory, unverified: no test lets such a rule fail a user.
R: read in the named source. Lengths and angles are measured in pattern files with a ruler of our own.
"""

import ast
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
from measured_pattern import MeasuredPattern, length
from worn_garment import HEM, STRAPS, TOP, WEARER, Record, block, closure, garment

from panelwright.app.lay import lays_of
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions, Ease
from panelwright.body.measurements import Measurements
from panelwright.body.size_table import size
from panelwright.body.terms import TERMS
from panelwright.checks import Wearing, check
from panelwright.checks.wearer_ease import check_ease
from panelwright.checks.wearer_estimates import FIRST
from panelwright.design.replay import Design, replay
from panelwright.design.step_file import steps_from_json
from panelwright.drawing.piece_drawing import draw_pieces
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.unrolled import rows
from panelwright.finish.cutting_list import cutting_lists
from panelwright.finish.finishing import finish
from panelwright.finish.options import Cloths, Finish
from panelwright.lay.cloth import Cloth
from panelwright.output.pattern_document import pattern_to_json
from panelwright.pattern.pattern import Pattern

LEVEL_TOP = {**TOP, "shape": "straight", "centre": {"level": "upper-bust", "offset_cm": -1}}
ZIPPED = closure("centre-back", "zip")
TIE = {"kind": "tie", "uid": "tie", "from": "side"}
FACED = Finish(facing="full")
# Rules that other tests prove: rule -> file and test.
ELSEWHERE = {
    "half pattern = (girth + ease) / 2 (G)": "reference/test_main_job.py::test_half_pattern_is_half_of_girth_and_ease",
    "more bust goes into CF + SF only (CP)": "reference/test_main_job.py"
    "::test_more_bust_goes_into_the_front_only_lengthens_its_seam_and_leaves_the_waist",
    "the neckline is judged on the princess seam (MEM, G)": "reference/test_main_job.py"
    "::test_a_neckline_is_judged_where_it_crosses_the_princess_seam",
    "a sweetheart may dip lower (CP)": "checks/test_real_garments.py::test_a_sweetheart_may_dip_at_the_centre_front",
    "single in front, double behind (CP)": "reference/test_main_job.py"
    "::test_notches_are_single_in_front_and_double_behind",
    "cutting counts (CP)": "reference/test_main_job.py::test_cutting_counts_of_a_full_facing",
    "mated edges (G)": "reference/test_main_job.py::test_stitch_lines_match_and_cut_edges_differ_by_the_turning",
    "can it be put on (CP)": "checks/test_putting_on.py::test_it_goes_on_or_it_does_not",
    "10 + 10 mm in a narrow strap (G)": "checks/test_making.py::test_two_allowances_do_not_lie_in_a_narrow_strap",
    "a narrow strap is trimmed to 6 mm (CP)": "checks/test_making.py"
    "::test_a_narrow_strap_with_6_mm_of_allowance_is_right",
    "bagging out (CP)": "checks/test_making.py::test_closed_at_the_shoulders_and_the_centres_it_cannot_be_turned",
    "turn of cloth: a step of t is 2πt once round (G)": "finish/test_facing.py"
    "::test_turn_of_cloth_of_a_round_neck_is_two_pi_thicknesses",
    "a facing of a width keeps its width (CP)": "finish/test_facing.py::test_a_facing_is_nowhere_narrower_than_asked",
    "a lining to the facing is what the facing leaves (G)": "finish/test_facing.py"
    "::test_a_lining_to_the_facing_is_what_the_facings_leave",
    "interfacing has no allowance (CP)": "finish/test_facing.py"
    "::test_interfacing_has_the_facing_s_shapes_without_allowance_or_notches",
    "a strap has two layers (CP)": "finish/test_facing.py"
    "::test_a_sewn_on_strap_is_backed_once_though_there_are_facing_and_lining",
    "the tie tapers (CP)": "design/test_tie.py::test_the_lower_edge_rises_and_the_tie_tapers",
    "a long tie across folded cloth (G)": "lay/test_real_garments.py"
    "::test_a_long_tie_across_folded_cloth_is_refused_and_each_remedy_helps",
}


def measured(pattern: Pattern, ready: Finish | None = None) -> MeasuredPattern:
    return MeasuredPattern(pattern_to_json(finish(pattern, ready or Finish()), ()))


def neighbours(made: MeasuredPattern, piece: str, edge: str) -> tuple[str, str]:
    """The edges before and after one."""
    ids = [entry["id"] for entry in made.pieces[piece]["edges"]]
    k = ids.index(edge)
    return ids[k - 1], ids[(k + 1) % len(ids)]


def meeting(made: MeasuredPattern, piece: str, edge: str) -> tuple[float, float]:
    """Degrees inside the piece at both ends of an edge."""
    before, after = neighbours(made, piece, edge)
    return made.inner_angle(before, edge), made.inner_angle(edge, after)


def edges_on(made: MeasuredPattern, line: str, layer: str = "outer") -> list[tuple[str, dict[str, Any]]]:
    return [
        (piece["id"], edge)
        for piece in made.pieces.values()
        if piece["layer"] == layer
        for edge in piece["edges"]
        if edge["line"] == line
    ]


@pytest.mark.parametrize("rule", ELSEWHERE)
def test_rules_that_are_proved_elsewhere(rule: str) -> None:
    """Nothing of its own: each rule that is not below is proved by the test that is named for it."""
    file, name = ELSEWHERE[rule].split("::")
    tree = ast.parse((Path(__file__).parents[1] / file).read_text(encoding="utf-8"))
    assert name in {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}


# Girths and ease


def test_g_a_lacing_gap_comes_half_off_each_centre_back_edge() -> None:
    """G: laced, waist 76, ease −4, gap 6 → half 33.0 cm, half off each edge, parallel; nothing else moves."""
    taken = {value.term: value.amount for value in size(88).values} | {"waist_girth": 760.0}
    options = BlockOptions(Ease(waist=-40.0), centre_back_shape="straight")
    own = make_block(Measurements.of("w-1", taken), options).pattern
    laced, plain = (
        measured(replay(Design("on", "On", steps_from_json([LEVEL_TOP, HEM, shut])), own).pattern)
        for shut in (closure("centre-back", "lacing", gap_cm=6), ZIPPED)
    )
    assert laced.half("waist") == pytest.approx(330.0, abs=0.5)
    assert plain.half("waist") == pytest.approx(360.0, abs=0.5)
    for panel in ("CF", "SF", "SB"):
        assert laced.pieces[panel]["vertices"] == plain.pieces[panel]["vertices"]
    old, new = (shapely.LineString(made.edge("CB.centre-back")) for made in (plain, laced))
    apart = [old.distance(shapely.Point(point)) for point in np.array(new.coords)[50:-50:40]]
    assert apart == pytest.approx([30.0] * len(apart), abs=0.05)


MOST = {"upper_bust": 0.0, "bust": 20.0, "underbust": 0.0, "waist": 20.0}
LEAST = {"upper_bust": -20.0, "bust": 0.0, "underbust": -20.0, "waist": 0.0}


@pytest.mark.parametrize(("limits", "beyond"), [(MOST, 2.0), (LEAST, -2.0)])
def test_mem_usual_ease_of_a_strapless_top(limits: dict[str, float], beyond: float) -> None:
    """MEM: upper edge −2 to 0, underbust −2 to 0, bust 0 to +2, waist 0 to +2 cm; other ease is advice, no more."""

    def unusual(eases: dict[str, float]) -> list[tuple[str, str, str]]:
        pattern = make_block(WEARER, BlockOptions(Ease(**eases))).pattern
        return [(f.code, f.severity, f.subject.replace("-", "_")) for f in check_ease(pattern, WEARER, Wearing())]

    assert unusual(limits) == []
    found = unusual({level: ease + beyond for level, ease in limits.items()})
    assert sorted(found) == sorted(("ease-unusual", "advice", level) for level in limits)


def test_mem_hollowing_above_the_bust_comes_out_in_the_seams_and_not_at_the_centre_front() -> None:
    """MEM: take hollowing above the bust out in the princess seam. Less ease at the upper edge leaves the fold straight
    and the bust as it was; the centre front panel can lose it at its princess seam only, the others share the rest."""
    plain, hollowed = (
        measured(make_block(WEARER, BlockOptions(Ease(upper_bust=ease))).pattern) for ease in (0.0, -20.0)
    )
    assert plain.half("upper-bust") - hollowed.half("upper-bust") == pytest.approx(10.0, abs=0.5)
    assert hollowed.edge("CF.centre-front")[:, 0] == pytest.approx(0.0, abs=1e-6)
    assert plain.width("CF", "upper-bust") - hollowed.width("CF", "upper-bust") > 1.0
    for panel in ("CF", "SF", "SB", "CB"):
        assert hollowed.width(panel, "bust") == pytest.approx(plain.width(panel, "bust"), abs=0.1)


@pytest.mark.parametrize(("cup", "full"), [(100.0, False), (198.0, False), (202.0, True)])
def test_cp_a_full_bust_gets_notches_above_and_below_the_bust_point(cup: float, full: bool) -> None:
    """CP: 10 cm of bust over underbust is an average cup, 20 cm is full: then notches 4 to 5 cm above and below."""
    girths = {"bust_girth": 760.0 + cup, "underbust_girth": 760.0, "waist_girth": 700.0, "hip_girth": 980.0}
    own = make_block(Measurements.of("w-1", {**girths, "back_neck_to_waist": 400.0})).pattern
    made = measured(own)
    notches = [notch for notch in made.document["notches"] if notch["seam"] == "front-princess"]
    (bust,) = [notch["at_b"] for notch in notches if notch["level"] == "bust"]
    near = [notch for notch in notches if 35.0 < abs(notch["at_b"] - bust) < 55.0]
    assert len(near) == (2 if full else 0)
    assert all(40.0 <= abs(notch["at_b"] - bust) <= 50.0 for notch in near)


# Notches and grain


def test_cp_notch_marks_stand_square_to_the_stitch_line() -> None:
    """CP: T marks stand square to the stitch line and are carried to the edge of the allowance."""
    made = measured(garment([TOP], [ZIPPED]))
    count = 0
    for piece in made.pieces.values():
        cut = shapely.LinearRing(piece["cut_line"])
        for mark in piece["notch_marks"]:
            line = made.edge(mark["edge"])
            at, to = np.array(mark["at"]), np.array(mark["to"])
            k = int(np.clip(np.linalg.norm(line - at, axis=1).argmin(), 1, len(line) - 2))
            along = line[k + 1] - line[k - 1]
            assert abs(along @ (to - at)) / np.linalg.norm(along) / np.linalg.norm(to - at) < np.sin(np.radians(1.0))
            assert cut.distance(shapely.Point(to)) < 0.1
            count += 1
    assert count >= 8


def test_cp_the_side_notch_stands_where_no_other_seam_has_one() -> None:
    """CP: the side seam takes one, placed where no other seam has it. All seams here start at the hem."""
    made = measured(garment([TOP], [ZIPPED]))
    places: dict[str, list[float]] = {}
    for notch in made.document["notches"]:
        places.setdefault(notch["seam"], []).append(notch["at_a"])
    (side,) = places.pop("side")
    assert min(abs(side - place) for seam in places.values() for place in seam) >= 8.0


def test_cp_grain_runs_along_the_fold_and_square_to_each_waist_line() -> None:
    """CP: CF along the fold; other panels square to their own waist line."""
    made = measured(garment([TOP], [ZIPPED]))
    for id, piece in made.pieces.items():
        low, high = np.array(piece["grain"])
        if id == "CF":
            assert abs(high[0] - low[0]) < 1e-6
            continue
        (waist,) = [np.array(line["bezier"]) for line in piece["inside"] if line["id"] == "waist"]
        across, up = waist[-1] - waist[0], high - low
        cosine = across @ up / np.linalg.norm(across) / np.linalg.norm(up)
        assert abs(np.degrees(np.arcsin(cosine))) < 1.0


def test_cp_the_side_backs_grain_survives_when_the_back_is_joined() -> None:
    """CP: when SB and CB are joined, the grain of SB survives unless asked."""
    before, tied, turned = (measured(garment([TOP, *more])) for more in ([], [TIE], [{**TIE, "grain_along": True}]))

    def way(made: MeasuredPattern, piece: str) -> np.ndarray:
        low, high = np.array(made.pieces[piece]["grain"])
        return (high - low) / np.linalg.norm(high - low)

    assert way(tied, "TIE") == pytest.approx(way(before, "SB"), abs=1e-9)
    assert abs(way(turned, "TIE") @ way(before, "SB")) < 0.2


@pytest.mark.parametrize("folded", [True, False])
def test_cp_on_cloth_the_two_measured_distances_are_equal(folded: bool) -> None:
    """CP: grain parallel to the selvage: measured from the selvage to both its ends, the distances are equal."""
    cutting = finish(garment([TOP], [ZIPPED]), FACED)
    for lay in lays_of(cutting, [Cloth(name, 1500.0, folded) for name in ("outer", "facing")]):
        for laid in lay.laid:
            (_, low), (_, high) = laid.grain
            selvages = (lay.width,) if folded else (0.0, lay.width)
            for selvage in selvages:
                assert abs(selvage - low) == pytest.approx(abs(selvage - high), abs=0.1)


# Centres and hems


@pytest.mark.parametrize(
    "shut",
    [
        closure("centre-back", "fold"),
        closure("centre-back", "seam"),
        *(closure("centre-back", "zip", style=style) for style in ("centred", "lapped", "exposed", "invisible")),
        closure("centre-back", "lacing", gap_cm=5),
        closure("centre-back", "hooks"),
    ],
    ids=lambda shut: f"{shut['type']}-{shut.get('style', 'plain')}",
)
def test_cp_right_angles_at_folds_zips_and_edges_that_meet(shut: Record) -> None:
    """CP: right angle at centre front and back for folds, zips and edge-to-edge closures, unless a point is wanted."""
    made = measured(garment([TOP], [shut]))
    for piece, edge in (("CF", "CF.centre-front"), ("CB", "CB.centre-back")):
        assert meeting(made, piece, edge) == pytest.approx((90.0, 90.0), abs=1.0)


def test_cp_a_shaped_hem_rises_steadily_with_at_most_one_inflection() -> None:
    """CP: from centre to side; measured from the waist line of each front panel down to the hem."""
    shaped = {
        "kind": "hem", "uid": "hem", "shape": "shaped", "centre": {"level": "top-hip"},
        "side": {"level": "waist", "offset_cm": -4},
    }  # fmt: skip
    made = measured(replay(Design("on", "On", steps_from_json([TOP, shaped])), block().pattern).pattern)
    places, drops, run = [], [], 0.0
    for piece in ("CF", "SF"):
        (edge,) = [edge["id"] for edge in made.pieces[piece]["edges"] if edge["line"] == "hem/line"]
        (waist,) = [line["bezier"] for line in made.pieces[piece]["inside"] if line["id"] == "waist"]
        hem = made.edge(edge)
        hem = hem if piece == "SF" or abs(hem[0, 0]) < 1e-6 else hem[::-1]
        if piece == "SF" and hem[0, 0] < hem[-1, 0]:  # from the princess seam to the side, which lies at smaller x
            hem = hem[::-1]
        line = shapely.LineString(np.array(waist)[::3])
        for point in hem[:: len(hem) // 12]:
            places.append(run + length(hem[: 1 + int(np.linalg.norm(hem - point, axis=1).argmin())]))
            drops.append(line.distance(shapely.Point(point)))
        run += length(hem)
    order = np.argsort(places)
    heights = -np.array(drops)[order]
    assert (np.diff(heights) > -0.5).all()
    assert heights[-1] - heights[0] > 40.0
    slopes = np.diff(heights) / np.maximum(np.diff(np.array(places)[order]), 1e-6)
    bends = np.diff(slopes[np.diff(np.array(places)[order]) > 2.0])
    signs = np.sign(bends[np.abs(bends) > 0.02])
    assert sum(a != b for a, b in pairwise(signs)) <= 1


def test_cp_a_shaped_hem_cannot_be_turned_up() -> None:
    """CP: it takes a facing or binding; a finding says so, and is gone with a facing."""
    shaped = {**HEM, "shape": "shaped", "centre": {"level": "hip"}, "side": {"level": "waist", "offset_cm": -2}}
    pattern = replay(Design("on", "On", steps_from_json([TOP, shaped])), block().pattern).pattern
    turned = check(finish(pattern, Finish(lines={"hem": 30.0})))
    assert "curved-hem-turned" in {finding.code for finding in turned}
    assert "curved-hem-turned" not in {finding.code for finding in check(finish(pattern, FACED))}


# Facings


def test_cp_with_a_full_facing_the_hem_takes_a_seam_allowance_on_both_layers() -> None:
    """CP: and so does the upper edge."""
    made = measured(garment([TOP], [ZIPPED]), FACED)
    for line in ("hem/line", "neckline/line"):
        widths = {
            layer: {edge["allowance"] for _, edge in edges_on(made, line, layer)} for layer in ("outer", "facing")
        }
        assert widths == {"outer": {10.0}, "facing": {10.0}}


@pytest.mark.parametrize("same", [True, False])
def test_cp_a_three_piece_design_is_cut_ten_times_in_self_cloth(same: bool) -> None:
    """CP: CF 2 on fold, SF 2 pairs, tie 2 pairs = 10 pieces; facing in other cloth: 1 on fold and 1 pair of each in
    each cloth."""
    cloths = Cloths("silk", "silk" if same else "cotton")
    made = measured(garment([TOP, TIE]), replace(FACED, cloths=cloths))
    cuts = sorted(
        (piece["id"].partition("/")[0], cut["cloth"], cut["mode"], cut["count"])
        for piece in made.document["pieces"]
        for cut in piece["cut"]
    )
    times = 2 if same else 1
    assert cuts == sorted(
        (piece, cloth, "fold" if piece == "CF" else "pair", times * (1 if piece == "CF" else 2))
        for piece in ("CF", "SF", "TIE")
        for cloth in {cloths.outer, cloths.facing}
    )
    assert sum(count for *_, count in cuts) == 10


@pytest.mark.parametrize("folded", [True, False])
@pytest.mark.parametrize("width", [900.0, 1140.0, 1500.0])
def test_cp_same_cloth_twice_one_combined_lay_is_never_longer_than_two_sets(width: float, folded: bool) -> None:
    """CP: pin one set and cut it twice, or one combined lay: the combined one is never longer than two sets."""
    pattern = garment([TOP], [ZIPPED])
    one, facing = lays_of(finish(pattern, FACED), [Cloth(name, width, folded) for name in ("outer", "facing")])
    same = finish(pattern, replace(FACED, cloths=Cloths(facing="outer")))
    (both,) = lays_of(same, [Cloth("outer", width, folded)])
    assert one.length == pytest.approx(facing.length, abs=0.1)
    assert both.length <= 2 * one.length + one.spacing + 1e-6


def test_cp_same_cloth_twice_offers_one_set_cut_twice_or_a_combined_lay() -> None:
    """CP: offer both. One set of CF, SF and tie is CF once on the fold and a pair of each other."""
    pattern = garment([TOP, TIE])
    (both,) = cutting_lists(finish(pattern, replace(FACED, cloths=Cloths(facing="outer"))))
    assert both.total == 10
    assert [(row.piece, row.words) for row in both.one_set] == [
        ("CF", "1 on fold"),
        ("SF", "1 pair"),
        ("TIE", "1 pair"),
    ]
    assert both.two_ways != ""
    assert [entry.two_ways for entry in cutting_lists(finish(pattern, FACED))] == ["", ""]


# Straps


@pytest.mark.parametrize("width_cm", [2.0, 3.0, 5.0])
def test_cp_a_strap_is_as_wide_in_front_as_behind_and_squared(width_cm: float) -> None:
    """CP: width equal at the shoulder ± 1 mm, ends 90° ± 1°. G: the same width as was asked for."""
    made = measured(garment([TOP, {**STRAPS, "width_cm": width_cm}], [ZIPPED]))
    ends = edges_on(made, "straps/shoulder")
    front, back = (
        sum(length(made.edge(edge["id"])) for piece, edge in ends if piece in panels)
        for panels in (("CF", "SF"), ("SB", "CB"))
    )
    assert front == pytest.approx(back, abs=1.0)
    assert front == pytest.approx(10 * width_cm, abs=1.0)
    for line in ("straps/strap-neckline", "straps/strap-armhole"):
        for piece, edge in edges_on(made, line):
            angles = [
                angle
                for angle, other in zip(
                    meeting(made, piece, edge["id"]), neighbours(made, piece, edge["id"]), strict=True
                )
                if other.endswith("straps/shoulder")
            ]
            assert angles == pytest.approx([90.0], abs=1.0)


def test_cp_a_straps_edges_continue_neckline_and_armhole_across_the_side() -> None:
    """CP: the inner edge continues the neckline, the outer edge the armhole, which runs on across the side seam."""
    made = measured(garment([TOP, STRAPS], [ZIPPED]))
    joined = 0
    for line in ("straps/strap-neckline", "straps/strap-armhole"):
        for piece, edge in edges_on(made, line):
            for angle, other in zip(meeting(made, piece, edge["id"]), neighbours(made, piece, edge["id"]), strict=True):
                if "neckline/line" in other:
                    assert angle == pytest.approx(180.0, abs=1.0)
                    joined += 1
    assert joined == 4
    upper = [
        angle
        for piece in ("SF", "SB")
        for angle, other in zip(
            meeting(made, piece, f"{piece}.side"), neighbours(made, piece, f"{piece}.side"), strict=True
        )
        if "neckline/line" in other
    ]
    assert len(upper) == 2
    assert sum(upper) == pytest.approx(180.0, abs=1.0)


# Ties


ACROSS = "across the back, from the side to the centre back"


def tie_parts(made: MeasuredPattern) -> dict[str, float]:
    (working,) = [working for working in made.document["workings"] if working["id"] == "tie/length"]
    return {part["label"]: part["length"] for part in working["parts"]}


def test_g_a_tie_is_half_the_back_then_knot_then_tail_and_knots_do_not_shrink() -> None:
    """G: half back width to centre back, then knot, then tail; knots don't shrink with waists."""
    parts = {}
    for bust in (76, 104):
        own = make_block(size(bust), BlockOptions(centre_back_shape="straight")).pattern
        before, tied = (
            measured(replay(Design("on", "On", steps_from_json([TOP, HEM, *more])), own).pattern)
            for more in ([], [TIE])
        )
        parts[bust] = tie_parts(tied)
        labels = list(parts[bust])
        assert (labels[0], *labels[-2:]) == (ACROSS, "double knot", "tail")
        half_back = before.width("SB", "waist") + before.width("CB", "waist")
        assert parts[bust][labels[0]] == pytest.approx(half_back, rel=0.12)  # the tie sits beside the waist, not on it
    past = ("double knot", "tail")
    assert parts[104][ACROSS] > parts[76][ACROSS] + 50.0
    assert [parts[104][name] for name in past] == pytest.approx([parts[76][name] for name in past])


def test_cp_a_tie_is_about_twice_the_back_on_a_middling_body_and_a_bow_more() -> None:
    """CP: the rule of thumb for a double knot."""
    double, bow = (tie_parts(measured(garment([TOP, {**TIE, "knot": knot}]))) for knot in ("double", "bow"))
    back = double[ACROSS]
    assert sum(double.values()) / back == pytest.approx(2.0, abs=0.6)
    assert sum(bow.values()) > sum(double.values())


# Zips, lacing, bones


@pytest.mark.parametrize("teeth_cm", [0.5, 1.0])
def test_g_half_the_visible_teeth_come_off_each_edge(teeth_cm: float) -> None:
    """G: exposed zip."""
    exposed, plain = (
        measured(garment([TOP], [shut]))
        for shut in (closure("centre-back", "zip", style="exposed", teeth_width_cm=teeth_cm), ZIPPED)
    )
    for level in ("bust", "underbust", "waist"):
        taken = plain.width("CB", level) - exposed.width("CB", level)
        assert taken == pytest.approx(5 * teeth_cm, abs=0.1)
    for panel in ("CF", "SF", "SB"):
        assert exposed.pieces[panel]["vertices"] == plain.pieces[panel]["vertices"]


def test_mem_a_lacing_cord_is_measured_opened_where_lacing_is_the_only_opening() -> None:
    """CP: opened wide enough to get in. MEM: cord ≈ 2 · pairs · √(gap² + pitch²) + 60 to 100 cm."""
    pattern = garment([TOP], [closure("centre-back", "lacing", gap_cm=5, pitch_cm=2.5)])
    (closing,) = pattern.closures
    (cord,) = [notion for notion in pattern.notions if notion.kind == "cord"]
    (eyelets,) = [notion for notion in pattern.notions if notion.kind == "eyelet"]
    (working,) = [working for working in pattern.workings if working.id == cord.working]
    pairs = eyelets.count // 2
    marks = [np.array(mark.at) for mark in pattern.piece("CB").marks if mark.kind == "eyelet"]
    pitch = float(np.mean([np.linalg.norm(b - a) for a, b in pairwise(sorted(marks, key=lambda at: at[1]))]))
    inset = min(shapely.LineString(pattern.piece("CB").edge("CB.centre-back").curve.polyline()).distance(
        shapely.Point(mark)) for mark in marks)  # fmt: skip
    opened = 2 * pairs * np.hypot(closing.spreads + 2 * inset, pitch)
    assert opened + 600.0 - 0.03 * opened <= working.reckoned <= opened + 1000.0
    worn = WEARER["hip_girth"] - pattern.level("waist").finished_girth
    assert closing.spreads >= worn


def test_cp_bones_end_five_millimetres_short_of_each_stitched_edge() -> None:
    """CP: bones end about 5 mm short of each stitched edge and never cross it."""
    pattern = garment([TOP, {"kind": "bones", "uid": "bones"}])
    made = measured(pattern)
    seams = {seam["id"]: min(made.seam_sides(seam)) for seam in made.document["seams"]}
    found = 0
    for working in pattern.workings:
        line = working.id.removeprefix("bones/")
        if line in ("front-princess", "side", "back-princess"):
            assert seams[line] - 10.0 - 10.0 <= working.length <= seams[line] - 10.0 + 0.1
            found += 1
    assert found == 3


def test_cp_an_unboned_strapless_bodice_gets_a_warning() -> None:
    """CP."""
    for more, warned in (([], True), ([{"kind": "bones", "uid": "bones"}], False), ([STRAPS], False)):
        found = [f.severity for f in check(finish(garment([TOP, *more]))) if f.code == "unboned-strapless"]
        assert found == (["warning"] if warned else [])


# Toile, quarter scale, measuring


def test_cp_a_toile_has_one_layer_balance_lines_and_wide_allowances() -> None:
    """CP: one layer, balance lines, 25 mm at side and centre back."""
    made = measured(garment([TOP], [ZIPPED]), Finish(lines={"side": 25.0, "centre-back": 25.0}))
    assert {piece["layer"] for piece in made.pieces.values()} == {"outer"}
    assert {cut["count"] for piece in made.pieces.values() for cut in piece["cut"]} == {1, 2}
    for piece in made.pieces.values():
        assert {"bust", "underbust", "waist"} <= {line["id"] for line in piece["inside"] if line["kind"] == "level"}
        for edge in piece["edges"]:
            wide = edge["line"] in ("side", "centre-back")
            assert edge["allowance"] == (0.0 if edge["kind"] == "fold" else 25.0 if wide else 10.0)


def test_cp_quarter_scale_panels_leave_two_drawn_allowances_between_them() -> None:
    """CP: 10 mm is drawn 2.5 mm; cut lines that do not overlap leave 5 mm between the panels inside them."""
    cutting = finish(garment([TOP], [ZIPPED]))
    for row in rows(draw_pieces(cutting, QUARTER), 277.0):
        areas = [shapely.Polygon(np.array(piece.cut_line) + np.array(shift)) for piece, shift in row.laid]
        for k, area in enumerate(areas):
            for other in areas[k + 1 :]:
                assert shapely.intersection(area, other).area < 1e-6


def test_g_a_pencil_line_at_quarter_scale_is_fourteen_millimetres_of_girth() -> None:
    """G: 0.25 mm on each of 14 seam edges is 14 mm of girth: what a pencil does there is four times that at full."""
    made = measured(garment([TOP], [closure("centre-back", "hooks")]))
    edges = 0
    for piece in made.pieces.values():
        upright = [edge for edge in piece["edges"] if edge["kind"] in ("seam", "opening")]
        edges += 2 * len(upright)
    assert edges == 14
    assert edges * 0.25 / QUARTER.factor == pytest.approx(14.0)


def test_cp_the_measurements_that_fix_fit_are_asked_for_first() -> None:
    """CP: upper bust, bust point span, side neck point to bust point, underarm to waist; tape round the waist first."""
    assert {"upper_bust_girth", "bust_point_span", "side_neck_to_bust_point", "underarm_to_waist"} <= FIRST.keys()
    assert "take it first" in TERMS["waist_girth"].how
