"""The year of the return as axes: months, days, month boundaries."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property
from itertools import pairwise

from footprint.base.axis import Axis, months_of


@dataclass(frozen=True)
class Calendar:
    """A calendar year and how its days fall into months."""

    year: int

    @cached_property
    def months(self) -> Axis:
        """The twelve months."""
        return months_of(self.year)

    @cached_property
    def first_days(self) -> tuple[date, ...]:
        """First day of each month."""
        return tuple(date(self.year, month, 1) for month in range(1, 13))

    @cached_property
    def dates(self) -> tuple[date, ...]:
        """Every day of the year."""
        first = date(self.year, 1, 1)
        return tuple(
            first + timedelta(days=day) for day in range((date(self.year + 1, 1, 1) - first).days)
        )

    @cached_property
    def days(self) -> Axis:
        """Every day of the year, as an axis."""
        return Axis("days", tuple(day.isoformat() for day in self.dates))

    @cached_property
    def boundaries(self) -> Axis:
        """First day of each month and of the next year: where stocks are counted."""
        ends = (*self.first_days, date(self.year + 1, 1, 1))
        return Axis("dates", tuple(day.isoformat() for day in ends))

    @cached_property
    def day_boundaries(self) -> Axis:
        """Every day of the year and the first of the next: where an index is read by the day."""
        ends = (*self.dates, date(self.year + 1, 1, 1))
        return Axis("dates", tuple(day.isoformat() for day in ends))

    @cached_property
    def days_of_months(self) -> tuple[tuple[int, int], ...]:
        """First day and the day after the last of each month, as places on the axis of days."""
        return spans_by_month(self.dates)


def spans_by_month(dates: tuple[date, ...]) -> tuple[tuple[int, int], ...]:
    """Return the places of dates in each of the twelve months: first, and the one after the last.

    Args:
        dates: in rising order, of one year. [date]

    Source: definition
    """
    counts = [sum(1 for day in dates if day.month == month) for month in range(1, 13)]
    ends = [sum(counts[:month]) for month in range(13)]
    return tuple(pairwise(ends))
