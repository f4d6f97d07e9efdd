"""What a press does is said beside the hand, and the fold is asked for as soon as a piece is closed."""

from browser.conftest import Open
from browser.paper_block import PaperBlock
from browser.served_workroom import ServedWorkroom
from browser.tracer import Tracer
from design.demo_garments import demo_garment
from playwright.sync_api import expect

TRACE = "/api/traces/own-01"


def test_the_hand_is_told_of_corners_and_asked_for_the_fold(own_workroom: ServedWorkroom, open_page: Open) -> None:
    block = PaperBlock.of(demo_garment("lantern-01").block)
    hand = open_page(own_workroom)
    hand.press("Trace your own block")
    tracer = Tracer(hand, block)
    tracer.choose()
    tracer.set_scale()
    hand.see("Begin with the piece on the fold")
    edge = block.edge("CF", 0)
    hint = hand.page.locator(".canvas .hint")
    tracer.press(edge[0])
    hand.see("CF, edge 1, 1 point.")
    expect(hint).to_have_count(0)
    tracer.press(edge[-1])
    expect(hint).to_have_text("press again for a corner")
    x, y = tracer.on_screen(edge[-1])
    box = hint.bounding_box()
    assert box is not None
    assert 0 < box["x"] - x < 30
    assert -40 < box["y"] - y < 10
    hand.page.mouse.move(x + 60, y + 60)
    expect(hint).to_have_count(0)
    tracer.press(edge[-1])
    hand.see("CF, edge 2, 1 point.")
    expect(hint).to_have_count(0)
    for number in (1, 2):
        tracer.press(block.edge("CF", number)[-1], times=2)
    first = tracer.look_at(edge[0])
    hand.page.mouse.move(*first)
    expect(hint).to_have_text("press to close the piece")
    tracer.press(edge[0])
    hand.see("Which edge lies on the fold?")
    fold = next(k for k, each in enumerate(block.drawn.piece("CF").edges, 1) if each.line == "centre-front")
    chosen = hand.page.get_by_role("combobox", name="On the fold")
    chosen.select_option(f"CF {fold}")
    hand.see_no_more("Which edge lies on the fold?")
    expect(hand.page.get_by_text("Saved", exact=True)).to_be_visible()
    kinds = [edge["kind"] for edge in own_workroom.ask(TRACE)["document"]["pieces"][0]["edges"]]
    assert kinds.index("fold") == fold - 1
    assert kinds.count("fold") == 1
    other = fold % 4 + 1
    chosen.select_option(f"CF {other}")
    expect(hand.page.get_by_role("combobox", name=f"What it is: CF, edge {other}")).to_have_value("fold")
    expect(hand.page.get_by_role("combobox", name=f"What it is: CF, edge {fold}")).to_have_value("")
