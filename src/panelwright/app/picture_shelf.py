"""Small pictures of garments, kept on disk beside the saved work, so that a second start shows them at once."""

import hashlib
import re
from contextlib import suppress
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Final

from panelwright.app.workroom_item import Item
from panelwright.app.workroom_start import SIZE_REFS, size_text
from panelwright.errors import OutputError
from panelwright.saved_file import save
from panelwright.store.workroom import Workroom

_PICTURE: Final = re.compile(r"([0-9a-f]{24})-([0-9a-f]{24})(?:-large)?\.svg")


def pictures_beside(workroom: Path) -> Path:
    """The folder for the pictures of a workroom's file."""
    return workroom.with_name(f"{workroom.stem}-pictures")


class PictureShelf:
    """Pictures by what they are drawn from: design, measurements or traced block, program.

    One that cannot be kept is drawn again.

    They show a wearer's shape: those of nobody and nothing that is in the workroom now are taken away.
    """

    def __init__(self, folder: Path | None = None) -> None:
        """A shelf in a folder, which is made with the first picture; without one nothing is kept."""
        self._folder = folder

    def found(self, design: Item, wearer: Item, large_names: bool = False) -> str | None:
        """The picture of a design on a wearer as both are now, SVG; None where it is not kept."""
        if self._folder is None:
            return None
        try:
            return (self._folder / _name(design, wearer, large_names)).read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError):
            return None

    def keep(self, design: Item, wearer: Item, picture: str, large_names: bool = False) -> None:
        """Put a picture there, SVG."""
        if self._folder is None:
            return
        with suppress(OSError, OutputError):  # a full or locked disk: it is drawn again next time
            self._folder.mkdir(exist_ok=True)
            save(self._folder / _name(design, wearer, large_names), picture.encode())

    def tidy(self, room: Workroom) -> None:
        """Take away every picture of a design or a wearer that the workroom does not have, or no longer so."""
        if self._folder is None or not self._folder.is_dir():
            return
        designs = {_digest(each.document or "") for each in room.items("design")}
        notes = {each.ref: each.document or "" for each in room.items("fitting")}
        worn = {each.ref: each.document or "" for each in room.items("wearer")}
        worn |= {ref: size_text(ref) or "" for ref in SIZE_REFS}
        wearers = {_digest(text + notes.get(ref, "")) for ref, text in worn.items()}
        wearers |= {_digest(each.document or "") for each in room.items("trace")}
        with suppress(OSError):
            for picture in list(self._folder.iterdir()):
                parts = _PICTURE.fullmatch(picture.name)
                if parts and not (parts[1] in designs and parts[2] in wearers):
                    with suppress(OSError):
                        picture.unlink()


def _name(design: Item, wearer: Item, large_names: bool) -> str:
    return f"{_digest(design.text)}-{_digest(wearer.text + wearer.notes)}{'-large' if large_names else ''}.svg"


def _digest(text: str) -> str:
    return hashlib.sha256(f"{_program()}\0{text}".encode()).hexdigest()[:24]


@cache
def _program() -> str:
    """Which program draws: another version, or one whose files were changed, may draw otherwise."""
    files = Path(__file__).parent.parent.rglob("*.py")
    return f"{version('panelwright')} {max(file.stat().st_mtime_ns for file in files)}"
