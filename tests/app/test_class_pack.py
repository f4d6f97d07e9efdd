"""Class packs: one PDF for a class, with an index that is right, and no names."""

import json
import re
from pathlib import Path

import pypdfium2
import pytest

from panelwright.app.class_pack import MOST_LEARNERS, SchoolClass, write_class_pack
from panelwright.app.demo.troupe import designs, troupe
from panelwright.app.paper import PaperChoice
from panelwright.body.size_table import size
from panelwright.cli.main import main
from panelwright.errors import InputError

DESIGNS = {cut.design.ref: cut for cut in designs()}
DANCERS = [dancer.wearer for dancer in troupe()]


def pages_of(path: Path) -> list[str]:
    document = pypdfium2.PdfDocument(path)
    texts = [page.get_textpage().get_text_range() for page in document]
    document.close()
    return texts


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    """The pages of a class of two, each with their own measurements, and a spare."""
    path = tmp_path_factory.mktemp("class") / "class.pdf"
    school = SchoolClass(tuple(DANCERS[:2]), 2, 1)
    pack = write_class_pack(DESIGNS["lantern-01"].design, school, path, PaperChoice())
    pages = pages_of(path)
    assert pack.pages == len(pages)
    return pages


def test_the_index_says_where_each_pack_is(own: list[str]) -> None:
    found = re.findall(r"(learner \d|spare \d)\s+(w-\d\d)\s+(\d+)–(\d+)\s+(\d+)", own[0])
    assert [entry[:2] for entry in found] == [("learner 1", "w-01"), ("learner 2", "w-02"), ("spare 1", "w-01")]
    for name, _, first, last, count in found:
        first, last = int(first), int(last)
        assert last - first + 1 == int(count)
        for number in range(first, last + 1):
            assert f"{name} · page {number - first + 1} of {count}" in own[number - 1]
    assert int(found[-1][3]) == len(own)


def test_each_learner_draws_from_their_own_numbers(own: list[str]) -> None:
    numbers = [
        set(re.findall(r"A: from O measure .*", "\n".join(p for p in own if f"{name} · page" in p))) for name in NAMES
    ]
    assert numbers[0] != numbers[1]
    assert numbers[0] == numbers[2]


NAMES = ("learner 1", "learner 2", "spare 1")


def test_packs_of_one_size_are_alike_but_for_their_feet(tmp_path: Path) -> None:
    path = tmp_path / "class.pdf"
    pack = write_class_pack(DESIGNS["round-04"].design, SchoolClass((size(88),), 3), path, PaperChoice())
    pages = pages_of(path)
    length = pack.entries[0].pages
    packs = [pages[1 + k * length : 1 + (k + 1) * length] for k in range(3)]
    bare = [[re.sub(r"learner \d", "learner", page) for page in each] for each in packs]
    assert bare[0] == bare[1] == bare[2]
    assert packs[0] != packs[1]


def test_a_pack_has_every_kind_of_page(own: list[str]) -> None:
    mine = "\n".join(page for page in own if "learner 1 · page" in page)
    for words in (
        "block templates",
        "hand sheet",
        "blank cloth",
        "Key of marks",
        "Now go round CF",
        "fold",
        "selvages",
    ):
        assert words in mine


def test_a_class_that_cannot_be_is_refused() -> None:
    with pytest.raises(InputError, match="1 to 60 learners, not 0"):
        SchoolClass((size(88),), 0)
    with pytest.raises(InputError, match=f"1 to {MOST_LEARNERS} learners, not 61"):
        SchoolClass((size(88),), MOST_LEARNERS + 1)
    with pytest.raises(InputError, match="0 to 20 spare packs, not 21"):
        SchoolClass((size(88),), 1, 21)
    with pytest.raises(InputError, match="2 measurements files are given for 5 learners"):
        SchoolClass(tuple(DANCERS[:2]), 5)


def test_the_command_prints_for_one_and_for_a_class(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("d.json").write_text(DESIGNS["round-04"].text, encoding="utf-8")
    assert main(["hand", "d.json", "--size", "88", "--json"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["files"] == ["round-04-size-88-by-hand.pdf"]
    assert told["pages"] == len(pages_of(Path("round-04-size-88-by-hand.pdf")))
    words = ["hand", "d.json", "--size", "88", "--learners", "2", "--spares", "1", "--out", "c.pdf", "--json"]
    assert main([*words, "--paper", "letter", "--units", "inches"]) == 0
    told = json.loads(capsys.readouterr().out)
    assert (told["learners"], told["spares"], told["pages"]) == (2, 1, len(pages_of(Path("c.pdf"))))


def test_notes_change_the_sheets_of_their_wearer_and_nobody_elses(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The templates to draw round are of the fitted block: 1 cm longer above the waist is 2.5 mm at quarter scale."""
    monkeypatch.chdir(tmp_path)
    Path("d.json").write_text(DESIGNS["lantern-01"].text, encoding="utf-8")
    for dancer in troupe():
        Path(f"{dancer.wearer.ref}.json").write_text(dancer.text, encoding="utf-8")
    note = {"kind": "lengthen", "place": "above-waist", "amount_cm": 1}
    notes = {"format": "panelwright-fitting/1", "wearer": "w-02", "notes": [note]}
    Path("f.json").write_text(json.dumps(notes), encoding="utf-8")
    sheets = {}
    for name, further in (("plain", []), ("fitted", ["--fitting", "f.json"])):
        assert main(["hand", "w-01.json", "w-02.json", "d.json", "--out", f"{name}.pdf", *further]) == 0
        pages = pages_of(Path(f"{name}.pdf"))
        sheets[name] = ["\n".join(page for page in pages if f"{own} · page" in page) for own in NAMES[:2]]
    assert sheets["plain"][0] == sheets["fitted"][0]
    assert sheets["plain"][1] != sheets["fitted"][1]
    assert main(["hand", "w-02.json", "d.json", "--out", "one.pdf", "--fitting", "f.json"]) == 0
    assert main(["hand", "w-02.json", "d.json", "--out", "one-plain.pdf"]) == 0
    assert pages_of(Path("one.pdf")) != pages_of(Path("one-plain.pdf"))
    capsys.readouterr()
    assert main(["hand", "w-01.json", "d.json", "--fitting", "f.json"]) == 2
    assert "only for w-01" in capsys.readouterr().err


def test_several_processes_write_the_same_file(tmp_path: Path) -> None:
    school = SchoolClass((*DANCERS[:3], DANCERS[0], DANCERS[3]), 5)
    design = DESIGNS["lantern-01"].design
    packs = [
        write_class_pack(design, school, tmp_path / f"{processes}.pdf", PaperChoice(), processes=processes)
        for processes in (1, 2)
    ]
    assert packs[0] == packs[1]
    about = [finding.message.partition(": ")[0].split(", ") for finding in packs[0].findings]
    assert about  # whom it is about is told
    assert all(set(refs) <= {dancer.ref for dancer in DANCERS[:4]} for refs in about)
    assert (tmp_path / "1.pdf").read_bytes() == (tmp_path / "2.pdf").read_bytes()
