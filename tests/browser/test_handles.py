"""What is taken hold of tells the number that it sets, and what is set is what was told."""

import re
from typing import Any

import pytest
from browser.conftest import Open
from browser.grip import Grip
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import Locator, expect

NEAR_CM = 0.12  # a pixel of the mouse, twice


def told(hand: Hand) -> Locator:
    """The number beside the held handle."""
    return hand.page.locator("svg text").filter(has_text=re.compile(r"\d (cm|in)\b|^on "))


def saved(workroom: ServedWorkroom, ref: str, uid: str) -> dict[str, Any]:
    steps = workroom.ask(f"/api/designs/{ref}")["document"]["steps"]
    found: dict[str, Any] = next(step for step in steps if step["uid"] == uid)
    return found


def sentence(height: dict[str, Any]) -> str:
    offset = height["offset_cm"]
    return f"{abs(offset):g} cm {'above' if offset > 0 else 'below'} {height['level'].replace('-', ' ')}"


def dragged(hand: Hand, grip: Grip, right_mm: float, up_mm: float) -> str:
    """Drag a handle, let go, and give the number that was told before."""
    expect(grip.handle).to_be_visible()  # what comes next is not the answer to its opening
    with hand.saving(), grip.held() as hold:
        hold.nudge(up_mm, right_mm)
        expect(told(hand)).to_be_visible()
        number = told(hand).text_content()
    expect(told(hand)).to_have_count(0)
    return number or ""


@pytest.mark.parametrize("presenter", [False, True])
def test_a_dragged_height_is_told_beside_its_handle(workroom: ServedWorkroom, open_page: Open, presenter: bool) -> None:
    ref = "told-presenter" if presenter else "told"
    title = workroom.copy_design("lantern-01", ref)
    hand = open_page(workroom)
    if presenter:
        hand.press("Presenter")
    hand.open_design(title)
    expect(told(hand)).to_have_count(0)
    drawing = hand.page.get_by_role("group", name="Pieces of")
    place = drawing.bounding_box()
    with hand.back.held() as hold:
        hold.nudge(-9)
        expect(told(hand)).to_be_visible()
        assert drawing.bounding_box() == place
        with hand.saving():
            hand.keys("Escape")
    expect(told(hand)).to_have_count(0)
    number = dragged(hand, hand.back, 0, -17)
    assert number == sentence(saved(workroom, ref, "neckline")["back"])


def test_it_is_told_in_inches_and_for_keys(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("lantern-01", "told-in-inches")
    hand = open_page(workroom)
    hand.open_design(title)
    hand.press("in")
    hand.back.handle.focus()
    before = workroom.ask("/api/designs/told-in-inches")
    hand.keys("Shift+ArrowDown", "Shift+ArrowDown")
    expect(told(hand)).to_have_text(re.compile(r"^(\d+ )?(\d+/\d+ )?in (above|below) upper bust$"))
    expect(hand.back.handle).to_have_attribute("aria-valuetext", re.compile("upper bust"))
    hand.keys("Escape")
    expect(told(hand)).to_have_count(0)
    assert workroom.ask("/api/designs/told-in-inches") == before


def test_the_gap_of_a_lacing_is_drawn_by_its_edge(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("drum-03", "laced")
    hand = open_page(workroom)
    hand.press(f"Open {title}")
    number = dragged(hand, hand.grip("gap of the lacing", "Closure: centre back, lacing", "Centre back"), 8, 0)
    gap = saved(workroom, "laced", "back")["gap_cm"]
    assert gap == pytest.approx(5.0 + 2 * 0.8, abs=2 * NEAR_CM)
    assert number == f"{gap:g} cm"


def test_buttons_are_set_closer_or_farther_apart(workroom: ServedWorkroom, open_page: Open) -> None:
    title = workroom.copy_design("drum-03", "buttoned")
    hand = open_page(workroom)
    hand.press(f"Open {title}")
    grip = hand.grip("spacing of the buttons", "Closure: centre front, buttons", "Centre front")
    number = dragged(hand, grip, 0, -14)
    spacing = saved(workroom, "buttoned", "front")["spacing_cm"]
    assert spacing == pytest.approx(6.0 + 1.4, abs=NEAR_CM)
    assert number == f"{spacing:g} cm"


@pytest.mark.parametrize(
    ("label", "piece", "field", "right_mm"),
    [
        ("place of the strap's foot in front", "Centre front", "at_front_cm", 6),
        ("place of the strap's foot behind", "Centre back", "at_back_cm", 6),
        ("width of the strap at its foot", "Side front", "width_at_foot_cm", -6),
    ],
)
def test_the_foot_of_a_grown_strap_is_moved_and_widened(
    workroom: ServedWorkroom, open_page: Open, label: str, piece: str, field: str, right_mm: float
) -> None:
    ref = field.replace("_", "-")
    title = workroom.copy_design("ribbon-02", ref)
    hand = open_page(workroom)
    hand.press(f"Open {title}")
    number = dragged(hand, hand.grip(label, "Straps: grown out of the panels", piece), right_mm, 0)
    assert number == f"{saved(workroom, ref, 'straps')[field]:g} cm"


def test_handles_on_one_place_are_drawn_apart_and_each_names_its_line(
    workroom: ServedWorkroom, open_page: Open
) -> None:
    """At the centre back hem the zip ends where the hem does."""
    title = workroom.copy_design("lantern-01", "on-one-place")
    hand = open_page(workroom)
    hand.open_design(title)
    zip_end = hand.grip("lower end of the opening", "Closure: centre back, centred zip", "Centre back")
    hem = hand.grip("height at centre back", "Hem: straight", "Centre back")
    expect(hem.handle).to_have_attribute("aria-valuetext", "as usual")

    for grip, step in ((hem, "Hem: straight"), (zip_end, "Closure: centre back, centred zip")):
        with grip.held() as hold:
            hold.nudge(-9)
            expect(hand.page.locator("svg text").filter(has_text=f"{step} – {grip.label}")).to_be_visible()
            with hand.saving():
                hand.keys("Escape")
    number = dragged(hand, zip_end, 0, 45)
    assert number == sentence(saved(workroom, "on-one-place", "back")["down_to"])
    expect(zip_end.handle).to_have_attribute("aria-valuetext", number)
    zip_end.handle.focus()
    with hand.saving():
        hand.keys("Shift+ArrowUp", "Enter")
    moved = sentence(saved(workroom, "on-one-place", "back")["down_to"])
    assert moved != number
    expect(zip_end.handle).to_have_attribute("aria-valuetext", moved)


def test_ticks_of_layers_stay_while_another_view_is_looked_at(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    hand.open_design("Lantern bodice, sweetheart")
    facing = hand.page.get_by_role("checkbox", name="Facing", exact=True)
    facing.check()
    hand.press("Paper")
    hand.see("Sign-off page (private)")
    hand.press("Flat")
    expect(facing).to_be_checked()
    hand.press("Workroom")
    hand.press("Open Ribbon bodice, scooped, with a shaped hem")
    expect(facing).to_be_visible()
    expect(facing).not_to_be_checked()
