"""Imports go one way: every package may use those before it in the list and none after it."""

import ast
import re
import sys
import tomllib
from collections.abc import Iterator
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest

# Names in one group don't import each other. "" is panelwright itself, the front door of the library.
LAYERS = (
    ("errors",),
    ("file_words", "finding", "json_fault", "quotation"),
    ("json_text", "saved_file"),
    ("geometry",),
    ("body",),
    ("pattern",),
    ("blocks",),
    ("fitting",),
    ("design",),
    ("finish",),
    ("checks",),
    ("grading",),
    ("sewing",),
    ("lay",),
    ("drawing",),
    ("output",),
    ("intake",),
    ("store",),
    ("app",),
    ("",),
    ("cli", "web"),
    ("__main__",),
)
RANKS = {name: rank for rank, group in enumerate(LAYERS) for name in group}
GEOMETRY_MAY_USE = {"numpy", "scipy", "shapely"}
ONLY_LAY_MAY_USE = {"numba"}


def modules(source: Path) -> Iterator[tuple[str, bool, str]]:
    """Dotted name, whether it is a package's `__init__`, and text of every module below `source`."""
    for path in sorted(source.rglob("*.py")):
        parts = path.relative_to(source).with_suffix("").parts
        is_package = parts[-1] == "__init__"
        yield ".".join(parts[:-1] if is_package else parts), is_package, path.read_text(encoding="utf-8")


def imports(module: str, is_package: bool, text: str) -> Iterator[tuple[int, str]]:
    """Line and dotted name of all that a module imports: at its top, in functions, for types, by string.

    `from a import b` gives `a.b`, since `b` may be a module; relative names are made absolute.
    """
    for node in ast.walk(ast.parse(text)):
        match node:
            case ast.Import(names=names):
                yield from ((node.lineno, name.name) for name in names)
            case ast.ImportFrom(module=target, names=names, level=level):
                package = module.split(".") if is_package else module.split(".")[:-1]
                base = package[: len(package) - level + 1] if level else []
                start = ".".join([*base, *([target] if target else [])])
                yield from ((node.lineno, f"{start}.{name.name}") for name in names)
            case ast.Call(
                func=ast.Name(id="import_module" | "__import__") | ast.Attribute(attr="import_module"),
                args=[ast.Constant(value=str(target)), *_],
            ):
                yield node.lineno, target


def layer(dotted: str) -> str:
    """The layer that holds `panelwright.geometry.curve`; what hangs on `panelwright` itself is layer ""."""
    parts = dotted.split(".")[1:]
    return "" if len(parts) == 1 and parts[0] not in RANKS else ".".join(parts[:1])


def objection(module: str, imported: str, declared: set[str]) -> str | None:
    """Why `module` may not import the dotted name `imported`, or None where it may."""
    here, top = ".".join(module.split(".")[1:2]), imported.split(".")[0]
    if here not in RANKS:
        return f"{here} is in no layer: add it to LAYERS and to docs/architecture.md"
    if top == "panelwright":
        there = layer(imported)
        if there not in RANKS:
            return f"{imported} is in no layer"
        if there != here and RANKS[there] >= RANKS[here]:
            return f"{here or 'panelwright'} may not import {there or 'panelwright'}"
        return None
    if top in sys.stdlib_module_names:
        return None
    if here == "geometry" and top not in GEOMETRY_MAY_USE:
        return f"geometry may not import {top}: numpy, scipy and shapely only"
    if here != "lay" and top in ONLY_LAY_MAY_USE:
        return f"only lay may import {top}"
    if top not in declared:
        return f"{top} is no dependency in pyproject.toml"
    return None


def objections(module: str, is_package: bool, text: str, declared: set[str]) -> list[str]:
    """One line for each import in `text` that breaks a rule."""
    found = ((line, objection(module, name, declared)) for line, name in imports(module, is_package, text))
    return [f"{module}, line {line}: {reason}" for line, reason in found if reason]


@pytest.fixture(scope="module")
def declared(repository: Path) -> set[str]:
    """Import names of the dependencies in pyproject.toml, extras included."""
    project = tomllib.loads((repository / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project.get("optional-dependencies", {}).values()
    requirements = [*project["dependencies"], *(each for extra in extras for each in extra)]
    wanted = {re.split(r"[^\w.-]", each)[0].lower() for each in requirements}
    installed = packages_distributions().items()
    return {name for name, owners in installed if wanted & {owner.lower() for owner in owners}}


def test_every_import_in_the_package_goes_one_way(repository: Path, declared: set[str]) -> None:
    found = list(modules(repository / "src"))
    assert {"panelwright", "panelwright.errors", "panelwright.geometry"} <= {name for name, _, _ in found}
    assert [line for each in found for line in objections(*each, declared)] == []


def test_modules_are_found_and_read(tmp_path: Path) -> None:
    (tmp_path / "panelwright" / "body").mkdir(parents=True)
    (tmp_path / "panelwright" / "__init__.py").write_text("import math")
    (tmp_path / "panelwright" / "body" / "torso.py").write_text("import panelwright.cli")
    found = list(modules(tmp_path))
    assert found == [
        ("panelwright", True, "import math"),
        ("panelwright.body.torso", False, "import panelwright.cli"),
    ]
    assert objections(*found[1], set()) == ["panelwright.body.torso, line 1: body may not import cli"]


@pytest.mark.parametrize(
    ("module", "text", "reason"),
    [
        (
            "panelwright.geometry.curve",
            "from panelwright.pattern import Piece",
            "geometry may not import pattern",
        ),
        ("panelwright.geometry.curve", "import panelwright.body.torso", "geometry may not import body"),
        ("panelwright.geometry.curve", "from panelwright import body", "geometry may not import body"),
        ("panelwright.geometry.curve", "from ..body import torso", "geometry may not import body"),
        ("panelwright.geometry.curve", "from .. import body as figure", "geometry may not import body"),
        ("panelwright.errors", "from panelwright.finding import Finding", "errors may not import finding"),
        ("panelwright.checks.grain", "def check():\n    import panelwright.lay", "checks may not import lay"),
        ("panelwright.lay.cloth", "if TYPE_CHECKING:\n    import panelwright.app", "lay may not import app"),
        ("panelwright.app.paper", "import_module('panelwright.cli.main')", "app may not import cli"),
        ("panelwright.app.paper", "importlib.import_module('panelwright.web')", "app may not import web"),
        ("panelwright.web.server", "from panelwright.cli import main", "web may not import cli"),
        ("panelwright.body.torso", "from panelwright import __version__", "body may not import panelwright"),
        ("panelwright.body.torso", "import panelwright", "body may not import panelwright"),
        ("panelwright.surprise.thing", "import math", "surprise is in no layer"),
        ("panelwright.app.paper", "from panelwright.surprise import thing", "is in no layer"),
        ("panelwright.geometry.curve", "import pydantic", "geometry may not import pydantic"),
        ("panelwright.checks.grain", "from numba import njit", "only lay may import numba"),
        ("panelwright.output.pdf", "from PIL import Image", "PIL is no dependency"),
    ],
)
def test_a_wrong_import_is_caught(module: str, text: str, reason: str, declared: set[str]) -> None:
    (found,) = objections(module, False, text, declared)
    assert reason in found


@pytest.mark.parametrize(
    ("module", "is_package", "text"),
    [
        ("panelwright.pattern.piece", False, "from panelwright.geometry.curve import Curve"),
        (
            "panelwright.pattern.piece",
            False,
            "from .edge import Edge\nfrom . import seam\nfrom ..geometry import curve",
        ),
        (
            "panelwright.pattern",
            True,
            "from .piece import Piece\nfrom . import seam\nfrom ..errors import InputError",
        ),
        (
            "panelwright.drawing.lay",
            False,
            "from panelwright.checks import rules\nfrom panelwright.lay import cloth",
        ),
        (
            "panelwright.geometry.curve",
            False,
            "import math, numpy as np\nfrom shapely.geometry import Polygon",
        ),
        (
            "panelwright.cli.main",
            False,
            "from panelwright import __version__\nfrom panelwright.app import demo",
        ),
        ("panelwright", True, "from panelwright.app import make\nfrom .errors import PanelwrightError"),
        ("panelwright.output.pdf", False, "from fpdf import FPDF"),
    ],
)
def test_a_right_import_passes(module: str, is_package: bool, text: str, declared: set[str]) -> None:
    assert objections(module, is_package, text, declared) == []
