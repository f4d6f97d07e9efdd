"""What can be taken hold of on a strap that grows out of the panels: its two edges at the shoulder, and its feet."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from panelwright.design.grip import Grip, tracked
from panelwright.design.moved_height import OFFSET_DIGITS, SHARE_DIGITS
from panelwright.design.on_paper import OnPaper, on_paper
from panelwright.design.shoulder_needed import block_to_shoulder
from panelwright.design.step import Step
from panelwright.design.strap import Strap, grown_halves
from panelwright.design.strap_foot_grips import strap_foot_grips
from panelwright.design.strap_panel import SEAMS, Half
from panelwright.design.track import Track
from panelwright.errors import DesignError
from panelwright.geometry.arrays import Array
from panelwright.geometry.curve import Curve
from panelwright.pattern import line as lines
from panelwright.pattern.pattern import Pattern

MIDDLE = 0.5  # share of the shoulder where a strap lies that was not given a place


def grown_strap_grips(step: Strap, pattern: Pattern, block: Pattern, before: Pattern | None) -> Iterator[Grip]:
    """Its inner edge on the shoulder, which moves it, and its outer edge there, which changes its width; and the same
    of its feet, where it stands on the top edge.

    A strap placed by a share of the shoulder stays so, and may be drawn a little away from where it was put.

    Args:
        step: a strap of the type `grown`.
        pattern: after the steps of the design.
        block: the unmodified block, with its block to the shoulder.
        before: the pattern that the step was carried out on: it still has the top edge below the strap. None: the
            feet have no grips.
    """
    try:
        full = block_to_shoulder(block)
    except DesignError:
        return
    yield from _at_shoulder(step, pattern, full)
    if before is not None:
        yield from strap_foot_grips(step, pattern, *grown_halves(step, before, block))


def _at_shoulder(step: Strap, pattern: Pattern, full: Pattern) -> Iterator[Grip]:
    shoulder = _Shoulder.of(full, "front")
    whole = min(shoulder.length, _Shoulder.of(full, "back").length)
    ends = [
        (piece.id, point)
        for piece, edge in pattern.pieces_on_line(f"{step.uid}/shoulder")
        for point in (edge.curve.start, edge.curve.end)
    ]
    found = [place for each in ends if (place := shoulder.found(pattern, *each)) is not None]
    if not found:
        return
    inner, outer = min(found, key=lambda track: track.here), max(found, key=lambda track: track.here)
    yield tracked(step, "shoulder", "place of the strap on the shoulder", inner, lambda to, _: _placed(step, whole, to))
    yield tracked(step, "width", "width of the strap at the shoulder", outer, lambda to, _: _as_wide(step, whole, to))


def _placed(step: Strap, shoulder: float, inner: float) -> Step:
    if step.at_shoulder is not None:
        return replace(step, at_shoulder=round(inner, OFFSET_DIGITS))
    room = max(shoulder - step.width, 1.0)
    return replace(step, share=round(inner / room, SHARE_DIGITS))


def _as_wide(step: Strap, shoulder: float, outer: float) -> Step:
    if step.at_shoulder is not None:
        return replace(step, width=round(outer - step.at_shoulder, OFFSET_DIGITS))
    share = MIDDLE if step.share is None else step.share
    if share == 1.0:
        raise DesignError("its outer edge lies at the end of the shoulder; move the strap before you make it wider")
    return replace(step, width=round((outer - share * shoulder) / (1.0 - share), OFFSET_DIGITS))


@dataclass(frozen=True, eq=False)
class _Shoulder:
    """The shoulder edges of one half of the block, from the neck outwards: (panel, curve, mm from the neck)."""

    parts: tuple[tuple[str, Curve, float], ...]

    @classmethod
    def of(cls, full: Pattern, half: Half) -> "_Shoulder":
        centre, seam = SEAMS[half]
        inner = full.pieces_on_line(centre)[0][0]
        outer = [piece for piece, _ in full.pieces_on_line(seam) if piece.id != inner.id]
        parts, start = [], 0.0
        for piece in (inner, *outer):
            for edge in piece.on_line(lines.SHOULDER):
                curve = edge.curve if half == "front" else edge.curve.reversed()
                parts.append((piece.id, curve, start))
                start += curve.length
        return cls(tuple(parts))

    @property
    def length(self) -> float:
        """mm."""
        return sum(curve.length for _, curve, _ in self.parts)

    def found(self, pattern: Pattern, piece: str, corner: Array) -> Track | None:
        """The track along the shoulder through a strap's corner, by mm from the neck; a strap of given length ends
        beside the shoulder, and its track runs there."""
        for panel, curve, start in self.parts:
            paper = on_paper(pattern, panel, curve.point(curve.length / 2))
            if paper is None or paper.piece != piece:
                continue
            arc = curve.nearest(paper.panel_place(corner))[0]
            course = _course(paper, curve, start, corner - paper.place(curve.point(arc)))
            return Track(piece, start + arc, start, start + curve.length, course)
        return None


def _course(paper: OnPaper, curve: Curve, start: float, beside: Array) -> Callable[[float], Array]:
    """Along a shoulder edge, by mm from the neck, and `beside` it."""

    def place(at: float) -> Array:
        moved: Array = paper.place(curve.point(at - start)) + beside
        return moved

    return place
