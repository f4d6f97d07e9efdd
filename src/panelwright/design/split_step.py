"""The step that cuts pieces apart along a line."""

from dataclasses import dataclass
from typing import ClassVar, Final, Literal, get_args

import numpy as np
import shapely
from shapely import LineString

from panelwright.body.worded_length import length_words
from panelwright.design.body_chart import BodyChart, half_chart
from panelwright.design.curve_through import curve_through
from panelwright.design.divided_piece import PartName
from panelwright.design.finished_edge import EdgeDesign
from panelwright.design.outline_point import OutlinePoint, named_piece
from panelwright.design.panel_place import panel_number, worn_region
from panelwright.design.position import BodyPoint, Height, place_on, spoken
from panelwright.design.sound_outline import refuse_crossed
from panelwright.design.split import split_piece
from panelwright.design.squared_grain import squared
from panelwright.design.step import blamed, checked_uid
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern.line import Line
from panelwright.pattern.pattern import Pattern
from panelwright.pattern.piece import Piece
from panelwright.pattern.spoken_piece import spoken_piece

SPOKEN = "split"
SplitWay = Literal["line", "yoke", "panel"]
SPLIT_WAYS: Final[tuple[str, ...]] = get_args(SplitWay)
BETWEEN: Final = (0.05, 0.95)
LEAST_PART: Final = 15.0  # mm that a part measures at least, across its narrowest reach
_WANTED: Final = {"line": ("start", "end"), "yoke": ("height",), "panel": ("line", "towards")}
_ASKED: Final = {
    "line": "say where on the outline the line starts and where it ends",
    "yoke": "give the height of the yoke",
    "panel": "name the two lines that the new seam lies between",
}
SAMPLES: Final = 13  # places up a panel through which a new panel seam runs
STRAIGHT: Final = "straight"


@dataclass(frozen=True)
class Split:
    """Cuts a piece in two along a line, several along one height (a yoke), or a panel between its two seams.

    Slots: `line`, the new seam.

    Attributes:
        uid: permanent name in the design; the new part is called `<piece>-<uid>`.
        way: `line`, from one place of the outline to another; `yoke`, at one height; `panel`, up between two lines.
        pieces: codes of the pieces; one of them except for a yoke.
        start, end: of a `line`, where it leaves and meets the outline.
        through: of a `line`, places on the wearer that it runs through between them.
        height: of a `yoke`.
        line, towards, fraction: of a `panel`, between which lines of the block and how far from the first.

    Raises:
        DesignError: if something that the way needs is missing, or what belongs to another is given.
    """

    kind: ClassVar[str] = "split"
    needs_shoulder: ClassVar[bool] = False

    uid: str
    way: SplitWay
    pieces: tuple[str, ...]
    start: OutlinePoint | None = None
    end: OutlinePoint | None = None
    through: tuple[BodyPoint, ...] = ()
    height: Height | None = None
    line: str | None = None
    towards: str | None = None
    fraction: float = 0.5

    def __post_init__(self) -> None:
        checked_uid(self.uid)
        if self.way not in SPLIT_WAYS:
            self._refuse(f"a piece is split by {', '.join(SPLIT_WAYS)}, not {self.way!r}")
        if len(set(self.pieces)) < len(self.pieces):
            self._refuse("name each piece that is cut once")
        if self.way != "yoke" and len(self.pieces) > 1:
            self._refuse("only a yoke runs through several pieces; cut each other one by a step of its own")
        for way, fields in _WANTED.items():
            for field in fields:
                if way != self.way and getattr(self, field) is not None:
                    self._refuse(f"split by {self.way!r} it has no {field}; leave it out")
        if self.through and self.way != "line":
            self._refuse("only a line from place to place runs through further places")
        if not BETWEEN[0] <= self.fraction <= BETWEEN[1]:
            self._refuse(
                f"a new panel seam lies {BETWEEN[0]:g} to {BETWEEN[1]:g} of the way between its two lines, not at "
                f"{self.fraction:g}"
            )

    def _refuse(self, why: str) -> None:
        raise DesignError(f"{SPOKEN}: {why}", f"step {self.uid}")

    @property
    def label(self) -> str:
        """`Split: SF, yoke`."""
        ways = {"line": "along a line", "yoke": "yoke", "panel": "panel seam"}
        return f"Split: {', '.join(self.pieces)}, {ways[self.way]}"

    @property
    def slots(self) -> tuple[str, ...]:
        """The new seam."""
        return ("line",)

    @property
    def uses(self) -> frozenset[str]:
        """No earlier step: a piece's code says nothing of who made it."""
        return frozenset()

    def apply(self, pattern: Pattern, block: Pattern) -> Pattern:
        """The pattern with each piece in two parts, sewn to each other.

        Raises:
            DesignError: if there is no such piece, a place is not on it, or the line leaves it.
        """
        with blamed(self.uid, SPOKEN):
            if not self.pieces:
                raise DesignError("name the pieces that are cut")
            if any(getattr(self, field) is None for field in _WANTED[self.way]):
                raise DesignError(_ASKED[self.way])
            chart = half_chart(block)
            line = Line(f"{self.uid}/line", "Split", self.uid)
            for id in self.pieces:
                pattern = self._cut(pattern, named_piece(pattern, id), chart, line)
            return pattern

    def _cut(self, pattern: Pattern, piece: Piece, chart: BodyChart, line: Line) -> Pattern:
        curve = self._curve(piece, chart)
        part = f"{piece.id}-{self.uid}"
        names = {"line": "part", "yoke": "yoke", "panel": "side panel"}
        own, new = PartName(piece.id, piece.label), PartName(part, f"{piece.label}, {names[self.way]}")
        # A yoke's line runs from the centre front outwards: what is above lies on its right.
        parts = (new, own) if self.way == "panel" else (own, new)
        known = any(other.id == line.id for other in pattern.lines)
        number = "" if not known else f"-{1 + sum(seam.id.startswith(line.id) for seam in pattern.seams)}"
        named = Line(f"{line.id}{number}", line.label, line.origin)
        after = split_piece(pattern, piece.id, [curve], named, parts, worn_region(chart, piece))
        for each in (after.piece(piece.id), after.piece(part)):
            _refuse_sliver(each)
        refuse_crossed(after, (piece.id, part), "run the line clear of its edges")
        return squared(after, (piece.id, part))

    def _curve(self, piece: Piece, chart: BodyChart) -> Curve:
        if self.way == "line":
            return self._from_place_to_place(piece, chart)
        return self._yoke(piece, chart) if self.way == "yoke" else self._panel_seam(piece, chart)

    def _from_place_to_place(self, piece: Piece, chart: BodyChart) -> Curve:
        places = [point.on(piece) for point in (self.start, self.end) if point]
        ends = [piece.edge(place.edge).curve.point(place.arc) for place in places]
        return curve_through(np.array([ends[0], *(self._inside(piece, chart, at) for at in self.through), ends[1]]))

    def _inside(self, piece: Piece, chart: BodyChart, at: BodyPoint) -> Array:
        place = place_on(chart, at)
        panel, point = chart.point(place.across, place.height)
        for region in piece.material:
            placed = region.placement.points(np.array(point))
            if region.panel == panel and shapely.covers(shapely.buffer(piece.outline, 0.1), shapely.points(placed)):
                return placed
        raise DesignError(
            f"a place between the {spoken(at.line)} and {spoken(at.towards or at.line)} lines at the "
            f"{spoken(at.height.level)} does not lie on {spoken_piece(piece)}; choose one that does",
            piece.id,
        )

    def _yoke(self, piece: Piece, chart: BodyChart) -> Curve:
        height = self.height or Height("bust")
        style = EdgeDesign(STRAIGHT, height, height).line(chart)
        for part in style.panels:
            for region in piece.material:
                if region.panel == part.panel and part.half in ("both", "right"):
                    curve = part.curves[0]
                    for other in part.curves[1:]:
                        curve = curve.joined(other)
                    return _within(piece, curve.placed(region.placement), self._where())
        raise DesignError(f"{spoken_piece(piece)} comes from no panel of the block, so no level runs in it", piece.id)

    def _panel_seam(self, piece: Piece, chart: BodyChart) -> Curve:
        first, second = chart.index(self.line or ""), chart.index(self.towards or "")
        if abs(first - second) != 1:
            raise DesignError(
                f"{spoken(self.line or '')} and {spoken(self.towards or '')} are not the two sides of one panel of "
                "the block; name two neighbours",
                piece.id,
            )
        number = min(first, second)
        across = self.fraction if first < second else 1.0 - self.fraction
        heights = np.linspace(chart.rows[0].height, chart.rows[-1].height, SAMPLES)
        points = chart.surfaces[chart.centre + number].points(np.full(SAMPLES, across), heights)
        for region in piece.material:
            if panel_number(chart, region.panel) == number:
                return _within(piece, curve_through(region.placement.points(points)), self._where())
        raise DesignError(
            f"{spoken_piece(piece)} does not lie between {spoken(self.line or '')} and {spoken(self.towards or '')}; "
            "name the two lines that it lies between",
            piece.id,
        )

    def _where(self) -> str:
        return "at that height" if self.way == "yoke" else "at that place"


def _within(piece: Piece, curve: Curve, where: str) -> Curve:
    """What of a curve lies in the piece, from edge to edge.

    Raises:
        DesignError: if it misses the piece, or leaves it and comes back.
    """
    drawn = LineString(curve.polyline())
    crossed = shapely.get_coordinates(shapely.intersection(drawn, piece.outline.exterior))
    arcs = sorted(curve.nearest(point)[0] for point in crossed)
    ends = [curve.start, curve.end]
    arcs = [
        *([0.0] if _on_outline(piece, ends[0]) else []),
        *arcs,
        *([curve.length] if _on_outline(piece, ends[1]) else []),
    ]
    kept = [arcs[k] for k in range(len(arcs)) if k == 0 or arcs[k] - arcs[k - 1] > 0.5]
    if len(kept) != 2:
        what = "misses" if len(kept) < 2 else "leaves and meets again"
        raise DesignError(f"the line {where} {what} {spoken_piece(piece)}; choose another", piece.id)
    first, last = kept
    return _drawn_to_outline(piece, curve.between(max(first, 0.0), min(last, curve.length)))


def _on_outline(piece: Piece, point: Array) -> bool:
    return bool(shapely.distance(piece.outline.exterior, shapely.points(point)) < 0.1)


def _drawn_to_outline(piece: Piece, curve: Curve) -> Curve:
    ends = []
    for point in (curve.start, curve.end):
        found = [(edge, *edge.curve.nearest(point)) for edge in piece.edges]
        edge, arc, _ = min(found, key=lambda each: each[2])
        ends.append(edge.curve.point(arc))
    return curve.ending_at(start=ends[0], end=ends[1])


def _refuse_sliver(piece: Piece) -> None:
    """A part that nobody can sew.

    Raises:
        DesignError: if nowhere in it a circle of 15 mm has room.
    """
    if shapely.buffer(piece.outline, -LEAST_PART / 2).is_empty:
        raise DesignError(
            f"{spoken_piece(piece)} would be nowhere {length_words(LEAST_PART)} wide, too narrow to sew; move the line",
            piece.id,
        )
