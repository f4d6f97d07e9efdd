"""A drawn block becomes a pattern: placed, levelled, sewn; held against the pattern that it was drawn from."""

import re
from dataclasses import replace

import numpy as np
import pytest
from design.demo_garments import demo_garment
from intake.drawn_pieces import on_paper, shuffled
from plain_block import plain_block

from panelwright.app.demo.troupe import troupe
from panelwright.app.own_block import make_own_block
from panelwright.body.size_table import size
from panelwright.body.units import Unit
from panelwright.checks import check_drafting
from panelwright.checks.corner import finished_corner
from panelwright.checks.fold import square_words
from panelwright.checks.level_girth import drawn_girth
from panelwright.errors import InputError
from panelwright.file_words import file_words
from panelwright.finish.finishing import finish
from panelwright.finish.options import Finish
from panelwright.geometry.placement import Placement
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.drawn_piece import DrawnNotch, DrawnPiece
from panelwright.intake.drawn_seam import DrawnSeam
from panelwright.intake.edge_ref import EdgeRef
from panelwright.intake.own_findings import check_own_block, suggestion_findings
from panelwright.intake.own_pattern import pattern_of
from panelwright.intake.pencil import PENCILS, pencil_girth, rounding_girth
from panelwright.intake.points_curve import curve_through
from panelwright.intake.seam_partners import suggested_seams
from panelwright.pattern.pattern import Pattern


def same_shapes(a: Pattern, b: Pattern, within: float) -> None:
    for piece in a.pieces:
        other = b.piece(piece.id)
        for edge in piece.edges:
            places = np.array([edge.curve.point(s * edge.curve.length) for s in np.linspace(0, 1, 9)])
            twin = other.edge(edge.id).curve
            assert max(twin.nearest(place)[1] for place in places) < within, (piece.id, edge.id)


def test_a_block_drawn_finely_is_the_block_again() -> None:
    """CF lies where it lay; the others stand in the same row, each moved sideways only, waist lines at 0."""
    block = plain_block()
    own = pattern_of(on_paper(block, spacing=4))
    assert [piece.id for piece in own.pieces] == ["CF", "SF", "SB", "CB"]
    moved = []
    for piece in block.pieces:
        shift = own.piece(piece.id).vertices[0] - piece.vertices[0]
        assert abs(shift[1]) < 0.05
        moved.append(piece.placed(Placement(x=float(shift[0]))))
    same_shapes(replace(block, pieces=tuple(moved)), own, 0.2)
    assert [(s.id, s.kind, s.region) for s in own.seams] == [(s.id, s.kind, s.region) for s in block.seams]
    assert own.seams == block.seams
    for level in block.levels:
        assert drawn_girth(own, own.level(level.id)) == pytest.approx(drawn_girth(block, level), abs=0.7)
        assert own.level(level.id).height == pytest.approx(level.height, abs=0.3)
        assert own.level(level.id).path == level.path
    for piece in own.pieces:
        assert piece.extent == block.piece(piece.id).extent
        for edge in piece.edges:
            twin = block.piece(piece.id).edge(edge.id)
            assert (edge.line, edge.side, edge.kind, edge.interval) == (twin.line, twin.side, twin.kind, twin.interval)


def test_pieces_turned_and_turned_over_come_to_the_same() -> None:
    block = plain_block()
    drawn = on_paper(block, spacing=4)
    wanted = pattern_of(drawn)
    turned, moved = shuffled(drawn, 5, named=True, levels=True)
    seams = tuple(DrawnSeam(moved[s.a], moved[s.b], s.line) for s in drawn.seams)
    over = replace(turned, seams=seams)
    mirrored = {"CF", "SB"}
    pieces = tuple(_mirrored(piece) if piece.id in mirrored else piece for piece in over.pieces)

    def ref(side: EdgeRef) -> EdgeRef:
        return EdgeRef(side.piece, 3 - side.number) if side.piece in mirrored else side

    seams = tuple(DrawnSeam(ref(s.a), ref(s.b), s.line) for s in seams)
    own = pattern_of(replace(over, pieces=pieces, seams=seams))
    same_shapes(wanted, own, 1e-6)
    assert set(own.seams) == set(wanted.seams)


def _mirrored(piece: DrawnPiece) -> DrawnPiece:
    """The piece as it looks from its other face."""
    at = Placement(mirrored=True)
    edges = tuple(replace(edge, curve=edge.curve.placed(at).reversed()) for edge in reversed(piece.edges))
    assert piece.grain is not None
    return replace(
        piece, edges=edges, grain=piece.grain.placed(at), inside=tuple(line.placed(at) for line in piece.inside)
    )


def test_the_wearer_s_girths_give_the_ease() -> None:
    dancer = next(troupe()).wearer
    block = demo_garment("lantern-01").block
    own = pattern_of(on_paper(block, spacing=4), dancer)
    assert own.wearer == dancer.ref
    for level in block.levels:
        assert own.level(level.id).body_girth == pytest.approx(level.body_girth, abs=5.0)
        assert own.level(level.id).ease == pytest.approx(level.ease, abs=5.0)
    found = {f.subject: f for f in check_own_block(own, dancer) if f.code == "drawn-girth"}
    waist = found["waist"]
    assert waist.value - waist.limit == pytest.approx(block.level("waist").ease, abs=2.0)
    assert waist.limit == dancer["waist_girth"]


def test_a_pattern_without_levels_or_names_is_a_pattern_too() -> None:
    drawn, _ = shuffled(on_paper(plain_block(), named=False, spacing=4), 3, named=False, levels=False)
    pieces = tuple(
        replace(p, edges=tuple(replace(e, line="", kind=None if e.kind == "opening" else e.kind) for e in p.edges))
        for p in drawn.pieces
    )
    own = pattern_of(replace(drawn, pieces=pieces, seams=tuple(s.seam for s in suggested_seams(drawn))))
    assert own.levels == ()
    assert len([seam for seam in own.seams if seam.kind == "join"]) == 3
    assert len(finish(own, Finish(allowance=10.0)).pieces) == 4


def test_what_an_uneven_seam_says() -> None:
    """SF was drawn with 6 mm more between a notch and the waist than CF: that stretch is told, and where."""
    block = plain_block()
    drawn = on_paper(block, scale=1.0, spacing=12)
    edges = {"CF": 3, "SF": 1}
    notched = []
    for piece in drawn.pieces:
        if piece.id not in edges:
            notched.append(piece)
            continue
        curve = piece.edges[edges[piece.id]].curve
        waist = next(line for line in piece.inside if line.id == "waist").curve
        arc = min(curve.nearest(end) for end in (waist.start, waist.end))[0] if piece.id == "SF" else None
        if piece.id == "CF":
            arc = min((curve.nearest(end) for end in (waist.start, waist.end)), key=lambda hit: hit[1])[0]
            at = curve.point(arc - 45.0)  # its outline runs down: 45 mm above the waist
        else:
            arc = min((curve.nearest(end) for end in (waist.start, waist.end)), key=lambda hit: hit[1])[0]
            at = curve.point(arc + 51.0)
        notched.append(replace(piece, notches=(DrawnNotch((float(at[0]), float(at[1]))),)))
    own = pattern_of(replace(drawn, pieces=tuple(notched)))
    found = [f for f in check_own_block(own) if f.subject == "front-princess"]
    assert len(found) == 1
    assert found[0].code == "seam-stretch"  # only the notch is off: the sides are of one length
    assert found[0].message == (
        "The front princess edge of the side front piece is as long as that of the centre front piece on the whole, "
        "but 0.60 cm longer between waist and notch; 0.60 cm shorter between notch and underbust."
    )
    assert found[0].value == pytest.approx(6.0, abs=0.05)
    assert found[0].piece == "SF"
    assert found[0].at is not None
    middle = own.piece("SF").edge("SF.front-princess").curve.nearest(found[0].at)
    assert middle[1] < 1e-6
    assert 0.0 < found[0].at[1] < 51.0


def test_a_seam_drawn_too_long_is_an_error_of_the_usual_check() -> None:
    drawn = on_paper(plain_block(), spacing=4)
    stretched = tuple(
        replace(p, edges=tuple(replace(e, curve=e.curve.scaled(1.02)) for e in p.edges)) if p.id == "SF" else p
        for p in drawn.pieces
    )
    codes = {f.code for f in check_drafting(finish(pattern_of(replace(drawn, pieces=stretched)), Finish(0.0)))}
    assert "seam-length" in codes


def test_suggestions_are_told_and_doubtful_ones_more_loudly() -> None:
    suggestions = suggested_seams(on_paper(plain_block(), named=False))
    sure = suggestion_findings(suggestions)
    assert {f.code for f in sure} == {"seam-suggested"}
    assert "CF, edge 4, is taken to be sewn to SF, edge 2, as the front princess seam" in sure[0].message
    assert file_words(sure[0].remedy) == ("seams",)  # where it is written by whoever writes files
    doubtful = suggestion_findings((replace(suggestions[0], score=0.6),))
    assert [(f.code, f.severity) for f in doubtful] == [("seam-doubtful", "warning")]


def test_an_edge_in_two_seams_is_refused() -> None:
    drawn = on_paper(plain_block())
    twice = replace(drawn, seams=(*drawn.seams, DrawnSeam(EdgeRef("CF", 3), EdgeRef("CB", 1), "odd")))
    with pytest.raises(InputError, match="piece CF, edge 4 is in two seams, front-princess and odd"):
        pattern_of(twice)


def test_an_outline_that_crosses_itself_is_refused() -> None:
    drawn = on_paper(plain_block())
    edges = drawn.pieces[0].edges
    bad = replace(drawn.pieces[0], edges=(edges[0], edges[1], replace(edges[2], curve=_loop(edges[2].curve)), edges[3]))
    with pytest.raises(InputError, match=r"piece CF: its outline crosses itself where edges 1 and 3 meet; put"):
        pattern_of(DrawnPattern((bad,), 4.0))


def _loop(curve):  # type: ignore[no-untyped-def]
    cubics = curve.cubics.copy()
    cubics[0, 1] += (0.0, -900.0)
    cubics[-1, 2] += (0.0, 900.0)
    return type(curve)(cubics)


def test_what_a_pencil_becomes() -> None:
    """The closed form of the cutting table: 0.25 mm on each of 14 seam edges is 14 mm of girth at full scale."""
    own = pattern_of(on_paper(plain_block()))
    fine, plain = (pencil_girth(own, "waist", off, 4.0) for off in PENCILS)
    assert (fine.edges, fine.girth, plain.girth) == (14, 14.0, 28.0)
    assert fine.words == (
        "0.25 mm of pencil on each of 14 edges at the waist, four times as much at full scale, is 1.4 cm of girth."
    )
    assert pencil_girth(own, "waist", 0.25, 1.0).girth == 3.5
    assert rounding_girth(own, "bust", 1.0, 4.0).girth == 28.0


def longer_side(by: float) -> DrawnPattern:
    """The plain block, traced with the side of SF so much longer at the hem, mm of the garment."""
    drawn = on_paper(plain_block(), scale=1.0, spacing=12)
    front = drawn.piece("SF")
    hem, side = front.edges[0], front.edges[-1]
    low = hem.curve.start - (0.0, by)
    edges = (
        replace(hem, curve=hem.curve.ending_at(start=low)),
        *front.edges[1:-1],
        replace(side, curve=side.curve.ending_at(end=low)),
    )
    return replace(drawn, pieces=tuple(replace(front, edges=edges) if p is front else p for p in drawn.pieces))


@pytest.mark.parametrize(
    ("unit", "length"),
    [(Unit.CM, r"(\d\.\d\d) cm"), (Unit.INCH, r"(\S+) in")],
)
def test_a_side_that_is_too_long_is_told_once_with_its_place_in_the_reader_s_unit(unit: Unit, length: str) -> None:
    """Drawn 12 mm too long at the hem: about 1.2 cm, about half an inch; once, by name, without an id."""
    block = make_own_block(longer_side(12.0), unit=unit)
    told = [f for f in block.findings if f.subject == "side" and f.code != "blend"]
    assert [(f.code, f.severity) for f in told] == [("seam-length", "error")]
    begins = f"The side edge of the side front piece is {length} longer than that of the side back piece, between "
    found = re.match(begins + ".*hem", told[0].message)
    assert found, told[0].message
    assert told[0].value == pytest.approx(12.0, abs=0.6)
    if unit is Unit.CM:
        assert float(found[1]) == pytest.approx(1.2, abs=0.06)
    else:
        assert found[1] in ("7/16", "1/2")  # 11.1 and 12.7 mm
    assert not [f.message for f in block.findings if " mm" in f.message or "front-" in f.message]


def test_what_is_too_far_off_to_be_trued_is_told_once_too() -> None:
    block = make_own_block(longer_side(60.0), true=True)
    told = [f for f in block.findings if f.subject == "side" and f.code != "blend"]
    assert [f.code for f in told] == ["seam-length"]
    assert "That is too much to be trued, and it is left as drawn." in told[0].message
    assert told[0].remedy.startswith("Check whether these edges are partners")


@pytest.mark.parametrize(
    ("factor", "words"),
    [
        (3.5, r"The centre front piece is \d+\.\d cm long at full scale, more than 130 cm\."),
        (0.1, "less than 5 cm"),
        (1.0, ""),
    ],
)
def test_a_piece_of_an_odd_size_is_questioned(factor: float, words: str) -> None:
    drawn = on_paper(plain_block(), scale=1.0, spacing=12)
    pieces = tuple(
        replace(
            piece,
            edges=tuple(replace(edge, curve=edge.curve.scaled(factor)) for edge in piece.edges),
            inside=tuple(replace(line, curve=line.curve.scaled(factor)) for line in piece.inside),
            grain=None,
        )
        for piece in drawn.pieces
    )
    found = [f for f in check_own_block(pattern_of(replace(drawn, pieces=pieces))) if f.code == "piece-size"]
    assert len(found) == (4 if words else 0)
    if words:
        front = next(f for f in found if f.piece == "CF")
        assert front.severity == "warning"
        assert re.search(words, front.message)
        assert "scale" in front.remedy


def test_an_edge_without_a_name_is_called_by_its_number() -> None:
    drawn = on_paper(plain_block(), named=False)
    lonely = replace(drawn, pieces=(drawn.piece("SB"),))
    block = make_own_block(lonely, unit=Unit.INCH)
    told = [f.message for f in block.findings if f.code == "unsewn-edge"]
    assert len(told) == 2
    assert all(
        re.fullmatch(r"Side back: \d+ ?\S* in of its edge \d is to be sewn, but is in no seam\.", m) for m in told
    )


def test_a_corner_of_an_edge_without_a_name_is_told_by_its_number() -> None:
    """As a block read off paper calls a line that nobody named."""
    drawn = make_own_block(on_paper(plain_block())).pattern
    piece = drawn.piece("CF")
    corners = [finished_corner(piece, edge, end) for edge in piece.edges for end in (False, True)]
    corner = next(each for each in corners if each)
    lines = [replace(line, label="Edge 4") if line.id == corner.finished.line else line for line in drawn.lines]
    pattern = replace(drawn, lines=tuple(lines))
    message, _ = square_words(pattern, corner, "the fold")
    assert message.startswith("Centre front: edge 4 meets the fold at ")


def test_a_bent_fold_and_a_tight_girth_are_told_once() -> None:
    """The fold is drawn with a belly of 3 mm; the block is 4 cm smaller at the waist than the wearer."""
    drawn = on_paper(plain_block(), scale=1.0, spacing=12)
    front = drawn.piece("CF")
    fold = front.edges[1].curve
    belly = curve_through([fold.start, (fold.start + fold.end) / 2 + (3.0, 0.0), fold.end])
    edges = tuple(replace(edge, curve=belly) if edge.kind == "fold" else edge for edge in front.edges)
    pieces = tuple(replace(front, edges=edges) if piece is front else piece for piece in drawn.pieces)
    block = make_own_block(replace(drawn, pieces=pieces), size(96))
    codes = [(f.code, f.piece) for f in block.findings]
    assert ("fold-straight", "CF") in codes
    assert not {"centre-front-place", "beyond-fold"} & {code for code, _ in codes}
    told = [f.code for f in block.findings if f.subject == "waist" and f.code != "pencil-girth"]
    assert told == ["tight"]


def test_a_seam_that_nobody_named_is_called_by_its_pieces() -> None:
    drawn = longer_side(12.0)
    front = drawn.piece("SF")
    nameless = tuple(replace(edge, line="" if edge.line == "side" else edge.line) for edge in front.edges)
    seams = tuple(replace(seam, line="sf-sb") if seam.line == "side" else seam for seam in drawn.seams)
    pieces = tuple(replace(front, edges=nameless) if piece is front else piece for piece in drawn.pieces)
    block = make_own_block(replace(drawn, pieces=pieces, seams=seams))
    (told,) = (f.message for f in block.findings if f.code == "seam-length")
    assert told.startswith("The SF–SB edge of the side front piece is ")
