"""Checks of garments that the program itself makes, from measurements to finished pieces.

The independent verifier in the folder `shared` must agree with the drafting rules on each of them.
"""

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
import shapely
from plausible_bodies import plausible_bodies
from verifier import violations

from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions, CentreBackEdge
from panelwright.checks import Wearing, check, check_drafting
from panelwright.checks.wearer_back_edge import check_back_edge
from panelwright.design.edge_shape import TopShape
from panelwright.design.hem import Hem
from panelwright.design.position import Height
from panelwright.design.replay import Design, replay
from panelwright.design.top_edge import TopEdge
from panelwright.design.unfold import unfold
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.output.pattern_file import pattern_to_json, read_pattern, write_pattern
from panelwright.pattern.pattern import Pattern

FACED = Finish(facing="full", interfacing=True)


@cache
def block(panels: int = 4, centre_back: CentreBackEdge = "opening") -> Block:
    return make_block(next(plausible_bodies(1, seed=panels)), BlockOptions(panels=panels, centre_back=centre_back))


def designed(own: Block, shape: TopShape = "sweetheart", height: float = 45.0) -> Pattern:
    top = TopEdge("s1", shape, Height("bust", height), Height("bust", height))
    hem = Hem("s2", "shaped", Height("waist", -60.0), Height("waist", -40.0))
    made = replay(Design("d-1", "Lantern bodice", (top, hem)), own.pattern)
    assert made.complete, made.outcomes
    return made.pattern


def findings(own: Block, cutting: CuttingPattern) -> tuple[Finding, ...]:
    return check(cutting, own.wearer, strain=own.strain_p95, given=own.findings, block=own.pattern)


@pytest.mark.parametrize("panels", [3, 4, 5, 6])
@pytest.mark.parametrize("both_sides", [False, True])
def test_a_made_garment_has_no_drafting_finding(panels: int, both_sides: bool, shared: Path) -> None:
    pattern = designed(block(panels))
    cutting = finish(unfold(pattern) if both_sides else pattern, FACED)
    assert check_drafting(cutting) == ()
    assert violations(shared, pattern_to_json(cutting, findings(block(panels), cutting))) == []


def test_an_ordinary_garment_has_no_error_and_two_things_to_know() -> None:
    found = findings(block(), finish(designed(block()), FACED))
    assert [finding for finding in found if finding.severity == "error"] == []
    assert {"unboned-strapless", "estimated"} <= {finding.code for finding in found}


def test_a_top_edge_below_the_bust_point_is_an_error_with_its_number() -> None:
    low = finish(designed(block(), "straight", -15.0), FACED)
    (finding,) = [f for f in findings(block(), low) if f.code == "neckline-bust-point"]
    assert finding.severity == "error"
    assert finding.value == pytest.approx(-15.0, abs=0.5)
    shallow = finish(designed(block(), "straight", 25.0), FACED)
    (finding,) = [f for f in findings(block(), shallow) if f.code == "neckline-bust-point"]
    assert finding.severity == "warning"
    assert finding.value == pytest.approx(25.0, abs=0.5)


@pytest.mark.parametrize("panels", [3, 4, 5, 6])
def test_a_back_below_the_underbust_is_a_warning_with_its_number(panels: int) -> None:
    own = block(panels)

    def backed(height: Height) -> tuple[Pattern, list[Finding]]:
        top = TopEdge("s1", "straight", Height("bust", 45.0), Height("bust", 45.0), height)
        made = replay(Design("d-1", "Lantern bodice", (top,)), own.pattern)
        assert made.complete, made.outcomes
        return made.pattern, [f for f in check_back_edge(made.pattern, own.pattern, Wearing()) if f.code == "low-back"]

    assert backed(Height("underbust", 2.0))[1] == []
    for off, level in ((2.0, "underbust"), (30.0, "underbust")):
        (finding,) = backed(Height(level, -off))[1]
        assert (finding.severity, finding.limit) == ("warning", 0)
        assert finding.value == pytest.approx(off, abs=0.5)
        assert "(in the step “Top edge: straight” set the height at centre back higher)" in finding.remedy
    pattern, (at_waist,) = backed(Height("waist", 5.0))
    assert at_waist.value > 50.0
    (unmeasured,) = check_back_edge(pattern, None, Wearing())
    assert (unmeasured.code, unmeasured.value) == ("low-back", 0.0)
    assert "the top edge lies below the underbust" in unmeasured.message


def test_an_ordinary_garment_has_no_finding_about_height_back_or_allowance() -> None:
    for panels in (3, 4, 5, 6):
        found = {finding.code for finding in findings(block(panels), finish(designed(block(panels)), FACED))}
        assert not found & {"low-back", "short-seam", "no-allowance", "loose"}


def test_a_hem_at_the_bust_leaves_a_band() -> None:
    top, hem = (Height("bust", 30.0),) * 2, (Height("bust", -10.0),) * 2
    steps = (TopEdge("s1", "straight", *top), Hem("s2", "straight", *hem))
    made = replay(Design("d-1", "Lantern band", steps), block().pattern)
    assert made.complete
    (finding,) = [f for f in findings(block(), finish(made.pattern)) if f.code == "short-seam"]
    assert finding.value == pytest.approx(40.0, abs=3.0)
    assert {"the step “Top edge: straight”", "the step “Hem: straight”"} == set(
        finding.remedy.partition("(in ")[2].partition(")")[0].split(" or ")
    )


def test_a_sweetheart_may_dip_at_the_centre_front() -> None:
    top = TopEdge("s1", "sweetheart", Height("bust", -10.0), Height("bust", 45.0))
    made = replay(Design("d-1", "Lantern bodice", (top,)), block().pattern)
    assert made.complete
    found = findings(block(), finish(made.pattern))
    assert "neckline-bust-point" not in {finding.code for finding in found}


def test_a_sewn_centre_back_cannot_be_put_on() -> None:
    own = block(4, "seam")
    (finding,) = [f for f in findings(own, finish(designed(own), FACED)) if f.severity == "error"]
    assert finding.code == "cannot-be-put-on"
    assert "Let a closure (in a file: a step of kind closure) open it from top to hem" in finding.remedy


def test_a_spoilt_edge_of_a_made_garment_is_found() -> None:
    pattern = designed(block())
    sf = pattern.piece("SF")
    top = next(edge for edge in sf.edges if edge.line == "s1/line")
    points = top.curve.points
    points[1] += [0.0, 2.0]
    bent = replace(top, curve=type(top.curve).from_points(points))
    spoilt = pattern.with_pieces(replace(sf, edges=tuple(bent if e is top else e for e in sf.edges)))
    found = check_drafting(finish(spoilt, FACED))
    assert [finding.code for finding in found] == ["blend"]
    assert "In the step “Top edge: sweetheart” move or take out the points nearest to this seam" in found[0].remedy


def test_what_a_design_drew_is_put_right_in_the_design() -> None:
    """The remedy names the step and the field; a person who wrote a design never draws a line by hand."""
    deep = TopEdge("s1", "v", Height("bust", 10.0), Height("bust", 45.0))
    pattern = replay(Design("d-1", "Lantern bodice", (deep,)), block().pattern).pattern
    cf = pattern.piece("CF")
    top = next(edge for edge in cf.edges if edge.line == "s1/line")
    sloped = replace(cf, edges=tuple(replace(e, pointed_end=False) for e in cf.edges))
    (finding,) = [f for f in check_drafting(finish(pattern.with_pieces(sloped), FACED)) if f.code == "fold-angle"]
    assert finding.message.startswith("Centre front: the top edge meets the fold at ")
    assert "In the step “Top edge: V” take out the points nearest to the centre" in finding.remedy
    assert "(in a file: point_at_centre, true)" in finding.remedy
    cutting = finish(pattern, FACED)
    wider = {top.id: 60.0}
    lied = replace(cutting.cut["CF"], allowances={**cutting.cut["CF"].allowances, **wider})
    found = check_drafting(replace(cutting, cut={**cutting.cut, "CF": lied}))
    (finding,) = [f for f in found if f.subject == top.id]
    assert "beside the top edge the cut line is 5 cm off its allowance of 6 cm; the limit is 0.01 cm" in finding.message
    assert finding.remedy.startswith("Reduce the allowance (in a file: finish.allowance_cm")
    assert "in the step “Top edge: V” bring its heights and points nearer to one height" in finding.remedy


def test_a_made_garment_comes_back_from_its_file(tmp_path: Path) -> None:
    for pattern in (designed(block(5)), unfold(designed(block(5)))):
        cutting = finish(pattern, FACED)
        write_pattern(cutting, findings(block(5), cutting), tmp_path / "pattern.json")
        read = read_pattern(tmp_path / "pattern.json")
        assert read.pattern == cutting.pattern
        assert hash(read.pattern) == hash(cutting.pattern)
        assert findings(block(5), read) == findings(block(5), cutting)


def test_a_dip_steeper_than_45_degrees_at_the_fold_is_cut_right() -> None:
    """The other half's allowance covers part of the edge's own there; opened out, the cut line is at the allowance."""
    deep, under = Height("underbust", offset=-20.0), Height("upper-bust", offset=-5.0)
    hem = Hem("hem", "straight", Height("top-hip"), Height("top-hip"))
    steps = (TopEdge("top", "sweetheart", deep, under), hem)
    cutting = finish(replay(Design("deep-1", "Deep", steps), block().pattern).pattern)
    piece, cut = cutting.pattern.piece("CF"), cutting.cut["CF"]
    (top,) = piece.on_line("top/line")
    slopes = [abs(rise / run) for run, rise in (top.curve.tangent(place) for place in np.linspace(5, 30, 6))]
    assert max(slopes) > 1.0
    assert check_drafting(cutting) == ()
    half = shapely.Polygon(cut.cut_line)
    opened = shapely.union(half, shapely.transform(half, lambda points: points * [-1.0, 1.0]))
    neck = shapely.LineString(top.curve.polyline())
    both = shapely.union(neck, shapely.transform(neck, lambda points: points * [-1.0, 1.0]))
    along = [opened.exterior.interpolate(place) for place in np.linspace(0, opened.exterior.length, 4000)]
    low, high = top.curve.start[1], top.curve.end[1]
    beside = [p for p in along if abs(p.x) < abs(top.curve.end[0]) - 20 and low - 5 < p.y < high + 5]
    assert len(beside) > 50
    assert all(abs(both.distance(p) - 10.0) < 0.1 for p in beside)
