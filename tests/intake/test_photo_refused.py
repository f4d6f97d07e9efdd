"""A photo that cannot be read is refused in one sentence that says what to do, before anything large is made of it."""

import struct
import zlib

import cv2
import numpy as np
import pytest
from intake.photo_truth import PaperPiece
from intake.rendered_photo import Scene, jpeg, render

from panelwright.errors import InputError
from panelwright.intake.photo import read_photo
from panelwright.intake.photo_image import MOST_BYTES, photo_size
from panelwright.intake.photo_markers import seen_markers


def rectangle(x: float, y: float, wide: float, high: float, angle: float = 0.0) -> PaperPiece:
    corners = np.array([(0, 0), (wide, 0), (wide, high), (0, high)], float)
    flat = PaperPiece(corners, corners, (), ())
    return flat.placed(np.radians(angle), np.array([x, y]))


def photo_of(*pieces: PaperPiece) -> np.ndarray:
    return render(Scene(pieces, table="dark", tilt=8.0, roll=0.0, lens=0.0, hand=0.0, size=(1600, 1200)))[0]


@pytest.fixture(scope="module")
def photo() -> np.ndarray:
    return photo_of(rectangle(0, 0, 60, 90), rectangle(80, 0, 60, 90))


@pytest.fixture(scope="module")
def sheet(photo: np.ndarray) -> tuple[int, int, int, int]:
    """(left, top, right, bottom) of the markers, pixels."""
    corners = np.concatenate([each.corners for each in seen_markers(photo)[1]]).astype(int)
    return (*corners.min(axis=0), *corners.max(axis=0))


def refusal(photo: np.ndarray | bytes) -> str:
    with pytest.raises(InputError) as caught:
        read_photo(photo if isinstance(photo, bytes) else jpeg(photo, 90))
    text = str(caught.value)
    assert text.count(". ") == 0
    assert caught.value.where == "photo"
    return text


def test_the_photo_itself_is_read(photo: np.ndarray) -> None:
    found = read_photo(jpeg(photo, 90))
    assert [len(piece.edges) for piece in found.pieces] == [4, 4]
    assert sorted(round(edge.curve.length) for edge in found.pieces[0].edges) == [60, 60, 90, 90]
    assert found.doubts == ()


def test_too_few_squares(photo: np.ndarray, sheet: tuple[int, int, int, int]) -> None:
    left, top, right, bottom = sheet
    dark = photo.copy()
    dark[top - 5 :, left - 5 :] = 20
    assert "no black square" in refusal(dark)
    glare = photo.copy()
    middle = ((left + right) // 2, (top + bottom) // 2)
    cv2.ellipse(glare, middle, (right - left, int(0.52 * (bottom - top))), 0, 0, 360, (255, 255, 255), -1)
    assert "without glare" in refusal(glare)


def test_blur(photo: np.ndarray) -> None:
    assert "blurred" in refusal(cv2.GaussianBlur(photo, (0, 0), 3.2))


def test_too_far_away(photo: np.ndarray) -> None:
    assert "go closer" in refusal(cv2.resize(photo, None, fx=0.55, fy=0.55, interpolation=cv2.INTER_AREA))


def test_squares_of_two_sheets(photo: np.ndarray, sheet: tuple[int, int, int, int]) -> None:
    left, top, right, bottom = (int(end) for end in sheet)
    middle = (top + bottom) // 2
    torn = photo.copy()
    torn[middle : middle + 400, left - 300 : right - 300] = photo[middle : middle + 400, left:right]
    torn[middle:, right - 300 :] = 20
    assert "mm from where they were printed" in refusal(torn)


def test_no_pieces(photo: np.ndarray, sheet: tuple[int, int, int, int]) -> None:
    assert "no paper pieces" in refusal(np.ascontiguousarray(photo[:, sheet[0] - 25 :]))


def test_a_piece_cut_off(photo: np.ndarray, sheet: tuple[int, int, int, int]) -> None:
    bright = np.flatnonzero((photo[:, : sheet[0] - 80] > 120).all(axis=2).sum(axis=0) > 40)
    assert "at the left is cut off" in refusal(np.ascontiguousarray(photo[:, bright[0] + 40 :]))


def test_pieces_that_touch() -> None:
    assert "touch" in refusal(photo_of(rectangle(0, 0, 50, 80), rectangle(50.3, 45, 50, 50, -45)))


def test_a_square_that_cannot_be(photo: np.ndarray) -> None:
    with pytest.raises(InputError, match="print the sheet again"):
        read_photo(jpeg(photo, 90), square_mm=60.0)


def png_header(width: int, height: int) -> bytes:
    body = b"IHDR" + struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + body + struct.pack(">I", zlib.crc32(body))


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "no photo that can be read"),
        (b"GIF89a" + bytes(100), "JPEG, PNG or WebP"),
        (bytes(4) + b"ftypheic" + bytes(100), "HEIC"),
        (png_header(60_000, 60_000), "3600 megapixels"),
        (png_header(100, 100), "too small"),
        (png_header(2000, 1500) + bytes(50), "damaged"),
        (b"\xff\xd8\xff\xc0\x00\x11\x08" + struct.pack(">HH", 50_000, 50_000) + bytes(20), "2500 megapixels"),
        (b"\xff\xd8\xff\xe0\x00\x04ab" + b"\xff\xda\x00\x02" * 200, "too many layers"),
        (b"\xff\xd8\xff\xe0\x00\x00" + bytes(30), "no photo that can be read"),
        (b"RIFF" + bytes(4) + b"WEBPVP8X" + bytes(8) + b"\xff\xff\x3f\xff\xff\x3f" + bytes(8), "megapixels"),
        (bytes(MOST_BYTES + 1), "40 MB"),
    ],
    ids=["empty", "GIF", "HEIC", "PNG bomb", "tiny", "damaged", "JPEG bomb", "scans", "no frame", "WebP bomb", "bytes"],
)
def test_files_that_are_no_photo(data: bytes, words: str) -> None:
    assert words in refusal(data)


@pytest.mark.parametrize("write", [".jpg", ".png", ".webp"])
def test_the_size_in_a_header_is_that_of_the_picture(write: str) -> None:
    picture = np.random.default_rng(1).integers(0, 255, (613, 701, 3), np.uint8)
    assert photo_size(cv2.imencode(write, picture)[1].tobytes()) == (701, 613)


def test_pixels_may_be_given_themselves(photo: np.ndarray) -> None:
    with pytest.raises(InputError, match="shape"):
        read_photo(photo[..., 0])
    assert len(read_photo(photo).pieces) == 2


@pytest.mark.parametrize("seed", [4, *(pytest.param(k, marks=pytest.mark.soak) for k in range(5, 12))])
def test_white_paper_on_white_checks_is_refused_or_read_right(seed: int) -> None:
    pieces = (rectangle(0, 0, 60, 90, 4), rectangle(80, 0, 50, 90, -3))
    photo, _ = render(Scene(pieces, table="white checks", tilt=8.0, size=(1600, 1200), seed=seed))
    try:
        found = read_photo(jpeg(photo, 90))
    except InputError as error:
        assert "cloth" in str(error) or "cut off" in str(error)  # noqa: PT017
        assert seed != 4 or "darker than the paper" in str(error)  # noqa: PT017
    else:
        assert seed != 4
        assert [len(piece.edges) for piece in found.pieces] == [4, 4]
        sides = sorted(edge.curve.length for piece in found.pieces for edge in piece.edges)
        assert sides == pytest.approx([50, 50, 60, 60, 90, 90, 90, 90], abs=0.8)
