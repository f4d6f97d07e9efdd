"""A wearer's measurements are written down: read, doubted, estimated, saved, and kept from an audience."""

import re

import pytest
from browser.conftest import Open
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import Locator, expect

NEEDED = {
    "Back neck point to waist": "40",
    "Bust girth": "88",
    "Underbust girth": "75",
    "Waist girth": "72",
    "Hip girth": "96",
}


def field(hand: Hand, label: str) -> Locator:
    return hand.page.get_by_label(label, exact=True)


def new_wearer(hand: Hand) -> str:
    """Opens the page and gives the reference that it suggests."""
    hand.press("New wearer")
    expect(field(hand, "Bust girth")).to_be_visible()
    return field(hand, "Reference").input_value()


def fill(hand: Hand, amounts: dict[str, str]) -> None:
    for label, amount in amounts.items():
        field(hand, label).fill(amount)


def chosen(hand: Hand) -> Locator:
    return hand.page.get_by_label("For whom")


def test_five_measurements_are_enough_and_the_wearer_is_chosen(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    ref = new_wearer(hand)
    assert re.fullmatch(r"w-\d\d", ref)
    hand.see("Still needed: back neck point to waist, bust girth")
    # From field to field with the keyboard alone.
    field(hand, "Back neck point to waist").focus()
    for amount in NEEDED.values():
        hand.page.keyboard.type(amount)
        hand.keys("Tab")
    hand.see("5 measured, 18 estimated")
    hand.see("estimated 88 cm")  # the upper bust girth: 75 + 3.9 + 0.7 × (88 − 75)
    hand.press("Save")
    expect(chosen(hand)).to_have_value(ref)
    saved = workroom.ask(f"/api/wearers/{ref}")["document"]
    assert (saved["unit"], saved["measurements"]) == (
        "cm",
        {
            "bust_girth": 88,
            "underbust_girth": 75,
            "waist_girth": 72,
            "hip_girth": 96,
            "back_neck_to_waist": 40,
        },
    )


def test_inches_are_read_with_their_fractions_and_cm_come_out_true(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    ref = new_wearer(hand)
    fill(hand, NEEDED)
    hand.press("inches")
    expect(field(hand, "Bust girth")).to_have_value("34 5/8")  # 88 / 2.54 = 34.65, to a sixteenth
    field(hand, "Waist girth").fill("28 1/4")
    hand.press("cm")
    expect(field(hand, "Bust girth")).to_have_value("88")
    expect(field(hand, "Waist girth")).to_have_value("71.76")  # 28.25 × 2.54 = 71.755
    hand.press("inches")
    hand.press("Save")
    expect(chosen(hand)).to_have_value(ref)
    saved = workroom.ask(f"/api/wearers/{ref}")["document"]
    assert saved["unit"] == "in"
    assert saved["measurements"]["waist_girth"] == 28.25
    assert saved["measurements"]["bust_girth"] == pytest.approx(88 / 2.54, abs=1e-6)


def test_what_cannot_be_is_told_at_its_field_and_not_saved(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    ref = new_wearer(hand)
    fill(hand, {**NEEDED, "Bust girth": "34"})
    hand.see("less than 50 cm, the least that is possible. If that is what the tape said, write 34 in")
    hand.press("Save")
    expect(field(hand, "Bust girth")).to_be_focused()
    fill(hand, {"Bust girth": "34 in"})
    hand.see_no_more("If that is what the tape said")
    # Two that cannot be of one body, as the server finds.
    fill(hand, {"Underbust girth": "150"})
    hand.see(re.compile(r"(under)?bust girth of .* is (above|below) .* that is possible with", re.IGNORECASE))
    assert ref not in [wearer["ref"] for wearer in workroom.ask("/api/workroom")["wearers"]]
    # One that is unlikely is doubted, and may be saved.
    fill(hand, {"Underbust girth": "75", "Back neck point to waist": "48.5"})
    hand.see("is larger than most")
    hand.press("Save")
    expect(chosen(hand)).to_have_value(ref)


def test_a_name_and_a_reference_that_is_taken_are_refused(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    new_wearer(hand)
    fill(hand, {**NEEDED, "Reference": "mira"})
    hand.see("at least one digit")
    hand.press("Save")
    expect(field(hand, "Reference")).to_be_focused()
    before = workroom.ask("/api/wearers/w-01")
    fill(hand, {"Reference": "w-01"})
    hand.see("w-01 is somebody else already")
    hand.press("Save")
    expect(field(hand, "Reference")).to_be_focused()
    assert workroom.ask("/api/wearers/w-01") == before


def test_a_change_goes_back_to_the_design_that_it_came_from(own_workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(own_workroom, path="/#/make/lantern-01/flat")
    for_whom = hand.page.get_by_role("combobox", name="For", exact=True)
    for_whom.select_option("w-01")
    expect(hand.back.handle).to_be_visible()
    before = own_workroom.ask("/api/wearers/w-01")["document"]["measurements"]
    hand.press("Change the measurements of w-01")
    waist = field(hand, "Waist girth")
    expect(waist).to_have_value(re.compile(r"\d+"))
    waist.fill(str(before["waist_girth"] + 1))
    hand.press("Save")
    expect(hand.back.handle).to_be_visible()
    expect(for_whom).to_have_value("w-01")
    after = own_workroom.ask("/api/wearers/w-01")["document"]["measurements"]
    assert after == pytest.approx({**before, "waist_girth": before["waist_girth"] + 1}, abs=1e-6)


def test_what_is_typed_is_not_lost_by_leaving(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    ref = new_wearer(hand)
    fill(hand, {"Bust girth": "88"})
    hand.press("Cancel")
    hand.see("What you have typed is not saved.")
    hand.press("Stay here")
    expect(field(hand, "Bust girth")).to_have_value("88")
    hand.press("Cancel")
    hand.press("Leave without saving")
    expect(chosen(hand)).to_be_visible()
    assert ref not in [wearer["ref"] for wearer in workroom.ask("/api/workroom")["wearers"]]


def test_every_field_shows_how_it_is_measured(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    new_wearer(hand)
    for measured in workroom.ask("/api/vocabulary")["measurements"]:
        label = measured["label"][0].upper() + measured["label"][1:]
        field(hand, label).focus()
        expect(hand.page.locator("aside")).to_contain_text(measured["how"])
        expect(field(hand, label)).to_have_accessible_description(re.compile(re.escape(measured["how"])))
        picture = hand.page.locator("aside img")
        expect(picture).to_have_attribute("src", f"api/measurements/{measured['name']}.svg")
        hand.page.wait_for_function("image => image.complete && image.naturalWidth > 0", arg=picture.element_handle())


def test_an_audience_is_shown_no_field(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    new_wearer(hand)
    fill(hand, {"Bust girth": "88"})
    hand.press("Presenter")
    hand.see("Measurements are private")
    expect(hand.page.locator("input")).to_have_count(0)
    hand.press("Presenter")
    expect(field(hand, "Bust girth")).to_have_value("88")


@pytest.mark.parametrize("width", [1280, 800, 420])
def test_the_page_fits_and_can_be_touched(workroom: ServedWorkroom, open_page: Open, width: int) -> None:
    hand = open_page(workroom, width)
    new_wearer(hand)
    assert hand.page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    for part in hand.page.locator("button:visible, input:visible, a:visible").all():
        box = part.bounding_box()
        assert box is not None
        assert box["height"] >= 44  # touch target, px (WCAG 2.2, 2.5.5)
