"""Invoiced amounts by month: each invoice spread evenly over the days of its billing period."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from typing import NamedTuple

import numpy as np

from footprint.base.axis import Axis
from footprint.base.formulas import pick, span
from footprint.base.row import Row, leaf, step
from footprint.base.source import DEFINITION
from footprint.base.units import NONE
from footprint.measure.calendar import Calendar
from footprint.measure.meter_read import MeterRead
from footprint.read.readings import Bills


class _Part(NamedTuple):
    """What of one billing period lies in one month, both counted from 0."""

    month: int
    place: int
    share: float


def billed_by_month(one: MeterRead, bills: Bills, calendar: Calendar) -> Row:
    """Return invoiced amounts by month.

    Args:
        one: the meter. [meter]
        bills: invoices with their periods. [bills]
        calendar: the year. [calendar]

    Source: equal use on every day of a billing period: common practice, no source
    """
    periods = list(zip(bills.first_days, bills.last_days, strict=True))
    labels = [f"{first.isoformat()} no. {place}" for place, (first, _) in enumerate(periods, 1)]
    axis = Axis("tickets", tuple(labels), one.series.tag)
    invoiced = one.listed(bills.amounts, one.series.unit, "invoiced", axis)
    parts = _parts(periods, calendar.year)
    names = [f"{calendar.months.labels[part.month]}, {labels[part.place]}" for part in parts]
    pieces = Axis("pieces", tuple(names), f"Invoices of {one.series.tag}")
    shared = _shared(one, invoiced, parts, pieces)
    spans = _spans([part.month for part in parts])
    because = "parts of all invoices in the month"
    summed = span(shared, spans, calendar.months)
    return step(summed, f"{one.key}/as read", one.named("as invoiced"), because)


def _parts(periods: Sequence[tuple[date, date]], year: int) -> list[_Part]:
    """Return the parts of all billing periods, month by month."""
    return [
        _Part(month, place, share)
        for month in range(12)
        for place, period in enumerate(periods)
        if (share := _share(period, month, year))
    ]


def _shared(one: MeterRead, invoiced: Row, parts: Sequence[_Part], pieces: Axis) -> Row:
    """Return what of each invoice lies in each month."""
    picked = step(
        pick(invoiced, [part.place for part in parts], pieces),
        f"{one.key}/invoiced/of the period",
        one.named("invoice"),
        "the invoice whose period lies in the month",
    )
    return step(
        picked * _shares(one, pieces, [part.share for part in parts]),
        f"{one.key}/invoiced/in the month",
        one.named("part of the invoice in the month"),
        "the invoice times the share of its days that lie in the month",
    )


def _shares(one: MeterRead, pieces: Axis, shares: list[float]) -> Row:
    """Return how much of its billing period each piece is."""
    return leaf(
        shares,
        NONE,
        pieces,
        key=f"{one.key}/share of the period/days",
        words=one.named("share of the billing period's days"),
        origins=[DEFINITION],
    )


def _spans(months: list[int]) -> list[tuple[int, int]]:
    """Return the pieces of each month: first, and the one after the last."""
    ends = np.bincount(months, minlength=12).cumsum().tolist()
    return list(zip([0, *ends[:-1]], ends, strict=True))


def _share(period: tuple[date, date], month: int, year: int) -> float:
    """Return the share of a period's days that lie in a month, counted from 0."""
    begins = date(year, month + 1, 1)
    after = date(year + month // 11, (month + 1) % 12 + 1, 1)
    first, last = max(period[0], begins), min(period[1], after - timedelta(days=1))
    return max((last - first).days + 1, 0) / ((period[1] - period[0]).days + 1)
