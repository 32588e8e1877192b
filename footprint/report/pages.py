"""The sheets of months: lines with months, year, formula in words, rule, key, links."""

from __future__ import annotations

from footprint.base.row import Row
from footprint.base.source import Reading, place_in_words
from footprint.base.units import label
from footprint.report.cells import shown
from footprint.report.desk import Desk
from footprint.report.looks import Role
from footprint.report.places import Place
from footprint.report.plan import JANUARY, UNIT, YEAR, Entry, Heading, MonthSheet, Note
from footprint.report.sheet import Sheet
from footprint.report.words import MONTH_NAMES, decimals, formula_in_words

HOW, RULE, KEY, LINKS = YEAR + 1, YEAR + 2, YEAR + 3, YEAR + 4
MOST_LINKS = 3
NOTE_WIDE = 150  # characters of a note over all printed columns
WORDS_WIDE = 10  # characters, so that small print such as "cannot be given" can be read
HEADINGS = (
    "Quantity",
    "Unit",
    *MONTH_NAMES,
    "Year",
    "How it is computed",
    "Rule or source",
    "Key",
    *["Comes from (links)"] * MOST_LINKS,
)


def write_page(desk: Desk, page: MonthSheet) -> Sheet:
    """Return a sheet of months, written.

    Args:
        desk: plan, file and looks. [desk]
        page: the lines and where they stand. [plan]

    Source: definition
    """
    entries = [part for part in page.parts if isinstance(part, Entry)]
    rows = [row for entry in entries for row in (entry.months, entry.year) if row is not None]
    sheet = desk.sheet(page.name, page.question, widths_for(rows), HEADINGS)
    for part in page.parts:
        if isinstance(part, Entry):
            _write_entry(desk, sheet, part)
        elif isinstance(part, Heading | Note):
            write_heading(desk, sheet, part)
    return sheet


def widths_for(rows: list[Row]) -> list[float]:
    """Return widths of the columns of a sheet of months, wide enough for the longest figure.

    Args:
        rows: shown on the sheet. [rows]

    Source: definition
    """
    longest = max((_length(row) for row in rows), default=6)
    month = min(max(longest + 1.2, 7.5), 15.0)
    return [36, 16, *[month] * 12, month + 1.5, 90, 60, 44, *[24] * MOST_LINKS]


def _length(row: Row) -> int:
    figures = [shown(row, index) for index in range(row.axis.size)]
    if not all(isinstance(one, float) for one in figures):
        return WORDS_WIDE
    return max(len(f"{one:,.{decimals(row)}f}") for one in figures)


def write_heading(desk: Desk, sheet: Sheet, part: Heading | Note) -> None:
    """Write the title of a section, or the sentence below it.

    Args:
        desk: plan, file and looks. [desk]
        sheet: the sheet. [sheet]
        part: title or sentence. [plan]

    Source: definition
    """
    if isinstance(part, Note):
        sheet.merge((part.at, 0, part.at, YEAR), part.text, desk.looks.of("note", text_wrap=True))
        sheet.heighten(part.at, [(part.text, NOTE_WIDE)])
        return
    look = desk.looks.of("section")
    sheet.text(part.at, 0, part.text, look)
    for column in range(1, YEAR + 1):
        sheet.blank(part.at, column, look)


def _write_entry(desk: Desk, sheet: Sheet, entry: Entry) -> None:
    rows = [row for row in (entry.months, entry.year) if row is not None]
    named = rows[0]
    role: Role = "total" if entry.is_total else "calculated"
    sheet.text(entry.at, 0, named.words, desk.looks.of(role, text_wrap=True))
    sheet.text(entry.at, UNIT, label(named.unit), desk.looks.of(role, indent=1, text_wrap=True))
    total: Role | None = "total" if entry.is_total else None
    if entry.months is None and total:
        for column in range(JANUARY, YEAR):
            sheet.blank(entry.at, column, desk.looks.of("total"))
    if entry.months is not None:
        home = Place(sheet.name, entry.at, JANUARY, "across")
        desk.fill(sheet, entry.months, home, role=total, size=12)
    if entry.year is not None:
        desk.fill(sheet, entry.year, Place(sheet.name, entry.at, YEAR), role=total)
    elif total:
        sheet.blank(entry.at, YEAR, desk.looks.of("total"))
    sheet.heighten(entry.at, [(named.words, 36), (label(named.unit), 16)])
    write_lineage(desk, sheet, entry.at, rows)


def write_lineage(desk: Desk, sheet: Sheet, at: int, rows: list[Row]) -> None:
    """Write how the figures of a line are computed, by which rule, under which key, and from where.

    Args:
        desk: plan, file and looks. [desk]
        sheet: the sheet. [sheet]
        at: the line. [1]
        rows: of the line: months first, then the year. [rows]

    Source: definition
    """
    how = [formula_in_words(row) for row in rows]
    labelled = [f"year: {text}" if place and text else text for place, text in enumerate(how)]
    look = desk.looks.of("key")  # not wrapped, so that lines keep one height
    for column, texts in ((HOW, labelled), (RULE, [rule_of(row) for row in rows])):
        words = "; ".join(dict.fromkeys(text for text in texts if text))
        if words:
            sheet.text(at, column, words, look)
    sheet.text(at, KEY, "; ".join(row.key for row in rows), look)
    home = desk.layout.places.get(rows[0])
    is_mirror = home is None or (home.sheet, home.row) != (sheet.name, at)
    targets = (
        [(desk.layout.place(rows[0]), rows[0].axis.size)]
        if is_mirror
        else desk.sources(rows[0], MOST_LINKS)
    )
    desk.links(sheet, at, LINKS, targets)


def rule_of(row: Row) -> str:
    """Return the rule a row was computed by, or where a leaf comes from.

    Args:
        row: a named row. [row]

    Source: definition
    """
    if row.because or not row.is_leaf:
        return row.because
    readings = [origin for origin in row.origins if isinstance(origin, Reading)]
    if readings:
        return _read_from(readings)
    words = [origin.words for origin in row.origins if origin is not None]
    return words[0] if words else ""


def _read_from(readings: list[Reading]) -> str:
    """Return file, sheet, first and last cell; says so where there are more files."""
    first, last = readings[0], readings[-1]
    alike = [one for one in readings if (one.file, one.sheet) == (first.file, first.sheet)]
    cells = first.cell if first.cell == alike[-1].cell else f"{first.cell}:{alike[-1].cell}"
    place = place_in_words(first.file, first.sheet, cells)
    return place if len(alike) == len(readings) else f"{place}, up to {last.words}"
