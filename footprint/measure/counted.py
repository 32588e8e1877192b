"""What a meter counts where its readings are no amounts: live rows from what is written to them."""

from __future__ import annotations

from datetime import date

from footprint.base.axis import Axis
from footprint.base.formulas import convert, given, pick
from footprint.base.row import Row, apply, leaf, step
from footprint.base.source import DEFINITION
from footprint.base.units import time_below, unit
from footprint.measure.accuracy import Read, errors_of
from footprint.measure.by_index import amount_by_index
from footprint.measure.calendar import Calendar
from footprint.measure.invoiced import billed_by_month
from footprint.measure.meter_read import MeterRead
from footprint.read.hours import hours_of_period
from footprint.read.readings import Bills, Dips, Indexes, Weights

BESIDE_TABLE = "level not between these rows of the table"


def written(one: MeterRead, axis: Axis, calendar: Calendar) -> Row | None:
    """Return the amounts that follow from what is written; None where amounts are written.

    Args:
        one: the meter. [meter]
        axis: the periods of the amounts. [axis]
        calendar: the year. [calendar]

    Source: definition
    """
    basis = one.series.basis
    if isinstance(basis, Indexes):
        is_daily = one.series.rows == "daily"
        ends = calendar.day_boundaries if is_daily else calendar.boundaries
        return amount_by_index(one, basis, (axis, ends))
    if isinstance(basis, Weights):
        return _net_weight(one, basis, axis)
    if isinstance(basis, Bills):
        return billed_by_month(one, basis, calendar)
    return _content(one, basis, axis) if isinstance(basis, Dips) else None


def amount_of_rate(rate: Row, one: MeterRead) -> Row:
    """Return the amounts of a mean rate: rate times the hours of its period.

    Args:
        rate: as read, holes filled. [rate]
        one: the meter. [meter]

    Source: definition
    """
    time = time_below(one.series.unit)
    if time is None:
        raise ValueError(f"{one.series.tag} reads no rate")
    hours = leaf(
        [hours_of_period(day, one.meter) for day in one.series.dates],
        unit("hour"),
        rate.axis,
        key=f"{one.key}/hours/of the period",
        words=one.named("hours of the period"),
        origins=[DEFINITION],
    )
    time_of = convert(hours, time, f"{one.key}/time/of the period", one.named("time of the period"))
    because = "mean rate of the period times its time"
    return step(rate * time_of, f"{one.key}/by rate", one.named("by rate"), because)


def _net_weight(one: MeterRead, weights: Weights, axis: Axis) -> Row:
    """Return the net weight of each ticket: gross less tare."""
    gross = one.listed(weights.gross, one.series.unit, "gross", axis)
    tare = one.listed(weights.tare, one.series.unit, "tare", axis)
    because = "gross weight less tare"
    return step(gross - tare, f"{one.key}/as read", one.named("net"), because)


def _content(one: MeterRead, dips: Dips, axis: Axis) -> Row:
    """Return what a tank holds at each date, between two rows of its table.

    The rows of the table are chosen when the sheet is read; where a level is changed so that it
    leaves them, the content shows words in place of a figure.
    Linear between the rows of a tank table: common practice, no source.
    """
    rows = tuple(f"row {place}" for place in range(1, len(dips.table.values) + 1))
    table = Axis("tickets", rows, f"Tank table of {one.series.tag}")
    levels = _of_table(one, dips, table, "level")
    contents = _of_table(one, dips, table, "content")
    level = one.listed(dips.levels, dips.unit, "level", axis)
    low, less = (_beside(row, dips, axis, 0) for row in (levels, contents))
    high, more = (_beside(row, dips, axis, 1) for row in (levels, contents))
    figure = less + (level - low) * (more - less) / (high - low)
    return step(
        given(apply("AND", low <= level, level <= high), figure, BESIDE_TABLE),
        f"{one.key}/as read",
        one.named("by level"),
        "between the two rows of the tank table around the level",
    )


def _of_table(one: MeterRead, dips: Dips, table: Axis, what: str) -> Row:
    """Return a column of the tank table; a statement in tonnes is one of the contents."""
    listed = dips.table if what == "level" else dips.contents
    of = dips.unit if what == "level" else one.series.unit
    doubts = [doubt for doubt in one.doubts if doubt.part.unit and not doubt.is_anew]
    read = Read(listed.values, of, (date.min,) * table.size)
    return leaf(
        listed.values,
        of,
        table,
        key=f"{one.key}/tank table/{what}",
        words=one.named(f"{what} in the tank table"),
        origins=listed.origins,
        errors=() if what == "level" else errors_of(doubts, read),
    )


def _beside(row: Row, dips: Dips, axis: Axis, above: int) -> Row:
    """Return the row of the table below or above each level."""
    side = "above" if above else "below"
    return step(
        pick(row, [place + above for place in dips.below], axis),
        f"{row.key} {side}",
        f"{row.words}, {side} the reading",
        f"row of the tank table {side} the level",
    )
