"""The kernel proof: surgery that the types were not bent for. Every result keeps the drafting rules."""

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
import shapely
from kernel.kernel_patterns import (
    BLOCK,
    GARMENTS,
    HEM,
    TOP,
    WAIST,
    banded,
    cut,
    joined_back,
    lopsided,
    lopsided_profile,
    unfolded,
    with_yoke,
    yoke_line,
)
from kernel.sewing_rules import arc_length, faults
from verifier import violations

from panelwright.design.attach import attach, attach_waistband, row_on
from panelwright.design.body_chart import whole_chart
from panelwright.design.divided_piece import PartName
from panelwright.design.join import join_pieces
from panelwright.design.position import Height
from panelwright.design.split import split_piece
from panelwright.design.unfold import unfold
from panelwright.errors import DesignError
from panelwright.finish.finishing import finish
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.output.pattern_document import pattern_to_json
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece


@pytest.mark.parametrize("name", GARMENTS)
def test_the_rules_hold(name: str) -> None:
    assert faults(GARMENTS[name]()) == []


@pytest.mark.parametrize("name", GARMENTS)
def test_the_outside_verifier_finds_nothing(name: str, shared: object) -> None:
    document = pattern_to_json(finish(GARMENTS[name]()))
    assert violations(shared, document) == []  # type: ignore[arg-type]


def broken(pattern: Pattern, breaking: str) -> Pattern:
    """The pattern with one thing wrong."""
    if breaking == "ease":
        return replace(pattern, seams=tuple(replace(s, ease=s.ease + 0.1) for s in pattern.seams))
    if breaking == "chain":
        seam = pattern.seam("front-princess")
        shorter = replace(seam, b=seam.b[:1])
        return replace(pattern, seams=tuple(shorter if s.id == seam.id else s for s in pattern.seams))
    if breaking == "level":
        return replace(pattern, levels=tuple(replace(lv, path=lv.path[1:]) for lv in pattern.levels))
    piece = pattern.piece("SF")
    return pattern.with_pieces(replace(piece, grain=replace(piece.grain, end=(piece.grain.end[0], 900.0))))


@pytest.mark.parametrize(
    ("breaking", "said"),
    [("ease", "do not fit"), ("chain", "sewn to nothing"), ("level", "measures"), ("grain", "leaves")],
)
def test_the_rules_are_not_blind(breaking: str, said: str) -> None:
    assert any(said in fault for fault in faults(broken(with_yoke(cut(TOP, HEM)), breaking)))


def outline_points(piece: Piece, per_edge: int = 40) -> np.ndarray:
    return np.array(
        [edge.curve.point(t * edge.curve.length) for edge in piece.edges for t in np.linspace(0, 1, per_edge)]
    )


def off_outline(points: np.ndarray, piece: Piece) -> float:
    """Largest distance of points from the exact edges of a piece."""
    return max(min(edge.curve.nearest(point)[1] for edge in piece.edges) for point in points)


class TestYoke:
    def test_seams_run_on_over_both_parts(self) -> None:
        pattern = with_yoke(cut(TOP, HEM))
        front, side, yoke = (pattern.seam(id) for id in ("front-princess", "side", "yoke/line"))
        assert [(s.piece, s.edge) for s in front.b] == [
            ("SF", "SF.front-princess"), ("SF-yoke", "SF-yoke.front-princess")
        ]  # fmt: skip
        assert [s.piece for s in side.a] == ["SF", "SF-yoke"]
        assert [s.piece for s in front.a] == ["CF"]
        assert ([s.piece for s in yoke.a], [s.piece for s in yoke.b]) == (["SF"], ["SF-yoke"])

    def test_intervals_of_the_lines_are_narrowed_where_they_were_cut(self) -> None:
        before, after = cut(TOP, HEM), with_yoke(cut(TOP, HEM))
        for line in ("front-princess", "side"):
            whole = before.piece("SF").on_line(line)[0].interval
            low, high = (after.piece(id).on_line(line)[0].interval for id in ("SF", "SF-yoke"))
            assert (low[0], high[1]) == pytest.approx(whole)
            assert low[1] == pytest.approx(high[0])

    def test_the_two_parts_fill_the_piece_and_share_the_material(self) -> None:
        before, after = cut(TOP, HEM).piece("SF"), with_yoke(cut(TOP, HEM))
        parts = [after.piece("SF"), after.piece("SF-yoke")]
        assert sum(part.outline.area for part in parts) == pytest.approx(before.outline.area, abs=1.0)
        for part in parts:
            (region,) = part.material
            assert (region.panel, region.placement) == ("SF", Placement())
            assert shapely.Polygon(region.boundary).area == pytest.approx(part.outline.area, abs=0.5)

    def test_levels_and_inside_lines_are_shared_out(self) -> None:
        pattern = with_yoke(cut(TOP, HEM))
        assert {line.id for line in pattern.piece("SF-yoke").inside} == set()
        assert "bust" in {line.id for line in pattern.piece("SF").inside}
        slanted = Curve.straight(
            pattern.piece("SF").on_line("front-princess")[0].curve.start,
            pattern.piece("SF").on_line("side")[0].curve.start,
        )
        line = Line("slant/line", "Slant", "slant")
        parts = PartName("SF", "Side front"), PartName("SF-b", "Side front, back part")
        twice = split_piece(pattern, "SF", [slanted], line, parts, "front")
        waist = [(step.piece, step.inside) for step in twice.level("waist").path]
        assert ("SF", "waist") in waist
        assert ("SF-b", "waist") in waist

    def test_split_then_join_is_the_same_outline(self) -> None:
        before = cut(TOP, HEM)
        again = join_pieces(with_yoke(before), "yoke/line", "SF", "Side front")
        assert off_outline(outline_points(again.piece("SF")), before.piece("SF")) < 1e-6
        assert off_outline(outline_points(before.piece("SF")), again.piece("SF")) < 1e-6
        guides = [line.id for line in again.piece("SF").inside if line.kind == "guide"]
        assert "yoke/line" in guides
        assert faults(again) == []
        for level in before.levels:
            assert [step.piece for step in again.level(level.id).path] == [step.piece for step in level.path]

    def test_another_outline_would_be_seen(self) -> None:
        before = cut(TOP, HEM).piece("SF")
        assert off_outline(outline_points(before.placed(Placement(x=1e-5))), before) > 1e-6

    def test_a_split_along_a_level_counts_it_once(self) -> None:
        pattern = cut(TOP, HEM)
        line, _ = yoke_line()
        curve = pattern.piece("SF").inside_line("bust").curve.reversed()
        parts = PartName("SF", "Side front"), PartName("SF-yoke", "Yoke")
        split = split_piece(pattern, "SF", [curve], line, parts, "front")
        assert [step.piece for step in split.level("bust").path].count("SF") == 1
        assert faults(split) == []

    def test_a_panel_on_the_fold_split_upright_leaves_a_pair(self) -> None:
        pattern = cut(TOP, HEM)
        piece = pattern.piece("CF")
        ends = [piece.on_line(line)[0].curve.point(60.0) for line in ("low/line", "neck/line")]
        parts = PartName("CF-side", "Centre front, side"), PartName("CF", "Centre front")
        line = Line("strip/line", "Strip", "strip")
        split = split_piece(pattern, "CF", [Curve.straight(*ends)], line, parts, "front")
        assert (split.piece("CF").extent, split.piece("CF-side").extent) == ("half_on_fold", "one_side")

    @pytest.mark.parametrize(
        ("curve", "names", "sentence"),
        [
            (Curve.straight((0.0, 50.0), (100.0, 50.0)), ("SF", "Y"), "cm from its outline; run it from edge to edge"),
            (None, ("SF", "SF"), "need ids of their own"),
            (None, ("CF", "Y"), "need ids of their own"),
        ],
    )
    def test_what_does_not_split_is_refused(self, curve: Curve | None, names: tuple[str, str], sentence: str) -> None:
        line, curves = yoke_line()
        parts = PartName(names[0], "a"), PartName(names[1], "b")
        with pytest.raises(DesignError, match=sentence):
            split_piece(cut(TOP, HEM), "SF", [curve] if curve else curves, line, parts, "front")

    def test_a_cut_that_leaves_the_piece_is_refused(self) -> None:
        pattern = cut(TOP, HEM)
        piece = pattern.piece("SF")
        a, b = (piece.on_line(line)[0].curve.point(150.0) for line in ("front-princess", "side"))
        out = Curve.from_points([a, (a[0] + 200.0, a[1]), (b[0] - 300.0, b[1]), b])
        line, _ = yoke_line()
        parts = PartName("SF", "a"), PartName("SF-b", "b")
        with pytest.raises(DesignError, match="does not split the side front piece in two"):
            split_piece(pattern, "SF", [out], line, parts, "front")


class TestJoin:
    def test_the_first_piece_stays_and_keeps_its_grain(self) -> None:
        before, after = cut(TOP, HEM), joined_back(cut(TOP, HEM))
        assert [piece.id for piece in after.pieces] == ["CF", "SF", "SB"]
        assert after.piece("SB").grain == before.piece("SB").grain
        assert after.piece("SB").on_line("side") == before.piece("SB").on_line("side")
        assert after.piece("SB").label == "Back"

    def test_the_old_seam_is_a_guide_and_other_seams_are_renamed(self) -> None:
        after = joined_back(cut(TOP, HEM))
        assert [seam.id for seam in after.seams] == ["front-princess", "side", "centre-back"]
        assert {span.piece for span in after.seam("centre-back").a} == {"SB"}
        guide = after.piece("SB").inside_line("back-princess")
        assert guide.kind == "guide"
        old = cut(TOP, HEM).piece("SB").on_line("back-princess")[0]
        assert arc_length(guide.curve) == pytest.approx(arc_length(old.curve))

    def test_the_material_map_finds_the_panels_again(self) -> None:
        before, after = cut(TOP, HEM), joined_back(cut(TOP, HEM))
        regions = {region.panel: region for region in after.piece("SB").material}
        moved = regions["CB"].placement
        back = before.piece("CB").on_line("centre-back")[0].curve
        assert np.abs(moved.points(back.points) - after.piece("SB").on_line("centre-back")[0].curve.points).max() < 1e-9
        assert regions["SB"].placement == Placement()

    def test_levels_keep_their_girth_over_both_panels(self) -> None:
        before, after = cut(TOP, HEM), joined_back(cut(TOP, HEM))
        assert [(s.piece, s.inside) for s in after.level("waist").path][-2:] == [("SB", "waist"), ("SB", "waist-2")]
        for level in before.levels:
            girths = [
                sum(s.times * arc_length(p.piece(s.piece).inside_line(s.inside).curve) for s in p.level(level.id).path)
                for p in (before, after)
            ]
            assert girths[0] == pytest.approx(girths[1], abs=1e-6)

    def test_a_misfit_becomes_stated_ease(self) -> None:
        """A yoke taller at the side by its own straight cut: its neighbours' ends are drawn to the first corners."""
        pattern = with_yoke(cut(TOP, HEM))
        yoke = pattern.piece("SF-yoke")
        wider = replace(yoke, edges=tuple(replace(e, curve=e.curve.scaled(1.01)) for e in yoke.edges))
        eased = tuple(
            replace(s, ease=round(bent.chain_length(s.b) - bent.chain_length(s.a), 9))
            for bent in [pattern.with_pieces(wider)]
            for s in bent.seams
        )
        joined = join_pieces(replace(pattern.with_pieces(wider), seams=eased), "yoke/line", "SF", "Side front")
        assert [fault for fault in faults(joined) if "fit" in fault] == []
        assert joined.seam("front-princess").ease != 0.0

    @pytest.mark.parametrize(
        ("seam", "first", "sentence"),
        [
            ("centre-back", "CB", "does not join two pieces along whole edges"),
            ("side", "CF", "does not join CF to another piece"),
            (
                "front-princess",
                "SF",
                "the centre front piece is cut on the fold, which sets its grain; join the side front piece to it",
            ),
        ],
    )
    def test_what_cannot_be_joined_is_refused(self, seam: str, first: str, sentence: str) -> None:
        with pytest.raises(DesignError, match=sentence):
            join_pieces(cut(TOP, HEM), seam, first, "x")

    def test_edges_of_other_lengths_are_refused(self) -> None:
        pattern = cut(TOP, HEM)
        big = pattern.piece("CB")
        big = replace(big, edges=tuple(replace(e, curve=e.curve.scaled(1.1)) for e in big.edges))
        with pytest.raises(DesignError, match="cm apart when laid together"):
            join_pieces(pattern.with_pieces(big), "back-princess", "SB", "Back")


class TestUnfold:
    def test_the_front_is_whole_and_pairs_become_right_and_left(self) -> None:
        pattern = unfolded(cut(TOP, HEM))
        found = {piece.id: (piece.extent, piece.hand) for piece in pattern.pieces}
        assert found == {
            "CF": ("whole", "both"),
            "SF": ("one_side", "right"), "SF/left": ("one_side", "left"),
            "SB": ("one_side", "right"), "SB/left": ("one_side", "left"),
            "CB": ("one_side", "right"), "CB/left": ("one_side", "left"),
        }  # fmt: skip

    def test_left_is_the_mirror_image_of_right(self) -> None:
        pattern = unfolded(cut(TOP, HEM))
        mirror = shapely.affinity.scale(pattern.piece("SF").outline, -1.0, 1.0, origin=(0, 0))
        assert shapely.symmetric_difference(mirror, pattern.piece("SF/left").outline).area < 1e-6
        front = pattern.piece("CF").outline
        mirrored = shapely.affinity.scale(front, -1.0, 1.0, origin=(0, 0))
        assert shapely.symmetric_difference(mirrored, front).area < 1e-6
        assert front.area == pytest.approx(2 * cut(TOP, HEM).piece("CF").outline.area)

    def test_a_fold_at_an_angle_is_unfolded_about_itself(self) -> None:
        pattern = cut(TOP, HEM)
        turned = pattern.with_pieces(pattern.piece("CF").placed(Placement(0.7, 40.0, -25.0)))
        area = unfold(turned).piece("CF").outline.area
        assert area == pytest.approx(2 * pattern.piece("CF").outline.area)

    def test_every_seam_has_a_twin_but_the_centre_back_which_joins_the_sides(self) -> None:
        pattern = unfolded(cut(TOP, HEM))
        assert [seam.id for seam in pattern.seams] == [
            "front-princess", "front-princess/left", "side", "side/left", "back-princess", "back-princess/left",
            "centre-back",
        ]  # fmt: skip
        closing = pattern.seam("centre-back")
        assert ([s.piece for s in closing.a], [s.piece for s in closing.b]) == (["CB"], ["CB/left"])
        assert all(span.hand == "same" for seam in pattern.seams for span in seam.a + seam.b)

    def test_levels_cross_the_whole_front_once(self) -> None:
        before, after = cut(TOP, HEM), unfolded(cut(TOP, HEM))
        for level in before.levels:
            path = after.level(level.id).path
            assert len(path) == 7
            assert all(step.times == 1 for step in path)
            half = arc_length(before.piece("CF").inside_line(level.id).curve)
            assert arc_length(after.piece("CF").inside_line(level.id).curve) == pytest.approx(2 * half)

    def test_a_point_at_the_fold_stays_a_point(self) -> None:
        pointed = cut(replace(TOP, shape="v"), HEM)
        piece = unfolded(pointed).piece("CF")
        assert [edge.id for edge in piece.edges if edge.pointed_end] == ["CF.neck/line/left"]

    def test_the_same_hem_before_or_after_unfolding_is_the_same(self) -> None:
        before, after = unfolded(cut(TOP, HEM)), GARMENTS["symmetric hem after unfolding"]()
        for piece in before.pieces:
            assert off_outline(outline_points(after.piece(piece.id)), piece) < 1e-6

    def test_a_whole_piece_sewn_to_half_of_a_pair_must_say_which_half(self) -> None:
        pattern = banded(cut(TOP, WAIST))
        band = replace(unfold(pattern).piece("band"), label="Whole band")
        mixed = pattern.with_pieces(band)
        with pytest.raises(DesignError, match="name both sides of the pair"):
            unfold(mixed)


class TestLopsidedHem:
    def test_right_and_left_differ_and_the_line_is_smooth_across_the_front(self) -> None:
        pattern = lopsided(unfolded(cut(TOP)))
        right, left = pattern.piece("SF"), pattern.piece("SF/left")
        assert abs(right.outline.area - left.outline.area) > 1000.0
        front = pattern.piece("CF")
        edges = front.on_line("low/line")
        assert len(edges) == 2
        first, second = edges
        cross = np.cross(np.append(first.curve.end_tangent, 0), np.append(second.curve.start_tangent, 0))[2]
        assert abs(math.degrees(math.asin(cross))) < 1e-6

    def test_one_line_runs_from_the_left_centre_back_to_the_right_one(self) -> None:
        pattern = lopsided(unfolded(cut(TOP)))
        order = ["CB/left", "SB/left", "SF/left", "CF", "SF", "SB", "CB"]
        intervals = [sorted(edge.interval for edge in pattern.piece(id).on_line("low/line")) for id in order]
        flat = [share for piece in intervals for interval in piece for share in interval]
        assert (flat[0], flat[-1]) == (0.0, 1.0)
        assert flat == sorted(flat)

    def test_heights_are_those_of_the_profile(self) -> None:
        """On the plain block the centre front is upright: its hem lies as high as the profile says."""
        pattern = lopsided(unfolded(cut(TOP)))
        profile = lopsided_profile()
        centre = whole_chart(BLOCK).centre
        low = pattern.piece("CF").on_line("low/line")[0].curve.end
        assert low[0] == pytest.approx(0.0, abs=1e-9)
        assert low[1] == pytest.approx(profile.at(profile.seams[centre])[0], abs=1e-6)


class TestWaistband:
    def test_one_seam_has_four_spans_against_one(self) -> None:
        pattern = banded(cut(TOP, WAIST))
        seam = pattern.seam("band")
        assert (seam.kind, [s.piece for s in seam.a], [s.piece for s in seam.b]) == (
            "attach", ["CB", "SB", "SF", "CF"], ["band"]
        )  # fmt: skip
        waist = sum(arc_length(pattern.piece(id).on_line("low/line")[0].curve) for id in ("CF", "SF", "SB", "CB"))
        band = pattern.piece("band")
        assert band.outline.area == pytest.approx(40.0 * waist, rel=1e-9)
        assert (band.extent, band.on_line("centre-front")[0].kind) == ("half_on_fold", "fold")
        assert {pattern.piece(id).on_line("low/line")[0].kind for id in ("CF", "SF", "SB", "CB")} == {"seam"}

    def test_unfolding_it_and_sewing_it_to_the_unfolded_agree(self) -> None:
        one, other = (GARMENTS[name]().piece("band") for name in ("waistband, unfolded", "waistband after unfolding"))
        assert one.extent == other.extent == "whole"
        assert one.outline.area == pytest.approx(other.outline.area)
        assert len(GARMENTS["waistband after unfolding"]().seam("band").a) == 8

    def test_the_row_starts_and_ends_at_the_opening(self) -> None:
        row = row_on(unfolded(cut(TOP, WAIST)), "low/line")
        assert [span.piece for span in row.spans] == ["CB", "SB", "SF", "CF", "CF", "SF/left", "SB/left", "CB/left"]
        assert {edge.line for edge in row.ends} == {"centre-back"}

    def test_a_band_of_another_length_is_refused(self) -> None:
        pattern = cut(TOP, WAIST)
        band = banded(pattern).piece("band")
        longer = replace(band, edges=tuple(replace(e, curve=e.curve.scaled(1.001)) for e in band.edges))
        with pytest.raises(DesignError, match=r"cm longer than the [\d.]+ cm that it is sewn to"):
            attach(
                replace(pattern, lines=(*pattern.lines, Line("band/edge", "Edge", "band"))),
                longer, "band.low/line", "low/line", "band",
            )  # fmt: skip

    @pytest.mark.parametrize(
        ("make", "sentence"),
        [
            (lambda: attach_waistband(cut(TOP, WAIST), "low/line", 5.0, "band"), "of 0.5 cm is not 1 to 50 cm wide"),
            (lambda: attach_waistband(cut(TOP, WAIST), "nowhere", 40.0, "band"), "are not one row with two ends"),
        ],
    )
    def test_a_band_that_cannot_be_is_refused(self, make: Callable[[], Pattern], sentence: str) -> None:
        with pytest.raises(DesignError, match=sentence):
            make()

    def test_cutting_away_what_a_band_is_sewn_to_is_refused(self) -> None:
        pattern = banded(cut(TOP, WAIST))
        higher = replace(WAIST, uid="higher", centre=Height("waist", 20.0), side=Height("waist", 20.0))
        with pytest.raises(DesignError, match="cut away one side of the band seam and leave the other"):
            higher.apply(pattern, BLOCK)


class TestLaterSteps:
    def test_a_panel_split_and_joined_again_is_cut_like_one_that_never_was(self) -> None:
        again, plain = GARMENTS["split and joined again, then cut"](), cut(TOP, HEM)
        assert off_outline(outline_points(again.piece("SF")), plain.piece("SF")) < 1e-6

    def test_a_line_across_a_yoke_seam_asks_to_come_first(self) -> None:
        pattern = with_yoke(cut(HEM), Height("bust", 5.0))
        slanting = replace(TOP, shape="straight", centre=Height("bust", -30.0), side=Height("upper-bust", -10.0))
        with pytest.raises(
            DesignError, match="it crosses the seam between that piece and another; put this step first"
        ):
            slanting.apply(pattern, BLOCK)

    def test_a_line_across_panels_that_lie_apart_asks_to_come_before_the_joining(self) -> None:
        """Joined at hip and top, the two hollow waists lie 3 cm apart: there is no line to cut along."""
        with pytest.raises(DesignError, match=r"its panels lie 3\.3 cm apart there; draw this edge before joining"):
            WAIST.apply(joined_back(cut(TOP)), BLOCK)

    def test_a_line_that_would_cut_off_a_whole_piece_is_refused(self) -> None:
        pattern = with_yoke(cut(HEM))
        low = replace(TOP, shape="straight", centre=Height("bust", -30.0), side=Height("bust", -30.0))
        with pytest.raises(DesignError, match="it would cut away the whole of the side front yoke piece"):
            low.apply(pattern, BLOCK)
