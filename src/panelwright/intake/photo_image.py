"""A photo as pixels: its size is read before any of it is decoded, so that nothing too large ever is."""

import struct
from typing import Final

import cv2
import numpy as np
from numpy.typing import NDArray

from panelwright.errors import InputError

Image = NDArray[np.uint8]

MOST_BYTES: Final = 40_000_000
MOST_PIXELS: Final = 60_000_000
LEAST_SIDE: Final = 600
# A photo of more is made smaller: as many show paper as sharply as lenses do, and larger ones take long.
ENOUGH_PIXELS: Final = 16_000_000
# A progressive JPEG is decoded once for each of its scans: an ordinary one has about ten.
_MOST_SCANS: Final = 100
_AGAIN: Final = "give a photo as JPEG, PNG or WebP"


def photo_pixels(photo: bytes | Image) -> Image:
    """The photo as rows of (blue, green, red), shape (height, width, 3), turned upright as its camera noted.

    One of more than 16 megapixels is made smaller.

    Args:
        photo: the bytes of a JPEG, PNG or WebP file, or pixels: (height, width, 3) blue, green, red.

    Raises:
        InputError: if it is no such image, is damaged, or is larger than 40 MB, 60 megapixels, or too small to read.
    """
    if isinstance(photo, np.ndarray):
        if photo.ndim != 3 or photo.shape[2] != 3 or photo.dtype != np.uint8:
            raise InputError("a photo as an array has the shape (height, width, 3) and bytes as values", "photo")
        _refuse_size(photo.shape[1], photo.shape[0])
        return _reduced(photo)
    if len(photo) > MOST_BYTES:
        raise InputError(f"this photo has {len(photo) / 1e6:.0f} MB; give one of at most 40 MB", "photo")
    _refuse_size(*photo_size(photo))
    try:
        pixels = cv2.imdecode(np.frombuffer(photo, np.uint8), cv2.IMREAD_COLOR)
    except cv2.error:
        pixels = None
    if pixels is None:
        raise InputError("this photo is damaged; take it again or send the camera's own file", "photo")
    return _reduced(np.asarray(pixels, np.uint8))


def _reduced(pixels: Image) -> Image:
    factor = (ENOUGH_PIXELS / (pixels.shape[0] * pixels.shape[1])) ** 0.5
    if factor >= 1.0:
        return pixels
    return np.asarray(cv2.resize(pixels, None, fx=factor, fy=factor, interpolation=cv2.INTER_AREA), np.uint8)


def photo_size(data: bytes) -> tuple[int, int]:
    """(width, height) in pixels that an image file says it has; nothing is decoded.

    Raises:
        InputError: if it is no JPEG, PNG or WebP file, or says no size.
    """
    size = None
    if data[:3] == b"\xff\xd8\xff":
        size = _jpeg_size(data)
    elif data[:8] == b"\x89PNG\r\n\x1a\n" and data[12:16] == b"IHDR" and len(data) >= 24:
        size = struct.unpack(">II", data[16:24])
    elif data[:4] == b"RIFF" and data[8:12] == b"WEBP" and len(data) >= 30:
        size = _webp_size(data)
    elif data[4:8] == b"ftyp":
        raise InputError(f"this photo is in a format that cannot be read here (HEIC or AVIF); {_AGAIN}", "photo")
    if size is None:
        raise InputError(f"this is no photo that can be read; {_AGAIN}", "photo")
    return int(size[0]), int(size[1])


def _refuse_size(width: int, height: int) -> None:
    if width * height > MOST_PIXELS:
        raise InputError(
            f"this photo has {width * height / 1e6:.0f} megapixels; give one of at most 60 megapixels", "photo"
        )
    if min(width, height) < LEAST_SIDE:
        raise InputError(
            f"this photo is too small to read, {width} by {height} pixels; give the camera's own file, "
            f"at least {LEAST_SIDE} pixels on its short side",
            "photo",
        )


def _jpeg_size(data: bytes) -> tuple[int, int] | None:
    """From the frame header (ITU-T T.81, B.2.2); None if there is none."""
    if data.count(b"\xff\xda") > _MOST_SCANS:
        raise InputError("this photo is stored in too many layers; save it again as an ordinary JPEG", "photo")
    at = 2
    while at + 9 <= len(data):
        if data[at] != 0xFF:
            return None
        code = data[at + 1]
        if code == 0xFF:
            at += 1
        elif 0xC0 <= code <= 0xCF and code not in (0xC4, 0xC8, 0xCC):
            height, width = struct.unpack(">HH", data[at + 5 : at + 9])
            return (width, height) if width and height else None
        elif code == 0xDA:
            return None
        else:
            at += 2 + int(struct.unpack(">H", data[at + 2 : at + 4])[0])
    return None


def _webp_size(data: bytes) -> tuple[int, int] | None:
    """From the first chunk of a WebP file (RFC 9649, section 2)."""
    kind = data[12:16]
    if kind == b"VP8X":
        return 1 + int.from_bytes(data[24:27], "little"), 1 + int.from_bytes(data[27:30], "little")
    if kind == b"VP8L":
        bits = int.from_bytes(data[21:25], "little")
        return 1 + (bits & 0x3FFF), 1 + (bits >> 14 & 0x3FFF)
    if kind == b"VP8 ":
        width, height = struct.unpack("<HH", data[26:30])
        return width & 0x3FFF, height & 0x3FFF
    return None
