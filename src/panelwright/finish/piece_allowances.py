"""Which allowance each edge of a piece takes, and how its corners are finished."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final, Literal, Self

from panelwright.errors import InputError
from panelwright.finish.cut_piece import Corner
from panelwright.finish.facing_edge import FACING_EDGE
from panelwright.finish.facing_plan import hem_lines
from panelwright.finish.narrow_dart import dart_mouths, in_dart
from panelwright.finish.narrow_strip import narrow_strips, trimmed
from panelwright.finish.options import CornerKind, Finish
from panelwright.finish.tight_hollow import in_hollow, tight_hollows
from panelwright.geometry.offset import Allowance
from panelwright.pattern.edge import Edge
from panelwright.pattern.line import CENTRE_BACK, CENTRE_FRONT
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.quotation import quoted

SHORT: Final = {CENTRE_FRONT: "CF", CENTRE_BACK: "CB"}
_USUAL: Final[dict[CornerKind, Corner]] = {"turned_edge": "fold_back", "seam_end": "mitre", "other": "mitre"}


@dataclass(frozen=True)
class Widths:
    """The allowance of every edge of a pattern.

    Attributes:
        names: line id -> what the maker calls it (see `line_names`).
        lines: line id -> its own width, mm, for the lines that have one.
        hems: lines of the hem.
        strips: line id -> width of the strip that it bounds, mm (see `narrow_strips`).
        hollows: line id -> radius of its tightest hollow, mm (see `tight_hollows`).
        mouths: line id -> width of the mouth of the dart on it, mm (see `dart_mouths`).
    """

    names: Mapping[str, str]
    lines: Mapping[str, float]
    hems: frozenset[str]
    strips: Mapping[str, float]
    hollows: Mapping[str, float]
    mouths: Mapping[str, float]
    options: Finish

    @classmethod
    def of(cls, pattern: Pattern, options: Finish) -> Self:
        """Find the lines that the options name: by id, by what follows the slash in it, or by label.

        Raises:
            InputError: if the pattern has no edge on such a line.
        """
        used = {edge.line for piece in pattern.pieces for edge in piece.edges}
        keys = {
            line.id: (line.id, line.id.rpartition("/")[2], line_key(line.label))
            for line in pattern.lines
            if line.id in used
        }
        known = {key for own in keys.values() for key in own}
        for given in options.lines:
            if line_key(given) not in known and given not in known:
                shown = sorted({own[2] for own in keys.values()})
                raise InputError(
                    f"an allowance is given for {quoted(given)}, which is no line of this pattern; "
                    f"choose among {', '.join(shown)}",
                    f"lines.{given}",
                )
        by_key = {key: width for given, width in options.lines.items() for key in (line_key(given), given)}
        lines = {
            id: next(by_key[key] for key in own if key in by_key) for id, own in keys.items() if by_key.keys() & own
        }
        return cls(
            line_names(pattern),
            lines,
            hem_lines(pattern),
            narrow_strips(pattern),
            tight_hollows(pattern.pieces),
            dart_mouths(pattern),
            options,
        )

    def on(self, pattern: Pattern) -> Self:
        """The same widths for the shell with its layers, whose lines have names too."""
        return replace(self, names=line_names(pattern))

    def width(self, edge: Edge) -> float:
        """mm: none at a fold, or where a facing ends without being sewn; else that of the line, of the kind, of all.

        Only the maker's own width for a line lets more stand at a narrow strip or hollow than fits into it.
        """
        if edge.kind == "fold" or (edge.line == FACING_EDGE.id and edge.kind == "finished"):
            return 0.0
        if edge.line in self.lines:
            return self.lines[edge.line]
        usual = self._usual(edge)
        fitting = in_hollow(trimmed(usual, edge.line, self.strips), edge.line, self.hollows)
        return in_dart(fitting, edge.line, self.mouths)

    def _usual(self, edge: Edge) -> float:
        """What edges of its kind take, mm, strips and hollows aside."""
        return self.options.kinds.get(edge.kind, self.options.allowance)

    def is_trimmed(self, edge: Edge) -> bool:
        """Whether an edge of a narrow strip takes less than other edges of its kind."""
        usual = self._usual(edge)
        return edge.line not in self.lines and trimmed(usual, edge.line, self.strips) < usual

    def is_hollow(self, edge: Edge) -> bool:
        """Whether an armhole takes less than other edges of its kind, because it bends too tightly for it."""
        usual = self._usual(edge)
        return edge.line not in self.lines and in_hollow(usual, edge.line, self.hollows) < usual

    def is_darted(self, edge: Edge) -> bool:
        """Whether a dart's leg takes less than other edges of its kind, because its mouth is narrow."""
        usual = self._usual(edge)
        return edge.line not in self.lines and in_dart(usual, edge.line, self.mouths) < usual

    def is_faced(self, edge: Edge) -> bool:
        """Whether a finished edge is sewn to a layer inside, which takes the place of turning it up."""
        options = self.options
        if options.facing == "full" or options.lining == "full":
            return True
        return options.facing == "edge" and (edge.line not in self.hems or options.hem_facing_width > 0)


def piece_allowances(piece: Piece, widths: Widths) -> tuple[Allowance, ...]:
    """The allowance of each edge, in outline order; interfacing takes none."""
    own = [0.0 if piece.layer == "interfacing" else widths.width(edge) for edge in piece.edges]
    after = zip(piece.edges[1:] + piece.edges[:1], own[1:] + own[:1], strict=True)
    return tuple(
        Allowance(edge.curve, width, edge.kind == "fold", *_corner((edge, there), (width, wide), widths))
        for edge, width, (there, wide) in zip(piece.edges, own, after, strict=True)
    )


def line_names(pattern: Pattern) -> dict[str, str]:
    """Line id -> what the maker calls it: CF, CB, or the label of the line in small letters."""
    return {line.id: SHORT.get(line.id, line.label.lower()) for line in pattern.lines}


def line_key(name: str) -> str:
    """What a design may call the line of that label, `strap-back-end` for `Strap, back end`.

    It has no comma, so that a list of keys can be read.
    """
    return name.strip().lower().replace(",", "").replace(" ", "-")


def _corner(
    edges: tuple[Edge, Edge], own: tuple[float, float], widths: Widths
) -> tuple[Corner, Literal["this", "next"]]:
    """How the corner between two edges is finished, and whose allowance it is that is squared or folded back."""
    kinds, options = [edge.kind for edge in edges], widths.options
    if "fold" in kinds or not any(own):
        return "square", "this"
    if any(edge.line in widths.mouths for edge in edges):
        return "mitre", "this"  # turned or squared, the two corners of a narrow mouth would close it
    if kinds.count("finished") != 1:
        return _style("other", options), "this" if own[0] >= own[1] else "next"
    finished_first = kinds[0] == "finished"
    if not widths.is_faced(edges[0] if finished_first else edges[1]):
        return _style("turned_edge", options), "this" if finished_first else "next"
    return _style("seam_end", options), "next" if finished_first else "this"


def _style(kind: CornerKind, options: Finish) -> Corner:
    return options.corners.get(kind, _USUAL[kind])
