"""The outcome of a command: what was written and what was found, for a person and for a program."""

from collections.abc import Sequence
from pathlib import Path

from panelwright.app.findings_text import finding_facts
from panelwright.checks.tally import counted, counts_in_words
from panelwright.cli.console import Console
from panelwright.finding import Finding

FINE, ERRORS_FOUND = 0, 1
MOST_SHOWN = 12


def status_of(findings: Sequence[Finding]) -> int:
    """0 if nothing is an error, 1 if something is."""
    return ERRORS_FOUND if counted(findings)["error"] else FINE


def tell(
    console: Console,
    facts: dict[str, object],
    lead: str,
    findings: Sequence[Finding],
    written: Sequence[Path] = (),
    removed: Sequence[Path] = (),
) -> int:
    """Give the answer of a command that made or checked a pattern, and return the exit status.

    Args:
        facts: what the answer begins with for a program.
        lead: what it begins with for a person, one sentence.
        findings: errors first.
        written: files, the first to be opened first.
        removed: sheets of an older pattern that were in the way.
    """
    status = status_of(findings)
    facts = {
        "status": status,
        **facts,
        "files": [str(path) for path in written],
        "removed": [str(path) for path in removed],
        "counts": counted(findings),
        "findings": [finding_facts(finding) for finding in findings],
    }
    lines = [lead, *(f"  {path}" for path in written)]
    lines += [f"  removed, of an older pattern: {path}" for path in removed]
    lines += finding_lines(findings)
    console.answer(facts, "\n".join(lines))
    return status


def finding_lines(findings: Sequence[Finding]) -> list[str]:
    """The findings in short, the gravest first; findings.txt has their remedies."""
    ready = "Not ready to cut" if status_of(findings) else "Checked"
    shown = [f"  {finding.severity}: {finding.message}" for finding in findings[:MOST_SHOWN]]
    more = len(findings) - len(shown)
    return [f"{ready}: {counts_in_words(findings)}.", *shown, *([f"  and {more} more"] if more > 0 else [])]
