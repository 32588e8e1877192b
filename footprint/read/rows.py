"""The rows of a table: which hold readings of which day, which are totals, which are refused."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, datetime

from footprint.read.date_words import (
    DATE_AS_TEXT,
    NOT_FIRST_OF_MONTH,
    Dated,
    DateOrder,
    Precision,
    dates_in,
)
from footprint.read.fault import Fault, Refusal, fault_in
from footprint.read.headings import Column, clean, tail_of
from footprint.read.plain_numbers import is_equal, number_of
from footprint.read.row_codes import (
    DATE_OUTSIDE_YEAR,
    IMPLAUSIBLE_DATE,
    REPEATED_DATE,
    ROW_WITHOUT_DATE,
    TOTAL_WITHOUT_LABEL,
)
from footprint.read.sheet import Cell
from footprint.read.stamps import Stamped, stamps_in

_TOTAL = re.compile(
    r"(?P<sum>((grand|sub|monthly|weekly|yearly|annual)[ -]?)?(total|sum)s?|subtotal|week \d+)\b"
    r"|(?P<mean>average|avg|mean)\b|(?P<max>max(imum)?)\b|(?P<min>min(imum)?)\b",
    re.IGNORECASE,
)

_EXAMPLE = re.compile(r"example\b.*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class TotalRow:
    """A row that sums up the rows above it."""

    row: int
    kind: str  # sum, mean, max or min


@dataclass(frozen=True, eq=False, slots=True)
class Rows:
    """The rows of a table that hold readings.

    Attributes:
        days: the day of each row, in the order of the rows. [date]
        blocked: days that are refused for every column, with a finding of their own. [date]
        totals: rows set aside. [rows]
        stamps: of hourly rows: the moment in each row's stamp. [datetime]
        at_24: hourly rows stamped 24:00. [rows]
        faults: of the column of dates. [faults]
        left_out: how many rows were set aside, by reason. [1]
        examples: rows marked as examples in the column of dates. [rows]
    """

    days: dict[int, date] = field(default_factory=dict)
    blocked: set[date] = field(default_factory=set)
    totals: list[TotalRow] = field(default_factory=list)
    stamps: dict[int, datetime] = field(default_factory=dict)
    at_24: set[int] = field(default_factory=set)
    faults: list[Fault] = field(default_factory=list)
    left_out: Counter[str] = field(default_factory=Counter)
    examples: set[int] = field(default_factory=set)


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the dates of a table must be.

    Attributes:
        rows: hourly, daily, weekly, monthly, tickets, stock or samples. [text]
        year: of the return. [year]
        order: of day and month in texts, where the site file settles it. [text]
        span: first and last day wanted, where the rows are not those of the year. [date]
        has_status: rows of one date are told apart by their status. [flag]
    """

    rows: str
    year: int
    order: DateOrder | None = None
    span: tuple[date, date] | None = None
    has_status: bool = False


def rows_of(column: Column, columns: Sequence[int], wanted: Wanted) -> Rows:
    """Return the rows of a table that hold readings in any of its columns.

    Args:
        column: one of its columns, for the place of headings and dates. [column]
        columns: all columns of the table that are read, counted from 1. [1]
        wanted: what the dates must be. [text]

    Findings:
        repeated-date, date-outside-year, implausible-date, row-without-date, total-without-label.
        the codes of `date_words`.

    Source: definition
    """
    rows = Rows()
    dated: list[Cell] = []
    undated: list[list[Cell]] = []
    for row, cells in column.sheet.by_row.items():
        if row <= (column.unit_row or column.header_row):
            continue
        day = column.sheet.at(row, column.date_column)
        values = [cell for cell in cells if cell.column in columns]
        is_without_day = day is None or day is cells[0]
        if is_without_day and (kind := _total_kind(cells[0])):
            rows.totals.append(TotalRow(row, kind))
        elif day is not None and day.kind == "text" and _EXAMPLE.match(clean(str(day.value))):
            rows.examples.add(row)
            rows.left_out["example row"] += 1
        elif day is not None and not _is_heading(day, column):
            dated.append(day)
        elif day is None and any(number_of(cell) is not None for cell in values):
            undated.append(values)
    _take_dated(rows, column, dated, columns, wanted)
    for values in undated:
        _take_undated(rows, column, values)
    rows.left_out["row of totals"] = len(rows.totals)
    return rows


def _total_kind(cell: Cell) -> str:
    """Return sum, mean, max or min for the label of a row of totals, else nothing."""
    match = _TOTAL.match(clean(str(cell.value))) if cell.kind == "text" else None
    return str(match.lastgroup) if match else ""


def _is_heading(cell: Cell, column: Column) -> bool:
    """Return whether the heading of the dates is repeated further down, as on printed pages."""
    return cell.kind == "text" and tail_of(str(cell.value), column.date_heading) is not None


def _take_dated(
    rows: Rows, column: Column, dated: list[Cell], columns: Sequence[int], wanted: Wanted
) -> None:
    """Sort rows with something in the column of dates into days, faults and remarks."""
    is_month = wanted.rows == "monthly"
    found = _days_in(rows, dated, wanted)
    noted: list[Fault] = []
    for cell, one in zip(dated, found, strict=True):
        is_used = any(column.sheet.at(cell.row, number) is not None for number in columns)
        if isinstance(one, Dated):
            rows.days[cell.row] = one.day
            is_plain = column.sheet.is_text or is_month  # 2025-01 as text is what we ask for
            notes = one.notes if is_used else ()
            noted += [
                _fault(column, cell, note)
                for note in notes
                if not (is_plain and note.code is DATE_AS_TEXT)
            ]
        elif is_used:
            rows.faults.append(_fault(column, cell, one))
        else:
            rows.left_out["remark"] += 1
    rows.faults.extend(noted)
    _set_aside_other_years(rows, column, columns, wanted)
    if wanted.rows in ("monthly", "stock"):
        _refuse_other_days(rows, column)
    if wanted.rows not in ("tickets", "invoices", "hourly") and not wanted.has_status:
        _refuse_repeated(rows, column, columns)


def _days_in(rows: Rows, dated: list[Cell], wanted: Wanted) -> list[Dated | Refusal]:
    """Return the day of each cell in the column of dates; of hourly rows keep the hour too."""
    if wanted.rows != "hourly":
        precision: Precision = "month" if wanted.rows == "monthly" else "day"
        return dates_in(dated, precision, wanted.year, wanted.order)
    found = stamps_in(dated, wanted.year, wanted.order)
    for cell, one in zip(dated, found, strict=True):
        if isinstance(one, Stamped):
            rows.stamps[cell.row] = one.moment
            if one.is_24:
                rows.at_24.add(cell.row)
    return [
        Dated(one.moment.date(), one.notes) if isinstance(one, Stamped) else one for one in found
    ]


def _fault(column: Column, cell: Cell, refusal: Refusal) -> Fault:
    """Return a fault in the column of dates."""
    return fault_in(column.sheet, column.date_heading, cell, refusal)


def _day_cell(column: Column, row: int) -> Cell:
    """Return the cell of the date in a row that has one."""
    return column.sheet.cells[(row, column.date_column)]


def _set_aside_other_years(
    rows: Rows, column: Column, columns: Sequence[int], wanted: Wanted
) -> None:
    """Set rows of other years aside; between rows of the year they are slips of the pen."""
    inside = [row for row, day in rows.days.items() if _is_wanted(day, wanted)]
    wanted_rows = set(inside)
    for row, day in list(rows.days.items()):
        if row in wanted_rows:
            continue
        if all(column.sheet.at(row, number) is None for number in columns):
            del rows.days[row]  # an index of 1 January stands in the row; these columns are empty
            continue
        is_between = bool(inside) and inside[0] < row < inside[-1]
        is_far = abs(day.year - wanted.year) > 1
        if is_between or is_far:
            what = f"{day.isoformat()} is not in {wanted.year}, the year of the return"
            refusal = Refusal(IMPLAUSIBLE_DATE, what)
        else:
            rows.left_out["row of another year"] += 1
            refusal = Refusal(DATE_OUTSIDE_YEAR, f"rows are not dated in {wanted.year}")
        rows.faults.append(_fault(column, _day_cell(column, row), refusal))
        del rows.days[row]


def _is_wanted(day: date, wanted: Wanted) -> bool:
    """Return whether a day counts for the return; stocks also on the first of the next year."""
    if wanted.span is not None:
        return wanted.span[0] <= day <= wanted.span[1]
    if wanted.rows == "weekly":  # weeks that begin before the year or end after it
        return date(wanted.year - 1, 12, 26) <= day <= date(wanted.year + 1, 1, 6)
    if wanted.rows in ("stock", "hourly"):  # the last hour may be stamped with its end
        return date(wanted.year, 1, 1) <= day <= date(wanted.year + 1, 1, 1)
    if (
        wanted.rows == "samples"
    ):  # the last sample before the year and the first after it hold in it
        return abs(day.year - wanted.year) <= 1
    return day.year == wanted.year


def _refuse_other_days(rows: Rows, column: Column) -> None:
    """Refuse dates of monthly rows and stocks that are not the first of a month."""
    for row, day in list(rows.days.items()):
        if day.day != 1:
            what = "dates are not the first of a month"
            cell = _day_cell(column, row)
            rows.faults.append(_fault(column, cell, Refusal(NOT_FIRST_OF_MONTH, what)))
            rows.blocked.add(day.replace(day=1))
            del rows.days[row]


def _refuse_repeated(rows: Rows, column: Column, columns: Sequence[int]) -> None:
    """Refuse days that stand in more than one row with readings."""
    filled = {
        row: day
        for row, day in rows.days.items()
        if any(column.sheet.at(row, number) is not None for number in columns)
    }
    times = Counter(filled.values())
    for row, day in filled.items():
        if times[day] > 1:
            rows.blocked.add(day)
            del rows.days[row]
            if what := _repeat_in_words(column, row, [one for one in filled if filled[one] == day]):
                fault = _fault(column, _day_cell(column, row), Refusal(REPEATED_DATE, what))
                rows.faults.append(fault)
    for row, day in list(rows.days.items()):
        if row not in filled and times[day]:
            del rows.days[row]  # the same day without readings beside the row that has them


def _repeat_in_words(column: Column, row: int, same: list[int]) -> str:
    """Return what to say of a row of a repeated date; nothing where a row further down says it."""
    sheet = column.sheet
    homes = {(sheet.home(one).file, sheet.home(one).name) for one in same}
    if len(homes) == 1:
        return "a date stands in more than one row"
    others = sheet.where(column.date_column, [one for one in same if one < row] or same).words
    return f"a date stands also in {others}" if row == same[-1] else ""


def _take_undated(rows: Rows, column: Column, values: list[Cell]) -> None:
    """Set a row without date aside where it holds sums, else refuse it."""
    sheet, row = column.sheet, values[0].row
    above = [other for other in rows.days if other < row]
    sums = {
        cell.column: sum(number_of(sheet.at(other, cell.column)) or 0.0 for other in above)
        for cell in values
    }
    is_total = len(above) > 1 and all(
        (number := number_of(cell)) is not None and is_equal(number, sums[cell.column], cell)
        for cell in values
    )
    if is_total:
        rows.totals.append(TotalRow(row, "sum"))
        refusal = Refusal(TOTAL_WITHOUT_LABEL, "a row without date holds the sums of its columns")
    else:
        refusal = Refusal(ROW_WITHOUT_DATE, "readings stand beside an empty date")
    texts = ", ".join(cell.written for cell in values)
    rows.faults.append(Fault(refusal, sheet, column.date_heading, row, column.date_column, texts))
