"""The tools of the flat drawing: pencil, tape, exact values, real size, and a picture to work from."""

import json
import math
import re
import struct
import zlib
from itertools import pairwise
from pathlib import Path

import pytest
from browser.conftest import Open
from browser.hand import Hand
from browser.pencil import draw_lower_top
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import Locator, expect

CARD_MM = 85.6  # the long side of a bank card


def test_an_edge_drawn_by_hand_is_shown_then_kept_then_undone(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "pencilled")
    hand = open_page(workroom)
    hand.open_design(title)
    saved, before = workroom.ask("/api/designs/pencilled"), hand.back.height()
    draw_lower_top(hand)
    assert workroom.ask("/api/designs/pencilled") == saved  # nothing is saved while it is shown
    with hand.saving():
        hand.press("Keep this line")
    kept = workroom.ask("/api/designs/pencilled")
    assert kept["version"] > saved["version"]
    hand.press("Move and choose")
    assert hand.back.height() < before - 5
    hand.press("Undo")
    hand.back.wait_for(before)


def test_a_line_beside_the_pieces_is_refused_and_rubbed_out(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    hand.open_design("Lantern bodice, sweetheart")
    hand.press("Draw a line")
    box = hand.page.get_by_role("group", name="Pieces of").bounding_box()
    assert box is not None
    x, y = box["x"] + 20, box["y"] + box["height"] - 10
    hand.page.mouse.move(x, y)
    hand.page.mouse.down()
    hand.page.mouse.move(x + 80, y)
    hand.page.mouse.up()
    hand.see("The line lies beside the pieces.")
    expect(hand.button("Keep this line")).to_be_disabled()
    hand.press("Rub out")
    hand.see_no_more("The line lies beside the pieces.")


def test_a_height_is_written_down_at_its_handle(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "written")
    hand = open_page(workroom)
    hand.open_design(title)
    before = hand.back.height()
    hand.back.handle.focus()
    hand.keys("Enter")
    form = hand.page.get_by_role("form", name="Write down")
    field = form.get_by_label("Above it")
    expect(field).to_have_value("−2")
    field.fill("-3.5")
    with hand.saving():
        field.press("Enter")
    expect(form).to_have_count(0)
    hand.back.wait_for(before - 15)
    assert workroom.ask("/api/designs/written")["document"]["steps"][0]["back"]["offset_cm"] == pytest.approx(-3.5)
    expect(hand.back.handle).to_be_focused()
    hand.keys("Enter")
    field.fill("much")
    field.press("Enter")
    hand.see("Write a length in cm")
    hand.keys("Escape")
    expect(form).to_have_count(0)


def test_edges_are_added_up_and_agree_with_their_seam(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    hand.open_design("Lantern bodice, sweetheart")
    hand.press("Measure it")
    hand.press("Along edges")
    edges = hand.page.get_by_label("Add an edge")
    names = [name for name in edges.locator("option").all_inner_texts() if "front princess" in name]
    lengths = [float(re.findall(r"([\d.]+) cm", name)[0]) for name in names]
    assert len(names) == 2
    assert lengths[0] == pytest.approx(lengths[1], abs=0.06)  # what is sewn together is as long
    for name in names:
        edges.select_option(label=name)
    results = hand.page.get_by_role("list", name="Measured")
    expect(results).to_contain_text("together:")
    together = float(re.findall(r"together: ([\d.]+) cm", results.inner_text())[0])
    assert together == pytest.approx(sum(lengths), abs=0.02)
    hand.press("Clear")
    expect(results).not_to_contain_text("together:")


def test_edges_are_listed_by_their_lines(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    hand.open_design("Lantern bodice, sweetheart")
    hand.press("Measure it")
    hand.press("Along edges")
    names = [name.split(":")[0] for name in hand.page.get_by_label("Add an edge").locator("option").all_inner_texts()]
    assert {"Side front, top edge", "Side front, hem", "Side front, side seam"} <= set(names)
    assert not [name for name in names if "finished edge" in name]


@pytest.mark.parametrize("width", [1280, 800])
def test_the_tape_leaves_the_pieces_in_sight_and_where_they_are(
    workroom: ServedWorkroom, open_page: Open, width: int
) -> None:
    hand = open_page(workroom, width)
    hand.open_design("Lantern bodice, sweetheart")
    hand.press("Measure it")
    hand.press("Along edges")
    edges = hand.page.get_by_label("Add an edge")
    strip = hand.page.get_by_role("list", name="Measured")
    cut = hand.page.get_by_role("button", name="Piece Centre front").locator(".cut")

    def tops() -> tuple[float, float]:
        said, piece = strip.bounding_box(), cut.bounding_box()
        assert said is not None
        assert piece is not None
        return said["y"] + said["height"], piece["y"]

    expect(edges).to_be_visible()
    hand.page.wait_for_function(
        """() => document.querySelector("[aria-label='Measured']").getBoundingClientRect().bottom
               < document.querySelector("[aria-label='Piece Centre front'] .cut").getBoundingClientRect().top"""
    )
    before = tops()
    for each in range(1, 9):
        edges.select_option(index=each)
    expect(strip).to_contain_text("together:")
    assert tops() == pytest.approx(before)


def test_places_are_measured_straight_and_by_their_angle(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    hand.open_design("Lantern bodice, sweetheart")
    hand.press("Measure it")
    box = hand.page.get_by_role("button", name="Piece Side back").locator(".cut").bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    places = [(x - 20, y), (x + 20, y), (x + 20, y - 30)]  # away from all that catches a point
    for place in places:
        hand.page.mouse.click(*place)
    said = hand.page.get_by_role("list", name="Measured").inner_text()
    first, second = (float(re.findall(rf"{name}: ([\d.]+) cm", said)[0]) for name in ("a–b", "b–c"))
    wanted = [math.dist(a, b) for a, b in pairwise(places)]
    assert first / second == pytest.approx(wanted[0] / wanted[1], abs=0.02)
    assert "angle at b: 90°" in said


def test_the_screen_is_measured_with_a_card_and_quarter_size_is_quarter_size(
    workroom: ServedWorkroom, open_page: Open
) -> None:
    hand = open_page(workroom)
    hand.open_design("Lantern bodice, sweetheart")
    hand.press("Quarter")
    bar = hand.page.get_by_role("slider", name="Length of the bar")
    before = float(bar.get_attribute("aria-valuenow") or 0)
    bar.focus()
    hand.keys("Shift+ArrowRight", "Shift+ArrowRight")
    wide = float(bar.get_attribute("aria-valuenow") or 0)
    assert wide == pytest.approx(before + 20, abs=1)
    hand.press("It is as long")
    expect(hand.button("Quarter")).to_have_attribute("aria-pressed", "true")
    quarter = _scale(hand)
    assert quarter * 4 * CARD_MM == pytest.approx(wide, abs=1)
    hand.press("Full")
    assert _scale(hand) == pytest.approx(4 * quarter)
    # It is remembered, and nothing about a wearer with it.
    hand.page.reload()
    expect(hand.back.handle).to_be_visible()
    hand.press("Quarter")
    assert _scale(hand) == pytest.approx(quarter)
    kept = json.loads(hand.page.evaluate("localStorage.getItem('panelwright-board')"))
    assert set(kept) == {"unit", "presenter", "view", "screen"}


# Whether the browser keeps a picture of that width, mm.
KEPT_WIDTH = """async width => {
  const answered = asked => new Promise(done => { asked.onsuccess = () => done(asked.result); });
  const kept = await answered(indexedDB.open("panelwright-board"));
  const found = await answered(kept.transaction("pictures").objectStore("pictures").getAll());
  kept.close();
  return found.some(each => Math.abs(each.width - width) < 0.01);
}"""


def test_a_picture_is_laid_kept_in_the_browser_and_sent_nowhere(
    workroom: ServedWorkroom, open_page: Open, tmp_path: Path
) -> None:
    file = tmp_path / "lantern.png"
    file.write_bytes(_png(40, 60))
    hand = open_page(workroom)
    hand.open_design("Lantern bodice, sweetheart")
    asked: list[str] = []
    hand.page.on("request", lambda request: asked.append(request.url))
    hand.press("Picture")
    with hand.page.expect_file_chooser() as chooser:
        hand.press("Choose a picture")
    chooser.value.set_files(file)
    picture = hand.page.get_by_role("img", name="Picture to work from")
    expect(picture).to_be_visible()
    box = picture.bounding_box()
    assert box is not None
    assert box["height"] / box["width"] == pytest.approx(1.5, abs=0.02)
    hand.page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    hand.page.mouse.down()
    hand.page.mouse.move(box["x"] + box["width"] / 2 - 60, box["y"] + box["height"] / 2 + 8)
    hand.page.mouse.up()
    moved = picture.bounding_box()
    assert moved is not None
    assert (moved["x"], moved["y"]) == pytest.approx((box["x"] - 60, box["y"] + 8), abs=1)
    width = hand.page.get_by_label("Width")
    width.fill("20")
    width.press("Tab")
    assert all(address.startswith("blob:") for address in asked), asked
    hand.page.wait_for_function(KEPT_WIDTH, arg=200)
    hand.page.reload()
    expect(picture).to_be_visible()
    hand.press("Picture")
    expect(width).to_have_value("20")
    hand.press("Take it away")
    expect(picture).to_have_count(0)
    hand.page.reload()
    expect(hand.back.handle).to_be_visible()
    expect(picture).to_have_count(0)


def test_a_picture_is_sized_and_turned_by_its_grips(workroom: ServedWorkroom, open_page: Open, tmp_path: Path) -> None:
    file = tmp_path / "lantern.png"
    file.write_bytes(_png(40, 60))
    hand = open_page(workroom)
    hand.open_design("Lantern bodice, sweetheart")
    hand.press("Picture")
    with hand.page.expect_file_chooser() as chooser:
        hand.press("Choose a picture")
    chooser.value.set_files(file)
    picture = hand.page.get_by_role("img", name="Picture to work from")
    expect(picture).to_be_visible()
    box, scale = picture.bounding_box(), _scale(hand)
    assert box is not None
    corner = hand.page.get_by_role("slider", name="Size of the picture, lower left corner")
    _drag(hand, corner, 0.2 * box["width"], -0.2 * box["height"])
    smaller = picture.bounding_box()
    assert smaller is not None
    assert smaller["width"] == pytest.approx(0.8 * box["width"], abs=1.5)
    assert smaller["height"] == pytest.approx(0.8 * box["height"], abs=1.5)
    # The corner across stays.
    assert (smaller["x"] + smaller["width"], smaller["y"]) == pytest.approx((box["x"] + box["width"], box["y"]), abs=1)
    width = hand.page.get_by_label("Width", exact=False).first
    assert float(width.input_value()) * 10 * scale == pytest.approx(smaller["width"], abs=1.5)
    corner.focus()
    before = float(width.input_value())
    hand.keys("Shift+ArrowUp", "ArrowUp")
    assert float(width.input_value()) == pytest.approx(before + 1.1, abs=0.051)

    turner = hand.page.get_by_role("slider", name="Turn the picture")
    box = picture.bounding_box()
    assert box is not None
    grip = turner.bounding_box()
    assert grip is not None
    up = box["y"] + box["height"] / 2 - grip["y"] - grip["height"] / 2
    _drag(hand, turner, -up, up)  # to the left of the picture's middle, at the middle's height
    expect(turner).to_have_attribute("aria-valuetext", "90°")
    turned = picture.bounding_box()
    assert turned is not None
    assert (turned["width"], turned["height"]) == pytest.approx((box["height"], box["width"]), abs=1)
    turner.focus()
    hand.keys("ArrowRight", "Shift+ArrowRight")
    expect(turner).to_have_attribute("aria-valuetext", "79°")
    hand.see("79°")
    hand.page.wait_for_function(KEPT_WIDTH, arg=(before + 1.1) * 10)
    hand.page.reload()
    hand.press("Picture")
    expect(turner).to_have_attribute("aria-valuetext", "79°")
    hand.press("Take it away")
    expect(turner).to_have_count(0)


def _drag(hand: Hand, grip: Locator, right: float, down: float) -> None:
    """Drag a grip by so many pixels."""
    box = grip.bounding_box()
    assert box is not None
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    hand.page.mouse.move(x, y)
    hand.page.mouse.down()
    hand.page.mouse.move(x + right, y + down, steps=3)
    hand.page.mouse.up()


def _scale(hand: Hand) -> float:
    """Pixels of the page to a mm of the paper."""
    scale: float = hand.page.evaluate("document.querySelector('[data-piece]').getScreenCTM().a")
    return scale


def _png(wide: int, high: int) -> bytes:
    """A grey picture."""

    def part(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    rows = b"".join(b"\0" + b"\xa0" * wide for _ in range(high))
    head = struct.pack(">IIBBBBB", wide, high, 8, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + part(b"IHDR", head) + part(b"IDAT", zlib.compress(rows)) + part(b"IEND", b"")
