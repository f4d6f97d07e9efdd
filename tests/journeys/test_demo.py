"""The demo as a newcomer runs it: one command, then everything in its folder is looked at and used again."""

import json
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path, PurePosixPath
from types import ModuleType

import pikepdf
import pytest
from measured_pattern import MeasuredPattern, length
from verifier import load_verifier

from panelwright.app.design_file import load_design
from panelwright.body.measurement_file import load_measurements
from panelwright.cli.main import main
from panelwright.output.pattern_file import read_pattern

PROGRAM = Path(sys.executable).with_name("panelwright")
FILES = {
    "pattern.json",
    "findings.txt",
    "overview.svg",
    "quarter-scale-a4.pdf",
    "full-scale-a4.pdf",
    "large-sheet.pdf",
    "lay.pdf",
    "lay.svg",
    "sign-off-private.pdf",
}
POINTS_PER_MM = 72 / 25.4


class Links(HTMLParser):
    """Everything that a page points at."""

    def __init__(self, page: Path) -> None:
        super().__init__()
        self.found: list[str] = []
        self.feed(page.read_text(encoding="utf-8"))

    def handle_starttag(self, _tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found += [value for name, value in attrs if name in ("href", "src") and value]


def independent_verifier(repository: Path) -> ModuleType | None:
    """The verifier that knows nothing of our code, or None where the folder `shared` is not there."""
    shared = repository.parent / "shared"
    return load_verifier(shared) if (shared / "tools" / "verify_pattern.py").is_file() else None


def test_a_newcomer_runs_the_demo_and_goes_on_from_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], repository: Path
) -> None:
    """One test, since the demo is long: what it says, what it made, and what can be done with that."""
    folder = tmp_path / "festival"
    run = subprocess.run([PROGRAM, "demo", folder, "--json"], capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stderr
    answer = json.loads(run.stdout)
    progress = run.stderr.splitlines()
    garments = answer["garments"]
    whole = len(garments) + 3  # a fitting, a range of sizes, the shopping
    assert progress[-1] == f"[{whole}/{whole}] done"
    assert answer["counts"]["error"] == 0
    assert Path(answer["open_first"]) == folder / "index.html"

    check_the_troupe(folder, garments)
    verifier = independent_verifier(repository)
    for garment in sorted((folder / "garments").iterdir()):
        check_garment(garment, verifier)
    check_fitting(folder, answer["toile"], answer["fitted"], verifier)
    check_sizes(folder / answer["sizes"], verifier)
    check_index(folder, len(garments) + 2)
    go_on(folder, capsys)
    if verifier is None:
        pytest.skip("all passed but the independent verifier, which needs the folder `shared` beside the repository")


def check_the_troupe(folder: Path, garments: list[dict[str, object]]) -> None:
    """Dancers of different sizes in designs of different necklines and hems, each in two or more."""
    dancers = [load_measurements(path) for path in (folder / "wearers").iterdir()]
    cuts = [load_design(path) for path in (folder / "designs").iterdir()]
    danced = [(str(garment["wearer"]), str(garment["title"])) for garment in garments]
    assert len(set(danced)) == len(danced)
    assert all([own for own, _ in danced].count(dancer.ref) >= 2 for dancer in dancers)
    assert all([cut for _, cut in danced].count(own.title) >= 2 for own in cuts)
    assert len(dancers) >= 3
    busts = [dancer["bust_girth"] for dancer in dancers]
    assert max(busts) - min(busts) > 200
    assert all(re.fullmatch(r"w-[0-9]+", dancer.ref) for dancer in dancers)
    assert len({cut.steps[0].label for cut in cuts}) >= 3
    assert len({cut.steps[1].label for cut in cuts}) >= 3


def check_garment(garment: Path, verifier: ModuleType | None, further: frozenset[str] = frozenset()) -> None:
    """Files complete, nothing wrong with the pattern, pages of the size that they are called."""
    assert {path.name for path in garment.iterdir()} == FILES | further
    check_pattern(garment, verifier)
    findings = (garment / "findings.txt").read_text(encoding="utf-8")
    assert "no errors" in findings
    assert findings.count("What to do:") == len(json.loads((garment / "pattern.json").read_text())["findings"])
    for name in ("quarter-scale-a4.pdf", "full-scale-a4.pdf", "sign-off-private.pdf"):
        with pikepdf.open(garment / name) as document:
            sizes = {page_size(page) for page in document.pages}
            # The wide pieces of a skirt lie on a page on its side at quarter scale; all else is upright.
            assert sizes - {(297, 210)} == {(210, 297)} if name.startswith("quarter") else sizes == {(210, 297)}
    with pikepdf.open(garment / "large-sheet.pdf") as document:
        skirt = garment.name.startswith("ring")  # too wide for one length of a printer's roll
        assert len(document.pages) == (2 if skirt else 1)


def check_pattern(folder: Path, verifier: ModuleType | None) -> None:
    if verifier:
        document = verifier.read(str(folder / "pattern.json"))
        assert [str(violation) for violation in verifier.Verifier(document).violations] == []


def check_fitting(folder: Path, toile: str, fitted: str, verifier: ModuleType | None) -> None:
    """The toile is of the block before the notes, the garment of that after; what changed is told as it was drawn.

    6 mm each side of two back princess seams are 24 mm of waist, 5 mm let out at two sides 20 mm of top hip
    (geometry); every seam up the body is 8 mm longer by the note that lengthens. The note that is off is told apart.
    """
    check_pattern(folder / toile, verifier)
    check_garment(folder / fitted, verifier, frozenset({"what-changed.txt"}))
    told = (folder / fitted / "what-changed.txt").read_text(encoding="utf-8")
    before, after = (
        MeasuredPattern(json.loads((folder / place / "pattern.json").read_text(encoding="utf-8")))
        for place in (toile, fitted)
    )
    for level, label, change in (("waist", "waist", "2.4 cm less"), ("top-hip", "top hip", "2.0 cm more")):
        drawn = [2 * (half_shell(own, level)) for own in (before, after)]
        assert f"{drawn[1] - drawn[0]:+.0f}" == f"{'-' if 'less' in change else '+'}{float(change[:3]) * 10:.0f}"
        row = next(line for line in told.splitlines() if line.lower().startswith(f"{label} "))
        assert row.split()[-3:] == change.split()
        # The girths in the row are the drawn ones, to the millimetre that is printed.
        shown = [float(word) for word in row.split() if re.fullmatch(r"[0-9.]+", word)][:2]
        assert shown == pytest.approx([length / 10 for length in drawn], abs=0.06)
    for seam in ("front-princess", "side", "back-princess"):
        grown = [length(own.edge(edge)) for own in (before, after) for edge in edges_of(own, seam)[:1]]
        # Where a seam is pinned too, its line bends a little more and is so much longer.
        assert grown[1] - grown[0] == pytest.approx(8.0, abs=1.5), seam
    off = told.partition("Noted and not carried out")[2]
    assert "Sway back" in off.partition("Finished girth")[0]


def half_shell(own: MeasuredPattern, level: str) -> float:
    """Half pattern at a level, facings and other layers left aside."""
    shell = [id for id, piece in own.pieces.items() if piece["layer"] == "outer" and not piece["derived_from"]]
    return sum(own.width(id, level) for id in shell)


def edges_of(own: MeasuredPattern, line: str) -> list[str]:
    pieces = [piece for piece in own.pieces.values() if piece["layer"] == "outer" and not piece["derived_from"]]
    return [edge["id"] for piece in pieces for edge in piece["edges"] if edge["line"] == line]


def check_sizes(folder: Path, verifier: ModuleType | None) -> None:
    """Every size that the grade report tells of has its clean pattern."""
    report = json.loads((folder / "grade.json").read_text(encoding="utf-8"))
    assert len(report["sizes"]) >= 4
    assert {path.name for path in folder.iterdir() if path.is_dir()} == {f"size-{bust}" for bust in report["sizes"]}
    for bust in report["sizes"]:
        check_pattern(folder / f"size-{bust}", verifier)
    assert {"overview.svg", "findings.txt", "nested-quarter-scale.pdf", "nested-full-scale.pdf"} <= {
        path.name for path in folder.iterdir()
    }


def page_size(page: pikepdf.Page) -> tuple[int, int]:
    """Width and height, whole mm."""
    left, bottom, right, top = (float(value) for value in page.mediabox)
    return round((right - left) / POINTS_PER_MM), round((top - bottom) / POINTS_PER_MM)


def check_index(folder: Path, garments: int) -> None:
    """Every link of the page leads to a file of the demo, and every garment has its picture there."""
    links = Links(folder / "index.html").found
    assert [link for link in links if not (folder / link).is_file()] == []
    assert len([link for link in links if link.endswith("pattern.json")]) == garments
    assert {"group.json", "shopping/shopping-list.pdf", "shopping/shopping-list.csv"} <= set(links)
    assert {"fittings/w-02.json", "toiles/lantern-01-w-02/fitting-sheet.pdf"} <= set(links)
    assert [PurePosixPath(link).name for link in links].count("grade.json") == 1
    assert "http" not in (folder / "index.html").read_text(encoding="utf-8")


def go_on(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Check and print one of the patterns, and make a garment again from the demo's own files."""
    pattern = folder / "garments" / "lantern-01-w-02" / "pattern.json"
    stored = json.loads(pattern.read_text())["findings"]
    assert main(["check", str(pattern), "--json"]) == 0
    again = json.loads(capsys.readouterr().out)["findings"]
    # A pattern file knows no wearer's measurements and no strain; all that it can tell must be told again.
    assert {found["code"] for found in again} <= {found["code"] for found in stored}
    assert {found["code"] for found in again} >= {"estimated"}

    assert main(["paper", str(pattern), "--scale", "sheet", "--out", str(folder / "again")]) == 0
    assert [path.name for path in (folder / "again").iterdir()] == ["large-sheet.pdf"]

    files = [str(folder / "wearers" / "w-02.json"), str(folder / "designs" / "lantern-01.json")]
    assert main(["make", *files, "--out", str(folder / "made")]) == 0
    assert read_pattern(folder / "made" / "pattern.json").pattern == read_pattern(pattern).pattern
    capsys.readouterr()
