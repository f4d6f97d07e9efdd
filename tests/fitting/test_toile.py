"""A toile: one layer, balance lines from edge to edge, wide allowances where it is let out, and a sheet to write on."""

import json
from pathlib import Path

import numpy as np
import pikepdf
import pytest
import shapely
from bad_input.case import design
from measured_pattern import polyline
from pdf_reading import text_of
from verifier import violations

from panelwright.cli.main import main

WIDE = {"side", "centre-back"}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A faced and interfaced garment's toile."""
    out = tmp_path_factory.mktemp("toile")
    (out / "d.json").write_text(design(finish={"facing": "full", "interfacing": "full"}))
    assert main(["toile", "--size", "88", str(out / "d.json"), "--out", str(out / "t")]) == 0
    return out / "t"


def test_it_is_one_layer_with_wide_allowances_at_side_and_centre_back(folder: Path, shared: Path) -> None:
    """25 mm at side and centre back (common practice, check-values), 15 elsewhere, none on the fold."""
    document = json.loads((folder / "pattern.json").read_text())
    assert {piece["layer"] for piece in document["pieces"]} == {"outer"}
    for piece in document["pieces"]:
        for edge in piece["edges"]:
            expected = 0.0 if edge["kind"] == "fold" else 25.0 if edge["line"] in WIDE else 15.0
            assert edge["allowance"] == expected, edge["id"]
    assert violations(shared, document) == []


def test_balance_lines_run_from_edge_to_edge(folder: Path) -> None:
    """The grain is drawn through every piece; each end lies on the outline."""
    for piece in json.loads((folder / "pattern.json").read_text())["pieces"]:
        (line,) = (line for line in piece["inside"] if line["id"] == "balance-line")
        corners = [
            polyline([piece["vertices"][e["v"][0]], *e["controls"], piece["vertices"][e["v"][1]]])
            for e in piece["edges"]
        ]
        ring = shapely.LinearRing(np.concatenate(corners))
        for end in (line["bezier"][0], line["bezier"][-1]):
            assert ring.distance(shapely.Point(end)) < 0.05
        way, grain = np.subtract(line["bezier"][-1], line["bezier"][0]), np.subtract(*piece["grain"])
        assert abs(way[0] * grain[1] - way[1] * grain[0]) < 1e-6 * np.hypot(*way) * np.hypot(*grain)


def test_the_fitting_sheet_has_every_piece_and_seam(folder: Path) -> None:
    with pikepdf.open(folder / "fitting-sheet.pdf") as document:
        pages = len(document.pages)
    text = " ".join(text_of(folder / "fitting-sheet.pdf", page) for page in range(pages))
    for words in ("Centre front", "Side back", "Front princess seam", "Side seam", "Each side", "Sway back", "size-88"):
        assert words in text
    assert {"quarter-scale-a4.pdf", "full-scale-a4.pdf"} < {path.name for path in folder.iterdir()}


@pytest.mark.parametrize("panels", [3, 5])
def test_without_a_side_seam_the_seams_beside_the_side_are_wide(panels: int, tmp_path: Path) -> None:
    (tmp_path / "d.json").write_text(design(block={"panels": panels}))
    assert main(["toile", "--size", "88", str(tmp_path / "d.json"), "--out", str(tmp_path / "t")]) == 0
    document = json.loads((tmp_path / "t" / "pattern.json").read_text())
    wide = {edge["line"] for piece in document["pieces"] for edge in piece["edges"] if edge["allowance"] == 25.0}
    beside = {3: {"front-princess", "back-princess"}, 5: {"front-underarm", "back-underarm"}}[panels]
    assert wide == beside | {"centre-back"}
