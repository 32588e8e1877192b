"""Sheets of entries: words and single figures side by side."""

from __future__ import annotations

from footprint.base.listing import Listing, OfPeriod, Shown
from footprint.base.row import Row
from footprint.report.bars import write_bars
from footprint.report.cells import Live, reference, shown
from footprint.report.desk import WORDS, Desk
from footprint.report.places import Place
from footprint.report.plan import HEADER, Heading, ListedBars, ListedLine, ListSheet, Note
from footprint.report.sheet import Sheet
from footprint.report.words import CANNOT_BE_GIVEN


def write_listing(desk: Desk, plan: ListSheet) -> Sheet:
    """Return a sheet of entries, written.

    Args:
        desk: plan, file and looks. [desk]
        plan: the entries and where they stand. [plan]

    Source: definition
    """
    listing = plan.listing
    widths = [column.width for column in listing.columns]
    sheet = desk.sheet(
        listing.name, listing.question, widths, [column.words for column in listing.columns]
    )
    for place, column in enumerate(listing.columns[1:], 1):
        side = {"align": "right"} if column.is_number else {"align": "left", "indent": 1}
        sheet.text(HEADER, place, column.words, desk.looks.of("heading", "", **side))
    for part in plan.parts:
        if isinstance(part, ListedLine):
            _write_line(desk, sheet, listing, part)
        elif isinstance(part, ListedBars):
            write_bars(desk, sheet, part)
        else:
            _write_heading(desk, sheet, listing, part)
    sheet.paper.print_area(0, 0, max(plan.next_row - 1, 1), len(widths) - 1)
    return sheet


def _write_heading(desk: Desk, sheet: Sheet, listing: Listing, part: Heading | Note) -> None:
    last = len(listing.columns) - 1
    if isinstance(part, Note):
        look = desk.looks.of("note", text_wrap=True)
        sheet.merge((part.at, 0, part.at, last), part.text, look)
        wide = sum(column.width for column in listing.columns)
        sheet.heighten(part.at, [(part.text, wide)])
        return
    sheet.text(part.at, 0, part.text, desk.looks.of("section"))
    for column in range(1, last + 1):
        sheet.blank(part.at, column, desk.looks.of("section"))


def _write_line(desk: Desk, sheet: Sheet, listing: Listing, line: ListedLine) -> None:
    texts = []
    for at, (cell, column) in enumerate(zip(line.cells, listing.columns, strict=True)):
        if cell in (None, ""):
            continue
        if isinstance(cell, str) and column.is_number:
            texts.append(_write_wide(desk, sheet, listing, line, at))
        elif isinstance(cell, str):
            look = desk.looks.of("text", indent=1) if at else desk.looks.of("text")
            sheet.text(line.at, at, cell, look)
            texts.append((cell, column.width - 1))
        else:
            _write_figure(desk, sheet, cell, Place(sheet.name, line.at, at))
    sheet.heighten(line.at, texts)


def _write_wide(
    desk: Desk, sheet: Sheet, listing: Listing, line: ListedLine, at: int
) -> tuple[str, float]:
    """Write words where figures stand, over the empty cells that follow."""
    last = at
    while last + 1 < len(line.cells) and line.cells[last + 1] in (None, ""):
        last += 1
    words, look = str(line.cells[at]), desk.looks.of("text", indent=1)
    if last > at:
        sheet.merge((line.at, at, line.at, last), words, look)
    else:
        sheet.text(line.at, at, words, look)
    return words, sum(column.width for column in listing.columns[at : last + 1]) - 1


def _write_figure(desk: Desk, sheet: Sheet, cell: Shown, home: Place) -> None:
    if isinstance(cell, Row):
        desk.fill(sheet, cell, home, size=1)
    elif isinstance(cell, OfPeriod):
        value = shown(cell.row, cell.index)
        words = CANNOT_BE_GIVEN if value is None else value
        look = WORDS if isinstance(words, str) else {}
        numbers = desk.looks.numbers(cell.row)
        live = Live(reference(home, desk.layout.place(cell.row), cell.index), words)
        sheet.put(home.row, home.column, live, desk.looks.of("calculated", numbers, **look))
