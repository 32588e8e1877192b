"""A table of hours or weeks as a table of days, each day with the cells that it was made from."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, time
from hashlib import sha256

from footprint.base.finding import Finding
from footprint.read.fault import Fault, Refusal, merged_findings, texts_in_words
from footprint.read.headings import Column
from footprint.read.holes import substitute_for
from footprint.read.roles import Purpose, kind_of
from footprint.read.rows import Rows
from footprint.read.series import Source
from footprint.read.sheet import Cell, Home, Sheet

_LEVELS = ("per cent", "temperature", "pressure", "pressure above atmosphere")
_DIGEST = 8


@dataclass(frozen=True, eq=False, slots=True)
class Day:
    """A day and the rows that it is made from.

    Attributes:
        day: the day. [date]
        rows: of its hours, or of its week. [1]
        share: what of the sum of the rows belongs to the day. [1]
    """

    day: date
    rows: tuple[int, ...]
    share: float = 1.0


@dataclass(frozen=True, eq=False, slots=True)
class DailyTable:
    """Days that take the place of the rows of a table.

    Attributes:
        sheet: with the headings of the table and a row for each day. [sheet]
        row_of: row of each day. [1]
        blocked: days that are refused for every column, with a finding of their own. [date]
        lacking: days that lack rows of hours, so that nothing can be summed up. [date]
        findings: what was found on the way. [findings]
    """

    sheet: Sheet
    row_of: dict[date, int]
    blocked: set[date] = field(default_factory=set)
    lacking: set[date] = field(default_factory=set)
    findings: list[Finding] = field(default_factory=list)


def is_level(purposes: Sequence[Purpose]) -> bool:
    """Return whether readings are states, of which a day has the mean and not the sum.

    Args:
        purposes: roles and uses of a meter. [text]

    Source: definition
    """
    return any(kind_of(purpose) in _LEVELS for purpose in purposes)


def empty_daily(column: Column, days: Sequence[Day]) -> DailyTable:
    """Return a table with a row for each day, without any reading yet.

    Args:
        column: of the table, with the last row of headings and units. [column]
        days: in order. [days]

    Source: definition
    """
    head = column.unit_row or column.header_row
    source = column.sheet
    cells = {place: cell for place, cell in source.cells.items() if place[0] <= head}
    homes: dict[int, Home] = {}
    row_of: dict[date, int] = {}
    for row, one in enumerate(days, start=head + 1):
        home = source.home(one.rows[0])
        homes[row] = home
        row_of[one.day] = row
        stamps = source.where(column.date_column, one.rows).cell
        moment = datetime.combine(one.day, time())
        place = (row, column.date_column)
        cells[place] = Cell(*place, "date", moment, one.day.isoformat(), own=stamps)
    sheet = replace(
        source, cells=cells, homes=homes, hidden_rows=frozenset(), merged=(), is_folded=True
    )
    return DailyTable(sheet, row_of)


def fill(table: DailyTable, source: Source, days: Sequence[Day], read: dict[int, float]) -> None:
    """Write the days of one column: sums of amounts, means of states.

    Args:
        table: of days; its sheet gets the cells. [table]
        source: of the rows that the days are made from. [source]
        days: in order. [days]
        read: number in each row that has one. [unit]

    Source: definition
    """
    sheet, number = source.column.sheet, source.column.column
    is_mean = is_level(source.purposes) or source.meter.counts == "rate"
    for one in days:
        if not all(row in read for row in one.rows):
            continue
        total = math.fsum(read[row] for row in one.rows)
        value = total / len(one.rows) if is_mean else total * one.share
        cells = [sheet.cells[(row, number)] for row in one.rows]
        place = (table.row_of[one.day], number)
        written = _written(cells, one.share if not is_mean else 1.0)
        table.sheet.cells[place] = Cell(
            *place, "number", value, written, own=_range(sheet, number, one.rows)
        )


def refuse(
    table: DailyTable,
    source: Source,
    days: Sequence[Day],
    faults: Sequence[Fault],
    why_missing: Callable[[Day, Sequence[int]], Refusal],
) -> list[Finding]:
    """Write why days of one column can't be given, and return what was found in other cells.

    Args:
        table: of days; its sheet gets the cells. [table]
        source: of the rows that the days are made from. [source]
        days: in order. [days]
        faults: of cells of the column. [faults]
        why_missing: the refusal of a day whose rows have empty cells. [function]

    Source: definition
    """
    sheet, number = source.column.sheet, source.column.column
    stops = {fault.row: fault for fault in faults if fault.refusal.code.level == "stop"}
    rest = [fault for fault in faults if fault.refusal.code.level != "stop"]
    for one in days:
        place = (table.row_of[one.day], number)
        found = [stops[row] for row in one.rows if row in stops]
        empty = [row for row in one.rows if (row, number) not in sheet.cells]
        if not found and not empty:
            continue
        code = found[0].refusal.code if found else None
        same = [fault for fault in found if fault.refusal.code is code]
        rows = [fault.row for fault in same] or empty
        refusal = same[0].refusal if same else why_missing(one, empty)
        written = texts_in_words([fault.read for fault in same])
        if not substitute_for(source.substitutes, one.day):
            rest += [fault for fault in found if fault.refusal.code is not code]
        own = sheet.where(number, rows).cell
        table.sheet.cells[place] = Cell(*place, "refused", refusal, written, own=own)
    return merged_findings(rest)


def daily_rows(rows: Rows, table: DailyTable) -> Rows:
    """Return the rows of a table of days, with the days that are refused.

    Args:
        rows: of the table that the days are made from. [rows]
        table: of days. [table]

    Source: definition
    """
    return Rows(
        days={row: day for day, row in table.row_of.items()},
        blocked=set(table.blocked),
        left_out=rows.left_out,
    )


def _range(sheet: Sheet, column: int, rows: Sequence[int]) -> str:
    """Return the cells of a day as a range, quickly where they follow each other."""
    first, last = min(rows), max(rows)
    if first == last:
        return sheet.address(first, column)
    homes = sheet.home(first), sheet.home(last)
    is_run = last - first == homes[1].row - homes[0].row == len(rows) - 1 and (
        homes[0].file,
        homes[0].name,
    ) == (homes[1].file, homes[1].name)
    if is_run:
        return f"{sheet.address(first, column)}:{sheet.address(last, column)}"
    return sheet.where(column, rows).cell


def _written(cells: Sequence[Cell], share: float) -> str:
    """Return the text of one cell, or the count and the fingerprint of several."""
    if len(cells) == 1:
        text = cells[0].written
        shown = f"{text} from {cells[0].formula}" if cells[0].formula else text
        return shown if share == 1 else f"a seventh of {shown}"
    texts = "\n".join(cell.written for cell in cells)
    return f"{len(cells)} readings, sha256 {sha256(texts.encode()).hexdigest()[:_DIGEST]}"
