"""The troupe's data and the page that shows its garments."""

import json
import re
from pathlib import Path
from typing import get_args

from panelwright.app.demo.demo_fitting import FITTED
from panelwright.app.demo.index_page import Entry, index_page
from panelwright.app.demo.page_section import Figure, Section
from panelwright.app.demo.troupe import DANCED, ROLES, designs, fitting_text, group_text, troupe
from panelwright.app.fitting_file import read_fitting
from panelwright.app.group import load_group
from panelwright.body.plausibility import questions
from panelwright.design.closure_form import ClosureType
from panelwright.design.step_file import FORMS
from panelwright.design.strap import StrapType
from panelwright.design.zip import ZipStyle
from panelwright.finding import Finding
from panelwright.finish.options import Facing, Lining
from panelwright.pattern.closure import ClosurePlace


def test_the_dancers_are_plausible_and_nameless() -> None:
    dancers = list(troupe())
    assert [dancer.wearer.ref for dancer in dancers] == list(ROLES)
    assert [question.message for dancer in dancers for question in questions(dancer.wearer)] == []
    assert all(re.fullmatch(r"[a-z ]+", dancer.role) for dancer in dancers)


def test_the_files_of_designs_bear_their_references() -> None:
    assert tuple(cut.design.ref for cut in designs()) == tuple(DANCED)


# Panel surgery, sleeves and dresses have garments of their own in their tests; the troupe dances without.
SHOWN_ELSEWHERE = {"split", "unfold", "join", "swing", "gather", "spread", "frill", "peplum", "sleeve", "skirt"}


def test_the_designs_show_every_option_between_them() -> None:
    """What a step or a finish may be, read from the types that name the choices."""
    documents = [json.loads(cut.text) for cut in designs()]
    steps = [step for document in documents for step in document["steps"]]
    finishes = [document["finish"] for document in documents]

    def shown(kind: str, field: str, usual: str | None = None) -> set[str | None]:
        return {step.get(field, usual) for step in steps if step["kind"] == kind} - {None}

    assert {step["kind"] for step in steps} == {form.makes.kind for form in FORMS} - SHOWN_ELSEWHERE
    assert shown("closure", "type") == set(get_args(ClosureType))
    assert shown("closure", "style") == set(get_args(ZipStyle))
    assert shown("closure", "place") == set(get_args(ClosurePlace))
    assert shown("strap", "type", "grown") == set(get_args(StrapType))
    assert any(step.get("crossed") for step in steps)
    assert shown("tie", "from") == {"side", "centre-front", "caught-in-side"}
    assert shown("tie", "knot", "double") == {"double", "bow"}
    assert shown("tie", "end", "square") == {"square", "pointed"}
    assert {finish.get("facing", "none") for finish in finishes} == set(get_args(Facing))
    assert {finish.get("lining", "none") for finish in finishes} == set(get_args(Lining))
    assert {str(finish.get("interfacing", "none")) for finish in finishes} >= {"none", "full", "facing"}
    for field in ("turn_of_cloth_mm", "facing_width_cm", "hem_facing_width_cm", "cloths"):
        assert any(field in finish for finish in finishes), field
    assert any("modesty_overlap_cm" in step for step in steps)
    assert any("channels" in step for step in steps)
    assert any("length_cm" in step for step in steps)


def test_the_troupe_buys_for_everybody_who_dances(tmp_path: Path) -> None:
    (tmp_path / "group.json").write_text(group_text(), encoding="utf-8")
    for name, files in (
        ("wearers", {dancer.wearer.ref: dancer.text for dancer in troupe()}),
        ("designs", {cut.design.ref: cut.text for cut in designs()}),
    ):
        (tmp_path / name).mkdir()
        for ref, text in files.items():
            (tmp_path / name / f"{ref}.json").write_text(text, encoding="utf-8")
    group = load_group(tmp_path / "group.json")
    danced = {(wearer, design) for design, wearers in DANCED.items() for wearer in wearers}
    assert {(own.wearer.ref, own.design.ref) for own in group.garments} == danced


def test_the_fitting_is_a_dancers_and_has_a_note_that_is_off() -> None:
    ref, design = FITTED
    assert ref in DANCED[design]
    fitting = read_fitting(fitting_text(ref))
    assert fitting.wearer == ref
    assert fitting.working
    assert fitting.off


def test_the_page_escapes_what_it_is_given_and_marks_errors() -> None:
    wrong = Finding("blend", "error", "hem", 1.0, 0.5, "", "")
    entries = [
        Entry("w-01", "drummer <1>", "Bodice & belt", (wrong,), ("a/pattern.json", "a/overview.svg")),
        Entry("w-01", "drummer <1>", "Second", (), ("b/overview.svg",)),
    ]
    figure = Figure("c/<3>.svg", 'a "toile"', "T & T", "none", (("c/x?a&b", "notes <1>"),))
    page = index_page(entries, further=(Section("Toile <1>", (figure,), ("Sewn & tried on",)),))
    assert page.count("<h2>") == 2
    assert "Toile &lt;1&gt;" in page
    assert "Sewn &amp; tried on" in page
    assert 'href="c/x?a&amp;b">notes &lt;1&gt;' in page
    assert 'src="c/&lt;3&gt;.svg" alt="a &quot;toile&quot;"' in page
    assert "drummer &lt;1&gt;" in page
    assert "Bodice &amp; belt" in page
    assert page.count('class="error"') == 1
    assert "<script" not in page
