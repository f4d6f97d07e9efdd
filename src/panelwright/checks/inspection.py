"""All checks of a cutting pattern: the drafting rules, then the wearer's side."""

from collections.abc import Callable, Iterable, Mapping

from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit
from panelwright.body.worded_length import worded_in
from panelwright.checks.allowance import check_allowances
from panelwright.checks.blend import check_blends
from panelwright.checks.bones_order import check_bones_order
from panelwright.checks.centre import check_centres
from panelwright.checks.curved_hem import check_curved_hem
from panelwright.checks.cut_count import check_cut_counts
from panelwright.checks.fold import check_folds
from panelwright.checks.grain import check_grains
from panelwright.checks.high_hem import check_high_hem
from panelwright.checks.level_girth import check_level_girths
from panelwright.checks.narrow_strap import check_narrow_straps
from panelwright.checks.notch import check_notches
from panelwright.checks.outline import check_outlines
from panelwright.checks.references import check_references
from panelwright.checks.seam_length import check_seam_lengths
from panelwright.checks.sewn_allowance import check_sewn_allowances
from panelwright.checks.sewn_edge import check_sewn_edges
from panelwright.checks.short_seam import check_short_seams
from panelwright.checks.sleeve_width import check_sleeve_width
from panelwright.checks.strap_end import check_strap_ends
from panelwright.checks.tied_closure import check_tied_closures
from panelwright.checks.turning_through import check_turning_through
from panelwright.checks.waist_seam import check_waist_seam
from panelwright.checks.wearer_back_edge import check_back_edge
from panelwright.checks.wearer_ease import check_ease
from panelwright.checks.wearer_estimates import check_estimates
from panelwright.checks.wearer_neckline import check_neckline
from panelwright.checks.wearer_pressure import check_pressure
from panelwright.checks.wearer_putting_on import check_putting_on
from panelwright.checks.wearer_strain import check_strain
from panelwright.checks.wearer_support import check_support
from panelwright.checks.wearer_workings import check_workings
from panelwright.checks.wearing import Wearing
from panelwright.checks.zip_sold import check_zips_sold
from panelwright.finding import Finding, Severity
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.pattern.pattern import Pattern

Rule = Callable[[CuttingPattern], tuple[Finding, ...]]

# In the order of docs/pattern-file.md, rules 2 to 10.
DRAFTING_RULES: tuple[Rule, ...] = (
    check_outlines,
    check_level_girths,
    check_seam_lengths,
    check_sewn_edges,
    check_notches,
    check_folds,
    check_centres,
    check_blends,
    check_allowances,
    check_grains,
    check_cut_counts,
)
SEVERITIES: tuple[Severity, ...] = ("error", "warning", "advice")


def check_drafting(cutting: CuttingPattern, unit: Unit = Unit.CM) -> tuple[Finding, ...]:
    """What breaks the ten rules of docs/pattern-file.md. A correct pattern has no such finding.

    A fault of the first rule (ids, references, numbers) leaves the others without ground: then it stands alone.

    Args:
        unit: of the lengths that people read.
    """
    return check_references(cutting) or _drawn(cutting, unit)


def check(
    cutting: CuttingPattern,
    wearer: Measurements | None = None,
    wearing: Wearing | None = None,
    strain: Mapping[str, float] | None = None,
    given: tuple[Finding, ...] = (),
    block: Pattern | None = None,
) -> tuple[Finding, ...]:
    """Every finding about a cutting pattern, errors first, then warnings, then advice.

    Args:
        wearer: the wearer's measurements; without them the girths that the levels state are held against.
        wearing: cloth, bones and the unit of the wording; woven, unboned and centimetres by default.
        strain: block panel -> 95th percentile of its length strain (`Block.strain_p95`).
        given: findings of earlier stages (`Block.findings`), passed through.
        block: the pattern before any step (`Block.pattern`): it knows how far above a low neckline the bust lies.
    """
    found = [*check_references(cutting), *given]
    if len(found) == len(given):
        drawn = _drawn(cutting, wearing.unit if wearing else Unit.CM)
        found = [*drawn, *given, *check_wearing(cutting, wearer, wearing, strain, block)]
    return by_severity(found)


def by_severity(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Errors first, then warnings, then advice; each in the order given."""
    return tuple(sorted(findings, key=lambda finding: SEVERITIES.index(finding.severity)))


def _drawn(cutting: CuttingPattern, unit: Unit) -> tuple[Finding, ...]:
    with worded_in(unit):
        return tuple(finding for rule in DRAFTING_RULES for finding in rule(cutting))


def check_wearing(
    cutting: CuttingPattern,
    wearer: Measurements | None = None,
    wearing: Wearing | None = None,
    strain: Mapping[str, float] | None = None,
    block: Pattern | None = None,
) -> tuple[Finding, ...]:
    """What a person decides: fit, putting on, what holds it up, whether it can be sewn; arguments as in `check`."""
    pattern, wearing = cutting.pattern, wearing or Wearing()
    return (
        *check_ease(pattern, wearer, wearing),
        *check_pressure(pattern, wearing),
        *check_bones_order(pattern),
        *check_neckline(pattern, block, wearing),
        *check_back_edge(pattern, block, wearing),
        *check_high_hem(pattern, block, wearing),
        *check_short_seams(pattern, wearing),
        *check_sewn_allowances(cutting, wearing),
        *check_putting_on(pattern, wearer, wearing),
        *check_support(pattern, wearing),
        *check_tied_closures(pattern),
        *check_workings(pattern, wearing),
        *check_zips_sold(pattern, wearing),
        *check_turning_through(cutting),
        *check_narrow_straps(cutting, wearing),
        *check_strap_ends(cutting, wearing),
        *check_sleeve_width(pattern, wearing),
        *check_waist_seam(pattern, wearing),
        *check_curved_hem(cutting, wearing),
        *check_strain(pattern, strain or {}, wearing),
        *check_estimates(pattern),
    )
