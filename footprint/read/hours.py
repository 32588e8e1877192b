"""How many hours a day or a month has, and the hours on line that can't be more."""

from __future__ import annotations

from calendar import monthrange
from datetime import date, datetime, time, timedelta
from functools import cache
from zoneinfo import ZoneInfo, available_timezones

from footprint.base.finding import declare
from footprint.base.units import Unit, is_convertible, ratio_of, unit
from footprint.read.fault import Refusal
from footprint.read.site import Meter

MORE_HOURS_THAN_DAY = declare(
    "more-hours-than-the-day-has",
    "stop",
    means="A reading of hours is more than its day or month has.",
    effect="a plant can't be on line longer; the reading counts as missing",
    mend="look the hours up in the log; for a day of 25 hours, add time_zone to the meter",
    example="240 in a column of hours by day; mended: 24.0",
)


def hours_of_day(day: date, time_zone: str | None, starts: str = "00:00") -> float:
    """Return how many hours a day has: 24, or 23 and 25 where the clock changes.

    Args:
        day: on which it starts. [date]
        time_zone: whose clock it goes by; none keeps one time all year. [text]
        starts: the hour at which the day starts. [text]

    Source: definition
    """
    if time_zone is None or time_zone not in _zones():
        return 24.0
    zone, clock = ZoneInfo(time_zone), time.fromisoformat(starts)
    begins, ends = (
        datetime.combine(one, clock, zone).timestamp() for one in (day, day + timedelta(days=1))
    )
    return (ends - begins) / 3600


def hours_of_period(first: date, meter: Meter) -> float:
    """Return how many hours the period of a reading has: a month of monthly rows, else a day.

    Args:
        first: day of the period. [date]
        meter: as declared. [meter]

    Source: definition
    """
    count = monthrange(first.year, first.month)[1] if meter.rows == "monthly" else 1
    days = [first + timedelta(days=place) for place in range(count)]
    return sum(hours_of_day(day, meter.time_zone, meter.day_starts) for day in days)


def hours_refused(meter: Meter, metered: Unit, day: date, value: float) -> Refusal | None:
    """Return why hours can't be so many in their period, or None.

    Args:
        meter: as declared. [meter]
        metered: unit of the readings. [unit]
        day: first of the period. [date]
        value: as read. [unit]

    Findings:
        more-hours-than-the-day-has

    Source: definition
    """
    hour = unit("hour")
    if meter.counts != "amount" or meter.rows not in ("daily", "monthly"):
        return None
    if not is_convertible(metered, hour):
        return None
    most, read = hours_of_period(day, meter), value * ratio_of(metered, hour)
    if read <= most * (1 + 1e-9):
        return None
    period = "the month" if meter.rows == "monthly" else "the day"
    return Refusal(MORE_HOURS_THAN_DAY, f"{read:.10g} hours are more than the {most:g} of {period}")


@cache
def _zones() -> frozenset[str]:
    """Return the names of time zones that are known."""
    return frozenset(available_timezones())
