"""A learner's photo, drawing or table of points held against a design of the workroom."""

from dataclasses import dataclass

from panelwright.app.board_piece import Document
from panelwright.app.drawn_file import read_drawn
from panelwright.app.paper import PaperChoice
from panelwright.app.paper_reading import PaperAnswers, PaperReading, is_photo, read_contents
from panelwright.app.progress import Progress
from panelwright.app.review_sheet import NAME, review_sheets
from panelwright.app.review_words import most_and_rest, told_points, what_is_right
from panelwright.app.workroom_garments import WorkroomGarments
from panelwright.errors import InputError
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.review import review
from panelwright.output.pdf import pdf_bytes
from panelwright.output.svg import svg_text


@dataclass(frozen=True, eq=False, repr=False)
class Learners:
    """What a learner hands in.

    Attributes:
        name: of the file.
        content: a photo with the reference sheet, a DXF or SVG drawing, or a table of points.
        answers: what a person knows about it; a table of points says it itself.
    """

    name: str
    content: bytes
    answers: PaperAnswers

    def read(self) -> tuple[DrawnPattern, tuple[str, ...]]:
        """(the pieces, what a person should look at again).

        Raises:
            InputError: if the file cannot be used, with what to do.
        """
        if self.content.lstrip()[:1] == b"{":
            try:
                return read_drawn(self.content.decode("utf-8-sig")), ()
            except UnicodeDecodeError as error:
                raise InputError("the file is not text in UTF-8: save the table of points anew", "file") from error
        read: PaperReading = read_contents([(self.name, self.content)], self.answers)
        return read.drawn, read.told[1:] if is_photo(self.content) else ()


@dataclass(frozen=True, eq=False, repr=False)
class Feedback:
    """What is handed back to a learner.

    Attributes:
        facts: `right`, what was done well; `points` in the order in which they matter; `doubts` about the reading.
        pdf: the feedback sheet.
        pages: its pages, SVG.
    """

    facts: Document
    pdf: bytes
    pages: tuple[str, ...]


def workroom_review(
    garments: WorkroomGarments,
    design: str,
    wearer: str,
    choice: PaperChoice,
    learners: Learners,
    progress: Progress,
) -> Feedback:
    """The feedback on a learner's pattern.

    Raises:
        NotThereError: if there is no such design or wearer.
        InputError, BlockError, DesignError: if the design cannot be made, or the file cannot be used.
    """
    progress(0, 3, "the design")
    drawn = garments.complete(design, wearer, choice.unit, named=False).design
    progress(1, 3, "the learner's pieces")
    pieces, doubts = learners.read()
    progress(2, 3, "the feedback sheet")
    found = review(pieces, drawn.cutting.pattern)
    title = drawn.design.title
    sheets = review_sheets(found, title, choice)
    told = told_points(found)
    most, _ = most_and_rest(told)
    points = [
        {"number": each.number, "says": each.says, "why": each.why, "mend": each.mend, "most": each in most}
        for each in told
    ]
    facts: Document = {"right": what_is_right(found), "points": points, "doubts": list(doubts), "pages": len(sheets)}
    return Feedback(
        facts, pdf_bytes(sheets, f"{title}, {NAME}", choice.made_on), tuple(svg_text(sheet) for sheet in sheets)
    )
