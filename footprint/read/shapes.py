"""Tables of hours and weeks brought to days, before the series of their meters are read."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from zoneinfo import ZoneInfo

from footprint.base.finding import Finding, declare
from footprint.read.clock import Clock, Hours, changes_of, hours_of
from footprint.read.column_units import unit_of
from footprint.read.daily import DailyTable, Day, daily_rows, empty_daily, fill, refuse
from footprint.read.fault import Refusal, merged_findings
from footprint.read.headings import Column
from footprint.read.holes import MISSING_READING, MISSING_ROW, substitute_for
from footprint.read.purposes import purposes_of
from footprint.read.rows import Rows
from footprint.read.series import Source, values_of
from footprint.read.site import Meter, Site
from footprint.read.stamp_side import side_of_hours, side_of_weeks
from footprint.read.totals import totals_checked
from footprint.read.weeks import split_weeks, weeks_of

DAY_STARTS_OFF_THE_HOUR = declare(
    "day-starts-off-the-hour",
    "stop",
    means="Hourly readings are to be added up to days that do not start at a full hour.",
    effect="an hour can't be cut; the readings of the table are not used",
    mend='write a full hour, such as day_starts = "06:00"',
    example='day_starts = "06:30" with rows = "hourly"; mended: day_starts = "06:00"',
)

Meters = list[tuple[Meter, Column]]
_HOURS_SHOWN = 4
_HOURS_OF_A_DAY = 24


@dataclass(frozen=True, eq=False, slots=True)
class Shaped:
    """A table of days, with the meters whose columns it holds.

    Attributes:
        meters: with their columns; none where the table can't be used. [meters]
        rows: of the table. [rows]
        findings: what was found on the way. [findings]
    """

    meters: Meters
    rows: Rows
    findings: list[Finding]


def shaped(meters: Meters, rows: Rows, site: Site) -> Shaped:
    """Return a table by days; tables that are no hours or weeks stay as they are.

    Args:
        meters: of one table, with their columns. [meters]
        rows: of the table. [rows]
        site: as declared. [site]

    Findings:
        start-or-end-unclear, day-starts-off-the-hour, missing-row and those of `clock`, `weeks`
        and `series`.

    Source: definition
    """
    layout = meters[0][0].rows
    if layout == "hourly":
        return _from_hours(meters, rows, site)
    return _from_weeks(meters, rows, site) if layout == "weekly" else Shaped(meters, rows, [])


def _from_weeks(meters: Meters, rows: Rows, site: Site) -> Shaped:
    """Return a table of weeks by days."""
    meter, column = meters[0]
    side = side_of_weeks(column, rows, meter, site.works.year)
    if isinstance(side, Refusal):
        return _unusable(column, side)
    weeks = weeks_of(column, rows, is_end=side == "end", year=site.works.year)
    table = empty_daily(column, weeks.days)
    table.blocked.update(weeks.blocked)
    table.findings.extend(merged_findings(weeks.faults))
    return _filled(table, meters, rows, (site, weeks.days))


def _from_hours(meters: Meters, rows: Rows, site: Site) -> Shaped:
    """Return a table of hours by days."""
    meter, column = meters[0]
    clock = _clock(meter, column, rows, site)
    if isinstance(clock, Refusal):
        return _unusable(column, clock)
    hours = hours_of(column, rows, {one.column for _, one in meters}, clock)
    rows.left_out["row of another year"] += len(hours.left_out)
    days = [Day(day, tuple(found)) for day, found in hours.rows.items()]
    table = empty_daily(column, days)
    table.blocked.update(hours.blocked)
    table.lacking.update(hours.lacking)
    table.findings.extend(merged_findings(hours.faults))
    _tell_lacking(table, hours, (meters, rows), site)
    return _filled(table, meters, rows, (site, days))


def _unusable(column: Column, refusal: Refusal) -> Shaped:
    """Return a table of which nothing can be used, and why."""
    where = column.sheet.where(column.date_column, [column.header_row], column.date_heading)
    found = refusal.code.at(where, refusal.what, mend=refusal.mend)
    return Shaped([], Rows(), [found])


def _clock(meter: Meter, column: Column, rows: Rows, site: Site) -> Clock | Refusal:
    """Return how stamps become hours of days, or why that is left open."""
    hour, minute = (int(part) for part in meter.day_starts.split(":"))
    if minute:
        what = f'day_starts = "{meter.day_starts}" cuts an hour'
        return Refusal(DAY_STARTS_OFF_THE_HOUR, what)
    opening = timedelta(hours=hour)
    side = side_of_hours(column, rows, meter, opening)
    if isinstance(side, Refusal):
        return side
    zone = ZoneInfo(meter.time_zone) if meter.time_zone else None
    changes = changes_of(zone, site.works.year) if zone else None
    return Clock(opening, side == "end", changes, site.works.year)


def _tell_lacking(table: DailyTable, hours: Hours, read: tuple[Meters, Rows], site: Site) -> None:
    """Refuse days that lack rows of hours, unless every meter has a substitute for them."""
    meters, rows = read
    column = meters[0][1]
    refused = {fault.row for fault in rows.faults if fault.refusal.code.level == "stop"}
    tags = ", ".join(meter.tag for meter, _ in meters)
    for day, lacking in hours.lacking.items():
        is_covered = all(_covers(site, meter, day) for meter, _ in meters)
        if day in hours.blocked or day not in hours.rows or is_covered:
            continue
        table.blocked.add(day)
        first, last = hours.rows[day][0], hours.rows[day][-1]
        told = sum(first - 1 <= row <= last + 1 for row in refused)
        if told and told == _HOURS_OF_A_DAY - len(hours.rows[day]):
            continue  # the stamps of these very hours were refused, which says it all
        where = column.sheet.where(column.date_column, hours.rows[day], column.date_heading)
        why = f"{day.isoformat()} can't be summed up for {tags}"
        is_one = len(lacking) == 1 and " to " not in lacking[0]
        mend = "add the row; or set time_zone, if the clocks changed that night" if is_one else ""
        what = f"no row for {', '.join(lacking)}"
        table.findings.append(MISSING_ROW.at(where, what, why=why, mend=mend))


def _covers(site: Site, meter: Meter, day: date) -> bool:
    """Return whether a substitute stands for the reading of a day."""
    return substitute_for(site.stand_ins(meter.tag), day) is not None


def _filled(
    table: DailyTable, meters: Meters, rows: Rows, made: tuple[Site, Sequence[Day]]
) -> Shaped:
    """Return the table with the days of all its columns."""
    site, days = made
    usable = [day for day in days if day.day not in table.blocked | table.lacking]
    for meter, column in meters:
        source = _source(meter, column, rows, site)
        if source is None:
            continue
        read, faults = values_of(source)
        fill(table, source, usable, read)
        table.findings.extend(refuse(table, source, usable, faults, _why_missing(rows)))
        if meter.counts == "amount":
            table.findings.extend(merged_findings(totals_checked(column, rows)))
        if meter.rows == "weekly":
            table.findings.extend(split_weeks(source, days, read))
    sheet = replace(table.sheet)
    daily: Meters = [
        (meter.model_copy(update={"rows": "daily"}), replace(column, sheet=sheet))
        for meter, column in meters
    ]
    return Shaped(daily, daily_rows(rows, table), table.findings)


def _source(meter: Meter, column: Column, rows: Rows, site: Site) -> Source | None:
    """Return what a column is made from; None where its unit is refused, which is told later."""
    purposes = [] if meter.dips else purposes_of(site, meter.tag)
    metered, _ = unit_of(column, meter.unit, purposes, is_rate=meter.counts == "rate")
    if metered is None:
        return None
    entries = site.stand_ins(meter.tag)
    return Source(meter, column, rows, metered, purposes, entries, site.works.year)


def _why_missing(rows: Rows) -> Callable[[Day, Sequence[int]], Refusal]:
    """Return what says why a day with empty cells can't be given."""

    def why(day: Day, empty: Sequence[int]) -> Refusal:
        if not rows.stamps:
            stamp = rows.days[empty[0]].isoformat()
            return Refusal(MISSING_READING, f"no reading for the week of {stamp}")
        stamps = [rows.stamps[row] for row in empty]
        shown = ", ".join(f"{stamp:%H:%M}" for stamp in stamps[:_HOURS_SHOWN])
        left = len(stamps) - _HOURS_SHOWN
        what = f"no reading for {stamps[0]:%Y-%m-%d} {shown}"
        hours = len(day.rows)
        reason = (
            f"a blank is never zero: {day.day.isoformat()} would rest on "
            f"{hours - len(empty)} of {hours} hours"
        )
        more = f" and {left} more hours" if left > 0 else ""
        return Refusal(MISSING_READING, what + more, reason)

    return why
