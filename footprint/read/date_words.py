"""Dates in cells: the order of day and month is learned from the whole column, never guessed."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise
from typing import Literal

from footprint.base.finding import declare
from footprint.read.fault import Refusal, short
from footprint.read.sheet import Cell

DateOrder = Literal["day first", "month first"]
Precision = Literal["day", "month"]
ORDERS: tuple[DateOrder, DateOrder] = ("day first", "month first")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_NAMED = (
    r"(?P<month>jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?"
    r"|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\.?"
)
_YEAR = r"(?P<year>[0-9]{4}|[0-9]{2})"
_DAY = r"(?P<day>[0-9]{1,2})"
_MIDNIGHT = r"24(?=:00(?::00(?:\.0+)?)?Z?\Z)"
_CLOCK = re.compile(r"[ T](\d{1,2}):(\d{2})")
_HOUR = rf"(?P<hour>[01]?[0-9]|2[0-3]|{_MIDNIGHT})"
_TIME = rf"(?:[ T]+{_HOUR}:[0-5][0-9](?::[0-5][0-9](?:\.[0-9]+)?)?Z?)?"
_YEAR_FIRST = re.compile(rf"(?P<year>[0-9]{{4}})[-/.](?P<month>[0-9]{{1,2}})[-/.]{_DAY}{_TIME}")
_DAY_NAMED = re.compile(rf"{_DAY}[ .-]*{_NAMED}[ ,.-]*{_YEAR}{_TIME}", re.IGNORECASE)
_NAMED_DAY = re.compile(rf"{_NAMED} *{_DAY},? +(?P<year>[0-9]{{4}}){_TIME}", re.IGNORECASE)
_NUMERIC = re.compile(
    rf"(?P<first>[0-9]{{1,2}})(?P<sign>[./-])(?P<second>[0-9]{{1,2}})(?P=sign){_YEAR}{_TIME}"
)
_MONTH_NUMBER = re.compile(r"([0-9]{4})[-/]([0-9]{1,2})")
_NUMBER_MONTH = re.compile(r"([0-9]{1,2})[-/]([0-9]{4})")
_MONTH_NAMED = re.compile(rf"{_NAMED}[ ,./'-]*([0-9]{{4}}|[0-9]{{2}})", re.IGNORECASE)
_WEEK_OF_YEAR = re.compile(r"([0-9]{4})-?W([0-9]{2})", re.IGNORECASE)
_BARE_MONTH = re.compile(_NAMED, re.IGNORECASE)
_SERIAL_DAY_0 = date(1899, 12, 30)

DATE_NOT_UNDERSTOOD = declare(
    "date-not-understood",
    "stop",
    means="A cell of the date column holds readings beside it but no date that can be read.",
    effect="the readings of the row belong to no day and are not used",
    mend="write the date as 2025-03-31 (a month as 2025-03)",
    example='"31 Mrz", "March" or "45/13/2025"; mended: 2025-03-31',
)
AMBIGUOUS_DATE_ORDER = declare(
    "ambiguous-date-order",
    "stop",
    means="Nothing in a column of text dates tells whether the day or the month stands first.",
    effect="readings would land in other months",
    mend='add date_order = "day first" or date_order = "month first" to the entry in site.toml',
    example='"03/04/2025" alone; mended: 2025-04-03',
)
MIXED_DATES = declare(
    "mixed-dates",
    "stop",
    means="A date column holds both stored dates and texts such as 13/01/2025.",
    effect="a spreadsheet of another country has swapped day and month where it "
    "could, up to the 12th",
    mend="write every date of the column as 2025-01-13, after a look at the original",
    example="13/01/2025 as text below 1 December 2025 as a date; mended: "
    "2025-01-13 below 2025-01-12",
)
DATE_AS_NUMBER = declare(
    "date-as-number",
    "note",
    means="A cell of the date column shows a plain number that is the serial "
    "number of a day of the year.",
    effect="it was read as that day, counted from 30 December 1899",
    mend="give the cells a date format",
    example="45658 read as 2025-01-01; mended: the same cell with a date format",
)
DATE_AS_TEXT = declare(
    "date-as-text",
    "note",
    means="A cell of the date column of a workbook holds a date written as text.",
    effect="it was read as the date it spells",
    mend="nothing, if the date is right; a stored date sorts and filters better",
    example='"2025-01-31" as text',
)
TIME_LEFT_OUT = declare(
    "time-of-day-left-out",
    "note",
    means="Dates carry a time of day in a column of daily or monthly readings.",
    effect="each reading counts for the day of its date, whatever the hour",
    mend="nothing, if the day runs from that hour; else write the day that the reading belongs to",
    example="2025-03-31 06:00 read as 2025-03-31",
)
NOT_FIRST_OF_MONTH = declare(
    "not-the-first-of-a-month",
    "stop",
    means="A monthly reading or a stock is dated to another day than the first of a month.",
    effect="31 January may stand for January or for the stock on 1 February: a month apart",
    mend="write a month as 2025-01, a stock of the evening of 31 December as 1 January",
    example="2025-01-31 in monthly rows; mended: 2025-01",
)

MONTH_WITHOUT_YEAR = declare(
    "month-without-year",
    "note",
    means="A month is written without its year.",
    effect="it was read as the month of the year of the return",
    mend="nothing, if the sheet is of that year; a month written as 2025-03 can't be mistaken",
    example='"March" in a sheet for 2025, read as 2025-03',
)


@dataclass(frozen=True, slots=True)
class Dated:
    """The day that a cell names, with the notes that reading it took."""

    day: date
    notes: tuple[Refusal, ...] = ()


def dates_in(
    cells: Sequence[Cell], precision: Precision, year: int, order: DateOrder | None = None
) -> list[Dated | Refusal]:
    """Return the day that each cell of a date column names, or why it is refused.

    Args:
        cells: of the date column, from top to bottom. [cells]
        precision: day, or month where 2025-01 names a whole month. [text]
        year: of the return. [year]
        order: of day and month in texts with slashes, where the site file settles it. [text]

    Findings:
        date-not-understood: neither a stored date nor a text in the grammar.
        ambiguous-date-order: day and month can be exchanged, with different days.
        mixed-dates: stored dates and texts with slashes in one column.

    Source: definition
    """
    texts = [meanings(str(cell.value), precision) if cell.kind == "text" else {} for cell in cells]
    possible = {order} if order else _orders_possible(texts, year)
    is_any_stored = any(cell.kind == "date" for cell in cells)
    results: list[Dated | Refusal] = []
    for cell, found in zip(cells, texts, strict=True):
        if cell.kind == "text" and found and is_any_stored and len(set(found.values())) > 1:
            what = f'"{short(cell.written)}" is text, while other cells of the column hold dates'
            results.append(Refusal(MIXED_DATES, what))
        elif cell.kind == "text" and precision == "month" and (bare := _bare(cell, year)):
            results.append(bare)
        elif cell.kind == "text":
            results.append(_from_text(cell, found, possible))
        else:
            results.append(_from_value(cell, year))
    return results


def meanings(text: str, precision: Precision) -> dict[DateOrder, date]:
    """Return the day a text names under each order of day and month; empty if it names none.

    Args:
        text: as written. [text]
        precision: day, or month where 2025-01 names a whole month. [text]

    Source: definition
    """
    tidy = " ".join(text.split())
    if precision == "month" and (found := _month(tidy)):
        return dict.fromkeys(ORDERS, found)
    for pattern in (_YEAR_FIRST, _DAY_NAMED, _NAMED_DAY):
        if match := pattern.fullmatch(tidy):
            return _same(match["year"], match["month"], match["day"], match["hour"])
    if week := _WEEK_OF_YEAR.fullmatch(tidy):
        return _first_of_week(int(week[1]), int(week[2]))
    match = _NUMERIC.fullmatch(tidy)
    if not match:
        return {}
    day_first = _same(match["year"], match["second"], match["first"], match["hour"])
    if match["sign"] == ".":
        return day_first
    month_first = _same(match["year"], match["first"], match["second"], match["hour"])
    return {
        order: days[order]
        for order, days in zip(ORDERS, (day_first, month_first), strict=True)
        if days
    }


def _bare(cell: Cell, year: int) -> Dated | None:
    """Return the month of the year that a name without a year stands for."""
    match = _BARE_MONTH.fullmatch(" ".join(cell.written.split()))
    if not match:
        return None
    note = Refusal(MONTH_WITHOUT_YEAR, f"months are written without a year and read as of {year}")
    return Dated(date(year, _month_number(match["month"]), 1), (note,))


def _month(tidy: str) -> date | None:
    """Return the first day of a month written as 2025-01, 01/2025 or Jan 2025."""
    if match := _MONTH_NUMBER.fullmatch(tidy):
        return _day(match[1], match[2], "1")
    if match := _NUMBER_MONTH.fullmatch(tidy):
        return _day(match[2], match[1], "1")
    if match := _MONTH_NAMED.fullmatch(tidy):
        return _day(match[2], match[1], "1")
    return None


def _first_of_week(year: int, week: int) -> dict[DateOrder, date]:
    """Return the Monday of a week written as 2025-W05, under both orders."""
    try:
        return dict.fromkeys(ORDERS, date.fromisocalendar(year, week, 1))
    except ValueError:
        return {}


def _month_number(written: str) -> int:
    """Return 1 for January, Jan or 01, and so on."""
    return int(written) if written.isdecimal() else _MONTHS.index(written[:3].lower()) + 1


def _same(year: str, month: str, day: str, hour: str | None) -> dict[DateOrder, date]:
    """Return one day under both orders; the hour 24 is midnight of the next day."""
    found = _day(year, month, day)
    if found is None:
        return {}
    return dict.fromkeys(ORDERS, found + timedelta(days=1) if hour == "24" else found)


def _day(year: str, month: str, day: str) -> date | None:
    """Return the day, or None where the calendar has no such day; 25 stands for 2025."""
    whole_year = int(year) if len(year) > 2 else 2000 + int(year)  # noqa: PLR2004  digits of a century
    try:
        return date(whole_year, _month_number(month), int(day))
    except ValueError:
        return None


def _orders_possible(texts: Sequence[dict[DateOrder, date]], year: int) -> set[DateOrder]:
    """Return the orders that make every text a date; of two, the one that runs day after day."""
    understood = [found for found in texts if found]
    possible = {order for order in ORDERS if all(order in found for found in understood)}
    if len(possible) < len(ORDERS):
        return possible
    running = {
        order
        for order in ORDERS
        if len(understood) > 1
        and all(
            later[order] - earlier[order] == timedelta(days=1) and later[order].year == year
            for earlier, later in pairwise(understood)
        )
    }
    return running if len(running) == 1 else possible


def _from_text(
    cell: Cell, found: dict[DateOrder, date], possible: set[DateOrder]
) -> Dated | Refusal:
    """Return the day of a text cell under the orders that the column allows."""
    written = short(cell.written)
    days = {found[order] for order in possible or ORDERS if order in found}
    if not days:
        return Refusal(DATE_NOT_UNDERSTOOD, f'"{written}" is not a date')
    is_contradicted = not possible and len(found) == 1
    if is_contradicted or len(days) != 1:
        return _open(written, found)
    notes = (Refusal(DATE_AS_TEXT, "dates are written as text"), *_time_in(cell.written))
    return Dated(days.pop(), notes)


def _time_in(written: str) -> tuple[Refusal, ...]:
    """Return the note that a text names a time of day other than midnight."""
    match = _CLOCK.search(written)
    if match is None or (int(match[1]) % 24, int(match[2])) == (0, 0):
        return ()
    return (Refusal(TIME_LEFT_OUT, f"dates carry the time {int(match[1]):02d}:{match[2]}"),)


def _open(written: str, found: dict[DateOrder, date]) -> Refusal:
    """Return the refusal of a text in a column that leaves the order open, or has both."""
    meant = sorted(set(found.values()))
    if len(meant) > 1:
        what = f'"{written}" may be {meant[0].isoformat()} or {meant[1].isoformat()}'
        return Refusal(AMBIGUOUS_DATE_ORDER, what)
    (order,) = found
    what = f'"{written}" has the {order}, while other cells of the column have the other order'
    mend = "write every date of the column as 2025-01-31, after a look at the original"
    return Refusal(AMBIGUOUS_DATE_ORDER, what, mend=mend)


def _from_value(cell: Cell, year: int) -> Dated | Refusal:
    """Return the day of a stored date, or of a serial number that lies in the year."""
    if cell.kind == "date" and isinstance(cell.value, datetime):
        stored = cell.value + timedelta(
            seconds=0.5
        )  # the last digits of a serial must not change the day
        clock = stored.replace(microsecond=0).time()
        has_time = clock.hour or clock.minute
        notes = (Refusal(TIME_LEFT_OUT, f"dates carry the time {clock:%H:%M}"),) if has_time else ()
        return Dated(stored.date(), notes)
    if cell.kind == "number" and isinstance(cell.value, float) and cell.value.is_integer():
        first = (date(year, 1, 1) - _SERIAL_DAY_0).days
        last = (date(year + 1, 1, 1) - _SERIAL_DAY_0).days
        if first <= cell.value <= last:
            day = _SERIAL_DAY_0 + timedelta(days=int(cell.value))
            note = Refusal(DATE_AS_NUMBER, "plain numbers were read as serial numbers of days")
            return Dated(day, (note,))
    return Refusal(DATE_NOT_UNDERSTOOD, f'"{short(cell.written)}" is not a date')
