"""Bones: lengths, channels, counts. CP: a bone ends about 5 mm short of each stitched edge and never crosses it."""

import math
from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import shapely
from design.test_edges import HEM, TOP, carried_out
from hypothesis import given
from hypothesis import strategies as st
from plain_block import plain_block
from plausible_bodies import plausible_bodies
from shapely import LineString, Polygon
from verifier import violations

from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import PLANS, BlockOptions
from panelwright.checks import check
from panelwright.design.bodice_top import BodiceTop
from panelwright.design.bone_bed import Bed
from panelwright.design.bone_channel import Channel
from panelwright.design.bones import Bones
from panelwright.design.buttons import Buttons
from panelwright.design.closure import ClosureStep
from panelwright.design.fastening import Fastening
from panelwright.design.hem import Hem
from panelwright.design.hooks import Hooks
from panelwright.design.lacing import Lacing
from panelwright.design.position import Height
from panelwright.design.replay import Design, replay
from panelwright.design.step_file import steps_from_json, steps_to_json
from panelwright.design.tied import Tied
from panelwright.design.top_edge import TopEdge
from panelwright.design.unfold import unfold
from panelwright.design.zip import Zip
from panelwright.errors import DesignError
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.geometry.curve import Curve
from panelwright.output.pattern_document import pattern_to_json
from panelwright.pattern.edge import Edge
from panelwright.pattern.mark import Grain, Mark
from panelwright.pattern.notion import Notion
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece

BLOCK = plain_block()
LEVEL_TOP = TopEdge("neck", "straight", Height("bust", 30.0), Height("bust", 30.0))
LEVEL_HEM = Hem("hem", "straight", Height("waist"), Height("waist"))
MIDDLE = Channel("front-princess", "side", 0.5)
LEANING = Channel("back-princess", "side", 0.4, 0.6)


def cut() -> Pattern:
    return carried_out(TOP, HEM)


def boned(step: Bones, pattern: Pattern | None = None) -> Pattern:
    return step.apply(pattern or cut(), BLOCK)


def bones_of(pattern: Pattern) -> dict[float | None, int]:
    return {notion.length: notion.count for notion in pattern.notions if notion.kind == "bone"}


def slanted(angle: float, height: float = 200.0) -> Piece:
    """A piece 100 mm wide with a level hem, whose top makes an angle with the right edge (less than a right one inside
    the piece at its upper end)."""
    rise = 100.0 / math.tan(angle)
    corners = [(-100.0, 0.0), (0.0, 0.0), (0.0, height), (-100.0, height - rise)]
    lines = ("hem", "side", "top", "front-princess")
    edges = tuple(
        Edge(f"P.{line}", line, "left", "seam" if line in ("side", "front-princess") else "finished", curve)
        for line, curve in zip(lines, (Curve.straight(a, b) for a, b in pairwise([*corners, corners[0]])), strict=True)
    )
    return Piece.closed(
        edges, id="P", label="P", extent="one_side", hand="both", grain=Grain((-50.0, 20.0), (-50.0, 80.0))
    )


@pytest.mark.parametrize("degrees", [90.0, 80.0, 60.0, 45.0])
@pytest.mark.parametrize("width", [4.0, 8.0, 14.0])
def test_a_bone_keeps_clear_of_a_slanting_edge_with_its_whole_width(degrees: float, width: float) -> None:
    """G: its corner on the sharp side is nearest: (s - w / tan α) sin α = c, so s = (c + w cos α) / sin α from the
    seam's end, for a bone that reaches w into the piece; in the piece's middle w is half of the bone."""
    angle, clearance = math.radians(degrees), 5.0
    piece = slanted(angle)
    beside = Bed(piece, Curve.straight((0.0, 0.0), (0.0, 200.0)), width, 0.0, "side")
    free = (clearance + width * math.cos(angle)) / math.sin(angle)
    stretch = beside.stretch(clearance)
    assert stretch == pytest.approx((clearance, 200.0 - free), abs=0.02)
    assert beside.whole(100.0) == pytest.approx((0.0, 200.0), abs=0.02)
    middle = Bed(piece, Curve.straight((-50.0, -30.0), (-50.0, 230.0)), width, width)
    edge = 230.0 - 50.0 / math.tan(angle)
    assert middle.stretch(clearance) == pytest.approx((30.0 + clearance, edge - free), abs=0.02)
    assert middle.whole(100.0) == pytest.approx((30.0, edge), abs=0.02)


def test_a_line_beside_a_circle_is_a_circle() -> None:
    """G: the parallel of an arc of radius 150 mm, 8 mm inside it, is the arc of radius 142 mm."""
    turn = math.radians(15.0)
    handle = 150.0 * 4 / 3 * math.tan(turn / 4)
    points = []
    for k in range(4):
        a, b = k * turn, (k + 1) * turn
        start, end = (150.0 * np.array([math.cos(t), math.sin(t)]) for t in (a, b))
        points += [start, start + handle * np.array([-math.sin(a), math.cos(a)])]
        points += [end - handle * np.array([-math.sin(b), math.cos(b)])]
    arc = Curve.from_points([*points, end])
    bed = Bed(slanted(math.pi / 2), arc, 8.0, 0.0)
    parallel = bed.parallel(10.0, arc.length - 10.0, -8.0)
    radii = np.linalg.norm(parallel.polyline(), axis=1)
    assert np.abs(radii - 142.0).max() < 0.01
    assert parallel.length == pytest.approx(142.0 * (4 * turn - 20.0 / 150.0), abs=0.01)


def test_a_bone_at_right_angles_is_the_seam_less_five_millimetres_at_each_end() -> None:
    """CP. The centre front fold from the waist to 30 mm above the bust: 180 mm, so 170 mm."""
    pattern = boned(Bones("bones", seams=("centre-front",)), carried_out(LEVEL_TOP, LEVEL_HEM))
    (working,) = [w for w in pattern.workings if w.id == "bones/centre-front"]
    assert [part.length for part in working.parts[:3]] == pytest.approx([180.0, -5.0, -5.0], abs=0.05)
    assert (working.length, bones_of(pattern)) == (170.0, {170.0: 1})
    (line,) = [line for line in pattern.piece("CF").inside if line.kind == "stitch"]
    assert line.curve.points[:, 0] == pytest.approx(-4.0, abs=1e-6)  # 6 mm of bone and 2 mm of room, half of it
    assert sorted((line.curve.start[1], line.curve.end[1])) == pytest.approx([5.0, 175.0], abs=0.05)


def test_bones_lie_on_every_upright_seam_and_beside_the_opening() -> None:
    pattern = boned(Bones("bones"))
    names = [working.id for working in pattern.workings]
    lines = ("front-princess", "side", "back-princess", "centre-back")
    assert names == [*(f"bones/{line}" for line in lines), "bones/channel-width", "bones/casing"]
    assert sum(bones_of(pattern).values()) == 8
    for line in lines[:3]:
        seam = pattern.seam(line)
        shorter = min(pattern.chain_length(chain) for chain in (seam.a, seam.b))
        (working,) = [w for w in pattern.workings if w.id == f"bones/{line}"]
        assert working.parts[0].length == pytest.approx(shorter, abs=1e-6)
        assert working.length <= shorter - 10.0
        assert working.length % 5.0 == 0.0


def test_what_is_bought_is_what_was_reckoned() -> None:
    pattern = boned(Bones("bones", "flat", channels=(MIDDLE,)))
    bones = [notion for notion in pattern.notions if notion.kind == "bone"]
    (casing,) = [notion for notion in pattern.notions if notion.kind == "casing"]
    assert {notion.name for notion in bones} == {"flat steel bone"}
    assert [n.length for n in bones] == sorted({n.length for n in bones if n.length}, reverse=True)
    assert casing.length == sum(
        n.count * (n.length + 20.0) for n in bones if n.length
    )  # CP: 1 cm turned in at each end
    works = {working.id: working for working in pattern.workings}
    assert works[casing.working].length == casing.length
    assert works["bones/channel-width"].length == 8.0
    for notion in bones:
        if notion.working:
            assert works[notion.working].length == pytest.approx(notion.length, abs=1e-9)
    assert not [part for w in pattern.workings for part in w.parts if "mm" in part.label or "cm" in part.label]


@pytest.mark.parametrize("channel", [MIDDLE, LEANING, Channel("centre-front", "front-princess", 0.4)])
def test_a_channel_runs_between_the_stitched_edges_of_its_panel(channel: Channel) -> None:
    """CP, by shapely: two lines 8 mm apart, inside the piece, 5 mm from every stitched edge at their ends."""
    pattern = boned(Bones("bones", seams=(), channels=(channel,)))
    lines = [(piece, line.curve) for piece in pattern.pieces for line in piece.inside if line.kind == "stitch"]
    (piece, one), (same, other) = lines
    assert piece is same
    walls = [LineString([curve.start, curve.end]) for curve in (one, other)]
    assert walls[0].distance(walls[1]) == pytest.approx(8.0, abs=1e-6)
    assert walls[0].length == pytest.approx(walls[1].length, abs=1e-6)
    strip = Polygon([one.start, one.end, other.end, other.start])
    assert piece.outline.contains(strip)
    away = piece.outline.exterior.distance(strip)
    assert away == pytest.approx(5.0, abs=0.1)
    (length,) = bones_of(pattern)
    assert length is not None
    assert walls[0].length - 5.0 < length <= walls[0].length
    assert bones_of(pattern) == {length: 2}


def test_a_channel_is_upright_or_leans_as_it_was_asked_to() -> None:
    """The plain block's levels are straight, so a place across a panel is a share of its level line."""
    upright, leaning = (boned(Bones("b", seams=(), channels=(channel,))) for channel in (MIDDLE, LEANING))

    def axis(pattern: Pattern, id: str) -> tuple[np.ndarray, np.ndarray]:
        one, other = (line.curve for line in pattern.piece(id).inside if line.kind == "stitch")
        return (one.start + other.start) / 2, (one.end + other.end) / 2

    low, high = axis(upright, "SF")
    assert low[0] == pytest.approx(high[0], abs=1e-9)  # along the grain, which is upright on the plain block
    waist = BLOCK.piece("SF").inside_line("waist")
    assert waist is not None
    assert low[0] == pytest.approx((waist.curve.start[0] + waist.curve.end[0]) / 2, abs=0.01)
    low, high = axis(leaning, "SB")
    for level, share in (("waist", 0.4), ("upper-bust", 0.6)):
        row = BLOCK.piece("SB").inside_line(level)
        assert row is not None
        left, right = row.curve.start, row.curve.end  # back princess on the left, side on the right
        place = left + share * (right - left)
        away = np.cross(np.append(high - low, 0), np.append(place - low, 0))[2] / np.linalg.norm(high - low)
        assert away == pytest.approx(0.0, abs=0.01)


def test_both_sides_drawn_have_the_bones_of_both_hands() -> None:
    step = Bones("bones", channels=(MIDDLE, LEANING, Channel("centre-front", "front-princess", 0.4)))
    half, whole = boned(step), boned(step, unfold(cut()))
    assert bones_of(half) == bones_of(whole)
    assert sum(bones_of(half).values()) == 14
    fold = Bones("bones", seams=("centre-front",))
    assert bones_of(boned(fold)) == bones_of(boned(fold, unfold(cut())))
    guided = boned(fold, unfold(cut())).piece("CF")
    assert len([line for line in guided.inside if line.kind == "stitch"]) == 2


def test_a_centre_back_seam_takes_one_bone_and_only_when_named() -> None:
    pattern = cut()
    edges = tuple(replace(e, kind="seam") if e.line == "centre-back" else e for e in pattern.piece("CB").edges)
    seams = tuple(replace(seam, kind="join") if seam.id == "centre-back" else seam for seam in pattern.seams)
    sewn = replace(pattern.with_pieces(replace(pattern.piece("CB"), edges=edges)), seams=seams)
    assert sum(bones_of(boned(Bones("bones"), sewn)).values()) == 6
    assert sum(bones_of(boned(Bones("bones", seams=("centre-back",)), sewn)).values()) == 1


def test_a_side_seam_with_a_zip_keeps_a_bone_on_the_other_side() -> None:
    zipped = ClosureStep("zip", "side", Zip()).apply(cut(), BLOCK)
    for pattern in (zipped, unfold(zipped)):
        made = boned(Bones("bones", seams=("side",)), pattern)
        assert sum(bones_of(made).values()) == 1
        assert "that stays shut" in made.notions[-1].detail + made.notions[-2].detail


@pytest.mark.parametrize(
    ("fastening", "down_to", "walls"),
    [
        (Lacing(gap=40.0), None, [8.0]),
        (Tied(), None, [8.0]),
        (Hooks(), None, [10.0, 18.0]),
        (Zip("lapped"), None, [12.0, 20.0]),
        (Zip("centred"), Height("waist", 10.0), [12.0, 20.0]),
        (Buttons(), None, []),
    ],
)
def test_beside_an_opening_a_bone_leaves_room_for_what_shuts_it(
    fastening: Fastening, down_to: Height | None, walls: list[float]
) -> None:
    """MEM: half the tape of a zip is about 12 mm, a hook reaches about 10 mm; buttonholes lie across the bone."""
    shut = ClosureStep("back", "centre-back", fastening, down_to).apply(cut(), BLOCK)
    pattern = boned(Bones("bones"), shut)
    assert sum(bones_of(pattern).values()) == (8 if walls else 6)
    piece = pattern.piece("CB")
    edge = LineString(np.concatenate([e.curve.polyline() for e in piece.on_line("centre-back")]))
    drawn = [LineString(line.curve.polyline()) for line in piece.inside if line.kind == "stitch"]
    assert sorted(edge.distance(line) for line in drawn) == pytest.approx(walls, abs=0.05)
    for line in drawn:
        away = [edge.distance(shapely.Point(point)) for point in line.coords]
        assert max(away) - min(away) < 0.05
        assert piece.outline.contains(line)


def test_bones_may_end_at_a_level() -> None:
    pattern = boned(Bones("bones", seams=("front-princess",), channels=(MIDDLE,), up_to=Height("underbust", -10.0)))
    for working in pattern.workings[:2]:
        assert not [part for part in working.parts if part.label == "free at the upper end"]
    seam, piece = pattern.workings[0], pattern.piece("CF")
    edge = piece.on_line("front-princess")[0]
    place = pattern.level_place(edge, piece, "underbust")
    assert place is not None
    assert seam.parts[0].length == pytest.approx(place - 10.0, abs=0.05)
    tops = [
        max(c.start[1], c.end[1]) for c in (line.curve for line in pattern.piece("SF").inside if line.kind == "stitch")
    ]
    assert tops == pytest.approx([75.0, 75.0], abs=0.5)  # the underbust lies 85 mm up the plain block


def test_carried_out_twice_it_lays_its_bones_once() -> None:
    step, other = Bones("bones", channels=(MIDDLE,)), Notion("zip", "invisible zip", 1, 300.0, "back")
    once = boned(step, replace(cut(), notions=(other,)))
    again = boned(step, once)
    assert (again.pieces, again.notions, again.workings) == (once.pieces, once.notions, once.workings)
    assert other in again.notions


REFUSED = {
    "above the edges": (Bones("b"), BLOCK, "top edge is still to be cut; put this step last"),
    "no such line": (Bones("b", seams=("wing",)), None, "no seam or edge lies on a line 'wing'"),
    "no neighbours": (Bones("b", channels=(Channel("side", "centre-back", 0.5),)), None, "are not neighbours"),
    "no such channel": (Bones("b", channels=(Channel("sid", "centre-back", 0.5),)), None, "did you mean 'side'"),
    "on a seam": (Bones("b", channels=(Channel("centre-front", "front-princess", 0.0),)), None, "move it nearer the"),
    "cut in two": (
        Bones("b", width=14.0, seams=(), channels=(Channel("front-princess", "side", 0.1, 0.0),)),
        carried_out(LEVEL_TOP, Hem("hem", "straight", Height("hip", 20.0), Height("hip", 20.0))),
        "falls into two",
    ),
    "crossing": (
        Bones("b", channels=(Channel("side", "back-princess", 0.4, 0.6), Channel("side", "back-princess", 0.6, 0.4))),
        None,
        "(channel 1) and in the side back (channel 2) lie on one another",
    ),
    "at the hem": (
        Bones("b", seams=(), channels=(MIDDLE,), up_to=Height("hip", 20.0)), None, "would end at the block's hem",
    ),
    "short": (Bones("b", up_to=Height("waist", -20.0)), None, "and the shortest is 5 cm; name only the other lines"),
}  # fmt: skip


@pytest.mark.parametrize(("step", "pattern", "why"), REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_boned_is_refused_in_a_sentence(step: Bones, pattern: Pattern | None, why: str) -> None:
    with pytest.raises(DesignError) as refused:
        boned(step, pattern)
    assert why in str(refused.value)
    assert str(refused.value).startswith("bones: ")
    assert refused.value.where == "step b"


@pytest.mark.parametrize(
    ("fields", "why"),
    [
        ({"width": 1.0}, "a bone is 0.3 to 2 cm wide, not 0.1 cm"),
        ({"width": math.nan}, "a bone is 0.3 to 2 cm wide"),
        ({"clearance": 0.0}, "0.3 to 3 cm short of a stitched edge, not 0 cm"),
        ({"bone": "whale"}, "a bone is spiral, flat, plastic, not 'whale'"),
        ({"seams": ("side", "side")}, "named twice"),
        ({"seams": ()}, "name a line for bones to lie along, or a channel"),
    ],
)
def test_impossible_bones_are_refused(fields: dict[str, Any], why: str) -> None:
    with pytest.raises(DesignError, match=why):
        Bones("b", **fields)
    with pytest.raises(DesignError, match="0 to 1 of the way"):
        Channel("side", "back-princess", 1.5)


@pytest.mark.parametrize(("width", "walls"), [(6.0, [8.0]), (6.5, [8.5]), (8.0, [18.0, 28.0])])
def test_a_bone_beside_eyelets_has_room_before_or_beyond_them(width: float, walls: list[float]) -> None:
    """Own: 3 mm at least from the middle of an eyelet, which lies 12 mm from its edge; beyond it, 6 mm."""
    pattern = boned(Bones("b", width=width), ClosureStep("back", "centre-back", Lacing()).apply(cut(), BLOCK))
    piece = pattern.piece("CB")
    edge = LineString(piece.on_line("centre-back")[0].curve.polyline())
    drawn = [LineString(line.curve.polyline()) for line in piece.inside if line.kind == "stitch"]
    assert sorted(edge.distance(line) for line in drawn) == pytest.approx(walls, abs=0.05)
    eyelets = [shapely.Point(mark.at) for mark in piece.marks if mark.kind == "eyelet"]
    assert min(line.distance(eyelet) for line in drawn for eyelet in eyelets) > 2.95
    beyond = any("beyond the eyelets" in notion.detail for notion in pattern.notions)
    assert beyond == (len(walls) == 2)


def test_a_bone_on_a_button_or_an_eyelet_is_refused() -> None:
    pattern = cut()
    piece = pattern.piece("SF")
    waist = piece.inside_line("waist")
    assert waist is not None
    x, y = waist.curve.point(waist.curve.length / 2)
    marked = pattern.with_pieces(replace(piece, marks=(*piece.marks, Mark("eyelet-1", "eyelet", (float(x), float(y))))))
    with pytest.raises(DesignError, match=r"on one of the eyelets of the side front piece; make the bone narrower"):
        boned(Bones("b", channels=(MIDDLE,)), marked)
    assert boned(Bones("b"), marked).notions


@pytest.mark.parametrize("ends", [("front-princess", "side"), ("front-princess", "centre-front")])
def test_the_bust_point_is_crossed_only_when_asked(ends: tuple[str, str]) -> None:
    """It lies on the princess seam: a channel of either panel that comes within 1.5 cm of it is refused."""
    near = Channel(*ends, 0.2, 0.0)
    pattern = carried_out(TopEdge("neck", "straight", Height("bust", 40.0), Height("bust", 40.0)), HEM)

    def laid(*channels: Channel) -> int:
        step = Bones("b", width=14.0, clearance=3.0, seams=(), channels=channels)
        return sum(bones_of(boned(step, pattern)).values())

    with pytest.raises(DesignError, match=r"within 1\.5 cm of the bust point"):
        laid(near)
    assert laid(replace(near, over_bust_point=True)) == 2
    assert laid(replace(near, fraction=0.4, fraction_above=0.3)) == 2


FILED: dict[str, Any] = {
    "kind": "bones",
    "uid": "stays",
    "bone": "plastic",
    "width_cm": 0.8,
    "clearance_cm": 0.7,
    "seams": ["side", "centre-back"],
    "channels": [
        {"line": "front-princess", "towards": "side", "fraction": 0.4, "fraction_above": 0.55, "over_bust_point": True}
    ],
    "up_to": {"level": "bust", "offset_cm": -1.5},
}
CHANNELS = st.builds(
    Channel, st.just("side"), st.just("back-princess"), st.floats(0, 1), st.none() | st.floats(0, 1), st.booleans()
)
STEPS = st.builds(
    Bones,
    st.just("stays"),
    st.sampled_from(["spiral", "flat", "plastic"]),
    st.floats(3.0, 20.0),
    st.floats(3.0, 30.0),
    st.none() | st.just(("side",)),
    st.lists(CHANNELS, min_size=1, max_size=3).map(tuple),
    st.none() | st.builds(Height, st.just("bust"), st.floats(-100.0, 100.0)),
)


def test_a_file_says_it_in_centimetres() -> None:
    channel = Channel("front-princess", "side", 0.4, 0.55, True)
    step = Bones("stays", "plastic", 8.0, 7.0, ("side", "centre-back"), (channel,), Height("bust", -15.0))
    assert steps_from_json([FILED]) == (step,)
    assert steps_to_json((step,)) == [FILED]
    assert steps_from_json([{"kind": "bones", "uid": "b"}]) == (Bones("b"),)
    assert steps_to_json((Bones("b"),)) == [{"kind": "bones", "uid": "b"}]


@given(STEPS)
def test_a_step_comes_back_from_its_file(step: Bones) -> None:
    (read,) = steps_from_json(steps_to_json((step,)))
    assert read == step
    assert hash(read) == hash(step)


@pytest.mark.parametrize(
    ("changed", "why"),
    [
        ({"bone": "whale"}, "bone is 'whale'; use one of spiral, flat, plastic"),
        ({"chanels": []}, "has no field 'chanels'; did you mean 'channels'"),
        ({"channels": [{"line": "side", "towards": "back-princess", "fraction": 2}]}, "the most is 1"),
        (
            {"channels": ["side"]},
            """channels.1 is 'side'; write it like {"line": "front-princess", "towards": "side"}""",
        ),
        ({"up_to": {"level": "bus"}}, "up_to names the level 'bus', which the block has not; did you mean 'bust'"),
        ({"width_cm": 40}, "a bone is 0.3 to 2 cm wide, not 40 cm"),
    ],
)
def test_a_fault_in_a_file_is_told_with_its_field(changed: dict[str, Any], why: str) -> None:
    with pytest.raises(DesignError) as refused:
        steps_from_json([{**FILED, **changed}])
    assert why in str(refused.value)
    assert "step 1" in str(refused.value)


def test_on_a_bodice_to_the_shoulder_bones_end_under_the_arm(shared: Path) -> None:
    """The block's own upper edge is the upper bust level; seams run on above it, bones do not."""
    own = make_block(next(plausible_bodies(1, seed=3)), BlockOptions(top="shoulder"))
    hem = Hem("hem", "straight", Height("top-hip"), Height("top-hip"))
    made = replay(
        Design("d-1", "Full bodice", (BodiceTop("top"), hem, Bones("stays", channels=(MIDDLE,)))), own.pattern
    )
    assert made.complete, made.outcomes
    pattern = made.pattern
    for working in pattern.workings[:3]:
        (piece, edge), *_ = pattern.pieces_on_line(working.id.partition("/")[2])
        upper_bust = pattern.level_place(edge, piece, "upper-bust")
        assert upper_bust is not None
        assert edge.curve.length > upper_bust + 10.0
        assert upper_bust - 20.0 < working.length <= upper_bust
        assert "up to where bones end" in working.parts[0].label
    assert violations(shared, pattern_to_json(finish(pattern), ())) == []


# Made garments, read by the outside verifier.


@cache
def made_block(panels: int) -> Block:
    return make_block(next(plausible_bodies(1, seed=panels)), BlockOptions(panels=panels))


@pytest.mark.parametrize("panels", [3, 4, 5, 6])
def test_a_made_garment_keeps_its_bones_inside_and_its_pattern_sound(panels: int, shared: Path) -> None:
    """CP, by shapely: each bone of the written length, 6 mm wide, lies on its seam without crossing a finished edge."""
    own = made_block(panels)
    first = PLANS[panels].lines[0][0]
    step = Bones("stays", channels=(Channel("centre-front", first, 0.45),))
    top, hem = (
        replace(TOP, side=Height("upper-bust", -10.0)),
        Hem("hem", "shaped", *(Height("waist", z) for z in (-60, -40))),
    )
    made = replay(Design("d-1", "Lantern bodice", (top, hem, step)), own.pattern)
    assert made.complete, made.outcomes
    pattern = made.pattern
    assert sum(bones_of(pattern).values()) == 2 * (panels + 1)
    for line, _ in PLANS[panels].lines:
        (working,) = [w for w in pattern.workings if w.id == f"stays/{line}"]
        low = -next((p.length for p in working.parts if p.label == "free at the lower end"), 0.0)
        for piece, edge in pattern.pieces_on_line(line):
            curve = edge.line_curve.between(low, low + working.length)
            strip = shapely.intersection(LineString(curve.polyline()).buffer(3.0, cap_style="flat"), piece.outline)
            for finished in (e for e in piece.edges if e.kind == "finished"):
                assert LineString(finished.curve.polyline()).distance(strip) > 4.8
    cutting = finish(pattern, Finish(facing="full", interfacing=True))
    found = check(cutting, own.wearer, strain=own.strain_p95, given=own.findings, block=own.pattern)
    assert [finding for finding in found if finding.severity == "error"] == []
    assert violations(shared, pattern_to_json(cutting, found)) == []
