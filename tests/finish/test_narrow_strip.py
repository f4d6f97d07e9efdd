"""Allowances of narrow strips: 10 + 10 mm cannot lie inside a 16 mm strap (geometry); about 6 mm is usual (CP)."""

from pathlib import Path

import pytest
from design.strap_garment import block, made, top
from verifier import violations
from worn_garment import STRAPS, TOP, closure, garment

from panelwright.design.strap import Strap
from panelwright.finish.cut_piece import CutPiece, CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.finish.narrow_strip import TURN, trimmed
from panelwright.finish.options import Facing, Finish
from panelwright.finish.piece_words import NARROW
from panelwright.output.pattern_document import pattern_to_json
from panelwright.pattern.pattern import Pattern

EDGE = "STRAP.straps/strap-edge"


def strapped(width_cm: float) -> Pattern:
    strap = {**STRAPS, "type": "separate", "width_cm": width_cm}
    return garment([TOP, strap], [closure("centre-back", "zip")])


def strap(width_cm: float, options: Finish) -> CutPiece:
    return finish(strapped(width_cm), options).cut["STRAP"]


def test_a_strap_of_16_mm_takes_6_mm_on_its_long_edges_and_keeps_the_rest_on_its_ends() -> None:
    own = strap(1.6, Finish())
    assert [own.allowances[id] for id in (EDGE, f"{EDGE}-2")] == [6.0, 6.0]
    assert own.allowances["STRAP.straps/strap-front"] == 10.0
    assert NARROW in own.text
    assert any("long edges 0.6 cm" in line for line in own.text)


@pytest.mark.parametrize("width_cm", [0.8, 1.0, 1.2, 1.6, 2.1, 2.19])
@pytest.mark.parametrize("allowance", [10.0, 15.0])
def test_two_allowances_and_their_turn_lie_side_by_side_in_any_strap(width_cm: float, allowance: float) -> None:
    own = strap(width_cm, Finish(allowance=allowance)).allowances[EDGE]
    assert 2 * own + TURN <= 10 * width_cm + 1e-6
    assert own >= min(6.0, 5 * width_cm - TURN / 2) - 1e-6


def test_a_strap_into_which_two_allowances_fit_keeps_them() -> None:
    own = strap(2.25, Finish())
    assert own.allowances[EDGE] == 10.0
    assert NARROW not in own.text
    assert strap(1.6, Finish(kinds={"finished": 5.0})).allowances[EDGE] == 5.0


def test_the_makers_own_width_for_the_line_stands() -> None:
    own = strap(1.6, Finish(lines={"strap-edge": 9.0}))
    assert own.allowances[EDGE] == 9.0
    assert NARROW not in own.text


def test_an_allowance_is_never_made_wider() -> None:
    assert trimmed(4.0, "line", {"line": 9.0}) == 3.5
    assert trimmed(3.0, "line", {"line": 9.0}) == 3.0
    assert trimmed(10.0, "line", {}) == 10.0


def test_the_panels_and_a_broad_strip_are_left_alone() -> None:
    cutting = finish(garment([TOP], [closure("centre-back", "lacing", gap_cm=4, modesty_overlap_cm=3)]))
    assert {width for side in cutting.cut.values() for width in side.allowances.values()} == {0.0, 10.0}


def test_a_facing_of_a_narrow_strap_is_cut_as_the_strap_is(shared: Path) -> None:
    cutting = finish(strapped(1.6), Finish(facing="full"))
    assert cutting.cut["STRAP/facing"].allowances["STRAP/facing.straps/strap-edge"] == 6.0
    assert violations(shared, pattern_to_json(cutting, ())) == []


GROWN_EDGES = ("straps/strap-neckline", "straps/strap-armhole")


def grown(width_cm: float, options: Finish, **more: object) -> CuttingPattern:
    strap = {**STRAPS, "width_cm": width_cm, **more}
    return finish(garment([TOP, strap], [closure("centre-back", "zip")]), options)


def grown_widths(cutting: CuttingPattern) -> set[float]:
    """The allowances on the long edges of the strap, on every panel that it runs over and on their facings."""
    return {
        cutting.cut[piece.id].allowances[edge.id]
        for piece in cutting.pattern.pieces
        for edge in piece.edges
        if edge.line in GROWN_EDGES
    }


@pytest.mark.parametrize("facing", ["none", "edge", "full"])
@pytest.mark.parametrize("allowance", [10.0, 15.0])
@pytest.mark.parametrize("width_cm", [1.2, 1.6, 2.1, 3.0, 4.0])
@pytest.mark.parametrize("share", [0.5, 0.7])
def test_a_strap_that_grows_out_of_panels_is_trimmed_on_both(
    width_cm: float, allowance: float, facing: Facing, share: float, shared: Path
) -> None:
    """G: two allowances and 2 mm of turn in the strap's width; the outside verifier measures every cut line."""
    cutting = grown(width_cm, Finish(allowance=allowance, facing=facing), share_of_shoulder=share)
    (own,) = grown_widths(cutting)
    assert 2 * own + TURN <= 10 * width_cm + 0.05
    assert (own == allowance) == (2 * allowance + TURN <= 10 * width_cm)
    assert own >= min(6.0, 5 * width_cm - TURN / 2) - 0.2  # its curved edges come a little nearer below the shoulder
    on_strap = [piece for piece in cutting.pattern.pieces if any(edge.line in GROWN_EDGES for edge in piece.edges)]
    assert {piece.id for piece in on_strap} >= {"SF", "SB"}
    assert all((NARROW in cutting.cut[piece.id].text) == (own < allowance) for piece in on_strap)
    assert {k.allowances["SF.side"] for k in (cutting.cut["SF"],)} == {allowance}
    assert violations(shared, pattern_to_json(cutting, ())) == []


def test_a_strap_over_two_panels_is_as_wide_as_both(shared: Path) -> None:
    """Its princess seam runs on to the shoulder: neither panel holds both edges, and 6 mm are measured all the same."""
    cutting = finish(made(block(2), Strap("straps", width=21.0, share=0.5), top("straight")), Finish(facing="full"))
    panels = {edge.line: piece.id for line in GROWN_EDGES for piece, edge in cutting.pattern.pieces_on_line(line)}
    assert len(set(panels.values())) == 2
    assert grown_widths(cutting) == {6.0}
    assert violations(shared, pattern_to_json(cutting, ())) == []


def test_the_makers_own_width_for_a_grown_strap_stands() -> None:
    cutting = grown(1.6, Finish(lines={"strap-neckline": 9.0, "strap-armhole": 8.0}))
    assert grown_widths(cutting) == {8.0, 9.0}
    assert NARROW not in cutting.cut["SF"].text
