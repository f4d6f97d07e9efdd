"""The troupe's data and the page that shows its garments."""

import re

from panelwright.app.demo.index_page import Entry, index_page
from panelwright.app.demo.troupe import DANCED, ROLES, designs, troupe
from panelwright.body.plausibility import questions
from panelwright.finding import Finding


def test_the_dancers_are_plausible_and_nameless() -> None:
    dancers = list(troupe())
    assert [dancer.wearer.ref for dancer in dancers] == list(ROLES)
    assert [question.message for dancer in dancers for question in questions(dancer.wearer)] == []
    assert all(re.fullmatch(r"[a-z ]+", dancer.role) for dancer in dancers)


def test_the_files_of_designs_bear_their_references() -> None:
    assert tuple(cut.design.ref for cut in designs()) == tuple(DANCED)


def test_the_page_escapes_what_it_is_given_and_marks_errors() -> None:
    wrong = Finding("blend", "error", "hem", 1.0, 0.5, "", "")
    entries = [
        Entry("w-01", "drummer <1>", "Bodice & belt", (wrong,), ("a/pattern.json", "a/overview.svg")),
        Entry("w-01", "drummer <1>", "Second", (), ("b/overview.svg",)),
    ]
    page = index_page(entries)
    assert page.count("<h2>") == 1
    assert "drummer &lt;1&gt;" in page
    assert "Bodice &amp; belt" in page
    assert page.count('class="error"') == 1
    assert "<script" not in page
