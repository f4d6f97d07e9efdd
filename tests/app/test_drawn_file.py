"""The file of pieces read off paper: there and back, what a table of points becomes, and what is refused."""

import json
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from intake.drawn_pieces import drawn_patterns

from panelwright.app.drawn_file import drawn_document, load_drawn, read_drawn, save_drawn
from panelwright.errors import InputError
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.edge_ref import EdgeRef


def square(**changes: object) -> dict[str, object]:
    """A square of 10 cm on paper, typed by a ruler."""
    corners = [[0, 0], [10, 0], [10, 10], [0, 10]]
    edges = [{"points": [a, b]} for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]
    return {
        "format": "panelwright-drawn/1",
        "unit": "cm",
        "scale": 1,
        "pieces": [{"id": "P", "edges": edges}],
        **changes,
    }


@given(drawn_patterns())
@settings(max_examples=40)
def test_what_is_written_comes_back_the_same(drawn: DrawnPattern) -> None:
    assert read_drawn(json.dumps(drawn_document(drawn))) == drawn


def test_a_file_is_there_whole(tmp_path: Path) -> None:
    drawn = read_drawn(json.dumps(square()))
    save_drawn(drawn, tmp_path / "own.json")
    assert load_drawn(tmp_path / "own.json") == drawn


@pytest.mark.parametrize(
    ("unit", "scale", "ruler", "side"),
    [
        ("cm", 1, "paper", 100.0),
        ("in", 1, "paper", 254.0),
        ("cm", 4, "paper", 100.0),
        ("cm", 4, "garment", 25.0),
        ("mm", 1, "paper", 10.0),
    ],
)
def test_points_are_mm_of_the_paper(unit: str, scale: int, ruler: str, side: float) -> None:
    """A centimetre of a quarter-scale ruler is 2.5 mm of paper."""
    drawn = read_drawn(json.dumps(square(unit=unit, scale=scale, points_centimetre=ruler)))
    assert drawn.pieces[0].edges[0].curve.length == pytest.approx(side)


def test_an_allowance_is_of_the_garment_however_it_was_drawn() -> None:
    for centimetre, on_paper in (("garment", 2.5), ("paper", 10.0)):
        drawn = read_drawn(json.dumps(square(scale=4, allowance=1, allowance_centimetre=centimetre)))
        assert drawn.allowance == 10.0
        assert drawn.allowance_on_paper == on_paper


def test_an_outline_typed_clockwise_is_turned_round_with_its_seams() -> None:
    document = square(seams=[{"line": "s", "a": {"piece": "P", "edge": 1}, "b": {"piece": "P", "edge": 3}}])
    document["pieces"][0]["edges"] = [  # type: ignore[index]
        {"points": [[0, 0], [0, 10]], "line": "left"},
        {"points": [[0, 10], [10, 10]], "line": "upper"},
        {"points": [[10, 10], [10, 0]], "line": "right"},
        {"points": [[10, 0], [0, 0]], "line": "lower"},
    ]
    drawn = read_drawn(json.dumps(document))
    (piece,) = drawn.pieces
    assert [edge.line for edge in piece.edges] == ["lower", "right", "upper", "left"]
    ring = np.concatenate([edge.curve.polyline()[:-1] for edge in piece.edges])
    x, y = ring.T
    assert (x * np.roll(y, -1) - np.roll(x, -1) * y).sum() > 0
    assert (drawn.seams[0].a, drawn.seams[0].b) == (EdgeRef("P", 3), EdgeRef("P", 1))


def broken(path: str, value: object) -> str:
    """The square's file with one place of it changed: `pieces.0.edges.1.points`."""
    document = square()
    *steps, last = (int(step) if step.isdigit() else step for step in path.split("."))
    here: object = document
    for step in steps:
        here = here[step]  # type: ignore[index]
    here[last] = value  # type: ignore[index]
    return json.dumps(document)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("{}", 'format must be "panelwright-drawn/1"'),
        ('{"format": "panelwright-design/1"}', "the file holds a design, not pieces read off paper"),
        (broken("scale", 2), "scale is 2; those known are"),
        (broken("unit", "furlong"), 'unit is "furlong"'),
        (broken("ref", "Anna Maria"), 'ref "Anna Maria" cannot be used'),
        (broken("colour", 1), '"colour" is not a known field'),
        (broken("allowance", 9), "the allowance must be 0 to 6 cm, not 9 cm"),
        (broken("pieces.0.edges.1.points", [[10, 0]]), "pieces[1].edges[2].points"),
        (broken("pieces.0.edges.1.points", [[10, 0], ["x", 2]]), "pieces[1].edges[2].points[2][1] must be a number"),
        (broken("pieces.0.edges.1.points", [[10, 0], [10, 0]]), "piece P, edge 2: points 1 and 2 are in one place"),
        (
            broken("pieces.0.edges.1.points", [[10, 0], [10, 9]]),
            "edge 3 starts 10.0 mm of paper from where edge 2 ends",
        ),
        (broken("pieces.0.edges.1.cubics", [[0, 0]] * 4), "piece P, edge 2: give points or cubics, one of the two"),
        (broken("pieces.0.edges.1.kind", "dart"), 'pieces[1].edges[2].kind is "dart"'),
        (broken("pieces.0.levels", [{"id": "waist"}]), "piece P, waist: give points or cubics"),
        (broken("pieces.0.grain", [[1, 1], [1, 1]]), "piece P: a grain line has no length"),
        (
            broken("seams", [{"line": "s", "a": {"piece": "P", "edge": 9}, "b": {"piece": "P", "edge": 1}}]),
            "seam s: piece P has no edge 9",
        ),
        (
            json.dumps(square(scale=4, allowance=1)),
            "at quarter scale say what a centimetre of the allowance was",
        ),
        (broken("pieces.0.levels", [{"id": "w", "points": [[0, 1], [1, 1]]}] * 2), 'two lines in it are called "w"'),
    ],
)
def test_what_cannot_be_used_is_one_sentence(text: str, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        read_drawn(text)
    assert sentence in str(caught.value)
    assert "\n" not in str(caught.value)
