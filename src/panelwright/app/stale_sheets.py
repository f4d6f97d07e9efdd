"""Sheets of an earlier run that stayed in a folder, and would be cut by mistake."""

from collections.abc import Iterable
from pathlib import Path

from panelwright.app.lay import LAY_FILE, LAY_PICTURE
from panelwright.app.paper import SCALES, SIGN_OFF_FILE, file_name
from panelwright.drawing.paper import PAPERS
from panelwright.errors import OutputError
from panelwright.quotation import quoted


def content(file: Path) -> bytes | None:
    """What a pattern file held before it is written again, or None: sheets of the very same pattern may stay."""
    try:
        return file.read_bytes()
    except OSError:
        return None


def stale_sheets(folder: Path, written: Iterable[Path]) -> tuple[Path, ...]:
    """Sheets in a folder that bear a name of ours and are not among those just written, in the order of names."""
    fresh = {path.name for path in written}
    sheets = (file_name(scale, paper) for scale in SCALES for paper in PAPERS.values())
    ours = {SIGN_OFF_FILE, LAY_FILE, LAY_PICTURE, *sheets}
    return tuple(folder / name for name in sorted(ours - fresh) if (folder / name).is_file())


def remove_stale_sheets(folder: Path, written: Iterable[Path]) -> tuple[Path, ...]:
    """Remove the sheets that do not belong to the pattern just written; nothing else is touched.

    Args:
        folder: where a whole garment or block was just written.
        written: its files.

    Returns:
        What was removed.

    Raises:
        OutputError: if one cannot be removed.
    """
    removed = stale_sheets(folder, written)
    for path in removed:
        try:
            path.unlink(missing_ok=True)
        except OSError as error:
            reason = (error.strerror or "unknown reason").lower()
            raise OutputError(
                f"{quoted(path.name)} belongs to an older pattern and cannot be removed ({reason}): remove it yourself"
            ) from error
    return removed
