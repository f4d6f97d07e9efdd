"""The feedback sheet of a review: what is right, what matters most, the rest in short, and the pieces."""

from pathlib import Path
from typing import Final

from panelwright.app.paper import PaperChoice
from panelwright.app.review_picture import piece_picture
from panelwright.app.review_words import ToldPoint, most_and_rest, told_points, what_is_right
from panelwright.app.sign_off import page_of
from panelwright.drawing.drawing import Drawing
from panelwright.drawing.hand_footing import footed
from panelwright.drawing.heading import Heading, date_text, heading_drawing
from panelwright.drawing.page_flow import Strip, beside, flowed, hung, kept_together, space
from panelwright.drawing.paper import Paper
from panelwright.drawing.paragraph import SMALL, paragraph, section
from panelwright.drawing.sheet import Sheet
from panelwright.intake.review import PieceReview, Review
from panelwright.output.pdf import write_pdf

NAME: Final = "feedback"
KEY: Final = (
    "Your line is bold, the line as the design asks for it is faint, both at quarter scale unless a piece says "
    "otherwise. Your pieces were turned, and turned over where need be, so as to lie on the design's as well as they "
    "can; outside means away from the middle of the piece."
)
_GAP: Final = 8.0
_CAPTION: Final = 6.0
_FACTORS: Final = {0.25: "", 0.125: ", at one eighth", 0.0625: ", at one sixteenth"}


def review_sheets(review: Review, title: str, choice: PaperChoice) -> tuple[Sheet, ...]:
    """The pages. Nothing on them says whose measurements were used.

    Args:
        review: what was found.
        title: of the design.
        choice: paper (A4 where it is A3) and date.
    """
    paper = page_of(choice.paper)
    told = told_points(review)
    strips = [_head(title, choice, paper), *_words(review, told, paper.inner_width), *_pieces(review, told, paper)]
    pages = flowed(strips, paper.inner_height)
    sheets = []
    for number, page in enumerate(pages, 1):
        laid = hung(page, paper.margin, paper.height - paper.margin)
        sheet = Sheet(paper.width, paper.height, f"{NAME}, page {number} of {len(pages)}", tuple(laid))
        sheets.append(footed(sheet, f"{title}, {NAME}", f"page {number} of {len(pages)}"))
    return tuple(sheets)


def write_review(review: Review, title: str, path: Path, choice: PaperChoice) -> int:
    """Write the pages as one PDF, there whole or not at all, and return how many they are.

    Raises:
        OutputError: if the file cannot be written.
    """
    sheets = review_sheets(review, title, choice)
    write_pdf(sheets, path, f"{title}, {NAME}", choice.made_on)
    return len(sheets)


def _head(title: str, choice: PaperChoice, paper: Paper) -> Strip:
    heading = Heading(title, "", choice.made_on, choice.unit)
    notes = [" · ".join([*([date_text(choice.made_on)] if choice.made_on else []), "your pattern beside the design's"])]
    drawing = heading_drawing(heading, notes, NAME, 0.0, 0.0, paper.inner_width)
    return Strip(drawing, -drawing.bounds[1] + 3.0)


def _words(review: Review, told: list[ToldPoint], width: float) -> list[Strip]:
    most, rest = most_and_rest(told)
    strips = [section("What is right", width), *(paragraph(line, width) for line in what_is_right(review))]
    if most:
        strips += [space(3.0), section("What matters most", width)]
        for each in most:
            head = paragraph(f"{each.number}. {_capital(each.says)}", width, bold=True, indent=5.0)
            body = paragraph(f"{each.why} {each.mend}", width)
            strips += [*kept_together([head, body]), space(1.5)]
    if rest:
        strips += [section("In short", width)]
        strips += [paragraph(f"{each.number}. {_capital(each.says)}", width, indent=5.0) for each in rest]
    return [*strips, space(3.0)]


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]


def _pieces(review: Review, told: list[ToldPoint], paper: Paper) -> list[Strip]:
    """The pieces in rows, as many beside each other as the page has room for."""
    rows: list[list[tuple[float, list[Strip]]]] = []
    left = paper.inner_width
    for piece in review.pieces:
        strip, width = _piece(piece, told, paper)
        if not rows or left + width > paper.inner_width:
            rows.append([])
            left = 0.0
        rows[-1].append((left, [strip]))
        left += width + _GAP
    head = [section("Your pieces", paper.inner_width), paragraph(KEY, paper.inner_width, SMALL), space(2.0)]
    strips = [beside(row) for row in rows]
    return [*kept_together([*head, *strips[:1]]), *(each for row in strips[1:] for each in (space(4.0), row))]


def _piece(piece: PieceReview, told: list[ToldPoint], paper: Paper) -> tuple[Strip, float]:
    """(a piece with its name over it, how wide it is), at the largest scale that the page has room for."""
    drawn = [(piece_picture(piece, told, factor), words) for factor, words in _FACTORS.items()]
    drawing, words = next((each for each in drawn if _fits(each[0], paper)), drawn[-1])
    left, low, right, high = drawing.bounds
    caption = paragraph(f"{piece.match.model.label} ({piece.match.model.id}){words}", 60.0, bold=True)
    picture = drawing.moved((-left, -high - _CAPTION))
    width = max(right - left, caption.drawing.bounds[2])
    return Strip(Drawing.together([caption.drawing, picture]), high - low + _CAPTION), width


def _fits(drawing: Drawing, paper: Paper) -> bool:
    left, low, right, high = drawing.bounds
    return right - left < paper.inner_width and high - low < paper.inner_height - 40.0
