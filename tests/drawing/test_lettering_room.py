"""The checks of overlaps are themselves checked: they see what is wrong."""

import numpy as np
from drawn_garment import garment
from lettering_room import crossings, letterings, overlaps

from panelwright.drawing.drawing import Drawing, Lettering
from panelwright.drawing.piece_drawing import piece_drawing
from panelwright.drawing.scale import FULL


def test_a_text_pushed_onto_a_line_is_seen() -> None:
    piece, cut = garment().pieces[1]
    drawing = piece_drawing(piece, cut, FULL).drawing
    name = next(text for text in letterings(drawing) if text.text == "waist")
    pushed = name.moved((0.0, -2.0))
    assert ("waist", "level lines") in crossings(Drawing(tuple(pushed if s is name else s for s in drawing)))


def test_two_texts_on_one_place_are_seen() -> None:
    text = Lettering("grain", (10.0, 10.0), 3.0)
    assert overlaps([text, text.moved((4.0, 0.0))]) == [("grain", "grain")]
    assert overlaps([text, text.moved((text.width + 0.1, 0.0))]) == []


def test_a_box_turns_with_its_text() -> None:
    flat = Lettering("grain", (0.0, 0.0), 10.0)
    upright = Lettering("grain", (0.0, 0.0), 10.0, angle=np.pi / 2)
    assert np.allclose(upright.box, flat.box @ np.array([[0.0, 1.0], [-1.0, 0.0]]))
    middle = Lettering("grain", (0.0, 0.0), 10.0, anchor="middle")
    assert np.allclose(middle.box, flat.box - (flat.width / 2, 0.0))
    right = Lettering("grain", (0.0, 0.0), 10.0, anchor="right")
    assert np.allclose(right.box, flat.box - (flat.width, 0.0))
