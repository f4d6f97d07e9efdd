"""Every garment of the demo as DXF and SVG: true to the model by other people's code, and read back."""

import io

import ezdxf
import numpy as np
import pytest
import shapely
from demo_cutting import GARMENTS, demo_cutting
from output.test_dxf_pattern import assert_drawn_true, opened

from panelwright.finish.cut_piece import CuttingPattern, NotchMark
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.geometry.placement import Placement
from panelwright.intake.drawing_file import read_drawing
from panelwright.intake.drawn_piece import DrawnPiece
from panelwright.output.dxf_pattern import dxf_bytes
from panelwright.output.piece_rows import piece_rows
from panelwright.output.svg_pattern import svg_pattern
from panelwright.pattern.level import LEVELS
from panelwright.pattern.piece import Piece

CLOSE = 0.05


def line(curves: list[Curve]) -> shapely.LineString:
    return shapely.LineString(np.concatenate([curve.polyline(0.01) for curve in curves]))


def moved(piece: Piece, drawn: DrawnPiece) -> Array:
    """From the drawing's coordinates to the piece's own: by their boxes."""
    own, read = line([e.curve for e in piece.edges]), line([e.curve for e in drawn.edges])
    return np.subtract(own.bounds[:2], read.bounds[:2])


def assert_read_back(cutting: CuttingPattern, content: bytes, name: str) -> None:
    reading = read_drawing(content, name)
    assert reading.unit == pytest.approx(1.0)
    assert reading.drawn.allowance == 0.0
    assert len(reading.drawn.pieces) == len(cutting.pieces)
    for (piece, cut), drawn in zip(cutting.pieces, reading.drawn.pieces, strict=True):
        shift = moved(piece, drawn)
        read = shapely.transform(line([e.curve for e in drawn.edges]), lambda at, by=shift: at + by)
        assert shapely.hausdorff_distance(read, line([e.curve for e in piece.edges])) < CLOSE
        assert [e.kind for e in drawn.edges].count("fold") == [e.kind for e in piece.edges].count("fold")
        grain = np.array([drawn.grain.start, drawn.grain.end]) + shift
        model = np.array([piece.grain.start, piece.grain.end])
        assert min(np.abs(grain - model).max(), np.abs(grain - model[::-1]).max()) < CLOSE
        assert_notches_read_back(cut.notches, drawn, shift)
        levels = [line.id for line in piece.inside if line.id in LEVELS]
        assert [line.id for line in drawn.inside if line.kind == "level"] == levels
        assert len(drawn.inside) == len(piece.inside)
        for inside, own in zip(drawn.inside, piece.inside, strict=True):
            apart = shapely.hausdorff_distance(
                line([inside.curve.placed(Placement(x=shift[0], y=shift[1]))]), line([own.curve])
            )
            assert apart < CLOSE


def assert_notches_read_back(notches: tuple[NotchMark, ...], drawn: DrawnPiece, shift: Array) -> None:
    assert len(drawn.notches) == len(notches)
    places = np.array([notch.at for notch in drawn.notches]).reshape(-1, 2) + shift
    for notch in notches:
        off = np.hypot(*(places - notch.at).T)
        assert off.min() < 0.2  # of a double one the two feet lie square beside it, not on the bent line
        assert drawn.notches[int(off.argmin())].count == notch.count


def cut_lines_alone(content: bytes) -> bytes:
    """The same drawing with nothing but cut lines, by ezdxf: every other entity taken out, layers renamed."""
    document = ezdxf.read(io.StringIO(content.decode("cp1252")))
    for block in document.blocks:
        for entity in list(block):
            if entity.dxftype() not in ("LWPOLYLINE", "INSERT"):
                block.delete_entity(entity)
            else:
                entity.dxf.layer = "0"
    text = io.StringIO()
    document.write(text)
    return document.encode(text.getvalue())


# Each design once; the other dancers in the long proofs.
@pytest.mark.parametrize(
    ("design", "wearer"),
    [pytest.param(*pair, marks=[pytest.mark.soak] if k % 2 else []) for k, pair in enumerate(GARMENTS)],
)
def test_a_garment_of_the_demo(design: str, wearer: str) -> None:
    cutting = demo_cutting(design, wearer)
    content = dxf_bytes(cutting)
    assert_drawn_true(cutting, opened(content))
    assert_read_back(cutting, content, "pattern.dxf")
    assert_read_back(cutting, svg_pattern(cutting, "t").encode(), "pattern.svg")
    reading = read_drawing(cut_lines_alone(content), "cut.dxf")
    assert reading.drawn.allowance is None
    shifts = piece_rows(cutting)
    for (piece, cut), drawn in zip(cutting.pieces, reading.drawn.pieces, strict=True):
        own = shapely.LineString(np.concatenate([cut.cut_line, cut.cut_line[:1]]) + shifts[piece.id])
        assert shapely.hausdorff_distance(line([e.curve for e in drawn.edges]), own) < CLOSE
    cubics = sum(len(edge.curve.cubics) for drawn in reading.drawn.pieces for edge in drawn.edges)
    assert cubics < sum(len(cut.cut_line) for _, cut in cutting.pieces) / 3
