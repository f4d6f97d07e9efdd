"""Frills and peplums: lengths and radii by closed forms, and where there is none."""

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from kernel.sewing_rules import arc_length, faults
from surgery.surgery_garment import bare, made, reason

from panelwright.design.attach import row_on

FRILL: dict[str, Any] = {"kind": "frill", "uid": "fr", "line": "hem/line"}
PEPLUM: dict[str, Any] = {"kind": "peplum", "uid": "pep", "line": "hem/line"}
YOKE: dict[str, Any] = {
    "kind": "split", "uid": "yoke", "way": "yoke", "pieces": ["SF"], "height": {"level": "underbust"},
}  # fmt: skip


def row(hem: str = "top-hip") -> float:
    return row_on(bare(hem), "hem/line").length


@settings(max_examples=10)
@given(st.floats(1.0, 4.0), st.floats(1.5, 12.0))
def test_a_straight_frill_is_as_long_as_the_ratio_says(ratio: float, width: float) -> None:
    width = round(width, 3)
    pattern = made({**FRILL, "ratio": ratio, "width_cm": width})
    assert faults(pattern) == []
    frill = pattern.piece("FRILL")
    assert arc_length(frill.edge("FRILL.fr/top").curve) == pytest.approx(ratio * row(), abs=1e-6)
    assert frill.outline.area == pytest.approx(ratio * row() * 10 * width, rel=1e-9)
    assert pattern.seam("fr").ratio == ratio
    assert {edge.kind for piece in pattern.pieces for edge in piece.on_line("hem/line")} == {"seam"}
    (working,) = [each for each in pattern.workings if each.id == "fr/length"]
    assert working.reckoned == pytest.approx(ratio * row(), abs=1e-6)


@settings(max_examples=10)
@given(st.floats(1.05, 1.9), st.floats(16.0, 40.0))
def test_a_peplum_is_a_ring_whose_radii_are_as_its_edges(flare: float, length: float) -> None:
    length = round(length, 3)
    pattern = made({**PEPLUM, "flare": flare, "length_cm": length}, hem="waist")
    assert faults(pattern) == []
    peplum = pattern.piece("PEPLUM")
    sewn, free = (arc_length(peplum.edge(f"PEPLUM.pep/{name}").curve) for name in ("top", "edge"))
    assert sewn == pytest.approx(row("waist"), abs=0.001)
    assert free == pytest.approx(flare * row("waist"), abs=0.002)
    # Every place of an edge is equally far from the ring's centre, and a ring's area is its mean edge by its width.
    inner = 10 * length / (flare - 1)
    centre = np.array([0.0, inner])
    for name, radius in (("top", inner), ("edge", inner + 10 * length)):
        curve = peplum.edge(f"PEPLUM.pep/{name}").curve
        places = [math.dist(curve.point(share * curve.length), centre) for share in np.linspace(0, 1, 20)]
        assert places == pytest.approx([radius] * 20, rel=1e-6)
    assert peplum.outline.area == pytest.approx((sewn + free) / 2 * 10 * length, rel=1e-4)


def test_the_least_flare_is_nearly_straight_and_stays_in_its_place() -> None:
    pattern = made({**PEPLUM, "flare": 1.001}, hem="waist")
    assert faults(pattern) == []
    assert max(float(np.abs(edge.curve.points).max()) for edge in pattern.piece("PEPLUM").edges) < 2 * row("waist")


def test_a_peplum_is_cut_on_the_fold_and_closes_where_the_panels_do() -> None:
    pattern = made(PEPLUM, hem="waist")
    peplum = pattern.piece("PEPLUM")
    assert peplum.extent == "half_on_fold"
    kinds = {edge.line: edge.kind for edge in peplum.edges}
    assert kinds["centre-front"] == "fold"
    assert kinds["centre-back"] == "opening"
    assert [seam.kind for seam in pattern.seams if seam.id == "PEPLUM/centre-back"] == ["closure"]
    assert max(float(edge.curve.points[:, 0].max()) for edge in peplum.edges) < 1e-6


def test_a_frill_in_a_seam_is_caught_between_its_pieces() -> None:
    pattern = made(YOKE, {**FRILL, "line": "yoke/line", "ratio": 1.6})
    assert faults(pattern) == []
    frill, seam = pattern.piece("FRILL"), pattern.seam("fr")
    assert seam.kind == "attach"
    assert pattern.chain_length(seam.a) == pytest.approx(pattern.chain_length(pattern.seam("yoke/line").a))
    assert arc_length(frill.edge("FRILL.fr/top").curve) == pytest.approx(1.6 * pattern.chain_length(seam.a), abs=1e-6)
    assert [edge.kind for edge in frill.edges] == ["finished", "finished", "seam", "finished"]


def test_a_frill_on_a_peplum_on_an_unfolded_garment() -> None:
    pattern = made({"kind": "unfold", "uid": "both"}, PEPLUM, {**FRILL, "line": "pep/edge"}, hem="waist")
    assert faults(pattern) == []
    assert pattern.piece("FRILL").extent == "whole"
    sewn = arc_length(pattern.piece("FRILL").edge("FRILL.fr/top").curve)
    assert sewn == pytest.approx(1.5 * 1.5 * 2 * row("waist"), abs=0.01)


@pytest.mark.parametrize(
    ("steps", "said"),
    [
        ([{**FRILL, "line": "hemm"}], "there is no edge on"),
        ([{**FRILL, "line": "centre-front"}], "no finished edge"),
        ([FRILL, {**FRILL, "uid": "two"}], "sewn already"),
        ([{**PEPLUM, "line": "side"}], "sewn already"),
        ([{**FRILL, "shape": "circular", "ratio": 3}], "more than one piece can"),
    ],
)
def test_what_has_no_meaning_says_why(steps: list[dict[str, Any]], said: str) -> None:
    assert said in reason(*steps)
