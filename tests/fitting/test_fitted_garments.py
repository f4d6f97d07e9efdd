"""Designs on fitted blocks: clean by the outside verifier, straps as told, ease and findings told rightly."""

import json
from pathlib import Path

import numpy as np
import pytest
from bad_input.case import design as design_text
from bad_input.case import wearer as wearer_text
from measured_pattern import MeasuredPattern
from plausible_bodies import plausible_bodies
from random_design import DesignChance
from verifier import violations

from panelwright.app.design_file import read_design
from panelwright.app.fitting_file import save_fitting
from panelwright.app.garment import Garment, make_garment
from panelwright.body.measurements import Measurements
from panelwright.body.size_table import size
from panelwright.cli.main import main
from panelwright.errors import BlockError, InputError
from panelwright.fitting.fitting import Fitting, FittingNote
from panelwright.fitting.full_bust import FullBust
from panelwright.fitting.length_note import LengthNote
from panelwright.fitting.seam_note import SeamNote
from panelwright.fitting.shoulder_note import ShoulderNote
from panelwright.fitting.strap_note import StrapNote
from panelwright.fitting.sway_back import SwayBack
from panelwright.output.pattern_document import pattern_to_json

SIZE = size(88)
STRAPS = {"top": "shoulder", "panels": 4}


def made(text: str, *notes: FittingNote, wearer: Measurements = SIZE) -> Garment:
    return make_garment(wearer, read_design(text), fitting=Fitting(wearer.ref, notes))


def document(garment: Garment) -> dict[str, object]:
    return pattern_to_json(garment.cutting, garment.findings)


def test_a_garment_on_the_fitted_block_is_smaller_where_it_was_pinned() -> None:
    """8 mm each side of both back princess seams: four times 8 mm off the waist (geometry), the body as it was."""
    plain = document(made(design_text()))
    fitted = document(made(design_text(), SeamNote("n", "take-in", "back-princess", "waist", 8.0)))
    waist = [MeasuredPattern(each).half("waist") * 2 for each in (plain, fitted)]
    assert waist[0] - waist[1] == pytest.approx(32.0, abs=0.1)
    levels = [next(level for level in each["levels"] if level["id"] == "waist") for each in (plain, fitted)]
    assert levels[0]["body_girth"] == levels[1]["body_girth"] == SIZE["waist_girth"]
    assert levels[1]["finished_girth"] == pytest.approx(waist[1], abs=0.1)
    assert levels[1]["fitted"] == pytest.approx(-32.0, abs=0.1)
    assert [note["kind"] for note in fitted["fitting"]] == ["take-in"]


def test_less_ease_than_is_usual_is_a_finding_and_a_little_is_none() -> None:
    """Waist +1 cm of ease in the default block; strapless least 0 (from memory, check-values)."""
    tight = made(design_text(), SeamNote("n", "take-in", "side", "waist", 6.0)).findings
    (found,) = (finding for finding in tight if finding.code == "fitted-tight")
    assert (found.subject, found.severity) == ("waist", "warning")
    assert "2.4 cm off the girth" in found.message
    easy = made(design_text(), SeamNote("n", "take-in", "side", "waist", 2.0)).findings
    assert "fitted-tight" not in {finding.code for finding in easy}


@pytest.mark.parametrize("kind", ["grown", "separate", "halter"])
def test_straps_are_shorter_by_the_note(kind: str) -> None:
    text = design_text(block=STRAPS, steps=[{"uid": "s", "kind": "strap", "type": kind}])
    plain, fitted = made(text), made(text, StrapNote("n", "shorter", 10.0))
    lengths = [next(w for w in each.pattern.workings if w.id == "s/length").reckoned for each in (plain, fitted)]
    assert lengths[0] - lengths[1] == pytest.approx(10.0, abs=1e-6)
    if kind == "grown":
        drawn = [shoulder_to_waist(document(each)) for each in (plain, fitted)]
        assert drawn[0] - drawn[1] == pytest.approx(10.0, abs=1.5)
    else:
        strip = [
            np.ptp(np.array(piece["vertices"])[:, 1])
            for each in (plain, fitted)
            for piece in document(each)["pieces"]
            if piece["id"] in ("STRAP", "HALTER")
        ]
        assert strip[0] - strip[1] == pytest.approx(10.0, abs=0.1)


def shoulder_to_waist(pattern: dict[str, object]) -> float:
    """How high front and back shoulder seams lie above the waist, together, mm."""
    table, found = MeasuredPattern(pattern), 0.0
    for panels in (("CF", "SF"), ("SB", "CB")):
        heights = []
        for id in panels:
            for edge in table.pieces[id]["edges"]:
                if edge["line"] == "s/shoulder":
                    waist = np.array(next(i for i in table.pieces[id]["inside"] if i["id"] == "waist")["bezier"])[
                        :, 1
                    ].mean()
                    heights.append(float(table.edge(edge["id"])[:, 1].mean()) - waist)
        found += float(np.mean(heights))
    return found


def some_notes(chance: np.random.Generator, panels: int) -> tuple[FittingNote, ...]:
    """One to three notes of moderate amounts."""
    seams = ["front-princess", "back-princess"] + (["side"] if panels in (4, 6) else [])
    kinds = [
        lambda uid, mm: SeamNote(
            uid, str(chance.choice(("take-in", "let-out"))), str(chance.choice(seams)), "waist", mm
        ),
        lambda uid, mm: SeamNote(uid, "take-in", "front-princess", "upper-bust", mm / 2),
        lambda uid, mm: LengthNote(uid, str(chance.choice(("lengthen", "shorten"))), "above-waist", mm),
        lambda uid, mm: LengthNote(uid, "lengthen", "below-waist", mm),
        SwayBack,
        lambda uid, mm: FullBust(uid, mm, mm),
        lambda uid, mm: ShoulderNote(uid, str(chance.choice(("square", "sloping", "forward"))), mm),
        lambda uid, mm: StrapNote(uid, "shorter", mm),
    ]
    chosen = chance.choice(len(kinds), size=int(chance.integers(1, 4)), replace=False)
    return tuple(kinds[k](f"n{number}", float(chance.uniform(3, 12))) for number, k in enumerate(chosen))


def random_garments(count: int, seed: int) -> tuple[list[Garment], list[str]]:
    """Garments of random designs on random fitted blocks, and why others were refused."""
    chance, designs = np.random.default_rng(seed), DesignChance(seed)
    found, refused = [], []
    for body in plausible_bodies(count, seed=seed):
        block = designs.block()
        text = json.dumps(designs.design(block).document)
        try:
            found.append(made(text, *some_notes(chance, block.get("panels", 4)), wearer=body))
        except (InputError, BlockError) as error:
            refused.append(str(error))
    return found, refused


def test_random_designs_on_fitted_blocks_are_clean(shared: Path) -> None:
    found, _ = random_garments(5, 3)
    assert len(found) >= 3
    for garment in found:
        assert violations(shared, document(garment)) == []


@pytest.mark.soak
def test_two_hundred_random_designs_on_fitted_blocks_are_clean(shared: Path) -> None:
    found, refused = random_garments(200, 29)
    broken = {
        str(garment.pattern.fitting): lines for garment in found if (lines := violations(shared, document(garment)))
    }
    assert broken == {}
    assert len(found) >= 150, refused


def test_make_with_a_fitting_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    save_fitting(Fitting("w-07", (SeamNote("n", "let-out", "side", "waist", 6.0),)), tmp_path / "f.json")
    (tmp_path / "w.json").write_text(wearer_text())
    (tmp_path / "d.json").write_text(design_text())
    files, fitting = [str(tmp_path / "w.json"), str(tmp_path / "d.json")], ["--fitting", str(tmp_path / "f.json")]
    assert main(["make", *files, *fitting, "--out", str(tmp_path / "out")]) == 0
    fitted = json.loads((tmp_path / "out" / "pattern.json").read_text())
    assert next(level for level in fitted["levels"] if level["id"] == "waist")["fitted"] == pytest.approx(24.0, abs=0.1)
    assert main(["block", files[0], *fitting, "--out", str(tmp_path / "block")]) == 0
    capsys.readouterr()
    assert main(["make", "--size", "88", files[1], *fitting, "--out", str(tmp_path / "other")]) == 2
    assert "of one wearer" in capsys.readouterr().err
    assert main(["check", str(tmp_path / "out" / "pattern.json"), *fitting]) == 2


def test_a_skirt_takes_no_notes_and_says_so() -> None:
    text = design_text(block={"type": "circle-skirt"}, steps=[])
    skirt = made(text, SeamNote("n", "take-in", "side", "waist", 6.0))
    assert "fitting-not-taken" in {finding.code for finding in skirt.findings}
    assert skirt.block.pattern == made(text).block.pattern
