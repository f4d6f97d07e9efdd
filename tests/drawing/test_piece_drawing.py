from dataclasses import replace

import numpy as np
import pytest
import shapely
from drawn_garment import block, garment
from lettering_room import box, crossings, letterings, overlaps
from plausible_bodies import plausible_bodies

from panelwright.blocks.make_block import make_block
from panelwright.drawing import pen
from panelwright.drawing.drawing import Drawing, Fill, Stroke
from panelwright.drawing.old_line import old_lines
from panelwright.drawing.piece_drawing import PieceDrawing, draw_piece, draw_pieces, piece_drawing
from panelwright.drawing.recorder import Recorder
from panelwright.drawing.scale import FULL, QUARTER, Scale
from panelwright.finish.cut_piece import CutPiece, CuttingPattern, NotchMark
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.geometry.arrays import Array
from panelwright.geometry.placement import Placement
from panelwright.pattern.mark import Mark
from panelwright.pattern.piece import Piece

SCALES = pytest.mark.parametrize("scale", [FULL, QUARTER], ids=["full", "quarter"])


def strokes(drawing: Drawing, layer: str) -> list[Stroke]:
    return [sign for sign in drawing if isinstance(sign, Stroke) and sign.layer == layer]


def assert_text_is_clear(drawn: PieceDrawing, names: tuple[str, ...]) -> None:
    """No text on another or on a line; each inside the stitch lines or wholly below the piece; none lost."""
    texts = letterings(drawn.drawing)
    assert overlaps(texts) == []
    assert crossings(drawn.drawing) == []
    lowest = drawn.cut_line[:, 1].min()
    for text in texts:
        assert drawn.area.contains(box(text)) or text.box[:, 1].max() < lowest, text.text
    written = " ".join(text.text for text in texts)
    for name in names:
        assert name in written


@pytest.fixture(scope="module")
def finished() -> CuttingPattern:
    return garment()


@pytest.fixture(scope="module")
def real() -> list[CuttingPattern]:
    """The whole blocks of invented bodies, finished with facing, interfacing and a deep hem."""
    options = Finish(facing="full", interfacing=True, lines={"hem": 25.0})
    bodies = list(plausible_bodies(4))[::3]
    return [finish(make_block(wearer).pattern, options) for wearer in bodies]


@SCALES
def test_paths_are_the_true_ones_to_scale(finished: CuttingPattern, scale: Scale) -> None:
    """The stitch lines keep their cubics: their points are the model's times the factor, exactly."""
    for piece, cut in finished.pieces:
        drawing = piece_drawing(piece, cut, scale).drawing
        sewn = [edge for edge in piece.edges if edge.kind != "fold"]
        drawn = strokes(drawing, "stitch lines")
        assert len(drawn) == len(sewn)
        for edge, stroke in zip(sewn, drawn, strict=True):
            assert set(stroke.path.codes) == {"M", "C"}
            assert np.allclose(stroke.path.points, edge.curve.points * scale.factor, atol=1e-12)


@SCALES
def test_the_cut_line_is_whole_and_a_fold_is_no_cut(finished: CuttingPattern, scale: Scale) -> None:
    for piece, cut in finished.pieces:
        drawing = piece_drawing(piece, cut, scale).drawing
        lines = strokes(drawing, "cut lines")
        folds = [stroke for stroke in strokes(drawing, "grain and fold") if stroke.pen == pen.FOLD]
        ring = shapely.LinearRing(cut.cut_line * scale.factor)
        length = sum(shapely.LineString(run).length for s in lines + folds for run in s.path.polylines)
        assert length == pytest.approx(ring.length, abs=1e-9)
        assert all(stroke.pen == pen.CUT for stroke in lines)
        assert len(folds) == (1 if piece.extent == "half_on_fold" else 0)
        for fold in folds:
            assert np.abs(fold.path.points[:, 0]).max() < 1e-9  # centre front lies at x = 0
            assert np.ptp(fold.path.points[:, 1]) > 0.95 * np.ptp(cut.cut_line[:, 1]) * scale.factor


def test_pens_do_not_change_with_the_scale(finished: CuttingPattern) -> None:
    full, quarter = draw_pieces(finished, FULL), draw_pieces(finished, QUARTER)
    for large, small in zip(full, quarter, strict=True):
        pens = [[s.pen for s in drawn.drawing if isinstance(s, Stroke)] for drawn in (large, small)]
        assert pens[0] == pens[1]


def test_lines_are_told_apart_without_colour() -> None:
    """Cut heavier than stitch; every dashed kind has its own rhythm; the old line is the faintest (trade: common
    practice)."""
    assert pen.CUT.width >= 2 * pen.STITCH.width
    rhythms = [p.dash for p in (pen.FOLD, pen.LEVEL, pen.GUIDE, pen.INSIDE_STITCH, pen.OLD)]
    assert len(set(rhythms)) == len(rhythms)
    assert pen.OLD.shade > max(p.shade for p in (pen.CUT, pen.STITCH, pen.FOLD, pen.LEVEL, pen.GRAIN, pen.GUIDE))


@SCALES
def test_text_is_clear_of_lines_and_text(finished: CuttingPattern, scale: Scale) -> None:
    for piece, drawn in zip(finished.pattern.pieces, draw_pieces(finished, scale, block()), strict=True):
        names = ("bust", "waist", "bodice", "w-07", "cutting", piece.label.split()[0])
        assert_text_is_clear(drawn, names)
        if piece.extent == "half_on_fold":
            assert_text_is_clear(drawn, ("cut on fold", "bust point"))


@SCALES
def test_text_is_clear_on_blocks_of_invented_bodies(real: list[CuttingPattern], scale: Scale) -> None:
    for finished in real:
        for piece, drawn in zip(finished.pattern.pieces, draw_pieces(finished, scale), strict=True):
            assert_text_is_clear(
                drawn,
                (
                    "wearer",
                    "Seam allowance 1.0 cm" if piece.layer != "interfacing" else "No",
                    "cutting",
                    piece.label.split()[0],
                ),
            )


def test_text_keeps_clear_even_where_it_was_wished_on_a_line(finished: CuttingPattern) -> None:
    piece, cut = finished.pieces[1]
    on_the_grain = replace(cut, text_at=piece.grain.start)
    assert_text_is_clear(piece_drawing(piece, on_the_grain, FULL), ("bodice", "w-07"))


def test_text_without_room_stands_under_the_piece(finished: CuttingPattern) -> None:
    piece, cut = finished.pieces[0]
    narrow = Scale(**{**vars(QUARTER), "factor": 0.08})
    drawn = piece_drawing(piece, cut, narrow)
    assert_text_is_clear(drawn, ("bodice", "w-07", "cutting"))
    assert any(text.box[:, 1].max() < drawn.cut_line[:, 1].min() for text in letterings(drawn.drawing))


@SCALES
def test_the_text_of_a_piece_stays_together(real: list[CuttingPattern], scale: Scale) -> None:
    """All of it inside, or all of it under the piece with a short name inside; under every piece at quarter scale."""
    for finished in real:
        for (piece, cut), drawn in zip(finished.pieces, draw_pieces(finished, scale), strict=True):
            texts = letterings(drawn.drawing)
            inside = " ".join(text.text for text in texts if drawn.area.contains(box(text)))
            below = " ".join(text.text for text in texts if not drawn.area.contains(box(text)))
            whole = " ".join(cut.text)
            assert (whole in inside) != (below == whole)
            if below:
                assert (piece.derived_from or piece.id) in inside
            assert bool(below) == scale.captioned or scale is FULL


def test_a_notch_is_a_t_from_the_stitch_line_to_the_cut_line(finished: CuttingPattern) -> None:
    piece, cut = finished.pieces[0]
    single = [notch for notch in cut.notches if notch.count == 1]
    paths = [stroke.path.points for stroke in strokes(piece_drawing(piece, cut, FULL).drawing, "notches")][
        : 2 * len(single)
    ]
    for notch, stem, bar in zip(single, paths[::2], paths[1::2], strict=True):
        assert stem.tolist() == [list(notch.at), pytest.approx(list(notch.to))]
        assert np.mean(bar, axis=0) == pytest.approx(notch.at)
        assert (bar[1] - bar[0]) @ (stem[1] - stem[0]) == pytest.approx(0.0, abs=1e-9)


def test_a_double_notch_has_two_stems_six_millimetres_apart(finished: CuttingPattern) -> None:
    """6 mm on the cloth: as the finishing brief states it; at quarter scale a quarter of that."""
    piece, cut = next((p, c) for p, c in finished.pieces if any(n.count == 2 for n in c.notches))
    double = next(notch for notch in cut.notches if notch.count == 2)
    only = replace(cut, notches=(double,))
    for scale in (FULL, QUARTER):
        stems = [s.path.points for s in strokes(piece_drawing(piece, only, scale).drawing, "notches")][::2]
        assert len(stems) == 2
        assert np.linalg.norm(stems[1][0] - stems[0][0]) == pytest.approx(6.0 * scale.factor)


def test_a_notch_without_an_allowance_runs_inwards(finished: CuttingPattern) -> None:
    piece, cut = finished.pieces[1]
    edge = next(edge for edge in piece.edges if edge.kind == "seam")
    at = edge.curve.point(100.0)
    mark = NotchMark("n", edge.id, (float(at[0]), float(at[1])), (float(at[0]), float(at[1])), 1)
    drawn = strokes(piece_drawing(piece, replace(cut, notches=(mark,)), FULL).drawing, "notches")
    assert piece.outline.contains(shapely.Point(drawn[0].path.points[1]))


def test_the_grain_has_an_arrow_head_at_each_end(finished: CuttingPattern) -> None:
    piece, cut = finished.pieces[1]
    heads = [s.path.points for s in piece_drawing(piece, cut, FULL).drawing if isinstance(s, Fill)]
    tips = {tuple(head[0]) for head in heads}
    assert tips == {piece.grain.start, piece.grain.end}


def test_the_bracket_touches_the_fold(finished: CuttingPattern) -> None:
    piece, cut = finished.pieces[0]
    heads = [s.path.points[0] for s in piece_drawing(piece, cut, FULL).drawing if isinstance(s, Fill)]
    on_fold = [tip for tip in heads if abs(tip[0]) < 1e-9]
    assert len(on_fold) == 2


@pytest.mark.parametrize("kind", ["drill", "button", "eyelet"])
def test_every_kind_of_mark_is_drawn_where_it_is(finished: CuttingPattern, kind: str) -> None:
    piece, cut = finished.pieces[1]
    mark = Mark("m", kind, (50.0, 20.0))  # type: ignore[arg-type]
    marked = replace(piece, marks=(mark,))
    (sign,) = strokes(piece_drawing(marked, replace(cut, notches=()), FULL).drawing, "notches")
    left, bottom, right, top = sign.path.bounds
    assert ((left + right) / 2, (bottom + top) / 2) == pytest.approx(mark.at)
    assert right - left < 3 * FULL.radius


def on_a_seam(finished: CuttingPattern) -> tuple[Piece, CutPiece, Array]:
    """A piece whose bust point lies on its seam, and where."""
    piece, cut = finished.pieces[1]
    curve = next(edge for edge in piece.edges if edge.kind == "seam").curve
    at = curve.point(curve.length / 2)
    return replace(piece, marks=(Mark("bust-point", "point", (float(at[0]), float(at[1]))),)), cut, at


@SCALES
def test_of_a_target_on_a_seam_the_half_inside_is_drawn(finished: CuttingPattern, scale: Scale) -> None:
    """Half a circle is π r long; a tenth either way, since the seam is curved and the cross runs through the ring."""
    piece, cut, at = on_a_seam(finished)
    (sign,) = strokes(piece_drawing(piece, replace(cut, notches=()), scale).drawing, "notches")
    drawn = shapely.MultiLineString([run.tolist() for run in sign.path.polylines])
    assert shapely.Polygon(np.array(piece.outline.exterior.coords) * scale.factor).buffer(1e-6).contains(drawn)
    centre = shapely.Point(at * scale.factor)
    ring = centre.buffer(1.02 * scale.radius, 64) - centre.buffer(0.98 * scale.radius, 64)
    assert drawn.intersection(ring).length == pytest.approx(np.pi * scale.radius, rel=0.1)


@SCALES
def test_a_target_leaves_the_notch_beside_it_in_sight(finished: CuttingPattern, scale: Scale) -> None:
    piece, cut, at = on_a_seam(finished)
    edge = next(edge for edge in piece.edges if edge.kind == "seam")
    tangent = edge.curve.tangent(edge.curve.nearest(at)[0])
    to = at + 10.0 * np.array([tangent[1], -tangent[0]])
    notch = NotchMark("n", edge.id, (float(at[0]), float(at[1])), (float(to[0]), float(to[1])), 1)
    stem, _, sign = strokes(piece_drawing(piece, replace(cut, notches=(notch,)), scale).drawing, "notches")
    shown = shapely.LineString(stem.path.points).difference(
        shapely.MultiLineString([run.tolist() for run in sign.path.polylines]).buffer(pen.SYMBOL.width / 2)
    )
    assert shown.length > 0.9 * 10.0 * scale.factor


def test_a_point_that_was_cut_away_is_neither_drawn_nor_named(finished: CuttingPattern) -> None:
    piece, cut, at = on_a_seam(finished)
    outwards = at - np.array(piece.outline.centroid.coords[0])
    away = at + 4.0 * outwards / np.linalg.norm(outwards)
    for place, seen in ((at, True), (away, False)):
        marked = replace(piece, marks=(Mark("bust-point", "point", (float(place[0]), float(place[1]))),))
        drawn = piece_drawing(marked, replace(cut, notches=()), FULL).drawing
        assert bool(strokes(drawn, "notches")) == seen
        assert ("bust point" in [text.text for text in letterings(drawn)]) == seen


@SCALES
def test_names_on_one_line_are_read_apart(real: list[CuttingPattern], scale: Scale) -> None:
    """A name's box, longer by two letter sizes at each end, meets no other name of its size."""
    for finished in real:
        for drawn in draw_pieces(finished, scale):
            names = [text for text in letterings(drawn.drawing) if text.size == scale.small]
            for k, name in enumerate(names):
                along = 2.0 * name.size * np.array([np.cos(name.angle), np.sin(name.angle)])
                longer = shapely.Polygon(name.box + np.outer([-1, 1, 1, -1], along))
                assert not any(longer.intersects(box(other)) for other in names[k + 1 :])


def test_the_old_line_shows_where_it_was_left_and_only_there(finished: CuttingPattern) -> None:
    piece, cut = finished.pieces[1]
    old = old_lines(piece, block())
    gone = {edge.curve for edge in block().piece("SF").edges} - {edge.curve for edge in piece.edges}
    assert set(old) == gone
    assert len(old) == 2  # the straight top and hem
    drawn = strokes(piece_drawing(piece, cut, FULL, old).drawing, "old block line")
    assert [stroke.pen for stroke in drawn] == [pen.OLD, pen.OLD]


def test_the_old_line_follows_its_panel(finished: CuttingPattern) -> None:
    """A piece that was moved takes the block's line along by its material map."""
    piece = finished.pieces[1][0]
    placement = Placement(angle=0.4, x=300.0, y=-50.0)
    still = old_lines(piece, block())
    moved = old_lines(piece.placed(placement), block())
    assert len(moved) == len(still) == 2
    for before, after in zip(still, moved, strict=True):
        assert np.allclose(before.placed(placement).points, after.points, atol=1e-9)


def test_the_old_line_is_followed_only_near_the_piece(finished: CuttingPattern) -> None:
    piece, cut = finished.pieces[1]
    far = tuple(edge.curve.placed(Placement(y=60.0)) for edge in block().piece("SF").edges)
    near = shapely.Polygon(cut.cut_line).buffer(FULL.old_line_reach + 0.1)
    for stroke in strokes(piece_drawing(piece, cut, FULL, far).drawing, "old block line"):
        for run in stroke.path.polylines:
            assert near.contains(shapely.LineString(run))


def test_a_piece_is_drawn_on_any_surface(finished: CuttingPattern) -> None:
    piece, cut = finished.pieces[0]
    recorder = Recorder()
    recorder.begin_page(210, 297)
    draw_piece(piece, cut, recorder, QUARTER, at=(100.0, 150.0))
    recorder.end_page()
    (page,) = recorder.pages
    assert len(page.signs) == len(piece_drawing(piece, cut, QUARTER).drawing.signs)
    first = page.strokes("stitch lines")[0].path.points[0]
    wanted = next(edge for edge in piece.edges if edge.kind != "fold").curve.start * 0.25 + (100.0, 150.0)
    assert first == pytest.approx(wanted)


def test_every_piece_bears_the_code_that_the_cutting_list_gives_its_shape() -> None:
    options = Finish(facing="edge", hem_facing_width=40.0, lining="to_facing", interfacing="facing")
    names = {
        piece.piece: [text.text for text in letterings(piece.drawing) if text.bold]
        for piece in draw_pieces(finish(garment().pattern, options), QUARTER)
    }
    for id in ("SF", "SF/facing", "SF/hem-facing", "SF/lining", "SF/facing/interfacing", "SF/hem-facing/interfacing"):
        code = id.removesuffix("/interfacing")
        assert names[id][0] == code
        assert f"({code})" in " ".join(names[id][1:])
