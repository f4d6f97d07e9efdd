"""The built page, from the package."""

from pathlib import Path
from typing import Final

from starlette.responses import PlainTextResponse
from starlette.staticfiles import StaticFiles
from starlette.types import Receive, Scope, Send

PAGE: Final = Path(__file__).with_name("page")
NOT_BUILT: Final = (
    "The page of the board is not built: run `uv sync --reinstall-package panelwright` in the project's folder "
    "(it needs the npm registry), then load this address again."
)


class PageFiles:
    """Serves the files of the page; where it is not built, one sentence says how to build it."""

    def __init__(self, folder: Path = PAGE) -> None:
        """`folder` need not be there yet."""
        self._index = folder / "index.html"
        self._files = StaticFiles(directory=folder, html=True, check_dir=False)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """One file."""
        if self._index.is_file():
            await self._files(scope, receive, send)
        else:
            await PlainTextResponse(NOT_BUILT, 503)(scope, receive, send)
