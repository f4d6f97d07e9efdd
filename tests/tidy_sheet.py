"""Whether a sheet is tidy: used wherever sheets are checked."""

import shapely
from lettering_room import box, overlaps

from panelwright.drawing.recorder import RecordedPage, Recorder
from panelwright.drawing.sheet import Sheet


def recorded(sheet: Sheet) -> RecordedPage:
    recorder = Recorder()
    sheet.draw(recorder)
    return recorder.pages[0]


def assert_sheet_is_tidy(sheet: Sheet) -> None:
    """No text overlaps another or leaves the page; nothing is drawn nearer than 3 mm to the edge."""
    page = recorded(sheet)
    assert (page.width, page.height) == (sheet.width, sheet.height)
    assert overlaps(page.letterings) == []
    inner = shapely.box(3, 3, sheet.width - 3, sheet.height - 3)
    assert all(inner.contains(box(text)) for text in page.letterings)
    for sign, window in page.signs:
        if window is None:
            assert inner.contains(shapely.box(*sign.bounds))
