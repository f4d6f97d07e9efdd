"""What the page is told of a lay that nothing can better."""

from dataclasses import replace

import pytest
from lay.boxes import box

from panelwright.app.cloth_lay import ClothLay
from panelwright.app.lays_file import LayRecord
from panelwright.app.place_record import places_of
from panelwright.body.units import Unit
from panelwright.lay.cloth import Cloth
from panelwright.lay.lay_garment import lay_pieces
from panelwright.lay.piece_to_cut import PieceToCut

LONG = (box("A", 100.0, 900.0), box("B", 200.0, 100.0, 1, 1))
FOLDED = (box("A", 230.0, 410.0, fold=True), box("B", 230.0, 300.0, fold=True), box("C", 90.0, 100.0, 1, 1))
OPEN_TO_IT = (box("A", 230.0, 410.0, fold=True), box("B", 190.0, 300.0, 2, 2))


@pytest.mark.parametrize(
    ("pieces", "folded", "unit", "said"),
    [
        (LONG, False, Unit.CM, "No lay can be shorter: Box A alone takes 90.0 cm along the grain."),
        (LONG, False, Unit.INCH, "No lay can be shorter: Box A alone takes 35 3/8 in along the grain."),
        (OPEN_TO_IT, True, Unit.CM, None),
    ],
)
def test_it_says_why_no_lay_can_be_shorter(
    pieces: tuple[PieceToCut, ...], folded: bool, unit: Unit, said: str | None
) -> None:
    first = lay_pieces(Cloth("outer", 900.0, folded=folded), pieces, unit=unit)
    assert ClothLay(first, pieces).document(1, unit)["shortest"] == said


def test_edges_that_fill_the_fold_cannot_lie_shorter() -> None:
    first = lay_pieces(Cloth("outer", 900.0, folded=True), FOLDED, spacing=0.0, unit=Unit.CM)
    said = ClothLay(first, FOLDED).document(1, Unit.CM)["shortest"]
    assert said == "No lay can be shorter: the edges on the fold lie one after another without a gap."


def test_a_longer_lay_that_is_found_does_not_take_the_place_of_a_shorter_one() -> None:
    """As a search that is stopped for another one may find it late."""
    first = lay_pieces(Cloth("outer", 900.0, folded=False), LONG, unit=Unit.CM)
    first = replace(first, laid=tuple(laid.moved(300.0, 0.0) for laid in first.laid))
    shorter, longer = (replace(first, laid=tuple(laid.moved(x, 0.0) for laid in first.laid)) for x in (-250.0, -200.0))
    own = ClothLay(first, LONG)
    begun = LayRecord(
        cloth="outer", width_mm=900.0, folded=False, pieces=own.laid_for.pieces, length_mm=first.length, searches=2
    )
    kept = own.with_found(begun, longer)
    assert (kept.found, kept.length_mm) == (places_of(longer.laid), pytest.approx(first.length - 200.0))
    kept = own.with_found(kept, shorter)
    assert kept.found == places_of(shorter.laid)
    assert own.with_found(kept, longer) == own.with_found(kept, shorter) == kept
    off = replace(first, laid=tuple(laid.moved(-900.0, 0.0) for laid in first.laid))  # off the cloth: no lay at all
    strange = kept.model_copy(update={"found": places_of(off.laid)})
    assert own.with_found(strange, longer).found == places_of(longer.laid)
