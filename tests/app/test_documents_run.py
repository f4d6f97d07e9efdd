"""What README and user guide show is run as it stands there, so that they stay true."""

import json
import re
import shlex
from pathlib import Path

import pytest

from panelwright.app.block_record import BlockRecord, EaseRecord, SeamRecord
from panelwright.app.demo.troupe import designs, troupe
from panelwright.app.design_file import DesignRecord, WearingRecord, read_design
from panelwright.app.finish_record import FinishRecord
from panelwright.app.garment import make_garment
from panelwright.app.garment_folder import PATTERN_FILE
from panelwright.app.lay import LAY_FILE, LAY_PICTURE
from panelwright.app.paper import OVERVIEW, SIGN_OFF_FILE, PaperChoice, file_name
from panelwright.body.measurement_file import FIELDS, read_measurements
from panelwright.cli.arguments import COMMANDS
from panelwright.cli.main import main
from panelwright.design.step_file import FORMS
from panelwright.output.pattern_file import read_pattern


def fenced(page: Path, language: str) -> list[str]:
    """The blocks of one language on a page."""
    return re.findall(rf"^```{language}\n(.*?)^```$", page.read_text(encoding="utf-8"), re.MULTILINE | re.DOTALL)


@pytest.fixture
def readme(repository: Path) -> Path:
    return repository / "README.md"


@pytest.fixture
def guide(repository: Path) -> Path:
    return repository / "docs" / "user-guide.md"


def test_the_library_lines_of_the_readme(
    readme: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    (lines,) = fenced(readme, "python")
    assert len([line for line in lines.splitlines() if line.strip()]) == 10
    exec(compile(lines, "README.md", "exec"), {})
    assert "no errors" in capsys.readouterr().out
    assert read_pattern(tmp_path / "lantern-09" / PATTERN_FILE).pattern.wearer == "size-88"


def test_the_commands_of_the_readme(readme: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """All but the demo itself, which has a test of its own: here its files are laid out without it."""
    monkeypatch.chdir(tmp_path)
    for folder, texts in (
        ("wearers", {dancer.wearer.ref: dancer.text for dancer in troupe()}),
        ("designs", {cut.design.ref: cut.text for cut in designs()}),
    ):
        (tmp_path / "festival" / folder).mkdir(parents=True)
        for ref, text in texts.items():
            (tmp_path / "festival" / folder / f"{ref}.json").write_text(text)
    shown = next(block for block in fenced(readme, "sh") if "panelwright make" in block)
    commands = [shlex.split(line.removeprefix("uv run panelwright ")) for line in shown.splitlines()]
    assert [words[0] for words in commands] == ["demo", "make", "check", "paper"]
    assert [main(words) for words in commands[1:]] == [0, 0, 0]
    assert (tmp_path / "for-the-print-shop" / "large-sheet.pdf").is_file()


def test_the_files_of_the_guide_make_a_garment(guide: Path) -> None:
    measurements, design, *_ = fenced(guide, "json")
    garment = make_garment(read_measurements(measurements), read_design(design))
    assert garment.without_errors


def test_the_guide_names_every_field_file_and_command(guide: Path) -> None:
    text = guide.read_text(encoding="utf-8")
    records = (DesignRecord, BlockRecord, EaseRecord, SeamRecord, FinishRecord, WearingRecord)
    fields = {field.alias or name for record in records for name, field in record.model_fields.items()}
    named = set(re.findall(r"`([a-z_-]+)`", text)) | set(json.loads(fenced(guide, "json")[1]))
    assert fields - named == set()
    assert set(FIELDS) - named == set()
    choice = PaperChoice()
    files = [file_name(scale, choice.paper) for scale in choice.scales] + [
        OVERVIEW,
        PATTERN_FILE,
        LAY_FILE,
        LAY_PICTURE,
        SIGN_OFF_FILE,
    ]
    assert [file for file in files if f"`{file}`" not in text] == []
    assert [command for command in COMMANDS if f"panelwright {command}" not in text] == []


def test_the_page_of_steps_names_every_kind_and_field(repository: Path) -> None:
    text = (repository / "docs" / "steps.md").read_text(encoding="utf-8")
    named = set(re.findall(r"`([a-z_-]+)`", text)) | set(re.findall(r'"([a-z_-]+)":', text))
    for form in FORMS:
        assert form.makes.kind in named
        assert {field.alias or name for name, field in form.model_fields.items()} - named == set()
