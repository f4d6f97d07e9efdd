"""Whether lettering has room: used wherever a drawing or a sheet is checked for overlaps."""

from collections.abc import Sequence
from itertools import combinations

import shapely

from panelwright.drawing.drawing import Drawing, Lettering, Stroke


def box(lettering: Lettering) -> shapely.Polygon:
    return shapely.Polygon(lettering.box)


def letterings(drawing: Drawing) -> list[Lettering]:
    return [sign for sign in drawing if isinstance(sign, Lettering)]


def overlaps(texts: Sequence[Lettering]) -> list[tuple[str, str]]:
    """Pairs of texts whose boxes share area. Lines of one block are set close: a tenth of a size is let pass."""
    slim = [shapely.Polygon(text.box).buffer(-0.05 * text.size) for text in texts]
    return [
        (texts[i].text, texts[k].text) for i, k in combinations(range(len(texts)), 2) if slim[i].intersects(slim[k])
    ]


def crossings(drawing: Drawing) -> list[tuple[str, str]]:
    """(text, layer of a line) where a line runs through a text's box."""
    runs = [
        (sign.layer, shapely.LineString(run))
        for sign in drawing
        if isinstance(sign, Stroke)
        for run in sign.path.polylines
    ]
    return [
        (text.text, layer) for text in letterings(drawing) for layer, run in runs if shapely.intersects(box(text), run)
    ]
