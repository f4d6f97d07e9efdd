"""A line drawn by hand over the pieces on the page."""

from browser.hand import Hand
from playwright.sync_api import expect

LOWER_PX = 12.0


def top_edge(hand: Hand) -> list[list[float]]:
    """Places along the top edges of all pieces, from left to right, on the screen."""
    places: list[list[float]] = hand.page.evaluate(
        """() => [...document.querySelectorAll('[data-piece][data-layer=outer]')].flatMap((piece) => {
            const edges = [...piece.querySelectorAll('.edge[data-kind=finished]')];
            const top = (edge) => edge.getBoundingClientRect().top;
            const edge = edges.sort((a, b) => top(a) - top(b))[0];
            return Array.from({ length: 21 }, (_, k) => {
                const place = edge.getPointAtLength((edge.getTotalLength() * k) / 20);
                const seen = place.matrixTransform(edge.getScreenCTM());
                return [seen.x, seen.y];
            });
        }).sort((a, b) => a[0] - b[0])"""
    )
    return places


def draw_lower_top(hand: Hand) -> None:
    """Draw a new top edge all round, a little below the one that is there, and wait until it is shown."""
    hand.press("Draw a line")
    line = [[x, y + LOWER_PX] for x, y in top_edge(hand)]
    hand.page.mouse.move(*line[0])
    hand.page.mouse.down()
    for place in line[1:]:
        hand.page.mouse.move(*place)
    hand.page.mouse.up()
    expect(hand.button("Keep this line")).to_be_enabled()
