"""DXF of every kind is made with ezdxf and read by our own reader; ezdxf's own points of each curve are the measure."""

import io
import math

import ezdxf
import numpy as np
import pytest
import shapely
from ezdxf import path as ezdxf_path
from ezdxf.document import Drawing
from hypothesis import given
from hypothesis import strategies as st
from scipy.interpolate import BSpline

from panelwright.errors import InputError
from panelwright.intake.drawing_file import read_drawing
from panelwright.intake.drawing_reading import Reading
from panelwright.intake.drawing_stroke import Stroke
from panelwright.intake.dxf_reading import read_dxf


def content(document: Drawing) -> bytes:
    text = io.StringIO()
    document.write(text)
    return document.encode(text.getvalue())


def points(stroke: Stroke) -> np.ndarray:
    """Points on a stroke, by Bernstein's formula."""
    t = np.linspace(0, 1, 129)[:, None]
    found = []
    for run in stroke.runs:
        if run.ndim == 2:
            found.append(run)
            continue
        for a, b, c, d in run:
            found.append((1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t * t * c + t**3 * d)
    return np.concatenate(found)


def flattened(entity: object) -> list[list[tuple[float, float]]]:
    """Points of an entity by ezdxf: evaluated where it can, else along its path."""
    if hasattr(entity, "flattening"):
        return [[(p.x, p.y) for p in entity.flattening(0.0005)]]
    return [[(p.x, p.y) for p in ezdxf_path.make_path(entity).flattening(0.0005, 64)]]


def apart(stroke: Stroke, *entities: object) -> float:
    theirs = shapely.MultiLineString([line for entity in entities for line in flattened(entity)])
    return shapely.hausdorff_distance(shapely.LineString(points(stroke)), theirs)


def new(unit: int = 4, version: str = "R2010") -> tuple[Drawing, object]:
    document = ezdxf.new(version, units=unit)
    return document, document.modelspace()


CURVES = {
    "line": lambda space: space.add_line((1, 2), (30, -40)),
    "arc": lambda space: space.add_arc((5, 6), 70, 300, 45),
    "arc round the back": lambda space: space.add_arc((5, 6), 70, 45, 40),
    "circle": lambda space: space.add_circle((5, 6), 70),
    "ellipse": lambda space: space.add_ellipse((1, 1), (60, 20), 0.3),
    "part of an ellipse": lambda space: space.add_ellipse((1, 1), (60, 20), 0.3, 5, 7),
    "polyline with arcs": lambda space: space.add_lwpolyline(
        [(0, 0, 0.4), (50, 0, 0), (70, 30, -0.9), (20, 60, 0)], format="xyb", close=True
    ),
    "old polyline": lambda space: space.add_polyline2d([(0, 0, 0.5), (50, 0, 0), (40, 9, 0)], format="xyb"),
    "spline": lambda space: space.add_open_spline([(0, 0, 0), (9, 30, 0), (40, 2, 0), (50, 40, 0), (80, 0, 0)]),
    "spline of the second degree": lambda space: space.add_open_spline(
        [(0, 0, 0), (9, 30, 0), (40, 2, 0), (50, 40, 0)], degree=2
    ),
    "spline of the fifth degree": lambda space: space.add_open_spline(
        [(0, 0, 0), (9, 30, 0), (40, 2, 0), (50, 40, 0), (80, 0, 0), (90, 9, 0), (120, 50, 0)], degree=5
    ),
    "spline with weights": lambda space: space.add_rational_spline(
        [(0, 0, 0), (9, 30, 0), (40, 2, 0), (50, 40, 0)], [1, 3, 0.5, 1]
    ),
}


@pytest.mark.parametrize("kind", CURVES)
def test_each_kind_of_line_is_where_ezdxf_has_it(kind: str) -> None:
    document, space = new()
    entity = CURVES[kind](space)
    (stroke,) = read_dxf(content(document)).strokes
    assert apart(stroke, entity) < 0.02


@pytest.mark.parametrize("kind", CURVES)
def test_in_blocks_turned_stretched_and_mirrored(kind: str) -> None:
    document, space = new()
    inner, outer = document.blocks.new("INNER", base_point=(3, 4)), document.blocks.new("OUTER")
    CURVES[kind](inner)
    more = {"xscale": -2, "yscale": 1.5, "rotation": 30}
    outer.add_blockref("inner", (7, 8), dxfattribs=more)
    placed = space.add_blockref("OUTER", (100, 50), dxfattribs={"rotation": 200, "xscale": 0.5, "yscale": 0.5})
    (stroke,) = read_dxf(content(document)).strokes
    (within,) = placed.virtual_entities()
    assert apart(stroke, *within.virtual_entities()) < 0.02


@pytest.mark.parametrize("degree", [2, 3, 4])
def test_a_closed_spline_runs_between_its_inner_knots(degree: int) -> None:
    """The measure is scipy's; ezdxf follows the outer knots too, where the spline is not meant."""
    controls = [(0, 0), (90, 300), (400, 320), (500, -10)]
    wrapped = np.array([*controls, *controls[:degree]], float)
    knots = np.arange(len(wrapped) + degree + 1, dtype=float)
    document, space = new()
    space.add_open_spline([(x, y, 0) for x, y in wrapped], degree=degree, knots=knots.tolist())
    (stroke,) = read_dxf(content(document)).strokes
    true = BSpline(knots, wrapped, degree)(np.linspace(degree, len(wrapped), 2000))
    assert shapely.hausdorff_distance(shapely.LineString(points(stroke)), shapely.LineString(true)) < 0.02
    assert stroke.gap() < 1e-4
    assert len(read_drawing(content(document), "a.dxf").drawn.pieces) == 1


def test_seen_from_below_a_line_is_mirrored() -> None:
    document, space = new()
    entity = space.add_lwpolyline([(0, 0), (50, 0), (20, 30)], close=True, dxfattribs={"extrusion": (0, 0, -1)})
    (stroke,) = read_dxf(content(document)).strokes
    assert apart(stroke, entity) < 0.01
    assert stroke.preview[:, 0].max() == pytest.approx(0.0, abs=1e-9)


def square(space: object, side: float, at: tuple[float, float] = (0.0, 0.0), **attributes: object) -> None:
    x, y = at
    space.add_lwpolyline(
        [(x, y), (x + side, y), (x + side, y + side), (x, y + side)], close=True, dxfattribs=attributes
    )


def guessed(reading: Reading, about: str) -> str:
    return next(guess.taken for guess in reading.guesses if guess.about == about)


@pytest.mark.parametrize(
    ("unit", "name", "mm"),
    [(4, "millimetres", 1.0), (5, "centimetres", 10.0), (1, "inches", 25.4), (6, "metres", 1000.0)],
)
def test_the_unit_of_the_header(unit: int, name: str, mm: float) -> None:
    document, space = new(unit)
    square(space, 300 / mm)
    reading = read_drawing(content(document), "a.dxf")
    assert guessed(reading, "unit") == name
    (piece,) = reading.drawn.pieces
    assert [edge.curve.length for edge in piece.edges] == pytest.approx([300.0] * 4)


@pytest.mark.parametrize(("side", "name"), [(400, "millimetres"), (40, "centimetres"), (2.0, "metres"), (15, "inches")])
def test_the_unit_by_size_is_told_and_can_be_changed(side: float, name: str) -> None:
    document, space = new(0)
    square(space, side)
    reading = read_drawing(content(document), "a.dxf")
    guess = next(guess for guess in reading.guesses if guess.about == "unit")
    assert (guess.taken, guess.sure) == (name, False)
    assert "does not say" in guess.why
    again = read_drawing(content(document), "a.dxf", unit="centimetres" if name == "inches" else "inches")
    assert again.unit != reading.unit


def test_two_outlines_are_cut_line_and_stitch_line() -> None:
    document, space = new()
    square(space, 200, layer="lines")
    square(space, 176, (12.0, 12.0), layer="lines")
    reading = read_drawing(content(document), "a.dxf")
    (piece,) = reading.drawn.pieces
    assert [edge.curve.length for edge in piece.edges] == pytest.approx([176.0] * 4)
    assert reading.drawn.allowance == 0.0
    assert guessed(reading, "piece piece-1") in ("piece-1", "allowance of 12.0 mm")
    assert "allowance of 12.0 mm" in [guess.taken for guess in reading.guesses]


def test_what_a_person_says_of_layers_counts() -> None:
    document, space = new()
    square(space, 200, layer="A")
    square(space, 100, (20.0, 20.0), layer="B")
    assert len(read_drawing(content(document), "a.dxf").drawn.pieces[0].inside) == 1
    told = read_drawing(content(document), "a.dxf", roles={"A": "leave", "B": "cut"})
    (piece,) = told.drawn.pieces
    assert [edge.curve.length for edge in piece.edges] == pytest.approx([100.0] * 4)
    with pytest.raises(InputError, match="nothing that a layer can hold"):
        read_drawing(content(document), "a.dxf", roles={"A": "sleeve"})


def test_grain_notches_text_and_lines_inside_are_recognised() -> None:
    document, space = new()
    square(space, 300, layer="Cut")
    space.add_line((150, 40), (150, 260), dxfattribs={"layer": "Grainline"})
    for x in (100, 106):
        space.add_line((x, 0), (x, 8), dxfattribs={"layer": "0"})
    space.add_line((300, 90), (292, 90), dxfattribs={"layer": "0"})
    space.add_line((20, 200), (280, 200), dxfattribs={"layer": "0"})
    space.add_text("waist", height=3).set_placement((20, 200))
    space.add_text("Side front (SF)", height=9).set_placement((30, 150))
    (piece,) = read_drawing(content(document), "a.dxf").drawn.pieces
    assert (piece.id, piece.label) == ("SF", "Side front (SF)")
    assert (piece.grain.start, piece.grain.end) == ((150, 40), (150, 260))
    assert {(round(n.at[0]), round(n.at[1]), n.count) for n in piece.notches} == {(103, 0, 2), (300, 90, 1)}
    assert [(line.id, line.kind) for line in piece.inside] == [("waist", "level")]


def arc_outline(step: float) -> list[tuple[float, float]]:
    """Half a disc of 200 mm radius, its round side as points every so many degrees."""
    count = round(180 / step)
    return [(200 * math.cos(math.pi * k / count), 200 * math.sin(math.pi * k / count)) for k in range(count + 1)]


@pytest.mark.parametrize("step", [1.0, 3.0, 9.0, 15.0])
def test_a_sampled_curve_has_corners_at_its_ends_only(step: float) -> None:
    document, space = new()
    places = arc_outline(step)
    for a, b in zip(places, [*places[1:], places[0]], strict=True):
        space.add_line(b, a)
    (piece,) = read_drawing(content(document), "a.dxf").drawn.pieces
    assert sorted(edge.curve.length for edge in piece.edges) == pytest.approx([400.0, 200 * math.pi], rel=4e-3)
    (round_edge,) = (edge.curve for edge in piece.edges if edge.curve.length > 500)
    radii = np.hypot(*round_edge.polyline(0.01).T)
    sagged = 200 * (1 - math.cos(math.radians(step) / 2))
    assert np.abs(radii - 200).max() < 0.05 + 0.6 * sagged
    assert len(round_edge.cubics) <= 12


@given(st.integers(3, 9), st.floats(0.0, 6.28))
def test_a_polygon_has_all_its_corners(count: int, turned: float) -> None:
    document, space = new()
    space.add_lwpolyline(
        [
            (300 * math.cos(turned + 2 * math.pi * k / count), 300 * math.sin(turned + 2 * math.pi * k / count))
            for k in range(count)
        ],
        close=True,
    )
    (piece,) = read_drawing(content(document), "a.dxf").drawn.pieces
    assert len(piece.edges) == count


def test_a_circle_is_two_halves_and_a_tiny_one_no_piece() -> None:
    document, space = new()
    space.add_circle((0, 0), 100)
    space.add_circle((20, 0), 3, dxfattribs={"layer": "drill"})
    (piece,) = read_drawing(content(document), "a.dxf").drawn.pieces
    assert [edge.curve.length for edge in piece.edges] == pytest.approx([100 * math.pi] * 2, rel=1e-4)
    assert [mark.at for mark in piece.marks] == [pytest.approx((20.0, 0.0), abs=1e-6)]


def test_a_frame_round_the_pieces_is_left_out_and_told() -> None:
    document, space = new()
    space.add_lwpolyline([(-50, -50), (900, -50), (900, 500), (-50, 500)], close=True)
    square(space, 200)
    square(space, 200, (300.0, 0.0))
    reading = read_drawing(content(document), "a.dxf")
    assert len(reading.drawn.pieces) == 2
    assert guessed(reading, "sheet") == "1 rectangle left out"


@pytest.mark.parametrize(("gap", "pieces"), [(0.1, 1), (1.0, 1), (30.0, 0)])
def test_an_outline_that_is_a_little_open_is_closed_and_told(gap: float, pieces: int) -> None:
    document, space = new()
    space.add_lwpolyline([(gap, 0), (300, 0), (300, 300), (0, 300), (0, 0)])
    if not pieces:
        with pytest.raises(InputError, match=r"no closed outline: the longest line is open by 30.0 mm"):
            read_drawing(content(document), "a.dxf")
        return
    reading = read_drawing(content(document), "a.dxf")
    assert len(reading.drawn.pieces) == pieces
    told = [guess.why for guess in reading.guesses if guess.taken == "closed"]
    assert told == ([] if gap < 0.15 else ["its outline was open by 1.0 mm"])


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"", '"a.dxf": the file is empty: save the drawing or the photo again'),
        (b"AC1032\x00", '"a.dxf": the file is a DWG file, which only its own program can read: save it as DXF'),
        (b"AutoCAD Binary DXF\r\n\x1a\x00", '"a.dxf": the file is a binary DXF file: save it as ASCII DXF'),
        (
            b"hello",
            '"a.dxf": the file is neither a drawing (DXF or SVG) nor a photo (JPEG, PNG or WebP): '
            "save it as one of them",
        ),
        (
            b"0\nSECTION\n2\nENTITIES\n0\nLINE\n",
            '"a.dxf": the file breaks off: its end mark is missing, so a part of the pattern may be; save it again',
        ),
        (
            b"0\nSECTION\nx\nENTITIES\n",
            '"a.dxf": line 3 should be a whole number, a group code of DXF: save the drawing again',
        ),
        (
            b"0\nSECTION\n2\nENTITIES\n0\nLINE\n10\nnan\n20\n0\n11\n1\n21\n1\n0\nENDSEC\n0\nEOF\n",
            '"a.dxf": the LINE in line 5 has "nan" for value 10, which is no usable number: save the drawing again',
        ),
        (
            b"0\nSECTION\n2\nENTITIES\n0\nENDSEC\n0\nEOF\n",
            '"a.dxf": it draws no line that can be part of a pattern: save the pattern\'s pieces as lines',
        ),
        (b"0" * 20_000_001, '"a.dxf": the file is larger than 20 MB: save the pattern\'s pieces alone'),
    ],
    ids=["empty", "dwg", "binary", "prose", "broken off", "no code", "nan", "nothing drawn", "large"],
)
def test_a_file_of_no_use_is_one_sentence(data: bytes, sentence: str) -> None:
    with pytest.raises(InputError) as fault:
        read_drawing(data, "a.dxf")
    assert str(fault.value) == sentence


def test_an_outline_that_crosses_itself_is_refused_with_its_place() -> None:
    document, space = new()
    space.add_lwpolyline([(0, 0), (300, 0), (0, 300), (250, 400)], close=True)
    with pytest.raises(InputError, match=r"piece piece-1: its outline crosses itself near x \d+, y \d+ mm"):
        read_drawing(content(document), "a.dxf")


def test_a_line_there_and_back_is_no_piece() -> None:
    document, space = new()
    space.add_lwpolyline([(0, 0, 0.001), (300, 0, 0)], format="xyb", close=True)
    with pytest.raises(InputError, match="a line there and back, which encloses nothing"):
        read_drawing(content(document), "a.dxf")
