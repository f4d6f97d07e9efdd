"""A DXF file as strokes, texts and points: blocks unfolded where they are inserted."""

import math
from collections import Counter
from collections.abc import Iterator
from typing import Final

import numpy as np

from panelwright.errors import InputError
from panelwright.intake.drawing_affine import Affine
from panelwright.intake.drawing_limits import Allotment
from panelwright.intake.drawing_stroke import Dot, GroupName, LinesRead, Stroke, Written, without_length
from panelwright.intake.dxf_document import Block, Document, read_document
from panelwright.intake.dxf_entity import entity_runs, entity_text, is_turned_over, text_place
from panelwright.intake.dxf_tags import Entity
from panelwright.quotation import quoted

DEEPEST: Final = 8
MOST_INSERTS: Final = 5_000
_PART_OF_ANOTHER: Final = ("VERTEX", "SEQEND", "ATTRIB", "ENDSEC", "ENDBLK")
# $INSUNITS -> (mm to one, what it is called).
UNITS: Final = {
    1: (25.4, "inches"),
    2: (304.8, "feet"),
    4: (1.0, "millimetres"),
    5: (10.0, "centimetres"),
    6: (1000.0, "metres"),
    8: (25.4e-6, "microinches"),
    9: (0.0254, "thousandths of an inch"),
    10: (914.4, "yards"),
    13: (0.001, "micrometres"),
    14: (100.0, "decimetres"),
}
_OVER: Final = Affine.scaling(-1.0, 1.0)


def read_dxf(content: bytes) -> LinesRead:
    """What a DXF file in ASCII draws in its model space.

    Raises:
        InputError: if it is malformed, holds too much, or a block holds itself.
    """
    document = read_document(content)
    unfolded = _Unfolded(document)
    unfolded.take(document.entities, Affine(), "", ())
    unit, why = _unit(document)
    measures = document.header.get("$MEASUREMENT", "").strip()
    return LinesRead(
        "DXF",
        tuple(unfolded.strokes),
        tuple(unfolded.texts),
        tuple(unfolded.dots),
        unfolded.groups,
        unit,
        why,
        {"0": False, "1": True}.get(measures),
        unfolded.left_out,
    )


def _unit(document: Document) -> tuple[float | None, str]:
    stated = document.header.get("$INSUNITS", "").strip()
    known = UNITS.get(int(stated)) if stated.isascii() and stated.isdigit() and len(stated) < 4 else None
    if known is None:
        return None, "the file does not say its unit"
    return known[0], f"the file says that it is drawn in {known[1]}"


class _Unfolded:
    """What is drawn, block after block."""

    def __init__(self, document: Document) -> None:
        self._blocks = document.blocks
        self._allotment = Allotment()
        self._inserts = 0
        self.strokes: list[Stroke] = []
        self.texts: list[Written] = []
        self.dots: list[Dot] = []
        self.groups: dict[str, GroupName] = {}
        self.left_out: Counter[str] = Counter()

    def take(self, entities: tuple[Entity, ...], placed: Affine, group: str, inside: tuple[str, ...]) -> None:
        """Take in entities that lie in the blocks `inside`, placed in the model space."""
        for entity, vertices in _with_vertices(entities):
            self._allotment.visit()
            if entity.kind in _PART_OF_ANOTHER:
                continue
            where = placed.after(_OVER) if is_turned_over(entity) else placed
            match entity.kind:
                case "INSERT":
                    self._insert(entity, where, group, inside)
                case "TEXT" | "MTEXT":
                    self._text(entity, placed, group)
                case "POINT":
                    x, y = placed.points(np.array([entity.number(10), entity.number(20)])).tolist()
                    self._allotment.stroke(1)
                    self.dots.append(Dot((x, y), (entity.layer,), group))
                case _:
                    self._stroke(entity, vertices, where if _in_own_plane(entity) else placed, group)

    def _stroke(self, entity: Entity, vertices: list[Entity], placed: Affine, group: str) -> None:
        runs = entity_runs(entity, vertices)
        if runs is None:
            self.left_out[entity.kind[:30]] += 1
            return
        self._allotment.stroke(sum(len(run) for run in runs))
        if not without_length(runs):
            self.strokes.append(Stroke(runs, (entity.layer,), group).mapped(placed))

    def _text(self, entity: Entity, placed: Affine, group: str) -> None:
        self._allotment.text()
        text = entity_text(entity)
        if text:
            x, y = placed.points(np.array(text_place(entity))).tolist()
            self.texts.append(Written(text, (x, y), (entity.layer,), group))

    def _insert(self, entity: Entity, placed: Affine, group: str, inside: tuple[str, ...]) -> None:
        name = entity.text(2).upper()
        block = self._blocks.get(name)
        if block is None:
            self.left_out["INSERT of a block that is not there"] += 1
            return
        if name in inside or len(inside) >= DEEPEST:
            fault = "holds itself" if name in inside else f"lies more than {DEEPEST} deep in other blocks"
            raise InputError(
                f"the block {quoted(block.name)} {fault}: save the drawing again, with its blocks dissolved"
            )
        for place in _places(entity, block):
            self._inserts += 1
            if self._inserts > MOST_INSERTS:
                raise InputError(f"the drawing inserts more than {MOST_INSERTS:,} blocks: save the pieces alone")
            own = f"{group}/{self._inserts}" if group else str(self._inserts)
            self.groups[own] = GroupName(short="" if block.name.startswith("*") else block.name[:80])
            self.take(block.entities, placed.after(place), own, (*inside, name))


def _in_own_plane(entity: Entity) -> bool:
    """Whether its coordinates are those of its own plane, not of the drawing."""
    return entity.kind in ("LWPOLYLINE", "POLYLINE", "ARC", "CIRCLE")


def _places(entity: Entity, block: Block) -> Iterator[Affine]:
    """Where an INSERT lays its block: once, or in rows and columns."""
    columns, rows = max(entity.whole(70, 1), 1), max(entity.whole(71, 1), 1)
    if columns * rows > MOST_INSERTS:
        raise InputError(f"the drawing inserts more than {MOST_INSERTS:,} blocks: save the pieces alone")
    sideways, upwards = entity.number(44, 0.0), entity.number(45, 0.0)
    turned = Affine.turning(math.radians(math.fmod(entity.number(50, 0.0), 360.0)))
    sized = Affine.scaling(entity.number(41, 1.0), entity.number(42, 1.0))
    base = Affine.shifting(-block.base[0], -block.base[1])
    at = Affine.shifting(entity.number(10, 0.0), entity.number(20, 0.0))
    for row in range(rows):
        for column in range(columns):
            step = Affine.shifting(column * sideways, row * upwards)
            yield at.after(turned).after(step).after(sized).after(base)


def _with_vertices(entities: tuple[Entity, ...]) -> Iterator[tuple[Entity, list[Entity]]]:
    """Each entity with the vertices that stand behind it; vertices alone come as well."""
    k = 0
    while k < len(entities):
        entity, vertices = entities[k], list[Entity]()
        k += 1
        if entity.kind == "POLYLINE":
            while k < len(entities) and entities[k].kind == "VERTEX":
                vertices.append(entities[k])
                k += 1
        yield entity, vertices
