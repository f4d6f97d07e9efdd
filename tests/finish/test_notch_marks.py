import numpy as np
import pytest
from plain_cutting_pattern import shell
from shapely import LinearRing, Point

from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.finish.notch_marks import NotchSide, notch_marks
from panelwright.finish.options import Finish
from panelwright.pattern.seam import Notch

ALL = Finish(lines={"hem": 25, "side": 17}, facing="full", extra_notches="always")


@pytest.fixture(scope="module")
def cutting() -> CuttingPattern:
    return finish(shell(), ALL)


def test_every_tick_stands_square_to_the_stitch_line_and_ends_on_the_cut_line(cutting: CuttingPattern) -> None:
    """T marks stand square to the stitch line and are carried to the edge of the allowance (common practice, CP)."""
    for piece, cut in cutting.pieces:
        ring = LinearRing(cut.cut_line)
        for mark in cut.notches:
            curve = piece.edge(mark.edge).curve
            arc, gap = curve.nearest(mark.at)
            stem = np.subtract(mark.to, mark.at)
            assert gap < 1e-6
            assert abs(stem @ curve.tangent(arc)) < 1e-6 * np.linalg.norm(stem)
            assert np.linalg.norm(stem) == pytest.approx(cut.allowances[mark.edge], abs=0.02)
            assert ring.distance(Point(mark.to)) < 0.02
            assert not piece.outline.contains(Point(mark.to))


def test_each_notch_is_marked_on_both_pieces_that_meet_there(cutting: CuttingPattern) -> None:
    marks = [mark for cut in cutting.cut.values() for mark in cut.notches]
    for notch in cutting.notches:
        edges = {mark.edge for mark in marks if mark.notch == notch.id}
        seam = cutting.pattern.seam(notch.seam)
        assert edges == {span.edge for span in seam.a + seam.b}
        assert {mark.count for mark in marks if mark.notch == notch.id} == {notch.count}


def test_ticks_of_both_sides_stand_at_the_same_length_of_seam(cutting: CuttingPattern) -> None:
    for notch in cutting.notches:
        seam = cutting.pattern.seam(notch.seam)
        for chain, place in ((seam.a, notch.at_a), (seam.b, notch.at_b)):
            span, at, _ = cutting.pattern.along_chain(chain, place)
            (mark,) = [m for m in cutting.cut[span.piece].notches if m.notch == notch.id]
            assert mark.at == pytest.approx(tuple(at), abs=1e-9)


def test_a_centre_seam_is_marked_once_on_its_own_piece() -> None:
    from dataclasses import replace

    pattern = shell()
    cb = pattern.piece("CB")
    sewn = replace(cb, edges=tuple(replace(e, kind="seam") if e.kind == "opening" else e for e in cb.edges))
    seams = tuple(replace(seam, kind="join") if seam.kind == "closure" else seam for seam in pattern.seams)
    cutting = finish(replace(pattern.with_pieces(sewn), seams=seams))
    centre = [mark.notch for mark in cutting.cut["CB"].notches if mark.edge == "CB.centre-back"]
    assert sorted(centre) == ["centre-back/middle", "centre-back/waist"]


def side(at: tuple[float, float], normal: tuple[float, float]) -> NotchSide:
    return NotchSide(Notch("n", "s", 0.0, 0.0, 1), "P.e", np.array(at), np.array(normal))


def test_a_tick_under_another_allowance_is_carried_on_to_the_cut_line() -> None:
    """In a slit that is filled the cut line lies farther out than the edge's own allowance."""
    square = np.array([(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)])
    (mark,) = notch_marks([side((50.0, 60.0), (0.0, 1.0))], {"P.e": "P.e"}, {"P.e": 10.0}, square)
    assert mark.to == pytest.approx((50.0, 100.0))


def test_a_tick_without_an_allowance_has_no_length() -> None:
    square = np.array([(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)])
    (mark,) = notch_marks([side((50.0, 100.0), (0.0, 1.0))], {"P.e": "P.e"}, {"P.e": 0.0}, square)
    assert mark.to == mark.at == (50.0, 100.0)


def test_marks_of_a_layer_are_named_by_it() -> None:
    square = np.array([(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)])
    (mark,) = notch_marks([side((50.0, 90.0), (0.0, 1.0))], {"P.e": "P/x.e"}, {"P/x.e": 10.0}, square, prefix="x/")
    assert (mark.notch, mark.edge) == ("x/n", "P/x.e")
