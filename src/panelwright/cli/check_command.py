"""`panelwright check`: a pattern, or what measurements and a design would give, to findings."""

from argparse import Namespace

from panelwright.app.design_file import load_design
from panelwright.app.garment import make_garment
from panelwright.checks import Wearing, check
from panelwright.cli.console import Console
from panelwright.cli.given import given_files, given_fitting, given_unit, given_wearer, refuse_fitting
from panelwright.cli.outcome import tell
from panelwright.finding import Finding
from panelwright.output.pattern_file import read_pattern


def run(arguments: Namespace, console: Console) -> int:
    """Check and tell; returns the exit status. Nothing is written."""
    facts, lead, findings = _garment(arguments, console) if _of_a_garment(arguments) else _pattern(arguments)
    return tell(console, {"command": "check", **facts}, lead, findings)


def _of_a_garment(arguments: Namespace) -> bool:
    return arguments.size is not None or len(arguments.files) == 2


def _pattern(arguments: Namespace) -> tuple[dict[str, object], str, tuple[Finding, ...]]:
    refuse_fitting(arguments)
    (path,) = given_files(arguments, "a pattern file, or a measurements file and a design file,")
    cutting = read_pattern(path)
    pattern = cutting.pattern
    found = check(cutting, wearing=Wearing(unit=given_unit(arguments)))
    facts: dict[str, object] = {"pattern": str(path), "wearer": pattern.wearer, "design": pattern.design}
    return facts, f"{path.name}: {pattern.design} for {pattern.wearer}, {len(pattern.pieces)} pieces.", found


def _garment(arguments: Namespace, console: Console) -> tuple[dict[str, object], str, tuple[Finding, ...]]:
    wearer, (design_path,) = given_wearer(arguments, "a design file")
    design, fitting = load_design(design_path), given_fitting(arguments)
    garment = make_garment(wearer, design, console.progress, given_unit(arguments), fitting=fitting)
    facts: dict[str, object] = {"wearer": wearer.ref, "design": design.ref}
    return facts, f"{design.title} for {wearer.ref}.", garment.findings
