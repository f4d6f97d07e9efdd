"""Families of drafting rules: as docs/findings.md has them, and at fault just where a pattern is spoilt."""

from pathlib import Path

import pytest
from pattern_mutations import MUTATIONS
from plain_cutting_pattern import plain_cutting_pattern

from panelwright.checks import check_drafting
from panelwright.checks.rule_family import DRAFTING_CODES, FAMILIES, family_results


def test_the_families_are_the_rules_of_the_findings_page(repository: Path) -> None:
    rows = (repository / "docs" / "findings.md").read_text(encoding="utf-8").splitlines()
    cells = [[cell.strip() for cell in row.strip("|").split("|")] for row in rows if row.startswith("| `")]
    documented: dict[int, set[str]] = {}
    for code, rule, *_ in cells:
        if rule.isdigit():
            documented.setdefault(int(rule), set()).add(code.strip("`"))
    assert {family.rule: set(family.codes) for family in FAMILIES} == documented
    assert sum(len(family.codes) for family in FAMILIES) == len(DRAFTING_CODES)


def test_a_correct_pattern_passes_every_family() -> None:
    """Counted by hand: four panels and their facings; three seams and a centre-back closure each; five notches."""
    cutting = plain_cutting_pattern()
    results = family_results(cutting, check_drafting(cutting))
    assert all(result.passed for result in results)
    looked_at = {result.family.rule: result.looked_at for result in results}
    pieces, edges, seams, levels = 8, 32, len(cutting.pattern.seams), len(cutting.pattern.levels)
    assert looked_at[1] == pieces + edges + seams + levels + len(cutting.notches)
    assert [looked_at[rule] for rule in (2, 8, 9, 10)] == [pieces] * 4
    assert (looked_at[3], looked_at[4], looked_at[5], looked_at[7]) == (5, 6, 5, 6)


@pytest.mark.parametrize("name", MUTATIONS)
def test_a_spoilt_pattern_fails_the_family_of_its_rule(name: str) -> None:
    spoilt = MUTATIONS[name]
    cutting = spoilt.mutation(plain_cutting_pattern(faced=False))
    results = {result.family.rule: result for result in family_results(cutting, check_drafting(cutting))}
    failed = {rule for rule, result in results.items() if result.at_fault}
    assert spoilt.rule in failed
    assert failed == {family.rule for family in FAMILIES if family.codes & spoilt.codes}
    if spoilt.rule == 1:
        assert {result.at_fault for rule, result in results.items() if rule > 1} == {None}
