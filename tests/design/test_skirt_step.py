"""A skirt sewn to a bodice: the waist seam trued, its zip, what it is drawn from, and what is refused."""

import json
from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache
from math import pi
from typing import Any

import numpy as np
import pytest
from bad_input.case import HEM, TOP
from measured_pattern import MeasuredPattern
from skirt_garment import BODY, chord_radius, length, skirt
from verifier import violations

from panelwright.app.design_file import read_design
from panelwright.app.garment import Garment, make_garment
from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit
from panelwright.checks.opened_girth import slit, widening
from panelwright.design.way_in import comes_apart
from panelwright.design.zip_length import SOLD_CM
from panelwright.drawing.hand_notes import notes
from panelwright.errors import DesignError
from panelwright.finish.facing_plan import hem_lines
from panelwright.fitting.fitting import Fitting
from panelwright.fitting.seam_note import SeamNote
from panelwright.output.pattern_document import pattern_to_json
from panelwright.pattern.closure import SPREAD_OPEN
from panelwright.pattern.skirt_below import held_closures
from panelwright.sewing.order import order_of_work

AT_WAIST = {**HEM, "centre": {"level": "waist"}, "side": {"level": "waist"}}
ZIP = {"kind": "closure", "uid": "back", "place": "centre-back", "type": "zip"}
OPENED = {**ZIP, "opening_cm": 18}
TYPES = ("circle-skirt", "gored-skirt", "straight-skirt")
EASE = {"waist": 2}
NOTE = SeamNote("n", "take-in", "back-princess", "waist", 5.0)


def dress(finish: dict[str, Any] | None = None, steps: list[dict[str, Any]] | None = None, **skirt: Any) -> Garment:
    """A bodice to the waist with a zip behind, and a skirt; waist 72, hip 96 cm, 2 cm of ease at the waist."""
    return _made(_text(finish, steps, **skirt))


def _text(finish: dict[str, Any] | None, steps: list[dict[str, Any]] | None, **skirt: Any) -> str:
    below = {"kind": "skirt", "uid": "skirt", "line": "hem/line", "length_cm": 60, **skirt}
    head = {"format": "panelwright-design/1", "ref": "dress-01", "title": "Dress"}
    before = [TOP, AT_WAIST, ZIP] if steps is None else steps
    return json.dumps({**head, "block": {"ease_cm": EASE}, "steps": [*before, below], "finish": finish or {}})


@lru_cache(maxsize=32)
def _made(text: str) -> Garment:
    return make_garment(Measurements.of("w-01", BODY), read_design(text))


def bodice_edge(garment: Garment) -> float:
    """All round, mm, on dense points."""
    return 2 * sum(length(edge.curve) for _, edge in garment.pattern.pieces_on_line("hem/line"))


def skirt_waist(garment: Garment) -> float:
    return 2 * sum(length(edge.curve) for _, edge in garment.pattern.pieces_on_line("skirt/waist"))


@pytest.mark.parametrize("kind", TYPES)
@pytest.mark.parametrize("ease", [0, 3])
def test_the_waist_seam_is_trued_to_the_bodice(kind: str, ease: float) -> None:
    garment = dress(type=kind, ease_cm=ease)
    assert skirt_waist(garment) - bodice_edge(garment) == pytest.approx(10 * ease, abs=0.01)
    assert bodice_edge(garment) == pytest.approx(740, abs=2)
    seam = garment.pattern.seam("skirt/waist")
    sides = [sum(length(garment.pattern.span_curve(span)) for span in chain) for chain in (seam.a, seam.b)]
    assert sides[1] - sides[0] == pytest.approx(seam.ease, abs=0.01) == pytest.approx(5 * ease, abs=0.01)
    (working,) = (each for each in garment.pattern.workings if each.id == "skirt/waist-seam")
    assert working.length == pytest.approx(skirt_waist(garment), abs=0.01)
    assert working.parts[0].length == 720


def test_centre_back_lies_on_centre_back_and_front_on_front() -> None:
    seam = dress(type="gored-skirt").pattern.seam("skirt/waist")
    assert [span.piece for span in seam.a] == ["CB", "SB", "SF", "CF"]
    assert [span.piece for span in seam.b] == ["SKB", "SKS2", "SKS1", "SKF"]


@pytest.mark.parametrize("kind", TYPES)
@pytest.mark.parametrize(
    "finish",
    [{}, {"facing": "full"}, {"facing": "edge"}, {"facing": "edge", "lining": "to_facing"}, {"lining": "full"}],
    ids=lambda finish: "-".join(map(str, finish.values())) or "plain",
)
def test_a_dress_is_clean_in_all_its_layers_and_is_laid(kind: str, finish: dict[str, Any], shared: Any) -> None:
    garment = dress(finish, type=kind)
    assert [finding.message for finding in garment.findings if finding.severity == "error"] == []
    assert violations(shared, pattern_to_json(garment.cutting, garment.findings)) == []
    placed = {laid.piece.id for lay in garment.lays for laid in lay.laid}
    assert {piece.id for piece in garment.cutting.pattern.pieces} <= placed


def test_a_half_circle_has_the_radius_of_the_closed_form() -> None:
    """Waist radius = waist / (2 pi share), check-values: here the waist is the bodice's edge."""
    garment = dress(type="circle-skirt", circle="half")
    (edge, *_) = (edge for _, edge in garment.pattern.pieces_on_line("skirt/waist"))
    assert chord_radius(edge.curve) == pytest.approx(bodice_edge(garment) / pi, abs=0.05)
    (hem, *_) = (edge for _, edge in garment.pattern.pieces_on_line("skirt/skirt-hem"))
    assert chord_radius(hem.curve) == pytest.approx(bodice_edge(garment) / pi + 600, abs=0.1)


@pytest.mark.parametrize("kind", ["gored-skirt", "straight-skirt"])
def test_it_has_the_wearers_hip_with_its_ease(kind: str) -> None:
    table = MeasuredPattern(pattern_to_json(dress(type=kind, hip_ease_cm=4).cutting, ()))
    hips = [table.width(id, "hip") for id, piece in table.pieces.items() if id.startswith("SK")]
    assert 2 * sum(hips) == pytest.approx(960 + 40, abs=0.05)


def test_one_zip_goes_through_the_waist_seam() -> None:
    garment = dress(type="gored-skirt", opening_cm=17)
    pattern = garment.pattern
    above, below = pattern.closures
    (centre,) = (edge for _, edge in pattern.pieces_on_line("centre-back"))
    assert above.opening == pytest.approx(length(centre.curve), abs=0.01)
    assert below.opening == pytest.approx(170, abs=1e-6)
    (zips,) = (notion for notion in pattern.notions if notion.kind == "zip")
    needed = above.opening + 170
    assert zips.length == 10 * min(cm for cm in SOLD_CM if 10 * cm >= needed)
    assert "separating" not in zips.name
    (piece,) = (piece for piece, _ in pattern.pieces_on_line("skirt/centre-back"))
    (mark,) = piece.marks
    top = piece.on_line("skirt/centre-back")[0].line_curve.end
    assert np.hypot(*np.subtract(top, mark.at)) == pytest.approx(170, abs=0.5)


def test_a_short_zip_lets_nobody_in() -> None:
    """A slit of 5 cm lets the waist come apart by twice that: 740 + 100 mm, and bust or hip must pass (geometry)."""
    (found,) = (each for each in dress(type="straight-skirt", opening_cm=5).findings if each.severity == "error")
    assert (found.code, found.subject) == ("cannot-be-put-on", "waist")
    assert found.value == pytest.approx(840, abs=2)
    assert "cannot-be-put-on" not in {each.code for each in dress(type="straight-skirt").findings}


def test_every_seam_is_sewn_once_and_the_waist_after_the_sides() -> None:
    garment = dress(type="straight-skirt")
    tasks = order_of_work(garment.cutting, garment.design.finish)
    sewn = [each.seam for task in tasks for each in task.sewn if each.seam]
    seams = [seam.id for seam in garment.cutting.pattern.seams if seam.kind != "closure"]
    assert sorted(sewn) == sorted(seams)
    titles = [task.title for task in tasks]
    assert titles.index("Side seams") < titles.index("Waist seam") < titles.index("Zip, centre back")
    assert [title for title in titles if title.startswith("Zip")] == ["Zip, centre back"]


def test_each_line_of_a_dress_has_its_own_name() -> None:
    garment = dress(type="gored-skirt")
    lines = {line.id: line.label for line in garment.pattern.lines}
    assert (lines["hem/line"], lines["skirt/skirt-hem"]) == ("Waist seam", "Skirt, hem")
    assert lines["skirt/front-skirt-1"] == "Skirt, front seam 1"
    assert hem_lines(garment.pattern) == {"hem", "skirt/skirt-hem"}
    assert hem_lines(skirt("gored-skirt").pattern) == {"skirt-hem"}
    sewn = {each.what for task in order_of_work(garment.cutting, garment.design.finish) for each in task.sewn}
    assert {"skirt front seam 1", "skirt centre back seam", "skirt side seam", "waist seam", "side seam"} <= sewn


@pytest.mark.parametrize("made", [lambda: dress(type="straight-skirt"), lambda: skirt("gored-skirt", [OPENED])])
def test_what_a_zip_opens_is_not_sewn_shut(made: Callable[[], Garment]) -> None:
    garment = made()
    (task,) = (each for each in order_of_work(garment.cutting, garment.design.finish) if each.title == "Centre seams")
    (seam,) = (each for each in garment.pattern.seams if each.is_centre and each.kind == "join")
    assert seam.a[0].share < 1.0
    assert "from the mark at the zip's end down to the hem" in task.words[0]
    assert not any("from the upper edge down" in words for words in task.words)


def test_a_centre_seam_below_a_zip_of_the_bodice_ends_at_the_waist() -> None:
    garment = followed({**FRONT_ZIP, "opening_cm": 12})
    (task,) = (each for each in order_of_work(garment.cutting, garment.design.finish) if each.title == "Centre seams")
    assert any("at the zip's end down to the waist" in words for words in task.words)


def test_what_a_zip_opens_is_told_at_one_step_of_the_hand_sheets() -> None:
    before = followed().pattern
    after = followed({**FRONT_ZIP, "opening_cm": 12}).pattern
    assert [note for note in notes(before, after, Unit.CM) if "opens on for" in note] == []
    bodice = replace(before, closures=())
    assert len([note for note in notes(bodice, before, Unit.CM) if "opens on for" in note]) == 1


def test_what_was_pinned_on_the_bodice_goes_on_in_the_skirt() -> None:
    """5 mm each side of both back princess seams are 20 mm of waist (geometry), in bodice and skirt alike."""
    text = _text(None, None, type="gored-skirt")
    plain = _made(text)
    fitted = make_garment(Measurements.of("w-01", BODY), read_design(text), fitting=Fitting("w-01", (NOTE,)))
    assert bodice_edge(plain) - bodice_edge(fitted) == pytest.approx(20, abs=0.2)
    assert skirt_waist(fitted) == pytest.approx(bodice_edge(fitted), abs=0.01)


@pytest.mark.parametrize(("ease", "words"), [(-1, "it pulls"), (0, ""), (2, ""), (6, ""), (7, "below the waist")])
def test_a_tight_or_loose_waist_seam_is_told(ease: float, words: str) -> None:
    """0 to 6 cm are usual, from memory."""
    document = json.loads(_text(None, None, type="circle-skirt"))
    document["block"]["ease_cm"]["waist"] = ease
    garment = _made(json.dumps(document))
    found = [each for each in garment.findings if each.code == "waist-seam-ease"]
    assert len(found) == (1 if words else 0)
    assert all(each.value == pytest.approx(10 * ease, abs=2) and words in each.message for each in found)


def lower_by(offset_cm: float) -> dict[str, Any]:
    """A straight hem so far below the waist."""
    place = {"level": "waist", "offset_cm": -offset_cm}
    return {**HEM, "centre": place, "side": place}


def test_a_zip_at_each_centre_goes_on_into_the_skirt() -> None:
    garment = dress(None, [TOP, lower_by(0.5), ZIP, FRONT_ZIP], type="gored-skirt")
    assert len({closure.id for closure in garment.pattern.closures}) == 4
    assert [notion.kind for notion in garment.pattern.notions] == ["zip", "zip"]
    assert [finding.message for finding in garment.findings if finding.severity == "error"] == []


SIDE_ZIP = {**ZIP, "uid": "side", "place": "side"}
FRONT_ZIP = {**ZIP, "uid": "front", "place": "centre-front"}


def followed(*steps: dict[str, Any], **skirt: Any) -> Garment:
    """The dress with steps after its skirt."""
    document = json.loads(_text(None, None, type="straight-skirt", **skirt))
    return _made(json.dumps({**document, "steps": [*document["steps"], *steps]}))


@pytest.mark.parametrize("closure", [FRONT_ZIP, SIDE_ZIP, {**FRONT_ZIP, "type": "hooks"}])
def test_a_closure_down_to_the_waist_goes_before_the_skirt(closure: dict[str, Any]) -> None:
    with pytest.raises(DesignError, match="put it before the skirt"):
        followed(closure)


@pytest.mark.parametrize("closure", [FRONT_ZIP, SIDE_ZIP])
def test_a_closure_that_ends_above_the_waist_may_follow_and_lets_nobody_in(closure: dict[str, Any]) -> None:
    garment = followed({**closure, "opening_cm": 12}, opening_cm=5)
    assert "cannot-be-put-on" in {each.code for each in garment.findings if each.severity == "error"}
    assert [notion.name for notion in garment.pattern.notions] == ["zip", "zip"]


def test_a_frill_goes_to_the_hem_of_the_skirt() -> None:
    """Twice as long as the hem that it is gathered to."""
    garment = followed({"kind": "frill", "uid": "ruffle", "line": "skirt/skirt-hem", "width_cm": 6, "ratio": 2})
    tasks = order_of_work(garment.cutting, garment.design.finish)
    assert "frill to the skirt hem" in {each.what for task in tasks for each in task.sewn}
    hem = sum(length(edge.curve) for _, edge in garment.pattern.pieces_on_line("skirt/skirt-hem"))
    (seam,) = (each for each in garment.pattern.seams if each.kind == "attach")
    assert garment.pattern.chain_length(seam.b) == pytest.approx(2 * hem, abs=0.5)


def test_a_second_skirt_finds_the_waist_sewn() -> None:
    with pytest.raises(DesignError, match="the waist seam is sewn already"):
        followed({"kind": "skirt", "uid": "over", "line": "hem/line"})


def test_what_parts_a_bodice_does_not_part_its_dress() -> None:
    """A file may tell of such an opening: 8 cm above the waist seam it lets the edges come 16 cm apart (geometry)."""
    pattern = dress(type="straight-skirt", opening_cm=5).pattern
    (above, _) = pattern.closures
    parted = replace(pattern, closures=(replace(above, spreads=SPREAD_OPEN),))
    assert parted.closures[0].opens_flat
    assert not comes_apart(parted)
    assert [one.opens_flat for one in held_closures(parted)] == [False]
    assert slit(held_closures(parted)[0], 80.0) == pytest.approx(160, abs=1e-6)
    assert widening(parted, parted.level("waist")) < 100


LACED = {**ZIP, "type": "lacing", "gap_cm": 5}


@pytest.mark.parametrize(
    ("steps", "skirt", "words"),
    [
        ([TOP, HEM, ZIP], {}, r"lies 10\.\d cm from the waist"),
        ([TOP, lower_by(1.8), ZIP], {}, r"lies 1\.[89] cm from the waist"),
        ([TOP, AT_WAIST], {}, "nothing says yet how the centre back"),
        ([TOP, AT_WAIST, LACED], {}, "not shut by a plain zip"),
        ([TOP, AT_WAIST, ZIP, SIDE_ZIP], {}, "opens at the wearer's left side"),
        (None, {"line": "neckline/line"}, "the top edge does not run from centre back to centre front"),
        (None, {"line": "hme/line"}, "needs what “hme” makes"),
        (None, {"line": "lower-edge"}, "there is no edge on 'lower-edge'"),
        (None, {"type": "gored-skirt", "length_cm": 20}, "ends less than"),
        (None, {"length_cm": 20.5, "opening_cm": 20}, "make the skirt longer, or the opening shorter"),
        (None, {"opening_cm": 2}, "its opening is 2 cm"),
        (None, {"gores": 5}, "5 gores"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(
    steps: list[dict[str, Any]] | None, skirt: dict[str, Any], words: str
) -> None:
    with pytest.raises(DesignError, match=words):
        dress(None, steps, **skirt)


def test_a_skirt_goes_to_no_skirt() -> None:
    document = json.loads(_text(None, [], line="skirt-hem")) | {"block": {"type": "circle-skirt"}}
    with pytest.raises(DesignError, match="is a skirt already"):
        _made(json.dumps(document))
