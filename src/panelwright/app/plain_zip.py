"""Reading a ZIP that anybody may have made: no more of it than saved work can be, and nothing is written to disk."""

import io
import stat
import zipfile
import zlib
from collections.abc import Iterator
from typing import Final

from panelwright.errors import InputError
from panelwright.quotation import quoted

MOST_ZIP: Final = 5_000_000  # bytes
MOST_FILES: Final = 500
MOST_FILE: Final = 1_000_000  # bytes of one file, unpacked
MOST_IN_ALL: Final = 20_000_000  # bytes of all files, unpacked
LONGEST_NAME: Final = 200
_ENTRY: Final = b"PK\x01\x02"  # begins every entry of a ZIP's list (PKWARE APPNOTE 4.3.12)
_ENCRYPTED: Final = 0x1
_PLAIN: Final = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)


def is_zip(content: bytes) -> bool:
    """Whether it begins as a ZIP does."""
    return content[:4] in (b"PK\x03\x04", b"PK\x05\x06")


def files_in(content: bytes) -> dict[str, bytes]:
    """Name -> content of every file of a ZIP, folders left out; sizes are counted as it is unpacked, not believed.

    Raises:
        InputError: if it is no whole ZIP; larger than `MOST_ZIP`, or unpacked than `MOST_IN_ALL`; if it holds more
            than `MOST_FILES` entries, a file larger than `MOST_FILE`, the same name twice, or a name that leads out of
            its folder; or a file that is locked by a password, packed in an unusual way, or a link.
    """
    if len(content) > MOST_ZIP:
        raise InputError(f"the ZIP is larger than {MOST_ZIP / 1e6:g} MB: send fewer files at a time", "file")
    if content.count(_ENTRY) > MOST_FILES:
        raise InputError(f"the ZIP holds more than {MOST_FILES} files: send fewer at a time", "file")
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            return dict(_unpacked(archive))
    except InputError:
        raise
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, NotImplementedError, RuntimeError) as error:
        raise InputError("the ZIP is damaged: make or download it once more", "file") from error


def _unpacked(archive: zipfile.ZipFile) -> Iterator[tuple[str, bytes]]:
    room, seen = MOST_IN_ALL, set[str]()
    for entry in archive.infolist():
        name = entry.orig_filename
        _refuse_name(name)
        if name.lower() in seen:
            raise InputError(f"{quoted(name)} is twice in the ZIP: keep one", quoted(name))
        seen.add(name.lower())
        if name.endswith("/"):
            continue
        _refuse_unusual(entry)
        with archive.open(entry) as file:
            content = file.read(min(MOST_FILE, room) + 1)
        if len(content) > MOST_FILE:
            raise InputError(f"{quoted(name)} is larger than {MOST_FILE / 1e6:g} MB unpacked", quoted(name))
        if len(content) > room:
            raise InputError(f"the ZIP is larger than {MOST_IN_ALL / 1e6:g} MB unpacked: send fewer files", "file")
        room -= len(content)
        yield name, content


def _refuse_name(name: str) -> None:
    parts = name.removesuffix("/").split("/")
    if len(name) > LONGEST_NAME or any(part in ("", ".", "..") for part in parts) or "\\" in name or ":" in name:
        raise InputError(
            f"the ZIP holds {quoted(name)}, which is no name of a file in a folder: send one as the export makes it",
            "file",
        )
    if not name.isprintable():
        raise InputError("the ZIP holds a file whose name cannot be read: give it plain letters", "file")


def _refuse_unusual(entry: zipfile.ZipInfo) -> None:
    name = quoted(entry.orig_filename)
    if entry.flag_bits & _ENCRYPTED:
        raise InputError(f"{name} is locked by a password: make the ZIP without one", name)
    if entry.compress_type not in _PLAIN:
        raise InputError(f"{name} is packed in an unusual way: make a plain ZIP", name)
    mode = entry.external_attr >> 16
    if mode and stat.S_IFMT(mode) not in (0, stat.S_IFREG):
        raise InputError(f"{name} is a link or no file at all: send the file itself", name)
