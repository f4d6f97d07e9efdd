# ruff: noqa: E402 -- the path to the hand of the tests must be told before it is imported
"""How soon the page follows the hand: a demo style line is dragged in headless Chromium, before the real server.

One run is one move of the mouse with the handle held, to a height that was never used before, so that no step or
offset is remembered from an earlier run. The clock starts at the time that the browser stamps on the pointer's event,
and stops twice: in the first task after the frame that shows the style line where the hand now holds it, and in that
after the frame that shows the pieces cut along it. A MutationObserver sees a new `d`, asks for the next animation
frame, and that frame posts itself a message, which the browser delivers when it has laid out and painted the frame. In
between lie the page's own script and the socket both ways, and on the server the style line; until the pieces are
there also the replay, allowances and corners of the outer pieces, and the JSON. The next move waits for that. What a
screen adds after the frame is handed over (up to one refresh) is not in it; waiting for the next frame is. A hand
keeps no step with the screen: moves are spread evenly over the time between two frames.

Page ready: from the start of the navigation until an outline of the design is drawn and its frame painted, in a new
browser context without anything kept from before; the server is warm.
"""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count
from os import environ
from pathlib import Path
from tempfile import TemporaryDirectory
from time import sleep

from stopwatch import runs_asked, tell

# The browser and the hand of the tests, in place of this folder, in which this very file is called `board`.
sys.path[0] = str(Path(__file__).resolve().parents[1] / "tests")

from browser.chromium import FLAGS, find_chromium
from browser.grip import Hold
from browser.hand import Hand
from browser.served_workroom import ServedWorkroom
from browser.watched_page import Watch
from playwright.sync_api import Browser, sync_playwright

DRAG_MEDIAN_MS, DRAG_P95_MS, READY_MS = 20.0, 50.0, 1500.0

# `window.follow("line")` makes `window.followed` a promise of the ms from the last event of the pointer to the frame
# that shows what followed it.
FOLLOW = """
() => {
  let since = 0, place = "", awaited = new Set(), seen = {}, wanted = [], tell = () => {};
  // Asked once, it answers when all is seen: a page that is asked again and again has less time for its work.
  window.follow = (...what) => {
    seen = {};
    wanted = what;
    window.followed = new Promise((done, lost) => {
      tell = done;
      setTimeout(() => lost(new Error("nothing follows the hand")), 30_000);
    });
  };
  const channel = new MessageChannel();
  channel.port1.onmessage = ({ data: what }) => {
    seen[what] = performance.now() - since;
    if (wanted.every(each => each in seen)) tell(seen);
  };
  addEventListener("pointerrawupdate", event => {
    // When what lies under a hand that holds still has changed, the browser tells its place again.
    const now = `${event.clientX} ${event.clientY}`;
    if (now === place) return;
    place = now;
    since = event.timeStamp;
    awaited = new Set(["line", "pieces"]);
  }, { capture: true });
  new MutationObserver(changes => {
    for (const { target } of changes) {
      const what = target.closest("[data-piece]") ? "pieces" : target.matches("[data-held]") ? "line" : null;
      if (what && awaited.delete(what)) requestAnimationFrame(() => channel.port2.postMessage(what));
    }
  }).observe(document, { subtree: true, attributes: true, attributeFilter: ["d"] });
}
"""
# Whether an outline is drawn and its frame has been painted; gives the time since the navigation began.
READY = """
() => new Promise(told => {
  const look = () => {
    if (!document.querySelector('[role=slider]')) return requestAnimationFrame(look);
    const channel = new MessageChannel();
    channel.port1.onmessage = () => told(performance.now());
    channel.port2.postMessage(0);
  };
  requestAnimationFrame(look);
})
"""
DESIGN, PAGE = "lantern-01", "/#/make/lantern-01/flat"
MOVES_A_DRAG, READY_RUNS = 12, 10  # farther down the edge snaps to the height beside it
WIDTH, HEIGHT = 1280, 800
FRAME_S = 1 / 60
PHASES = ((7 * k % 17) / 17 * FRAME_S for k in count())

Followed = dict[str, float]  # what was seen to follow the hand -> ms after its move


@contextmanager
def opened(browser: Browser, served: ServedWorkroom) -> Iterator[tuple[Hand, float]]:
    """The demo's lantern bodice on a page of its own, and the ms until it was drawn."""
    with browser.new_context(viewport={"width": WIDTH, "height": HEIGHT}) as context:
        page = context.new_page()
        hand = Hand(page, Watch(page, served.address))
        page.goto(served.address + PAGE, wait_until="commit")
        ready = float(page.evaluate(READY))
        yield hand, ready
        if hand.watch.complaints:
            raise RuntimeError(f"the page complains: {hand.watch.complaints}")


def followed(hand: Hand, moves: int) -> list[Followed]:
    """Drag the top edge at the centre back down, to a different height each time."""
    hand.page.evaluate(FOLLOW)
    times: list[Followed] = []
    heights: set[float] = set()
    start = hand.back.height()
    while len(times) < moves:
        # A mouse knows whole pixels only: in a window of another size the same pixel is another height.
        drags = len(times) // MOVES_A_DRAG
        hand.page.set_viewport_size({"width": WIDTH + 16 * drags, "height": HEIGHT + 10 * drags})
        hand.back.wait_for(start)
        with hand.back.held() as hold:
            _move(hand, hold, -8, "pieces")  # tells that this is a drag and not a press: it is not counted
            for move in range(min(MOVES_A_DRAG, moves - len(times))):
                times.append(_move(hand, hold, -9 - move, "line", "pieces"))
                heights.add(round(hand.back.height(), 1))
            hand.keys("Escape")
            hand.back.wait_for(start)
    print(f"{len(times)} moves to {len(heights)} heights")
    return times


def _move(hand: Hand, hold: Hold, up_px: int, *awaited: str) -> Followed:
    hand.page.evaluate("awaited => window.follow(...awaited)", awaited)
    sleep(next(PHASES))
    hold.nudge(up_px / hold.scale)
    return dict(hand.page.evaluate("() => window.followed"))


if __name__ == "__main__":
    runs = runs_asked(__doc__, 200)
    chromium = find_chromium()
    with TemporaryDirectory() as folder, sync_playwright() as playwright:
        served = ServedWorkroom(Path(folder) / "board.workroom")
        served.start()
        browser = playwright.chromium.launch(
            executable_path=chromium.program, args=list(FLAGS), env={**environ, **chromium.environment}
        )
        with opened(browser, served) as (hand, _):
            moves = followed(hand, runs)
            tell(f"{DESIGN}: a move, until the line is there", [m["line"] for m in moves], DRAG_MEDIAN_MS, DRAG_P95_MS)
            tell(f"{DESIGN}: a move, until the pieces are cut again", [m["pieces"] for m in moves])
        ready_ms = []
        for _ in range(READY_RUNS):
            with opened(browser, served) as (_, ready):
                ready_ms.append(ready)
        tell(f"{DESIGN}: page ready", ready_ms, READY_MS)
        browser.close()
        served.stop()
