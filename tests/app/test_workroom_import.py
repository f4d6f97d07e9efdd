"""What goes out as plain files comes back the same; what cannot be used changes nothing."""

import io
import json
import zipfile
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import pytest

from panelwright.app.plain_zip import files_in
from panelwright.app.workroom_export import export_zip
from panelwright.app.workroom_faults import ChangedElsewhereError, NotThereError
from panelwright.app.workroom_history import earlier_item, history_facts
from panelwright.app.workroom_import import bring_in
from panelwright.app.workroom_item import found_item, removed_item, saved_item, undone_item
from panelwright.app.workroom_start import open_workroom, size_text
from panelwright.errors import InputError
from panelwright.store.change import Change
from panelwright.store.version import Version
from panelwright.store.workroom import Workroom

DESIGN: dict[str, Any] = {
    "format": "panelwright-design/1",
    "ref": "lantern-09",
    "title": "Lantern bodice",
    "steps": [
        {"kind": "closure", "uid": "back", "place": "centre-back", "type": "zip", "off": True, "note": "für später"}
    ],
}


def wearer(ref: str, waist: float = 70) -> dict[str, Any]:
    document = json.loads(size_text("size-88") or "")
    return {**document, "ref": ref, "measurements": {**document["measurements"], "waist_girth": waist}}


@pytest.fixture
def room(tmp_path: Path) -> Iterator[Workroom]:
    with open_workroom(tmp_path / "one.sqlite") as opened:
        yield opened


@pytest.fixture
def other(tmp_path: Path) -> Iterator[Workroom]:
    with Workroom(tmp_path / "other.sqlite") as opened:
        yield opened


def state(room: Workroom) -> dict[str, object]:
    return {
        f"{kind}/{item.ref}": json.loads(item.document or "null")
        for kind in ("wearer", "design")
        for item in room.items(kind)  # type: ignore[arg-type]
    }


def zipped(**documents: object) -> bytes:
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w") as archive:
        for name, document in documents.items():
            text = document if isinstance(document, str) else json.dumps(document)
            archive.writestr(f"some/{name}.json", text)
    return written.getvalue()


def test_everything_goes_out_and_comes_back_the_same(room: Workroom, other: Workroom) -> None:
    saved_item(room, "design", "lantern-09", DESIGN, "made")
    imported = bring_in(other, export_zip(room))
    mine = state(room)
    del mine["wearer/size-88"]
    assert state(other) == mine
    assert len(imported.saved) == len(mine)
    assert (imported.replaced, imported.unchanged) == (0, 0)
    assert {"design/lantern-09", "design/moon-05", "wearer/w-04"} <= mine.keys()


def test_what_is_there_already_makes_no_version(room: Workroom) -> None:
    before = [item.number for item in room.items("design")]
    imported = bring_in(room, export_zip(room))
    assert imported.saved == ()
    assert imported.unchanged == len(files_in(export_zip(room))) - 1
    assert [item.number for item in room.items("design")] == before


def test_the_same_work_gives_the_same_bytes(room: Workroom) -> None:
    assert export_zip(room) == export_zip(room)


def test_the_files_are_plain_and_say_what_they_are(room: Workroom) -> None:
    saved_item(room, "design", "lantern-09", DESIGN, "made")
    files = files_in(export_zip(room))
    assert "für später" in files["designs/lantern-09.json"].decode()
    words = files["README.txt"].decode()
    assert "Body measurements are private" in words
    assert "have got a number instead" in words
    assert "have got a number instead" not in files_in(export_zip(room, names=True))["README.txt"].decode()
    assert max(map(len, words.splitlines())) <= 100


def test_references_that_may_tell_a_name_go_out_only_when_asked(room: Workroom) -> None:
    saved_item(room, "wearer", "anna-1", wearer("anna-1"), "made")
    without, with_names = export_zip(room), export_zip(room, names=True)
    assert "wearers/anna-1.json" in files_in(with_names)
    assert "wearers/w-05.json" in files_in(without)
    assert json.loads(files_in(without)["wearers/w-05.json"]) == wearer("w-05")
    assert not any(b"anna" in content for content in (without, *files_in(without).values()))


def test_a_removed_item_does_not_go_out_and_can_be_brought_back(room: Workroom) -> None:
    sent = export_zip(room)
    removed_item(room, "design", "moon-05")
    assert "designs/moon-05.json" not in files_in(export_zip(room))
    assert bring_in(room, sent).saved == (("design", "moon-05"),)
    assert found_item(room, "design", "moon-05").document["ref"] == "moon-05"


def test_a_design_that_replaces_another_can_be_undone(room: Workroom) -> None:
    saved_item(room, "design", "lantern-09", DESIGN, "made")
    newer = {**DESIGN, "title": "Lantern bodice, lower"}
    imported = bring_in(room, json.dumps(newer).encode())
    told = {
        "wearers": [],
        "designs": ["lantern-09"],
        "traces": [],
        "fittings": [],
        "lays": [],
        "groups": [],
        "replaced": 1,
        "unchanged": 0,
        "renamed": [],
    }
    assert imported.facts() == told
    assert found_item(room, "design", "lantern-09").document == newer
    assert undone_item(room, "design", "lantern-09").document == DESIGN


def test_somebody_else_of_the_same_reference_comes_in_under_a_free_one(room: Workroom, other: Workroom) -> None:
    saved_item(room, "wearer", "anna-1", wearer("anna-1", 81), "made")
    sent = export_zip(room)  # anna-1 goes out as w-05
    saved_item(other, "wearer", "w-05", wearer("w-05", 66), "made")
    saved_item(other, "wearer", "w-07", wearer("w-07", 68), "made")
    imported = bring_in(other, sent)
    assert imported.renamed == (("w-05", "w-06"),)
    assert imported.facts()["renamed"] == [{"ref": "w-05", "now": "w-06"}]
    assert (imported.replaced, imported.unchanged) == (0, 0)
    assert found_item(other, "wearer", "w-05").document == wearer("w-05", 66)
    assert found_item(other, "wearer", "w-06").document == wearer("w-06", 81)
    before = state(other)
    again = bring_in(other, sent)
    assert (again.saved, again.renamed) == ((), ())
    assert state(other) == before


def notes(ref: str, amount: float) -> dict[str, Any]:
    note = {"uid": "n1", "kind": "take-in", "seam": "back-princess", "level": "waist", "amount_cm": amount}
    return {"format": "panelwright-fitting/1", "wearer": ref, "notes": [note]}


def test_notes_brought_in_twice_stay_with_their_wearer(room: Workroom) -> None:
    """Also of two people with the same figures, of whom one has her reference here."""
    saved_item(room, "fitting", "w-01", notes("w-01", 0.3), "her own")
    saved_item(room, "wearer", "w-09", wearer("w-09", 81), "made")
    people = {"a": wearer("w-01", 81), "b": wearer("w-09", 81), "c": notes("w-01", 1.1), "d": notes("w-09", 0.5)}
    first = bring_in(room, zipped(**people))
    ((_, now),) = first.renamed
    before = {ref: found_item(room, "fitting", ref).document for ref in ("w-01", "w-09", now)}
    assert before == {"w-01": notes("w-01", 0.3), "w-09": notes("w-09", 0.5), now: notes(now, 1.1)}
    again = bring_in(room, zipped(**people))
    assert (again.saved, again.replaced, again.unchanged) == ((), 0, 4)
    assert {ref: found_item(room, "fitting", ref).document for ref in before} == before


def test_what_was_fitted_on_a_size_goes_out_and_comes_back(room: Workroom, other: Workroom) -> None:
    saved_item(room, "fitting", "size-88", notes("size-88", 1.1), "on the stand")
    sent = export_zip(room)
    assert "wearers/size-88.json" not in files_in(sent)
    bring_in(other, sent)
    assert found_item(other, "fitting", "size-88").document == notes("size-88", 1.1)


def test_nobody_inherits_the_notes_of_somebody_who_is_gone(room: Workroom) -> None:
    saved_item(room, "wearer", "w-21", wearer("w-21", 81), "made")
    removed_item(room, "wearer", "w-21")
    with pytest.raises(NotThereError, match='no wearer "w-21"'):
        saved_item(room, "fitting", "w-21", notes("w-21", 1.1), "late")
    with pytest.raises(InputError, match='of "w-21", whom the workroom does not have'):
        bring_in(room, zipped(a=notes("w-21", 1.1), b=wearer("w-22")))
    assert room.found("fitting", "w-21") is None
    assert room.found("wearer", "w-22") is None
    saved_item(room, "fitting", "size-88", notes("size-88", 1.1), "on the stand")
    assert bring_in(room, zipped(a=notes("size-92", 1.1), b=wearer("w-21"), c=notes("w-21", 0.5))).replaced == 0


def test_a_free_reference_is_one_that_nobody_ever_had_nor_comes_in(room: Workroom) -> None:
    room.save("wearer", "w-05", json.dumps(wearer("w-05", 60)), "made")
    room.save("wearer", "w-05", None, "removed")
    imported = bring_in(room, zipped(a=wearer("w-01", 90), b=wearer("w-06", 91), c=wearer("w-02", 92)))
    assert imported.renamed == (("w-01", "w-07"), ("w-02", "w-08"))
    assert [ref for _, ref in imported.saved] == ["w-07", "w-06", "w-08"]


def test_what_another_page_changes_meanwhile_is_kept_and_nothing_is_brought_in(
    room: Workroom, monkeypatch: pytest.MonkeyPatch
) -> None:
    saved_item(room, "design", "lantern-09", DESIGN, "made")
    save_all = room.save_all

    def late(changes: Sequence[Change]) -> tuple[Version, ...]:
        monkeypatch.undo()
        saved_item(room, "design", "lantern-09", {**DESIGN, "title": "Theirs"}, "title")
        return save_all(changes)

    monkeypatch.setattr(room, "save_all", late)
    with pytest.raises(ChangedElsewhereError, match="nothing was brought in: try again"):
        bring_in(room, zipped(a=wearer("w-09"), b={**DESIGN, "title": "Mine"}))
    assert found_item(room, "design", "lantern-09").document["title"] == "Theirs"
    with pytest.raises(NotThereError):
        found_item(room, "wearer", "w-09")


def test_one_document_may_come_by_itself(room: Workroom) -> None:
    marked = b"\xef\xbb\xbf" + json.dumps(wearer("w-09")).encode()
    assert bring_in(room, marked).facts() == {
        "wearers": ["w-09"],
        "designs": [],
        "traces": [],
        "fittings": [],
        "lays": [],
        "groups": [],
        "replaced": 0,
        "unchanged": 0,
        "renamed": [],
    }


def test_what_computers_put_beside_files_is_passed_over(room: Workroom) -> None:
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w") as archive:
        archive.writestr("work/designs/.DS_Store", b"\0\1")
        archive.writestr("__MACOSX/work/designs/._lantern-09.json", b"\0\5")
        archive.writestr("work/README.txt", b"words")
        archive.writestr("work/designs/lantern-09.json", json.dumps(DESIGN))
    assert bring_in(room, written.getvalue()).saved == (("design", "lantern-09"),)


LAYS = {"format": "panelwright-lays/1", "design": "lantern-09", "wearer": "w-09"}
GOOD = {"a": DESIGN, "b": wearer("w-09")}


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (zipped(**GOOD, c={**DESIGN, "ref": "moon-09", "steps": 3}), '"some/c.json": steps must be a list'),
        (zipped(**GOOD, c="{"), '"some/c.json": the file breaks off in line 1'),
        (zipped(**GOOD, c=[1]), '"some/c.json": the file must hold named values'),
        (zipped(**GOOD, c=DESIGN), 'design "lantern-09" is in two files'),
        (
            zipped(**GOOD, c={**DESIGN, "format": "other/1"}),
            'format must be "panelwright-measurements/1", "panelwright-design/1", "panelwright-trace/1", '
            '"panelwright-fitting/1", "panelwright-lays/1" or "panelwright-workroom-group/1"',
        ),
        (zipped(**GOOD, c={**DESIGN, "ref": 3}), '"some/c.json": ref must be a reference in quotes'),
        (zipped(**GOOD, c={**DESIGN, "ref": "../moon"}), '"some/c.json": ref "../moon" cannot be used'),
        (zipped(**GOOD, c=wearer("anna")), "is not a neutral reference"),
        (zipped(**GOOD, c=wearer("size-88", 71)), "size-88 is a size of the table, which stays as it is"),
        (zipped(), "there is no design and no wearer in the file"),
        (b"\x89PNG\r\n\x1a\n", "the file is no ZIP and no text"),
        (b"", "the file is"),
    ],
)
def test_if_any_file_cannot_be_used_none_is_saved(room: Workroom, content: bytes, sentence: str) -> None:
    before = state(room)
    with pytest.raises(InputError) as caught:
        bring_in(room, content)
    assert sentence in str(caught.value)
    assert state(room) == before


def test_lays_that_are_in_two_files_are_told_no_remedy_that_they_have_not(room: Workroom) -> None:
    with pytest.raises(InputError, match=r'lay "lantern-09/w-09" is in two files: keep one$'):
        bring_in(room, zipped(**GOOD, c=LAYS, d=LAYS))


def test_other_files_are_named_and_refused(room: Workroom) -> None:
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w") as archive:
        archive.writestr("designs/lantern-09.json", json.dumps(DESIGN))
        archive.writestr("designs/run-me.exe", b"MZ")
    with pytest.raises(InputError, match="which is no design and no wearer: take it out"):
        bring_in(room, written.getvalue())


def test_a_size_that_is_as_the_table_has_it_is_no_fault(room: Workroom) -> None:
    assert bring_in(room, (size_text("size-92") or "").encode()).unchanged == 1


def test_every_version_is_told_with_its_words(room: Workroom) -> None:
    first = saved_item(room, "design", "lantern-09", DESIGN, "made").version
    second = saved_item(room, "design", "lantern-09", {**DESIGN, "title": "Lower"}, "title changed").version
    undone_item(room, "design", "lantern-09")
    told = history_facts(room, "design", "lantern-09")["versions"]
    assert isinstance(told, list)
    kept = [(each["version"], each["what"], each["current"], each["removed"]) for each in told]
    assert kept == [(second, "title changed", False, False), (first, "made", True, False)]
    assert all(each["made_at"].endswith("+00:00") for each in told)


def test_a_version_can_be_looked_at_again(room: Workroom) -> None:
    first = saved_item(room, "design", "lantern-09", DESIGN, "made").version
    saved_item(room, "design", "lantern-09", {**DESIGN, "title": "Lower"}, "title changed")
    assert earlier_item(room, "design", "lantern-09", first).document == DESIGN


def test_versions_of_others_and_removals_are_not_there(room: Workroom) -> None:
    saved_item(room, "design", "lantern-09", DESIGN, "made")
    moon = found_item(room, "design", "moon-05").version
    for number in (moon, 0, -1, 10**9):
        with pytest.raises(NotThereError, match=f"has no version {number}"):
            earlier_item(room, "design", "lantern-09", number)
    removed_item(room, "design", "lantern-09")
    with pytest.raises(NotThereError):
        history_facts(room, "design", "lantern-09")
