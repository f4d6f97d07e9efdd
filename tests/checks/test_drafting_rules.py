"""Each drafting rule, proved by a mutation that breaks just that thing and gives just that finding.

The limits are those of docs/pattern-file.md; the independent verifier in the folder `shared`, which knows only that
page and none of our code, must object to the same mutations by the same rules.
"""

import math
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from types import ModuleType

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pattern_mutations import (
    BESIDE,
    LIMITS,
    MUTATIONS,
    Mutation,
    both,
    cut_field,
    eased,
    edge,
    field,
    lengthen,
    pull_cut_line,
    seam,
    swing,
    turn_grain,
    with_steps,
    without_seam,
)
from plain_cutting_pattern import cutting_pattern, plain_cutting_pattern, with_facing
from verifier import load_verifier

from panelwright.checks import check_drafting
from panelwright.checks.cut_shape import cut_faults
from panelwright.finish.cut_piece import Cut, CuttingPattern
from panelwright.geometry.placement import Placement
from panelwright.output.pattern_file import pattern_to_json
from panelwright.pattern.pattern import StepRecord
from panelwright.pattern.seam import Seam


@cache
def plain() -> CuttingPattern:
    return plain_cutting_pattern(faced=False)


@cache
def faced() -> CuttingPattern:
    return plain_cutting_pattern()


@pytest.fixture(scope="module")
def verifier(shared: Path) -> ModuleType:
    return load_verifier(shared)


def rules_of(codes: set[str], repository: Path) -> set[int]:
    """The numbers of the rules that docs/findings.md gives for codes."""
    rows = (repository / "docs" / "findings.md").read_text(encoding="utf-8").splitlines()
    cells = [[cell.strip() for cell in row.strip("|").split("|")] for row in rows if row.startswith("| `")]
    numbers = {row[0].strip("`"): int(row[1]) for row in cells if row[1].isdigit()}
    return {numbers[code] for code in codes}


@pytest.mark.parametrize("make", [plain, faced])
def test_a_correct_pattern_has_no_finding(make: Callable[[], CuttingPattern]) -> None:
    assert check_drafting(make()) == ()


@pytest.mark.parametrize("name", [*MUTATIONS, *BESIDE])
def test_a_mutation_gives_just_its_finding(name: str) -> None:
    spoilt = (MUTATIONS | BESIDE)[name]
    found = check_drafting(spoilt.mutation(plain()))
    assert {finding.code for finding in found} == spoilt.codes, found


@pytest.mark.parametrize("name", MUTATIONS)
def test_the_verifier_objects_by_the_same_rules(name: str, verifier: ModuleType, repository: Path) -> None:
    spoilt = MUTATIONS[name].mutation(plain())
    ours = rules_of({finding.code for finding in check_drafting(spoilt)}, repository)
    theirs = verifier.Verifier(pattern_to_json(spoilt)).violations
    assert MUTATIONS[name].rule in ours
    assert ours == {violation.rule for violation in theirs}, "\n".join(map(str, theirs))


def test_the_verifier_passes_the_correct_pattern(verifier: ModuleType) -> None:
    assert verifier.Verifier(pattern_to_json(faced())).violations == []


@pytest.mark.parametrize("name", LIMITS)
def test_a_limit_holds_on_both_sides(name: str) -> None:
    change, within, beyond, code = LIMITS[name]
    assert check_drafting(change(within)(plain())) == ()
    assert {finding.code for finding in check_drafting(change(beyond)(plain()))} == {code}


def laced(cutting: CuttingPattern) -> CuttingPattern:
    """Closed by lacing over a gap: the centre is not edge to edge, so its angle is free."""
    pattern = cutting.pattern
    levels = tuple(replace(v, gap=60.0, body_girth=v.body_girth + 60.0) for v in pattern.levels)
    return swing("CB.hem", False, 3)(replace(cutting, pattern=replace(pattern, levels=levels)))


def pointed(cutting: CuttingPattern) -> CuttingPattern:
    """A point at the fold and a kink at a seam, both asked for."""
    for id, swung, at_end, corner in (
        ("CF", "CF.top", False, "CF.centre-front"),
        ("SF", "SF.hem", False, "SF.side"),
    ):
        cutting = edge(corner, lambda own: replace(own, pointed_end=True))(swing(swung, at_end, 3)(cutting))
        assert cutting.pattern.piece(id).edge(corner).pointed_end
    return cutting


def turned_grain(cutting: CuttingPattern) -> CuttingPattern:
    return both(with_steps(StepRecord("s2", "turn-grain", "On the bias")), turn_grain("SF", 8))(cutting)


def in_two_spans(cutting: CuttingPattern) -> CuttingPattern:
    """The same seam as two spans one after the other."""

    def change(own: Seam) -> Seam:
        a = own.a[0]
        middle = a.start + 0.3 * (a.end - a.start)
        return replace(own, a=(replace(a, end=middle), replace(a, start=middle)))

    return seam("back-princess", change)(cutting)


def one_hand(cutting: CuttingPattern) -> CuttingPattern:
    """A piece for one side of the body is cut single."""
    return both(field("SB", hand="right"), cut_field("SB", cuts=(Cut("outer", "single", 1),)))(cutting)


SENSIBLE = [laced, pointed, turned_grain, in_two_spans, one_hand, eased(0.0), eased(2.0), eased(4.0)]


@pytest.mark.parametrize("vary", SENSIBLE)
def test_a_sensible_variation_has_no_finding(vary: Mutation, verifier: ModuleType) -> None:
    varied = vary(plain())
    assert check_drafting(varied) == ()
    assert verifier.Verifier(pattern_to_json(varied)).violations == []


def test_a_fault_that_a_facing_repeats_is_told_once() -> None:
    kinked = swing("SF.hem", False, 3)(plain()).pattern
    found = check_drafting(cutting_pattern(with_facing(kinked)))
    assert [(finding.code, finding.subject) for finding in found] == [("blend", "side")]


def test_a_fault_of_the_facing_alone_is_told() -> None:
    found = check_drafting(swing("SF/facing.hem", False, 3)(faced()))
    assert [(finding.code, finding.subject) for finding in found] == [("blend", "facing/side")]
    assert {f.subject for f in check_drafting(without_seam("facing/side")(faced()))} == {
        "SF/facing.side",
        "SB/facing.side",
    }
    assert [f.subject for f in check_drafting(pull_cut_line("SB/facing.top", 0.5)(faced()))] == ["SB/facing.top"]


def test_a_piece_without_a_cutting_side_is_told() -> None:
    cut = {id: own for id, own in plain().cut.items() if id != "SB"}
    assert [(f.code, f.subject) for f in check_drafting(replace(plain(), cut=cut))] == [("unknown-reference", "SB")]
    bare = cut_field("SB", allowances={}, corners={})(plain())
    assert {(f.code, f.subject) for f in check_drafting(bare)} == {("unknown-reference", "SB")}


def test_a_finding_says_where_how_much_and_what_to_do() -> None:
    (finding,) = check_drafting(swing("SF.hem", False, 3)(plain()))
    corner = plain().pattern.piece("SF").edge("SF.hem").curve.start
    assert (finding.piece, finding.unit) == ("SF", "°")
    assert finding.at == pytest.approx(tuple(corner))
    assert finding.value == pytest.approx(3.0, abs=1e-9)
    assert finding.limit == pytest.approx(1.0)
    assert finding.message.startswith("Side front and Side back: ")
    (finding,) = check_drafting(lengthen("SB.side", 0.2)(plain()))
    assert finding.value == pytest.approx(0.2, abs=1e-6)
    assert "0.02 cm too long" in finding.message


@pytest.mark.parametrize("name", MUTATIONS)
def test_every_sentence_is_complete(name: str) -> None:
    for finding in check_drafting(MUTATIONS[name].mutation(plain())):
        assert finding.severity == "error"
        assert finding.message.endswith(".")
        assert finding.remedy.endswith(".")
        assert math.isfinite(finding.value)
        assert finding.piece is None or plain().pattern.has_piece(finding.piece)


def test_checking_again_gives_the_same_as_checking_afresh() -> None:
    """Cut lines are remembered by content: a remembered answer equals a fresh one."""
    spoilt = MUTATIONS["cut line pulled in"].mutation(plain())
    remembered = [check_drafting(c) for c in (plain(), spoilt, plain(), spoilt)]
    cut_faults.cache_clear()
    assert remembered[1::2] == [check_drafting(spoilt)] * 2
    assert remembered[0] == remembered[2] == ()


def laid(id: str, placement: Placement) -> Mutation:
    """A piece laid elsewhere with its cutting side."""

    def mutate(cutting: CuttingPattern) -> CuttingPattern:
        moved = cutting.pattern.with_pieces(cutting.pattern.piece(id).placed(placement))
        cut = replace(cutting.cut[id], cut_line=placement.points(cutting.cut[id].cut_line))
        return replace(cutting, pattern=moved, cut={**cutting.cut, id: cut})

    return mutate


@given(st.floats(-math.pi, math.pi), st.floats(-900, 900), st.floats(-900, 900))
@settings(max_examples=25)
def test_where_a_piece_lies_makes_no_difference(angle: float, x: float, y: float) -> None:
    placement = Placement(angle, x, y)
    assert check_drafting(laid("SB", placement)(plain())) == ()
    spoilt = laid("SB", placement)(pull_cut_line("SB.top", 0.5)(plain()))
    (finding,) = check_drafting(spoilt)
    (still,) = check_drafting(pull_cut_line("SB.top", 0.5)(plain()))
    assert (finding.code, finding.subject) == (still.code, still.subject)
    assert finding.value == pytest.approx(still.value, abs=0.01)
