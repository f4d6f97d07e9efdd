"""The seams and edges of a garment, sorted by when they are sewn."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Final, Literal

from panelwright.body.worded_length import length_words
from panelwright.design.position import spoken
from panelwright.finish.cut_piece import CuttingPattern
from panelwright.finish.facing_plan import hem_lines, is_shoulder
from panelwright.finish.options import Finish
from panelwright.pattern.closure import Closure
from panelwright.pattern.edge import Edge
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Layer, Piece
from panelwright.pattern.seam import Seam
from panelwright.pattern.skirt_below import runs_into_skirt, waist_seams
from panelwright.sewing.stitch import OVEREDGE, SeamClass
from panelwright.sewing.task import Sewn

Part = Literal[
    "dart", "caught", "panel", "centre", "shoulder", "side", "waist", "sleeve", "armhole", "strip", "added",
    "waistband", "set-on", "closure",
]  # fmt: skip
LEAST_EASE: Final = 0.5  # mm that need a hand
MODESTY: Final = "modesty-panel"
FLOUNCES: Final = ("frill", "peplum")  # kinds of steps that sew a strip to an edge or into a seam
ADDED: Final = (*FLOUNCES, "sleeve", "waistband")  # kinds of steps whose pieces are sewn on when the shell is there


@dataclass(frozen=True, eq=False)
class GarmentSeams:
    """A garment ready to cut, as whoever sews it looks at it.

    Attributes:
        cutting: the pieces.
        options: how they were finished.
    """

    cutting: CuttingPattern
    options: Finish

    @property
    def pattern(self) -> Pattern:
        """All pieces, those of inner layers too."""
        return self.cutting.pattern

    @cached_property
    def outer(self) -> tuple[Piece, ...]:
        """The pieces of the outer cloth."""
        return tuple(piece for piece in self.pattern.pieces if piece.layer == "outer")

    @cached_property
    def strips(self) -> tuple[Piece, ...]:
        """Outer pieces that were not cut from a panel and are made first: straps, ties; a modesty panel is none."""
        loose = (p for p in self.outer if not p.material and not p.id.endswith(MODESTY))
        return tuple(piece for piece in loose if self.made_by(piece) not in ADDED)

    @cached_property
    def _kinds(self) -> dict[str, str]:
        return {step.uid: step.kind for step in self.pattern.steps}

    @cached_property
    def _waist_seams(self) -> frozenset[str]:
        """Ids of the seams between a bodice and its skirt, in the outer cloth."""
        return waist_seams(self.pattern)

    def made_by(self, piece: Piece) -> str:
        """The kind of the step that made a piece, of whatever layer; empty for one that was cut from a panel."""
        if piece.material:
            return ""
        uids = (edge.line.partition("/")[0] for edge in piece.edges if "/" in edge.line)
        return next((self._kinds[uid] for uid in uids if uid in self._kinds), "")

    def added(self, *kinds: str) -> tuple[Piece, ...]:
        """The outer pieces that steps of these kinds made."""
        return tuple(piece for piece in self.outer if self.made_by(piece) in kinds)

    @cached_property
    def inner_layers(self) -> frozenset[Layer]:
        """Facing and lining, as far as there are any; a facing that is the outer piece cut again is one."""
        found: set[Layer] = {piece.layer for piece in self.pattern.pieces} & {"facing", "lining"}
        return frozenset(found | ({"facing"} if self.options.combined else set()))

    @cached_property
    def hems(self) -> frozenset[str]:
        """Lines of the hem."""
        return hem_lines(self.pattern)

    @cached_property
    def has_front_seams(self) -> bool:
        """Whether panels are joined in front."""
        return any(seam.region == "front" for seam in self.seams("panel"))

    def seams(self, part: Part, layer: Layer = "outer") -> tuple[Seam, ...]:
        """The seams of a layer that are sewn at one time, front ones first."""
        own = [seam for seam in self.pattern.seams if self._layer(seam) == layer and self.part(seam) == part]
        return tuple(sorted(own, key=lambda seam: ("front", "side", "back").index(seam.region)))

    def between_layers(self) -> tuple[Seam, ...]:
        """Seams from one layer to another: lining to facing."""
        layers = ((seam, {self.pattern.piece(s.piece).layer for s in seam.a + seam.b}) for seam in self.pattern.seams)
        return tuple(seam for seam, found in layers if len(found) > 1)

    def part(self, seam: Seam) -> Part:
        """When a seam is sewn."""
        edge = self.pattern.edge(seam.a[0])
        if seam.kind == "closure" or seam.kind == "dart":
            return seam.kind
        if seam.id.removeprefix("facing/").removeprefix("lining/") in self._waist_seams:
            return "waist"
        made = self._part_of_added(seam)
        if made is not None:
            return made
        if seam.kind == "attach":
            return "set-on" if edge.kind == "finished" else "caught"
        if seam.is_centre:
            return "centre"
        if is_shoulder(edge.line):
            return "shoulder"
        return "side" if seam.region == "side" else "panel"

    def _part_of_added(self, seam: Seam) -> Part | None:
        """When a seam of a piece that is added to the shell is sewn."""
        kind = self.made_by(self.pattern.piece(seam.b[0].piece))
        within = seam.a[0].piece == seam.b[0].piece
        if kind == "sleeve":
            return "sleeve" if within else "armhole"
        if kind == "waistband":
            return "waistband"
        if kind in FLOUNCES:
            return "strip" if within else "caught" if self._is_in_a_seam(seam) else "added"
        return None

    def _is_in_a_seam(self, seam: Seam) -> bool:
        """Whether the edge that something is attached to is sewn to another piece as well."""
        edges = {span.edge for span in seam.a}
        others = (each for each in self.pattern.seams if each.id != seam.id and each.kind == "join")
        return any(span.edge in edges for each in others for span in each.a + each.b)

    def is_doubled(self, piece: Piece) -> bool:
        """Whether a piece is there twice, to be sewn round and turned, or bagged out."""
        if self.options.combined:
            return True
        inner = (p for p in self.pattern.pieces if p.derived_from == piece.id and p.layer in ("facing", "lining"))
        return any(p.outline.area > 0.9 * piece.outline.area for p in inner)

    def sewn(self, seam: Seam) -> Sewn:
        """A seam as it is sewn."""
        edges = frozenset(span.edge for span in seam.a + seam.b)
        kind = SeamClass.LAPPED if seam.kind == "attach" and self.part(seam) == "set-on" else SeamClass.SUPERIMPOSED
        return Sewn(self.name(seam), edges, self.length(seam), seam.id, kind=kind)

    def neatened(self, seams: Iterable[Seam]) -> tuple[Sewn, ...]:
        """The raw edges of seams that no inner layer covers, both allowances of each."""
        bare = [seam for seam in seams if not all(self.is_doubled(self.pattern.piece(s.piece)) for s in seam.a)]
        if not bare:
            return ()
        length = 2 * sum(self.length(seam) for seam in bare)
        edges = frozenset(span.edge for seam in bare for span in seam.a + seam.b)
        return (Sewn("raw edges of the allowances", edges, length, "", OVEREDGE, SeamClass.EDGE_FINISHING),)

    def length(self, seam: Seam) -> float:
        """Length of a seam in the whole garment, mm, without what a closure leaves open of it."""
        # A whole band meets both halves of the shell in one chain.
        both = min(self.sides(self.pattern.piece(chain[0].piece)) for chain in (seam.a, seam.b))
        times = 1 if seam.is_centre else both
        return times * self.pattern.chain_length(seam.a) - sum(one.opening for one in self.openings(seam))

    def openings(self, seam: Seam) -> tuple[Closure, ...]:
        """The closures that leave a part of a sewn seam open, in whatever layer: a zip in one side seam."""
        if seam.kind == "closure":
            return ()
        line = self.pattern.edge(seam.a[0]).line
        return tuple(one for one in self.pattern.closures if one.place == line and one.hand != "centre")

    def closures_above(self, seam: Seam) -> tuple[Closure, ...]:
        """The closures that open the rest of the line of a sewn centre seam, above it."""
        edges = {span.edge for span in seam.a + seam.b}
        closed = {
            other.id
            for other in self.pattern.seams
            if other.kind == "closure" and any(span.edge in edges for span in other.a)
        }
        return tuple(one for one in self.pattern.closures if one.seam in closed and seam.id not in closed)

    def runs_into_skirt(self, seam: Seam) -> bool:
        """Whether an upright seam of a bodice ends at its skirt."""
        return runs_into_skirt(self.pattern, self.pattern.piece(seam.a[0].piece), self.pattern.edge(seam.a[0]))

    def edge_length(self, piece: Piece, edge: Edge) -> float:
        """Length of an edge in the whole garment, mm."""
        return self.sides(piece) * edge.curve.length

    @staticmethod
    def sides(piece: Piece) -> int:
        """On how many sides of the wearer an edge of a piece lies."""
        return 2 if piece.extent == "half_on_fold" or (piece.extent == "one_side" and piece.hand == "both") else 1

    def name(self, seam: Seam) -> str:
        """`front princess seam`, `skirt side seam`; where something is set on, `strap, front end`."""
        if seam.kind == "attach":
            piece = self.pattern.piece(seam.b[0].piece)
            place = seam.id.rpartition(".")[2] if "." in seam.id else self.pattern.edge(seam.a[0]).line
            known = [line.label.lower().replace(",", "") for line in self.pattern.lines if line.id == place]
            return f"{piece.label.lower()} to the {known[0] if known else spoken(place)}"
        if self._layer(seam) == "outer" and seam.kind == "dart":
            return f"dart of the {self.pattern.piece(seam.a[0].piece).label.lower()}"
        label = next((line.label for line in self.pattern.lines if line.id == seam.id), "")
        if not label or self.part(seam) == "waist":
            return f"{spoken(seam.id.rpartition('/')[2])} seam"
        words = f"{label[:1].lower()}{label[1:]}".replace(",", "")
        return words if "seam" in words else f"{words} seam"

    def eased(self, seam: Seam) -> str:
        """What has to be eased or gathered in, one sentence; empty where both sides are as long."""
        a, b = self.pattern.chain_length(seam.a), self.pattern.chain_length(seam.b)
        if abs(b - a) < LEAST_EASE:
            return ""
        longer = self.pattern.piece((seam.b if b > a else seam.a)[0].piece).label.lower()
        if max(a, b) > 1.15 * min(a, b):
            return (
                f"Gather the {longer} from {length_words(max(a, b))} to {length_words(min(a, b))}: two rows of long "
                "stitches inside the allowance, drawn up evenly between the notches."
            )
        return (
            f"Ease {length_words(abs(b - a))} of the {longer} in between the notches, with the longer side next to the "
            "machine."
        )

    def _layer(self, seam: Seam) -> Layer | None:
        """Of all its pieces; None for a seam between layers."""
        layers = {self.pattern.piece(span.piece).layer for span in seam.a + seam.b}
        return layers.pop() if len(layers) == 1 else None
