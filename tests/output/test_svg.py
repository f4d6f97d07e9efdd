"""SVG is read back with the XML reader of the standard library; its typeface with fontTools."""

import base64
import io
import re
import xml.etree.ElementTree as ElementTree
from pathlib import Path

import numpy as np
import pytest
from drawn_garment import block, garment, heading
from fontTools.ttLib import TTFont

from panelwright.drawing.drawing import Drawing, Lettering, Stroke
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.path import Path as DrawnPath
from panelwright.drawing.pen import STITCH
from panelwright.drawing.piece_drawing import PieceDrawing, draw_pieces
from panelwright.drawing.quarter_sheets import overview_sheet, quarter_sheets
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.errors import OutputError
from panelwright.output.svg import SvgSurface, svg_text, write_svg

SVG = "{http://www.w3.org/2000/svg}"
FACTS = heading(garment())


@pytest.fixture(scope="module")
def quarter() -> tuple[PieceDrawing, ...]:
    return draw_pieces(garment(), QUARTER, block())


@pytest.fixture(scope="module")
def overview(quarter: tuple[PieceDrawing, ...]) -> Sheet:
    return overview_sheet(quarter, FACTS)


def parsed(sheet: Sheet) -> ElementTree.Element:
    return ElementTree.fromstring(svg_text(sheet))


def numbers(path: ElementTree.Element) -> np.ndarray:
    return np.array(re.findall(r"-?\d+\.?\d*", path.attrib["d"]), float).reshape(-1, 2)


def test_one_unit_is_one_millimetre(quarter: tuple[PieceDrawing, ...]) -> None:
    root = parsed(quarter_sheets(quarter, FACTS, PAPERS["Letter"])[0])
    assert root.attrib["width"] == "215.9mm"
    assert root.attrib["height"] == "279.4mm"
    assert root.attrib["viewBox"] == "0 0 215.9 279.4"


def test_stitch_lines_are_the_true_curves_at_a_quarter(overview: Sheet) -> None:
    """Every stitch line: its cubics in millimetres, the page's y turned down, ten-thousandths kept."""
    layers = [group for group in parsed(overview).iter(f"{SVG}g") if group.get("data-layer") == "stitch lines"]
    paths = [path for group in layers for path in group.iter(f"{SVG}path")]
    wanted = []
    for laid in overview.laid:
        for sign in laid.drawing:
            if isinstance(sign, Stroke) and sign.layer == "stitch lines":
                wanted.append((sign.path.points + laid.shift) * (1, -1) + (0, overview.height))
    assert len(paths) == len(wanted) > 20
    for path, points in zip(paths, wanted, strict=True):
        assert set(re.findall("[A-Z]", path.attrib["d"])) == {"M", "C"}
        assert np.abs(numbers(path) - points).max() <= 0.00006


def test_layers_have_names_and_the_document_a_title(overview: Sheet) -> None:
    root = parsed(overview)
    names = {group.get("data-layer") for group in root.iter(f"{SVG}g")}
    assert {"cut lines", "stitch lines", "level lines", "old block line", "notches", "grain and fold", "text"} <= names
    assert root.findtext(f"{SVG}title") == "all pieces at quarter scale"


def embedded(text: str) -> dict[bool, TTFont]:
    """The two weights as they stand in the document."""
    found = re.findall(r"font-weight:(\d+);src:url\(data:font/ttf;base64,([A-Za-z0-9+/=]+)\)", text)
    return {weight == "600": TTFont(io.BytesIO(base64.b64decode(data))) for weight, data in found}


def test_the_typeface_is_embedded_with_every_letter_used(overview: Sheet) -> None:
    text = svg_text(overview)
    covered = {bold: set(map(chr, font.getBestCmap())) for bold, font in embedded(text).items()}
    assert set(covered) == {False, True}
    for words in ElementTree.fromstring(text).iter(f"{SVG}text"):
        assert set(words.text or "") <= covered[words.get("font-weight") == "600"]
    assert "url(http" not in text
    assert "href" not in text


def test_the_stated_length_of_a_text_is_its_letters_widths(overview: Sheet) -> None:
    """Summed from the embedded typeface; a viewer without it takes the same room."""
    text = svg_text(overview)
    fonts = embedded(text)
    for words in ElementTree.fromstring(text).iter(f"{SVG}text"):
        font = fonts[words.get("font-weight") == "600"]
        widths = [font["hmtx"][font.getBestCmap()[ord(letter)]][0] for letter in words.text or ""]
        wanted = sum(widths) / font["head"].unitsPerEm * float(words.attrib["font-size"])
        assert float(words.attrib["textLength"]) == pytest.approx(wanted, abs=0.0002)


def test_what_a_person_wrote_cannot_break_the_document() -> None:
    text = Lettering('<b> & "x" \\', (10.0, 20.0), 4.0, angle=0.5)
    root = parsed(Sheet(100.0, 50.0, "<&>", (Laid(Drawing((text,))),)))
    assert next(root.iter(f"{SVG}text")).text == text.text
    assert root.findtext(f"{SVG}title") == "<&>"


def test_a_window_clips() -> None:
    line = Stroke(DrawnPath.polyline([(0, 0), (100, 50)]), STITCH, "cut lines")
    root = parsed(Sheet(100.0, 50.0, "tile", (Laid(Drawing((line,)), window=(10.0, 5.0, 90.0, 45.0)),)))
    clip = next(root.iter(f"{SVG}clipPath"))
    box = clip[0].attrib
    assert [float(box[key]) for key in ("x", "y", "width", "height")] == [10.0, 5.0, 80.0, 40.0]
    assert any(group.get("clip-path") == f"url(#{clip.attrib['id']})" for group in root.iter(f"{SVG}g"))


def test_the_same_sheet_gives_the_same_text(overview: Sheet) -> None:
    assert svg_text(overview) == svg_text(overview)


def test_a_document_has_one_page() -> None:
    surface = SvgSurface("two")
    surface.begin_page(10.0, 10.0)
    surface.end_page()
    with pytest.raises(RuntimeError, match="one page"):
        surface.begin_page(10.0, 10.0)


def test_a_folder_in_the_way_is_one_clear_sentence(overview: Sheet, tmp_path: Path) -> None:
    (tmp_path / "all.svg").mkdir()
    with pytest.raises(OutputError, match="a folder of that name is in the way"):
        write_svg(overview, tmp_path / "all.svg")
    write_svg(overview, tmp_path / "pieces.svg")
    assert (tmp_path / "pieces.svg").read_text(encoding="utf-8") == svg_text(overview)
