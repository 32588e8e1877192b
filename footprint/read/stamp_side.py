"""Whether the stamps of a column name the start or the end of their hour or week."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date, datetime, timedelta
from typing import Literal

from footprint.base.finding import declare
from footprint.read.fault import Refusal
from footprint.read.headings import Column
from footprint.read.rows import Rows
from footprint.read.site import Meter

Side = Literal["start", "end"]
_END = re.compile(r"\b(end|ends|ended|ending|until|w/e)\b", re.IGNORECASE)
_START = re.compile(
    r"\b(start|starts|starting|begin|begins|beginning|from|commencing|w/c)\b", re.IGNORECASE
)
_HOUR = timedelta(hours=1)
_DAY = timedelta(days=1)
_WEEK = timedelta(days=7)

STAMPS_UNCLEAR = declare(
    "start-or-end-unclear",
    "stop",
    means="Nothing tells whether stamps name the start or the end of their hour or week.",
    effect="one hour of each month, or one week, would count in another",
    mend='add stamps = "start" or stamps = "end" to the entry in site.toml',
    example="hours from 03:00 to 20:00 alone: the first may run from 02:00 or from 03:00; "
    'mended: stamps = "end"',
)


def side_of_hours(column: Column, rows: Rows, source: Meter, opening: timedelta) -> Side | Refusal:
    """Return which side of its hour a stamp names, or why the table leaves it open.

    A file from 00:00 to 23:00 is stamped with starts, one from 01:00 to 24:00 with ends.

    Args:
        column: of the table. [column]
        rows: with their stamps. [rows]
        source: the entry of the site file. [entry]
        opening: from midnight to the start of a day. [timedelta]

    Findings:
        start-or-end-unclear

    Source: definition
    """
    said = _said(column, source)
    shown: set[Side] = set()
    for stamps in _by_file(column, rows):
        first, last = min(stamps) - opening, max(stamps) - opening
        if first == _midnight(first) and last + _HOUR == _midnight(last + _HOUR):
            shown.add("start")
        if first - _HOUR == _midnight(first - _HOUR) and last == _midnight(last):
            shown.add("end")
    if rows.at_24:
        shown.add("end")
    return _agreed(said, shown, "hour")


def side_of_weeks(column: Column, rows: Rows, source: Meter, year: int) -> Side | Refusal:
    """Return which side of its week a date names, or why the table leaves it open.

    Only weeks that cover the whole year tell it.

    Args:
        column: of the table. [column]
        rows: with the day of each. [rows]
        source: the entry of the site file. [entry]
        year: of the return. [year]

    Findings:
        start-or-end-unclear

    Source: definition
    """
    shown: set[Side] = set()
    if rows.days:
        first, last = min(rows.days.values()), max(rows.days.values())
        opening, closing = date(year, 1, 1), date(year, 12, 31)
        if opening - _WEEK < first <= opening and last <= closing <= last + _WEEK - _DAY:
            shown.add("start")
        if first - _WEEK + _DAY <= opening <= first and closing <= last < closing + _WEEK:
            shown.add("end")
    return _agreed(_said(column, source), shown, "week")


def _said(column: Column, source: Meter) -> Side | None:
    """Return what the site file says, else what the heading says; None where both are silent."""
    if source.stamps:
        return source.stamps
    is_end, is_start = _END.search(column.date_heading), _START.search(column.date_heading)
    if bool(is_end) == bool(is_start):
        return None
    return "end" if is_end else "start"


def _by_file(column: Column, rows: Rows) -> Iterable[Sequence[datetime]]:
    """Return the stamps of each file and sheet of a table."""
    found: dict[tuple[str, str], list[datetime]] = {}
    for row, stamp in rows.stamps.items():
        home = column.sheet.home(row)
        found.setdefault((home.file, home.name), []).append(stamp)
    return found.values()


def _midnight(moment: datetime) -> datetime:
    """Return the start of a day."""
    return moment.replace(hour=0, minute=0)


def _agreed(said: Side | None, shown: set[Side], period: str) -> Side | Refusal:
    """Return the side that all that speak agree on."""
    spoken = shown | ({said} if said else set())
    if len(spoken) == 1:
        return spoken.pop()
    if said and len(shown) > 1:
        return said
    what = f"the stamps may name the start or the end of each {period}"
    if said:
        other = "end" if said == "start" else "start"
        what = f"the {said} of each {period} is declared, but the stamps run like {other}s"
    return Refusal(STAMPS_UNCLEAR, what)
