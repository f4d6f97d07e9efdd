"""What is wrong with a text that should be JSON, as someone who wrote it by hand can put it right."""

import json
import re
from typing import Final

_CURLY: Final = "“”„‟«»"
_CURLY_SINGLE: Final = ("\u2018", "\u2019", "\u201a")
_CLOSING: Final = "}]"
_WORD: Final = re.compile(r"[A-Za-z_][\w-]{0,39}")


def syntax_fault(error: json.JSONDecodeError) -> str:
    """One sentence without a full stop: the line, what is wrong in it and what to write."""
    text, place = error.doc, error.pos
    before, rest = text[:place], text[place:]
    if not text.strip():
        return "the file is empty"
    line = f"line {_line(text, place)}"
    if rest[:1] in _CURLY_SINGLE or any(sign in _line_of(text, place) for sign in _CURLY):
        return f'{line}: use straight quotes "'
    if error.msg.startswith(("Unterminated string", "Invalid control character")):
        return f"{line}: a closing quote is missing"
    if not rest.strip():
        return f"the file breaks off in {line}: its end is missing, at the least a closing bracket"
    written = before.rstrip()
    if error.msg.startswith("Expecting ','") and "\n" in before[len(written) :]:
        return f"a comma is missing at the end of line {_line(text, len(written))}"
    remedy = _remedy(error.msg, before, rest)
    if remedy is None:
        return f"the file is not JSON: {error.msg.lower()} in {line}, column {error.colno}"
    return f"{line}: {remedy}"


def _remedy(message: str, before: str, rest: str) -> str | None:
    """What to put right, from the text before and from the place where reading stopped."""
    number = re.search(r"(?<![\w.])(-?\d+),$", before)
    decimals = re.match(r"\d+", rest)
    if number and decimals:
        return _point(number[1], decimals[0])
    if rest[0] == "'":
        return "use double quotes instead of single ones"
    if message.startswith("Illegal trailing comma") or (before.rstrip().endswith(",") and rest[0] in _CLOSING):
        return "take out the comma before the closing bracket"
    if message.startswith("Expecting ','"):
        return _no_comma(before, rest)
    if message.startswith("Expecting ':'"):
        return "a colon is missing after the name"
    if message.startswith("Expecting property name"):
        word = _WORD.match(rest)
        example = f', like "{word[0]}"' if word else ""
        return f"a name in straight double quotes should stand here{example}"
    if message.startswith("Expecting value") and (word := _WORD.match(rest)) and before.strip():
        return f'put words in straight double quotes, like "{word[0]}"'
    if message.startswith("Extra data"):
        return "something stands after the closing bracket: take it out"
    return None


def _point(whole: str, decimals: str) -> str:
    """A comma in a number; three digits after it may be thousands."""
    if len(decimals) == 3:
        return f"write {whole},{decimals} without its comma, or with a point for it"
    return f"write {whole}.{decimals} with a point"


def _no_comma(before: str, rest: str) -> str:
    number, unit = re.search(r"(?<![\w.])-?\d+(?:\.\d+)?\s*$", before), re.match(r'[A-Za-z]{1,8}|"(?=\s*[,}\n])', rest)
    if number and unit:
        return f"write {number[0].strip()} without its unit, or in quotes with it"
    return f"a comma is missing before {rest[:12].split()[0]}"


def _line(text: str, place: int) -> int:
    return text.count("\n", 0, place) + 1


def _line_of(text: str, place: int) -> str:
    start = text.rfind("\n", 0, place) + 1
    end = text.find("\n", place)
    return text[start : end if end >= 0 else len(text)]
