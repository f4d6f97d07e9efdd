"""Hostile drawing files, made from a seed: valid ones with something broken, and ones that a grammar makes up."""

import random
from collections.abc import Callable
from functools import cache
from itertools import pairwise
from math import cos, pi, sin

from drawn_garment import garment

from panelwright.output.dxf_pattern import dxf_bytes
from panelwright.output.svg_pattern import svg_pattern

# What stands where a number should.
_NASTY = """
1e308 -1e308 1e999 nan inf -inf NaN Infinity 1e-320 -0 0 1e9 1e10 99999999999999999999999 0x10 1_0 abc - + . e5
1.5.5 1,5 ½ ١٢ 1e400000000 2147483648 -1 0.0000000001 360 1e5
"""
_ENTITIES = "LINE LWPOLYLINE POLYLINE ARC CIRCLE ELLIPSE SPLINE TEXT MTEXT POINT INSERT HATCH VERTEX SEQEND 3DFACE"
_SHAPES = "path rect circle ellipse line polyline polygon use g text svg image symbol defs"
_EXCHANGED = """
SPLINE ELLIPSE
LWPOLYLINE SPLINE
LINE INSERT
ENDBLK X
ENDSEC SECTION
BLOCKS TABLES
EOF EOX
40 41
path use
class transform
<g <use
M A
C A
mm %
viewBox viewbox
id= href="""
NASTY, ENTITIES, SHAPES = _NASTY.split(), _ENTITIES.split(), _SHAPES.split()
CODES = (8, 10, 20, 11, 21, 40, 41, 42, 44, 45, 50, 51, 67, 70, 71, 72, 73, 210, 230, 1, 2, 3, 5, 100, 0, 999, -5, 62)
Draw = random.Random


@cache
def valid(form: str) -> bytes:
    """A pattern of our own, the shortest that has everything."""
    return dxf_bytes(garment(faced=False)) if form == "dxf" else svg_pattern(garment(faced=False), "t").encode()


def hostile(seed: int) -> tuple[str, bytes]:
    """(name, content) of the file of a seed; equal seeds give equal files."""
    draw = random.Random(seed)
    maker = draw.choices([mutated, made_dxf, made_svg, draw.choice(BOMBS)], [5, 3, 3, 1])[0]
    content = maker(draw)
    return f"{maker.__name__}-{seed}.{draw.choice(['dxf', 'svg', 'txt'])}", content


def mutated(draw: Draw) -> bytes:
    """A valid file with some things broken."""
    content = valid(draw.choice(["dxf", "svg"]))
    for _ in range(draw.choice([1, 1, 2, 3, 8])):
        content = draw.choice(MUTATIONS)(draw, content) or b""
    return content


def _cut(draw: Draw, content: bytes) -> bytes:
    return content[: draw.randrange(len(content) + 1)]


def _hole(draw: Draw, content: bytes) -> bytes:
    at = draw.randrange(len(content) + 1)
    return content[:at] + content[at + draw.choice([1, 10, 1000, 20000]) :]


def _twice(draw: Draw, content: bytes) -> bytes:
    a, b = sorted(draw.randrange(len(content) + 1) for _ in range(2))
    return content[:b] + content[a:b] + content[b:]


def _bytes(draw: Draw, content: bytes) -> bytes:
    changed = bytearray(content)
    for _ in range(draw.choice([1, 5, 100])):
        if changed:
            changed[draw.randrange(len(changed))] = draw.choice([0, 9, 10, 13, 32, 34, 38, 60, 62, 200, 255])
    return bytes(changed)


def _numbers(draw: Draw, content: bytes) -> bytes:
    separator = draw.choice([b"\n", b" ", b'"'])
    words = content.split(separator)
    for _ in range(draw.choice([1, 3, 30])):
        words[draw.randrange(len(words))] = draw.choice(NASTY).encode()
    return separator.join(words)


def _swapped(draw: Draw, content: bytes) -> bytes:
    lines = content.split(b"\n")
    for _ in range(draw.choice([1, 5, 50])):
        a, b = draw.randrange(len(lines)), draw.randrange(len(lines))
        lines[a], lines[b] = lines[b], lines[a]
    return b"\n".join(lines)


def _lost_lines(draw: Draw, content: bytes) -> bytes:
    lines = content.split(b"\n")
    share = draw.choice([0.001, 0.01, 0.2])
    return b"\n".join(line for line in lines if draw.random() > share)


def _recoded(draw: Draw, content: bytes) -> bytes:
    text = content.decode("utf-8", "replace")
    return text.encode(draw.choice(["utf-16", "utf-16-le", "utf-32", "latin-1", "cp1252", "utf-7"]), "replace")


def _words(draw: Draw, content: bytes) -> bytes:
    pairs = [pair.split(" ") for pair in _EXCHANGED.splitlines()[1:]]
    old, new = draw.choice(pairs)
    return content.replace(old.encode(), new.encode(), draw.choice([1, 3, -1]))


MUTATIONS: tuple[Callable[[Draw, bytes], bytes], ...] = (
    _cut, _hole, _twice, _bytes, _numbers, _numbers, _swapped, _lost_lines, _recoded, _words, _words,
)  # fmt: skip


def _number(draw: Draw) -> str:
    if draw.random() < 0.06:
        return draw.choice(NASTY)
    value = draw.choice([draw.uniform(-500, 500), draw.randrange(-20, 20) * 10, draw.gauss(0, 1e4)])
    return f"{value:.{draw.randrange(9)}f}"


def made_dxf(draw: Draw) -> bytes:
    """Sections, blocks and entities at random."""
    names = [f"B{k}" for k in range(draw.randrange(5))]
    lines = ["0", "SECTION", "2", "HEADER", "9", "$INSUNITS", "70", draw.choice(["4", "1", "0", "99", "x"])]
    lines += [
        "9",
        "$ACADVER",
        "1",
        draw.choice(["AC1009", "AC1015", "AC1032"]),
        "0",
        "ENDSEC",
        "0",
        "SECTION",
        "2",
        "BLOCKS",
    ]
    for name in names:
        lines += [
            "0",
            "BLOCK",
            "2",
            name,
            "10",
            _number(draw),
            "20",
            _number(draw),
            *_entities(draw, names),
            "0",
            "ENDBLK",
        ]
    lines += ["0", "ENDSEC", "0", "SECTION", "2", "ENTITIES", *_entities(draw, names)]
    lines += ["0", "ENDSEC", "0", "EOF"] if draw.random() < 0.95 else []
    return draw.choice(["\n", "\r\n", "\r"]).join([*lines, ""]).encode()


def _entities(draw: Draw, blocks: list[str]) -> list[str]:
    lines = []
    for _ in range(draw.choice([0, 1, 3, 10, 40])):
        kind = draw.choice(ENTITIES)
        lines += ["0", kind, "8", draw.choice(["0", "1", "14", "8", "CUT", "naht", "ü"])]
        if kind == "INSERT":
            lines += ["2", draw.choice([*blocks, "nowhere"])]
        if draw.random() < 0.7:
            lines += _likely(draw, kind)
        for _ in range(draw.choice([0, 0, 1, 5])):
            lines += [str(draw.choice(CODES)), _number(draw)]
    return lines


def _likely(draw: Draw, kind: str) -> list[str]:
    """Values as such an entity has them."""
    many = {"LWPOLYLINE": 12, "SPLINE": 6, "HATCH": 5}.get(kind, 1)
    lines = [part for _ in range(draw.randrange(many + 1)) for part in ("10", _number(draw), "20", _number(draw))]
    if kind == "SPLINE":
        lines += ["71", draw.choice(["3", "2", "1", "5", "9"])]
        lines += [
            part
            for k in range(draw.randrange(14))
            for part in ("40", draw.choice([str(k), str(k // 3), _number(draw)]))
        ]
    elif kind == "LWPOLYLINE":
        lines += ["70", draw.choice(["1", "0", "129"]), "42", draw.choice(["0", "1", "-0.5", _number(draw)])]
    elif kind == "POLYLINE":
        lines += ["66", "1", "70", draw.choice(["1", "0", "8", "64"])]
        for _ in range(draw.randrange(8)):
            lines += ["0", "VERTEX", "10", _number(draw), "20", _number(draw)]
        lines += ["0", "SEQEND"]
    elif kind == "INSERT":
        lines += ["41", _number(draw), "50", _number(draw), "70", draw.choice(["1", "2", "100"]), "44", _number(draw)]
    else:
        lines += [
            "11",
            _number(draw),
            "21",
            _number(draw),
            "40",
            _number(draw),
            "50",
            _number(draw),
            "51",
            _number(draw),
        ]
    return lines


def made_svg(draw: Draw) -> bytes:
    """Elements at random, some inside others, some repeated."""
    head = draw.choice(['width="300mm" height="200mm" viewBox="0 0 300 200"', 'viewBox="0 0 9 9"', 'width="100%"', ""])
    inner = "".join(_element(draw, 0) for _ in range(draw.choice([1, 4, 20])))
    prolog = draw.choice(["", '<?xml version="1.0" encoding="latin-1"?>', '<?xml version="1.0" encoding="klingon"?>'])
    prolog += draw.choice(["", "", '<!DOCTYPE svg [<!ENTITY a "aaaa">]>', '<!DOCTYPE svg SYSTEM "nowhere.dtd">'])
    return f'{prolog}<svg xmlns="http://www.w3.org/2000/svg" {head}>{inner}</svg>'.encode()


def _element(draw: Draw, depth: int) -> str:
    kind = draw.choice(SHAPES)
    own = [f'id="e{draw.randrange(9)}"'] if draw.random() < 0.4 else []
    if draw.random() < 0.3:
        own.append(f'transform="{_transform(draw)}"')
    if draw.random() < 0.4:
        own.append(f'class="{draw.choice(["cut-line", "stitch-line", "fold", "notch", "piece", "sign", "x"])}"')
    for name in ("x", "y", "width", "height", "r", "rx", "ry", "cx", "cy", "x1", "y1", "x2", "y2"):
        if draw.random() < 0.6 and kind in ("rect", "circle", "ellipse", "line", "use", "svg", "text"):
            own.append(f'{name}="{_number(draw)}{draw.choice(["", "", "mm", "%", "parsec"])}"')
    if kind == "path":
        own.append(f'd="{_path(draw)}"')
    elif kind in ("polyline", "polygon"):
        own.append(f'points="{" ".join(_number(draw) for _ in range(draw.randrange(30)))}"')
    elif kind == "use":
        own.append(f'href="#e{draw.randrange(9)}"')
    inside = ""
    if kind in ("g", "svg", "symbol", "defs", "text") and depth < 6:
        inside = "".join(_element(draw, depth + 1) for _ in range(draw.randrange(4))) + draw.choice(["", "CF", "&#9;x"])
    return f"<{kind} {' '.join(own)}>{inside}</{kind}>"


def _transform(draw: Draw) -> str:
    kind = draw.choice(["matrix", "translate", "scale", "rotate", "skewX", "skewY", "fold"])
    return f"{kind}({' '.join(_number(draw) for _ in range(draw.choice([1, 2, 3, 6])))})"


def _path(draw: Draw) -> str:
    parts = ["M", _number(draw), _number(draw)] if draw.random() < 0.95 else []
    for _ in range(draw.choice([1, 4, 15])):
        letter = draw.choice("MmLlHhVvCcSsQqTtAaZzLLLLX" if draw.random() < 0.1 else "LlHhVvCcSsQqTtAaZLLLL")
        takes = {"H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "A": 7, "Z": 0}.get(letter.upper(), 2)
        given = [_number(draw) for _ in range(takes)]
        if letter in "Aa":
            given[3:5] = draw.choice("01"), draw.choice("012") if draw.random() < 0.1 else draw.choice("01")
        parts += [letter, *given]
    return " ".join(parts + (["Z"] if draw.random() < 0.7 else []))


def _dxf(entities: str, blocks: str = "") -> bytes:
    start = "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n"
    held = f"0\nSECTION\n2\nBLOCKS\n{blocks}0\nENDSEC\n" if blocks else ""
    return f"{start}{held}0\nSECTION\n2\nENTITIES\n{entities}0\nENDSEC\n0\nEOF\n".encode()


def _svg(inside: str) -> bytes:
    names = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    return f'<svg {names} width="1000mm" height="1000mm" viewBox="0 0 1000 1000">{inside}</svg>'.encode()


def _line(a: tuple[float, float], b: tuple[float, float]) -> str:
    return f"0\nLINE\n8\n0\n10\n{a[0]:.6g}\n20\n{a[1]:.6g}\n11\n{b[0]:.6g}\n21\n{b[1]:.6g}\n"


def _block(name: str, inside: str) -> str:
    return f"0\nBLOCK\n2\n{name}\n10\n0\n20\n0\n{inside}0\nENDBLK\n"


def _insert(name: str, more: str = "") -> str:
    return f"0\nINSERT\n8\n0\n2\n{name}\n10\n1\n20\n1\n{more}"


def insert_loop(draw: Draw) -> bytes:
    """Blocks that insert one another in a ring."""
    count = draw.choice([1, 2, 7, 50])
    return _dxf(_insert("A0"), "".join(_block(f"A{k}", _insert(f"A{(k + 1) % count}")) for k in range(count)))


def insert_bomb(draw: Draw) -> bytes:
    """Blocks that hold ten of the next each, with or without anything to draw at the end."""
    last = draw.choice(["", _line((0, 0), (100, 1)), "0\nHATCH\n8\n0\n" * 10_000])
    blocks = "".join(_block(f"A{k}", _insert(f"A{k + 1}") * 10) for k in range(7)) + _block("A7", last)
    return _dxf(_insert("A0", "70\n30000\n71\n30000\n" if draw.random() < 0.3 else ""), blocks)


def use_loop(draw: Draw) -> bytes:
    """Parts that use one another in a ring."""
    count = draw.choice([1, 2, 7, 30])
    return _svg("".join(f'<g id="a{k}"><use href="#a{(k + 1) % count}"/></g>' for k in range(count)))


def use_bomb(draw: Draw) -> bytes:
    """Parts that use ten of the next each."""
    last = draw.choice(['<rect id="a8" width="90" height="90"/>', '<g id="a8"/>', '<text id="a8">x</text>'])
    parts = "".join(f'<g id="a{k}">' + f'<use xlink:href="#a{k + 1}" x="{k}"/>' * 10 + "</g>" for k in range(8))
    return _svg(last + parts)


def many_vertices(draw: Draw) -> bytes:
    """One line of very many points, round or wild."""
    count = draw.choice([50_000, 190_000, 1_000_000])
    wild = draw.random() < 0.5
    points = [
        (draw.randrange(900), draw.randrange(900)) if wild else (k % 1000, 500 + (k * k) % 97) for k in range(count)
    ]
    if draw.random() < 0.5:
        return _svg(f'<path d="M{" ".join(f"{x} {y}" for x, y in points)}Z"/>')
    held = "".join(f"10\n{x}\n20\n{y}\n" for x, y in points)
    return _dxf(f"0\nLWPOLYLINE\n8\n0\n90\n{count}\n70\n1\n{held}")


def wavy(draw: Draw) -> bytes:
    """A round outline of very many points that swings in and out a little: nothing fits it."""
    count, swing = draw.choice([3_000, 40_000, 190_000]), draw.choice([0.01, 0.3, 3.0])
    at = [(300 + draw.uniform(-swing, swing), 2 * pi * k / count) for k in range(count)]
    held = " ".join(f"{500 + r * cos(a):.4f},{500 + r * sin(a):.4f}" for r, a in at)
    return _svg(f'<polygon points="{held}"/>')


def many_lines(draw: Draw) -> bytes:
    """Very many lines: from one place, end to end, or anywhere."""
    count, kind = draw.choice([2_000, 29_000, 60_000]), draw.randrange(3)
    place = [(draw.uniform(0, 900), draw.uniform(0, 900)) for _ in range(count + 1)]
    if kind == 0:
        return _dxf("".join(_line((450, 450), at) for at in place))
    if kind == 1:
        return _dxf("".join(_line(a, b) for a, b in pairwise(place)))
    grid = [(draw.randrange(30) * 20.0, draw.randrange(30) * 20.0) for _ in range(count)]
    return _dxf("".join(_line(a, (a[0] + draw.choice([0.0, 20.0]), a[1] + draw.choice([0.0, 20.0]))) for a in grid))


def many_rings(draw: Draw) -> bytes:
    """Circles or squares inside one another or side by side."""
    count, kind = draw.choice([90, 290, 2_000]), draw.choice(["circle", "rect"])
    if draw.random() < 0.5:
        rings = (f'<circle cx="500" cy="500" r="{20 + k * 480 / count}"/>' for k in range(count))
        squares = (
            f'<rect x="{k / 9}" y="{k / 9}" width="{990 - k / 4.5}" height="{990 - k / 4.5}"/>' for k in range(count)
        )
        return _svg("".join(rings if kind == "circle" else squares))
    return _svg("".join(f'<rect x="{k % 40 * 25}" y="{k // 40 * 25}" width="22" height="22"/>' for k in range(count)))


def crowded(draw: Draw) -> bytes:
    """One piece with very many ticks, points, words and lines in it."""
    outline = (
        '<g class="piece"><path class="cut-line" d="M0 0H900V900H0Z"/><path class="stitch-line" d="M9 9H890V890H9Z"/>'
    )
    kinds = ["notch", "mark", "inside-line", "fold-line", "grain-line"]
    count = draw.choice([500, 5_000, 25_000])
    lines = (
        f'<path class="{draw.choice(kinds)}" d="M{_place(draw)} {_place(draw)}l{draw.randrange(-9, 9)} 5"/>'
        for _ in range(count)
    )
    words = "".join(
        f'<text x="{draw.randrange(900)}" y="{draw.randrange(900)}">grain</text>' for _ in range(count // 6)
    )
    return _svg(outline + "".join(lines) + words + "</g>")


def _place(draw: Draw) -> int:
    return draw.randrange(900)


def deep(draw: Draw) -> bytes:
    """Groups in groups without end, or tags that never close."""
    count = draw.choice([50, 70, 100_000])
    inside = '<rect width="90" height="90"/>' if draw.random() < 0.7 else ""
    return _svg("<g>" * count + inside + "</g>" * draw.choice([count, 0, count + 1]))


def entities(draw: Draw) -> bytes:
    """Entities that grow, or that look elsewhere."""
    grown = '<!ENTITY a "aaaaaaaaaa">' + "".join(
        f'<!ENTITY a{k} "&a{k - 1 or ""};&a{k - 1 or ""};">' for k in range(1, 40)
    )
    declared = draw.choice([grown, '<!ENTITY a39 SYSTEM "file:///etc/hostname">', '<!ENTITY % a SYSTEM "nowhere"> %a;'])
    body = draw.choice(["&a39;", ""])
    return f'<!DOCTYPE svg [{declared}]><svg xmlns="http://www.w3.org/2000/svg"><text>{body}</text></svg>'.encode()


def huge(draw: Draw) -> bytes:
    """Files of about the largest size, or a little more, of one thing."""
    size = draw.choice([19_900_000, 20_100_000])
    thing = draw.choice(
        [b"0\n", b" ", b"\n", b"<g>", b"<svg ", b"0\nSECTION\n", b"999\nx\n", b"\x00", b"1", b'<svg d="']
    )
    start = draw.choice([b"", b"0\nSECTION\n2\nENTITIES\n", b'<svg xmlns="http://www.w3.org/2000/svg"><path d="'])
    return (start + thing * (size // len(thing) + 1))[:size]


def long_splines(draw: Draw) -> bytes:
    """Splines of high degree, with weights, of many points."""
    count, degree = draw.choice([10, 5_000, 60_000]), draw.choice([1, 2, 3, 5, 9])
    points = "".join(f"10\n{k % 700}\n20\n{(k * 37) % 500}\n" for k in range(count))
    knots = "".join(f"40\n{k if draw.random() < 0.9 else k - 1}\n" for k in range(count + degree + 1))
    weights = "".join(f"41\n{draw.choice([1, 1, 2, 1e-8])}\n" for _ in range(count)) if draw.random() < 0.5 else ""
    return _dxf(f"0\nSPLINE\n8\n0\n71\n{degree}\n{knots}{weights}{points}")


BOMBS: tuple[Callable[[Draw], bytes], ...] = (
    insert_loop, insert_bomb, use_loop, use_bomb, many_vertices, wavy, many_lines, many_rings, crowded, deep, entities,
    huge, long_splines,
)  # fmt: skip
