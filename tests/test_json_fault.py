"""Slips in JSON are named with their line and a remedy, whichever Python reads it."""

import json

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from panelwright.errors import InputError
from panelwright.json_fault import syntax_fault
from panelwright.json_text import parse_object


def said(text: str) -> str:
    with pytest.raises(InputError) as caught:
        parse_object(text)
    return str(caught.value)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ('{"a": -71,5}', "line 1: write -71.5 with a point"),
        ('{\r\n"a": 71,25\r\n}', "line 2: write 71.25 with a point"),
        ('{"a": [1, 2], b: 3}', 'line 1: a name in straight double quotes should stand here, like "b"'),
        ('{"a": 1\n\n\n"b": 2}', "a comma is missing at the end of line 1"),
        ('{"a": 1 "b": 2}', 'line 1: a comma is missing before "b":'),
        ('{"a": [1, 2,]}', "line 1: take out the comma before the closing bracket"),
        ('{"a": 88.5cm}', "line 1: write 88.5 without its unit, or in quotes with it"),
        ('{"a": 88.5"}', "line 1: write 88.5 without its unit, or in quotes with it"),
        ('{"a": True}', 'line 1: put words in straight double quotes, like "True"'),
        ('{"title": "The bearer’s bodice", "b" 1}', "line 1: a colon is missing after the name"),
        ("{\u2018a\u2019: 1}", 'line 1: use straight quotes "'),
        ('{"a": 1', "the file breaks off in line 1: its end is missing, at the least a closing bracket"),
        ('{"a": ]}', "the file is not JSON: expecting value in line 1, column 7"),
    ],
)
def test_a_slip_is_named_with_its_remedy(text: str, sentence: str) -> None:
    assert said(text) == sentence


@given(st.text(alphabet="{}[]\":,.-01 aé“'\n\\", max_size=30))
@example('{"a": 1,}')
def test_any_fault_is_one_sentence(text: str) -> None:
    try:
        json.loads(text)
    except json.JSONDecodeError as error:
        sentence = syntax_fault(error)
        assert sentence
        assert "\n" not in sentence
        assert len(sentence) < 150


@pytest.mark.parametrize("message", ["Illegal trailing comma before end of object", "Expecting property name"])
def test_later_pythons_word_the_trailing_comma_differently(message: str) -> None:
    """Python 3.13 stops at the comma, earlier ones at the bracket after it (json module, release notes)."""
    text = '{"a": 1,}'
    place = text.index(",") + (not message.startswith("Illegal"))
    assert syntax_fault(json.JSONDecodeError(message, text, place)).endswith(
        "take out the comma before the closing bracket"
    )
