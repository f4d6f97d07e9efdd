"""Everything out as files and in again, by choosing and by dropping."""

import base64
import io
import json
import zipfile
from pathlib import Path

from browser.conftest import Open
from browser.served_workroom import ServedWorkroom
from playwright.sync_api import expect

DROP = """async ([name, content]) => {
  const bytes = Uint8Array.from(atob(content), letter => letter.charCodeAt(0));
  const data = new DataTransfer();
  data.items.add(new File([bytes], name));
  for (const kind of ["dragenter", "dragover", "drop"]) {
    const event = new DragEvent(kind, { bubbles: true, cancelable: true, dataTransfer: data });
    document.querySelector("main").dispatchEvent(event);
    if (kind === "dragover") await new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)));
    const told = document.body.innerText.includes("Let go to bring the files in");
    if (kind !== "drop") window.seen = [told, event.defaultPrevented];
  }
}"""


def zipped(name: str, content: bytes) -> bytes:
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(name, content)
    return written.getvalue()


def test_what_was_saved_as_files_is_brought_back(own_workroom: ServedWorkroom, open_page: Open, tmp_path: Path) -> None:
    title = own_workroom.copy_design("lantern-01", "kept-copy")
    kept = own_workroom.ask("/api/designs/kept-copy")["document"]
    hand = open_page(own_workroom)
    with hand.page.expect_download() as download:
        hand.page.get_by_role("link", name="Save everything as files").click()
    assert download.value.suggested_filename.startswith("panelwright-")
    file = tmp_path / download.value.suggested_filename
    download.value.save_as(file)
    with zipfile.ZipFile(file) as archive:
        assert json.loads(archive.read("designs/kept-copy.json")) == kept
    hand.watch.forgive("designs/kept-copy/picture.svg")  # it may still be in the making when its design goes
    own_workroom.ask("/api/designs/kept-copy", "DELETE")
    hand.page.reload()
    expect(hand.button("New design")).to_be_visible()
    expect(hand.button(f"Open {title}")).to_have_count(0)
    hand.page.locator("input[type=file]").set_input_files(file)
    hand.see("Brought in: 1 design and 0 wearers.")
    hand.see("were here already.")
    expect(hand.button(f"Open {title}")).to_be_visible()
    assert own_workroom.ask("/api/designs/kept-copy")["document"] == kept


def test_files_are_dropped_on_the_page(own_workroom: ServedWorkroom, open_page: Open) -> None:
    document = {
        **own_workroom.ask("/api/designs/lantern-01")["document"],
        "ref": "dropped-01",
        "title": "Dropped lantern",
    }
    hand = open_page(own_workroom)
    expect(hand.button("New design")).to_be_visible()
    hand.page.evaluate(DROP, ["dropped.json", base64.b64encode(json.dumps(document).encode()).decode()])
    assert hand.page.evaluate("() => window.seen") == [True, True]
    expect(hand.button("Open Dropped lantern")).to_be_visible()
    hand.see_no_more("Let go to bring the files in")


def test_a_hostile_zip_is_refused_with_a_sentence(own_workroom: ServedWorkroom, open_page: Open) -> None:
    before = own_workroom.ask("/api/workroom")
    hand = open_page(own_workroom)
    hand.watch.forgive("Failed to load resource: the server responded with a status of 400")
    expect(hand.button("New design")).to_be_visible()
    bomb = zipped("designs/a.json", b"0" * 60_000_000)
    outside = zipped("../a.json", b"{}")
    hand.page.locator("input[type=file]").set_input_files(
        [
            {"name": "bomb.zip", "mimeType": "application/zip", "buffer": bomb},
            {"name": "outside.zip", "mimeType": "application/zip", "buffer": outside},
            {"name": "large.zip", "mimeType": "application/zip", "buffer": b"PK\x03\x04" + b"0" * 5_000_000},
        ]
    )
    hand.see('bomb.zip was not brought in: "designs/a.json" is larger than 1 MB unpacked')
    hand.see("outside.zip was not brought in: the ZIP holds")
    hand.see("large.zip was not brought in: It is larger than 5 MB")
    assert own_workroom.ask("/api/workroom") == before


def test_an_audience_is_not_offered_the_files(workroom: ServedWorkroom, open_page: Open) -> None:
    hand = open_page(workroom)
    expect(hand.page.get_by_role("link", name="Save everything as files")).to_be_visible()
    hand.press("Presenter")
    expect(hand.page.get_by_role("link", name="Save everything as files")).to_have_count(0)
