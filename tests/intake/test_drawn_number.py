"""Edges are told by the numbers of the table, whichever way round an outline was typed."""

import json
import re
from typing import Any

import pytest
from intake.shoulder_pieces import shoulder_table

from panelwright.app.drawn_file import read_drawn
from panelwright.app.own_block import make_own_block
from panelwright.errors import InputError

Document = dict[str, Any]
BACK_PRINCESS = {"line": "back-princess", "a": {"piece": "CB", "edge": 2}, "b": {"piece": "SB", "edge": 5}}
either_way = pytest.mark.parametrize("clockwise", [set(), {"SB"}, {"F", "CB", "SB"}], ids=["none", "SB", "all"])


def typed(clockwise: set[str], *seams: Document) -> Document:
    """The table with these seams, some of its outlines typed clockwise: the same lines in the other order.

    The seams are numbered as the table has its edges where no outline is turned.
    """
    table = shoulder_table(named=False)
    table["seams"] = [{**seam, **{side: _numbered(seam[side], clockwise) for side in "ab"}} for seam in seams]
    for piece in table["pieces"]:
        if piece["id"] in clockwise:
            piece["edges"] = [{**edge, "points": edge["points"][::-1]} for edge in piece["edges"][::-1]]
    return table


def _numbered(side: Any, clockwise: set[str]) -> Any:
    if isinstance(side, list):
        return [_numbered(edge, clockwise) for edge in side]
    count = {"F": 6, "CB": 5, "SB": 5}[side["piece"]]
    return {**side, "edge": count + 1 - side["edge"]} if side["piece"] in clockwise else side


def sewn(table: Document) -> set[frozenset[tuple[Any, ...]]]:
    """The two sides of every seam of the block by what no typing changes: their lengths, to 0.1 mm."""
    pattern = make_own_block(read_drawn(json.dumps(table))).pattern
    ends = [{(span.piece, span.edge) for span in (*seam.a, *seam.b)} for seam in pattern.seams]
    return {frozenset((p, round(pattern.piece(p).edge(e).curve.length, 1)) for p, e in pair) for pair in ends}


@either_way
def test_whoever_confirms_a_suggestion_as_it_is_told_sews_the_edges_that_were_suggested(clockwise: set[str]) -> None:
    table = typed(clockwise)
    block = make_own_block(read_drawn(json.dumps(table)))
    messages = [finding.message for finding in block.findings if finding.code.startswith("seam-suggested")]
    told = [re.match(r"(\w+), edge (\d), is taken to be sewn to (\w+), edge (\d), as", each) for each in messages]
    assert len(told) > 1
    for k, match in enumerate(told):
        assert match is not None
        p, a, q, b = match.groups()
        seam = {"a": {"piece": p, "edge": int(a)}, "b": {"piece": q, "edge": int(b)}}
        table["seams"].append({"line": f"told-{k}", **seam})
    assert sewn(table) == sewn(typed(clockwise))


@either_way
def test_an_edge_without_a_name_is_called_by_its_number_in_the_table(clockwise: set[str]) -> None:
    """Those before a divided one and those after it."""
    shoulder = shoulder_table(named=False)["seams"]
    table = typed(clockwise, *shoulder, BACK_PRINCESS)
    pattern = make_own_block(read_drawn(json.dumps(table))).pattern
    labels = {line.id: line.label for line in pattern.lines}
    unnamed = 0
    for piece in table["pieces"]:
        for number, edge in enumerate(piece["edges"], 1):
            own = f"{piece['id']}-edge-{number}"
            found = [each for each in pattern.piece(piece["id"]).edges if each.line == own]
            for each in found:
                assert labels[own] == f"Edge {number}"
                chord = [a - b for a, b in zip(edge["points"][0], edge["points"][-1], strict=True)]
                width, height = (float(x) for x in each.curve.chord)
                assert (abs(width), abs(height)) == pytest.approx([abs(x) for x in chord], abs=0.01)
                unnamed += 1
    assert unnamed == 3  # neckline and armhole of F, armhole of SB; the others are tops, hems, centres and seams


@pytest.mark.parametrize(
    ("seams", "sentence"),
    [
        (
            [{"line": "odd", "a": {"piece": "SB", "edge": 5}, "b": {"piece": "F", "edge": 6}}],
            "piece SB, edge 1 is in two",
        ),
        (
            [{"line": "s", "a": {"piece": "F", "edge": 4}, "b": [{"piece": "SB", "edge": 4}] * 2}],
            "seam s: piece SB, edge 2 is in it twice",
        ),
    ],
)
def test_what_is_refused_is_named_as_it_was_typed(seams: list[Document], sentence: str) -> None:
    """SB has five edges: its fifth from below, typed clockwise, is its first."""
    with pytest.raises(InputError, match=sentence):
        make_own_block(read_drawn(json.dumps(typed({"SB"}, BACK_PRINCESS, *seams))))


@either_way
def test_an_edge_too_short_for_its_allowance_is_named_as_it_was_typed(clockwise: set[str]) -> None:
    table = typed(clockwise)
    table["allowance"] = 60.0
    hem = 1 if "CB" not in clockwise else 5  # 110 mm wide, less 60 mm at either end
    with pytest.raises(InputError, match=f"piece CB: edge {hem} is too short"):
        make_own_block(read_drawn(json.dumps(table)))
