"""Everything that a page may name: measurements, levels, lines, steps, parts of a garment, sizes, with their words."""

from typing import Final

from panelwright.app.garment_words import garment_vocabulary
from panelwright.app.measurement_words import measurement_vocabulary
from panelwright.app.step_words import step_vocabulary
from panelwright.body.size_table import SIZES
from panelwright.pattern import line
from panelwright.pattern.level import LEVELS

# Lines of the block by which steps place what they make.
LINES: Final = (line.CENTRE_FRONT, line.FRONT_PRINCESS, line.SIDE, line.BACK_PRINCESS, line.CENTRE_BACK)


def vocabulary() -> dict[str, object]:
    """The `GET /api/vocabulary` answer of docs/board.md."""
    return {
        "measurements": measurement_vocabulary(),
        "levels": [_named(level) for level in LEVELS],
        "lines": [_named(name) for name in LINES],
        "steps": step_vocabulary(),
        "garment": garment_vocabulary(),
        "sizes": [{"ref": f"size-{bust}", "bust_cm": bust} for bust in SIZES],
    }


def _named(id: str) -> dict[str, str]:
    return {"id": id, "label": id.replace("-", " ")}
