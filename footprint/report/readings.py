"""Every reading on a line of its own: as written, as read, its cell, its use."""

from __future__ import annotations

import hashlib
from collections.abc import Callable

from footprint.base.row import Row
from footprint.base.source import Assumption, Origin, Reading
from footprint.base.units import label
from footprint.report.cells import shown
from footprint.report.desk import Desk
from footprint.report.layout import READINGS
from footprint.report.place_leaves import VALUE_READ
from footprint.report.places import Place, address
from footprint.report.plan import ReadingBlock
from footprint.report.sheet import Sheet
from footprint.report.words import NO_DATA

HEADINGS = (
    "No.",
    "Id",
    "Reading",
    "Period",
    "As written",
    "Value as read (entry)",
    "Unit",
    "Treatment",
    "File",
    "Sheet",
    "Cell",
    "Used in",
)
WIDTHS = (6, 10, 34, 20, 12, 14, 20, 12, 20, 13, 7, 24)
QUESTION = "Which cell was each figure read from, what stood there, and where is it used?"


def write_readings(desk: Desk) -> None:
    """Write all readings, in blocks with a line of their own above.

    Args:
        desk: plan, file and looks. [desk]

    Source: definition
    """
    sheet = desk.sheet(READINGS, QUESTION, WIDTHS, HEADINGS)
    for column in (1, 6):  # left-aligned beside right-aligned figures
        sheet.paper.set_column(
            column, column, WIDTHS[column], desk.looks.of("calculated", indent=1)
        )
    number = 1
    for block in desk.layout.readings:
        _write_name(desk, sheet, block)
        _write_block(desk, sheet, block, number)
        number += block.row.axis.size


def _write_name(desk: Desk, sheet: Sheet, block: ReadingBlock) -> None:
    look = desk.looks.of("section")
    for column in range(len(HEADINGS)):
        sheet.blank(block.at, column, look)
    sheet.text(block.at, 2, block.row.words, look)
    sheet.text(block.at, 3, f"key: {block.row.key}", look)
    desk.links(sheet, block.at, len(HEADINGS) - 1, desk.uses(block.row, 1))


def _write_block(desk: Desk, sheet: Sheet, block: ReadingBlock, number: int) -> None:
    row, unit = block.row, label(block.row.unit)
    used_in = _where_used(desk, row)
    formats = {
        name: desk.looks.of(name, desk.looks.numbers(row))
        for name in ("reading", "estimated", "missing")
    }
    for index, period in enumerate(row.axis.labels):
        at, origin, value = block.at + 1 + index, row.origin(index), shown(row, index)
        sheet.number(at, 0, number + index)
        texts = [
            row.words,
            period if row.axis.size > 1 else "",
            unit,
            *_told(origin, value),
            used_in(index),
        ]
        for column, text in zip((2, 3, 6, 1, 4, 7, 8, 9, 10, 11), texts, strict=True):
            if text:
                sheet.text(at, column, text)
        sheet.put(
            at, VALUE_READ, NO_DATA if value is None else value, formats[_look(origin, value)]
        )


def _look(origin: Origin | None, value: float | str | None) -> str:
    if not isinstance(value, float):
        return "missing"
    return "estimated" if isinstance(origin, Assumption) else "reading"


def _told(origin: Origin | None, value: float | str | None) -> tuple[str, str, str, str, str, str]:
    """Return id, text as written, treatment, file, sheet and cell of one reading."""
    if isinstance(origin, Reading):
        treatment = "as read" if isinstance(value, float) else NO_DATA
        return id_of(origin), origin.written, treatment, origin.file, origin.sheet, origin.cell
    if origin is not None:
        treatment = f"E: {origin.words}" if isinstance(value, float) else NO_DATA
        return "", "", treatment, "", "", ""
    return "", "", NO_DATA, "", "", ""


def id_of(reading: Reading) -> str:
    """Return the short name of a reading, which a file more or less doesn't change.

    Args:
        reading: file, sheet and cell. [reading]

    Source: definition
    """
    place = f"{reading.file}\n{reading.sheet}\n{reading.cell}"
    return "R" + hashlib.sha256(place.encode()).hexdigest()[:8]


def _where_used(desk: Desk, row: Row) -> Callable[[int], str]:
    """Return a function from the place of a reading to the cell that uses it."""
    layout = desk.layout
    if row in layout.evidence and row in layout.places:
        return lambda index: _cell(layout.places[row], index)
    users = layout.lineage.users.get(row, ())
    if not users:
        return lambda _: "nowhere: no figure of this workbook needs it"
    user, place = users[0], layout.place(users[0])
    if user.op in {"SPAN", "DOT", "COUNT"}:
        month_of = {
            i: month for month, (first, last) in enumerate(user.extra) for i in range(first, last)
        }
        return lambda index: (
            _cell(place, month_of[index]) if index in month_of else "outside the year"
        )
    if user.op == "PICK":
        picked = {i: month for month, i in reversed(list(enumerate(user.extra)))}
        return lambda index: _cell(place, picked[index]) if index in picked else "not picked"
    if user.axis == row.axis:
        return lambda index: _cell(place, index)
    return lambda _: _cell(place, 0)


def _cell(place: Place, index: int) -> str:
    return f"{place.sheet} {address(*place.at(index), is_fixed=False)}"
