"""The sign-off page: what it says, that it says so only where it is so, and that it is tidy on every paper."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import product

import pytest
import shapely
from drawn_garment import MADE_ON, garment
from tidy_sheet import assert_sheet_is_tidy, recorded

from panelwright.body.measurements import Measurements
from panelwright.body.units import Unit
from panelwright.drawing.drawing import Lettering, Stroke
from panelwright.drawing.garment_picture import garment_picture
from panelwright.drawing.heading import Heading
from panelwright.drawing.paper import PAPERS
from panelwright.drawing.piece_drawing import draw_pieces
from panelwright.drawing.scale import QUARTER
from panelwright.drawing.sheet import Sheet
from panelwright.drawing.sign_off_sheet import SignOff, sign_off_sheets
from panelwright.file_words import in_file
from panelwright.finding import Finding
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.finishing import finish
from panelwright.finish.options import Cloths, Finish
from panelwright.geometry.placement import Placement
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay_garment import lay_garment
from panelwright.pattern.closure import Closure
from panelwright.pattern.line import Line
from panelwright.pattern.mark import InsideLine
from panelwright.pattern.notion import Notion
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.working import OR_LONGER, Part, Working

TAKEN = {
    "bust_girth": 883.0,
    "underbust_girth": 757.0,
    "waist_girth": 719.0,
    "hip_girth": 967.0,
    "back_neck_to_waist": 403.0,
}
WEARER = Measurements.of("w-07", TAKEN)
WARNING = Finding("tight", "warning", "waist", -46.0, -36.0, "The waist is 4.6 cm smaller.", "Give it more ease.")
ADVICE = Finding("strain", "advice", "CF", 5.5, 5.0, "The centre front strains.", "Ease it in.", unit="%")
ERROR = Finding("blend", "error", "side", 3.2, 1.0, "The hem has a point at the side.", "Draw it again.", unit="°")
STRAP = Working(
    "s/length",
    "Strap",
    (Part("over the shoulder", 400.0), Part("sewn in at both ends", 24.0), Part("stretch taken off", -9.0)),
    given=445.0,
    note="Set it at the fitting.",
    rule_of_thumb="Front and back heights added.",
)
ZIP = Closure("z", "side", "zip", "invisible", "left", "side", 40.0, 331.0, True, False)
LACING = Closure("l", "centre-back", "lacing", "", "centre", "centre-back", 0.0, 331.0, gap=40.0, spreads=180.0)
BONES = Notion("bone", "spiral bone", 4, 245.0, detail="along the princess seams")


def with_pattern(change: dict[str, object]) -> CuttingPattern:
    made = garment()
    return replace(made, pattern=replace(made.pattern, **change))


def facts(
    findings: Sequence[Finding] = (),
    wearer: Measurements | None = WEARER,
    cautions: Sequence[str] = (),
    **pattern: object,
) -> SignOff:
    cutting = with_pattern({"estimated": WEARER.estimated, **pattern})
    return SignOff(cutting, findings, draw_pieces(cutting, QUARTER), wearer, cautions=cautions)


def sheets(given: SignOff, unit: Unit = Unit.CM, paper: str = "A4", title: str = "Lantern bodice") -> tuple[Sheet, ...]:
    return sign_off_sheets(given, Heading.of(given.cutting.pattern, title, MADE_ON, unit), PAPERS[paper])


def words(given: SignOff, unit: Unit = Unit.CM) -> str:
    """Everything that is written, in the order of drawing: column by column, row by row, cell by cell."""
    return " ".join(text.text for sheet in sheets(given, unit) for text in recorded(sheet).letterings)


@pytest.mark.parametrize(("paper", "unit"), list(product(sorted(PAPERS), (Unit.CM, Unit.INCH))))
@pytest.mark.parametrize("much", [False, True], ids=["short", "long"])
def test_it_is_tidy_on_every_paper(paper: str, unit: Unit, much: bool) -> None:
    if much:
        given = facts(
            [ERROR, *[WARNING] * 20, *[replace(ADVICE, message="Long words " * 40)] * 5],
            cautions=["Pain means that it is too tight: loosen it at once. " * 4] * 3,
            closures=(ZIP, LACING),
            notions=(BONES,) * 30,
            workings=tuple(replace(STRAP, id=f"s{k}/length") for k in range(7)),
        )
        title = "A bodice for the leader of the round dance with a name as long as names can be at all"
    else:
        given, title = facts(), "Bodice"
    made = sheets(given, unit, paper, title)
    assert (len(made) > 2) == much
    for number, sheet in enumerate(made, 1):
        assert_sheet_is_tidy(sheet)
        assert f"page {number} of {len(made)}" in [text.text for text in recorded(sheet).letterings]


def test_an_ordinary_garment_has_one_page() -> None:
    assert len(sheets(facts([WARNING, ADVICE]))) == 1


def test_nothing_but_black_and_grey_and_no_text_on_a_line() -> None:
    """It prints in black and white; a hairline is no darker than a third, so text reads first."""
    for sheet in sheets(facts([WARNING], closures=(ZIP,), workings=(STRAP,))):
        page = recorded(sheet)
        runs = [
            shapely.LineString(run)
            for sign, _ in page.signs
            if isinstance(sign, Stroke) and sign.layer == "sheet"
            for run in sign.path.polylines
        ]
        for text in page.letterings:
            slim = shapely.Polygon(text.box).buffer(-0.3 * text.size)
            assert not any(run.intersects(slim) for run in runs), text.text


# What it says


@pytest.mark.parametrize(
    ("findings", "said"),
    [
        ((), "Ready to cut: no errors, no warnings, no pieces of advice."),
        (
            (WARNING, ADVICE),
            "Ready to cut once every warning below is decided and ticked: no errors, 1 warning, 1 piece of advice.",
        ),
        ((ERROR,), "NOT ready to cut: 1 error, no warnings, no pieces of advice."),
    ],
)
def test_it_is_ready_to_cut_only_without_an_error(findings: tuple[Finding, ...], said: str) -> None:
    text = words(facts(findings))
    assert said in text
    assert ("Ready to cut" in text) == (ERROR not in findings)
    assert ("the pattern may be cut" in text) == (ERROR not in findings)
    assert ("Not to be initialled" in text) == (ERROR in findings)


def test_a_level_that_an_edge_crosses_is_told_in_part_beside_the_wearers_girth() -> None:
    whole = garment().pattern
    levels = tuple(level for level in whole.levels if level.id != "waist")

    def crossed(line: InsideLine) -> InsideLine:
        return replace(line, kind="guide") if line.id == "waist" else line

    pieces = tuple(replace(piece, inside=tuple(map(crossed, piece.inside))) for piece in whole.pieces)
    text = words(facts(levels=levels, pieces=pieces))
    assert "Waist 71.9 cm – in part" in text
    assert text.index("Bust 80.2 cm") < text.index("Waist 71.9 cm –") < text.index("Centre front")
    assert "in part: an edge of the garment crosses this level" in text
    assert "in part" not in words(facts())


def test_nobody_who_signs_reads_words_of_files() -> None:
    told = replace(WARNING, remedy=f"Give it more ease{in_file('block.ease_cm')}, or sew a toile.")
    text = words(facts([told]))
    assert "What to do: Give it more ease, or sew a toile." in text
    assert "ease_cm" not in text


@pytest.mark.parametrize(("unit", "apart"), [(Unit.CM, "1.0 to 2.0 cm"), (Unit.INCH, "3/8 to 3/4 in")])
def test_a_toile_stays_necessary(unit: Unit, apart: str) -> None:
    """10 to 20 mm (design page: lengths over the bust); 10 / 25.4 is 3.15 eighths, 20 / 25.4 is 6.3 eighths."""
    assert f"Lengths over the bust stay {apart} off real shapes with ordinary measurements: a toile stays" in words(
        facts(), unit
    )


def test_finished_girths_stand_beside_the_wearers() -> None:
    """Finished girth is body girth and ease (docs/pattern-file.md, rule 3); what was not measured has a star."""
    given = facts()
    text = words(given)
    for level in given.cutting.pattern.levels:
        star = "" if level.id in ("bust", "underbust", "waist") else "*"
        finished = level.body_girth + level.ease
        ease = f"{level.ease / 10:+.1f} cm".replace("+0.0", "0.0").replace("-", "−")
        assert f"{level.label} {level.body_girth / 10:.1f} cm{star} {ease} {finished / 10:.1f} cm" in text
    assert "* not measured: estimated, or between two levels that were" in text


def test_a_garment_without_a_whole_girth_says_so() -> None:
    assert "No girth runs whole round this garment" in words(facts(levels=()))
    assert "No girth" not in words(facts())


def test_a_gap_and_a_lap_stand_with_their_girths() -> None:
    levels = facts().cutting.pattern.levels
    assert "4.0 cm gap" in words(facts(levels=tuple(replace(v, gap=40.0) for v in levels)))
    assert "3.0 cm lap" in words(facts(levels=tuple(replace(v, overlap=30.0) for v in levels)))
    assert "Edges" not in words(facts())


def length_along(pattern: Pattern, piece: str, line: str) -> float:
    return float(sum(edge.curve.length for edge in pattern.piece(piece).on_line(line)))


def test_lengths_of_the_finished_edges_are_told() -> None:
    pattern = facts().cutting.pattern
    for label, piece, line in (
        ("Centre front", "CF", "centre-front"),
        ("Side seam", "SF", "side"),
        ("Centre back", "CB", "centre-back"),
    ):
        assert f"{label} {length_along(pattern, piece, line) / 10:.1f} cm" in words(facts())


def test_a_shoulder_seam_stands_beside_the_wearers_shoulder() -> None:
    """The upper edge of one panel taken for a shoulder; the wearer's own shoulder is an estimate and has its star."""
    made = facts()
    pattern = made.cutting.pattern
    piece = pattern.piece("SF")
    edges = tuple(replace(edge, line="shoulder") if edge.id == "SF.top" else edge for edge in piece.edges)
    pieces = tuple(replace(piece, edges=edges) if own is piece else own for own in pattern.pieces)
    pattern = replace(pattern, pieces=pieces, lines=(*pattern.lines, Line("shoulder", "Shoulder")))
    text = words(replace(made, cutting=replace(made.cutting, pattern=pattern)))
    drawn = piece.edge("SF.top").curve.length / 10
    assert f"Shoulder seam {WEARER['shoulder_length'] / 10:.1f} cm* {drawn:.1f} cm" in text
    assert "Shoulder seam" not in words(made)


def test_every_measurement_is_told_and_what_was_not_taken_stands_apart() -> None:
    before, _, after = words(facts()).partition("Estimated, not measured")
    assert "Back neck point to waist 40.3 cm" in before
    assert "Bust girth 88.3 cm" in before
    assert f"Bust point span {WEARER['bust_point_span'] / 10:.1f} cm" in after
    assert "Shoulder slope 22.6°" in after
    assert "Stature" not in before


def test_without_the_wearers_measurements_only_the_estimates_are_named() -> None:
    text = words(facts(wearer=None))
    assert "Bust point span" in text
    assert "Back neck point to waist" not in text
    assert f"{WEARER['bust_point_span'] / 10:.1f} cm" not in text


def test_where_everything_was_measured_it_says_so() -> None:
    every = {value.term: value.amount for value in WEARER.values}
    full = Measurements.of("w-07", every)
    text = words(facts(wearer=full, estimated=()))
    assert "All of them were measured; none is an estimate." in text
    assert text.count(" cm*") == 1, "the lower waist lies between two measurements"


def test_every_finding_has_its_number_limit_and_remedy_and_each_warning_a_box() -> None:
    given = facts([ERROR, WARNING, WARNING, ADVICE])
    text = words(given)
    for finding in (ERROR, WARNING, ADVICE):
        assert finding.message in text
        assert f"What to do: {finding.remedy}" in text
    for numbers in ("found 3.2 °", "limit 1 °", "found −4.6 cm", "limit −3.6 cm", "found 5.5 %", "limit 5 %"):
        assert numbers in text
    boxes = [
        stroke
        for sheet in sheets(given)
        for stroke in recorded(sheet).strokes("sheet")
        if stroke.path.codes == "MLLLZ" and stroke.bounds[3] - stroke.bounds[1] < 4.0
    ]
    assert len(boxes) == 2


def test_checks_passed_are_counted() -> None:
    """Eight pieces; one of six seams at fault leaves five."""
    passed, failed = words(facts()), words(facts([ERROR]))
    assert "8 of 8 pieces closed, simple outlines" in passed
    assert "6 of 6 seams edges run on across them" in passed
    assert "5 of 6 seams edges run on across them: see the errors" in failed
    assert "see the errors" not in passed
    assert "no girths drawn as body girth and ease say" in words(facts(levels=()))
    assert "not judged pieces closed" in words(facts([replace(ERROR, code="id-twice")]))
    assert "The wearer, fit and sewing: no errors, 1 warning, 1 piece of advice." in words(facts([WARNING, ADVICE]))


def test_closures_say_where_how_and_how_far() -> None:
    text = words(facts(closures=(ZIP, LACING)))
    assert "Side seam, the wearer’s left: invisible zip, opens 29.1 cm from the upper edge down." in text
    assert "Centre back: lacing, opens 33.1 cm from the upper edge to the hem, edges 4.0 cm apart when closed," in text
    assert "18.0 cm apart when let out." in text


def test_an_opening_that_nothing_shuts_is_named() -> None:
    assert "The centre back stands open: nothing says yet how it is shut." in words(facts())
    assert "stands open" not in words(facts(closures=(LACING,)))


def test_a_working_shows_its_sum_and_judges_what_was_given() -> None:
    """400 + 24 − 9 = 415; 445 given is 30 mm more, and 20 mm are right either way."""
    text = words(facts(workings=(STRAP,)))
    for part in (
        "Strap: 44.5 cm",
        "Over the shoulder 40.0 cm",
        "Stretch taken off −0.9 cm",
        "Reckoned 41.5 cm ± 2.0 cm",
    ):
        assert part in text
    assert "Given by the maker: 44.5 cm, 3.0 cm longer than reckoned: too long." in text
    assert "Set it at the fitting." in text
    assert "Rule of thumb: Front and back heights added." in text
    assert "Here:" not in text
    ruled = words(facts(workings=(replace(STRAP, rule_length=358.0),)))
    assert "Rule of thumb: Front and back heights added. Here: 35.8 cm." in ruled
    assert "shorter than reckoned: too short" in words(facts(workings=(replace(STRAP, given=380.0),)))
    assert "Given by the maker: 43.0 cm, which is right." in words(facts(workings=(replace(STRAP, given=430.0),)))
    assert "Given by the maker" not in words(facts(workings=(replace(STRAP, given=None),)))
    assert "41.5 cm; right: 41.5 to 44.5 cm" in words(facts(workings=(replace(STRAP, short=0.0, long=30.0),)))
    assert "41.5 cm; right: 40.5 cm or longer" in words(facts(workings=(replace(STRAP, short=10.0, long=OR_LONGER),)))


def test_notions_are_counted() -> None:
    text = words(facts(notions=(BONES, Notion("cord", "lacing cord", 1, 3200.0))))
    assert "4 × spiral bone 24.5 cm each along the princess" in text
    assert "1 × lacing cord 320.0 cm" in text
    assert "Thread only." in words(facts())


def test_cloth_is_counted_and_bought() -> None:
    """One on the fold and three pairs a layer are 7 pieces (CP: a pair is two)."""
    given = facts()
    text = words(given)
    assert "Side front (SF) 1 pair 1 pair" in text
    assert "Centre front (CF) 1 on fold 1 on fold" in text
    assert "In all 7 pieces 7 pieces" in text
    assert "Buy" not in text
    lays = lay_garment(given.cutting, {name: Cloth(name, 1500.0, assumed=True) for name in ("outer", "facing")})
    bought = words(replace(given, lays=lays))
    assert f"Buy {lays[0].to_buy / 10:.1f} cm {lays[1].to_buy / 10:.1f} cm" in bought
    assert "Usable width 150.0 cm* 150.0 cm*" in bought
    assert "* assumed: give the width of your own cloth" in bought
    assert "Cost" not in bought
    refused = words(replace(given, unlaid="the tie is 220.0 cm long and the cloth 140.0 cm wide: open the cloth"))
    assert "What to buy is not known: the tie is 220.0 cm long" in refused


def test_one_cloth_for_outer_and_facing_offers_both_ways_of_cutting_it() -> None:
    """One set cut twice, or one combined lay (CP)."""
    given = facts()
    cutting = finish(given.cutting.pattern, Finish(facing="full", cloths=Cloths(facing="outer")))
    text = words(replace(given, cutting=cutting, pieces=draw_pieces(cutting, QUARTER)))
    assert "In all 14 pieces" in text
    assert "Outer cloth: Outer and facing are both cut from it: pin one set of 7 pieces and cut it twice" in text
    assert "pin one set" not in words(given)


def test_a_facing_of_another_shape_has_a_row_and_a_picture_of_its_own() -> None:
    given = facts()
    pattern = given.cutting.pattern
    shifted = pattern.piece("SB/facing").placed(Placement(x=2.0))
    cutting = replace(given.cutting, pattern=pattern.with_pieces(shifted))
    text = words(replace(given, cutting=cutting, pieces=draw_pieces(cutting, QUARTER)))
    assert "Side back (SB) 1 pair – " in text
    assert "Side back facing (SB/facing) – 1 pair" in text
    assert "Side front (SF) 1 pair 1 pair" in text
    names = [
        text.text for sheet in sheets(replace(given, pieces=draw_pieces(cutting, QUARTER))) for text in letters(sheet)
    ]
    assert "SB/facing" in names
    assert "SF/facing" not in names


def letters(sheet: Sheet) -> list[Lettering]:
    return [text for text in recorded(sheet).letterings if text.layer == "text"]


def test_there_is_room_to_initial_on_the_last_page_only() -> None:
    made = sheets(facts([WARNING] * 40))
    for sheet in made:
        texts = [text.text for text in recorded(sheet).letterings]
        last = sheet is made[-1]
        assert [f"{role}, initials" in texts for role in ("Maker", "Fitter", "Wearer")] == [last] * 3
        assert texts.count("date") == 3 * last


def test_it_says_that_it_is_private_and_logs_hold_no_measurement() -> None:
    assert "private: hand it to the wearer" in words(facts())
    assert "883" not in repr(facts())


def test_the_picture_shows_every_shape_once_as_large_as_there_is_room() -> None:
    pieces = draw_pieces(garment(), QUARTER)
    made = garment_picture(pieces, 90.0, 60.0)
    left, bottom, right, top = made.drawing.bounds
    assert (left >= 0.0, right <= 90.0, bottom >= -60.0, top <= 0.0) == (True,) * 4
    names = [sign.text for sign in made.drawing if hasattr(sign, "text")]
    assert [name for name in names if len(name) < 4] == ["CB", "SB", "SF", "CF"]
    assert names[-1].endswith("facing of the same shapes")
    larger = garment_picture(pieces, 190.0, 120.0).drawing.bounds
    assert larger[2] - larger[0] > right - left
