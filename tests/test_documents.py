"""The documents point at what is there, and every dependency is explained."""

import re
import tomllib
from pathlib import Path

LINK = re.compile(r"\]\((?!https?:|#)([^)#]+)")


def broken_links(document: Path) -> list[str]:
    """Relative links in a document that lead nowhere."""
    targets = LINK.findall(document.read_text(encoding="utf-8"))
    return [f"{document.name}: {target}" for target in targets if not (document.parent / target).exists()]


def test_every_link_leads_somewhere(repository: Path) -> None:
    documents = [*repository.glob("*.md"), *(repository / "docs").rglob("*.md")]
    assert repository / "README.md" in documents
    assert [link for document in documents for link in broken_links(document)] == []


def test_a_broken_link_is_caught(tmp_path: Path) -> None:
    (tmp_path / "page.md").write_text("[here](page.md), [gone](gone.md#part), [outside](https://example.org)")
    assert broken_links(tmp_path / "page.md") == ["page.md: gone.md"]


def test_decisions_are_numbered_without_gaps_and_listed(repository: Path) -> None:
    folder = repository / "docs" / "decisions"
    records = sorted(path.name for path in folder.glob("[0-9]*.md"))
    assert [int(name[:4]) for name in records] == list(range(1, len(records) + 1))
    listed = LINK.findall((folder / "README.md").read_text(encoding="utf-8"))
    assert listed == records


def test_every_dependency_is_explained_and_pinned(repository: Path) -> None:
    settings = tomllib.loads((repository / "pyproject.toml").read_text(encoding="utf-8"))
    pinned = {re.split("==", pin)[0] for pin in settings["tool"]["uv"]["constraint-dependencies"]}
    record = (repository / "docs" / "decisions" / "0001-dependencies.md").read_text(encoding="utf-8")
    for requirement in settings["project"]["dependencies"]:
        assert f"| {requirement} |" in record
        assert requirement in pinned
