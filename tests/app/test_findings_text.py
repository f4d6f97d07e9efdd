"""The page of findings: every finding is on it with its remedy, the gravest first."""

from panelwright.app.findings_text import WIDTH, findings_text
from panelwright.checks.tally import counted, counts_in_words
from panelwright.finding import Finding


def finding(code: str, severity: str, message: str = "It is so.") -> Finding:
    return Finding(code, severity, "SF", 1.0, 2.0, message, "do something about it")  # type: ignore[arg-type]


FOUND = (
    finding("tight", "advice"),
    finding("blend", "error", "the hem has a dip of 3° at a seam that is far too long to fit into a single line of it"),
    finding("grain", "error"),
)


def test_counts() -> None:
    assert counted(FOUND) == {"error": 2, "warning": 0, "advice": 1}
    assert counts_in_words(FOUND) == "2 errors, no warnings, 1 piece of advice"
    assert counts_in_words(()) == "no errors, no warnings, no pieces of advice"


def test_the_page_has_every_finding_with_its_remedy_gravest_first() -> None:
    page = findings_text("Lantern bodice", "w-07", FOUND)
    lines = page.splitlines()
    assert lines[0] == "Lantern bodice, for w-07"
    assert lines[2] == "NOT ready to cut: 2 errors, no warnings, 1 piece of advice."
    assert page.count("What to do: Do something about it.") == 3
    assert page.index("[blend]") < page.index("[grain]") < page.index("[tight]")
    assert "WARNINGS" not in page
    assert max(len(line) for line in lines) <= WIDTH


def test_without_errors_the_page_still_asks_for_a_toile() -> None:
    page = findings_text("Lantern bodice", "w-07", ())
    assert "Checked: no errors" in page
    assert "sew a toile" in page
