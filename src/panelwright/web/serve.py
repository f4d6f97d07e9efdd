"""Serving the board until its person has had enough."""

import logging
import socket
import webbrowser
from collections.abc import Callable
from pathlib import Path
from typing import Final

import uvicorn

from panelwright.app.picture_shelf import PictureShelf, pictures_beside
from panelwright.app.workroom_start import open_workroom
from panelwright.errors import InputError
from panelwright.web.application import create_application

HOST: Final = "127.0.0.1"
# The page's own settings are kept by address, so the port is the same every day where it is free.
USUAL_PORT: Final = 8460
_LARGEST_MESSAGE: Final = 4_000_000  # bytes; a message of 1 MB letters is refused with a sentence
_LEAVING_S: Final = 2


def serve(workroom: Path, port: int | None, browser: bool, ready: Callable[[str], None]) -> None:
    """Serve a workroom on this computer until Ctrl-C.

    Args:
        port: to listen at, 0 for any that is free; the usual one, or any where that is taken, when left out.
        browser: whether to show the page.
        ready: told the page's address when it can be opened.

    Raises:
        StoreError: if the workroom cannot be opened.
        InputError: if the port is taken.
    """
    with open_workroom(workroom) as room, _listening(port) as listener:
        address = f"http://{HOST}:{listener.getsockname()[1]}"
        pictures = PictureShelf(pictures_beside(workroom))
        pictures.tidy(room)
        config = uvicorn.Config(
            create_application(room, pictures=pictures),
            access_log=False,
            log_config=None,
            ws="websockets-sansio",
            ws_max_size=_LARGEST_MESSAGE,
            ws_per_message_deflate=False,  # on this computer packing takes longer than sending
            lifespan="off",
            server_header=False,
            date_header=False,
            timeout_graceful_shutdown=_LEAVING_S,
        )
        _silence()
        ready(address)
        if browser:
            webbrowser.open(address)
        try:
            uvicorn.Server(config).run(sockets=[listener])
        except KeyboardInterrupt:  # the usual way to end it
            return


def _silence() -> None:
    """What is to be told we tell ourselves, in sentences: libraries print stacks, even of a page that has gone."""
    for name in ("uvicorn.error", "asyncio"):
        logging.getLogger(name).disabled = True


def _listening(port: int | None) -> socket.socket:
    """A socket that listens already, so that a browser which is too early waits."""
    try:
        return _bound(USUAL_PORT if port is None else port)
    except OSError as error:
        if port is None:
            return _bound(0)
        reason = error.strerror or "unknown reason"
        raise InputError(
            f"port {port} cannot be used ({reason.lower()}): choose another with --port", "port"
        ) from error


def _bound(port: int) -> socket.socket:
    listener = socket.socket()
    try:
        if hasattr(socket, "SO_EXCLUSIVEADDRUSE"):
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
        else:
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listener.bind((HOST, port))
        listener.listen()
    except BaseException:
        listener.close()
        raise
    return listener
