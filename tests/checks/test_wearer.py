"""The wearer's side. Limits: the project's values of the trade, labelled CP, MEM, G or own in docs/findings.md."""

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from plain_cutting_pattern import plain_cutting_pattern, shell
from scipy.optimize import brentq
from worn_garment import HIGH, STRAPS, TOP, garment

from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit
from panelwright.checks import Wearing, check, check_wearing
from panelwright.checks.sewn_allowance import check_sewn_allowances
from panelwright.checks.short_seam import check_short_seams
from panelwright.checks.wearer_ease import check_ease
from panelwright.checks.wearer_estimates import check_estimates
from panelwright.checks.wearer_neckline import check_neckline
from panelwright.checks.wearer_putting_on import check_putting_on
from panelwright.checks.wearer_strain import check_strain
from panelwright.checks.wearer_support import check_support
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.geometry.curve import Curve
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import Level
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Mark
from panelwright.pattern.pattern import Pattern, StepRecord
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam

WOVEN = Wearing()


def codes(findings: tuple[Finding, ...]) -> list[tuple[str, str]]:
    return [(finding.code, finding.subject) for finding in findings]


def with_body(pattern: Pattern, **girths: float) -> Pattern:
    """The pattern as drawn, for a body of other girths at levels (waist=700.0): the ease takes up the rest."""

    def fitted(level: Level) -> Level:
        girth = girths.get(level.id.replace("-", "_"), level.body_girth)
        return replace(level, body_girth=girth, ease=level.finished_girth - girth)

    return replace(pattern, levels=tuple(map(fitted, pattern.levels)))


def well_fitted() -> Pattern:
    """The plain shell on a body that it fits as usual: bust and waist +1 cm, underbust -1 cm."""
    drawn = {level.id: level.finished_girth for level in shell().levels}
    return with_body(shell(), bust=drawn["bust"] - 10, underbust=drawn["underbust"] + 10, waist=drawn["waist"] - 10)


# Ease


def with_ease(level: str, ease: float) -> Pattern:
    pattern = well_fitted()
    return with_body(pattern, **{level.replace("-", "_"): pattern.level(level).finished_girth - ease})


@pytest.mark.parametrize(("level", "least", "most"), [("bust", 0, 20), ("underbust", -20, 0), ("waist", 0, 20)])
def test_ease_outside_the_usual_is_advice_on_both_sides(level: str, least: float, most: float) -> None:
    # MEM: strapless woven top, bust and waist 0 to +2 cm, underbust 0 to -2 cm, on the whole girth.
    for ease in (least - 0.9, (least + most) / 2, most + 0.9):
        assert check_ease(with_ease(level, ease), None, WOVEN) == ()
    for ease in (least - 1.1, most + 1.1):
        (finding,) = check_ease(with_ease(level, ease), None, WOVEN)
        assert (finding.code, finding.severity, finding.subject) == ("ease-unusual", "advice", level)
        assert finding.value == pytest.approx(ease)
        assert finding.limit == (least if ease < least else most)


@pytest.mark.parametrize(("ease", "told"), [(3.8, True), (4.0, False), (8.0, False), (8.2, True)])
def test_a_bodice_with_shoulders_has_its_own_usual_ease_at_the_bust(ease: float, told: bool) -> None:
    # CP: fitted bodices of woven cloth, about 4 to 8 cm at the bust; a range for other levels is not given.
    found = [f for f in check_ease(garment([HIGH], ease=ease * 10), None, WOVEN) if f.code == "ease-unusual"]
    assert [f.subject for f in found] == (["bust"] if told else [])
    assert all("a fitted bodice with shoulders of woven cloth is 4.0 cm to 8.0 cm" in f.message for f in found)
    assert not any("strapless" in f.message for f in found)


def test_straps_do_not_make_it_a_bodice_with_shoulders() -> None:
    found = check_ease(garment([TOP, STRAPS], ease=50.0), None, WOVEN)
    assert all("usual in a strapless top" in f.message for f in found)
    assert "bust" in {f.subject for f in found}


def test_a_level_much_smaller_than_the_body_is_a_warning_in_woven_cloth() -> None:
    # MEM: corset waist reductions start at 5 %.
    body = well_fitted().level("waist").finished_girth / 0.94
    tight = with_body(well_fitted(), waist=body)
    (finding,) = check_ease(tight, None, WOVEN)
    assert (finding.code, finding.severity, finding.subject) == ("tight", "warning", "waist")
    assert finding.value == pytest.approx(-0.06 * body)
    assert "(6%) smaller" in finding.message
    assert check_ease(tight, None, Wearing(cloth="knit")) == ()
    slack = with_body(well_fitted(), waist=well_fitted().level("waist").finished_girth / 0.96)
    assert codes(check_ease(slack, None, WOVEN)) == [("ease-unusual", "waist")]


def test_much_ease_at_the_waist_is_a_warning_in_woven_cloth() -> None:
    # MEM: 12 cm on the whole girth; the level's tolerance is 1 mm.
    assert codes(check_ease(with_ease("waist", 120.9), None, WOVEN)) == [("ease-unusual", "waist")]
    (finding,) = check_ease(with_ease("waist", 121.1), None, WOVEN)
    assert (finding.code, finding.severity, finding.subject, finding.limit) == ("loose", "warning", "waist", 120.0)
    assert finding.value == pytest.approx(121.1)
    assert 'block.ease_cm, "waist"' in finding.remedy
    assert check_ease(with_ease("waist", 200.0), None, Wearing(cloth="knit")) == ()
    assert codes(check_ease(with_ease("bust", 200.0), None, WOVEN)) == [("ease-unusual", "bust")]


def test_ease_is_read_from_what_is_drawn() -> None:
    pattern = well_fitted()
    waist = pattern.level("waist")
    lie = replace(waist, body_girth=waist.body_girth - 30, ease=waist.ease)
    levels = tuple(lie if level.id == "waist" else level for level in pattern.levels)
    (finding,) = check_ease(replace(pattern, levels=levels), None, WOVEN)
    assert (finding.code, finding.value) == ("ease-unusual", pytest.approx(40.0))


def wearer(**changes: float) -> Measurements:
    girths = {"bust_girth": 880.0, "underbust_girth": 750.0, "waist_girth": 700.0, "hip_girth": 960.0}
    return Measurements.of("w-1", {**girths, "back_neck_to_waist": 400.0, **changes})


def test_a_pattern_for_another_body_is_a_warning() -> None:
    # CP: a tape is read to half a centimetre.
    body = wearer()
    own = with_body(shell(), bust=880, underbust=750, waist=700, top_hip=body["top_hip_girth"], hip=body["hip_girth"])
    assert [f for f in check_ease(own, body, WOVEN) if f.code == "other-wearer"] == []
    found = [f for f in check_ease(own, wearer(waist_girth=706.0), WOVEN) if f.code == "other-wearer"]
    assert [(f.subject, f.severity, f.value) for f in found] == [("waist", "warning", pytest.approx(6.0))]
    assert "70.0 cm, but the wearer measures 70.6 cm" in found[0].message
    inches = check_ease(own, wearer(waist_girth=706.0), Wearing(unit=Unit.INCH))
    assert any("27 1/2 in, but the wearer measures 27 3/4 in" in f.message for f in inches)


# Neckline


def lowered(by: float, keep_bust: bool = True) -> Pattern:
    """The shell with its bust level and bust point `by` mm higher: the same as a neckline that is lower."""
    pattern = shell()

    def change(piece: Piece) -> Piece:
        inside, marks = [], ()
        for line in piece.inside:
            if line.id != "bust":
                inside.append(line)
        if keep_bust:
            y = 150.0 + by
            up = {edge.line: edge for edge in piece.edges}
            ends = sorted(
                (up[name].curve.point(where(up[name].curve, y)) for name in up if name not in ("hem", "top")),
                key=lambda point: point[0],
            )
            old = piece.inside_line("bust")
            assert old
            inside.append(replace(old, curve=Curve.straight(ends[0], ends[1])))
            if piece.marks:
                marks = (replace(piece.marks[0], at=(float(ends[0][0]), y)),)
        return replace(piece, inside=tuple(inside), marks=marks)

    pieces = tuple(map(change, pattern.pieces))
    levels = tuple(level for level in pattern.levels if level.id != "bust")
    return replace(pattern, pieces=pieces, levels=levels)


def where(curve: Curve, y: float) -> float:
    """Arc position at a height, by bisection."""
    low, high = 0.0, curve.length
    rising = curve.end[1] > curve.start[1]
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if (curve.point(middle)[1] < y) == rising else (low, middle)
    return (low + high) / 2


def seam_above(pattern: Pattern, y: float) -> float:
    """Length of the front princess seam from a height to the top, from the curve alone."""
    curve = pattern.piece("SF").edge("SF.front-princess").curve
    return curve.length - where(curve, y)


def test_a_neckline_is_judged_at_the_front_princess_seam() -> None:
    # MEM: 40 mm above the bust point is a sensible least; the shell has 52 mm of seam there.
    assert seam_above(shell(), 150.0) > 50
    assert check_neckline(shell(), None, WOVEN) == ()
    (finding,) = check_neckline(lowered(20.0), None, WOVEN)
    assert (finding.code, finding.severity, finding.subject) == ("neckline-bust-point", "warning", "front-princess")
    assert finding.value == pytest.approx(seam_above(shell(), 170.0), abs=0.02)
    assert finding.piece == "CF"
    assert finding.at == pytest.approx((-88.0, 200.0))


def test_the_neckline_limit_holds_on_both_sides() -> None:
    at_limit = next(by for by in np.arange(0, 30, 0.05) if seam_above(shell(), 150 + by) < 40)
    assert check_neckline(lowered(at_limit - 0.2), None, WOVEN) == ()
    assert codes(check_neckline(lowered(at_limit + 0.2), None, WOVEN)) == [("neckline-bust-point", "front-princess")]


def test_a_bust_point_beside_the_seam_counts_where_the_level_is_gone() -> None:
    pattern = lowered(20.0)
    pieces = tuple(replace(p, inside=tuple(i for i in p.inside if i.id != "bust")) for p in pattern.pieces)
    (finding,) = check_neckline(replace(pattern, pieces=pieces), None, WOVEN)
    assert finding.value == pytest.approx(seam_above(shell(), 170.0), abs=0.5)
    beside = tuple(replace(p, marks=tuple(replace(m, at=(m.at[0] + 15, m.at[1])) for m in p.marks)) for p in pieces)
    (finding,) = check_neckline(replace(pattern, pieces=beside), None, WOVEN)
    assert finding.value == pytest.approx(seam_above(shell(), 170.0), abs=5.0)


def test_a_neckline_below_the_bust_point_is_an_error() -> None:
    (finding,) = check_neckline(lowered(0, keep_bust=False), None, WOVEN)
    assert (finding.severity, finding.limit, finding.value) == ("error", 0, 0.0)


def test_the_centre_front_may_dip_and_a_skirt_has_no_neckline() -> None:
    pattern = shell()
    cf = pattern.piece("CF")
    dipped = replace(cf, marks=(), inside=tuple(line for line in cf.inside if line.id != "bust"))
    levels = tuple(level for level in pattern.levels if level.id != "bust")
    assert check_neckline(replace(pattern, levels=levels).with_pieces(dipped), None, WOVEN) == ()
    skirt = tuple(replace(p, inside=(), marks=()) for p in pattern.pieces)
    assert check_neckline(replace(pattern, pieces=skirt, levels=()), None, WOVEN) == ()


# Putting on


def closed(pattern: Pattern) -> Pattern:
    """The centre back sewn instead of left open."""

    def sewn(edge: Edge) -> Edge:
        return replace(edge, kind="seam") if edge.kind == "opening" else edge

    pieces = tuple(replace(p, edges=tuple(map(sewn, p.edges))) for p in pattern.pieces)
    seams = tuple(replace(seam, kind="join") if seam.kind == "closure" else seam for seam in pattern.seams)
    return replace(pattern, pieces=pieces, seams=seams)


def test_closed_all_round_and_narrow_at_the_waist_cannot_be_put_on() -> None:
    # G: the waist (67.8 cm drawn) passes neither a bust of 79 cm from above nor a top hip of 73 cm from below.
    pattern = closed(well_fitted())
    (finding,) = check_putting_on(pattern, None, WOVEN)
    assert (finding.code, finding.severity, finding.subject) == ("cannot-be-put-on", "error", "waist")
    assert finding.value == pytest.approx(pattern.level("waist").finished_girth)
    assert finding.limit == max(level.body_girth for level in pattern.levels if level.height < 0)
    assert finding.piece == "CF"


def test_a_full_length_opening_passes() -> None:
    assert check_putting_on(well_fitted(), None, WOVEN) == ()
    assert check_putting_on(well_fitted(), wearer(), WOVEN) == ()


def test_a_closure_in_a_seam_opens_as_well_as_an_opening_edge() -> None:
    def zipped(seam: Seam) -> Seam:
        return replace(seam, kind="closure") if seam.id == "side" else seam

    pattern = closed(well_fitted())
    assert check_putting_on(replace(pattern, seams=tuple(map(zipped, pattern.seams))), None, WOVEN) == ()


def test_an_opening_that_ends_above_the_waist_does_not_help() -> None:
    def short(seam: Seam) -> Seam:
        """Open from the top down to 60 mm above the waist; chain a starts at the hem."""
        if seam.id != "side":
            return seam
        a, b = seam.a[0], seam.b[0]
        return replace(seam, kind="closure", a=(replace(a, start=0.35, end=0.0),), b=(replace(b, start=0.65, end=1.0),))

    pattern = closed(well_fitted())
    found = check_putting_on(replace(pattern, seams=tuple(map(short, pattern.seams))), None, WOVEN)
    assert codes(found) == [("cannot-be-put-on", "waist")]


def test_what_must_pass_is_the_limit_on_both_sides() -> None:
    pattern = closed(well_fitted())
    waist, hip = pattern.level("waist").finished_girth, "top_hip"
    lower = {level.id.replace("-", "_"): waist - 30 for level in pattern.levels if level.height < 0}
    assert check_putting_on(with_body(pattern, **{**lower, hip: waist + 4.9}), None, WOVEN) == ()
    assert codes(check_putting_on(with_body(pattern, **{**lower, hip: waist + 5.1}), None, WOVEN)) == [
        ("cannot-be-put-on", "waist")
    ]


def test_the_wearers_hip_counts_even_below_the_hem() -> None:
    pattern = closed(well_fitted())
    lower = {level.id.replace("-", "_"): 600.0 for level in pattern.levels if level.height < 0}
    narrow = with_body(pattern, **lower)
    assert check_putting_on(narrow, None, WOVEN) == ()
    (finding,) = check_putting_on(narrow, wearer(), WOVEN)
    assert "the bust of 88.0 cm must pass" in finding.message or "the hip of 96.0 cm must pass" in finding.message


def test_knit_gives() -> None:
    assert check_putting_on(closed(well_fitted()), None, Wearing(cloth="knit")) == ()


# Support, estimates, strain


def test_an_unboned_strapless_bodice_is_a_warning() -> None:
    (finding,) = check_support(shell(), WOVEN)
    assert (finding.code, finding.severity) == ("unboned-strapless", "warning")
    assert check_support(shell(), Wearing(boned=True)) == ()
    skirt = replace(shell(), pieces=tuple(replace(p, inside=(), marks=()) for p in shell().pieces), levels=())
    assert check_support(skirt, WOVEN) == ()


def test_straps_hold_a_bodice_up() -> None:
    pattern = replace(shell(), steps=(StepRecord("s1", "strap", "Straps"),))
    lines = (*pattern.lines, Line("s1/strap", "Strap", "s1"))

    def strapped(edge: Edge) -> Edge:
        return replace(edge, line="s1/strap") if edge.id == "SF.top" else edge

    sf = pattern.piece("SF")
    own = replace(sf, edges=tuple(map(strapped, sf.edges)))
    assert check_support(replace(pattern, lines=lines).with_pieces(own), WOVEN) == ()


def test_estimates_are_listed_once() -> None:
    pattern = replace(shell(), estimated=("bust_point_span", "upper_bust_girth"))
    (finding,) = check_estimates(pattern)
    assert (finding.code, finding.severity, finding.value) == ("estimated", "advice", 2)
    assert "bust point span, upper bust girth" in finding.message
    assert finding.remedy == (
        "Measure before cutting, first of all upper bust girth (how close the top edge sits), bust point span (where "
        "the front princess seams run), and make the pattern again."
    )
    (finding,) = check_estimates(replace(pattern, estimated=("stature",)))
    assert finding.remedy == "Measure before cutting, and make the pattern again."
    assert check_estimates(shell()) == ()


@pytest.mark.parametrize(("panel", "limit"), [("CF", 0.05), ("SF", 0.06), ("SB", 0.05), ("CB", 0.04)])
def test_strain_is_advice_above_each_panels_limit(panel: str, limit: float) -> None:
    # Own trials: CF 5, SF 6, SB 5, CB 4 %.
    assert check_strain(shell(), {panel: limit - 0.0005}, WOVEN) == ()
    (finding,) = check_strain(shell(), {panel: limit + 0.0005}, WOVEN)
    assert (finding.code, finding.severity, finding.subject, finding.unit) == ("strain", "advice", panel, "%")
    assert finding.value == pytest.approx(limit * 100 + 0.05)
    assert finding.limit == pytest.approx(limit * 100)
    assert finding.piece == panel
    assert "or add a dart" in finding.remedy


def test_strain_advice_names_the_length_to_ease_where_the_seam_bends_most() -> None:
    """On side front it is the stretch between two levels with the greatest turn, found here from tangents."""
    (finding,) = check_strain(shell(), {"SF": 0.07}, WOVEN)
    curve = shell().piece("SF").edge("SF.front-princess").curve
    heights = [level.height for level in shell().levels]
    stretches = []
    for high, low in pairwise(heights):
        a, b = (curve.tangent(where(curve, y)) for y in (low, high))
        turn = abs(np.arctan2(a[0] * b[1] - a[1] * b[0], a @ b))
        stretches.append((turn, where(curve, high) - where(curve, low)))
    expected = round(0.07 * max(stretches)[1])
    assert f"Ease about {expected / 10:.1f} cm into the front princess seam here" in finding.remedy
    (urgent,) = check_strain(shell(), {"SF": 0.095}, WOVEN)
    assert urgent.remedy.endswith("or better another seam: more panels in the block (in a file: block.panels).")


def test_strain_of_a_panel_that_is_no_longer_there_is_not_told() -> None:
    pattern = shell()
    pieces = tuple(replace(piece, material=()) for piece in pattern.pieces)
    assert check_strain(replace(pattern, pieces=pieces), {"SF": 0.2}, WOVEN) == ()


# Height, back edge, allowance


def squat(least: float) -> Pattern:
    """The shell pressed together until its shortest seam between hem and top edge has this length."""
    seams = ("front-princess", "side", "back-princess")

    def pressed(share: float) -> Pattern:
        def low(curve: Curve) -> Curve:
            return Curve.from_points(curve.points * (1.0, share))

        def smaller(piece: Piece) -> Piece:
            edges = tuple(replace(edge, curve=low(edge.curve)) for edge in piece.edges)
            ends = [(x, y * share) for x, y in (piece.grain.start, piece.grain.end)]
            return replace(
                piece, edges=edges, inside=(), marks=(), grain=replace(piece.grain, start=ends[0], end=ends[1])
            )

        return replace(shell(), pieces=tuple(map(smaller, shell().pieces)), levels=())

    def over(share: float) -> float:
        pattern = pressed(share)
        return min(pattern.chain_length(pattern.seam(id).a) for id in seams) - least

    return pressed(brentq(over, 0.05, 1.0, xtol=1e-9))


def test_a_garment_that_is_a_mere_band_at_a_seam_is_advice() -> None:
    # MEM: 60 mm.
    assert check_short_seams(shell(), WOVEN) == ()
    assert check_short_seams(squat(60.1), WOVEN) == ()
    (finding,) = check_short_seams(squat(59.9), WOVEN)
    assert (finding.code, finding.severity, finding.limit) == ("short-seam", "advice", 60.0)
    assert finding.value == pytest.approx(59.9, abs=1e-6)
    assert "only 6.0 cm high at the " in finding.message


def test_a_part_of_a_garment_is_not_taken_for_a_band() -> None:
    """A low piece whose lower edge is sewn to another piece, like a yoke, is part of something higher."""
    low = squat(55.0)

    def sewn(edge: Edge) -> Edge:
        return replace(edge, kind="seam") if edge.line == "hem" else edge

    pieces = tuple(replace(piece, edges=tuple(map(sewn, piece.edges))) for piece in low.pieces)
    assert check_short_seams(replace(low, pieces=pieces), WOVEN) == ()


def allowed(width: float, *lines: str) -> CuttingPattern:
    """The plain garment, with this allowance stated on some lines."""
    cutting = plain_cutting_pattern(faced=True)
    cut = {
        piece.id: replace(
            own, allowances={e.id: width if e.line in lines else own.allowances[e.id] for e in piece.edges}
        )
        for piece, own in cutting.pieces
    }
    return replace(cutting, pattern=replace(cutting.pattern, design="lantern-09"), cut=cut)


def test_a_seam_without_allowance_is_a_warning_told_once() -> None:
    # MEM: 3 mm.
    assert check_sewn_allowances(allowed(3.1, "side", "front-princess"), WOVEN) == ()
    (finding,) = check_sewn_allowances(allowed(2.9, "side", "front-princess"), WOVEN)
    assert (finding.code, finding.severity, finding.value, finding.limit) == ("no-allowance", "warning", 2.9, 3.0)
    assert "Cut with a seam allowance of only 2.9 mm: front princess, side." in finding.message
    (finding,) = check_sewn_allowances(allowed(0.0, "side"), WOVEN)
    assert finding.message.startswith("Cut with no seam allowance: side.")
    assert "finish.allowance_cm" in finding.remedy


def test_openings_and_finished_edges_may_go_without_allowance() -> None:
    """They may be bound, or laced edge to edge (CP)."""
    assert check_sewn_allowances(allowed(10.0), WOVEN) == ()
    assert check_sewn_allowances(allowed(0.0, "hem", "top", "centre-back"), WOVEN) == ()


def test_a_bare_block_needs_no_allowance_and_interfacing_has_none() -> None:
    assert codes(check_sewn_allowances(finish(shell(), Finish(allowance=0)), WOVEN)) == []
    cut = replace(shell(), design="lantern-09")
    assert len(check_sewn_allowances(finish(cut, Finish(allowance=0, interfacing=True)), WOVEN)) == 1
    assert check_sewn_allowances(finish(cut, Finish(interfacing=True)), WOVEN) == ()


# All together


def test_findings_come_errors_first_and_given_ones_are_passed_through() -> None:
    cutting = plain_cutting_pattern(faced=False)
    given = Finding("seam-off-body", "advice", "side", 4.0, 3.0, "m", "r")
    pattern = replace(closed(cutting.pattern), estimated=("stature",))
    found = check(replace(cutting, pattern=pattern), strain={"SF": 0.07}, given=(given,))
    order = ["error", "warning", "advice"]
    assert [order.index(f.severity) for f in found] == sorted(order.index(f.severity) for f in found)
    assert given in found
    assert {"cannot-be-put-on", "unboned-strapless", "strain", "estimated"} <= {f.code for f in found}


def test_what_cannot_be_read_is_not_judged_further() -> None:
    cutting = plain_cutting_pattern(faced=False)
    broken = replace(cutting, notches=(replace(cutting.notches[0], seam="sleeve"),))
    assert [finding.code for finding in check(broken)] == ["unknown-reference"]


@pytest.mark.parametrize("change", [well_fitted, lambda: closed(shell()), lambda: lowered(20.0)])
def test_every_sentence_is_complete(change: Callable[[], Pattern]) -> None:
    cutting = replace(plain_cutting_pattern(faced=False), pattern=replace(change(), estimated=("stature",)))
    found = check_wearing(cutting, wearer(), WOVEN, {"SF": 0.07, "CB": 0.2})
    assert found
    for finding in found:
        assert finding.message.endswith(".")
        assert finding.remedy.endswith(".")


def test_a_mark_that_is_no_bust_point_is_not_taken_for_one() -> None:
    pattern = lowered(0, keep_bust=False)
    cf = pattern.piece("CF")
    button = replace(cf, marks=(Mark("button-1", "button", (-90.0, 190.0)),))
    (finding,) = check_neckline(pattern.with_pieces(button), None, WOVEN)
    assert finding.severity == "error"
