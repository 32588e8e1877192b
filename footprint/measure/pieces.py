"""Stretches of days that share one gas sample and one month: what an analysis represents."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from datetime import date
from itertools import groupby

from footprint.base.axis import Axis
from footprint.measure.calendar import Calendar


@dataclass(frozen=True, slots=True)
class Pieces:
    """The pieces of one year for one gas and one stream.

    Attributes:
        axis: one period a piece. [axis]
        samples: place of the sample that speaks for each piece. [1]
        days: first day and the day after the last, as places in the year. [1]
        months: pieces of each month: first, and the one after the last. [1]
        month_of: month of each piece, 0 to 11. [1]
        uncovered: days before the first or after the last sample's own span. [1]
    """

    axis: Axis
    samples: tuple[int, ...]
    days: tuple[tuple[int, int], ...]
    months: tuple[tuple[int, int], ...]
    month_of: tuple[int, ...]
    uncovered: int

    @property
    def by_day(self) -> tuple[int, ...]:
        """Place of the sample that speaks for each day of the year."""
        return tuple(
            sample
            for (first, last), sample in zip(self.days, self.samples, strict=True)
            for _ in range(first, last)
        )


def pieces_of(sampled: tuple[date, ...], represents: str, calendar: Calendar, owner: str) -> Pieces:
    """Return the pieces into which samples and months cut a year.

    Days that no sample speaks for take the nearest one and are counted as uncovered.

    Args:
        sampled: day of each sample, in rising order, at least one. [date]
        represents: "until the next sample" or "since the last sample". [text]
        calendar: the year. [calendar]
        owner: name of the stream, so that its axis is its own. [text]

    Source: weighting by the volume represented: common practice, no source
    """
    forward, dates = represents == "until the next sample", calendar.dates
    keys = [(day.month - 1, _speaks_for(day, sampled, forward=forward)) for day in dates]
    runs = [
        (key, [place for place, _ in run])
        for key, run in groupby(enumerate(keys), lambda item: item[1])
    ]
    days = tuple((places[0], places[-1] + 1) for _, places in runs)
    month_of = tuple(month for (month, _), _ in runs)
    labels = tuple(f"{dates[a].isoformat()} to {dates[b - 1].isoformat()}" for a, b in days)
    return Pieces(
        Axis("pieces", labels, owner),
        samples=tuple(sample for (_, sample), _ in runs),
        days=days,
        months=_spans_of(month_of),
        month_of=month_of,
        uncovered=sum(day < sampled[0] if forward else day > sampled[-1] for day in dates),
    )


def _speaks_for(day: date, sampled: tuple[date, ...], *, forward: bool) -> int:
    """Return the place of the sample that speaks for a day, or of the nearest."""
    place = bisect_right(sampled, day) - 1 if forward else bisect_left(sampled, day)
    return min(max(place, 0), len(sampled) - 1)


def _spans_of(month_of: tuple[int, ...]) -> tuple[tuple[int, int], ...]:
    """Return the pieces of each month: first, and the one after the last."""
    return tuple(
        (month_of.index(month), len(month_of) - month_of[::-1].index(month)) for month in range(12)
    )
