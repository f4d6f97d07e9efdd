"""How many findings of each severity there are, in numbers and in words."""

from collections.abc import Iterable
from typing import Final

from panelwright.checks.inspection import SEVERITIES
from panelwright.finding import Finding, Severity

_NAMES: Final = {
    "error": ("error", "errors"),
    "warning": ("warning", "warnings"),
    "advice": ("piece of advice", "pieces of advice"),
}


def counted(findings: Iterable[Finding]) -> dict[Severity, int]:
    """How many findings there are of each severity, from the gravest."""
    kinds = [finding.severity for finding in findings]
    return {severity: kinds.count(severity) for severity in SEVERITIES}


def counts_in_words(findings: Iterable[Finding]) -> str:
    """`no errors, 1 warning, 2 pieces of advice`."""
    return ", ".join(_number(count, severity) for severity, count in counted(findings).items())


def _number(count: int, severity: Severity) -> str:
    one, several = _NAMES[severity]
    return f"{count or 'no'} {one if count == 1 else several}"
