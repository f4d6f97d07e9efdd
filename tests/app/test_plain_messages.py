"""What people read about designs with something wrong: in the words of the page, and in their own unit."""

import ast
import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from app.broken_designs import FAILING, FOUND, Record

import panelwright
from panelwright.app.board_pattern import board_finding
from panelwright.app.design_file import read_design
from panelwright.app.drawn_design import DrawnDesign, draw_design
from panelwright.app.garment_design import GarmentDesign
from panelwright.blocks.block import Block
from panelwright.blocks.make_block import make_block
from panelwright.blocks.options import BlockOptions
from panelwright.body.size_table import size
from panelwright.body.units import Unit, parse_length
from panelwright.file_words import in_file, without_file_words

# What only someone who writes files knows: names of fields, what is written in them, uids, codes of pieces.
OF_FILES = re.compile(
    r'_cm\b|_mm\b|\w_\w|": |of kind|\{|\b[nhcbst]-[1-7]\b|\bpiece (CF|SF|SB|CB)\b|\w/\w|front-princess'
)
CM = re.compile(r"(-?\d+(?:\.\d+)?) cm")
INCH = re.compile(r"((?:\d+ )?\d+/16|(?:\d+ )?\d+/8|(?:\d+ )?\d+/[24]|\d+) in\b")

SOURCE = Path(panelwright.__file__).parent


@cache
def block(options: BlockOptions) -> Block:
    return make_block(size(88), options)


def drawn(document: Record, unit: Unit) -> DrawnDesign:
    design: GarmentDesign = read_design(json.dumps(document))
    return draw_design(design, block(design.block_options), unit)


def reasons(document: Record, unit: Unit) -> list[str]:
    return [text for outcome in drawn(document, unit).outcomes for text in (outcome.reason, outcome.cuts_off) if text]


@pytest.mark.parametrize("number", range(len(FAILING)))
def test_a_step_that_failed_is_told_in_plain_words(number: int) -> None:
    told = reasons(FAILING[number], Unit.CM)
    assert told
    for reason in map(without_file_words, told):
        assert not OF_FILES.search(reason), reason
        assert "(in a file" not in reason


@pytest.mark.parametrize("number", range(len(FAILING)))
def test_a_step_that_failed_is_told_in_inches_on_request(number: int) -> None:
    in_cm, in_inches = reasons(FAILING[number], Unit.CM), reasons(FAILING[number], Unit.INCH)
    assert len(in_cm) == len(in_inches)
    for one, other in zip(in_cm, in_inches, strict=True):
        assert not CM.search(other), other
        told = [float(value) * 10 for value in CM.findall(one)]
        again = [parse_length(f"{value} in") for value in _inches(other)]
        assert again == pytest.approx(told, abs=25.4 / 16 + 0.5), (one, other)


def _inches(sentence: str) -> list[str]:
    """Every length of a sentence; sixteenths are written as fractions that a file takes."""
    return INCH.findall(sentence.replace("less than 1/16 in", "0 in"))


@pytest.mark.parametrize("number", range(len(FOUND)))
def test_findings_of_the_page_are_in_plain_words(number: int) -> None:
    findings = drawn(FOUND[number], Unit.CM).findings
    told = [board_finding(finding) for finding in findings if finding.code != "estimated"]
    assert told
    for each in told:
        for text in (each["message"], each["remedy"]):
            assert isinstance(text, str)
            assert not OF_FILES.search(text), text


def test_whoever_writes_files_is_told_the_field() -> None:
    findings = {finding.code: finding for finding in drawn(FOUND[0], Unit.CM).findings}
    assert '(in a file: block.ease_cm, "waist")' in findings["tight"].remedy
    assert "(in a file: a step of kind bones)" in findings["unboned-strapless"].remedy


def test_words_for_a_file_can_be_left_away() -> None:
    assert without_file_words(f"Add bones{in_file('a step of kind bones')}, or not (as you like).") == (
        "Add bones, or not (as you like)."
    )


# What makes sentences for people; what reads files speaks of files.
SPEAKING = ("blocks", "body", "checks", "design", "finish", "lay")
READING = re.compile(r"_(file|form|record|table)\.py$")
NAMES_OF_FILES = re.compile(r"\w_\w|\b(block|finish|wearing)\.[a-z]|\bof kind [a-z]|--[a-z]|\.json\b")


def sentences(file: Path) -> Iterator[str]:
    """Every text with a space in a module, but its docstrings and what is said for files alone."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    apart: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr):
            apart.add(id(node.value))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "in_file":
            apart.update(map(id, ast.walk(node)))
    texts = (node for node in ast.walk(tree) if isinstance(node, ast.Constant) and id(node) not in apart)
    for text in texts:
        if isinstance(text.value, str) and " " in text.value.strip():
            yield text.value


@pytest.mark.parametrize("package", SPEAKING)
def test_no_sentence_speaks_of_files_but_where_it_is_marked(package: str) -> None:
    files = [file for file in (SOURCE / package).rglob("*.py") if not READING.search(file.name)]
    assert files
    told = [text for file in files for text in sentences(file)]
    assert [text for text in told if NAMES_OF_FILES.search(text)] == []
