"""Stamps of hourly rows: a day and a full hour, in one cell."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from footprint.base.finding import declare
from footprint.read.date_words import (
    DATE_AS_NUMBER,
    DATE_AS_TEXT,
    DATE_NOT_UNDERSTOOD,
    Dated,
    DateOrder,
    dates_in,
)
from footprint.read.fault import Refusal, short
from footprint.read.sheet import Cell

_CLOCK = re.compile(
    r"(?P<day>\S.*?)[ T]+(?P<hour>[0-9]{1,2}):(?P<minute>[0-9]{2})"
    r"(?::(?P<second>[0-9]{2})(?:\.0+)?)?(?: ?(?P<half>[ap])\.?m\.?)?Z?",
    re.IGNORECASE,
)
_SERIAL_DAY_0 = datetime(1899, 12, 30)  # noqa: DTZ001  the clock of the sheet
_NOON = 12
_MIDNIGHT = 24
_HALF_SECOND = timedelta(seconds=0.5)  # the last digits of a serial must not change the hour

TIME_OFF_THE_HOUR = declare(
    "time-off-the-hour",
    "stop",
    means="A stamp in a table of hourly readings is not a full hour.",
    effect="nothing tells which hour the reading belongs to; it counts in none",
    mend="export the readings by full hours, or add them up by day and set rows = daily",
    example="2025-03-04 02:15 in a table of hours; mended: 2025-03-04 02:00",
)


@dataclass(frozen=True, slots=True)
class Stamped:
    """The moment that a cell names, with the notes that reading it took.

    Attributes:
        moment: on the clock of the sheet; 24:00 is the next day's 00:00. [datetime]
        is_24: the cell says 24:00, which only the end of an hour can be. [flag]
        notes: what was chosen. [refusals]
    """

    moment: datetime
    is_24: bool = False
    notes: tuple[Refusal, ...] = ()


def stamps_in(cells: Sequence[Cell], year: int, order: DateOrder | None) -> list[Stamped | Refusal]:
    """Return the moment that each cell of a column of stamps names, or why it is refused.

    Args:
        cells: of the date column, from top to bottom. [cells]
        year: of the return. [year]
        order: of day and month in texts with slashes, where the site file settles it. [text]

    Findings:
        time-off-the-hour: minutes, or seconds.
        the codes of `date_words`.

    Source: definition
    """
    parted = [_CLOCK.fullmatch(" ".join(cell.written.split())) for cell in cells]
    days = _days(cells, parted, year, order)
    return [
        _full_hour(
            cell, _from_text(cell, match, days) if cell.kind == "text" else _stored(cell, year)
        )
        for cell, match in zip(cells, parted, strict=True)
    ]


def _days(
    cells: Sequence[Cell],
    parted: Sequence[re.Match[str] | None],
    year: int,
    order: DateOrder | None,
) -> dict[str, Dated | Refusal]:
    """Return the day of each different text in front of a time; the column settles the order."""
    texts = {
        match["day"]: cell
        for cell, match in zip(cells, parted, strict=True)
        if match and cell.kind == "text"
    }
    days = [Cell(one.row, one.column, "text", text, text) for text, one in texts.items()]
    stored = next((cell for cell in cells if cell.kind == "date"), None)
    found = dates_in([*days, *([stored] if stored else [])], "day", year, order)
    return dict(zip(texts, found, strict=False))


def _from_text(
    cell: Cell, match: re.Match[str] | None, days: dict[str, Dated | Refusal]
) -> Stamped | Refusal:
    """Return the moment of a text such as 2025-03-04 02:00."""
    if match is None:
        return Refusal(DATE_NOT_UNDERSTOOD, f'"{short(cell.written)}" is not a date with an hour')
    found = days[match["day"]]
    if isinstance(found, Refusal):
        return found
    hour, minute, second = (int(match[name] or 0) for name in ("hour", "minute", "second"))
    if match["half"]:
        is_clock = 1 <= hour <= _NOON
        hour = hour % _NOON + (_NOON if match["half"].lower() == "p" else 0)
    else:
        is_clock = hour <= _MIDNIGHT and (hour < _MIDNIGHT or not minute + second)
    if not is_clock or max(minute, second) >= 60:  # noqa: PLR2004  minutes of an hour
        return Refusal(DATE_NOT_UNDERSTOOD, f'"{short(cell.written)}" is no time of day')
    start = datetime.combine(found.day, time())
    moment = start + timedelta(hours=hour, minutes=minute, seconds=second)
    note = Refusal(DATE_AS_TEXT, "dates are written as text")
    return Stamped(moment, hour == _MIDNIGHT, (note,))


def _stored(cell: Cell, year: int) -> Stamped | Refusal:
    """Return the moment of a stored date, or of a serial number that lies in the year."""
    if isinstance(cell.value, datetime):
        return Stamped((cell.value + _HALF_SECOND).replace(microsecond=0))
    if isinstance(cell.value, float):
        span = (date(year, 1, 1), date(year + 1, 1, 2))
        first, last = ((day - _SERIAL_DAY_0.date()).days for day in span)
        if first <= cell.value < last:
            moment = _SERIAL_DAY_0 + timedelta(days=cell.value) + _HALF_SECOND
            note = Refusal(DATE_AS_NUMBER, "plain numbers were read as serial numbers of days")
            return Stamped(moment.replace(microsecond=0), notes=(note,))
    return Refusal(DATE_NOT_UNDERSTOOD, f'"{short(cell.written)}" is not a date with an hour')


def _full_hour(cell: Cell, found: Stamped | Refusal) -> Stamped | Refusal:
    """Return a stamp of a full hour, or why it is none."""
    if isinstance(found, Stamped) and (found.moment.minute or found.moment.second):
        return Refusal(TIME_OFF_THE_HOUR, f'"{short(cell.written)}" is not a full hour')
    return found
