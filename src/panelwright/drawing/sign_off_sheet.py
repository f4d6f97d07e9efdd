"""The wearer's sign-off page: what was measured, checked and reckoned, what is bought, and room to initial it.

It bears the wearer's measurements on purpose, since it is for the wearer: it is private.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Final

from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit
from panelwright.checks.tally import counted, counts_in_words
from panelwright.drawing.amount import span
from panelwright.drawing.drawing import Drawing
from panelwright.drawing.garment_picture import garment_picture
from panelwright.drawing.heading import Heading, heading_drawing
from panelwright.drawing.page_flow import Strip, beside, flowed, height_of, hung, kept_together, space
from panelwright.drawing.paper import Paper
from panelwright.drawing.paragraph import BODY, HEAD, SMALL, paragraph, section
from panelwright.drawing.piece_drawing import PieceDrawing
from panelwright.drawing.sheet import Laid, Sheet
from panelwright.drawing.sign_off_body import body_strips
from panelwright.drawing.sign_off_checks import finding_strips, passed_strips
from panelwright.drawing.sign_off_closures import closure_strips
from panelwright.drawing.sign_off_girths import girth_strips
from panelwright.drawing.sign_off_goods import cloth_strips, notion_strips
from panelwright.drawing.sign_off_names import names_strip
from panelwright.drawing.sign_off_workings import working_strips
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.lay.lay import Lay

PRIVATE: Final = "private: hand it to the wearer"
# How far lengths over the bust stay from real shapes with ordinary measurements, mm (own trials).
BUST_LENGTHS: Final = (10.0, 20.0)
GUTTER: Final = 8.0
HEAD_GAP: Final = 3.0
SECTION_GAP: Final = 2.0
LEAST_PICTURE: Final = 50.0
# Columns side by side are not broken, so they stay well below a page, mm.
MOST_BESIDE: Final = 70.0


@dataclass(frozen=True, eq=False, repr=False)
class SignOff:
    """What a sign-off page tells.

    Attributes:
        cutting: the finished pieces.
        findings: of the checks, errors first.
        pieces: the same pieces as they are drawn, at any scale.
        wearer: measurements; without them the page names the estimates but gives no amounts.
        lays: of its cloths, as far as they are known: they give the lengths to buy.
        unlaid: why the cloths have no lay, one sentence, where a piece fits on none.
        cautions: what the wearer should know before putting it on, one sentence or two each.
        remarks: what the maker noted on steps of the design, and which are switched off.
    """

    cutting: CuttingPattern
    findings: Sequence[Finding]
    pieces: Sequence[PieceDrawing]
    wearer: Measurements | None = None
    lays: Sequence[Lay] = ()
    unlaid: str = ""
    cautions: Sequence[str] = ()
    remarks: Sequence[str] = ()

    @property
    def without_errors(self) -> bool:
        """Whether no check found an error: only then the page says that it is ready to cut."""
        return not counted(self.findings)["error"]


def sign_off_sheets(facts: SignOff, heading: Heading, paper: Paper) -> tuple[Sheet, ...]:
    """The page, or as many as it needs, in the heading's unit; the last one has the room to initial."""
    head = _head(heading, "page 1 of 1", paper)
    room = head.bounds[1] - HEAD_GAP - paper.margin
    pages = flowed(_strips(facts, heading.unit, paper.inner_width), room)
    sheets = []
    for number, strips in enumerate(pages, 1):
        name = f"page {number} of {len(pages)}"
        head = _head(heading, name, paper)
        laid = [Laid(head), *hung(strips, paper.margin, head.bounds[1] - HEAD_GAP)]
        sheets.append(Sheet(paper.width, paper.height, f"sign-off, {name}", tuple(laid)))
    return tuple(sheets)


def _head(heading: Heading, name: str, paper: Paper) -> Drawing:
    notes = replace(heading, estimated=()).notes(f"sign-off page, {PRIVATE}")
    return heading_drawing(heading, notes, name, paper.margin, paper.height - paper.margin, paper.inner_width)


def _strips(facts: SignOff, unit: Unit, width: float) -> list[Strip]:
    pattern, half = facts.cutting.pattern, (width - GUTTER) / 2
    girths = girth_strips(pattern, facts.wearer, unit, half)
    picture = garment_picture(facts.pieces, half, max(LEAST_PICTURE, height_of(girths)))
    parts = [
        _verdict(facts, unit, width),
        [beside([(0.0, [picture]), (half + GUTTER, girths)])],
        body_strips(pattern, facts.wearer, unit, width),
        finding_strips(facts.findings, unit, width),
        *_checks_and_goods(facts, unit, width),
        working_strips(pattern.workings, unit, width),
        _listed("Notes on the design", facts.remarks, width),
        _listed("Before it is worn", facts.cautions, width),
        _names(facts, width),
    ]
    return [strip for part in parts if part for strip in (*part, space(SECTION_GAP))]


def _checks_and_goods(facts: SignOff, unit: Unit, width: float) -> list[list[Strip]]:
    """What is shut, bought and cut beside the checks, as far as it has room there; the rest one after the other."""
    half = (width - GUTTER) / 2
    pattern, checks = facts.cutting.pattern, passed_strips(facts.cutting, facts.findings, half)
    parts = [
        partial(closure_strips, pattern, unit),
        partial(cloth_strips, facts.cutting, facts.lays, facts.unlaid, unit),
        partial(notion_strips, pattern.notions, unit),
    ]
    column: list[Strip] = []
    below: list[list[Strip]] = []
    for part in parts:
        strips = part(half)
        if height_of([*column, *strips]) <= MOST_BESIDE:
            column += [*strips, space(SECTION_GAP / 2)]
        else:
            below.append(part(width))
    return [[beside([(0.0, checks), (half + GUTTER, column)])], *below]


def _verdict(facts: SignOff, unit: Unit, width: float) -> list[Strip]:
    counts = counts_in_words(facts.findings)
    if facts.without_errors:
        warnings = counted(facts.findings)["warning"]
        decide = " once every warning below is decided and ticked" if warnings else ""
        words = f"Ready to cut{decide}: {counts}."
    else:
        words = f"NOT ready to cut: {counts}."
    apart = span(*BUST_LENGTHS, unit)
    toile = (
        f"Lengths over the bust stay {apart} off real shapes with ordinary measurements: a toile stays necessary. "
        "Sew it, fit it, and only then cut good cloth."
    )
    return kept_together([paragraph(words, width, HEAD, bold=True), paragraph(toile, width)])


def _listed(head: str, entries: Sequence[str], width: float) -> list[Strip]:
    if not entries:
        return []
    first, *others = [paragraph(f"– {entry}", width, SMALL + 0.1, indent=2.0) for entry in entries]
    return [*kept_together([section(head, width), first]), *others]


def _names(facts: SignOff, width: float) -> list[Strip]:
    if facts.without_errors:
        words = "Initialled by all three, with every warning decided and the toile fitted, the pattern may be cut."
    else:
        words = "Not to be initialled while an error stands: put it right and make the pattern again."
    return kept_together([section("Initials", width), paragraph(words, width, BODY), names_strip(width)])
