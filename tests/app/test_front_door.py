"""The names that `import panelwright` offers: all are there, and none is imported before it is asked for."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import panelwright


def test_every_name_leads_to_where_the_type_checker_finds_it() -> None:
    tree = ast.parse(Path(panelwright.__file__).read_text(encoding="utf-8"))
    block = next(node for node in tree.body if isinstance(node, ast.If))
    stated = {name.name: node.module for node in block.body if isinstance(node, ast.ImportFrom) for name in node.names}
    assert set(stated) == set(panelwright.__all__)
    for name, module in stated.items():
        assert getattr(panelwright, name) is getattr(sys.modules[str(module)], name)


def test_a_name_that_is_not_there_is_an_ordinary_error() -> None:
    with pytest.raises(AttributeError, match="no attribute 'sew'"):
        panelwright.sew  # noqa: B018  # asking is the test


def test_importing_the_package_alone_imports_nothing_heavy() -> None:
    look = "import sys, panelwright; print(*sys.modules)"
    run = subprocess.run([sys.executable, "-c", look], capture_output=True, text=True, check=True)
    assert {"numpy", "scipy", "pydantic"} & set(run.stdout.split()) == set()
