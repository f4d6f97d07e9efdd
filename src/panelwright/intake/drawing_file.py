"""Reading a drawing file, DXF or SVG, as a pattern off paper.

load:  reading = read_drawing(Path("block.dxf").read_bytes(), "block.dxf")
       for guess in reading.guesses: print(guess.about, guess.taken, guess.why)
       again = read_drawing(content, "block.dxf", unit="inches", roles={"NAHT": "stitch"})
"""

from collections import Counter
from collections.abc import Mapping
from typing import Final

import numpy as np

from panelwright.errors import GeometryError, InputError
from panelwright.intake.drawing_affine import Affine
from panelwright.intake.drawing_limits import MOST_BYTES
from panelwright.intake.drawing_outline import Outlines, find_outlines
from panelwright.intake.drawing_pieces import make_pieces
from panelwright.intake.drawing_reading import Guess, Reading
from panelwright.intake.drawing_role import ROLES, Role, is_numbered, role_of, roles_of
from panelwright.intake.drawing_stroke import Dot, LinesRead, Stroke, Written
from panelwright.intake.drawing_unit import refuse_unusable_size, unit_guess
from panelwright.intake.drawn_pattern import DrawnPattern
from panelwright.intake.dxf_reading import read_dxf
from panelwright.intake.svg_reading import read_svg
from panelwright.quotation import quoted

_OTHERS: Final = (
    (b"AutoCAD Binary DXF", "is a binary DXF file: save it as ASCII DXF"),
    (b"AC10", "is a DWG file, which only its own program can read: save it as DXF"),
    (b"%PDF", "is a PDF, which knows no pieces: save the drawing as SVG or DXF"),
    (b"\x1f\x8b", "is packed: unpack it first, or save it as plain SVG"),
    (b"PK\x03\x04", "is packed: unpack it first, and give the drawing in it"),
)
_BLANK: Final = b" \t\r\n"
# How many names of layers are told at most.
_MOST_TOLD: Final = 40


def read_drawing(data: bytes, name: str, unit: str | None = None, roles: Mapping[str, Role] | None = None) -> Reading:
    """The pattern in a drawing file, with every guess that was made.

    Args:
        data: the file.
        name: what it is called, for sentences about it; what it ends in does not matter.
        unit: what a person says that one unit of the drawing is, `inches`; None: guess it.
        roles: layer or class -> what a person says that it holds; those left out are guessed.

    Returns:
        The pieces in mm of the paper. Where a stitch line is drawn the outline is that line and the allowance is 0;
        where nothing says what a single outline is, the allowance is None.

    Raises:
        InputError: if it is no such file, is malformed, holds more than a pattern, or shows no closed outline; one
            sentence with the file's name.
    """
    try:
        with np.errstate(all="ignore"):  # what a file makes of numbers is looked at, not warned about
            return _reading(_lines(data), unit, roles or {})
    except MemoryError as error:
        raise InputError(
            f"{quoted(name)}: it takes more memory than there is: save the pattern's pieces alone"
        ) from error
    except (InputError, GeometryError) as error:
        where = error.where if isinstance(error, InputError) else ""
        raise InputError(f"{quoted(name)}: {error}", where or quoted(name)) from error


def _lines(data: bytes) -> LinesRead:
    if len(data) > MOST_BYTES:
        raise InputError(f"the file is larger than {MOST_BYTES / 1e6:g} MB: save the pattern's pieces alone")
    for start, fault in _OTHERS:
        if data.startswith(start):
            raise InputError(f"the file {fault}")
    begin = data[:2000].removeprefix(b"\xef\xbb\xbf").lstrip(_BLANK)
    if not begin:
        raise InputError("the file is empty: save the drawing or the photo again")
    if begin.startswith(b"<") or data[:2] in (b"\xff\xfe", b"\xfe\xff") or begin[:4] in (b"<\x00?\x00", b"\x00<\x00?"):
        return read_svg(data)
    if b"\x00" in data[:2000] or not begin[:1].isdigit():
        raise InputError(
            "the file is neither a drawing (DXF or SVG) nor a photo (JPEG, PNG or WebP): save it as one of them"
        )
    return read_dxf(data.removeprefix(b"\xef\xbb\xbf"))


def _reading(lines: LinesRead, unit: str | None, told: Mapping[str, Role]) -> Reading:
    wrong = next((role for role in told.values() if role not in ROLES), None)
    if wrong is not None:
        raise InputError(f"{quoted(wrong)} is nothing that a layer can hold; choose from {', '.join(ROLES)}", "roles")
    drawn: tuple[Stroke | Written | Dot, ...] = (*lines.strokes, *lines.texts, *lines.dots)
    counts = Counter(name for thing in drawn for name in dict.fromkeys(thing.names))
    numbered = lines.form == "DXF" and is_numbered(counts)
    roles = roles_of(counts, told, numbered)
    kept = tuple(stroke for stroke in lines.strokes if role_of(stroke.names, roles) not in ("leave", "text"))
    if not kept:
        raise InputError("it draws no line that can be part of a pattern: save the pattern's pieces as lines")
    factor, guess = unit_guess(_only(lines, kept), roles, unit)
    scaled = _near_the_origin(_only(lines, kept).scaled(factor))
    refuse_unusable_size(scaled)
    outlines = find_outlines(scaled.strokes, roles)
    if not outlines.pieces:
        raise InputError(_no_outline(outlines))
    pieces = make_pieces(scaled, outlines, roles)
    pattern = DrawnPattern(pieces.drawn, allowance=_allowance(outlines))
    layers = _layers(counts, roles, told, numbered)
    rest = _left_out(lines, outlines)
    return Reading(pattern, (guess, _scale(pattern), *layers, *rest, *pieces.guesses), lines.form, factor)


def _only(lines: LinesRead, strokes: tuple[Stroke, ...]) -> LinesRead:
    return LinesRead(
        lines.form, strokes, lines.texts, lines.dots, lines.groups, lines.unit, lines.unit_why, lines.metric
    )


def _near_the_origin(lines: LinesRead) -> LinesRead:
    """The drawing where it is, or with its lower left corner at (0, 0) where it lies far away."""
    points = np.concatenate([stroke.preview for stroke in lines.strokes])
    if np.abs(points).max() < 15_000.0:
        return lines
    x, y = points.min(axis=0).tolist()
    shift = Affine.shifting(-x, -y)
    return LinesRead(
        lines.form,
        tuple(stroke.mapped(shift) for stroke in lines.strokes),
        tuple(Written(text.text, (text.at[0] - x, text.at[1] - y), text.names, text.group) for text in lines.texts),
        tuple(Dot((dot.at[0] - x, dot.at[1] - y), dot.names, dot.group, dot.own) for dot in lines.dots),
        lines.groups,
    )


def _allowance(outlines: Outlines) -> float | None:
    """0 where stitch lines are drawn: they are the outlines; None where nobody says what the lines are."""
    return 0.0 if any(piece.stitch is not None for piece in outlines.pieces) else None


def _no_outline(outlines: Outlines) -> str:
    if outlines.small:
        return "it has closed lines, but all are too small for a piece: check its unit"
    longest = f": the longest line is open by {outlines.widest_gap:.1f} mm" if outlines.open else ""
    return f"it has no closed outline{longest}; join the ends of each piece's outline"


def _scale(drawn: DrawnPattern) -> Guess:
    points = [edge.curve.points for piece in drawn.pieces for edge in piece.edges]
    low, high = np.min([p.min(axis=0) for p in points], axis=0), np.max([p.max(axis=0) for p in points], axis=0)
    size = f"{(high[0] - low[0]) / 10:.0f} by {(high[1] - low[1]) / 10:.0f} cm"
    why = f"drawing programs draw at full size; all pieces together take {size}"
    return Guess("scale", "full", why, ("full", "quarter"), sure=False)


def _layers(
    counts: Mapping[str, int], roles: Mapping[str, Role], told: Mapping[str, Role], numbered: bool
) -> list[Guess]:
    """What each layer or class holds, and why."""
    guesses = []
    for name, count in sorted(counts.items(), key=lambda item: -item[1])[:_MOST_TOLD]:
        role = roles.get(name)
        if role is None:
            continue
        why = "its name says so"
        if name in told:
            why = "so a person said"
        elif numbered and name.isdigit():
            why = "layers are numbered as in ASTM D6673, as far as we know it from memory"
        guesses.append(Guess(f"layer {quoted(name)}", role, f"{why} ({count} things lie on it)", ROLES))
    return guesses


def _left_out(lines: LinesRead, outlines: Outlines) -> list[Guess]:
    guesses = []
    if outlines.frames:
        what = "1 rectangle" if outlines.frames == 1 else f"{outlines.frames} rectangles"
        guesses.append(Guess("sheet", f"{what} left out", "pieces lie inside, as in the frame of a sheet", sure=False))
    for kind, count in sorted(lines.left_out.items(), key=lambda item: -item[1])[:10]:
        guesses.append(
            Guess("file", f"{count} of {quoted(kind)} left out", "nothing of this kind is part of a pattern")
        )
    return guesses
