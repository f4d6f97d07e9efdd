"""What must not change the pattern, and what must change it in step: scaling the body, mirroring the pieces."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from panelwright.app.garment import make_garment
from panelwright.app.garment_design import GarmentDesign
from panelwright.blocks.options import BlockOptions, Ease, Keep
from panelwright.body.measurements import Measurements
from panelwright.design.hem import Hem
from panelwright.design.position import Height
from panelwright.design.top_edge import TopEdge
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.geometry.placement import Placement
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Span

BODY = Measurements.of(
    "w-1",
    {"bust_girth": 860, "underbust_girth": 730, "waist_girth": 680, "hip_girth": 930, "back_neck_to_waist": 385},
)
HEM = Hem("hem", "shaped", Height("hip", share=0.2), Height("top-hip", share=0.1), Height("top-hip"))
TOPS = {
    shape: TopEdge("top", shape, Height("bust", share=0.3), Height("upper-bust", share=-0.2))  # type: ignore[arg-type]  # dict keys are plain strings
    for shape in ("straight", "scooped", "sweetheart", "v", "square")
}


def design(shape: str, allowance: float, keep: Keep = "both") -> GarmentDesign:
    """Heights as shares of the way between levels, no ease: nothing in it is a length of its own."""
    options = BlockOptions(ease=Ease.even(0.0), keep=keep)
    return GarmentDesign(
        "twice-1", "Twice", block=options, steps=(TOPS[shape], HEM), finish=Finish(allowance=allowance)
    )


@pytest.mark.parametrize("shape", TOPS)
@pytest.mark.parametrize(("factor", "keep"), [(0.9, "both"), (1.15, "both"), (1.15, "girth"), (0.9, "length")])
def test_a_body_scaled_gives_every_cut_piece_scaled(shape: str, factor: float, keep: Keep) -> None:
    one, other = (make_garment(body, design(shape, 0.0, keep)).cutting for body in (BODY, BODY.scaled(factor)))
    assert [piece.id for piece in one.pattern.pieces] == [piece.id for piece in other.pattern.pieces]
    for piece, scaled in zip(one.pattern.pieces, other.pattern.pieces, strict=True):
        wanted = [edge.curve.points - piece.vertices[0] for edge in piece.edges]
        found = [edge.curve.points - scaled.vertices[0] for edge in scaled.edges]
        assert max(np.abs(a * factor - b).max() for a, b in zip(wanted, found, strict=True)) < 0.02
        assert other.cut[piece.id].allowances == one.cut[piece.id].allowances
    before, after = (seam_lengths(cutting.pattern) for cutting in (one, other))
    assert np.allclose(np.multiply(before, factor), after, atol=0.01)


def seam_lengths(pattern: Pattern) -> list[float]:
    return [pattern.chain_length(seam.a) for seam in pattern.seams]


def turned_over(pattern: Pattern) -> Pattern:
    """Every piece mirrored where it lies: edges run the other way, so shares are counted from the other end."""

    def spans(chain: tuple[Span, ...]) -> tuple[Span, ...]:
        return tuple(replace(span, start=1 - span.start, end=1 - span.end) for span in chain)

    over = Placement(mirrored=True)
    return replace(
        pattern,
        pieces=tuple(piece.placed(over) for piece in pattern.pieces),
        seams=tuple(replace(seam, a=spans(seam.a), b=spans(seam.b)) for seam in pattern.seams),
    )


@pytest.mark.parametrize("shape", TOPS)
def test_pieces_turned_over_are_cut_turned_over(shape: str) -> None:
    garment = make_garment(BODY, design(shape, 10.0))
    options = garment.design.finish
    there, back = finish(garment.pattern, options), finish(turned_over(garment.pattern), options)
    for piece in garment.pattern.pieces:
        wanted, found = (shapely.Polygon(cutting.cut[piece.id].cut_line) for cutting in (there, back))
        mirrored = shapely.transform(wanted, lambda points: points * [-1.0, 1.0])
        assert mirrored.symmetric_difference(found).area < 0.05 * mirrored.length  # within the polylines' 0.02 mm
        assert there.cut[piece.id].cuts == back.cut[piece.id].cuts
    assert [(n.seam, n.count) for n in there.notches] == [(n.seam, n.count) for n in back.notches]
    assert np.allclose([n.at_a for n in there.notches], [n.at_a for n in back.notches], atol=1e-6)


def test_making_the_same_garment_twice_gives_the_same_pattern() -> None:
    one, other = (make_garment(BODY, design("sweetheart", 10.0)).cutting for _ in range(2))
    assert one.pattern == other.pattern
    assert all(np.array_equal(one.cut[id].cut_line, other.cut[id].cut_line) for id in one.cut)
