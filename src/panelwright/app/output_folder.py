"""The folder that results go into: made, and tried, before long work begins."""

import uuid
from contextlib import suppress
from pathlib import Path

from panelwright.errors import OutputError
from panelwright.quotation import quoted
from panelwright.saved_file import save


def open_folder(path: Path) -> Path:
    """The folder, made with its parents if it is not there yet.

    Raises:
        OutputError: if it cannot be made, or nothing can be written in it.
    """
    name = quoted(str(path))
    try:
        path.mkdir(parents=True, exist_ok=True)
    except FileExistsError as error:
        raise OutputError(f"{name} is a file: choose a folder to write into") from error
    except NotADirectoryError as error:
        raise OutputError(f"{name} cannot be made, because a file is in its way: choose another folder") from error
    except OSError as error:
        reason = (error.strerror or "unknown reason").lower()
        raise OutputError(f"the folder {name} cannot be made ({reason}): choose another") from error
    except ValueError as error:  # a null character in the path
        raise OutputError(f"{name} is not the name of a folder: choose another") from error
    _try_writing(path)
    return path


def _try_writing(folder: Path) -> None:
    trial = folder / f".{uuid.uuid4().hex}.trial"
    try:
        save(trial, b"")
    except OutputError as error:
        raise OutputError(f"nothing can be written in the folder {quoted(str(folder))}: {_reason(error)}") from error
    finally:
        with suppress(OSError):
            trial.unlink(missing_ok=True)


def _reason(error: OutputError) -> str:
    """The part of a sentence of `save` that says why."""
    return str(error).partition("cannot be written: ")[2] or str(error)
