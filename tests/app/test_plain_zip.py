"""A ZIP that anybody may have made: hostile ones are refused before they cost time or room."""

import io
import time
import tracemalloc
import zipfile

import pytest

from panelwright.app.plain_zip import MOST_FILE, MOST_FILES, MOST_IN_ALL, MOST_ZIP, files_in, is_zip
from panelwright.errors import InputError


def zipped(*files: tuple[str | zipfile.ZipInfo, bytes], packing: int = zipfile.ZIP_DEFLATED) -> bytes:
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w", packing) as archive:
        for name, content in files:
            archive.writestr(name, content)
    return written.getvalue()


def test_files_are_read_and_folders_left_out() -> None:
    content = zipped(("designs/", b""), ("designs/a.json", b"{}"), ("README.txt", b"words"))
    assert is_zip(content)
    assert files_in(content) == {"designs/a.json": b"{}", "README.txt": b"words"}


def test_an_empty_zip_is_one_and_json_is_none() -> None:
    assert is_zip(zipped())
    assert files_in(zipped()) == {}
    assert not is_zip(b'{"format": "PK"}')
    assert not is_zip(b"")


def test_files_up_to_the_limits_are_read() -> None:
    assert len(files_in(zipped(*((f"{k}.json", b"{}") for k in range(MOST_FILES))))) == MOST_FILES
    full = zipped(*((f"{k}.json", b"0" * MOST_FILE) for k in range(MOST_IN_ALL // MOST_FILE)))
    assert sum(map(len, files_in(full).values())) == MOST_IN_ALL


def _linked() -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo("wearers/w-01.json")
    entry.create_system, entry.external_attr = 3, 0o120777 << 16
    return entry


@pytest.mark.parametrize(
    ("content", "sentence"),
    [
        (zipped(("../w-01.json", b"{}")), '"../w-01.json", which is no name of a file in a folder'),
        (zipped(("wearers/../../w-01.json", b"{}")), "which is no name of a file in a folder"),
        (zipped(("/etc/w-01.json", b"{}")), "which is no name of a file in a folder"),
        (zipped(("wearers//w-01.json", b"{}")), "which is no name of a file in a folder"),
        (zipped(("C:w-01.json", b"{}")), "which is no name of a file in a folder"),
        (zipped(("wearers\\..\\w-01.json", b"{}")), "which is no name of a file in a folder"),
        (zipped(("./w-01.json", b"{}")), "which is no name of a file in a folder"),
        (zipped(("a" * 201, b"{}")), "which is no name of a file in a folder"),
        (zipped(("w-\x1b[31m01.json", b"{}")), "a file whose name cannot be read"),
        (zipped(("w-01.json", b"{}"), ("W-01.JSON", b"{}")), '"W-01.JSON" is twice in the ZIP: keep one'),
        (zipped((_linked(), b"/etc/passwd")), "is a link or no file at all"),
        (zipped(("w-01.json", b"{}"), packing=zipfile.ZIP_BZIP2), "is packed in an unusual way"),
        (zipped(("w-01.json", b"{}"), packing=zipfile.ZIP_LZMA), "is packed in an unusual way"),
        (zipped(*((f"{k}.json", b"") for k in range(MOST_FILES + 1))), "holds more than 500 files"),
        (zipped(("w-01.json", b"0" * (MOST_FILE + 1))), '"w-01.json" is larger than 1 MB unpacked'),
        (
            zipped(*((f"{k}.json", b"0" * MOST_FILE) for k in range(MOST_IN_ALL // MOST_FILE)), ("one-more", b"0")),
            "the ZIP is larger than 20 MB unpacked",
        ),
        (b"PK\x03\x04" + b"0" * MOST_ZIP, "the ZIP is larger than 5 MB"),
        (b"PK\x03\x04" + b"nothing else", "the ZIP is damaged"),
        (zipped(("w-01.json", b"{}" * 99))[:-30], "the ZIP is damaged"),
    ],
    ids=lambda each: each if isinstance(each, str) else "zip",  # whose bytes tell the time at which it was made
)
def test_what_no_export_makes_is_refused(content: bytes, sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        files_in(content)
    assert sentence in str(caught.value)
    assert "\n" not in str(caught.value)
    assert "\x1b" not in str(caught.value)


def test_a_name_that_ends_at_a_null_is_not_believed() -> None:
    content = zipped(("w-01.jsonXX../evil", b"{}")).replace(b"w-01.jsonXX", b"w-01.json\0X")
    with pytest.raises(InputError):
        files_in(content)


def test_a_locked_file_is_refused() -> None:
    """Bit 0 of the general purpose flag means encrypted (APPNOTE 4.4.4), at 8 in the list's entry, 6 in its own."""
    content = bytearray(zipped(("w-01.json", b"{}")))
    content[content.index(b"PK\x01\x02") + 8] |= 1
    content[content.index(b"PK\x03\x04") + 6] |= 1
    with pytest.raises(InputError, match="is locked by a password"):
        files_in(bytes(content))


def test_a_damaged_file_is_refused() -> None:
    content = bytearray(zipped(("w-01.json", b"{}" * 40), packing=zipfile.ZIP_STORED))
    content[content.index(b"{}{}")] ^= 1
    with pytest.raises(InputError, match="damaged"):
        files_in(bytes(content))


def _believing(size: int, content: bytes) -> bytes:
    """The ZIP with another size unpacked written in its list (offset 24) and before the file (offset 22)."""
    changed = bytearray(content)
    for start, offset in ((b"PK\x01\x02", 24), (b"PK\x03\x04", 22)):
        at = changed.index(start) + offset
        changed[at : at + 4] = size.to_bytes(4, "little")
    return bytes(changed)


@pytest.mark.parametrize("told", [10, MOST_FILE, 0x7FFFFFFF])
def test_a_bomb_is_refused_whatever_size_it_tells(told: int) -> None:
    """4 GB of one letter pack into 4 MB; 200 MB are enough to see that no more than the limit is unpacked."""
    bomb = _believing(told, zipped(("w-01.json", b"0" * 200_000_000)))
    assert len(bomb) < MOST_ZIP
    tracemalloc.start()
    started = time.perf_counter()
    with pytest.raises(InputError):
        files_in(bomb)
    took, (_, peak) = time.perf_counter() - started, tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 10 * MOST_FILE
    assert took < 5


def test_many_small_bombs_are_one_large_one() -> None:
    """Each file is as large as one may be: all together are counted while they are unpacked."""
    files = tuple((f"{k}.json", b"0" * MOST_FILE) for k in range(MOST_FILES))
    with pytest.raises(InputError, match="larger than 20 MB unpacked"):
        files_in(zipped(*files))


def test_a_zip_inside_a_zip_is_not_opened() -> None:
    inner = zipped(("w-01.json", b"0" * 1000))
    assert files_in(zipped(("more.zip", inner))) == {"more.zip": inner}
