"""Streams counted by mass: ammonia as 100 % NH3, urea, CO2 by weighbridge, stocks, liquid fuel."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.base import units
from footprint.base.finding import Where, declare
from footprint.base.formulas import convert, pick
from footprint.base.row import Row, step
from footprint.measure.context import Context
from footprint.read.site import Stream

TAKEN_AS_PURE = declare(
    "purity-not-given",
    "note",
    means="A product stream has no laboratory purity.",
    effect="its mass is taken as 100 % of the substance; product with 0.3 % water is then 0.3 % "
    "too high",
    mend="name the laboratory's series as purity of this stream",
    example='role = "ammonia produced" without purity',
)


@dataclass(frozen=True, eq=False, slots=True)
class Stock:
    """A stock over the months: at the start, at the end, and what it grew by."""

    stream: Stream
    opening: Row
    closing: Row
    growth: Row


def mass_by_month(context: Context, stream: Stream) -> Row:
    """Return the mass of a stream by month, as 100 % of its substance.

    Args:
        context: site, year, factors. [context]
        stream: a stream whose meter reads a mass. [stream]

    Source: definition; ammonia and urea on 100 % basis: common practice, no source
    """
    name, key = stream.name, context.key
    read = context.reading(stream.meter, name)
    house = _house_unit(read)
    if stream.purity is not None:
        pure = _pure(context, stream, read)
    elif stream.nitrogen is not None:
        pure = _pure_by_nitrogen(context, stream, read)
    else:
        pure = read
        if stream.role in {"ammonia produced", "urea"}:
            what = f'"{name}" has no laboratory purity'
            context.findings.append(TAKEN_AS_PURE.at(Where("site.toml", column=name), what))
    if pure.unit == house:
        return context.by_month(pure, key(name, "mass", "metered"), name)
    summed = context.by_month(pure, key(name, "mass", "metered, as read"), f"{name}, as read")
    return convert(summed, house, key(name, "mass", "metered"), name)


def _house_unit(read: Row) -> units.Unit:
    """Return tonnes of the substance that a reading counts."""
    return next(
        units.unit(name)
        for name in ("t_NH3", "t_CO2", "t_urea", "t_steam", "t_water", "tonne")
        if units.is_convertible(read.unit, units.unit(name))
    )


def _pure(context: Context, stream: Stream, read: Row) -> Row:
    purity = context.reading(stream.purity or "", f"{stream.name}: purity")
    return step(
        read * purity * context.per_percent,
        context.key(stream.name, "mass", "100 %"),
        f"{stream.name}, 100 %",
        "product times purity found by the laboratory",
    )


def _pure_by_nitrogen(context: Context, stream: Stream, read: Row) -> Row:
    found = context.reading(stream.nitrogen or "", f"{stream.name}: per cent N")
    pure = context.factor("nitrogen in urea")
    return step(
        read * (found * context.per_percent / pure),
        context.key(stream.name, "mass", "100 %"),
        f"{stream.name}, 100 %",
        "product times its per cent N over that of pure urea",
    )


def stock_by_month(context: Context, stream: Stream) -> Stock:
    """Return a stock at the start and end of each month and its growth.

    Args:
        context: site, year, factors. [context]
        stream: a stream of stock readings at month boundaries. [stream]

    Source: definition
    """
    name, key, months = stream.name, context.key, context.calendar.months
    read = context.reading(stream.meter, name)
    level = convert(read, _house_unit(read), key(name, "level", "gauged"), name)
    opening = step(
        pick(level, range(12), months),
        key(name, "opening", "gauged"),
        f"{name}, opening",
        "gauged on the first day of the month",
    )
    closing = step(
        pick(level, range(1, 13), months),
        key(name, "closing", "gauged"),
        f"{name}, closing",
        "gauged on the first day of the next month",
    )
    growth = step(
        closing - opening, key(name, "growth", "gauged"), f"{name}, growth", "closing less opening"
    )
    return Stock(stream, opening, closing, growth)
