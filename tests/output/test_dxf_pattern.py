"""DXF is read back with ezdxf, which audits it and turns its curves into points with code of its own."""

import io
from dataclasses import replace

import ezdxf
import numpy as np
import pytest
import shapely
from drawn_garment import garment
from ezdxf import recover
from ezdxf.document import Drawing
from ezdxf.layouts import BlockLayout

from panelwright.finish.cut_piece import CuttingPattern
from panelwright.output.dxf_layers import MEANING
from panelwright.output.dxf_pattern import dxf_bytes

CLOSE = 0.01


def opened(content: bytes) -> Drawing:
    """The document, which a recovering reader found nothing to mend in."""
    document, auditor = recover.read(io.BytesIO(content))
    assert not auditor.errors
    assert not auditor.fixes
    again = document.audit()
    assert not again.errors
    assert not again.fixes
    return document


def points_on(block: BlockLayout, layer: str) -> list[np.ndarray]:
    """Points of every line and curve on a layer, by ezdxf's own flattening."""
    found = []
    for entity in block.query(f'LINE SPLINE LWPOLYLINE[layer=="{layer}"]'):
        path = ezdxf.path.make_path(entity)
        found.append(np.array([(point.x, point.y) for point in path.flattening(0.002, 8)]))
    return found


def sewn(piece_edges: list[np.ndarray]) -> shapely.MultiLineString:
    return shapely.MultiLineString([points.tolist() for points in piece_edges])


def assert_drawn_true(cutting: CuttingPattern, document: Drawing) -> None:
    """Every line of the model is within 0.01 mm of the lines on its layer, and these of the model."""
    blocks = [block for block in document.blocks if not block.name.startswith("*")]
    assert len(blocks) == len(cutting.pieces)
    for (piece, cut), block in zip(cutting.pieces, blocks, strict=True):
        (outline,) = points_on(block, "1")
        assert np.abs(outline[:-1] - cut.cut_line).max() < CLOSE
        for layer, edges in (
            ("14", [edge.curve for edge in piece.edges if edge.kind != "fold"]),
            ("6", [each.curve for each in (*piece.edges, *piece.inside) if each.kind == "fold"]),
            ("8", [line.curve for line in piece.inside if line.kind != "fold"]),
        ):
            drawn = points_on(block, layer)
            assert len(drawn) == len(edges)
            if edges:
                apart = shapely.hausdorff_distance(sewn(drawn), sewn([edge.polyline(0.002) for edge in edges]))
                assert apart < CLOSE
        (grain,) = points_on(block, "7")
        assert np.abs(grain - [piece.grain.start, piece.grain.end]).max() < CLOSE
        assert len(block.query('POINT[layer=="4"]')) == sum(notch.count for notch in cut.notches)


@pytest.fixture(scope="module")
def document() -> Drawing:
    return opened(dxf_bytes(garment()))


def test_units_layers_and_places(document: Drawing) -> None:
    assert document.header["$INSUNITS"] == 4  # millimetres, in the format's own list
    assert document.header["$MEASUREMENT"] == 1
    assert set(MEANING) <= {layer.dxf.name for layer in document.layers}
    inserts = document.modelspace().query("INSERT")
    cutting = garment()
    assert len(inserts) == len(cutting.pieces)
    assert {(each.dxf.xscale, each.dxf.yscale, each.dxf.rotation) for each in inserts} == {(1.0, 1.0, 0.0)}
    areas = [
        shapely.Polygon(cut.cut_line + np.array(each.dxf.insert)[:2])
        for (_, cut), each in zip(cutting.pieces, inserts, strict=True)
    ]
    assert sum(area.area for area in areas) == pytest.approx(shapely.union_all(areas).area)
    low = np.min([np.array(area.bounds)[:2] for area in areas], axis=0)
    assert low == pytest.approx([0.0, 0.0], abs=1e-9)


def test_every_line_is_where_the_model_has_it(document: Drawing) -> None:
    assert_drawn_true(garment(), document)


def test_a_piece_says_what_stands_on_it(document: Drawing) -> None:
    for piece, cut in garment().pieces:
        texts = document.blocks.get(piece.id.replace("/", "_")).query('TEXT[layer=="15"]')
        assert tuple(text.dxf.text for text in texts) == cut.text


def test_odd_names_and_letters_of_any_script_come_back() -> None:
    plain = garment(faced=False)
    first, *others = plain.pattern.pieces
    odd = replace(first, id='A/B:*?"<>|', label="Überärmel 前")
    pattern = replace(plain.pattern, pieces=(odd, *others), seams=(), levels=())
    text = ("Überärmel 前 ½", "two\nlines\x00")
    cut = {**{id: side for id, side in plain.cut.items() if id != first.id}}
    cut[odd.id] = replace(plain.cut[first.id], piece=odd.id, text=text, notches=())
    document = opened(dxf_bytes(replace(plain, pattern=pattern, cut=cut, notches=())))
    block = next(block for block in document.blocks if block.name.startswith("A_B"))
    written = [text.plain_text() for text in block.query('TEXT[layer=="15"]')]
    assert written == ["Überärmel 前 ½", "two lines "]


def test_equal_patterns_give_equal_bytes() -> None:
    assert dxf_bytes(garment()) == dxf_bytes(garment())
