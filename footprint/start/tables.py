"""Tables in sheets that nobody described: where their dates and headings stand, and which way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from footprint.read import date_words, number_words
from footprint.read.headings import clean, headings_in
from footprint.read.sheet import Cell, Sheet
from footprint.read.unit_words import is_unit_like

FEWEST_DATES = 2
FEWEST_ACROSS = 3
_GAP = 2  # rows between a date and the next, within one table
_ROWS_SHOWN = 3


@dataclass(frozen=True, eq=False)
class Heading:
    """A column of a table, seen as running down.

    Attributes:
        column: counted from 1. [1]
        text: of the heading. [text]
        unit_text: in the row of units below; empty where there is none. [text]
        cells: below the heading, in the rows that have a date. [cells]
        numbers: how many of them are numbers. [1]
        blanks: rows with a date and nothing in the column. [rows]
    """

    column: int
    text: str
    unit_text: str
    cells: tuple[Cell, ...]
    numbers: int
    blanks: tuple[int, ...]

    @property
    def is_of_numbers(self) -> bool:
        """Whether the column holds readings rather than words."""
        return self.numbers > 0 and self.numbers * 2 >= len(self.cells)


@dataclass(frozen=True, eq=False)
class Table:
    """A table with dates and headings.

    Attributes:
        sheet: turned round where periods run across. [sheet]
        is_across: whether it was turned round. [flag]
        title: texts above the headings. [text]
        header_row: counted from 1. [1]
        date_column: counted from 1. [1]
        date_heading: empty where the dates have none. [text]
        dates: the cells of the dates, from top to bottom. [cells]
        headings: of the other columns. [headings]
        other_dates: headings of further columns of dates. [text]
        has_bare_months: months stand without their year. [flag]
    """

    sheet: Sheet
    is_across: bool
    title: str
    header_row: int
    date_column: int
    date_heading: str
    dates: tuple[Cell, ...]
    headings: tuple[Heading, ...]
    other_dates: tuple[str, ...]
    has_bare_months: bool

    def place(self, row: int, column: int) -> str:
        """Return the address of a cell as the user's sheet has it.

        Args:
            row: of the table as it runs down. [1]
            column: of the table as it runs down. [1]

        Source: definition
        """
        return self.sheet.address(row, column)

    def span(self, column: int) -> str:
        """Return the addresses of the readings of a column, such as B5:B369.

        Args:
            column: of the table as it runs down. [1]

        Source: definition
        """
        first, last = self.dates[0].row, self.dates[-1].row
        return f"{self.place(first, column)}:{self.place(last, column)}"


def table_in(sheet: Sheet) -> Table | None:
    """Return the table of a sheet, or None where no dates with headings are found.

    Args:
        sheet: as read. [sheet]

    Source: definition
    """
    for has_bare_months in (False, True):
        down, across = (
            _most_dates(one, has_bare_months=has_bare_months) for one in (sheet, sheet.turned())
        )
        is_across = len(across) >= FEWEST_ACROSS and len(across) > len(down)
        dates = across if is_across else down
        if len(dates) >= (FEWEST_ACROSS if has_bare_months else FEWEST_DATES):
            seen = sheet.turned() if is_across else sheet
            table = _table(seen, dates, is_across=is_across, has_bare_months=has_bare_months)
            if table is None:
                return None
            first = dates[0].column if is_across else table.header_row
            return replace(table, title=_title(sheet, first))
    return None


def is_number(cell: Cell) -> bool:
    """Return whether a cell holds a number, or a text that is one.

    Args:
        cell: that is not empty. [cell]

    Source: definition
    """
    if cell.kind == "text":
        return bool(number_words.meanings(str(cell.value).rstrip().removesuffix("%")))
    return cell.kind == "number"


def _is_date(cell: Cell, *, has_bare_months: bool) -> bool:
    """Return whether a cell names a day or a month; a bare month only where that is asked."""
    if cell.kind == "date":
        return True
    if cell.kind != "text":
        return False
    text = f"{cell.value} 2000" if has_bare_months else str(cell.value)
    return bool(date_words.meanings(text, "month"))


def _most_dates(sheet: Sheet, *, has_bare_months: bool) -> list[Cell]:
    """Return the dates of the column that holds most of them, without one that stands apart."""
    columns: dict[int, list[Cell]] = {}
    for cells in sheet.by_row.values():
        for cell in cells:
            if _is_date(cell, has_bare_months=has_bare_months):
                columns.setdefault(cell.column, []).append(cell)
    dates = max(columns.values(), key=len, default=[])
    while len(dates) > 1 and dates[1].row - dates[0].row > _GAP:
        dates = dates[1:]  # a date of the title
    return dates


def _table(
    sheet: Sheet, dates: Sequence[Cell], *, is_across: bool, has_bare_months: bool
) -> Table | None:
    """Return the table that a column of dates belongs to, or None where it has no headings."""
    column = dates[0].column
    found = _header_rows(sheet, dates[0].row, column)
    if found is None:
        return None
    header_row, unit_row = found
    texts = {place: clean(str(cell.value)) for place, cell in headings_in(sheet, header_row)}
    named = [(place, text) for place, text in texts.items() if place != column]
    headings = [_heading(sheet, one, unit_row, dates) for one in named]
    others = tuple(one.text for one in headings if _holds_dates(one))
    return Table(
        sheet,
        is_across,
        "",
        header_row,
        column,
        texts.get(column, ""),
        tuple(dates),
        tuple(one for one in headings if one.text not in others),
        others,
        has_bare_months,
    )


def _holds_dates(heading: Heading) -> bool:
    """Return whether every cell of a column is a date."""
    cells = heading.cells
    return bool(cells) and all(_is_date(cell, has_bare_months=False) for cell in cells)


def _header_rows(sheet: Sheet, first: int, column: int) -> tuple[int, int | None] | None:
    """Return the row of the headings and that of the units, looking up from the first date."""
    rows = [
        row
        for row in range(first - 1, 0, -1)
        if any(place != column for place, _ in headings_in(sheet, row))
    ]
    rows = [row for row in rows if not _has_numbers(sheet, row)] or rows
    if not rows:
        return None
    below = [
        clean(str(cell.value)) for place, cell in headings_in(sheet, rows[0]) if place != column
    ]
    has_row_above = len(rows) > 1 and rows[0] - rows[1] == 1
    if has_row_above and all(is_unit_like(text) for text in below):
        return rows[1], rows[0]
    return rows[0], None


def _has_numbers(sheet: Sheet, row: int) -> bool:
    """Return whether a row above the dates holds readings, such as an example."""
    cells = sheet.by_row.get(row, [])
    return sum(is_number(cell) for cell in cells) * 2 > len(cells)


def _heading(
    sheet: Sheet, named: tuple[int, str], unit_row: int | None, dates: Sequence[Cell]
) -> Heading:
    """Return a heading with what stands below it."""
    column, text = named
    below = sheet.at(unit_row, column) if unit_row else None
    cells = tuple(cell for day in dates if (cell := sheet.at(day.row, column)))
    blanks = tuple(day.row for day in dates if sheet.at(day.row, column) is None)
    unit_text = clean(str(below.value)) if below else ""
    return Heading(column, text, unit_text, cells, sum(map(is_number, cells)), blanks)


def _title(sheet: Sheet, first: int) -> str:
    """Return the texts above the headings, the first few."""
    rows = [row for row in sheet.by_row if row < first][:_ROWS_SHOWN]
    texts = [clean(str(c.value)) for row in rows for c in sheet.by_row[row] if c.kind == "text"]
    return "; ".join(texts)
