"""An edge that is sewn to several is divided where those meet; lengths are measured on the written file."""

import json
import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from intake.shoulder_pieces import CENTRE_BACK_SHOULDER, FRONT_SHOULDER, SIDE_BACK_SHOULDER, shoulder_table
from measured_pattern import MeasuredPattern, length
from verifier import violations

from panelwright.app.drawn_file import drawn_document, read_drawn
from panelwright.app.own_block import OwnBlock, make_own_block
from panelwright.body.units import Unit
from panelwright.errors import InputError
from panelwright.finding import Finding
from panelwright.intake.divided import divided
from panelwright.intake.edge_ref import EdgeRef
from panelwright.output.pattern_document import pattern_to_json

PARTS = [math.dist(*CENTRE_BACK_SHOULDER), math.dist(*SIDE_BACK_SHOULDER)]
WHOLE = math.dist(*FRONT_SHOULDER)


def own(true: bool = False, **how: object) -> OwnBlock:
    return make_own_block(read_drawn(json.dumps(shoulder_table(**how))), true=true)  # type: ignore[arg-type]


def mirrored_table(table: dict[str, Any], mirrored: set[str]) -> dict[str, Any]:
    """The table with these pieces drawn for the other half of the body: their outlines run clockwise."""
    for edge in [
        x for piece in table["pieces"] if piece["id"] in mirrored for x in (*piece["edges"], *piece["levels"])
    ]:
        edge["points"] = [[-x, y] for x, y in edge["points"]]
    return table


def division_of(table: dict[str, Any]) -> tuple[Finding, str]:
    """What is told, the back princess seam stated, and the part that lies at the front's neckline."""
    if not any(seam["line"] == "back-princess" for seam in table["seams"]):
        table["seams"].append(
            {"line": "back-princess", "a": {"piece": "CB", "edge": 2}, "b": {"piece": "SB", "edge": 5}}
        )
    block = make_own_block(read_drawn(json.dumps(table)))
    (told,) = (finding for finding in block.findings if finding.code == "edge-divided")
    shoulders = [edge for edge in block.pattern.piece("F").edges if edge.line == "shoulder"]
    at_neck = max(shoulders, key=lambda edge: edge.curve.points[:, 1].max()).id  # it slopes down to the armhole
    sewn = [{span.edge for span in (*seam.a, *seam.b)} for seam in block.pattern.seams]
    (part,) = next(pair for pair in sewn if at_neck in pair) - {at_neck}
    return told, part.partition(".")[0]


def measured(block: OwnBlock) -> MeasuredPattern:
    return MeasuredPattern(pattern_to_json(block.cutting))


@pytest.mark.parametrize("parts", [("CB", "SB"), ("SB", "CB")])
@pytest.mark.parametrize("named", [True, False])
def test_the_whole_edge_is_divided_in_the_share_of_its_parts(parts: tuple[str, ...], named: bool) -> None:
    """In whichever order they are written: neckline and armhole tell it, or the princess seam that was found."""
    block = own(parts=parts, named=named)
    pattern = measured(block)
    stretches = [pattern.edge(id) for id in ("F.shoulder", "F.shoulder-2")]
    for stretch, part in zip(stretches, PARTS, strict=True):
        assert length(stretch) == pytest.approx(WHOLE * part / sum(PARTS), abs=1e-3)
    assert (stretches[0][-1] == stretches[1][0]).all()
    sewn = {frozenset(span["edge"] for side in "ab" for span in seam[side]) for seam in pattern.document["seams"]}
    assert {frozenset(("F.shoulder", "CB.shoulder")), frozenset(("F.shoulder-2", "SB.shoulder"))} <= sewn
    (told,) = (finding for finding in block.findings if finding.code == "edge-divided")
    assert told.severity == "advice"
    assert told.message == (
        "Front: its shoulder edge is sewn to those of Centre back and Side back, in this order; it is divided 5.0 cm "
        f"from {'the neckline' if named else 'edge 3'}, in the share of their lengths."
    )
    assert ("F-edge-5" in {line.id for line in block.pattern.lines}) is not named  # numbered as it was drawn
    assert told.piece == "F"
    assert told.at == pytest.approx(tuple(stretches[0][-1]), abs=1e-3)
    assert told.value == pytest.approx(PARTS[0] / sum(PARTS), abs=1e-4)


@pytest.mark.parametrize("ease", [0.0, 8.0])
def test_it_is_trued_like_any_seam_and_each_part_gets_its_share_of_the_ease(ease: float, shared: Path) -> None:
    block = own(true=True, ease=ease)
    document = pattern_to_json(block.cutting)
    assert violations(shared, document) == []
    pattern = MeasuredPattern(document)
    for front, back, part in zip(("F.shoulder", "F.shoulder-2"), ("CB", "SB"), PARTS, strict=True):
        off = length(pattern.edge(f"{back}.shoulder")) - length(pattern.edge(front))
        assert off == pytest.approx(ease * part / sum(PARTS), abs=0.02)
    assert [finding.message for finding in block.findings if finding.severity == "error"] == []


@pytest.mark.parametrize("left", ["armhole", "neckline"])
def test_beside_an_edge_that_is_left_the_shoulder_s_corner_stays_and_the_back_comes_to_it(left: str) -> None:
    """No level crosses a shoulder: it is measured from the end that stays."""
    table = shoulder_table()
    edge = next(edge for edge in table["pieces"][0]["edges"] if edge["line"] == left)
    edge["as_drawn"] = True
    block = make_own_block(read_drawn(json.dumps(table)), true=True)
    pattern = measured(block)
    for front, back in (("F.shoulder", "CB.shoulder"), ("F.shoulder-2", "SB.shoulder")):
        assert length(pattern.edge(front)) == pytest.approx(length(pattern.edge(back)), abs=0.02)
    neck, arm = ((x, y - 100.0) for x, y in FRONT_SHOULDER)  # the waist comes to lie at 0
    stays, corner = {
        "neckline": (pattern.edge("F.shoulder")[0], neck),
        "armhole": (pattern.edge("F.shoulder-2")[-1], arm),
    }[left]
    assert math.dist(stays, corner) < 1e-6


def test_a_mirrored_drawing_is_divided_alike() -> None:
    """Drawn for the left half, its outline typed clockwise as the pieces of the right half run."""
    table = mirrored_table(shoulder_table(), {"F", "CB", "SB"})
    mirrored = make_own_block(read_drawn(json.dumps(table)))
    pattern = measured(mirrored)
    sewn = [{span["edge"] for side in "ab" for span in seam[side]} for seam in pattern.document["seams"]]
    (front,) = next(edges for edges in sewn if "CB.shoulder" in edges) - {"CB.shoulder"}
    assert length(pattern.edge(front)) == pytest.approx(WHOLE * PARTS[0] / sum(PARTS), abs=1e-3)
    (told,) = (finding for finding in mirrored.findings if finding.code == "edge-divided")
    assert "Side back and Centre back, in this order; it is divided 7.5 cm from the armhole" in told.message


@pytest.mark.parametrize("parts", [("CB", "SB"), ("SB", "CB")])
@pytest.mark.parametrize("mirrored", [{"CB"}, {"SB"}], ids="".join)
def test_one_part_drawn_for_the_half_of_the_whole_edge_is_enough(mirrored: set[str], parts: tuple[str, ...]) -> None:
    """Centre back lies at the neckline, whichever other piece was drawn for the left half."""
    told, at_neck = division_of(mirrored_table(shoulder_table(parts, named=False), mirrored))
    assert (told.severity, at_neck) == ("advice", "CB")


@pytest.mark.parametrize("named", [True, False])
@pytest.mark.parametrize("mirrored", [{"F"}, {"CB", "SB"}], ids=["F", "CB+SB"])
def test_parts_drawn_for_the_other_half_are_questioned_where_no_line_tells(mirrored: set[str], named: bool) -> None:
    """And the other written order, which the remedy asks for, lays Centre back at the neckline."""
    both = []
    for parts in (("CB", "SB"), ("SB", "CB")):
        told, at_neck = division_of(mirrored_table(shoulder_table(parts, named), mirrored))
        both.append(at_neck)
        assert told.severity == ("advice" if named else "warning")
        assert ("Which of them lies first, the pieces do not tell." in told.message) is not named
    assert both == ["CB", "CB"] if named else set(both) == {"CB", "SB"}


def test_where_nothing_tells_which_part_lies_first_the_order_is_kept_and_questioned() -> None:
    drawn = read_drawn(json.dumps(shoulder_table(parts=("SB", "CB"), named=False)))
    alone = divided(drawn)
    (division,) = alone.divisions
    assert not division.is_sure
    assert [part.piece for part in division.shared.parts] == ["SB", "CB"]
    assert division.places == pytest.approx([WHOLE * PARTS[1] / sum(PARTS)], abs=1e-6)
    assert alone.was[EdgeRef("F", 4)] == EdgeRef("F", 3)
    assert alone.was[EdgeRef("F", 6)] == EdgeRef("F", 5)
    assert [(seam.a.number, seam.b.piece) for seam in alone.pattern.seams] == [(6, "SB"), (3, "SB"), (4, "CB")]


def test_the_file_gives_the_same_back_whichever_side_is_the_list() -> None:
    table = shoulder_table(ease=5.0)
    drawn = read_drawn(json.dumps(table))
    assert read_drawn(json.dumps(drawn_document(drawn))) == drawn
    seam = table["seams"][1]
    seam["a"], seam["b"], seam["ease"] = seam["b"], seam["a"], -5.0
    assert read_drawn(json.dumps(table)) == drawn


def test_numbers_are_those_that_were_drawn_though_an_edge_before_is_divided() -> None:
    """F's side is its edge 6, before and after the shoulder, edge 4, is divided."""
    drawn = read_drawn(json.dumps(shoulder_table()))
    block = make_own_block(replace(drawn, seams=drawn.seams[1:]))
    (suggestion,) = block.suggestions
    assert {(side.piece, side.number + 1) for side in suggestion.seam.edges} == {("F", 6), ("SB", 2)}
    assert block.paper.drawn_at["F.side"] == EdgeRef("F", 5)
    assert block.paper.drawn_at["F.shoulder-2"] == EdgeRef("F", 3)


def test_lengths_are_told_in_inches_to_whoever_measures_in_inches() -> None:
    block = make_own_block(read_drawn(json.dumps(shoulder_table())), unit=Unit.INCH)
    (told,) = (finding for finding in block.findings if finding.code == "edge-divided")
    assert "divided 1 15/16 in from the neckline" in told.message  # 49.9 mm is 1.966 in


@pytest.mark.parametrize(
    ("b", "sentence"),
    [
        ([{"piece": "CB", "edge": 3}, {"piece": "CB", "edge": 3}], "seam shoulder: piece CB, edge 3 is in it twice"),
        ([{"piece": "CB", "edge": 3}, {"piece": "SB", "edge": 2}], "piece SB, edge 2 is in two seams, side and"),
        ([{"piece": "CB", "edge": 3}, {"piece": "SB", "edge": 9}], "seam shoulder: piece SB has no edge 9"),
        ([], "seams[2].b"),
    ],
)
def test_what_cannot_be_shared_is_one_sentence(b: list[object], sentence: str) -> None:
    table = shoulder_table()
    table["seams"][1]["b"] = b
    with pytest.raises(InputError) as told:
        make_own_block(read_drawn(json.dumps(table)))
    assert sentence in str(told.value)


def test_several_edges_on_both_sides_are_refused() -> None:
    table = shoulder_table()
    table["seams"][1]["a"] = [{"piece": "F", "edge": 4}, {"piece": "F", "edge": 6}]
    with pytest.raises(InputError, match="seam shoulder: both sides are several edges; one side of a seam is one edge"):
        read_drawn(json.dumps(table))
