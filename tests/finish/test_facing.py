"""Facings by width: closed forms on a round neck, distances and seams on real garments."""

from collections.abc import Iterator
from math import pi
from pathlib import Path

import numpy as np
import pytest
import shapely
from round_neck import CENTRE, RADIUS, front
from shapely import LineString, MultiLineString
from verifier import violations
from worn_garment import HIGH, STRAPS, TOP, WIDE, closure, garment

from panelwright.checks import check_drafting
from panelwright.design.unfold import unfold
from panelwright.errors import InputError
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.facing_edge import FACING_EDGE
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.geometry.curve import Curve
from panelwright.output.pattern_file import pattern_to_json
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import Line
from panelwright.pattern.mark import Grain
from panelwright.pattern.material import Region
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

ZIP = closure("centre-back", "zip")
BUTTONS = closure("centre-front", "buttons")
TIE = {"kind": "tie", "uid": "tie", "from": "side"}
EDGE = Finish(facing="edge")
# The inner edge leaves the parallel to meet its neighbour over so many mm beside a seam.
NEAR_SEAM = 60.0


def area(piece: Piece) -> float:
    return float(piece.outline.area)


def inner(piece: Piece) -> LineString:
    (edge,) = piece.on_line(FACING_EDGE.id)
    return LineString(edge.curve.polyline())


def upper(piece: Piece) -> MultiLineString:
    """The upper edges of a shell's piece."""
    return MultiLineString(
        [e.curve.polyline() for e in piece.edges if e.kind == "finished" and not e.line.startswith("hem")]
    )


def facings(cutting: CuttingPattern) -> Iterator[tuple[Piece, Piece]]:
    """(facing with an inner edge, the panel that it is cut from)."""
    for piece in cutting.pattern.pieces:
        if piece.layer == "facing" and piece.derived_from and piece.on_line(FACING_EDGE.id):
            yield piece, cutting.pattern.piece(piece.derived_from)


@pytest.mark.parametrize("width", [25.0, 50.0, 80.0])
def test_the_facing_of_a_round_neck_is_a_ring(width: float) -> None:
    """Closed form: a quarter of the ring between two circles, π/4 · ((r + w)² - r²); its inner edge π/2 · (r + w)."""
    piece = finish(front(), Finish(facing="edge", facing_width=width)).pattern.piece("CF/facing")
    assert area(piece) == pytest.approx(pi / 4 * ((RADIUS + width) ** 2 - RADIUS**2), rel=2e-3)
    line = inner(piece)
    assert line.length == pytest.approx(pi / 2 * (RADIUS + width), rel=2e-3)
    away = [np.hypot(*(np.array(point) - CENTRE)) for point in line.coords]
    assert np.abs(np.array(away) - RADIUS - width).max() < 0.2
    assert {edge.line: edge.kind for edge in piece.edges} == {
        "neckline": "finished",
        "yoke": "seam",
        FACING_EDGE.id: "finished",
        "centre-front": "fold",
    }


def test_a_hem_facing_of_a_straight_hem_is_a_rectangle() -> None:
    """Closed form: width times length of the hem; the hem's own facing has its own id and name."""
    cutting = finish(front(), Finish(facing="edge", hem_facing_width=40.0))
    piece = cutting.pattern.piece("CF/hem-facing")
    assert piece.label == "Front hem facing"
    assert area(piece) == pytest.approx(40.0 * 220.0, rel=1e-6)
    assert {p.id for p in cutting.pattern.pieces} == {"CF", "CF/facing", "CF/hem-facing"}


def test_a_lining_to_the_facing_is_what_the_facings_leave() -> None:
    """The areas of facings and lining add to the panel's; their inner edges are one curve and sewn to each other."""
    cutting = finish(front(), Finish(facing="edge", hem_facing_width=40.0, lining="to_facing"))
    shell, *layers = cutting.pattern.pieces
    assert {piece.id for piece in layers} == {"CF/facing", "CF/hem-facing", "CF/lining"}
    assert sum(map(area, layers)) == pytest.approx(area(shell), rel=1e-6)
    for seam in ("facing-edge/CF/facing", "facing-edge/CF/hem-facing"):
        joined = cutting.pattern.seam(seam)
        assert cutting.pattern.chain_length(joined.a) == pytest.approx(cutting.pattern.chain_length(joined.b), abs=1e-9)
    for piece in layers:
        assert all(cutting.cut[piece.id].allowances[edge.id] == 10.0 for edge in piece.on_line(FACING_EDGE.id))


def test_a_facing_ends_without_an_allowance_where_nothing_is_sewn_to_it() -> None:
    cutting = finish(front(), EDGE)
    assert cutting.cut["CF/facing"].allowances["CF/facing.facing-edge"] == 0.0
    assert cutting.cut["CF/facing"].allowances["CF/facing.neckline"] == 10.0
    assert "facing edge none" in " ".join(cutting.cut["CF/facing"].text)


@pytest.mark.parametrize("turn", [0.5, 1.0, 3.0])
@pytest.mark.parametrize("kind", ["edge", "full"])
def test_turn_of_cloth_of_a_round_neck_is_two_pi_thicknesses(turn: float, kind: str) -> None:
    """Closed form (G): once round, the inside neckline is 2πt longer; at a hem round a body it would be shorter.

    A neckline is a hole, so its edge moved into the piece has the greater radius; seams keep the same distance.
    """
    piece = finish(front(), Finish(facing=kind, turn_of_cloth=turn)).pattern.piece("CF/facing")  # type: ignore[arg-type]
    (neck,) = piece.on_line("neckline")
    assert 4 * (neck.curve.length - pi / 2 * RADIUS) == pytest.approx(2 * pi * turn, abs=0.01)
    away = np.hypot(*(neck.curve.polyline() - CENTRE).T)
    assert np.abs(away - RADIUS - turn).max() < 0.01


def test_turn_of_cloth_of_a_disc_is_two_pi_thicknesses() -> None:
    """The same for an edge that goes round the outside: a hem moved in by t all along is straight and t higher."""
    pattern = front()
    piece = finish(pattern, Finish(lining="full", turn_of_cloth=2.0)).pattern.piece("CF/lining")
    (hem,) = piece.on_line("hem")
    assert np.allclose(hem.curve.polyline()[:, 1], 2.0, atol=1e-9)
    assert hem.curve.length == pytest.approx(220.0, abs=1e-9)


REAL = {
    "top": lambda: garment([TOP], [ZIP]),
    "high": lambda: garment([HIGH], [ZIP]),
    "wide": lambda: garment([WIDE], [BUTTONS]),
    "straps": lambda: garment([TOP, STRAPS], [ZIP]),
    "tie": lambda: garment([TOP, TIE]),
}
KINDS = {
    "edge": Finish(facing="edge"),
    "all": Finish(facing="edge", hem_facing_width=40.0, lining="to_facing", interfacing="facing", turn_of_cloth=1.0),
    "full": Finish(facing="full", lining="full", interfacing="facing", turn_of_cloth=2.0),
}


@pytest.mark.parametrize("name", REAL)
@pytest.mark.parametrize("kind", KINDS)
def test_layers_of_real_garments_are_sound(name: str, kind: str, shared: Path) -> None:
    pattern = REAL[name]()
    cutting = finish(pattern, KINDS[kind])
    assert violations(shared, pattern_to_json(cutting, ())) == []
    assert check_drafting(cutting) == ()
    assert finish(cutting.pattern, KINDS[kind]).pattern == cutting.pattern
    assert finish(cutting.pattern, Finish()).pattern == finish(pattern, Finish()).pattern


@pytest.mark.parametrize("name", REAL)
@pytest.mark.parametrize("kind", KINDS)
def test_the_outer_pieces_are_the_same_without_the_layers_inside(name: str, kind: str) -> None:
    whole, outer = (finish(REAL[name](), KINDS[kind], layers) for layers in (True, False))
    assert outer.pattern.pieces == tuple(piece for piece in whole.pattern.pieces if piece.derived_from is None)
    for id, cut in outer.cut.items():
        assert np.array_equal(cut.cut_line, whole.cut[id].cut_line)
        assert (cut.allowances, cut.notches, cut.text) == (
            whole.cut[id].allowances,
            whole.cut[id].notches,
            whole.cut[id].text,
        )


def test_layers_of_both_sides_drawn_are_sound(shared: Path) -> None:
    cutting = finish(unfold(garment([TOP, STRAPS], [ZIP])), KINDS["all"])
    assert violations(shared, pattern_to_json(cutting, ())) == []


@pytest.mark.parametrize("name", REAL)
def test_a_facing_is_nowhere_narrower_than_asked(name: str) -> None:
    """Shapely: beside the seams it may run on deeper to meet its neighbour, elsewhere the inner edge is parallel."""
    cutting = finish(REAL[name](), EDGE)
    found = list(facings(cutting))
    assert found
    for facing, panel in found:
        line, edges = inner(facing), upper(panel)
        seams = shapely.union_all([LineString(e.curve.polyline()) for e in panel.edges if e.kind != "finished"])
        places = [line.interpolate(at) for at in np.arange(1.0, line.length, 2.0)]
        clear = [place for place in places if place.distance(seams) > NEAR_SEAM]
        assert all(place.distance(edges) > 48.0 for place in clear)
        assert all(place.distance(edges) > 40.0 for place in places)


@pytest.mark.parametrize("name", ["top", "high", "straps"])
def test_the_inner_edge_runs_on_smoothly_across_every_seam(name: str) -> None:
    """Both facings meet a seam at one place (equal lengths) and their inner angles add to 180°."""
    pattern = finish(REAL[name](), EDGE).pattern
    for seam in (seam for seam in pattern.seams if seam.id.startswith("facing/") and not seam.is_centre):
        assert pattern.chain_length(seam.a) == pytest.approx(pattern.chain_length(seam.b), abs=1e-6)
        for at_end in (False, True):
            corners = []
            for chain in (seam.a, seam.b):
                span = chain[-1 if at_end else 0]
                piece, edge = pattern.piece(span.piece), pattern.edge(span)
                share = span.end if at_end else span.start
                other = piece.after(edge) if share == 1.0 else piece.before(edge)
                if other.line == FACING_EDGE.id:
                    corners.append(piece.inner_angle(edge if share == 1.0 else other))
            assert len(corners) in (0, 2)
            assert sum(corners) == pytest.approx(pi * (len(corners) // 2), abs=1e-6)


def test_bands_that_meet_at_the_shoulder_are_one_facing_and_wide_shoulders_keep_two() -> None:
    """A strap is faced across; a front whose neck and armhole are far apart has two facings on one panel."""
    strap = finish(garment([TOP, STRAPS], [ZIP]), EDGE).pattern.piece("CF/facing")
    assert {"straps/strap-neckline", "straps/shoulder", "neckline/line"} <= {edge.line for edge in strap.edges}
    narrow = finish(garment([HIGH], [ZIP]), Finish(facing="edge", facing_width=25.0)).pattern
    (neck,) = (piece for piece in narrow.pieces if piece.derived_from == "CF")
    assert sum(edge.curve.length for edge in neck.on_line("shoulder")) < 40.0


def test_buttoned_edges_are_faced_down_to_the_hem() -> None:
    piece = finish(garment([WIDE], [BUTTONS]), EDGE).pattern.piece("CF/facing")
    opening = next(edge for edge in piece.edges if edge.kind == "opening")
    assert opening.curve.length == pytest.approx(
        garment([WIDE], [BUTTONS]).piece("CF").on_line("centre-front")[0].curve.length
    )
    assert piece.extent == "one_side"


def test_a_panel_that_runs_out_into_a_tie_is_cut_again_whole() -> None:
    """A tie is sewn as a tube, so its panel is faced whole; what its neighbour leaves unsewn is a finished edge."""
    pattern = finish(garment([TOP, TIE]), EDGE).pattern
    faced = pattern.piece("TIE/facing")
    assert area(faced) == pytest.approx(area(pattern.piece("TIE")))
    assert [edge.kind for edge in faced.on_line("side")] == ["finished", "seam"]
    side = pattern.seam("facing/side")
    assert pattern.chain_length(side.a) == pytest.approx(pattern.chain_length(side.b))


def test_a_panel_that_would_keep_next_to_nothing_is_faced_whole() -> None:
    """Of a side of 300 mm a facing of 200 mm and a hem facing of 90 mm leave no more than a strip."""
    options = Finish(facing="edge", facing_width=200.0, hem_facing_width=90.0, lining="to_facing")
    pattern = finish(front(), options).pattern
    assert {piece.id for piece in pattern.pieces} == {"CF", "CF/facing"}
    assert area(pattern.piece("CF/facing")) == pytest.approx(area(pattern.piece("CF")))


def test_interfacing_has_the_facing_s_shapes_without_allowance_or_notches() -> None:
    cutting = finish(garment([HIGH], [ZIP]), Finish(facing="edge", interfacing="facing"))
    own = [piece for piece in cutting.pattern.pieces if piece.layer == "interfacing"]
    assert [piece.derived_from for piece in own] == ["CF/facing", "SF/facing", "SB/facing", "CB/facing"]
    for piece in own:
        assert area(piece) == pytest.approx(area(cutting.pattern.piece(str(piece.derived_from))))
        assert set(cutting.cut[piece.id].allowances.values()) == {0.0}
        assert cutting.cut[piece.id].notches == ()


def test_a_grain_line_of_a_facing_follows_its_panel_where_it_has_room() -> None:
    cutting = finish(garment([HIGH], [ZIP]), EDGE)
    for facing, panel in facings(cutting):
        a, b = (piece.grain.vector / piece.grain.length for piece in (facing, panel))
        assert abs(float(a @ b)) == pytest.approx(1.0, abs=1e-9)


def test_a_strip_too_narrow_for_the_turn_of_cloth_is_refused_in_one_sentence() -> None:
    """8 mm wide, 5 mm off each edge: nothing is left."""
    corners = [(0.0, 0.0), (8.0, 0.0), (8.0, 90.0), (0.0, 90.0)]
    edges = tuple(
        Edge(f"N.{k}", f"line-{k}", "left", "finished", Curve.straight(a, b))
        for k, (a, b) in enumerate(zip(corners, corners[1:] + corners[:1], strict=True))
    )
    grain = Grain((4.0, 10.0), (4.0, 80.0))
    piece = Piece("N", "Narrow", edges, "whole", "both", grain, material=(Region("N"),))
    pattern = Pattern((piece,), (), tuple(Line(e.line, e.line) for e in edges), ())
    with pytest.raises(
        InputError,
        match=r"^piece N is too narrow .*; give less of it \(in a file: finish.turn_of_cloth_mm\), or leave it out$",
    ):
        finish(pattern, Finish(lining="full", turn_of_cloth=5.0))
    assert finish(pattern, Finish(lining="full", turn_of_cloth=2.0)).pattern.piece("N/lining").outline.area == (
        pytest.approx(4.0 * 86.0)
    )


def test_a_lining_never_ends_in_a_thin_tongue_at_the_shoulder() -> None:
    """Apart, the bands leave 17 mm beside the princess seam there; a lining makes them one facing instead."""
    apart = finish(garment([HIGH], [ZIP]), EDGE).pattern
    lined = finish(garment([HIGH], [ZIP]), Finish(facing="edge", lining="to_facing")).pattern
    assert apart.piece("SF/facing").on_line("shoulder")[0].curve.length < 60.0
    for panel in ("CF", "SF", "SB", "CB"):
        whole = lined.piece(panel).on_line("shoulder")[0].curve.length
        assert lined.piece(f"{panel}/facing").on_line("shoulder")[0].curve.length == pytest.approx(whole)
        assert not lined.piece(f"{panel}/lining").on_line("shoulder")
        assert not lined.piece(f"{panel}/lining").outline.buffer(-12.0).is_empty


def test_a_sewn_on_strap_is_backed_once_though_there_are_facing_and_lining(shared: Path) -> None:
    """CP: a strap has two layers. With no facing it is the lining that backs it."""
    pattern = garment([TOP, {**STRAPS, "type": "separate"}], [ZIP])
    for turn in (0.0, 0.5):
        both = finish(pattern, Finish(facing="edge", lining="full", turn_of_cloth=turn))
        assert [piece.layer for piece in both.pattern.pieces if "STRAP" in piece.id] == ["outer", "facing"]
        assert violations(shared, pattern_to_json(both, ())) == []
    lined = finish(pattern, Finish(lining="full"))
    assert [piece.layer for piece in lined.pattern.pieces if "STRAP" in piece.id] == ["outer", "lining"]


@pytest.mark.parametrize("over", [-0.6, 0.6])
def test_a_tie_that_reaches_a_hair_over_the_end_of_the_facing_is_sewn_on_whole(over: float, shared: Path) -> None:
    """Its width puts the end of the facing 0.6 mm inside the tie, or 0.6 mm beyond it."""
    shell = garment([TOP, {"kind": "tie", "uid": "ties", "from": "centre-back", "width_cm": 3, "count": 2}])
    back, (seam, *_) = shell.piece("CB").on_line("centre-back")[0], [s for s in shell.seams if s.id.startswith("TIE-1")]
    (span,) = seam.a
    reaches = max(span.start, span.end) if back.curve.start[1] > back.curve.end[1] else 1 - min(span.start, span.end)
    width = reaches * back.curve.length - over
    options = Finish(facing="edge", facing_width=width, lining="to_facing")
    cutting = finish(shell, options)
    faced = cutting.pattern.piece("CB/facing").on_line("centre-back")[0].curve.length
    assert faced == pytest.approx(width, abs=0.3)
    assert check_drafting(cutting) == ()
    assert violations(shared, pattern_to_json(cutting, ())) == []
