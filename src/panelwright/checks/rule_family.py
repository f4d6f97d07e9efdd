"""The ten families of drafting rules: what each looks at in a pattern, and how much of it is right."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern


@dataclass(frozen=True)
class RuleFamily:
    """One rule of docs/pattern-file.md.

    Attributes:
        rule: its number there.
        says: what holds where it is kept, in a maker's words.
        things: what it looks at, plural.
        codes: of the findings where it is broken.
        count: how many of those things a pattern has.
    """

    rule: int
    says: str
    things: str
    codes: frozenset[str]
    count: Callable[[CuttingPattern], int]


@dataclass(frozen=True)
class FamilyResult:
    """What came of one family.

    Attributes:
        family: the rule.
        looked_at: how many things.
        at_fault: how many of them have a finding, or None where the first rule left nothing to judge.
    """

    family: RuleFamily
    looked_at: int
    at_fault: int | None

    @property
    def passed(self) -> bool:
        """Whether all that was looked at is right."""
        return self.at_fault == 0


def family_results(cutting: CuttingPattern, findings: Sequence[Finding]) -> tuple[FamilyResult, ...]:
    """The result of every family, in the order of the rules, from the findings of `check`."""
    grounded = not any(finding.code in FAMILIES[0].codes for finding in findings)
    return tuple(
        FamilyResult(family, family.count(cutting), _at_fault(family, findings) if grounded or not k else None)
        for k, family in enumerate(FAMILIES)
    )


def _at_fault(family: RuleFamily, findings: Sequence[Finding]) -> int:
    return len({finding.subject for finding in findings if finding.code in family.codes})


def _pieces(cutting: CuttingPattern) -> int:
    return len(cutting.pattern.pieces)


def _names(cutting: CuttingPattern) -> int:
    pattern = cutting.pattern
    edges = sum(len(piece.edges) for piece in pattern.pieces)
    return _pieces(cutting) + edges + len(pattern.seams) + len(pattern.levels) + len(cutting.notches)


def _sewn(cutting: CuttingPattern) -> int:
    return sum(seam.kind != "closure" for seam in cutting.pattern.seams)


def _folds_and_centres(cutting: CuttingPattern) -> int:
    pattern = cutting.pattern
    folds = sum(edge.kind == "fold" for piece in pattern.pieces for edge in piece.edges)
    return folds + sum(seam.is_centre for seam in pattern.seams)


def _blends(cutting: CuttingPattern) -> int:
    return sum(seam.blend and not seam.is_centre for seam in cutting.pattern.seams)


def _codes(text: str) -> frozenset[str]:
    return frozenset(text.split())


FAMILIES: Final = (
    RuleFamily(
        1,
        "named, complete and in number",
        "parts",
        _codes("id-twice unknown-reference text-missing bad-number"),
        _names,
    ),
    RuleFamily(
        2, "closed, simple outlines", "pieces", _codes("outline-crosses corner-twice centre-front-place"), _pieces
    ),
    RuleFamily(3, "drawn as body girth and ease say", "girths", _codes("level-girth"), lambda c: len(c.pattern.levels)),
    RuleFamily(4, "two sides of one length", "seams", _codes("seam-length seam-ends unsewn-edge sewn-twice"), _sewn),
    RuleFamily(
        5,
        "notches meet when walked",
        "notches",
        _codes("notch-off-seam notch-place notch-count side-notch"),
        lambda c: len(c.notches),
    ),
    RuleFamily(
        6,
        "straight folds, square centres",
        "folds and centres",
        _codes("fold-straight fold-allowance fold-grain fold-angle centre-angle"),
        _folds_and_centres,
    ),
    RuleFamily(7, "edges run on across them", "seams", _codes("blend"), _blends),
    RuleFamily(
        8,
        "cut lines at their allowances",
        "pieces",
        _codes("cut-line-crosses cut-line-inside allowance beyond-fold"),
        _pieces,
    ),
    RuleFamily(9, "grain lines placed and long enough", "pieces", _codes("grain grain-short grain-outside"), _pieces),
    RuleFamily(10, "cut as they are drawn", "pieces", _codes("cut-count cut-mode fold-edge not-cut"), _pieces),
)
DRAFTING_CODES: Final = frozenset(code for family in FAMILIES for code in family.codes)
