"""Every code of a finding is described in docs/findings.md, and nothing else is."""

import ast
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

from panelwright.finding import Severity


def codes_in(text: str) -> Iterator[str]:
    """The codes of all `Finding(...)` calls in a module; "?" for one that is not written out."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Finding":
            named = [keyword.value for keyword in node.keywords if keyword.arg == "code"]
            code = (named or node.args)[0]
            yield code.value if isinstance(code, ast.Constant) else "?"


def rows(repository: Path) -> list[list[str]]:
    lines = (repository / "docs" / "findings.md").read_text(encoding="utf-8").splitlines()
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines if line.startswith("| `")]


def test_every_code_is_documented_and_every_documented_code_is_used(repository: Path) -> None:
    sources = (repository / "src").rglob("*.py")
    used = {code for path in sources for code in codes_in(path.read_text(encoding="utf-8"))}
    documented = [row[0].strip("`") for row in rows(repository)]
    assert sorted(documented) == sorted(used)


def test_every_row_is_complete(repository: Path) -> None:
    for row in rows(repository):
        assert len(row) == 7
        assert all(row)
        assert row[2].split(",")[0] in get_args(Severity)


def test_a_code_is_seen_in_both_ways_of_writing_and_a_hidden_one_too() -> None:
    text = 'Finding("one", "error")\nFinding(severity="error", code="two")\nFinding(code)\n'
    assert list(codes_in(text)) == ["one", "two", "?"]


def test_every_code_is_expected_by_name_in_some_test(repository: Path) -> None:
    """A check that no test brings to speak is not proved."""
    texts = [path.read_text(encoding="utf-8") for path in (repository / "tests").rglob("*.py")]
    strings = {
        node.value
        for text in texts
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    assert [row[0].strip("`") for row in rows(repository) if row[0].strip("`") not in strings] == []
