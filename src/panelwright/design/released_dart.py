"""A dart taken out: its mouth stays as fullness of the seam that it opens into."""

from dataclasses import replace
from typing import Final, Literal

from panelwright.body.worded_length import length_words
from panelwright.design.dart import PIVOT, Dart
from panelwright.design.level_bridge import across, bridged, ending_on
from panelwright.design.merged_edge import MergedEdge, merged, resewn_merged
from panelwright.design.position import spoken
from panelwright.errors import DesignError, GeometryError
from panelwright.pattern.mark import InsideLine, Mark, as_point
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.seam import Seam
from panelwright.pattern.spoken_piece import spoken_piece
from panelwright.pattern.working import Part, Working

Fullness = Literal["gathers", "tucks"]
OF_LEG: Final = 0.8  # of a dart's leg that a tuck may be stitched down


def released(pattern: Pattern, dart: Dart, fullness: Fullness, tuck: float, uid: str) -> Pattern:
    """The pattern without the dart; the edge that it opened into is longer by its mouth.

    Where it is gathered, the seam has a ratio; where it lies in a tuck, ease. Marks show from where to where, and a
    working says how much. Cloth that levels gain is their ease.

    Args:
        pattern: any pattern.
        dart: of it.
        fullness: how it is taken in.
        tuck: how far a tuck is stitched down from the edge, mm.
        uid: of the step.

    Raises:
        DesignError: if the dart opens at a finished edge or a corner, or the tuck is longer than four fifths of it.
    """
    piece, seam = dart.piece, _held_by(pattern, dart)
    merge = merged((piece.before(dart.first), piece.after(dart.second)))
    if fullness == "tucks" and tuck > OF_LEG * min(dart.first.curve.length, dart.second.curve.length):
        raise DesignError(
            f"a tuck {length_words(tuck)} long is too long for a dart of {length_words(dart.first.curve.length)}; "
            "leave it a fifth shorter",
            piece.id,
        )
    gone = {*merge.made_of, dart.first.id, dart.second.id}
    k = piece.index(merge.made_of[-1])
    rest = [edge for edge in (*piece.edges[k:], *piece.edges[:k]) if edge.id not in gone]
    try:
        changed = replace(
            piece,
            edges=(merge.edge, *rest),
            inside=(*piece.inside, *(_tuck_lines(dart, tuck, uid) if fullness == "tucks" else ())),
            marks=(*(m for m in piece.marks if m.id != f"{dart.line}{PIVOT}"), *_marks(dart, uid)),
        )
    except GeometryError as error:
        raise DesignError(
            f"{spoken_piece(piece)} would not be one piece without the dart ({error})", piece.id
        ) from error
    lines = tuple(line for line in pattern.lines if line.id != dart.line)
    bare = replace(replace(pattern, seams=()).with_pieces(changed), lines=lines)
    others = [each for each in pattern.seams if each.id != dart.seam.id]
    seams = resewn_merged(others, [merge], bare, tucked=fullness == "tucks")
    after = replace(bare, seams=seams, workings=(*pattern.workings, _working(bare, seams, seam, merge, fullness, uid)))
    bridges = across(ending_on(piece, dart.first.curve), ending_on(piece, dart.second.curve))
    return bridged(after, piece.id, bridges)


def _held_by(pattern: Pattern, dart: Dart) -> Seam:
    """The seam that the dart opens into."""
    before, after = dart.piece.before(dart.first), dart.piece.after(dart.second)
    if before.line != after.line or {before.kind, after.kind} != {"seam"}:
        what = "a corner" if before.line != after.line else f"the {spoken(before.line)}, a finished edge"
        raise DesignError(
            f"the dart opens at {what}, where nothing holds the fullness; swing it into a seam first",
            dart.line,
        )
    for seam in pattern.seams:
        chains = [{span.edge for span in chain} for chain in (seam.a, seam.b)]
        if seam.kind == "join" and any({before.id, after.id} <= chain for chain in chains):
            return seam
    raise DesignError(f"no one seam sews both sides of the dart's mouth on the {spoken(before.line)} line", dart.line)


def _marks(dart: Dart, uid: str) -> tuple[Mark, ...]:
    return tuple(
        Mark(f"{uid}-{name}", "point", as_point(at)) for name, at in zip(("from", "to"), dart.mouth, strict=True)
    )


def _tuck_lines(dart: Dart, tuck: float, uid: str) -> tuple[InsideLine, ...]:
    legs = dart.first.curve, dart.second.curve.reversed()
    return tuple(InsideLine(f"{uid}-{k}", "stitch", leg.between(0.0, tuck)) for k, leg in enumerate(legs, 1))


def _working(
    after: Pattern, seams: tuple[Seam, ...], seam: Seam, merge: MergedEdge, fullness: Fullness, uid: str
) -> Working:
    sewn = next(each for each in seams if each.id == seam.id)
    ours, theirs = (sewn.a, sewn.b) if merge.edge.id in {s.edge for s in sewn.a} else (sewn.b, sewn.a)
    whole, held = after.chain_length(ours), after.chain_length(theirs)
    parts = Part("the edge with the dart's mouth in it", whole), Part("less the edge that it is sewn to", -held)
    ratio = f"Gather 1 to {whole / held:.2f}, mostly between the two marks." if fullness == "gathers" else ""
    return Working(f"{uid}/fullness", f"{fullness.capitalize()} in the {spoken(seam.id)} seam", parts, note=ratio)
