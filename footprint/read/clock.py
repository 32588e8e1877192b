"""The hours of each day: which row holds which hour, on a clock that may be put forward or back."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from footprint.base.finding import declare
from footprint.read.fault import Fault, Refusal, fault_in
from footprint.read.headings import Column
from footprint.read.row_codes import DATE_OUTSIDE_YEAR
from footprint.read.rows import Rows

_HOUR = timedelta(hours=1)
_HOURS_OF_A_DAY = 24

REPEATED_HOUR = declare(
    "repeated-hour",
    "stop",
    means="An hour stands in more than one row.",
    effect="it may be the night the clocks go back, or a row too many; the day is not summed up",
    mend="keep one row an hour; where the clocks went back, set time_zone in site.toml",
    example='2025-10-26 01:00 twice; mended: time_zone = "Europe/Dublin"',
)
HOUR_NOT_ON_THE_CLOCK = declare(
    "hour-not-on-the-clock",
    "stop",
    means="A reading is stamped with an hour that the clocks of its time zone left out.",
    effect="the stamps are of another clock, such as winter time all year: days would be cut "
    "an hour off",
    mend="remove time_zone from the entry in site.toml if the clock of the meter is never put "
    "forward, else empty the row",
    example='2025-03-30 01:00 with time_zone = "Europe/Dublin"',
)


@dataclass(frozen=True, eq=False, slots=True)
class Changes:
    """Hours that the clocks of a year leave out or pass twice."""

    left_out: frozenset[datetime] = frozenset()
    passed_twice: frozenset[datetime] = frozenset()


@dataclass(frozen=True, eq=False, slots=True)
class Hours:
    """The rows of each day of a year.

    Attributes:
        rows: by day: rows with the readings of its hours, in order. [1]
        lacking: by day: hours without a row, in words. [text]
        blocked: days with a finding of their own. [date]
        faults: of stamps. [faults]
        left_out: rows that belong to no day of the year. [1]
    """

    rows: dict[date, list[int]] = field(default_factory=dict)
    lacking: dict[date, list[str]] = field(default_factory=dict)
    blocked: set[date] = field(default_factory=set)
    faults: list[Fault] = field(default_factory=list)
    left_out: list[int] = field(default_factory=list)


@dataclass(frozen=True, eq=False, slots=True)
class Clock:
    """How stamps become hours of days.

    Attributes:
        opening: from midnight to the start of a day. [timedelta]
        is_end: a stamp names the end of its hour. [flag]
        changes: of the time zone; None where the clock is not known to change. [changes]
        year: of the return. [year]
    """

    opening: timedelta
    is_end: bool
    changes: Changes | None
    year: int


def changes_of(zone: ZoneInfo, year: int) -> Changes:
    """Return the hours that the clocks of a zone leave out or pass twice in a year.

    Args:
        zone: such as Europe/Dublin. [zone]
        year: of the return. [year]

    Source: IANA time zone database, as the standard library of the language reads it
    """
    first = datetime(year, 1, 1)  # noqa: DTZ001  hours on the wall
    left_out: set[datetime] = set()
    passed_twice: set[datetime] = set()
    for day in range((date(year + 1, 1, 2) - first.date()).days):
        start = first + timedelta(days=day)
        if start.replace(tzinfo=zone).utcoffset() == (
            (start + timedelta(days=1)).replace(tzinfo=zone).utcoffset()
        ):
            continue
        for hour in (start + place * _HOUR for place in range(_HOURS_OF_A_DAY)):
            before = hour.replace(tzinfo=zone, fold=0).utcoffset()
            after = hour.replace(tzinfo=zone, fold=1).utcoffset()
            if before is not None and after is not None and before != after:
                (passed_twice if before > after else left_out).add(hour)
    return Changes(frozenset(left_out), frozenset(passed_twice))


def hours_of(column: Column, rows: Rows, columns: set[int], clock: Clock) -> Hours:
    """Return the rows of the hours of each day of the year.

    Args:
        column: of the table, for the place of its stamps. [column]
        rows: with their stamps. [rows]
        columns: of readings; a row without any of them is no repeat. [1]
        clock: how stamps become hours. [clock]

    Findings:
        repeated-hour, hour-not-on-the-clock, date-outside-year.

    Source: definition
    """
    found = Hours()
    slots: dict[datetime, list[int]] = {}
    for row in rows.days:
        start = rows.stamps[row] - (_HOUR if clock.is_end else timedelta())
        if (start - clock.opening).year == clock.year:
            slots.setdefault(start, []).append(row)
        else:
            found.left_out.append(row)
    filled = _filled(column, slots, columns)
    _tell(found, column, found.left_out, DATE_OUTSIDE_YEAR.code, clock)
    day = date(clock.year, 1, 1)
    while day.year == clock.year:
        _take_day(found, column, filled, day, clock)
        day += timedelta(days=1)
    return found


def _filled(
    column: Column, slots: dict[datetime, list[int]], columns: set[int]
) -> dict[datetime, list[int]]:
    """Return the rows of each hour; of several, those that hold a reading."""
    cells = column.sheet.cells
    filled: dict[datetime, list[int]] = {}
    for start, rows in slots.items():
        held = (
            rows
            if len(rows) == 1
            else [row for row in rows if any((row, one) in cells for one in columns)]
        )
        filled[start] = held or rows[:1]
    return filled


def _tell(found: Hours, column: Column, rows: list[int], code: str, clock: Clock) -> None:
    """Keep a fault of stamps, once for each row."""
    refusals = {
        DATE_OUTSIDE_YEAR.code: Refusal(
            DATE_OUTSIDE_YEAR, f"hours belong to no day of {clock.year}"
        ),
        HOUR_NOT_ON_THE_CLOCK.code: Refusal(
            HOUR_NOT_ON_THE_CLOCK, "the clocks of the time zone left this hour out"
        ),
        REPEATED_HOUR.code: Refusal(REPEATED_HOUR, "an hour stands in more than one row"),
    }
    found.faults.extend(
        fault_in(
            column.sheet,
            column.date_heading,
            column.sheet.cells[(row, column.date_column)],
            refusals[code],
        )
        for row in rows
    )


def _take_day(
    found: Hours, column: Column, filled: dict[datetime, list[int]], day: date, clock: Clock
) -> None:
    """Sort the rows of one day by hour and note the hours that lack or stand twice."""
    first = datetime.combine(day, time()) + clock.opening
    hours = [first + place * _HOUR for place in range(_HOURS_OF_A_DAY)]
    twice = _near(clock, hours, is_twice=True)
    out = _near(clock, hours, is_twice=False)
    lacking = [hour for hour in hours if hour not in filled]
    repeated = [hour for hour in hours if len(filled.get(hour, ())) > 1]
    rows = [row for hour in hours for row in filled.get(hour, ())]
    if out:
        lacking = _without_one(lacking, out)
        rows = _without_left_out(found, column, filled, rows, (hours, clock))
    if twice and len(repeated) == 1 and repeated[0] in twice and len(filled[repeated[0]]) == 2:  # noqa: PLR2004  passed twice
        repeated = []
    elif twice and not repeated and len(lacking) < _HOURS_OF_A_DAY:
        found.lacking[day] = [f"{_stamp(max(twice), clock)} for the second time"]
    if repeated:
        found.blocked.add(day)
        told = [row for hour in repeated for row in filled[hour]]
        _tell(found, column, told, REPEATED_HOUR.code, clock)
    elif rows:
        found.rows[day] = rows
        if lacking:
            found.lacking.setdefault(day, [])[:0] = _spans(lacking, clock)


def _near(clock: Clock, hours: list[datetime], *, is_twice: bool) -> frozenset[datetime]:
    """Return the hours of a day that may stand twice, or lack, where the clocks change.

    A stamp of the end of an hour is written by the clock before the change or by the one after.
    """
    changes = clock.changes or Changes()
    changed = (changes.passed_twice if is_twice else changes.left_out) & set(hours)
    return changed | ({hour - _HOUR for hour in changed} if clock.is_end else set())


def _without_one(lacking: list[datetime], out: frozenset[datetime]) -> list[datetime]:
    """Return the hours that lack, but for the one that the clocks left out."""
    skipped = next((hour for hour in lacking if hour in out), None)
    return [hour for hour in lacking if hour != skipped]


def _without_left_out(
    found: Hours,
    column: Column,
    filled: dict[datetime, list[int]],
    rows: list[int],
    day: tuple[list[datetime], Clock],
) -> list[int]:
    """Return the rows of a day but for the empty one of an hour left out; a reading is refused."""
    hours, clock = day
    if any(hour not in filled for hour in _near(clock, hours, is_twice=False)):
        return rows
    changes = clock.changes or Changes()
    extra = [row for hour in hours if hour in changes.left_out for row in filled[hour]]
    held = [
        row
        for row in extra
        if any(one.column != column.date_column for one in column.sheet.by_row[row])
    ]
    _tell(found, column, held, HOUR_NOT_ON_THE_CLOCK.code, clock)
    return [row for row in rows if row not in extra]


def _stamp(hour: datetime, clock: Clock) -> str:
    """Return an hour as the sheet stamps it, with its day."""
    moment = hour + (_HOUR if clock.is_end else timedelta())
    return f"{moment:%Y-%m-%d %H:%M}"


def _spans(lacking: list[datetime], clock: Clock) -> list[str]:
    """Return hours in words, run by run."""
    runs: list[list[datetime]] = []
    for hour in lacking:
        is_next = runs and hour - runs[-1][-1] == _HOUR
        runs[-1].append(hour) if is_next else runs.append([hour])
    return [
        _stamp(run[0], clock) + (f" to {_stamp(run[-1], clock)[11:]}" if len(run) > 1 else "")
        for run in runs
    ]
