"""What holds for the whole garment, changed on the page: ease, facing, lining, allowances, cloths."""

import io
import json
from typing import Any

import pypdfium2
import pytest
from browser.conftest import Open
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import Locator, expect
from websockets.sync.client import connect

ROW = "Ease, facing, allowances"
SIZE = "size-88"
LAYERS = "Facing, lining, interfacing"
ALLOWANCES = "Allowances, corners, notches"
# The browser's own measure of a drawn path, mm.
LENGTH = """ds => ds.map(d => {
  const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
  path.setAttribute("d", d);
  return path.getTotalLength();
})"""
Document = dict[str, Any]


def document(workroom: ServedWorkroom, ref: str) -> Document:
    return dict(workroom.ask(f"/api/designs/{ref}")["document"])


def bare(workroom: ServedWorkroom, ref: str) -> str:
    """The title of a design that says nothing but its steps."""
    title = workroom.copy_design("lantern-01", ref)
    saved = document(workroom, ref)
    del saved["finish"]
    workroom.ask(f"/api/designs/{ref}", "PUT", {"document": saved, "what": "bare"})
    return title


def opened(workroom: ServedWorkroom, open_page: Open, title: str, group: str, width: int = 1280) -> Hand:
    hand = open_page(workroom, width)
    hand.open_design(title)
    hand.press(ROW)
    heading(hand, group).click()
    return hand


def part(hand: Hand) -> Locator:
    """All fields of the whole garment."""
    return hand.page.get_by_role("region", name=ROW)


def heading(hand: Hand, group: str) -> Locator:
    return part(hand).get_by_role("heading", name=group, level=3).get_by_role("button")


def field(hand: Hand, label: str) -> Locator:
    return part(hand).get_by_label(label, exact=True)


def length(hand: Hand, label: str) -> Locator:
    """A field whose label names the unit."""
    return part(hand).get_by_role("textbox", name=label)


def write(hand: Hand, box: Locator, text: str) -> None:
    """Type it and go on, until it is saved."""
    box.fill(text)
    with hand.saving():
        box.press("Tab")


def whats(workroom: ServedWorkroom, ref: str) -> list[str]:
    """What was done, the newest first."""
    return [each["what"] for each in workroom.ask(f"/api/designs/{ref}/versions")["versions"]]


def pattern(workroom: ServedWorkroom, ref: str) -> Document:
    """What the server tells any page of a design in size 88."""
    address = workroom.address.replace("http", "ws")
    with connect(f"{address}/api/board", proxy=None, max_size=None) as socket:
        socket.send(json.dumps({"do": "open", "id": 1, "design": ref, "wearer": SIZE}))
        told: Document = json.loads(socket.recv())
    assert told["say"] == "pattern", told
    return told


def girth(hand: Hand, workroom: ServedWorkroom, ref: str, level: str) -> float:
    """Of the finished garment in size 88, mm: along the level over the pieces of a half, twice."""
    pieces = [piece for piece in pattern(workroom, ref)["pieces"] if piece["layer"] == "outer"]
    lines = [line["d"] for piece in pieces for line in piece["inside"] if line["id"] == level]
    assert len(lines) == 4
    return 2 * sum(hand.page.evaluate(LENGTH, lines))


def test_the_girth_grows_by_the_ease_and_undo_takes_it_back(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, bare(workroom, "eased"), "Ease")
    before, plain = girth(hand, workroom, "eased", "bust"), document(workroom, "eased")
    assert before == pytest.approx(880 + 10, abs=1)
    hand.see("Usual: 1 cm.")

    drawn = hand.page.get_by_role("group", name="Pieces of").inner_html()
    write(hand, length(hand, "Ease at the bust"), "4")
    assert document(workroom, "eased") == {**plain, "block": {"ease_cm": {"bust": 4}}}
    assert whats(workroom, "eased")[0] == "Ease at the bust"
    assert girth(hand, workroom, "eased", "bust") - before == pytest.approx(30, abs=0.5)
    assert hand.page.get_by_role("group", name="Pieces of").inner_html() != drawn
    expect(heading(hand, "Ease")).to_have_accessible_name("Ease – 1 chosen")

    with hand.saving():
        hand.press("Undo")
    expect(length(hand, "Ease at the bust")).to_have_value("")
    assert document(workroom, "eased") == plain


def test_there_is_a_way_back_to_what_is_usual(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, bare(workroom, "usual"), "Ease")
    plain = document(workroom, "usual")
    with hand.saving():  # it is opened anew, in inches
        hand.press("in")
    waist = length(hand, "Ease at the waist")
    expect(waist).to_have_attribute("placeholder", "3/8")
    write(hand, waist, "1 1/2")
    assert document(workroom, "usual")["block"] == {"ease_cm": {"waist": 3.81}}
    with hand.saving():
        hand.press("Ease at the waist: back to usual, 3/8 in")
    expect(waist).to_be_focused()
    expect(waist).to_have_value("")
    assert document(workroom, "usual") == plain
    assert whats(workroom, "usual")[0] == "Ease at the waist: as usual"


def test_a_facing_has_its_pieces_and_its_place_on_the_cutting_list(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, bare(workroom, "faced"), LAYERS)
    assert "Facing cloth" not in cutting_list(workroom, "faced")
    with hand.saving():
        field(hand, "Facing").select_option("the whole shape again")
    assert document(workroom, "faced")["finish"] == {"facing": "full"}
    assert whats(workroom, "faced")[0] == "Facing"
    # What was asked for is shown without another press.
    expect(hand.page.get_by_role("checkbox", name="Facing", exact=True)).to_be_checked()
    facings = [piece for piece in pattern(workroom, "faced")["pieces"] if piece["layer"] == "facing"]
    assert facings
    for piece in facings:
        expect(hand.page.locator(f'[data-piece="{piece["id"]}"]').first).to_be_visible()
    assert "Facing cloth" in cutting_list(workroom, "faced")


def cutting_list(workroom: ServedWorkroom, ref: str) -> str:
    """The text of the sign-off page, on which the list stands."""
    read = pypdfium2.PdfDocument(io.BytesIO(workroom.fetch(f"/api/designs/{ref}/sign-off.pdf?wearer={SIZE}")))
    text = "\n".join(page.get_textpage().get_text_range() for page in read)
    read.close()
    return text


def test_a_lining_is_refused_at_its_field_and_made_once_it_can_be(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, bare(workroom, "lined"), LAYERS)
    lining = field(hand, "Lining")
    lining.select_option("what the facing leaves of it")
    told = "A lining that ends at the facing needs a facing of a width; choose the facing “a band along the edges”"
    alert = part(hand).get_by_role("alert")
    expect(alert).to_contain_text(told)
    expect(lining).to_have_attribute("aria-invalid", "true")
    expect(lining).to_have_value("to_facing")
    expect(hand.page.get_by_role("alert")).to_have_count(1)  # it is said once
    assert "finish" not in document(workroom, "lined")

    with hand.saving():
        field(hand, "Facing").select_option("a band along the edges")
    with hand.saving():
        hand.press("Lining: try again")
    expect(alert).to_have_count(0)
    expect(lining).to_be_focused()
    assert document(workroom, "lined")["finish"] == {"facing": "edge", "lining": "to_facing"}
    layers = {piece["layer"] for piece in pattern(workroom, "lined")["pieces"]}
    assert layers == {"outer", "facing", "lining"}
    # The hem facing goes with the band, so it is given up with it.
    write(hand, length(hand, "Width of the hem facing"), "4")
    assert document(workroom, "lined")["finish"]["hem_facing_width_cm"] == 4
    with hand.saving():
        lining.select_option("the whole shape again")
    with hand.saving():
        field(hand, "Facing").select_option("none")
    assert document(workroom, "lined")["finish"] == {"facing": "none", "lining": "full"}


def test_what_lies_outside_its_limits_stays_to_be_put_right(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, bare(workroom, "outside"), "Ease")
    plain = workroom.ask("/api/designs/outside")
    bust = length(hand, "Ease at the bust")
    bust.fill("31")
    bust.press("Tab")
    expect(part(hand).get_by_role("alert")).to_have_text("Give between −15 cm and 30 cm.")
    expect(bust).to_have_value("31")
    expect(bust).to_have_attribute("aria-invalid", "true")
    assert workroom.ask("/api/designs/outside") == plain
    write(hand, bust, "3")
    expect(part(hand).get_by_role("alert")).to_have_count(0)
    assert document(workroom, "outside")["block"] == {"ease_cm": {"bust": 3}}


def test_fields_filled_in_quickly_are_all_saved(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, bare(workroom, "quick"), "Ease")
    labels = {"bust": "Ease at the bust", "underbust": "Ease at the underbust", "waist": "Ease at the waist"}
    for label in labels.values():
        length(hand, label).fill("2")  # and on, without waiting for the answer
    length(hand, labels["waist"]).press("Tab")
    expect(heading(hand, "Ease")).to_have_accessible_name("Ease – 3 chosen")
    assert document(workroom, "quick")["block"] == {"ease_cm": dict.fromkeys(labels, 2)}


def test_a_line_has_its_own_allowance_and_a_seam_its_own_place(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, bare(workroom, "lines"), ALLOWANCES)
    plain = document(workroom, "lines")
    field(hand, "Add a line …").select_option("Hem")
    hem = length(hand, "Hem")
    expect(hem).to_be_focused()
    write(hand, hem, "3")
    assert document(workroom, "lines")["finish"] == {"allowance_by_line_cm": {"hem": 3}}
    with hand.saving():
        hand.press("Remove: Hem")
    assert document(workroom, "lines") == plain

    heading(hand, "Panels and seams").click()
    hand.press("Add one")
    field(hand, "Seam").select_option("side seam")
    field(hand, "Level").select_option("waist")
    write(hand, length(hand, "Distance"), "18")
    seam = {"line": "side", "level": "waist", "distance_cm": 18}
    assert document(workroom, "lines")["block"] == {"seams": [seam]}
    assert whats(workroom, "lines")[0] == "Places of seams"


@pytest.mark.parametrize("width", [1280, 800])
def test_keys_alone_reach_and_change_a_field(workroom: ServedWorkroom, open_page: Open, width: int) -> None:
    title = bare(workroom, f"keys-{width}")
    hand = open_page(workroom, width)
    hand.open_design(title)
    hand.button(ROW).focus()
    hand.keys("Enter", *["Tab"] * 4, "Space", "Tab")
    facing = field(hand, "Facing")
    expect(facing).to_be_focused()
    with hand.saving():
        hand.page.keyboard.type("a b")
    hand.keys("Tab")
    if "Back to usual" in (hand.page.locator(":focus").text_content() or ""):
        hand.keys("Tab")
    expect(length(hand, "Width of the facing")).to_be_focused()
    hand.page.keyboard.type("6")
    with hand.saving():
        hand.keys("Enter")
    assert document(workroom, f"keys-{width}")["finish"] == {"facing": "edge", "facing_width_cm": 6}
    for _ in range(2):
        with hand.saving():
            hand.press("Undo")
    assert "finish" not in document(workroom, f"keys-{width}")
    box = part(hand).bounding_box()
    assert box is not None
    assert hand.page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    assert part(hand).evaluate("part => part.scrollWidth - part.clientWidth") <= 0
    for control in part(hand).locator(":is(button, select, input:not([type=checkbox])):visible").all():
        size = control.bounding_box()
        assert size is not None
        assert min(size["width"], size["height"]) >= 44


def test_an_audience_does_not_read_the_names_of_cloths(workroom: ServedWorkroom, open_page: Open) -> None:
    title = bare(workroom, "named")
    hand = opened(workroom, open_page, title, "Cloth")
    with hand.saving():
        field(hand, "Kind of cloth").select_option("knitted")
    outer = length(hand, "Cloth of the outer pieces")
    write(hand, outer, "Ana's silk")
    assert document(workroom, "named")["finish"]["cloths"] == {"outer": "Ana's silk"}
    hand.press("Presenter")
    expect(field(hand, "Kind of cloth")).to_have_value("knit")
    expect(outer).to_have_count(0)
    assert "Ana's silk" not in part(hand).inner_html()
    heading(hand, "Ease").click()
    write(hand, length(hand, "Ease at the bust"), "2")
    assert document(workroom, "named")["block"] == {"ease_cm": {"bust": 2}}


def test_what_is_said_of_a_cloth_goes_along_with_its_name(workroom: ServedWorkroom, open_page: Open) -> None:
    title = bare(workroom, "renamed-cloth")
    saved = {**document(workroom, "renamed-cloth"), "cloth_to_buy": {"outer": {"width_cm": 150}}}
    workroom.ask("/api/designs/renamed-cloth", "PUT", {"document": saved, "what": "wide"})
    hand = opened(workroom, open_page, title, "Cloth")
    write(hand, length(hand, "Cloth of the outer pieces"), "wool")
    now = document(workroom, "renamed-cloth")
    assert (now["finish"]["cloths"], now["cloth_to_buy"]) == ({"outer": "wool"}, {"wool": {"width_cm": 150}})


def test_a_group_that_is_opened_stays_under_the_hand(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = opened(workroom, open_page, bare(workroom, "seen"), "Ease", 800)
    lower = heading(hand, ALLOWANCES)
    lower.scroll_into_view_if_needed()
    lower.click()  # Ease closes above it
    first = length(hand, "Seam allowance")
    expect(first).to_be_in_viewport(ratio=1)
    expect(lower).to_be_in_viewport(ratio=1)
    # Not merely in the window: within the column, which ends where the findings begin.
    box, findings = first.bounding_box(), hand.page.get_by_role("heading", name="Findings").bounding_box()
    assert box is not None
    assert findings is not None
    assert box["y"] + box["height"] <= findings["y"]


def test_a_place_of_a_seam_begins_where_it_lies_and_is_saved_once_it_moves(
    workroom: ServedWorkroom, open_page: Open
) -> None:
    title = bare(workroom, "seam-placed")
    hand = opened(workroom, open_page, title, "Panels and seams")
    before = whats(workroom, "seam-placed")
    hand.press("Add one")
    row = part(hand).get_by_role("group", name="Number 1")
    row.get_by_label("Level", exact=True).select_option("waist")
    distance = row.get_by_role("textbox", name="Distance")
    (now,) = [
        place["distance"]
        for place in pattern(workroom, "seam-placed")["seam_places"]
        if (place["line"], place["level"]) == ("front-princess", "waist")
    ]
    assert float(distance.input_value()) == pytest.approx(now / 10, abs=0.051)
    assert whats(workroom, "seam-placed") == before
    write(hand, distance, "8")
    assert document(workroom, "seam-placed")["block"]["seams"] == [
        {"line": "front-princess", "level": "waist", "distance_cm": 8}
    ]
