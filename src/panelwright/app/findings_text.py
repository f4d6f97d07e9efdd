"""Findings as a page that a maker reads before cutting."""

from collections.abc import Sequence
from dataclasses import asdict
from textwrap import TextWrapper
from typing import Final

from panelwright.checks.inspection import SEVERITIES
from panelwright.checks.tally import counted, counts_in_words
from panelwright.finding import Finding

FINDINGS_FILE: Final = "findings.txt"
WIDTH: Final = 96
_HEADINGS: Final = {
    "error": "ERRORS: do not cut before these are put right",
    "warning": "WARNINGS: decide about each before you cut",
    "advice": "ADVICE",
}
TOILE: Final = (
    "A block from a tape is a good start and no more: sew a toile, fit it, and only then cut good cloth. "
    "Where a fitter, a teacher or a doctor disagrees with this page, believe them."
)


def findings_text(title: str, wearer: str, findings: Sequence[Finding]) -> str:
    """The page: whether anything is wrong, then each finding with its remedy, the gravest first."""
    ready = not counted(findings)["error"]
    verdict = "Checked" if ready else "NOT ready to cut"
    parts = [f"{title}, for {wearer}" if wearer else title, f"{verdict}: {counts_in_words(findings)}."]
    for severity in SEVERITIES:
        found = [finding for finding in findings if finding.severity == severity]
        if found:
            parts.append("\n\n".join([_HEADINGS[severity], *(_entry(k, f) for k, f in enumerate(found, 1))]))
    return "\n\n".join([*parts, _filled(TOILE)]) + "\n"


def finding_facts(finding: Finding) -> dict[str, object]:
    """A finding ready for JSON."""
    return asdict(finding)


def _entry(number: int, finding: Finding) -> str:
    first = f"{_sentence(finding.message)} [{finding.code}]"
    remedy = f"What to do: {_sentence(finding.remedy)}"
    return "\n".join([_filled(first, f"{number:>2}. ", "    "), _filled(remedy, "    ", "    ")])


def _filled(text: str, first: str = "", others: str = "") -> str:
    """The text in lines of at most `WIDTH`, broken between words only."""
    return TextWrapper(
        WIDTH, initial_indent=first, subsequent_indent=others, break_on_hyphens=False, break_long_words=False
    ).fill(text)


def _sentence(text: str) -> str:
    text = text.strip()
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "?", "!")) else f"{text}."
