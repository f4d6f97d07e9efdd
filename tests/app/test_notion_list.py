"""Notions of many garments added up by hand."""

import pytest

from panelwright.app.notion_list import NotionToBuy, notions_to_buy
from panelwright.errors import InputError
from panelwright.pattern.notion import Notion

ZIP = Notion("zip", "zip", 1, 300.0)
LONGER = Notion("zip", "zip", 1, 330.0)
HOOKS = Notion("hook", "hook and eye", 14)
CORD = Notion("cord", "lacing cord", 1, 2340.0)
BONES = Notion("bone", "spiral steel bone", 4, 275.0)
NEEDED = [
    ("A", ZIP, 1),
    ("B", LONGER, 2),
    ("C", ZIP, 3),
    ("A", HOOKS, 1),
    ("B", CORD, 2),
    ("C", CORD, 1),
    ("A", BONES, 2),
]


def rows(spare: float = 0.0) -> list[tuple[str, int, float | None, tuple[str, ...]]]:
    return [(each.name, each.count, each.length, each.marks) for each in notions_to_buy(NEEDED, {}, spare)]


def test_like_is_put_with_like() -> None:
    assert rows() == [
        ("zip", 4, 300.0, ("A", "C")),
        ("zip", 2, 330.0, ("B",)),
        ("hook and eye", 14, None, ("A",)),
        ("lacing cord", 3, 7100.0, ("B", "C")),  # 3 · 2340 = 7020, to full 10 cm
        ("spiral steel bone", 8, 275.0, ("A",)),
    ]


def test_small_things_and_what_is_cut_off_a_roll_are_bought_with_some_to_spare() -> None:
    found = {(name, length): count for name, count, length, _ in rows(0.1)}
    assert found["hook and eye", None] == 16  # 15.4
    assert ("lacing cord", 7800.0) in found  # 7722
    assert found["zip", 300.0] == 4
    assert found["spiral steel bone", 275.0] == 8


def test_prices_are_of_one_or_of_a_metre() -> None:
    costs = {
        each.name: each.cost
        for each in notions_to_buy(NEEDED, {"hook and eye": 0.1, "lacing cord": 0.5, "spiral steel bone": 0.9})
    }
    assert costs["hook and eye"] == pytest.approx(1.4)
    assert costs["lacing cord"] == pytest.approx(3.55)
    assert costs["spiral steel bone"] == pytest.approx(7.2)
    assert costs["zip"] is None


def test_a_cord_of_no_known_length_is_counted() -> None:
    (line,) = notions_to_buy([("A", Notion("cord", "lacing cord", 1), 3)], {"lacing cord": 2.0})
    assert line == NotionToBuy("cord", "lacing cord", 3, None, 2.0, ("A",))
    assert line.cost == 6.0


def test_a_price_for_what_nobody_needs_is_refused() -> None:
    with pytest.raises(InputError, match=r'no garment needs "hooks and eyes"; did you mean hook and eye\?'):
        notions_to_buy(NEEDED, {"hooks and eyes": 0.1})
    with pytest.raises(InputError, match="no garment needs notions"):
        notions_to_buy([], {"zip": 1.0})
