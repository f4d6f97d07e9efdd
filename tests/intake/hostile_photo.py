"""Hostile image files, made from a seed: photos with something broken, headers that lie, pictures that ask for much."""

import random
import struct
import zlib
from collections.abc import Callable
from functools import cache

import cv2
import numpy as np
from intake.rendered_photo import jpeg, printed_page

Draw = random.Random
PNG = b"\x89PNG\r\n\x1a\n"
# What stands where a size or a count should.
_NASTY = (0, 1, 2, 255, 256, 599, 600, 7745, 32767, 32768, 65535, 2**24 - 1, 2**31 - 1, 2**31, 2**32 - 1)
# Only the last is large enough to be read: the others are refused once they are decoded and their squares are found.
_SIZES = (*((640, 610), (700, 620), (600, 600), (660, 610), (720, 605)) * 3, (900, 700))
_LARGE = (7740, 7740)  # just below the largest that is taken


def hostile(seed: int) -> tuple[str, bytes]:
    """(name, content) of the file of a seed; equal seeds give equal files."""
    draw = random.Random(seed)
    maker = _maker(draw)
    return f"{maker.__name__}-{seed}", maker(draw)


def maker_name(seed: int) -> str:
    """What makes the file of a seed, without making it."""
    return _maker(random.Random(seed)).__name__


def _maker(draw: Draw) -> Callable[[Draw], bytes]:
    return draw.choices(
        [mutated, made_png, made_jpeg, made_webp, disguised, draw.choice(BOMBS)], [100, 30, 30, 16, 12, 3]
    )[0]


@cache
def sheet(width: int, height: int) -> np.ndarray:
    """Our printed sheet on a dark table, blue, green, red, with two pieces of paper beside it."""
    page = np.round(255 * printed_page("A4")).astype(np.uint8)
    high = round(0.9 * height)
    small = cv2.resize(page, (round(high * 210 / 297), high), interpolation=cv2.INTER_AREA)
    picture = np.full((height, width, 3), 35, np.uint8)
    top, left = (height - high) // 2, width - small.shape[1] - 5
    picture[top : top + high, left : left + small.shape[1]] = small[..., None]
    for k in range(2):
        low = round(height * (0.1 + 0.42 * k))
        cv2.rectangle(picture, (12, low), (max(20, left - 20), low + height // 3), (249, 250, 250), cv2.FILLED)
    return picture


@cache
def valid(form: str, size: tuple[int, int], mode: str) -> bytes:
    """A sound file of the sheet; `mode` is how its pixels are stored."""
    picture = sheet(*size)
    stored = {
        "colour": picture,
        "grey": picture[..., 0].copy(),
        "alpha": np.dstack([picture, picture[..., 0]]),
        "deep": picture.astype(np.uint16) * 257,
        "layers": picture,
    }[mode]
    options = [cv2.IMWRITE_JPEG_PROGRESSIVE, int(mode == "layers")] if form == ".jpg" else []
    return cv2.imencode(form, stored, options)[1].tobytes()


def sound(draw: Draw) -> bytes:
    """A sound file in one of the ways that pixels are stored."""
    form = draw.choice([".jpg", ".jpg", ".png", ".webp"])
    modes = {".jpg": ("colour", "grey", "layers"), ".png": ("colour", "grey", "alpha", "deep")}
    return valid(form, draw.choice(_SIZES), draw.choice(modes.get(form, ("colour", "alpha"))))


def mutated(draw: Draw) -> bytes:
    """A sound file with some things broken."""
    content = sound(draw)
    for _ in range(draw.choice([0, 1, 1, 2, 3, 8])):
        content = draw.choice([_cut, _hole, _twice, _bytes, _bytes, _head, _head, _spliced])(draw, content)
    return content


def _cut(draw: Draw, content: bytes) -> bytes:
    return content[: draw.randrange(len(content) + 1)]


def _hole(draw: Draw, content: bytes) -> bytes:
    at = draw.randrange(len(content) + 1)
    return content[:at] + content[at + draw.choice([1, 10, 1000]) :]


def _twice(draw: Draw, content: bytes) -> bytes:
    a, b = sorted(draw.randrange(len(content) + 1) for _ in range(2))
    return content[:b] + content[a:b] + content[b:]


def _bytes(draw: Draw, content: bytes) -> bytes:
    changed = bytearray(content)
    for _ in range(draw.choice([1, 5, 100])):
        if changed:
            changed[draw.randrange(len(changed))] = draw.choice([0, 1, 127, 128, 217, 218, 254, 255])
    return bytes(changed)


def _head(draw: Draw, content: bytes) -> bytes:
    """A number of the first bytes, where formats keep their sizes, is another."""
    pattern = draw.choice([">H", "<H", ">I", "<I"])
    wide = struct.calcsize(pattern)
    at = draw.randrange(max(1, min(len(content), 400) - wide))
    number = struct.pack(pattern, draw.choice(_NASTY) % 256**wide)
    return content[:at] + number + content[at + wide :]


def _spliced(draw: Draw, content: bytes) -> bytes:
    other = sound(draw)
    return content[: draw.randrange(len(content) + 1)] + other[draw.randrange(len(other)) :]


def chunk(name: bytes, body: bytes, honest: bool = True) -> bytes:
    """A part of a PNG file; its check sum is wrong where it is not `honest`."""
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body) ^ (not honest))


def png(width: int, height: int, depth: int, colour: int, woven: int, rows: bytes, *more: bytes) -> bytes:
    """A PNG file of a header, more parts, and rows as they are."""
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, woven))
    return PNG + head + b"".join(more) + chunk(b"IDAT", rows) + chunk(b"IEND", b"")


@cache
def packed(count: int) -> bytes:
    """So many zeros, compressed."""
    return zlib.compress(bytes(count), 9)


def made_png(draw: Draw) -> bytes:
    """A header with any size, depth and mode, parts in any order, rows that are too many or too few."""
    wide, high = (draw.choice([*_NASTY, 610, 640, 700, 700]) for _ in range(2))
    depth, colour = draw.choice([1, 2, 4, 8, 8, 16, 3, 0]), draw.choice([0, 2, 3, 4, 6, 1, 7])
    rows = draw.choice([packed(0), packed(1000), packed(3_000_000), zlib.compress(draw.randbytes(20_000))])
    more = [
        chunk(b"PLTE", draw.randbytes(draw.choice([0, 3, 768, 769]))),
        chunk(b"tRNS", draw.randbytes(draw.choice([0, 1, 6, 300]))),
        chunk(b"iCCP", b"p\0\0" + packed(draw.choice([10, 50_000_000]))),
        chunk(b"zTXt", b"t\0\0" + packed(draw.choice([10, 50_000_000]))),
        chunk(b"eXIf", draw.randbytes(40)),
        chunk(b"acTL", struct.pack(">II", draw.choice(_NASTY), 0)),
        chunk(b"fcTL", draw.randbytes(26)),
        chunk(b"gAMA", struct.pack(">I", draw.choice(_NASTY))),
        chunk(b"xxxx", draw.randbytes(9), honest=False),
    ]
    return png(wide, high, depth, colour, draw.randrange(3), rows, *draw.sample(more, draw.randrange(5)))


def made_jpeg(draw: Draw) -> bytes:
    """A sound JPEG whose frame says something else, with notes of a camera that lie."""
    content = valid(".jpg", draw.choice(_SIZES), draw.choice(["colour", "grey", "layers"]))
    at = next(k for k in range(len(content)) if content[k] == 0xFF and content[k + 1] in (0xC0, 0xC2))
    changed = bytearray(content)
    if draw.random() < 0.6:
        changed[at + 5 : at + 9] = struct.pack(">HH", *(draw.choice([*_NASTY, 620, 900]) % 65536 for _ in range(2)))
    if draw.random() < 0.4:
        changed[at + 1] = draw.choice([0xC0, 0xC1, 0xC2, 0xC3, 0xC9, 0xCB, 0xD8])
    if draw.random() < 0.3:
        changed[at + 4] = draw.choice([0, 1, 8, 12, 16, 255])
    if draw.random() < 0.4:
        changed[at + 9 + draw.randrange(9)] = draw.choice([0, 1, 2, 4, 0x11, 0x22, 0x44, 255])
    return bytes(changed[:2]) + b"".join(_note(draw) for _ in range(draw.randrange(3))) + bytes(changed[2:])


def _note(draw: Draw) -> bytes:
    """A part before the frame: what the camera noted, colours, words, or what is none."""
    fields = b"".join(
        struct.pack("<HHII", draw.choice([0x112, 0x100, 0x8769]), draw.randrange(20), *draw.choices(_NASTY, k=2))
        for _ in range(draw.choice([1, 2, 40]))
    )  # fmt: skip
    exif = b"Exif\0\0II*\0" + struct.pack("<IH", draw.choice([8, 8, 0, 2**31]), draw.choice([1, 40, 65535])) + fields
    body = draw.choice([exif, exif, b"ICC_PROFILE\0\1\1" + draw.randbytes(60), draw.randbytes(30), b""])
    length = len(body) + 2 if draw.random() < 0.8 else draw.choice([0, 1, 2, 65535])
    return (
        b"\xff"
        + bytes([draw.choice([0xE1, 0xE1, 0xE2, 0xEE, 0xFE, 0xDD, 0xDB, 0xC4])])
        + struct.pack(">H", length)
        + body
    )


def made_webp(draw: Draw) -> bytes:
    """Parts of WebP files in any order, with sizes that do not agree."""
    body = valid(".webp", draw.choice(_SIZES), draw.choice(["colour", "alpha"]))[12:]
    wide, high = (draw.choice([*_NASTY, 700]) % 2**24 for _ in range(2))
    canvas = bytes([draw.randrange(256), 0, 0, 0]) + wide.to_bytes(3, "little") + high.to_bytes(3, "little")
    parts = [
        b"VP8X" + struct.pack("<I", 10) + canvas,
        b"ANIM" + struct.pack("<IIH", 6, 0, 0),
        b"ANMF" + struct.pack("<I", 16 + len(body)) + draw.randbytes(16) + body,
        b"ALPH" + struct.pack("<I", draw.choice([1, 20, 2**31])) + draw.randbytes(20),
        body, body, body,
    ]  # fmt: skip
    whole = b"WEBP" + b"".join(draw.sample(parts, draw.randrange(1, 5)))
    return b"RIFF" + struct.pack("<I", draw.choice([len(whole), len(whole), 0, 2**32 - 1])) + whole


def disguised(draw: Draw) -> bytes:
    """Another kind of file, or one kind's first bytes before another's."""
    other = sound(draw)
    heads = [
        b"", b"GIF89a", b"BM", b"II*\0", b"MM\0*", b"8BPS", b"%PDF-1.7\n", b"<svg>", b"PK\3\4", b"\0\0\0 ftypheic",
        b"\xff\xd8\xff", b"\xff\xd8\xff" * 1000, b"\xff" * 5000, PNG, b"RIFF\0\0\0\0WEBP", b"P6\n700 700\n255\n",
    ]  # fmt: skip
    return draw.choice(heads) + draw.choice([b"", bytes(5000), draw.randbytes(5000), other, other[12:]])


def black_png(draw: Draw) -> bytes:
    """As many pixels as are taken, of nothing, in a few kilobytes."""
    depth, colour, samples = draw.choice([(8, 2, 3), (8, 6, 4), (16, 6, 8), (8, 3, 1), (1, 0, 1)])
    row = 1 + (_LARGE[0] * samples if depth > 1 else -(-_LARGE[0] // 8))
    packer = zlib.compressobj(9)
    rows = b"".join(packer.compress(bytes(row)) for _ in range(_LARGE[1])) + packer.flush()
    return png(*_LARGE, depth, colour, draw.randrange(2), rows, chunk(b"PLTE", bytes(6)))


def grey_jpeg(draw: Draw) -> bytes:
    """A small JPEG that says it is as large as is taken: what is missing is filled in."""
    content = bytearray(valid(".jpg", _SIZES[0], draw.choice(["colour", "layers"])))
    at = next(k for k in range(len(content)) if content[k] == 0xFF and content[k + 1] in (0xC0, 0xC2))
    content[at + 5 : at + 9] = struct.pack(">HH", *_LARGE)
    turned = b"Exif\0\0II*\0" + struct.pack("<IHHHIHHI", 8, 1, 0x112, 3, 1, draw.randrange(1, 9), 0, 0)
    return bytes(content[:2]) + b"\xff\xe1" + struct.pack(">H", len(turned) + 2) + turned + bytes(content[2:])


def many_scans(draw: Draw) -> bytes:
    """A large JPEG whose last layer stands there again and again."""
    content = bytearray(valid(".jpg", _SIZES[0], "layers"))
    at = next(k for k in range(len(content)) if content[k] == 0xFF and content[k + 1] == 0xC2)
    content[at + 5 : at + 9] = struct.pack(">HH", *_LARGE)
    last = content.rindex(b"\xff\xda")
    return bytes(content[:-2] + content[last:-2] * draw.choice([20, 80, 85]) + content[-2:])


def noise(draw: Draw) -> bytes:
    """A photo of nothing but grain, as sharp as it gets."""
    rng = np.random.default_rng(draw.randrange(2**31))
    coarse = draw.choice([1, 3, 8])
    small = rng.integers(0, 256, (3000 // coarse, 4000 // coarse, 3), np.uint8)
    return jpeg(cv2.resize(small, (4000, 3000), interpolation=cv2.INTER_NEAREST), 80)


def chessboard(draw: Draw) -> bytes:
    """Very many squares, each of which might be one of the sheet's."""
    cell = draw.choice([6, 12, 24, 60])
    y, x = np.mgrid[0:3000, 0:4000]
    apart = draw.choice([1, 2])
    board = (
        np.where(((x // cell) % 2 == 0) & ((y // cell) % 2 == 0), 0, 255)
        if apart == 2
        else (x // cell + y // cell) % 2 * 255
    )
    return jpeg(np.repeat(board.astype(np.uint8)[..., None], 3, axis=2), 80)


def many_sheets(draw: Draw) -> bytes:
    """The sheet over and over, so that each of its squares is seen many times."""
    many = draw.choice([2, 4, 6])
    part = sheet(4000 // many, 3000 // many)
    return jpeg(np.tile(part, (many, many, 1)), 85)


def confetti(draw: Draw) -> bytes:
    """The sheet, and the table full of scraps of paper."""
    picture = sheet(3200, 2200).copy()
    for _ in range(draw.choice([50, 500, 5000])):
        at = draw.randrange(0, 1700), draw.randrange(0, 2200)
        cv2.circle(picture, at, draw.randrange(2, 60), (249, 250, 250), cv2.FILLED)
    return jpeg(picture, 85)


def saw(draw: Draw) -> bytes:
    """The sheet, and a piece whose edge has hundreds of teeth."""
    picture = sheet(3200, 2200).copy()
    picture[:, :1650] = 35
    teeth, deep = draw.choice([50, 200, 800]), draw.choice([5, 40])
    around = np.linspace(0, 2 * np.pi, 2 * teeth, endpoint=False)
    out = 600 + deep * (np.arange(2 * teeth) % 2)
    points = np.column_stack([820 + out * np.cos(around), 1100 + out * np.sin(around)])
    cv2.fillPoly(picture, [np.round(points).astype(np.int32)], (249, 250, 250))
    return jpeg(picture, 85)


def scribbled(draw: Draw) -> bytes:
    """The sheet, and pieces that are covered with pencil lines."""
    picture = sheet(3200, 2200).copy()
    for _ in range(draw.choice([20, 200, 1000])):
        ends = [(draw.randrange(40, 1700), draw.randrange(240, 1880)) for _ in range(2)]
        cv2.line(picture, *ends, (110, 110, 110), draw.choice([2, 3, 5]), cv2.LINE_AA)
    picture[picture.max(axis=2) < 60] = 35
    return jpeg(picture, 85)


def enlarged(draw: Draw) -> bytes:
    """The sheet and pieces in as many pixels as are taken."""
    size = draw.choice([(7740, 7740), (9600, 6200)])
    return jpeg(cv2.resize(sheet(1920, 1440), size, interpolation=cv2.INTER_LINEAR), 85)


BOMBS: tuple[Callable[[Draw], bytes], ...] = (
    black_png, grey_jpeg, many_scans, noise, chessboard, many_sheets, confetti, saw, scribbled, enlarged,
)  # fmt: skip
