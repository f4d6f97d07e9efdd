"""Saving a file whole: it is there complete or not at all, and what stood there before stays until then."""

import errno
import os
import uuid
from contextlib import suppress
from pathlib import Path

from panelwright.errors import OutputError
from panelwright.quotation import quoted

_REASONS = {
    errno.ENOSPC: "there is no space left: make room or choose another disk",
    errno.EDQUOT: "your share of the disk is used up: make room or choose another disk",
    errno.EACCES: "you have no right to write there: choose another folder",
    errno.EPERM: "you have no right to write there: choose another folder",
    errno.EROFS: "the disk can only be read: choose another folder",
    errno.ENOENT: "its folder is not there: make the folder first",
    errno.ENOTDIR: "its folder is a file: choose another folder",
    errno.EISDIR: "a folder of that name is in the way: choose another name",
    errno.ENAMETOOLONG: "the name is too long: choose a shorter one",
}


def save(path: Path, content: bytes) -> None:
    """Write `content` to `path` by way of a new file beside it that takes its place when complete.

    Raises:
        OutputError: if it cannot be written; nothing is left behind and an old file stays as it was.
    """
    beside = path.with_name(f".{uuid.uuid4().hex}.part")
    try:
        if path.is_dir():
            raise IsADirectoryError(errno.EISDIR, "is a folder")
        try:
            with beside.open("xb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            beside.replace(path)
        except OSError:
            with suppress(OSError):
                beside.unlink(missing_ok=True)
            raise
    except OSError as error:
        reason = _REASONS.get(error.errno or 0) or f"{error.strerror or 'unknown reason'}: choose another place"
        raise OutputError(f"{quoted(path.name)} cannot be written: {reason}") from error
    except ValueError as error:  # a null character in the path
        raise OutputError(f"{quoted(path.name)} is not the name of a file: choose another") from error
