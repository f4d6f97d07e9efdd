"""The garment on the body: turned by keys and buttons, the same place lit flat and worn, and its girths in words."""

import re

import pytest
from browser.conftest import Open
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import Locator, expect

FRAMES = """async () => {
  const real = window.requestAnimationFrame;
  let asked = 0;
  window.requestAnimationFrame = task => { asked += 1; return real(task); };
  await new Promise(done => setTimeout(done, 1000));
  window.requestAnimationFrame = real;
  return asked;
}"""

# Two fingers 100 px apart on the bodice move to 200 px apart, one after the other, and are lifted.
PINCH = """node => {
  node.setPointerCapture = () => {};
  const box = node.getBoundingClientRect();
  const [x, y] = [box.x + box.width / 2, box.y + box.height * 0.6];
  const touch = (kind, pointerId, clientX) => node.dispatchEvent(
    new PointerEvent(kind, { pointerId, pointerType: "touch", clientX, clientY: y, bubbles: true }));
  touch("pointerdown", 11, x - 50);
  touch("pointerdown", 12, x + 50);
  touch("pointermove", 11, x - 100);
  touch("pointermove", 12, x + 100);
  touch("pointerup", 11, x - 100);
  touch("pointerup", 12, x + 100);
}"""


def opened(workroom: ServedWorkroom, open_page: Open, title: str = "Lantern bodice, sweetheart") -> Hand:
    hand = open_page(workroom)
    hand.press(f"Open {title}")
    hand.press("Body")
    expect(figure(hand)).to_have_attribute("data-ready", "")
    return hand


def figure(hand: Hand) -> Locator:
    return hand.page.get_by_role("group", name="The garment on the body")


def test_it_turns_by_keys_and_buttons_and_then_rests(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page)
    expect(hand.button("Front")).to_have_attribute("aria-pressed", "true")
    figure(hand).focus()
    hand.keys("ArrowRight", "ArrowRight", "ArrowUp")
    expect(figure(hand)).to_have_attribute("data-round", "20")
    expect(hand.button("Front")).to_have_attribute("aria-pressed", "false")
    hand.press("Back")
    expect(figure(hand)).to_have_attribute("data-round", re.compile("^-?180$"))
    hand.see("From the back")
    figure(hand).focus()
    hand.keys("0")
    expect(figure(hand)).to_have_attribute("data-round", "0")
    assert hand.page.evaluate(FRAMES) == 0


def test_two_fingers_bring_it_closer_and_turn_it_no_more(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page)
    expect(figure(hand)).to_have_attribute("data-closer", "1.00")
    figure(hand).evaluate(PINCH)
    expect(figure(hand)).to_have_attribute("data-closer", "2.00")
    expect(figure(hand)).to_have_attribute("data-round", "0")
    expect(hand.page.locator("[data-piece].chosen")).to_have_count(0)


def test_a_place_under_the_hand_is_lit_flat_and_worn(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page)
    place, canvas = hand.page.locator("circle.place"), figure(hand).locator("canvas")
    plain = canvas.screenshot()
    hand.button("Piece Side front").hover()
    expect(place).to_be_attached()
    assert canvas.screenshot() != plain
    box = figure(hand).bounding_box()
    assert box is not None
    # Over the middle of the bodice the hand is on the centre front, and on no other piece.
    hand.page.mouse.move(box["x"] + box["width"] / 2 - 12, box["y"] + box["height"] * 0.6)
    expect(hand.page.locator("[data-piece=CF].over")).to_be_attached()
    expect(hand.page.locator("[data-piece=SF].over")).to_have_count(0)
    expect(place).to_be_attached()
    hand.page.mouse.move(box["x"] + 4, box["y"] + 4)
    expect(place).to_have_count(0)


def test_a_piece_chosen_on_the_body_is_chosen_in_the_flat_view(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page)
    box = figure(hand).bounding_box()
    assert box is not None
    hand.page.mouse.click(box["x"] + box["width"] / 2 - 12, box["y"] + box["height"] * 0.6)
    expect(hand.button("Piece Centre front")).to_have_attribute("aria-pressed", "true")
    hand.press("Flat")
    expect(hand.button("Piece Centre front")).to_have_attribute("aria-pressed", "true")
    expect(hand.button("Piece Side front")).to_have_attribute("aria-pressed", "false")


def test_girths_are_told_in_words_and_not_before_an_audience(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "Star bodice, tied at the nape, with a sash")
    hand.see("Not drawn on the body: Tie.")
    row = hand.page.get_by_role("row", name=re.compile("^Waist"))
    body, garment, difference = (float(text.replace("−", "-")) for text in row.get_by_role("cell").all_text_contents())
    assert body == pytest.approx(72, abs=0.5)  # cm, of the stand that is size 88
    assert garment - body == pytest.approx(difference, abs=1e-6)
    hand.press("Presenter")
    expect(row).to_contain_text("all round")
    expect(row).not_to_contain_text(re.compile(r"\d"))


def test_the_gap_of_a_lacing_is_a_part_of_the_girth(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, "Drum bodice, square, with sewn-on straps")
    for level in ("Underbust", "Waist"):
        row = hand.page.get_by_role("row", name=re.compile(f"^{level} "))
        body, garment, ease = row.get_by_role("cell").all_text_contents()
        # It is laced behind, and its front is buttoned.
        told = re.fullmatch(r"([\d.]+) \+ ([\d.]+) gap − ([\d.]+) lap", garment)
        assert told, garment
        drawn, gap, lap = map(float, told.groups())
        assert (gap, lap) == (5.0, 3.0)  # cm, as the steps have them
        assert float(ease.replace("−", "-")) == pytest.approx(drawn + gap - lap - float(body), abs=0.11)
    table, beside = (
        hand.page.get_by_role("table").bounding_box(),
        hand.page.get_by_role("table").locator("..").bounding_box(),
    )
    assert table is not None
    assert beside is not None
    assert table["x"] + table["width"] <= beside["x"] + beside["width"] + 0.5
    hand.press("Presenter")
    expect(hand.page.get_by_role("row", name=re.compile("^Waist"))).to_contain_text("all round but for the gap")


def test_without_pictures_in_three_dimensions_the_rest_is_there(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    hand.page.evaluate("HTMLCanvasElement.prototype.getContext = () => null")
    hand.open_design("Lantern bodice, sweetheart")
    hand.press("Body")
    hand.see("This browser shows no three-dimensional pictures")
    expect(hand.page.get_by_role("row", name=re.compile("^Waist"))).to_be_visible()
