from dataclasses import replace

import pytest
from plain_cutting_pattern import shell
from worn_garment import STRAPS, TOP, garment

from panelwright.errors import InputError
from panelwright.finish.layers import with_layers
from panelwright.finish.options import Finish
from panelwright.finish.piece_allowances import Widths, piece_allowances
from panelwright.geometry.offset import Allowance
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern


def allowances(piece: str, options: Finish, pattern: Pattern | None = None) -> dict[str, Allowance]:
    pattern = pattern or shell()
    found = pattern.piece(piece)
    own = piece_allowances(found, Widths.of(pattern, options))
    return {edge.line: allowance for edge, allowance in zip(found.edges, own, strict=True)}


def widths(piece: str, options: Finish) -> dict[str, float]:
    return {line: allowance.width for line, allowance in allowances(piece, options).items()}


def with_hem_step(pattern: Pattern) -> Pattern:
    """As a step leaves it: the hem lies on the step's own line."""
    pieces = tuple(
        replace(piece, edges=tuple(replace(e, line="s2/line") if e.line == "hem" else e for e in piece.edges))
        for piece in pattern.pieces
    )
    return replace(pattern, pieces=pieces, lines=(*pattern.lines, Line("s2/line", "Hem", "s2")))


def test_all_edges_but_a_fold_take_the_seam_allowance() -> None:
    assert widths("CF", Finish()) == {"hem": 10, "centre-front": 0, "top": 10, "front-princess": 10}


def test_a_line_goes_before_its_kind_and_a_kind_before_the_rest() -> None:
    options = Finish(allowance=12, kinds={"finished": 8, "opening": 20}, lines={"hem": 25})
    assert widths("CB", options) == {"hem": 25, "centre-back": 20, "top": 8, "back-princess": 12}


def test_nothing_gives_a_fold_an_allowance() -> None:
    assert widths("CF", Finish(lines={"centre-front": 15}))["centre-front"] == 0


def test_an_allowance_of_nothing_is_an_allowance() -> None:
    assert widths("SF", Finish(lines={"top": 0}))["top"] == 0


@pytest.mark.parametrize("name", ["s2/line", "line", "hem", "Hem"])
def test_a_line_of_a_step_is_found_by_id_by_slot_and_by_label(name: str) -> None:
    pattern = with_hem_step(shell())
    assert allowances("SF", Finish(lines={name: 25}), pattern)["s2/line"].width == 25


def test_a_line_that_is_not_there_is_refused_with_those_that_are() -> None:
    with pytest.raises(InputError) as refusal:
        Widths.of(shell(), Finish(lines={"hem": 25, "hemm": 25}))
    assert '"hemm", which is no line of this pattern; choose among back-princess, centre-back' in str(refusal.value)
    assert refusal.value.where == "lines.hemm"


@pytest.mark.parametrize("step", [{**STRAPS, "type": "separate"}, {"kind": "tie", "uid": "tie"}])
def test_every_name_that_a_refusal_lists_works_as_a_key(step: dict[str, object]) -> None:
    """Labels such as `Strap, back end` hold a comma; their names must not, in a list with commas."""
    pattern = garment([TOP, step])
    with pytest.raises(InputError) as refusal:
        Widths.of(pattern, Finish(lines={"hemm": 25}))
    names = str(refusal.value).rpartition("choose among ")[2].split(", ")
    used = {edge.line for piece in pattern.pieces for edge in piece.edges}
    assert len(names) == len(used)
    found = [Widths.of(pattern, Finish(lines={name: 25})).lines for name in names]
    assert {line for lines in found for line in lines} == used


def test_a_label_is_found_with_its_comma_or_without() -> None:
    pattern = garment([TOP, {**STRAPS, "type": "separate"}])
    for name in ("Strap, back end", "strap,-back-end", "strap-back-end", "strap-back"):
        assert Widths.of(pattern, Finish(lines={name: 25})).lines == {"straps/strap-back": 25}


def test_interfacing_takes_none_at_all() -> None:
    pattern = with_layers(shell(), ("interfacing",))
    own = allowances("SF/interfacing", Finish(lines={"hem": 25}), pattern)
    assert {allowance.width for allowance in own.values()} == {0}


def test_a_finished_edge_sewn_to_a_facing_takes_the_same_on_both_layers() -> None:
    """With a full facing the hem takes a seam allowance on both layers (common practice, CP)."""
    options = Finish(facing="full")
    pattern = with_layers(shell(), ("facing",))
    for piece in shell().pieces:
        faced = allowances(f"{piece.id}/facing", options, pattern)
        assert {line: a.width for line, a in faced.items()} == widths(piece.id, options)


# Corners


def corners(piece: str, options: Finish) -> dict[str, tuple[str, str]]:
    return {line: (own.corner, own.turned) for line, own in allowances(piece, options).items()}


def test_a_turned_up_hem_is_folded_back_at_both_of_its_ends() -> None:
    found = corners("SF", Finish())
    assert found["hem"] == ("fold_back", "this")
    assert found["side"] == ("fold_back", "next")


def test_corners_at_a_facing_are_mitred_or_as_asked_at_the_seams_own_end() -> None:
    assert corners("SF", Finish(facing="full"))["hem"][0] == "mitre"
    asked = corners("SF", Finish(facing="full", corners={"seam_end": "square"}))
    assert asked["hem"] == ("square", "next")
    assert asked["front-princess"] == ("square", "this")


def test_turned_edges_can_be_mitred() -> None:
    assert corners("SF", Finish(corners={"turned_edge": "mitre"}))["hem"][0] == "mitre"


def test_allowances_end_square_at_a_fold() -> None:
    found = corners("CF", Finish())
    assert found["hem"][0] == "square"
    assert found["centre-front"][0] == "square"


def test_of_two_seams_the_wider_allowance_is_turned() -> None:
    pattern = shell()
    piece = pattern.piece("SF")
    seams = replace(piece, edges=tuple(replace(edge, kind="seam") for edge in piece.edges))
    own = allowances("SF", Finish(lines={"hem": 25}, corners={"other": "square"}), pattern.with_pieces(seams))
    assert (own["hem"].corner, own["hem"].turned) == ("square", "this")
    assert (own["side"].corner, own["side"].turned) == ("square", "next")
