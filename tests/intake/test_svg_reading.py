"""SVG is read by our own reader; paths and transforms are held against those of fontTools."""

import math

import numpy as np
import pytest
import shapely
from fontTools.misc.transform import Transform
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path
from hypothesis import given
from hypothesis import strategies as st

from panelwright.errors import InputError
from panelwright.intake.drawing_file import read_drawing
from panelwright.intake.svg_number import transform
from panelwright.intake.svg_path import path_lines

HEAD = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
MM = 'width="500mm" height="400mm" viewBox="0 0 500 400"'


def svg(inside: str, size: str = MM) -> bytes:
    return f"<svg {HEAD} {size}>{inside}</svg>".encode()


def edges(content: bytes) -> list[float]:
    (piece,) = read_drawing(content, "a.svg").drawn.pieces
    return [edge.curve.length for edge in piece.edges]


def sampled(runs: tuple[np.ndarray, ...]) -> list[tuple[float, float]]:
    t = np.linspace(0, 1, 65)[:, None]
    found = []
    for run in runs:
        if run.ndim == 2:
            found += run.tolist()
        else:
            for a, b, c, d in run:
                found += ((1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t * t * c + t**3 * d).tolist()
    return found


def recorded(data: str) -> list[list[tuple[float, float]]]:
    """The lines of a path as fontTools reads it, as points."""
    pen = RecordingPen()
    parse_path(data, pen)
    lines: list[list[tuple[float, float]]] = []
    t = np.linspace(0, 1, 65)
    for kind, given_points in pen.value:
        if kind == "moveTo":
            lines.append([given_points[0]])
        elif kind == "lineTo":
            lines[-1].append(given_points[0])
        elif kind == "closePath":
            lines[-1].append(lines[-1][0])
        elif kind in ("curveTo", "qCurveTo"):
            places = np.array([lines[-1][-1], *given_points])
            n = len(places) - 1
            weights = [math.comb(n, k) * (1 - t) ** (n - k) * t**k for k in range(n + 1)]
            lines[-1] += [tuple(p) for p in np.einsum("kt,kd->td", np.array(weights), places)]
    return [line for line in lines if len(line) > 1]


PATHS = [
    "M10 10L90 10 90 60z",
    "m10,10 l80-0 0.5.5h-20v30H1V2zm5 5l9 9",
    "M0 0C10 20 30-20 40 0S70 20 80 0s9 9 20 3",
    "M0 0Q10 20 40 0T80 0t9 20",
    "M100 200A25 50-30 0 1 150 175",
    "M100 200a25 25 0 11 50-25zM1 1l5 5",
    "M1e1-.5e-1L+3.25e1,7",
]


@pytest.mark.parametrize("data", PATHS)
def test_a_path_runs_where_another_reader_has_it(data: str) -> None:
    ours, theirs = path_lines(data), recorded(data)
    assert len(ours) == len(theirs)
    for runs, line in zip(ours, theirs, strict=True):
        apart = shapely.hausdorff_distance(shapely.LineString(sampled(runs)), shapely.LineString(line))
        assert apart < 0.02  # fontTools follows an arc by quarters, true to 3 in ten thousand


@pytest.mark.parametrize("large", [0, 1])
@pytest.mark.parametrize("swept", [0, 1])
@pytest.mark.parametrize("chord", [10.0, 60.0, 99.9, 140.0])
def test_an_arc_lies_on_its_circle(large: int, swept: int, chord: float) -> None:
    radius = max(50.0, chord / 2)  # one that is too small grows
    ((cubics,),) = path_lines(f"M0 0A50 50 0 {large} {swept} {chord} 0")
    points = np.array(sampled((cubics,)))
    middle = np.array([chord / 2, math.sqrt(max(radius**2 - chord**2 / 4, 0.0)) * (1 if large != swept else -1) * -1])
    off = min(np.abs(np.hypot(*(points - [middle[0], side * middle[1]]).T) - radius).max() for side in (1, -1))
    assert off < 1e-3
    half = math.asin(min(1.0, chord / 2 / radius))
    turn = 2 * math.pi - 2 * half if large else 2 * half
    assert np.hypot(*np.diff(points, axis=0).T).sum() == pytest.approx(radius * turn, rel=1e-3)


@given(st.lists(st.sampled_from(["translate", "scale", "rotate", "skewX", "skewY", "matrix"]), max_size=4), st.data())
def test_transforms_are_those_of_another_library(kinds: list[str], data: st.DataObject) -> None:
    text, theirs = "", Transform()
    for kind in kinds:
        count = {"translate": 2, "scale": 2, "rotate": 1, "skewX": 1, "skewY": 1, "matrix": 6}[kind]
        numbers = [round(data.draw(st.floats(-60, 60)), 3) for _ in range(count)]
        text += f" {kind}({', '.join(map(str, numbers))})"
        angle = math.radians(numbers[0])
        made = Transform()
        match kind:
            case "translate" | "scale":
                step = getattr(made, kind)(*numbers)
            case "rotate":
                step = made.rotate(angle)
            case "skewX" | "skewY":
                step = made.skew(angle, 0) if kind == "skewX" else made.skew(0, angle)
            case _:
                step = Transform(*numbers)
        theirs = theirs.transform(step)
    mapped = transform(text).points(np.array([3.0, -7.0]))
    assert mapped == pytest.approx(theirs.transformPoint((3.0, -7.0)), rel=1e-9, abs=1e-6)


RECTANGLE = [200.0, 100.0, 200.0, 100.0]


@pytest.mark.parametrize(
    "inside",
    [
        '<rect x="10" y="10" width="200" height="100"/>',
        '<polygon points="10,10 210,10 210,110 10,110"/>',
        '<polyline points="10 10 210 10 210 110 10 110 10 10"/>',
        '<path d="M10 10h200v100h-200z"/>',
        '<line x1="0" x2="200"/><line x1="200" x2="200" y2="100"/><line x1="200" y1="100" y2="100"/><line y2="100"/>',
        '<g transform="scale(2)"><g transform="rotate(30 50 50)"><rect width="100" height="50"/></g></g>',
        '<defs><rect id="r" width="200" height="100"/></defs><use xlink:href="#r" x="5" y="9"/>',
        '<symbol id="s"><rect width="100" height="50"/></symbol><use href="#s" transform="matrix(-2 0 0 2 300 0)"/>',
        '<svg x="9" width="400" height="200" viewBox="0 0 40 20"><rect width="20" height="10"/></svg>',
        '<rect width="755.90551" height="377.952755" transform="scale(0.2645833)"/><rect width="9" display="none"/>',
    ],
)
def test_a_rectangle_is_one_however_it_is_drawn(inside: str) -> None:
    assert sorted(edges(svg(inside))) == pytest.approx(sorted(RECTANGLE), rel=1e-4)


@pytest.mark.parametrize(
    ("size", "mm"),
    [
        ('width="50cm" height="40cm" viewBox="0 0 500 400"', 1.0),
        ('width="10in" height="8in" viewBox="0 0 254 203.2"', 1.0),
        ('width="360pt" height="288pt" viewBox="0 0 360 288"', 25.4 / 72),
        ('width="10in"', 25.4 / 96),
        ('width="960" height="768" viewBox="0 0 960 768"', 25.4 / 96),
        ('viewBox="0 0 960 768"', 25.4 / 96),
    ],
)
def test_units_of_the_page(size: str, mm: float) -> None:
    content = svg('<rect x="3" y="3" width="200" height="100"/>', size)
    assert sorted(edges(content)) == pytest.approx(sorted(length * mm for length in RECTANGLE), rel=1e-6)
    guess = read_drawing(content, "a.svg").guesses[0]
    assert guess.sure == ("in" in size.split("viewBox")[0] or "pt" in size or "cm" in size)
    assert edges_with(content, "millimetres") == pytest.approx(sorted(RECTANGLE))


def edges_with(content: bytes, unit: str) -> list[float]:
    (piece,) = read_drawing(content, "a.svg", unit=unit).drawn.pieces
    return sorted(edge.curve.length for edge in piece.edges)


def test_y_points_up_and_names_are_kept() -> None:
    content = svg(
        '<g id="SF"><title>Side front</title><path class="cut-line" d="M20 20h100v200h-100z"/>'
        '<path class="seamline" d="M30 30h80v180h-80z"/><path class="fold" d="M110 20V300"/>'
        '<path id="Grain" d="M70 200V50"/><text x="40" y="60">hello</text></g>'
    )
    reading = read_drawing(content, "a.svg")
    (piece,) = reading.drawn.pieces
    assert (piece.id, piece.label) == ("SF", "Side front")
    assert piece.grain.start == pytest.approx((70, -200))
    assert [edge.kind for edge in piece.edges].count("fold") == 1
    assert reading.drawn.allowance == 0.0
    assert "allowance of 10.0 mm" in [guess.taken for guess in reading.guesses]


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (b"<svg", "the file is not usable SVG: unclosed token in line 1; save the drawing again"),
        (b"<html/>", "the file is XML, but no SVG drawing: save the drawing as SVG or DXF"),
        (
            b'<!DOCTYPE svg [<!ENTITY a "b">]><svg/>',
            "the file declares entities, which could make it grow without end: save the drawing as plain SVG",
        ),
        (
            svg('<path d="M1 1 L2 x"/>'),
            'a path cannot be read at "x": save the drawing again',
        ),
        (
            svg('<g id="a"><use href="#a"/></g>'),
            'the part "a" uses itself: save the drawing again, its copies made independent',
        ),
        (
            svg('<rect width="1e308" height="5"/>'),
            '"1e308" is not a finite number of usual size: save the drawing again',
        ),
        (
            svg("<g>" * 70 + "</g>" * 70),
            "its groups lie more than 60 deep in one another: save the pattern's pieces alone",
        ),
        (
            svg('<path d="M0 0H100V100"/>'),
            "it has no closed outline: the longest line is open by 141.4 mm; join the ends of each piece's outline",
        ),
        (
            svg('<rect width="5" height="5"/>'),
            "the drawing would be 5 mm across, too small for a garment: check its unit",
        ),
    ],
)
def test_a_file_of_no_use_is_one_sentence(content: bytes, sentence: str) -> None:
    with pytest.raises(InputError) as fault:
        read_drawing(content, "a.svg")
    assert str(fault.value) == f'"a.svg": {sentence}'
