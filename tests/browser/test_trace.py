"""A block of one's own, traced over a scan: from pressed points to a checked pattern on paper."""

import re
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from browser.conftest import Open
from browser.hand import Hand
from browser.paper_block import PER_MM, PaperBlock
from browser.served_workroom import ServedWorkroom
from browser.tracer import Tracer
from design.demo_garments import demo_garment
from playwright.sync_api import Request, Route, expect

from panelwright.app.drawn_file import load_drawn
from panelwright.app.own_block import make_own_block
from panelwright.checks.level_girth import drawn_girth

TRACE = "/api/traces/own-01"
NEAR = 0.2  # mm of paper at quarter scale


@pytest.fixture(scope="module")
def block() -> PaperBlock:
    return PaperBlock.of(demo_garment("lantern-01").block)


def begin(hand: Hand, block: PaperBlock) -> Tracer:
    """A new block with its picture and scale."""
    hand.press("Trace your own block")
    tracer = Tracer(hand, block)
    tracer.choose()
    tracer.set_scale()
    return tracer


def assert_on_the_lines(table: dict[str, Any], block: PaperBlock) -> None:
    """Every point of the table lies on the line that was drawn, and every corner at its corner."""
    for piece in table["pieces"]:
        id = str(piece["id"])
        for number, edge in enumerate(piece["edges"]):
            line = block.line(id, block.drawn.piece(id).edges[number].curve, 3000) / PER_MM * [1, -1]
            points = np.array(edge["points"])
            off = [float(np.hypot(*(line - point).T).min()) for point in points]
            assert max(off) < NEAR, (id, number, off)
            assert np.hypot(*(points[0] - line[0])) < NEAR, (id, number)
        for level in piece["levels"]:
            curve = next(line for line in block.drawn.piece(id).inside if line.id == level["id"]).curve
            line = block.line(id, curve, 3000) / PER_MM * [1, -1]
            off = [float(np.hypot(*(line - point).T).min()) for point in np.array(level["points"])]
            assert max(off) < 2 * NEAR, (id, level["id"], off)  # its ends may come to the outline beside it


def test_a_traced_piece_lies_where_it_was_drawn_and_outlives_a_power_cut(
    own_workroom: ServedWorkroom, open_page: Open, block: PaperBlock
) -> None:
    hand = open_page(own_workroom)
    tracer = begin(hand, block)
    tracer.trace("CF", unsure=0.6)
    hand.see("Press a corner of a piece to begin with.")
    tracer.press(block.edge("SF", 0)[0])
    hand.see("SF, edge 1, 1 point.")
    expect(hand.page.get_by_text("Saved", exact=True)).to_be_visible()
    own_workroom.kill()
    own_workroom.start()
    hand.page.reload()
    hand.see("4 edges")
    expect(hand.page.get_by_role("img", name="Picture to work from")).to_be_visible()
    kept = own_workroom.ask(TRACE)["document"]
    assert [(piece["id"], piece["closed"]) for piece in kept["pieces"]] == [("CF", True), ("SF", False)]
    hand.press("Trace edges")
    hand.press("Take back the last point")
    hand.see("Press a corner of a piece to begin with.")
    expect(hand.page.get_by_text("Saved", exact=True)).to_be_visible()
    assert_on_the_lines(own_workroom.ask(f"{TRACE}/table.json"), block)


def test_from_a_scan_to_a_trued_block_on_paper(
    own_workroom: ServedWorkroom, open_page: Open, block: PaperBlock, tmp_path: Path
) -> None:
    hand = open_page(own_workroom)
    page = hand.page
    tracer = begin(hand, block)
    for piece in ("CF", "SF", "SB", "CB"):  # the names that pieces get in this order
        tracer.trace(piece, unsure=0.6)
    hand.press("Level")
    for piece in ("CF", "SF", "SB", "CB"):
        tracer.across("waist", piece)
    page.get_by_text("CF 4 edges").click()
    fold, opening = (
        next(k for k, edge in enumerate(block.drawn.piece(id).edges, 1) if edge.line == line)
        for id, line in (("CF", "centre-front"), ("CB", "centre-back"))
    )
    page.get_by_label(f"What it is: CF, edge {fold}").select_option("fold")
    page.get_by_label(f"Called: CF, edge {fold}").fill("centre-front")
    page.get_by_label(f"What it is: CB, edge {opening}").select_option("opening")
    page.get_by_label(f"Called: CB, edge {opening}").fill("centre-back")
    page.get_by_role("combobox", name="For", exact=True).select_option("w-01")
    hand.press("Check it")
    hand.see("Truing would change")
    hand.see("Waist: the pieces measure")
    hand.press("Presenter")  # an audience reads nothing of a body
    hand.see_no_more("Waist: the pieces measure")
    hand.press("Presenter")
    hand.see("Waist: the pieces measure")
    assert_on_the_lines(own_workroom.ask(f"{TRACE}/table.json"), block)

    hand.press("All of them are right")
    expect(page.get_by_text("confirmed")).to_have_count(3)
    told = {
        (seam.line, *(f"{side.piece} {side.number + 1}" for side in (seam.a, seam.b))) for seam in block.drawn.seams
    }
    seams = own_workroom.ask(TRACE)["document"]["seams"]
    assert {(seam["line"], *(f"{seam[side]['piece']} {seam[side]['edge']}" for side in "ab")) for seam in seams} == told
    page.get_by_label("True it").check()
    hand.see(re.compile(r"Trued: \d+ edges changed"))
    assert page.locator(".view .other").count() > 3

    with page.expect_download() as saved:
        page.get_by_role("link", name="Save as a file").click()
    saved.value.save_as(tmp_path / "own.json")
    own = make_own_block(load_drawn(tmp_path / "own.json"), true=True)
    assert [finding.message for finding in own.findings if finding.severity == "error"] == []
    waist = own.block.level("waist")
    assert drawn_girth(own.block, waist) == pytest.approx(drawn_girth(demo_garment("lantern-01").block, waist), abs=4)
    for name in ("quarter", "full"):
        link = page.get_by_role("link", name=f"Print at {name} scale").get_attribute("href")
        assert own_workroom.fetch(str(link)).startswith(b"%PDF")


def test_a_piece_is_traced_by_keys_alone(workroom: ServedWorkroom, open_page: Open, block: PaperBlock) -> None:
    hand = open_page(workroom)
    ref = begin_by_keys(hand, block)
    tracer = Tracer(hand, block)
    scale = tracer.camera()[2]
    hand.page.get_by_role("checkbox", name="Come to the pencil line").press("Space")
    tracer.canvas.focus()
    hand.keys("Space", *["Shift+ArrowRight"] * 8, "Space", *["Shift+ArrowRight"] * 2, "Enter")
    hand.keys(*["Shift+ArrowDown"] * 6, "ArrowDown", "Enter", "Backspace", "Backspace", "ArrowUp", "Enter")
    hand.see("CF, edge 3, 1 point.")
    hand.keys(*["Shift+ArrowLeft"] * 10, *["Shift+ArrowUp"] * 6, "Space")
    hand.see("3 edges")
    hand.keys("m", *["Shift+ArrowLeft"] * 2, "m")  # the first corner, carried 20 steps to the left
    expect(hand.page.get_by_text("Saved", exact=True)).to_be_visible()
    assert tracer.camera()[2] == scale  # the view stays as it is under a hand at work
    (piece,) = workroom.ask(f"/api/traces/{ref}")["document"]["pieces"]
    assert piece["closed"]
    corners = np.array([edge["points"][0] for edge in piece["edges"]]) * scale
    # Edges are turned anticlockwise as one looks at them: from the first corner down, then right along the top.
    assert corners - corners[0] == pytest.approx(np.array([(0, 0), (120, 60), (120, 0)]), abs=0.1)
    hand.keys("Control+z")
    hand.see("3 edges")


def begin_by_keys(hand: Hand, block: PaperBlock) -> str:
    """A new block whose scale is set without a pointer; gives its reference."""
    hand.button("Trace your own block").press("Enter")
    tracer = Tracer(hand, block)
    tracer.choose()
    hand.button("Press it in the picture").press("Enter")
    expect(tracer.canvas).to_be_focused()
    hand.keys("Space", *["Shift+ArrowRight"] * 10, "Space")
    expect(hand.button("Trace edges")).to_have_attribute("aria-pressed", "true")
    hand.keys(*["Shift+ArrowLeft"] * 10)
    return hand.page.url.rsplit("/", 1)[1]


def test_what_was_traced_last_is_saved_though_the_hand_has_gone_elsewhere(
    own_workroom: ServedWorkroom, open_page: Open, block: PaperBlock
) -> None:
    hand = open_page(own_workroom)
    begin_by_keys(hand, block)
    expect(hand.page.get_by_text("Saved", exact=True)).to_be_visible()
    held: list[Route] = []

    def hold(route: Route) -> None:
        if route.request.method == "PUT" and not held:
            held.append(route)
        else:
            route.continue_()

    def last(request: Request) -> bool:
        traced = (request.post_data_json or {}).get("document", {}) if request.method == "PUT" else {}
        return [len(edge["points"]) for piece in traced.get("pieces", []) for edge in piece["edges"]] == [2]

    hand.page.route("**/api/traces/**", hold)
    with hand.page.expect_event("requestfinished", predicate=last):
        hand.keys("Space", *["Shift+ArrowRight"] * 8, "Space")  # the second point waits for the first
        hand.see("CF, edge 1, 2 points.")
        hand.press("Workroom")
        expect(hand.button("Trace your own block")).to_be_visible()
        held[0].continue_()
    (piece,) = own_workroom.ask(TRACE)["document"]["pieces"]
    assert len(piece["edges"][0]["points"]) == 2


def test_a_picture_that_is_slow_to_open_stays_with_its_block(
    own_workroom: ServedWorkroom, open_page: Open, block: PaperBlock
) -> None:
    hand = open_page(own_workroom)
    hand.page.evaluate(SLOW)
    hand.press("Trace your own block")
    expect(Tracer(hand, block).canvas).to_be_visible()
    file = {"name": "block.png", "mimeType": "image/png", "buffer": block.png()}
    hand.page.locator("#trace-picture").set_input_files(file)  # type: ignore[arg-type]
    hand.page.wait_for_function("() => opening.length > 0")
    hand.press("Workroom")
    expect(hand.button("Open My block")).to_be_visible()
    hand.press("Trace your own block")
    hand.see("Choose a scan or photo of your paper block.")
    assert hand.page.evaluate(KEPT) == []
    assert own_workroom.ask("/api/traces/own-02")["document"]["picture"] is None


# Pictures open once `go` is called.
SLOW = """() => {
    const decode = HTMLImageElement.prototype.decode;
    window.opening = [];
    const wait = new Promise((done) => (window.go = done));
    HTMLImageElement.prototype.decode = function () {
        opening.push(wait.then(() => decode.call(this)));
        return opening.at(-1);
    };
}"""
# What the browser keeps once they are open: a transaction waits for those that were begun before it.
KEPT = """async () => {
    go();
    await Promise.all(opening);
    await new Promise((done) => setTimeout(done));
    const asked = indexedDB.open("panelwright-board", 1);
    const database = await new Promise((done) => (asked.onsuccess = () => done(asked.result)));
    const keys = database.transaction("pictures").objectStore("pictures").getAllKeys();
    return new Promise((done) => (keys.onsuccess = () => done(keys.result)));
}"""
