"""Every kind of fault is seen in a lay that was sound before it was put in, and none in the sound one."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from lay.boxes import box

from panelwright.geometry.placement import Placement
from panelwright.lay.cloth import Cloth
from panelwright.lay.fault import LayFault, lay_faults
from panelwright.lay.lay import LaidPiece, Lay
from panelwright.lay.lay_garment import lay_pieces
from panelwright.lay.piece_to_cut import PieceToCut

PIECES = (box("f", 100.0, 300.0, fold=True), box("p", 80.0, 200.0, 1, 1), box("q", 60.0, 200.0, 1, 1))
FOLDED, OPEN = Cloth("outer", 900.0, folded=True), Cloth("outer", 900.0, folded=False)
SPREAD = tuple(piece.spread() for piece in PIECES)
Change = Callable[[LaidPiece], LaidPiece]


def faults(lay: Lay, pieces: tuple[PieceToCut, ...]) -> list[str]:
    return [fault.kind for fault in lay_faults(lay, pieces)]


def changed(lay: Lay, id: str, change: Change) -> Lay:
    """The lay with the first of a piece's placements changed."""
    first = next(k for k, laid in enumerate(lay.laid) if laid.piece.id == id)
    return replace(lay, laid=tuple(change(laid) if k == first else laid for k, laid in enumerate(lay.laid)))


def turned(by: float) -> Change:
    """Turned about its own middle."""

    def change(laid: LaidPiece) -> LaidPiece:
        middle = laid.area.centroid
        about = Placement(x=-middle.x, y=-middle.y)
        turn = Placement(by, middle.x, middle.y).after(about)
        return replace(laid, placement=turn.after(laid.placement))

    return change


def upside_down(laid: LaidPiece) -> LaidPiece:
    """Mirrored across the cloth where it lies."""
    middle = laid.area.centroid
    flip = Placement(np.pi, 0.0, 2 * middle.y, mirrored=True)
    return replace(laid, placement=flip.after(laid.placement))


def other(lay: Lay, id: str) -> LaidPiece:
    return next(laid for laid in lay.laid if laid.piece.id == id)


def test_a_sound_lay_has_none() -> None:
    for cloth, pieces in ((FOLDED, PIECES), (OPEN, SPREAD)):
        assert lay_faults(lay_pieces(cloth, pieces), pieces) == ()


def test_two_pieces_one_over_the_other() -> None:
    lay = lay_pieces(FOLDED, PIECES)
    to = other(lay, "p").area.bounds
    at = other(lay, "q").area.bounds
    moved = changed(lay, "q", lambda laid: laid.moved(to[0] - at[0], to[1] - at[1] + 20.0))
    found = [fault for fault in lay_faults(moved, PIECES) if fault.kind == "overlap"]
    assert [fault.pieces for fault in found] == [("p", "q")]
    assert found[0].amount == pytest.approx(200.0 * 60.0, abs=1e-6)  # q lies within p


@pytest.mark.parametrize(("by", "seen"), [(0.0, True), (1.9, True), (2.0, False)])
def test_two_pieces_nearer_than_the_spacing(by: float, seen: bool) -> None:
    a, b = box("a", 50.0, 50.0), box("b", 50.0, 50.0)
    place = a.turn(False, False)
    laid = [LaidPiece(a, 0, place).moved(0.0, 50.0), LaidPiece(b, 0, place).moved(50.0 + by, 50.0)]
    lay = Lay(OPEN, False, tuple(laid), 2.0)
    assert faults(lay, (a, b)) == (["near"] if seen else [])


@pytest.mark.parametrize("shift", [(-0.1, 0.0), (0.0, -0.1), (0.0, 0.1)])
def test_a_piece_over_the_edge_of_the_cloth(shift: tuple[float, float]) -> None:
    piece = box("a", 900.0, 50.0)
    lay = lay_pieces(OPEN, (piece,))
    (fault,) = lay_faults(changed(lay, "a", lambda laid: laid.moved(*shift)), (piece,))
    assert fault.kind == "off-cloth"
    assert fault.amount == pytest.approx(0.1, abs=1e-6)


def test_a_piece_askew() -> None:
    lay = changed(lay_pieces(FOLDED, PIECES), "q", turned(0.002))
    (fault,) = (fault for fault in lay_faults(lay, PIECES) if fault.kind == "off-grain")
    assert fault.pieces == ("q",)
    assert fault.amount == pytest.approx(100.0 * np.sin(0.002), rel=1e-6)  # its grain line is 100 mm long


def test_a_piece_against_the_nap() -> None:
    one_way = replace(FOLDED, one_way=True)
    lay = lay_pieces(one_way, PIECES)
    assert lay_faults(lay, PIECES) == ()
    (fault,) = lay_faults(changed(lay, "q", turned(np.pi)), PIECES)
    assert (fault.kind, fault.pieces) == ("against-nap", ("q",))
    assert lay_faults(changed(lay_pieces(FOLDED, PIECES), "q", turned(np.pi)), PIECES) == ()


def test_a_fold_edge_off_the_fold() -> None:
    lay = lay_pieces(FOLDED, PIECES)
    (fault,) = (
        f for f in lay_faults(changed(lay, "f", lambda laid: laid.moved(0.0, 0.3)), PIECES) if f.kind == "off-fold"
    )
    assert fault.amount == pytest.approx(0.3, abs=1e-9)


def test_a_fold_edge_on_cloth_that_has_no_fold() -> None:
    laid = lay_pieces(FOLDED, PIECES[:1]).laid
    assert "off-fold" in faults(Lay(OPEN, False, laid), PIECES[:1])


def test_a_wrong_hand() -> None:
    lay = changed(lay_pieces(OPEN, SPREAD), "p", upside_down)
    assert lay_faults(lay, SPREAD) == (LayFault("wrong-hand", ("p",), 1),)


def test_pieces_that_are_missing_too_many_or_not_of_this_cloth() -> None:
    lay = lay_pieces(FOLDED, PIECES)
    assert lay_faults(replace(lay, laid=lay.laid[:-1]), PIECES) == (LayFault("missing", ("q",), 2),)
    assert set(lay_faults(lay, PIECES[:2])) == {LayFault("unknown", ("q",), 1)}
    single = (*PIECES[:2], box("q", 60.0, 200.0))
    assert LayFault("too-many", ("q",), 1) in lay_faults(lay, single)
    spare = changed(lay, "q", lambda laid: replace(laid, spare=True))
    assert lay_faults(spare, single) == ()
    assert lay_faults(spare, PIECES) == (LayFault("missing", ("q",), 1),)
