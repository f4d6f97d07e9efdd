"""Blocks keep girths and seams exactly, follow their options, and scale with the body."""

from itertools import pairwise

import numpy as np
import pytest
from plausible_bodies import plausible_bodies

from panelwright.blocks import flatten
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import PLANS, BlockOptions, Ease, SeamPlace
from panelwright.body.measurements import Measurements
from panelwright.errors import BlockError, CancelledError, InputError
from panelwright.pattern.level import LEVELS
from panelwright.pattern.pattern import Pattern

BODIES = list(plausible_bodies(6, seed=11))
BODY = BODIES[0]


def drawn_girth(pattern: Pattern, level: str) -> float:
    steps = pattern.level(level).path
    return sum(pattern.piece(step.piece).inside_line(step.inside).curve.length * step.times for step in steps)


def between(pattern: Pattern, seam: str, upper: str, lower: str, side: str) -> float:
    """Length of one side of a seam between two levels."""
    span = getattr(pattern.seam(seam), side)[0]
    piece, edge = pattern.piece(span.piece), pattern.edge(span)
    return pattern.level_place(edge, piece, upper) - pattern.level_place(edge, piece, lower)


@pytest.fixture(scope="module", params=range(len(BODIES)), ids=[body.ref for body in BODIES])
def block(request: pytest.FixtureRequest) -> Block:
    return make_block(BODIES[request.param])


def test_every_level_measures_body_plus_ease(block: Block) -> None:
    for level in LEVELS:
        stated = block.pattern.level(level)
        assert drawn_girth(block.pattern, level) == pytest.approx(stated.body_girth + stated.ease, abs=0.05)
    assert block.pattern.level("waist").body_girth == pytest.approx(block.wearer["waist_girth"], abs=0.01)


def test_each_panel_is_as_wide_at_a_level_as_on_the_body(block: Block) -> None:
    for fit in block.fits:
        for level, z in block.torso.shape.heights.items():
            row = int(np.abs(fit.body.rows.z - z).argmin())
            on_body = fit.body.back[row] - fit.body.front[row]
            on_paper = block.pattern.piece(fit.id).inside_line(level).curve.length
            assert on_paper == pytest.approx(on_body, abs=0.5)


def test_seams_are_equal_between_all_levels(block: Block) -> None:
    for seam, _ in PLANS[4].lines:
        for upper, lower in pairwise(LEVELS):
            front, back = (between(block.pattern, seam, upper, lower, side) for side in "ab")
            assert front == pytest.approx(back, abs=1e-4)


def test_seams_stay_within_3_mm_of_the_body(block: Block) -> None:
    assert all(abs(span.difference) < 3.0 for span in block.spans)
    assert block.findings == ()
    for span in block.spans:
        assert between(block.pattern, span.seam, span.upper, span.lower, "a") == pytest.approx(span.paper, abs=1e-4)


def test_strain_is_low(block: Block) -> None:
    limits = {"CF": 0.05, "SF": 0.06, "SB": 0.05, "CB": 0.04}  # where the design would advise ease or a dart
    assert all(0 < block.strain_p95[panel] < limit for panel, limit in limits.items())


def test_centre_front_is_straight_at_x_0_and_meets_every_level_square(block: Block) -> None:
    piece = block.pattern.piece("CF")
    (fold,) = piece.on_line("centre-front")
    assert np.abs(fold.curve.points[:, 0]).max() < 1e-9
    assert piece.outline.bounds[2] < 1e-6
    for level in LEVELS:
        direction = piece.inside_line(level).curve.end_tangent
        assert abs(np.degrees(np.arctan2(direction[1], direction[0]))) < 0.01


def test_pieces_are_drawn_from_centre_back_on_the_left_to_centre_front_on_the_right(block: Block) -> None:
    bounds = [block.pattern.piece(id).outline.bounds for id in ("CB", "SB", "SF", "CF")]
    assert all(left[2] < right[0] for left, right in pairwise(bounds))


def test_the_grain_is_square_to_the_waist(block: Block) -> None:
    for piece in block.pattern.pieces[1:]:
        waist, grain = piece.inside_line("waist").curve.chord, piece.grain.vector
        assert abs(waist @ grain) / np.linalg.norm(waist) / piece.grain.length < np.sin(np.radians(0.5))
        assert piece.grain.length > (piece.outline.bounds[3] - piece.outline.bounds[1]) / 3


def test_the_bust_point_lies_on_the_princess_seam_at_its_level(block: Block) -> None:
    piece = block.pattern.piece("CF")
    (mark,) = piece.marks
    (edge,) = piece.on_line("front-princess")
    arc, gap = edge.line_curve.nearest(mark.at)
    assert gap < 0.01
    assert arc == pytest.approx(block.pattern.level_place(edge, piece, "bust"), abs=0.01)


def test_the_same_body_gives_the_same_block() -> None:
    assert make_block(BODY).pattern == make_block(BODY).pattern


@pytest.mark.parametrize("keep", ["girth", "both", "length"])
def test_a_body_scaled_gives_the_pattern_scaled(keep: str) -> None:
    small = Measurements.of(
        "w-1",
        {"bust_girth": 840, "underbust_girth": 720, "waist_girth": 660, "hip_girth": 900, "back_neck_to_waist": 380},
    )
    options = BlockOptions(ease=Ease.even(0.0), keep=keep)  # type: ignore[arg-type]  # a parameter is a plain string
    factor = 1.15
    one, other = (make_block(body, options).pattern for body in (small, small.scaled(factor)))
    for piece, larger in zip(one.pieces, other.pieces, strict=True):
        for edge, grown in zip(piece.edges, larger.edges, strict=True):
            points, wanted = (e.curve.points - p.vertices[0] for e, p in ((grown, larger), (edge, piece)))
            assert np.abs(points - wanted * factor).max() < 0.01


def test_seam_shortfalls_are_shown_when_girth_comes_first() -> None:
    hollow = Measurements.of(
        "w-1",
        {"bust_girth": 880, "underbust_girth": 640, "waist_girth": 600, "hip_girth": 960, "back_neck_to_waist": 400},
    )
    block = make_block(hollow, BlockOptions(keep="girth"))
    worst = max(block.spans, key=lambda span: abs(span.difference))
    assert abs(worst.difference) > 3.0
    shown = {round(finding.value, 6) for finding in block.findings}
    assert round(worst.difference, 6) in shown
    assert all(finding.code == "seam-off-body" and finding.severity == "advice" for finding in block.findings)


def test_lengths_are_exact_when_lengths_are_kept() -> None:
    block = make_block(BODY, BlockOptions(keep="length"))
    assert max(abs(span.difference) for span in block.spans) < 1e-6


@pytest.mark.parametrize("panels", [3, 4, 5, 6])
def test_three_to_six_panels_a_half(panels: int) -> None:
    pattern = make_block(BODY, BlockOptions(panels=panels)).pattern
    assert [piece.id for piece in pattern.pieces] == [id for id, _ in PLANS[panels].panels]
    assert len(pattern.seams) == panels  # one between neighbours, and centre back
    assert drawn_girth(pattern, "bust") == pytest.approx(pattern.level("bust").finished_girth, abs=0.05)


def test_ease_may_be_negative_and_differ_by_level() -> None:
    ease = Ease(upper_bust=-20.0, bust=-30.0, underbust=-25.0, waist=-40.0, top_hip=0.0, hip=30.0)
    pattern = make_block(BODY, BlockOptions(ease=ease)).pattern
    assert drawn_girth(pattern, "waist") == pytest.approx(BODY["waist_girth"] - 40.0, abs=0.05)
    assert pattern.level("lower-waist").ease == pytest.approx(-20.0)  # halfway between waist and top hip


def test_a_seam_lies_where_the_maker_puts_it() -> None:
    places = (SeamPlace("front-princess", "waist", 70.0), SeamPlace("back-princess", "waist", 60.0))
    pattern = make_block(BODY, BlockOptions(seams=places)).pattern
    assert pattern.piece("CF").inside_line("waist").curve.length == pytest.approx(70.0, abs=0.1)
    assert pattern.piece("CB").inside_line("waist").curve.length == pytest.approx(60.0, abs=0.1)


@pytest.mark.parametrize("waist", [65.0, 80.0, 95.0])
@pytest.mark.parametrize("offset", [0.0, 10.0])
def test_a_princess_seam_placed_at_the_waist_still_passes_the_bust_point_as_asked(waist: float, offset: float) -> None:
    options = BlockOptions(seams=(SeamPlace("front-princess", "waist", waist),), bust_point_offset=offset)
    pattern = make_block(BODY, options).pattern
    (marked,) = (piece for piece in pattern.pieces if piece.marks)
    assert marked.id == "CF"
    (edge,) = marked.on_line("front-princess")
    assert edge.curve.nearest(marked.marks[0].at)[1] == pytest.approx(offset, abs=1.0)


def test_a_princess_seam_placed_at_the_bust_lies_there() -> None:
    width = make_block(BODY).pattern.piece("CF").inside_line("bust").curve.length
    options = BlockOptions(seams=(SeamPlace("front-princess", "bust", width + 12.0),))
    pattern = make_block(BODY, options).pattern
    assert pattern.piece("CF").inside_line("bust").curve.length == pytest.approx(width + 12.0, abs=0.1)


@pytest.mark.parametrize("keep", ["girth", "both", "length"])
@pytest.mark.parametrize("waist", [70.0, 85.0])
def test_a_seam_far_from_where_the_body_would_have_it_settles(keep: str, waist: float) -> None:
    """Gauss-Newton alone swings to and fro on these for ever."""
    wearer = Measurements.of(
        "w-1",
        {
            "bust_girth": 1040, "underbust_girth": 845, "waist_girth": 820, "hip_girth": 1100,
            "back_neck_to_waist": 410, "upper_bust_girth": 930, "bust_point_to_underbust": 85,
            "bust_point_span": 205, "underarm_to_waist": 200,
        },
    )  # fmt: skip
    places = (SeamPlace("front-princess", "waist", waist), SeamPlace("front-princess", "bust", 95.0))
    block = make_block(wearer, BlockOptions(seams=places, keep=keep))  # type: ignore[arg-type]  # a plain string
    assert drawn_girth(block.pattern, "waist") == pytest.approx(block.pattern.level("waist").finished_girth, abs=0.05)
    limit = {"girth": 30.0, "both": 3.0, "length": 1e-6}[keep]
    assert max(abs(span.difference) for span in block.spans) < limit


@pytest.mark.parametrize(("offset", "panel"), [(15.0, "CF"), (-15.0, "SF")])
def test_the_bust_point_may_lie_beside_the_seam(offset: float, panel: str) -> None:
    pattern = make_block(BODY, BlockOptions(bust_point_offset=offset)).pattern
    marked = [piece for piece in pattern.pieces if piece.marks]
    assert [piece.id for piece in marked] == [panel]
    (edge,) = marked[0].on_line("front-princess")
    gap = edge.curve.nearest(marked[0].marks[0].at)[1]
    assert gap == pytest.approx(15.0, abs=1.5)


def test_a_straight_centre_back_can_go_on_the_fold() -> None:
    options = BlockOptions(centre_back_shape="straight", centre_back="fold")
    piece = make_block(BODY, options).pattern.piece("CB")
    (fold,) = piece.on_line("centre-back")
    assert (piece.extent, fold.kind) == ("half_on_fold", "fold")
    assert np.ptp(fold.curve.points[:, 0]) < 1e-9
    assert abs(piece.grain.vector[0]) < 1e-9


def test_a_shaped_centre_back_follows_the_back() -> None:
    (edge,) = make_block(BODY).pattern.piece("CB").on_line("centre-back")
    points = edge.curve.polyline()
    chord = points[-1] - points[0]
    bow = np.abs(chord[0] * (points - points[0])[:, 1] - chord[1] * (points - points[0])[:, 0]) / np.linalg.norm(chord)
    assert bow.max() > 1.0


def test_a_seam_placed_into_its_neighbour_is_refused() -> None:
    with pytest.raises(BlockError, match=r"panel would be -?\d+\.\d\d cm wide .* a panel needs 1\.5 cm"):
        make_block(BODY, BlockOptions(seams=(SeamPlace("front-princess", "waist", 250.0),)))


@pytest.mark.parametrize(
    ("make", "sentence"),
    [
        (lambda: Ease(waist=400.0), "ease at the waist is 40 cm; give between -15 and 30 cm"),
        (lambda: BlockOptions(panels=7), "a half has 7 panels; choose 3, 4, 5 or 6"),
        (lambda: BlockOptions(centre_back="fold"), "on the fold must be straight"),
        (lambda: BlockOptions(bust_point_offset=60.0), "6 cm beside the bust point; keep it within 4 cm"),
        (lambda: BlockOptions(seams=(SeamPlace("top", "waist", 70.0),)), "no seam 'top' with 4 panels"),
        (
            lambda: BlockOptions(seams=(SeamPlace("side", "waist", 180.0), SeamPlace("side", "waist", 190.0))),
            "side is placed twice at the waist level; keep one",
        ),
        (lambda: SeamPlace("side", "knee", 70.0), "names the level 'knee'"),
        (lambda: SeamPlace("side", "waist", 5.0), "0.5 cm from the centre; give between 1 and 100 cm"),
    ],
)
def test_options_that_make_no_sense_are_refused(make, sentence: str) -> None:  # type: ignore[no-untyped-def]  # a thunk
    with pytest.raises(InputError, match=sentence):
        make()


def test_long_work_can_be_stopped() -> None:
    def stop(_: float) -> None:
        raise CancelledError("stopped")

    with pytest.raises(CancelledError):
        make_block(BODY, progress=stop)


@pytest.mark.parametrize(
    ("keep", "way_out"), [("length", 'choose keep "girth"'), ("girth", "measurements that do not go together, or ease")]
)
def test_panels_that_do_not_settle_are_refused_with_the_way_out(
    keep: str, way_out: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(flatten, "MOST_STEPS", 2)  # no plausible body needs more than 60
    with pytest.raises(BlockError, match=f"do not settle in the flat: .*{way_out}"):
        make_block(BODY, BlockOptions(keep=keep))  # type: ignore[arg-type]  # a parameter is a plain string
