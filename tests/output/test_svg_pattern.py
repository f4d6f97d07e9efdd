"""The pattern as SVG is read back with the XML reader of the standard library."""

import re
import xml.etree.ElementTree as ElementTree

import numpy as np
import pytest
import shapely
from drawn_garment import garment

from panelwright.output.svg_pattern import svg_pattern

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"-?\d+\.?\d*")


@pytest.fixture(scope="module")
def root() -> ElementTree.Element:
    return ElementTree.fromstring(svg_pattern(garment(), "Lantern & dance"))


def groups(root: ElementTree.Element) -> list[ElementTree.Element]:
    return [group for group in root.iter(f"{SVG}g") if group.get("class") == "piece"]


def numbers(path: ElementTree.Element) -> np.ndarray:
    return np.array(NUMBER.findall(path.attrib["d"]), float).reshape(-1, 2)


def test_one_unit_is_one_millimetre(root: ElementTree.Element) -> None:
    width, height = root.attrib["width"], root.attrib["height"]
    assert width.endswith("mm")
    assert height.endswith("mm")
    assert root.attrib["viewBox"] == f"0 0 {width[:-2]} {height[:-2]}"
    assert root.find(f"{SVG}title").text == "Lantern & dance"
    square = next(group for group in root.iter(f"{SVG}g") if group.get("id") == "square-to-measure")
    corners = numbers(square.find(f"{SVG}path"))
    assert np.ptp(corners, axis=0) == pytest.approx([100.0, 100.0])


def test_every_piece_is_a_group_that_says_which(root: ElementTree.Element) -> None:
    pieces = garment().pattern.pieces
    assert [group.get("id") for group in groups(root)] == [piece.id.replace("/", "-") for piece in pieces]
    assert [group.find(f"{SVG}title").text for group in groups(root)] == [piece.label for piece in pieces]


def test_lines_lie_as_in_the_model_and_nothing_leaves_the_page(root: ElementTree.Element) -> None:
    page = shapely.box(0, 0, float(root.attrib["width"][:-2]), float(root.attrib["height"][:-2]))
    areas = []
    for (piece, cut), group in zip(garment().pieces, groups(root), strict=True):
        (cut_path,) = (path for path in group if path.get("class") == "cut-line")
        drawn = numbers(cut_path) * [1, -1]
        shift = drawn[0] - cut.cut_line[0]
        assert np.abs(drawn - shift - cut.cut_line).max() < 1e-3
        (stitch,) = (path for path in group if path.get("class") == "stitch-line")
        points = numbers(stitch) * [1, -1] - shift
        model = np.concatenate([piece.edges[0].curve.points, *(edge.curve.points[1:] for edge in piece.edges[1:])])
        assert np.abs(points - model).max() < 1e-3
        named = {path.get("data-name") for path in group if path.get("class") == "inside-line"}
        assert named == {line.id.rsplit("/", 1)[-1] for line in piece.inside if line.kind != "fold"}
        assert sum(path.get("class") == "fold-line" for path in group) == sum(e.kind == "fold" for e in piece.edges)
        assert sum(path.get("class") == "notch" for path in group) == sum(notch.count for notch in cut.notches)
        areas.append(shapely.Polygon(numbers(cut_path)))
    assert all(page.contains(area) for area in areas)
    assert sum(area.area for area in areas) == pytest.approx(shapely.union_all(areas).area)
