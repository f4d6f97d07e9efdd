import pytest
from PIL import ImageFont

from panelwright.drawing.typeface import typeface


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("text", ["cut on fold", "Centre front – w-07", "Größe ½ × 4 ″", "WAVE"])
def test_widths_agree_with_freetype(bold: bool, text: str) -> None:
    """Another reader of the same file (FreeType, by way of Pillow), letter by letter, so without kerning."""
    face = typeface(bold)
    font = ImageFont.truetype(str(face.file), 1000, layout_engine=ImageFont.Layout.BASIC)
    assert face.width(text, 1000.0) == pytest.approx(sum(font.getlength(letter) for letter in text), abs=len(text))


@pytest.mark.parametrize("bold", [False, True])
def test_no_plain_letter_is_taller_or_deeper_than_stated(bold: bool) -> None:
    face = typeface(bold)
    font = ImageFont.truetype(str(face.file), 1000, layout_engine=ImageFont.Layout.BASIC)
    _, top, _, bottom = font.getbbox("bdfhklgjpqy()|0123456789½", anchor="ls")
    assert -top <= 1000 * face.ascent
    assert bottom <= 1000 * face.descent


def test_a_character_that_the_typeface_lacks_is_written_as_a_question_mark() -> None:
    assert typeface().written("提灯 dance") == "?? dance"


def test_wrapping_keeps_every_word_and_the_width() -> None:
    face = typeface()
    lines = face.wrapped("estimated: measure before cutting", 3.0, 20.0)
    assert " ".join(lines) == "estimated: measure before cutting"
    assert len(lines) > 1
    assert all(face.width(line, 3.0) <= 20.0 for line in lines)


def test_a_word_wider_than_the_room_is_broken() -> None:
    lines = typeface().wrapped("a " + "m" * 60, 3.0, 20.0)
    assert "".join(lines) == "a" + "m" * 60
    assert all(typeface().width(line, 3.0) <= 20.0 for line in lines)


def test_shortening_shows_that_something_is_missing() -> None:
    short = typeface().shortened("Lantern dance bodice", 3.0, 15.0)
    assert short.endswith("…")
    assert typeface().width(short, 3.0) <= 15.0
    assert typeface().shortened("bodice", 3.0, 15.0) == "bodice"
