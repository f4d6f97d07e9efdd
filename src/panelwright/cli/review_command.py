"""`panelwright review`: a learner's drawn pattern beside the one that the brief asks for."""

from argparse import Namespace
from math import degrees

from panelwright.app.design_file import load_design
from panelwright.app.drawn_file import load_drawn
from panelwright.app.garment import STAGES, make_garment
from panelwright.app.progress import part_of
from panelwright.app.review_sheet import write_review
from panelwright.app.review_words import MOST_TOLD, ToldPoint, told_points, what_is_right
from panelwright.cli.console import Console
from panelwright.cli.given import given_fitting, given_out, given_paper, given_wearer
from panelwright.cli.outcome import FINE
from panelwright.intake.review import Review, review


def run(arguments: Namespace, console: Console) -> int:
    """Review the pattern and write the sheet; returns the exit status."""
    choice = given_paper(arguments)
    wearer, (design_path, drawn_path) = given_wearer(arguments, "a design file", "a file of the learner's pieces")
    design, drawn, fitting = load_design(design_path), load_drawn(drawn_path), given_fitting(arguments)
    path = given_out(arguments, f"{drawn.ref}-feedback.pdf")
    garment = make_garment(wearer, design, part_of(console.progress, 0, STAGES + 2), choice.unit, fitting=fitting)
    console.progress(STAGES, STAGES + 2, "review")
    found = review(drawn, garment.cutting.pattern)
    console.progress(STAGES + 1, STAGES + 2, path.name)
    pages = write_review(found, design.title, path, choice)
    told = told_points(found)
    facts: dict[str, object] = {
        "status": FINE,
        "command": "review",
        "design": design.ref,
        "scale": int(found.scale),
        "pages": pages,
        "files": [str(path)],
        "right": what_is_right(found),
        "points": [_point(each, found) for each in told],
        "seams": [{"seam": s.seam.id, "a_mm": s.a, "b_mm": s.b, "off_mm": s.off} for s in found.seams],
        "edges": [
            {"edge": pair.model.id, "should_mm": pair.model.curve.length, "drawn_mm": pair.learner.length}
            for piece in found.pieces
            for pair in piece.pairs or ()
        ],
    }
    lead = f"{design.title} as it was drawn, {len(told)} {'point' if len(told) == 1 else 'points'} to mend:"
    shown = [f"  {each.number}. {each.says}" for each in told[: 2 * MOST_TOLD]]
    more = len(told) - len(shown)
    tail = [f"  and {more} more on the sheet"] if more > 0 else []
    console.answer(facts, "\n".join([lead, f"  {path}", *what_is_right(found), *shown, *tail]))
    return FINE


def _point(each: ToldPoint, found: Review) -> dict[str, object]:
    """A point for a program: lengths in mm of the garment, angles in degrees."""
    point = each.point
    is_angle, is_length = point.kind == "fold-angle", point.kind in ("seam", "edge", "corner")
    return {
        "number": each.number,
        "kind": point.kind,
        "piece": point.piece,
        "lines": list(point.lines),
        "edge": point.edge or None,
        "value": degrees(point.value) if is_angle else point.value,
        "limit": degrees(point.limit) if is_angle else point.limit,
        "unit": "degrees" if is_angle else "mm" if is_length else "count",
        "on_paper_mm": point.value / found.scale if is_length else None,
        "at_mm": None if point.at is None else list(point.at),
        "matters_most": each.number <= MOST_TOLD,
        "says": each.says,
        "why": each.why,
        "mend": each.mend,
    }
