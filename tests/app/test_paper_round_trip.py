"""A block drawn at quarter scale, photographed or drawn anew, filled in and trued: the block that was drawn."""

import json
from pathlib import Path
from typing import Any

import ezdxf
import numpy as np
import pytest
import shapely
from design.demo_garments import demo_garment
from intake.drawn_pieces import on_paper
from intake.photo_compare import Compared, compared, outline_of
from intake.photo_truth import PaperPiece, laid_out
from intake.rendered_photo import Scene, jpeg, render
from measured_pattern import MeasuredPattern
from verifier import violations

from panelwright.app.drawn_file import load_drawn
from panelwright.cli.main import main
from panelwright.geometry.arrays import Array
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.drawn_piece import DrawnPiece

LEVELS = ("bust", "waist")
WORDS = ["--scale", "quarter", "--allowance", "0", "--out", "block.json"]


@pytest.fixture(scope="module")
def drawn() -> DrawnPattern:
    return on_paper(demo_garment("lantern-01").block, spacing=5)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def as_paper(piece: DrawnPiece) -> PaperPiece:
    corners = np.array([edge.curve.start for edge in piece.edges])
    return PaperPiece(outline_of(piece), corners, (), ())


def girths(drawn: DrawnPattern) -> dict[str, float]:
    """Twice the levels of the half pattern, at full scale, by the chords of the drawing."""
    found = dict.fromkeys(LEVELS, 0.0)
    for piece in drawn.pieces:
        for line in piece.inside:
            if line.id in found:
                points = line.curve.polyline(0.01)
                found[line.id] += 2 * drawn.scale * float(np.hypot(*np.diff(points, axis=0).T).sum())
    return found


def nearest_edge(piece: DrawnPiece, place: Array) -> int:
    away = [shapely.LineString(edge.curve.polyline(0.01)).distance(shapely.Point(place)) for edge in piece.edges]
    return int(np.argmin(away))


def fill_in(path: Path, drawn: DrawnPattern, fits: list[Compared]) -> None:
    """What a maker types after looking at the picture: names, fold edges and levels."""
    document: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    read = load_drawn(path).pieces
    for record, piece, fit in zip(document["pieces"], read, fits, strict=True):
        true = drawn.pieces[fit.truth]
        record["id"] = true.id
        for edge, curve in zip(record["edges"], (each.curve for each in piece.edges), strict=True):
            nearest = true.edges[nearest_edge(true, fit.moved(curve.point(curve.length / 2)[None])[0])]
            edge["kind"], edge["line"] = nearest.kind, nearest.line
        onto = lambda points, fit=fit: ((np.asarray(points) - fit.shift) @ fit.turn.T).tolist()  # noqa: E731
        levels = [line for line in true.inside if line.kind == "level"]
        record["levels"] = [{"id": line.id, "points": onto([line.curve.start, line.curve.end])} for line in levels]
        if true.grain is not None:
            record["grain"] = onto([true.grain.start, true.grain.end])
    path.write_text(json.dumps(document), encoding="utf-8")


def own_is_the_block(drawn: DrawnPattern, shared: Path) -> None:
    assert main(["own", "block.json", "--true", "--scale", "quarter", "--out", "own"]) == 0
    document = json.loads(Path("own/pattern.json").read_text(encoding="utf-8"))
    measured = MeasuredPattern(document)
    for level, girth in girths(drawn).items():
        assert 2 * sum(measured.widths(level).values()) == pytest.approx(girth, abs=4.0), level
    assert violations(shared, document) == []


def as_svg(drawn: DrawnPattern) -> str:
    """The outlines and levels at their size on paper, y down; written here, not by our own writer."""
    groups = []
    for k, piece in enumerate(drawn.pieces):
        shift = np.array([100.0 * k + 200.0, 200.0])
        flat = lambda points, shift=shift: " ".join(f"{x:.6f},{y:.6f}" for x, y in points * [1, -1] + shift)  # noqa: E731
        outline = f'<polygon class="stitch-line" points="{flat(outline_of(piece))}"/>'
        lines = [
            f'<polyline class="inside-line" data-name="{line.id}" points="{flat(line.curve.polyline(0.01))}"/>'
            for line in piece.inside
        ]
        groups.append(f'<g id="{piece.id}">{outline}{"".join(lines)}</g>')
    size = 'width="700mm" height="500mm" viewBox="0 0 700 500"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{"".join(groups)}</svg>'


def test_a_photo_of_a_quarter_scale_block_becomes_the_block(folder: Path, drawn: DrawnPattern, shared: Path) -> None:
    laid = laid_out([as_paper(piece) for piece in drawn.pieces], np.random.default_rng(3), 12.0, 130.0)
    pixels, _ = render(Scene(tuple(laid), table="dark", tilt=8.0))
    (folder / "block.jpg").write_bytes(jpeg(pixels, 92))
    assert main(["read", "block.jpg", *WORDS]) == 0
    read = load_drawn(folder / "block.json")
    fits = compared(read.pieces, [as_paper(piece) for piece in drawn.pieces])
    assert sorted(fit.truth for fit in fits) == [0, 1, 2, 3]
    fill_in(folder / "block.json", drawn, fits)
    own_is_the_block(drawn, shared)


def save_dxf(drawn: DrawnPattern, path: Path) -> None:
    """The outlines, each in a block, in mm of the paper, written by another library."""
    document = ezdxf.new("R2010")
    document.header["$INSUNITS"] = 4
    for k, piece in enumerate(drawn.pieces):
        block = document.blocks.new(piece.id)
        block.add_lwpolyline(outline_of(piece).tolist(), close=True, dxfattribs={"layer": "STITCH"})
        document.modelspace().add_blockref(piece.id, (100.0 * k, 0.0))
    document.saveas(path)


@pytest.mark.parametrize("name", ["block.svg", "block.dxf"])
def test_a_quarter_scale_drawing_becomes_the_block(name: str, folder: Path, drawn: DrawnPattern, shared: Path) -> None:
    if name.endswith("svg"):
        (folder / name).write_text(as_svg(drawn), encoding="utf-8")
    else:
        save_dxf(drawn, folder / name)
    assert main(["read", name, *WORDS]) == 0
    read = load_drawn(folder / "block.json")
    assert [piece.id for piece in read.pieces] == [piece.id for piece in drawn.pieces]
    fill_in(folder / "block.json", drawn, compared(read.pieces, [as_paper(piece) for piece in drawn.pieces]))
    own_is_the_block(drawn, shared)
