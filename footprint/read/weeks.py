"""Weeks as days: each carries a seventh of its week, and it is said what that may move."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta

from footprint.base.finding import Finding, declare
from footprint.base.units import label
from footprint.read.daily import Day, is_level
from footprint.read.fault import Fault, Refusal, fault_in
from footprint.read.headings import Column
from footprint.read.rows import Rows
from footprint.read.series import Source

_DAYS_OF_A_WEEK = 7

WEEKS_OVERLAP = declare(
    "weeks-overlap",
    "stop",
    means="Two rows of weekly readings are dated less than a week apart.",
    effect="days would count twice; those that both weeks cover are not used",
    mend="write the date of the week into the cell, or give the readings by day",
    example="2025-03-03 and 2025-03-08 in weekly rows; mended: 2025-03-10",
)
WEEK_ACROSS_MONTHS = declare(
    "week-across-months",
    "note",
    means="Weekly readings are split where a week crosses the end of a month.",
    effect="each day carries a seventh of its week, whatever was used on it",
    mend="nothing, if that is fine enough; else give the readings by day",
    example="a week from 27 January to 2 February",
)


@dataclass(frozen=True, eq=False, slots=True)
class Weeks:
    """The days of the weeks of a year.

    Attributes:
        days: of the year, in order. [days]
        blocked: days that two weeks cover. [date]
        faults: of dates. [faults]
    """

    days: list[Day] = field(default_factory=list)
    blocked: set[date] = field(default_factory=set)
    faults: list[Fault] = field(default_factory=list)


def weeks_of(column: Column, rows: Rows, *, is_end: bool, year: int) -> Weeks:
    """Return the days of each week that lie in the year.

    Args:
        column: of the table, for the place of its dates. [column]
        rows: with the date of each week. [rows]
        is_end: a date names the last day of its week, else the first. [flag]
        year: of the return. [year]

    Findings:
        weeks-overlap

    Source: definition
    """
    found = Weeks()
    row_of: dict[date, int] = {}
    for row, stamp in sorted(rows.days.items(), key=lambda pair: pair[1]):
        first = stamp - timedelta(days=_DAYS_OF_A_WEEK - 1) if is_end else stamp
        week = [first + timedelta(days=place) for place in range(_DAYS_OF_A_WEEK)]
        twice = [day for day in week if day in row_of]
        if twice:
            found.blocked.update(twice)
            what = f"the week before reaches to {twice[-1].isoformat()}"
            cell = column.sheet.cells[(row, column.date_column)]
            refusal = Refusal(WEEKS_OVERLAP, what)
            found.faults.append(fault_in(column.sheet, column.date_heading, cell, refusal))
        row_of.update(dict.fromkeys(week, row))
    found.days.extend(
        Day(day, (row,), 1 / _DAYS_OF_A_WEEK)
        for day, row in sorted(row_of.items())
        if day.year == year
    )
    return found


def split_weeks(source: Source, days: Sequence[Day], read: dict[int, float]) -> list[Finding]:
    """Return the note on the weeks of a meter that cross the end of a month, with its bound.

    A week that was used up wholly on one side of the month's end moves the larger part of it.

    Args:
        source: of the weeks. [source]
        days: of the year. [days]
        read: amount of each week. [unit]

    Findings:
        week-across-months

    Source: definition
    """
    if is_level(source.purposes):
        return []
    months: dict[int, list[int]] = {}
    for one in days:
        months.setdefault(one.rows[0], []).append(one.day.month)
    crossing = {
        row: part
        for row, found in months.items()
        if row in read and (part := _larger_part(found)) < 1
    }
    if not crossing:
        return []
    most = max(abs(read[row]) * part for row, part in crossing.items())
    unit = label(source.unit)
    crossed = f"{len(crossing)} weeks cross the end of a month"
    what = f"{source.meter.tag}: {crossed} and are split by days"
    why = (
        f"up to {most:.6g} {unit} may count on the wrong side of a month's end; "
        "a week across the end of the year moves the year by as much"
    )
    column = source.column
    where = column.sheet.where(column.column, sorted(crossing), column.heading)
    return [WEEK_ACROSS_MONTHS.at(where, what, why=why)]


def _larger_part(months: Sequence[int]) -> float:
    """Return the larger part of a week on one side of a month's end; days of other years lack."""
    outside = _DAYS_OF_A_WEEK - len(months)
    return max(outside, *(months.count(month) for month in set(months))) / _DAYS_OF_A_WEEK
