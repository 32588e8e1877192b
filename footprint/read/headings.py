"""Where a column stands: the heading row, the column of dates, the column of values."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from openpyxl.utils import get_column_letter

from footprint.base.finding import Finding, Where, declare
from footprint.read import date_words, number_words
from footprint.read.fault import short
from footprint.read.nearest import nearest, offer
from footprint.read.sheet import Cell, Sheet
from footprint.read.unit_words import is_unit_like

ROWS_LOOKED_AT = 200
LONGEST_HEADING = 500  # a longer text is a remark
_OPENING = ",([;"

MISSING_COLUMN = declare(
    "missing-column",
    "stop",
    means="No heading of the sheet is the one that site.toml names.",
    effect="the readings of the meter are not found",
    mend="mend column or date_column in site.toml, or the heading in the sheet",
    example='column = "Feed gas flow" where the heading is "Feed gas (Nm3)"; '
    'mended: column = "Feed gas"',
)
REPEATED_HEADING = declare(
    "repeated-heading",
    "stop",
    means="The heading that site.toml names stands over more than one column.",
    effect="nothing tells which column is meant",
    mend="give each column its own heading",
    example='"Feed gas" in B4 and E4; mended: "Feed gas" and "Feed gas, check meter"',
)


@dataclass(frozen=True, eq=False, slots=True)
class Column:
    """A column of a table, with the column of its dates.

    Attributes:
        sheet: where it stands. [sheet]
        heading: as the sheet has it. [text]
        tail: what follows the name in the heading, mostly its unit. [text]
        column: of the values, counted from 1. [1]
        date_column: counted from 1. [1]
        date_heading: as the sheet has it. [text]
        header_row: the row of the headings; the last where they are merged over several. [1]
        unit_row: the row below with units; None where there is none. [1]
    """

    sheet: Sheet
    heading: str
    tail: str
    column: int
    date_column: int
    date_heading: str
    header_row: int
    unit_row: int | None

    @property
    def unit_text(self) -> str:
        """The text below the heading; empty where there is no row of units."""
        cell = self.sheet.at(self.unit_row, self.column) if self.unit_row else None
        return clean(str(cell.value)) if cell and cell.kind == "text" else ""


def clean(text: str) -> str:
    """Return a text with line breaks and odd blanks as single blanks.

    Args:
        text: as written. [text]

    Source: definition
    """
    return " ".join(text.replace("\u200b", "").split())


def tail_of(heading: str, wanted: str) -> str | None:
    """Return what follows the wanted name in a heading, or None where it is another heading.

    Args:
        heading: as the sheet has it. [text]
        wanted: as the site file has it. [text]

    Source: definition
    """
    whole, name = clean(heading), clean(wanted)
    if whole.lower() == name.lower():
        return name_without_unit(whole)[1]
    rest = whole[len(name) :].lstrip()
    if whole.lower().startswith(name.lower()) and rest[:1] and rest[0] in _OPENING:
        return _unwrapped(rest)
    return None


def name_without_unit(heading: str) -> tuple[str, str]:
    """Return the name in a heading and the unit behind it, empty where there is none.

    Args:
        heading: as the sheet has it. [text]

    Source: definition
    """
    whole = clean(heading)
    for position, sign in enumerate(whole):
        tail = _unwrapped(whole[position:]) if sign in _OPENING and position else ""
        if tail and is_unit_like(tail):
            return whole[:position].strip(), tail
    return whole, ""


def _unwrapped(rest: str) -> str:
    """Return the tail of a heading without its comma or its outer brackets."""
    tail = rest.lstrip(",; ")
    for opening, closing in ("()", "[]"):
        if tail.startswith(opening) and tail.endswith(closing):
            tail = tail[1:-1]
    return tail.strip()


def headings_in(sheet: Sheet, row: int) -> list[tuple[int, Cell]]:
    """Return the texts of a row by column, where merged cells count for their whole range.

    Args:
        sheet: to look in. [sheet]
        row: counted from 1. [1]

    Source: definition
    """
    columns = {cell.column for cell in sheet.by_row.get(row, [])}
    for area in sheet.merged:
        if area.first_row <= row <= area.last_row:
            columns |= set(range(area.first_column, area.last_column + 1))
    found = [(column, sheet.heading_at(row, column)) for column in sorted(columns)]
    texts = [(column, cell) for column, cell in found if cell is not None and cell.kind == "text"]
    return [(column, cell) for column, cell in texts if len(cell.written) <= LONGEST_HEADING]


def matching(headings: list[tuple[int, Cell]], wanted: str) -> list[tuple[int, str]]:
    """Return the columns whose heading is the wanted one, each with the tail behind the name.

    A tail that is no unit counts only where no heading fits better: "Feed gas (corrected)".

    Args:
        headings: of one row. [cells]
        wanted: as the site file has it. [text]

    Source: definition
    """
    fitting: list[tuple[int, str]] = []
    loose: list[tuple[int, str]] = []
    for column, cell in headings:
        tail = tail_of(str(cell.value), wanted)
        if tail is not None:
            (fitting if not tail or is_unit_like(tail) else loose).append((column, tail))
    return fitting or loose


def locate(sheet: Sheet, date_column: str | int, wanted: str) -> Column | Finding:
    """Return where a column and its dates stand, or what is missing.

    Args:
        sheet: to look in. [sheet]
        date_column: heading of the dates, as the site file has it, or their place. [text or 1]
        wanted: heading of the values, as the site file has it. [text]

    Findings:
        missing-column: with the nearest heading.
        repeated-heading: with both places.

    Source: definition
    """
    by_row: dict[int, list[tuple[int, Cell]]] = {}
    best: tuple[int, bool, bool] | None = None
    for row in _rows_of_text(sheet):
        headings = by_row[row] = headings_in(sheet, row)
        values = matching(headings, wanted)
        if isinstance(date_column, int):
            dates = [(date_column, "")] if values else []
        else:
            dates = matching(headings, date_column)
        if dates and values:
            return _column(sheet, row, dates, values)
        if (dates or values) and (best is None or (dates and not best[1])):
            best = (row, bool(dates), bool(values))
    if isinstance(date_column, int):
        return _missing(sheet, "", f'no heading "{wanted}" in the sheet', (wanted, _texts(by_row)))
    return _not_found(sheet, by_row, best, (date_column, wanted))


def locate_any(
    sheet: Sheet, date_column: str, is_wanted: Callable[[str], bool]
) -> Column | Finding | None:
    """Return the first wanted column of a table, None where the row of the dates has none.

    Args:
        sheet: to look in. [sheet]
        date_column: heading of the dates, as the site file has it. [text]
        is_wanted: whether a heading is one of those sought. [function]

    Findings:
        missing-column: no heading of the dates.
        repeated-heading: with both places.

    Source: definition
    """
    by_row: dict[int, list[tuple[int, Cell]]] = {}
    has_dates = False
    for row in _rows_of_text(sheet):
        headings = by_row[row] = headings_in(sheet, row)
        dates = matching(headings, date_column)
        has_dates = has_dates or bool(dates)
        values = [(column, "") for column, cell in headings if is_wanted(str(cell.value))]
        if dates and values:
            return _column(sheet, row, dates, values[:1])
    if has_dates:
        return None
    what = f'no heading "{date_column}" in the sheet'
    return _missing(sheet, "", what, (date_column, _texts(by_row)))


def _rows_of_text(sheet: Sheet) -> Iterable[int]:
    """Yield the first rows, also those that hold nothing but part of a merged heading."""
    merged = {row for area in sheet.merged for row in range(area.first_row, area.last_row + 1)}
    return (
        row
        for row in range(1, ROWS_LOOKED_AT + 1)
        if row in merged or any(cell.kind == "text" for cell in sheet.by_row.get(row, ()))
    )


def _column(
    sheet: Sheet, row: int, dates: list[tuple[int, str]], values: list[tuple[int, str]]
) -> Column | Finding:
    """Return the column at its heading, or the finding of a heading that stands twice."""
    for found in (dates, values):
        if len(found) > 1:
            cells = [cell for column, _ in found if (cell := sheet.heading_at(row, column))]
            places = ", ".join(dict.fromkeys(cell.address for cell in cells))
            name = short(str(cells[0].value))
            lines = "in front of {} rows" if sheet.is_turned else "over {} columns"
            what = f'heading "{name}" stands {lines.format(len(found))}'
            return REPEATED_HEADING.at(Where(sheet.file, sheet.name, places), what)
    (date_column, _), (column, tail) = dates[0], values[0]
    areas = (sheet.merged_around(row, date_column), sheet.merged_around(row, column))
    last = max([row, *(area.last_row for area in areas if area)])
    heading, date_heading = sheet.heading_at(row, column), sheet.heading_at(row, date_column)
    unit_row = last + 1 if _is_unit_row(sheet, last + 1, date_column, column) else None
    return Column(
        sheet,
        clean(str(heading.value)) if heading else "",
        tail,
        column,
        date_column,
        clean(str(date_heading.value)) if date_heading else "",
        last,
        unit_row,
    )


def _is_unit_row(sheet: Sheet, row: int, date_column: int, column: int) -> bool:
    """Return whether a row below the headings holds texts, and neither a date nor a number."""
    day, value = sheet.at(row, date_column), sheet.at(row, column)
    if value is None or value.kind != "text" or number_words.meanings(str(value.value)):
        return False
    if day is None:
        return True
    return day.kind == "text" and not date_words.meanings(str(day.value), "month")


def _not_found(
    sheet: Sheet,
    by_row: dict[int, list[tuple[int, Cell]]],
    best: tuple[int, bool, bool] | None,
    wanted: tuple[str, str],
) -> Finding:
    """Return the finding of a heading that is not there, with the nearest that is."""
    if best is None:
        what = f'no heading "{wanted[1]}" and no heading "{wanted[0]}" in the sheet'
        return _missing(sheet, "", what, (wanted[1], _texts(by_row)))
    row, has_dates, _ = best
    name = wanted[1] if has_dates else wanted[0]
    texts = _texts({row: by_row[row]})
    line = f"column {get_column_letter(row)}" if sheet.is_turned else f"row {row}"
    return _missing(sheet, line, f'no heading "{name}" in {line}', (name, texts))


def _texts(by_row: dict[int, list[tuple[int, Cell]]]) -> list[str]:
    """Return the texts of all rows that were looked at."""
    return [clean(str(cell.value)) for headings in by_row.values() for _, cell in headings]


def _missing(sheet: Sheet, cell: str, what: str, sought: tuple[str, list[str]]) -> Finding:
    """Return the finding with an offer of headings."""
    name, texts = sought
    names = list(dict.fromkeys(name_without_unit(text)[0] for text in texts))
    near = nearest(name, names)
    mend = f'write "{near}" in site.toml, if that is meant' if near else offer(name, names)
    return MISSING_COLUMN.at(Where(sheet.file, sheet.name, cell), what, mend=mend)
