"""Which meters are judged day by day, and on which days the works ran."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from footprint.base.units import is_convertible, ratio_of, unit
from footprint.measure.context import Context
from footprint.read.readings import Series
from footprint.read.site import Role, Stream

HALF_A_DAY = 12.0  # hours: common practice, no source
COUNTS: frozenset[Role] = frozenset({"hours on line", "starts", "trips"})
CONTINUOUS: frozenset[Role] = frozenset(
    {
        "purchased gas",
        "feed",
        "purge gas",
        "CO2 removed",
        "ammonia produced",
    }
)


def hours_by_day(context: Context) -> NDArray[np.float64] | None:
    """Return the hours on line of each day of the year; None where they are not read daily.

    Args:
        context: site, year, readings. [context]

    Source: definition
    """
    for stream in context.site.with_role("hours on line"):
        series = context.readings.series.get(stream.meter)
        if series is not None and is_daily(context, series):
            hour = unit("hour")
            is_time = is_convertible(series.unit, hour)
            return series.values * (ratio_of(series.unit, hour) if is_time else 1.0)
    return None


def days_running(context: Context) -> NDArray[np.bool_]:
    """Return the days that run more than half a day; all of them where no hours are read.

    Args:
        context: site, year, readings. [context]

    Source: definition
    """
    hours = hours_by_day(context)
    if hours is None:
        return np.ones(len(context.calendar.dates), dtype=bool)
    return np.nan_to_num(hours) > HALF_A_DAY


def is_daily(context: Context, series: Series) -> bool:
    """Return whether a series has a value for each day of the year.

    Args:
        context: site, year, readings. [context]
        series: of a meter. [series]

    Source: definition
    """
    return series.dates == context.calendar.dates


def metered(context: Context) -> Iterator[tuple[Stream, Series]]:
    """Return the streams that are no counts of hours or starts, each meter once.

    Args:
        context: site, year, readings. [context]

    Source: definition
    """
    seen: set[str] = set()
    for stream in context.site.streams:
        series = context.readings.series.get(stream.meter)
        if series is None or stream.meter in seen or stream.role in COUNTS:
            continue
        seen.add(stream.meter)
        yield stream, series


def is_continuous(stream: Stream) -> bool:
    """Return whether a stream flows whenever the works runs.

    Args:
        stream: as declared. [stream]

    Source: common practice, no source
    """
    is_reformer = stream.role == "fuel" and stream.burner in {None, "reformer"}
    return stream.role in CONTINUOUS or is_reformer
