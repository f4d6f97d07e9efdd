"""The pattern file: what is written comes back equal, obeys the published schema, and bad files get a sentence each."""

import copy
import errno
import json
import os
from collections.abc import Callable
from dataclasses import fields, replace
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import numpy as np
import pytest
from plain_cutting_pattern import plain_cutting_pattern

from panelwright import saved_file
from panelwright.checks import check
from panelwright.errors import InputError, OutputError
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.geometry.placement import Placement
from panelwright.output import pattern_file
from panelwright.output.pattern_file import pattern_to_json, read_pattern, write_pattern
from panelwright.output.pattern_record import pattern_schema
from panelwright.pattern.closure import Closure
from panelwright.pattern.mark import Mark
from panelwright.pattern.material import Region
from panelwright.pattern.notion import Notion
from panelwright.pattern.pattern import StepRecord
from panelwright.pattern.piece import Piece
from panelwright.pattern.working import Part, Working


@cache
def plain() -> CuttingPattern:
    return plain_cutting_pattern()


def rich() -> CuttingPattern:
    """The plain pattern with something in every field: steps, a point, a mirrored region, part spans, odd floats."""
    cutting = plain()
    pattern = cutting.pattern

    def change(piece: Piece) -> Piece:
        region = Region("SF", Placement(0.1 + 0.2, -1e-17, 3.3, True), ((0.1, 0.2), (1 / 3, 2.0), (5.0, -0.0)))
        edges = tuple(
            replace(edge, interval=(0.1, 10 / 3), pointed_end=edge.line == "top") if edge.line == "side" else edge
            for edge in piece.edges
        )
        marks = (*piece.marks, Mark("drill-1", "drill", (1 / 7, -2 / 7)))
        return replace(piece, material=(region, Region("SB")), edges=edges, marks=marks)

    side = pattern.seam("side")
    a = side.a[0]
    share = 0.7310585786300049
    parts = (replace(a, end=share), replace(a, start=share))
    seams = tuple(replace(s, a=parts, master="a") if s.id == "side" else s for s in pattern.seams)
    lines = tuple(replace(line, origin="s1") if line.id == "hem" else line for line in pattern.lines)
    pattern = replace(
        pattern.with_pieces(*map(change, pattern.pieces)),
        seams=seams,
        lines=lines,
        estimated=("stature",),
        design="d-1",
        title="Laternenträger’s bodice",
        steps=(StepRecord("s1", "hem", "Säum"),),
        closures=(
            Closure("s1", "centre-back", "zip", "invisible", "centre", "centre-back", 0.0, 1000 / 3),
            Closure("s2", "side", "lacing", "", "left", "", 0.1 + 0.2, 90.0, False, False, 40.0, 12.5, 1 / 7),
        ),
        notions=(
            Notion("zip", "invisible zip", 1, 1000 / 3, "s1", "let into the centre back", "s1/length"),
            Notion("hook", "hook and eye", 12),
        ),
        workings=(
            Working(
                "s1/length",
                "Zip",
                (Part("opening", 1000 / 3), Part("off", -1 / 7)),
                300.0,
                5.0,
                7.5,
                "n",
                "r",
                1001 / 3,
            ),
            Working("s2/cord", "Cord", (Part("worn", 2000.0),)),
        ),
    )
    return replace(cutting, pattern=pattern)


def mirrored() -> CuttingPattern:
    """The centre front turned over: its fold at x = -0.0 must not spoil equality."""
    cutting = plain_cutting_pattern(faced=False)
    turned = cutting.pattern.piece("CF").placed(Placement(mirrored=True))
    return replace(cutting, pattern=cutting.pattern.with_pieces(turned))


def assert_same(one: CuttingPattern, other: CuttingPattern) -> None:
    assert one.pattern == other.pattern
    assert hash(one.pattern) == hash(other.pattern)
    assert one.notches == other.notches
    assert one.cut.keys() == other.cut.keys()
    for id, cut in one.cut.items():
        for field in fields(cut):
            a, b = getattr(cut, field.name), getattr(other.cut[id], field.name)
            assert np.array_equal(a, b) if field.name == "cut_line" else a == b


@pytest.mark.parametrize("make", [plain, rich, mirrored])
def test_what_is_written_comes_back_equal(make: Callable[[], CuttingPattern], tmp_path: Path) -> None:
    path = tmp_path / "pattern.json"
    write_pattern(make(), (), path)
    assert_same(read_pattern(path), make())
    assert_same(read_pattern(path.read_bytes()), make())
    assert pattern_to_json(read_pattern(path)) == json.loads(path.read_bytes())


def test_writing_twice_gives_the_same_bytes(tmp_path: Path) -> None:
    for name in ("a.json", "b.json"):
        write_pattern(rich(), check(rich()), tmp_path / name)
    assert (tmp_path / "a.json").read_bytes() == (tmp_path / "b.json").read_bytes()


def test_findings_are_written_and_checked_anew_when_read(tmp_path: Path) -> None:
    found = check(plain())
    write_pattern(plain(), found, tmp_path / "p.json")
    written = json.loads((tmp_path / "p.json").read_bytes())["findings"]
    assert [(entry["code"], entry["severity"], entry["message"]) for entry in written] == [
        (finding.code, finding.severity, finding.message) for finding in found
    ]
    assert check(read_pattern(tmp_path / "p.json")) == found


# The schema


def published() -> dict[str, Any]:
    return json.loads(files("panelwright.output").joinpath("pattern.schema.json").read_text(encoding="utf-8"))


def test_the_published_schema_is_the_one_that_reading_uses() -> None:
    assert published() == pattern_schema()
    jsonschema.Draft202012Validator.check_schema(published())


@pytest.mark.parametrize("make", [plain, rich, mirrored])
def test_what_is_written_obeys_the_schema(make: Callable[[], CuttingPattern]) -> None:
    given = Finding("seam-off-body", "advice", "side", 4.0, 3.0, "m", "r", "SF", (1.0, 2.0))
    jsonschema.Draft202012Validator(published()).validate(pattern_to_json(make(), (*check(make()), given)))


def test_the_contracts_fields_are_required_and_ours_are_not() -> None:
    # The fields of docs/pattern-file.md, version 1, as the contract shows them.
    contract = {
        "PatternRecord": "format unit wearer design lines levels pieces seams notches pointed findings",
        "WearerRecord": "ref estimated",
        "DesignRecord": "ref steps",
        "StepEntry": "uid kind label",
        "LineRecord": "id origin label",
        "LevelRecord": "id body_girth ease gap overlap finished_girth path",
        "LevelSpanRecord": "piece inside times",
        "PieceRecord": "id label layer derived_from extent hand cut vertices edges cut_line cut_spans inside "
        "grain marks",
        "CutRecord": "cloth mode count",
        "EdgeRecord": "id line kind v controls allowance corner_at_end",
        "CutSpanRecord": "edge from to",
        "InsideRecord": "id kind bezier",
        "MarkRecord": "id kind at",
        "SeamRecord": "id kind a b ratio ease blend",
        "SpanRecord": "piece edge from to hand",
        "NotchRecord": "id seam at_a at_b count level",
        "PointedRecord": "piece vertex",
        "FindingRecord": "code severity subject value limit at remedy",
    }
    schema = published()
    for name, names in contract.items():
        record = schema if name == "PatternRecord" else schema["$defs"][name]
        assert sorted(record["required"]) == sorted(names.split()), name


def bare(document: dict[str, Any]) -> dict[str, Any]:
    """The document with the contract's fields only."""
    schema = published()

    def strip(value: Any, node: dict[str, Any]) -> Any:
        node = schema["$defs"][node["$ref"].rpartition("/")[2]] if "$ref" in node else node
        if node.get("type") == "array" and "items" in node:
            return [strip(entry, node["items"]) for entry in value]
        if node.get("type") == "object":
            return {key: strip(value[key], node["properties"][key]) for key in node["required"]}
        return value

    return strip(document, schema)


def test_a_file_with_the_contracts_fields_only_can_be_read() -> None:
    document = bare(pattern_to_json(plain()))
    assert "region" not in document["seams"][0]
    assert "side" not in document["pieces"][0]["edges"][0]
    read = read_pattern(json.dumps(document).encode())
    # All that the contract carries is there, and our own fields have been read from it.
    assert bare(pattern_to_json(read)) == document
    assert [seam.region for seam in read.pattern.seams] == [seam.region for seam in plain().pattern.seams]
    for piece in plain().pattern.pieces:
        for edge in piece.edges:
            assert read.pattern.piece(piece.id).edge(edge.id).side == edge.side
    assert [v.height for v in read.pattern.levels] == pytest.approx([v.height for v in plain().pattern.levels])
    assert [f.code for f in check(read)] == [f.code for f in check(plain())]


def test_a_file_from_before_closures_can_be_read() -> None:
    """Files of the first version have no closures, notions or workings: none is what they mean."""
    document = pattern_to_json(rich())
    for field in ("closures", "notions", "workings", "fitting"):
        del document[field]
    read = read_pattern(json.dumps(document).encode()).pattern
    assert (read.closures, read.notions, read.workings, read.fitting) == ((), (), (), ())
    assert replace(rich().pattern, closures=(), notions=(), workings=()) == read


def test_a_closure_whose_edges_part_spreads_null() -> None:
    """JSON has no infinity (RFC 8259, section 6)."""
    document = pattern_to_json(rich())
    assert [closure["spreads"] for closure in document["closures"]] == [None, 1 / 7]
    assert "Infinity" not in json.dumps(document)


def test_fields_beyond_the_contract_are_passed_over() -> None:
    document = pattern_to_json(plain()) | {"theirs": [1]}
    document["pieces"][0]["theirs"] = {"a": 1}
    jsonschema.Draft202012Validator(published()).validate(document)
    assert_same(read_pattern(json.dumps(document).encode()), plain())


# Bad files


def put(*path: Any) -> Callable[[dict[str, Any]], None]:
    *keys, last, value = path

    def change(document: dict[str, Any]) -> None:
        target: Any = document
        for key in keys:
            target = target[key]
        target[last] = value

    return change


def drop(*path: Any) -> Callable[[dict[str, Any]], None]:
    def change(document: dict[str, Any]) -> None:
        target: Any = document
        for key in path[:-1]:
            target = target[key]
        del target[path[-1]]

    return change


HAIRPIN = [[400.0, -290.0], [-300.0, -290.0]]

# (change, whether the schema objects too, words of the sentence)
BAD = {
    "another format": (put("format", "pattern/9"), True, "format should be 'panelwright-pattern/1'"),
    "another unit": (put("unit", "cm"), True, "unit should be 'mm'"),
    "a list missing": (drop("levels"), True, "levels is missing"),
    "a field missing": (drop("pieces", 1, "grain"), True, "pieces[1] (SF).grain is missing"),
    "text for a number": (
        put("pieces", 1, "edges", 0, "allowance", "10"),
        True,
        "(SF.hem).allowance should be a valid number",
    ),
    "a number for a text": (put("pieces", 1, "label", 7), True, "pieces[1] (SF).label should be a valid string"),
    "true for a number": (
        put("seams", 0, "ease", True),
        True,
        "seams[0] (front-princess).ease should be a valid number",
    ),
    "null for a piece": (put("pieces", 1, None), True, "pieces[1] should be"),
    "three coordinates": (put("pieces", 1, "vertices", 0, [1, 2, 3]), True, "vertices[0]"),
    "an absurd size": (put("pieces", 1, "vertices", 0, [1e300, 0.0]), True, "should be less than or equal to 20000"),
    "a number too large": (put("levels", 0, "ease", 10**400), True, "levels[0] (bust).ease"),
    "an allowance below 0": (put("pieces", 1, "edges", 0, "allowance", -1), True, "greater than or equal to 0"),
    "an unknown kind": (
        put("pieces", 1, "edges", 0, "kind", "hem"),
        True,
        "should be 'seam', 'finished', 'fold' or 'opening'",
    ),
    "an unknown hand": (put("seams", 0, "a", 0, "hand", "left"), True, "should be 'same' or 'mirror'"),
    "a seam of one side": (put("seams", 0, "b", []), True, "seams[0] (front-princess).b"),
    "controls of no cubic": (drop("pieces", 1, "edges", 0, "controls", 0), True, "(SF.hem).controls"),
    "controls not 3n-1": (
        put("pieces", 1, "edges", 0, "controls", [[0, 0], [1, 1], [2, 2]]),
        False,
        "a chain of cubics has 3n+1 points",
    ),
    "a vertex too many": (put("pieces", 1, "edges", 0, "v", [0, 9]), False, "names vertex 9, but piece SF has 4"),
    "an open outline": (put("pieces", 1, "edges", 0, "v", [0, 2]), False, "does not start where SF.hem ends"),
    "a crossing outline": (
        put("pieces", 1, "edges", 0, "controls", HAIRPIN),
        False,
        "piece SF: its outline crosses itself",
    ),
    "two pieces of one id": (lambda d: d["pieces"].append(d["pieces"][1]), False, "two pieces share the id SF"),
    "an unknown line": (put("pieces", 1, "edges", 0, "line", "lapel"), False, "lapel, which is not a line"),
    "an unknown edge": (put("seams", 1, "a", 0, "edge", "SF.x"), False, "seam side names edge SF.x of piece SF"),
    "an unknown level line": (put("levels", 0, "path", 0, "inside", "knee"), False, "level bust names knee of CF"),
    "a span past its edge": (put("seams", 1, "a", 0, "from", 500.0), False, "stay on the edge"),
    "shares that disagree": (put("seams", 1, "a", 0, "shares", [0.9, 0.0]), False, "has other shares stated"),
    "a span of no length": (
        lambda d: d["seams"][1]["a"][0].update({"to": d["seams"][1]["a"][0]["from"], "shares": [1.0, 1.0]}),
        False,
        "a span of edge SF.side runs from 1.0 to 1.0",
    ),
    "girths that disagree": (put("levels", 0, "finished_girth", 900.0), False, "level bust is 900 mm finished, but"),
    "a cut span of another edge": (
        put("pieces", 1, "cut_spans", 0, "edge", "CF.hem"),
        False,
        "names edge CF.hem, which it has not",
    ),
    "a cut span past the line": (put("pieces", 1, "cut_spans", 0, "to", 9999), False, "ends past the"),
    "a ratio of 0": (put("seams", 0, "ratio", 0), True, "ratio should be greater than or equal to 0.001"),
    "a grain of no length": (put("pieces", 1, "grain", [[1, 1], [1, 1]]), False, "a grain line has no length"),
    "an interval beyond ten times the line": (
        put("pieces", 1, "edges", 0, "interval", [0.0, 10.1]),
        True,
        "interval[1] should be less than or equal to 10",
    ),
    "an interval turned round": (
        put("pieces", 1, "edges", 0, "interval", [0.9, 0.1]),
        False,
        "an interval runs from low to high",
    ),
}

# The same for the fields of ours that the plain pattern leaves empty.
BAD_BESIDE = {
    "a closure of an unknown kind": (put("closures", 0, "kind", "glue"), True, "closures[0] (s1).kind should be 'zip'"),
    "a closure at no place": (drop("closures", 0, "place"), True, "closures[0] (s1).place is missing"),
    "a closure that opens nothing": (put("closures", 0, "to", 0.0), False, "closure s1 opens from 0.0 to 0.0 mm"),
    "a gap below 0": (put("closures", 0, "gap", -1.0), True, "(s1).gap should be greater than or equal to 0"),
    "an endless spread": (put("closures", 0, "spreads", 1e9), True, "closures[0] (s1).spreads should be less than"),
    "none of a notion": (put("notions", 0, "count", 0), True, "notions[0].count should be greater than or equal to 1"),
    "a notion of no length": (put("notions", 0, "length", 0.0), True, "notions[0].length should be greater than 0"),
    "a notion of no kind": (put("notions", 0, "kind", "ribbon"), True, "notions[0].kind should be 'zip'"),
    "a working of no parts": (put("workings", 0, "parts", []), True, "workings[0] (s1/length).parts"),
    "a working given in words": (put("workings", 0, "given", "long"), True, "workings[0] (s1/length).given should be"),
    "two workings of one id": (put("workings", 1, "id", "s1/length"), False, "two workings share the id s1/length"),
    "a thousand parts": (
        lambda d: d["workings"][0].update(parts=d["workings"][0]["parts"] * 500),
        True,
        "workings[0] (s1/length).parts",
    ),
    "closures of no list": (put("closures", {}), True, "closures should be a valid array"),
}


@pytest.mark.parametrize("name", [*BAD, *BAD_BESIDE])
def test_a_bad_file_gets_one_clear_sentence(name: str) -> None:
    change, by_schema, words = (BAD | BAD_BESIDE)[name]
    document = copy.deepcopy(pattern_to_json(plain() if name in BAD else rich()))
    change(document)
    with pytest.raises(InputError) as error:
        read_pattern(json.dumps(document).encode())
    sentence = str(error.value)
    assert words in sentence
    assert sentence.startswith("the pattern file: ")
    assert "\n" not in sentence
    assert len(sentence) < 400
    assert (not jsonschema.Draft202012Validator(published()).is_valid(document)) == by_schema


TEXTS = {
    "nothing": (b"", "the file is empty"),
    "half a file": (b'{"format": "panelwright-pa', "line 1: a closing quote is missing"),
    "no object": (b"[1, 2]", "must hold one object in braces"),
    "an empty object": (b"{}", "format is missing"),
    "not a number": (b'{"format": NaN}', "holds NaN, which is not a number"),
    "a field twice": (b'{"unit": "mm", "unit": "cm"}', '"unit" stands twice in one object: keep one'),
    "not UTF-8": (b'{"unit": "\xff"}', "is not text in UTF-8"),
    "nested too deep": (b"[" * 100_000, "nested too deep"),
    "a number too long": (b'{"unit": ' + b"9" * 5000 + b"}", "a number is too long"),
    "half a character": (b'{"format": "\\ud800"}', "the pattern file"),
}


@pytest.mark.parametrize("name", TEXTS)
def test_what_is_no_pattern_file_gets_one_clear_sentence(name: str) -> None:
    content, words = TEXTS[name]
    with pytest.raises(InputError) as error:
        read_pattern(content)
    assert words in str(error.value)
    assert "\n" not in str(error.value)


def test_a_file_that_is_not_there_or_not_a_file(tmp_path: Path) -> None:
    with pytest.raises(InputError, match=r'there is no file "gone.json" in the folder ".*": check both names'):
        read_pattern(tmp_path / "gone.json")
    with pytest.raises(InputError, match="cannot be read"):
        read_pattern(tmp_path)
    with pytest.raises(InputError, match="is not the name of a file"):
        read_pattern(Path("a\0b"))


def test_a_file_that_is_too_large_is_not_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pattern_file, "MOST_BYTES", 1000)
    (tmp_path / "p.json").write_bytes(b" " * 1001)
    with pytest.raises(InputError, match="is larger than"):
        read_pattern(tmp_path / "p.json")


# Writing


def test_a_pattern_with_a_number_that_is_not_finite_is_not_written(tmp_path: Path) -> None:
    cut = plain().cut["SB"]
    broken = replace(plain(), cut={**plain().cut, "SB": replace(cut, cut_line=cut.cut_line * np.nan)})
    with pytest.raises(OutputError, match="a number that is not finite"):
        write_pattern(broken, (), tmp_path / "p.json")
    assert list(tmp_path.iterdir()) == []


def test_a_file_is_replaced_whole(tmp_path: Path) -> None:
    path = tmp_path / "p.json"
    path.write_text("old")
    write_pattern(plain(), (), path)
    assert_same(read_pattern(path), plain())
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (errno.ENOSPC, "there is no space left"),
        (errno.EACCES, "you have no right to write there"),
        (errno.EIO, "Input"),
    ],
)
def test_a_failed_write_leaves_the_old_file_and_nothing_else(
    number: int, words: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "p.json"
    path.write_text("old")

    def fail(_: int) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(saved_file.os, "fsync", fail)
    with pytest.raises(OutputError, match=f'"p.json" cannot be written: {words}'):
        write_pattern(plain(), (), path)
    assert path.read_text() == "old"
    assert list(tmp_path.iterdir()) == [path]


def test_a_place_that_cannot_be_written_is_named(tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    with pytest.raises(OutputError, match="a folder of that name is in the way"):
        write_pattern(plain(), (), tmp_path / "folder")
    with pytest.raises(OutputError, match="its folder is not there"):
        write_pattern(plain(), (), tmp_path / "gone" / "p.json")
    (tmp_path / "file").write_text("")
    with pytest.raises(OutputError, match="its folder is a file"):
        write_pattern(plain(), (), tmp_path / "file" / "p.json")
    with pytest.raises(OutputError, match="is not the name of a file"):
        write_pattern(plain(), (), tmp_path / "a\0b")
