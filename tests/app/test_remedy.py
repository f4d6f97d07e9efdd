"""Each remedy: the finding is there before it and not after it, on a real wearer; all else stays as it was written."""

import copy
import json
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from panelwright.app.block_shelf import BlockShelf
from panelwright.app.design_file import read_design
from panelwright.app.drawn_design import DrawnDesign, draw_design
from panelwright.app.remedy import remedy
from panelwright.body.size_table import size
from panelwright.body.units import Unit
from panelwright.finding import Finding

Record = dict[str, Any]
WEARER = size(88)
SHELF = BlockShelf()

BASE: Record = {"format": "panelwright-design/1", "ref": "lantern-09", "title": "Lantern bodice"}
TOP: Record = {
    "kind": "top-edge",
    "uid": "top",
    "shape": "scooped",
    "centre": {"level": "upper-bust", "offset_cm": -3},
    "side": {"level": "upper-bust", "offset_cm": -1},
}
HEM: Record = {
    "kind": "hem",
    "uid": "hem",
    "shape": "straight",
    "centre": {"level": "top-hip"},
    "side": {"level": "top-hip"},
}
CURVED: Record = {
    "kind": "hem",
    "uid": "hem",
    "shape": "pointed",
    "centre": {"level": "hip"},
    "side": {"level": "waist", "offset_cm": -2},
}
ZIP: Record = {"kind": "closure", "uid": "back", "place": "centre-back", "type": "zip"}
TIED: Record = {"kind": "closure", "uid": "front", "place": "centre-front", "type": "tie"}
SEWN: Record = {"kind": "closure", "uid": "back", "place": "centre-back", "type": "seam"}
LACED: Record = {"kind": "closure", "uid": "back", "place": "centre-back", "type": "lacing", "cord_cm": 60}
BONES: Record = {"kind": "bones", "uid": "stays"}
STRAPS: Record = {"kind": "strap", "uid": "straps", "width_cm": 2}
SEPARATE: Record = {"kind": "strap", "uid": "straps", "type": "separate", "width_cm": 1.5}


def design(*steps: Record, **parts: Any) -> Record:
    return {**BASE, "steps": [TOP, HEM, *steps], **parts}


def eased(level: str, ease: float) -> Record:
    return {"block": {"ease_cm": {level: ease}}}


# (finding, subject or None, the design, words on the button)
CASES: list[tuple[str, str | None, Record, str]] = [
    ("tight", "waist", design(ZIP, BONES, **eased("waist", -7)), "Set the ease at the waist to −3.5 cm"),
    ("loose", "waist", design(ZIP, BONES, **eased("waist", 16)), "Set the ease at the waist to 12.0 cm"),
    ("ease-unusual", "bust", design(ZIP, BONES, **eased("bust", -1)), "Set the ease at the bust to 0.0 cm"),
    ("ease-unusual", "underbust", {**BASE, **eased("underbust", 3)}, "Set the ease at the underbust to 0.0 cm"),
    ("seam-off-body", None, design(block={"keep": "girth"}), "Let seams keep their length on the body"),
    ("no-allowance", None, design(finish={"allowance_cm": 0}), "Give the seams an allowance of 1.0 cm"),
    (
        "no-allowance",
        None,
        design(finish={"allowance_by_line_cm": {"side": 0, "front-princess": 0.2, "hem": 0}}),
        "Give the seams an allowance of 1.0 cm",
    ),
    (
        "narrow-strap",
        None,
        design(ZIP, STRAPS, finish={"allowance_by_line_cm": {"strap-neckline": 1, "strap-armhole": 1, "hem": 2}}),
        "Trim the strap's allowances to what fits",
    ),
    (
        "narrow-strap",
        None,
        design(ZIP, SEPARATE, finish={"allowance_by_line_cm": {"strap-edge": 1}}),
        "Trim the strap's allowances to what fits",
    ),
    (
        "curved-hem-turned",
        None,
        {**BASE, "steps": [TOP, CURVED, ZIP, BONES], "finish": {"allowance_by_line_cm": {"hem": 3}}},
        "Give the hem an allowance of 1.0 cm",
    ),
    (
        "cannot-be-laid",
        "cotton",
        design(ZIP, cloth_to_buy={"cotton": {"width_cm": 30, "folded": True}}, finish={"cloths": {"outer": "cotton"}}),
        "Spread the cloth out instead of folding it",
    ),
    (
        "given-length-short",
        "back/zip",
        design({**ZIP, "zip_cm": 10, "note": "old"}),
        "Use the reckoned length in “Closure: centre back, centred zip”",
    ),
    ("given-length-short", "back/cord", design(LACED), "Use the reckoned length in “Closure: centre back, lacing”"),
    (
        "given-length-long",
        None,
        design(ZIP, {**SEPARATE, "length_cm": 60}),
        "Use the reckoned length in “Straps: separate”",
    ),
    (
        "zip-not-sold",
        "back/zip",
        design({**ZIP, "zip_cm": 57}),
        "Use the reckoned length in “Closure: centre back, centred zip”",
    ),
    ("ties-missing", "front", design(TIED, BONES), "Add ties at the centre front"),
    ("bones-not-last", None, design(BONES, ZIP), "Lay the bones last"),
    ("unboned-strapless", None, BASE, "Add bones along the seams"),
    ("cannot-be-put-on", None, design(SEWN, BONES), "Open the centre back down to the hem"),
    ("cannot-be-put-on", None, design({**ZIP, "opening_cm": 8}, BONES), "Open the centre back down to the hem"),
    ("cannot-be-put-on", None, design(BONES, block={"centre_back": "seam"}), "Open the centre back with a zip"),
]


@cache
def _drawn(text: str) -> DrawnDesign:
    made = read_design(text)
    return draw_design(made, SHELF.block(WEARER, made.block_options))


def drawn(document: Record) -> DrawnDesign:
    return _drawn(json.dumps(document))


def told(document: Record, code: str, subject: str | None = None) -> list[Finding]:
    return [each for each in drawn(document).findings if each.code == code and subject in (None, each.subject)]


def errors(document: Record) -> set[str]:
    return {each.code for each in drawn(document).findings if each.severity == "error"}


@pytest.mark.parametrize(
    ("code", "subject", "document", "words"), CASES, ids=[f"{case[0]}-{number}" for number, case in enumerate(CASES)]
)
def test_a_finding_is_gone_after_its_remedy(code: str, subject: str | None, document: Record, words: str) -> None:
    before = copy.deepcopy(document)
    assert drawn(document).complete, drawn(document).outcomes
    findings = told(document, code, subject)
    assert findings, [each.code for each in drawn(document).findings]
    offered = remedy(findings[0], document, drawn(document).cutting.pattern)
    assert offered is not None
    assert document == before
    assert offered.words == words
    assert drawn(offered.document).complete, drawn(offered.document).outcomes
    assert not told(offered.document, code, findings[0].subject)
    assert errors(offered.document) <= errors(document)


def changed(code: str, document: Record, subject: str | None = None, unit: Unit = Unit.CM) -> Record:
    offered = remedy(told(document, code, subject)[0], document, drawn(document).cutting.pattern, unit)
    assert offered is not None
    return offered.document


def test_what_a_maker_wrote_elsewhere_stays_as_written() -> None:
    written = design({**ZIP, "zip_cm": "4 in", "note": "old"}, finish={"allowance_cm": "5/8 in"})
    assert changed("given-length-short", written) == {**written, "steps": [TOP, HEM, {**ZIP, "note": "old"}]}


def test_only_seams_are_given_an_allowance() -> None:
    """A hem that is bound, and an edge that is laced edge to edge, stay without."""
    written = design(ZIP, finish={"allowance_cm": 0, "allowance_by_line_cm": {"side": 0, "hem": 0, "centre-back": 0}})
    assert changed("no-allowance", written)["finish"] == {
        "allowance_cm": 0,
        "allowance_by_kind_cm": {"seam": 1},
        "allowance_by_line_cm": {"hem": 0, "centre-back": 0},
    }


def test_a_strap_keeps_the_widths_of_other_lines() -> None:
    by_line = {"strap-neckline": 1, "strap-armhole": 1, "hem": 2}
    written = design(ZIP, STRAPS, finish={"allowance_by_line_cm": by_line})
    assert changed("narrow-strap", written)["finish"] == {"allowance_by_line_cm": {"hem": 2}}


def test_the_words_are_in_the_maker_s_unit_and_the_file_in_centimetres() -> None:
    written = design(ZIP, BONES, **eased("waist", 16))
    (finding,) = told(written, "loose")
    offered = remedy(finding, written, drawn(written).cutting.pattern, Unit.INCH)
    assert offered is not None
    assert offered.words == "Set the ease at the waist to 4 3/4 in"
    assert offered.document["block"] == {"ease_cm": {"waist": 12}}


def test_the_narrow_hem_is_the_widest_that_can_be_eased() -> None:
    written = {**BASE, "steps": [TOP, CURVED, ZIP, BONES], "finish": {"allowance_by_line_cm": {"hem": 3}}}
    offered = changed("curved-hem-turned", written)
    width = offered["finish"]["allowance_by_line_cm"]["hem"]
    wider = {**written, "finish": {"allowance_by_line_cm": {"hem": round(width + 0.1, 1)}}}
    assert told(wider, "curved-hem-turned")


def test_a_new_step_takes_a_name_that_is_free() -> None:
    taken = design({**ZIP, "uid": "bones"})
    steps = changed("unboned-strapless", taken)["steps"]
    assert steps[-1] == {"kind": "bones", "uid": "bones-2"}


def test_nothing_is_offered_where_the_maker_must_decide() -> None:
    side = {"kind": "closure", "uid": "flank", "place": "side", "type": "tie"}
    assert _offered("ties-missing", design(side)) is None
    assert _offered("tight-bodice", design(ZIP, **eased("waist", -7))) is None
    assert _offered("estimated", design(ZIP)) is None


def test_nothing_is_offered_that_would_not_help() -> None:
    pattern = drawn(design()).cutting.pattern
    finding = Finding("cannot-be-put-on", "error", "waist", 1.0, 2.0, "m", "r")
    tie = {"kind": "tie", "uid": "tie", "from": "side"}
    assert remedy(finding, design(tie), pattern) is None
    assert remedy(finding, design({**tie, "off": True}), pattern) is not None
    assert remedy(finding, design(ZIP), pattern) is None
    assert remedy(replace(finding, code="seam-off-body"), design(block={"keep": "length"}), pattern) is None
    assert remedy(replace(finding, code="narrow-strap"), design(STRAPS), pattern) is None
    assert remedy(replace(finding, code="given-length-long", subject="back/zip"), design(ZIP), pattern) is None
    hem = replace(finding, code="curved-hem-turned", value=40.0, limit=5.0)
    assert remedy(hem, design(), pattern) is None  # 1 cm · 5 / 40 is no hem any more


def _offered(code: str, document: Record) -> object:
    return remedy(told(document, code)[0], document, drawn(document).cutting.pattern)
