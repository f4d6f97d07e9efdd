"""The step that sews a skirt to the waist of a bodice: a dress."""

import math
from dataclasses import dataclass, field, replace
from typing import ClassVar, Final, Literal, get_args

from panelwright.blocks.make_skirt import skirt_panels
from panelwright.blocks.options import BlockOptions
from panelwright.blocks.skirt_body import SkirtBody
from panelwright.blocks.skirt_options import SkirtOptions
from panelwright.blocks.skirt_pattern import drawn_skirt
from panelwright.body.worded_length import given_words, length_words, range_words
from panelwright.design.attach import EdgeRow, row_on
from panelwright.design.body_chart import closest
from panelwright.design.position import spoken
from panelwright.design.skirt_opening import opening_into
from panelwright.design.step import blamed, checked_uid
from panelwright.errors import BlockError, DesignError, GeometryError, InputError
from panelwright.pattern.edge import Edge
from panelwright.pattern.level import HIP, TOP_HIP, WAIST, Level
from panelwright.pattern.line import CENTRE_BACK, CENTRE_FRONT, SKIRT_HEM, WAIST_EDGE, Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.seam import Seam, Span
from panelwright.pattern.skirt_below import SKIRT, WAIST_SLOT
from panelwright.pattern.working import Part, Working

SkirtType = Literal["circle-skirt", "gored-skirt", "straight-skirt"]
HIP_EASE: Final = 20.0  # mm on the whole girth of top hip and hip, as a block has it
EASES: Final = (0.0, 60.0)
HIP_EASES: Final = (0.0, 300.0)
OFF_WAIST: Final = 15.0  # mm (own choice): from there on the hips of the skirt would lie off the wearer's
OPENINGS: Final = (50.0, 600.0)
WAIST_SEAM: Final = "Waist seam"
SLOTS: Final = (WAIST_SLOT, SKIRT_HEM)


@dataclass(frozen=True)
class SkirtStep:
    """Sews a skirt to the lower edge of a bodice that ends at the waist.

    The skirt is drawn as the block of that skirt is, with the bodice's lower edge for its waist, so that the waist
    seam is true whatever the bodice came to.

    Attributes:
        uid: permanent name in the design; slots `waist`, its sewn edge, and `skirt-hem`.
        line: of the bodice's lower edge.
        type: circle, gored or straight.
        shape: of the skirt; how its centres are cut follows the bodice.
        ease: by which its waist is longer than the bodice's edge, on the whole girth, mm; it is eased in.
        hip_ease: at top hip and hip of a gored or straight skirt, mm; none on a block that is nobody's.
        opening: how far a zip of the bodice runs on into the skirt, mm; None: down to the hip.

    Raises:
        DesignError: if the type is unknown or a number is out of range.
    """

    kind: ClassVar[str] = SKIRT
    needs_shoulder: ClassVar[bool] = False

    uid: str
    line: str
    type: SkirtType = "circle-skirt"
    shape: SkirtOptions = field(default_factory=SkirtOptions)
    ease: float = 0.0
    hip_ease: float = HIP_EASE
    opening: float | None = None

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        with blamed(self.uid, "skirt"):
            if self.type not in get_args(SkirtType):
                raise DesignError(f"its type is {self.type!r}; choose {', '.join(get_args(SkirtType))}", "type")
            for what, given, limits in (
                ("ease at the waist seam", self.ease, EASES),
                ("ease at the hip", self.hip_ease, HIP_EASES),
                ("opening", self.opening, OPENINGS),
            ):
                if given is not None and not (math.isfinite(given) and limits[0] <= given <= limits[1]):
                    words = range_words(*limits, "and")
                    raise DesignError(f"its {what} is {given_words(given)}; give between {words}", what)

    @property
    def label(self) -> str:
        """`Skirt: circle skirt`."""
        return f"Skirt: {self.type.replace('-', ' ')}"

    @property
    def slots(self) -> tuple[str, ...]:
        """Its edges."""
        return SLOTS

    @property
    def uses(self) -> frozenset[str]:
        """The step that made the edge, if one did."""
        maker, slash, _ = self.line.partition("/")
        return frozenset({maker}) if slash else frozenset()

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern with the skirt's pieces, its seams and the waist seam, and how that was reckoned.

        Raises:
            DesignError: if the bodice has no such edge or does not end at the waist; if it opens otherwise than by a
                zip at a centre; or if no skirt of that shape can be drawn.
        """
        with blamed(self.uid, "skirt"):
            _refuse_unlevelled(block)
            row = self._waist(pattern, block)
            back, front = row.ends
            body = self._body(block, row)
            skirt = self._drawn(body, back, front)
            depth = body.depths[HIP] if self.opening is None else self.opening
            openings = [opening_into(pattern, skirt, edge, self.uid, depth) for edge in (back, front)]
            sewn = self._sewn(pattern, skirt, row)
            for opening in filter(None, openings):
                sewn = opening.on(sewn)
            return replace(sewn, workings=(*sewn.workings, self._working(block, row)))

    def _waist(self, pattern: Pattern, block: Pattern) -> EdgeRow:
        """The bodice's lower edge from centre back to centre front."""
        kinds = {edge.kind for _, edge in pattern.pieces_on_line(self.line)}
        if not kinds:
            known = sorted({edge.line for piece in pattern.pieces for edge in piece.edges if edge.kind == "finished"})
            raise DesignError(f"there is no edge on {self.line!r}{closest(self.line, known)}", self.line)
        if kinds != {"finished"}:
            raise DesignError(
                f"the {self._called(pattern)} is sewn already, to a facing or to another piece", self.line
            )
        row = row_on(pattern, self.line)
        if (row.ends[0].line, row.ends[1].line) != (CENTRE_BACK, CENTRE_FRONT):
            raise DesignError(
                f"the {self._called(pattern)} does not run from centre back to centre front; name the lower edge",
                self.line,
            )
        off = _off_waist(pattern, block, row)
        if off > OFF_WAIST:
            raise DesignError(
                f"the bodice's lower edge lies {length_words(off)} from the waist at its farthest; let its hem lie "
                f"at the waist within {given_words(OFF_WAIST)}, or sew a peplum to it instead",
                self.line,
            )
        return row

    def _called(self, pattern: Pattern) -> str:
        label = pattern.line(self.line).label
        return f"{label[:1].lower()}{label[1:]}"

    def _body(self, block: Pattern, row: EdgeRow) -> SkirtBody:
        top_hip, hip = (block.level(level) for level in (TOP_HIP, HIP))
        # The girths of a traced block that is nobody's are those drawn: its hips have their ease already.
        ease = self.hip_ease if block.worn_by else 0.0
        return SkirtBody(
            waist=2 * row.length + self.ease,
            top_hip=top_hip.body_girth + ease,
            hip=hip.body_girth + ease,
            depths={WAIST: 0.0, TOP_HIP: -top_hip.height, HIP: -hip.height},
            bare={level: block.level(level).body_girth for level in (WAIST, TOP_HIP, HIP)},
        )

    def _drawn(self, body: SkirtBody, back: Edge, front: Edge) -> Pattern:
        """The skirt alone, under the lines of this step."""
        shape = replace(self.shape, centre_front="fold" if front.kind == "fold" else "seam")
        options = BlockOptions(type=self.type, skirt=shape, centre_back="fold" if back.kind == "fold" else "seam")
        try:
            skirt = drawn_skirt(*skirt_panels(body, options), body, options)
        except (BlockError, InputError, GeometryError) as error:
            raise DesignError(str(error)) from error
        return _renamed(skirt, self.uid)

    def _sewn(self, pattern: Pattern, skirt: Pattern, row: EdgeRow) -> Pattern:
        """Bodice and skirt with the waist seam between them."""
        ids = {span.edge for span in row.spans}
        waist = f"{self.uid}/{SLOTS[0]}"
        pieces = [*pattern.pieces, *skirt.pieces]
        sewn = tuple(
            replace(
                piece,
                edges=tuple(
                    replace(edge, kind="seam") if edge.id in ids or edge.line == waist else edge for edge in piece.edges
                ),
            )
            for piece in pieces
        )
        spans = tuple(
            Span(piece.id, edge.id, 1.0, 0.0)
            for piece in reversed(skirt.pieces)
            for edge in reversed(piece.edges)
            if edge.line == waist
        )
        seam = Seam(waist, "join", row.spans, spans, "front", ease=self.ease / 2, blend=False)
        known = {level.id for level in pattern.levels}
        return replace(
            pattern,
            pieces=sewn,
            seams=(*pattern.seams, *skirt.seams, seam),
            lines=(*(self._above(line) for line in pattern.lines), *skirt.lines),
            levels=(*pattern.levels, *(level for level in skirt.levels if level.id not in known)),
        )

    def _above(self, line: Line) -> Line:
        """The bodice's lower edge is a hem no longer."""
        return replace(line, label=WAIST_SEAM) if line.id == self.line else line

    def _working(self, block: Pattern, row: EdgeRow) -> Working:
        waist = block.level(WAIST).body_girth
        parts = (
            Part("the wearer's waist" if block.worn_by else "the block's waist", waist),
            Part("ease in the bodice's lower edge", 2 * row.length - waist),
            *((Part("eased in from the skirt", self.ease),) if self.ease else ()),
        )
        # No length is in the words: a step's result is kept whatever unit is read.
        return Working(f"{self.uid}/waist-seam", WAIST_SEAM, parts, note="Both sides are trued to the bodice's edge.")


def _refuse_unlevelled(block: Pattern) -> None:
    missing = [spoken(level) for level in (WAIST, TOP_HIP, HIP) if not block.has_level(level)]
    if missing:
        raise DesignError(f"the block has no {' and no '.join(missing)}, which a skirt is drawn from")


def _off_waist(pattern: Pattern, block: Pattern, row: EdgeRow) -> float:
    """How far the edges of a row lie from the block's waist at their ends and middles, mm; 0 where it has none."""
    waists = {step.piece: block.piece(step.piece).inside_line(step.inside) for step in block.level(WAIST).path}
    off = 0.0
    for span in row.spans:
        piece, edge = pattern.piece(span.piece), pattern.edge(span)
        lines = [(waists.get(region.panel), region.placement) for region in piece.material]
        curves = [line.curve.placed(placement) for line, placement in lines if line is not None]
        for share in (0.0, 0.5, 1.0):
            point = edge.curve.point(share * edge.curve.length)
            off = max(off, min((curve.nearest(point)[1] for curve in curves), default=0.0))
    return off


def _renamed(skirt: Pattern, uid: str) -> Pattern:
    """The skirt with lines and seams of the step's own: a bodice has a side seam and centres too."""

    def line(id: str) -> str:
        return f"{uid}/{SLOTS[0] if id == WAIST_EDGE else id}"

    def edge_id(piece: str, id: str) -> str:
        own = id.removeprefix(f"{piece}.")
        return f"{piece}.{uid}/{own.replace(WAIST_EDGE, SLOTS[0], 1)}"

    def piece(own: Piece) -> Piece:
        edges = tuple(replace(edge, id=edge_id(own.id, edge.id), line=line(edge.line)) for edge in own.edges)
        return replace(own, edges=edges)

    def span(own: Span) -> Span:
        return replace(own, edge=edge_id(own.piece, own.edge))

    seams = tuple(
        replace(seam, id=f"{uid}/{seam.id}", a=tuple(map(span, seam.a)), b=tuple(map(span, seam.b)))
        for seam in skirt.seams
    )
    lines = tuple(Line(line(own.id), _label(own), uid) for own in skirt.lines)
    levels: tuple[Level, ...] = skirt.levels
    return replace(skirt, pieces=tuple(map(piece, skirt.pieces)), seams=seams, lines=lines, levels=levels)


def _label(line: Line) -> str:
    own = f"{line.label[:1].lower()}{line.label[1:]}"
    return f"Skirt, {own.replace(' skirt seam', ' seam')}"
