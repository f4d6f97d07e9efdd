"""A range of sizes: every size's pattern is clean, and the grade report says what the pattern files say."""

import json
import re
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pikepdf
import pypdfium2
import pytest
from app.test_instance_lay import DEMO
from bad_input.case import design
from measured_pattern import MeasuredPattern, polyline
from skirt_garment import BAND, ZIP
from skirt_garment import document as skirt_document
from verifier import violations

from panelwright.app.design_file import read_design
from panelwright.app.garment import make_garment
from panelwright.app.paper import PaperChoice
from panelwright.app.size_range import SizeRange, write_range
from panelwright.body.size_file import read_sizes
from panelwright.body.size_table import size
from panelwright.body.units import Unit
from panelwright.cli.main import main
from panelwright.errors import InputError
from panelwright.grading.grade_report import CornerGrade, GradeReport, grade_report
from panelwright.grading.nested_piece import nested
from panelwright.output.pattern_file import read_pattern

BUSTS = (80, 84, 88, 92)
Document = dict[str, Any]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("sizes")
    (out / "d.json").write_text(design(finish={"facing": "full"}))
    words = ["sizes", str(out / "d.json"), "--busts", ",".join(map(str, BUSTS)), "--out", str(out / "range")]
    assert main(words) == 0
    return out / "range"


def patterns(folder: Path) -> dict[int, Document]:
    return {bust: json.loads((folder / f"size-{bust}" / "pattern.json").read_text()) for bust in BUSTS}


def test_every_size_is_clean_and_its_seams_are_true(folder: Path, shared: Path) -> None:
    for bust, document in patterns(folder).items():
        assert violations(shared, document) == []
        table = MeasuredPattern(document)
        for seam in document["seams"]:
            if seam["kind"] == "join":
                a, b = table.seam_sides(seam)
                assert a == pytest.approx(b, abs=0.05), (bust, seam["id"])
        # The size is named by the body's bust girth in cm (as EN 13402 does).
        assert next(level for level in document["levels"] if level["id"] == "bust")["body_girth"] == pytest.approx(
            10 * bust, abs=1
        )


def reference_of(piece: Document, at: str) -> np.ndarray:
    """The front end of the waist line, or the corner farthest down (up) towards the front of the smallest size."""
    if at == "waist":
        (waist,) = (line for line in piece["inside"] if line["id"] == "waist")
        return polyline(waist["bezier"])[-1]
    corners = np.array(piece["vertices"])
    return corners[int((corners @ [1.0, 1.0 if at == "top" else -1.0]).argmax())]


def told_as_drawn(report: Document, drawn: dict[int, Document], at: str) -> int:
    """How many corners were compared with differences computed from the pattern files."""
    compared = 0
    for entry in report["pieces"]:
        pieces = {bust: next(p for p in d["pieces"] if p["id"] == entry["piece"]) for bust, d in drawn.items()}
        for corner in entry["corners"]:
            places = {
                bust: np.array(piece["vertices"][corner["vertex"]]) - reference_of(piece, at)
                for bust, piece in pieces.items()
            }
            for move, (a, b) in zip(corner["moves"], pairwise(BUSTS), strict=True):
                assert (move["from"], move["to"]) == (a, b)
                assert [move["x"], move["y"]] == pytest.approx(list(places[b] - places[a]), abs=1e-9)
                assert move["distance"] == pytest.approx(float(np.hypot(*(places[b] - places[a]))), abs=1e-9)
            compared += 1
    return compared


def test_the_report_is_what_the_pattern_files_say(folder: Path) -> None:
    drawn = patterns(folder)
    report = json.loads((folder / "grade.json").read_text())
    outer = [piece for piece in drawn[80]["pieces"] if not piece["derived_from"]]
    assert [entry["piece"] for entry in report["pieces"]] == [piece["id"] for piece in outer]
    assert told_as_drawn(report, drawn, "waist") == sum(len(piece["edges"]) for piece in outer)


@pytest.mark.parametrize("at", ["bottom", "top"])
def test_sizes_may_be_nested_at_a_corner(folder: Path, at: str) -> None:
    cuttings = {bust: read_pattern(folder / f"size-{bust}" / "pattern.json") for bust in BUSTS}
    pieces, unlike = nested(cuttings, at)
    assert told_as_drawn(grade_report(pieces, unlike, at).document(), patterns(folder), at) > 12


def test_the_nested_drawing_has_a_layer_for_each_size(folder: Path) -> None:
    for name in ("nested-quarter-scale.pdf", "nested-full-scale.pdf"):
        with pikepdf.open(folder / name) as document:
            groups = [str(group.Name) for group in document.Root.OCProperties.OCGs]
            assert {f"size {bust}" for bust in BUSTS} <= set(groups)
            assert len(groups) == len(set(groups))


def test_the_overview_shows_every_piece_and_size_and_the_findings_have_a_page(folder: Path) -> None:
    picture = (folder / "overview.svg").read_text(encoding="utf-8")
    drawn = patterns(folder)[80]["pieces"]
    words = re.findall(r">([^<>]+)</text>", picture)
    for piece in drawn:
        assert words.count(piece["label"]) == (0 if piece["derived_from"] else 1), piece["id"]
    # A number under each piece, and one in the legend.
    shell = [piece for piece in drawn if not piece["derived_from"]]
    assert [words.count(str(bust)) for bust in BUSTS] == [len(shell) + 1] * len(BUSTS)
    assert "nested sizes" in (folder / "findings.txt").read_text(encoding="utf-8")


SKIRTS = {
    "half circle": (DEMO / "design-ring-08.json").read_text(encoding="utf-8"),
    "full circle": json.dumps(skirt_document("circle-skirt", [ZIP, BAND], skirt={"circle": "full", "length_cm": 90})),
    "gored": json.dumps(
        skirt_document("gored-skirt", [ZIP, BAND], skirt={"gores": 4, "length_cm": 100, "flare_cm": 25})
    ),
}


@pytest.mark.parametrize("name", SKIRTS)
def test_a_piece_larger_than_the_page_has_one_as_large_as_it_needs(name: str, tmp_path: Path) -> None:
    (tmp_path / "d.json").write_text(SKIRTS[name], encoding="utf-8")
    assert main(["sizes", str(tmp_path / "d.json"), "--busts", "80,100", "--out", str(tmp_path / "o")]) == 0
    assert (tmp_path / "o" / "grade.json").is_file()
    pieces = json.loads((tmp_path / "o" / "size-100" / "pattern.json").read_text())["pieces"]
    for file, factor in (("nested-quarter-scale.pdf", 0.25), ("nested-full-scale.pdf", 1.0)):
        pages = pypdfium2.PdfDocument(tmp_path / "o" / file)
        words = [(page.get_textpage().get_text_range(), np.array(page.get_size()) * 25.4 / 72) for page in pages]
        pages.close()
        for piece in pieces:
            (page,) = [measured for text, measured in words if re.search(rf"^{piece['label']}\s*$", text, re.MULTILINE)]
            corners = np.array(piece["vertices"]) * factor
            assert (np.ptp(corners, axis=0) < page - 20.0).all(), (piece["id"], page)


def test_a_range_of_nothing_alike_is_refused_before_a_file_is_written(tmp_path: Path) -> None:
    round_skirt = read_design(SKIRTS["half circle"])
    gored = read_design(json.dumps(skirt_document("gored-skirt", [ZIP])))
    garments = {80: make_garment(size(80), round_skirt), 100: make_garment(size(100), gored)}
    with pytest.raises(InputError, match="alike in every size"):
        write_range(SizeRange(gored, garments, "waist", Unit.CM), tmp_path, PaperChoice())
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("design", "status", "told"),
    [
        (
            skirt_document("gored-skirt", [ZIP], skirt={"gores": 4, "length_cm": 35, "flare_cm": 30}),
            2,
            "size 80: the seams of 4",
        ),
        (skirt_document("gored-skirt", [BAND, BAND | {"uid": "again"}]), 2, "size 80: "),
        (skirt_document("gored-skirt", [], centre_back="fold"), 1, "error: Size 100: "),
    ],
)
def test_what_is_wrong_with_a_size_says_which(
    design: Document, status: int, told: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "d.json").write_text(json.dumps(design), encoding="utf-8")
    words = ["sizes", str(tmp_path / "d.json"), "--busts", "80,100", "--out", str(tmp_path / "o")]
    assert main(words) == status
    assert told in "".join(capsys.readouterr())


def graded(*at: tuple[float, float], busts: tuple[int, ...] = BUSTS) -> list[str]:
    """Codes of findings on one corner that lies there in each size."""
    corner = CornerGrade("CF", 2, ("CF.hem", "CF.centre-front"), np.array(at))
    return [found.code for found in GradeReport(busts, "waist", (corner,), ()).findings]


def test_uneven_and_crossing_grades_are_findings() -> None:
    assert graded((0, 0), (5, 0), (10, 0), (15, 0)) == []
    assert graded((0, 0), (5, 0), (17, 0), (22, 0)) == ["grade-uneven"]
    assert graded((0, 0), (5, 0), (2, 0), (8, 0)) == ["grade-crossing"]
    # An even grade by bust girth: 6 cm from 104 to 110 moves half as far again as 4 cm (EN 13402-3's classes).
    assert graded((0, 0), (4, 0), (10, 0), busts=(100, 104, 110)) == []


def test_a_piece_that_is_not_alike_is_told_and_left_out(folder: Path) -> None:
    cuttings = {bust: read_pattern(folder / f"size-{bust}" / "pattern.json") for bust in BUSTS[:2]}
    spoilt = json.loads((folder / "size-84" / "pattern.json").read_text().replace("SF.side", "SF.other"))
    (folder / "spoilt.json").write_text(json.dumps(spoilt))
    pieces, unlike = nested({**cuttings, 84: read_pattern(folder / "spoilt.json")}, "waist")
    assert unlike == ("SF",)
    assert [found.code for found in grade_report(pieces, unlike, "waist").findings] == ["grade-unlike"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], "--busts 80,84,88"),
        (["--busts", "88"], "at least two sizes"),
        (["--busts", "88,88"], "each once"),
        (["--busts", "88,89"], "there is no size 89"),
        (["--busts", "88,M"], "whole cm"),
        (["--busts", "84,88", "--at", "knee"], "nested at waist, bottom, top"),
    ],
)
def test_what_is_no_range_gets_a_sentence(
    words: list[str], told: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "d.json").write_text(design())
    assert main(["sizes", str(tmp_path / "d.json"), "--out", str(tmp_path / "o"), *words]) == 2
    assert told in capsys.readouterr().err


OWN = {
    "format": "panelwright-sizes/1",
    "unit": "cm",
    "sizes": [
        {"bust_girth": bust, "underbust_girth": bust - 13, "waist_girth": bust - 16, "hip_girth": bust + 8,
         "back_neck_to_waist": 38 + bust / 50}
        for bust in (94, 86.2, 90)
    ],
}  # fmt: skip


def test_a_table_of_ones_own_is_made_in_all_its_sizes_or_those_asked_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "d.json").write_text(design())
    (tmp_path / "own.json").write_text(json.dumps(OWN))
    words = ["sizes", str(tmp_path / "d.json"), "--table", str(tmp_path / "own.json"), "--out", str(tmp_path / "o")]
    assert main([*words, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["sizes"] == [86, 90, 94]
    for bust, own in ((86, 862), (90, 900), (94, 940)):
        document = json.loads((tmp_path / "o" / f"size-{bust}" / "pattern.json").read_text())
        girths = {level["id"]: level["body_girth"] for level in document["levels"]}
        assert (girths["bust"], girths["waist"]) == pytest.approx((own, own - 160), abs=1e-6)
        assert document["wearer"]["ref"] == f"size-{bust}"
    assert main([*words, "--busts", "86,94", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["sizes"] == [86, 94]
    assert main([*words, "--busts", "86,88"]) == 2
    assert "the table has no size 88; its sizes are 86, 90, 94" in capsys.readouterr().err


def test_sizes_a_centimetre_apart_are_two_sizes() -> None:
    """Half a centimetre rounds up, in odd and even sizes alike."""
    halves = [{**OWN["sizes"][0], "bust_girth": bust} for bust in (85.5, 86.5, 87.5, 88.4)]
    assert list(read_sizes(json.dumps(OWN | {"sizes": halves[:3]}))) == [86, 87, 88]
    with pytest.raises(InputError, match="is size 88 once more"):
        read_sizes(json.dumps(OWN | {"sizes": halves}))


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"sizes": OWN["sizes"][:1]}, "a list of 2 to 40 sizes"),
        ({"sizes": [*OWN["sizes"], {**OWN["sizes"][0], "bust_girth": 94.4}]}, "sizes[4] is size 94 once more"),
        ({"sizes": [*OWN["sizes"], {"bust_girth": 98}]}, "sizes[4]: "),
        ({"sizes": [*OWN["sizes"], {**OWN["sizes"][0], "bust": 98}]}, 'sizes[4]: "bust" is not a known measurement'),
        ({"sizes": [*OWN["sizes"], 98]}, "sizes[4]: measurements must hold named values"),
        ({"unit": "ell"}, "sizes[1]: unit must be"),
        ({"units": "cm"}, '"units" is not a known field'),
        ({"format": "panelwright-design/1"}, "give a table of sizes after --table"),
    ],
)
def test_what_is_no_table_of_sizes_gets_a_sentence(changes: Document, told: str) -> None:
    with pytest.raises(InputError, match=re.escape(told)):
        read_sizes(json.dumps(OWN | changes))
