"""The volume of a gas stream as its meter saw it, by day and by what its samples speak for."""

from __future__ import annotations

from footprint.base import units
from footprint.base.finding import Where, declare
from footprint.base.formulas import convert, pick, span, sum_of
from footprint.base.row import Row, leaf, step
from footprint.base.source import DEFINITION
from footprint.gas.properties import CONDITIONS
from footprint.measure.context import Context
from footprint.measure.pieces import Pieces
from footprint.read.site import Stream

BY_TIME = declare(
    "analyses-weighted-by-time",
    "note",
    means="The meter gives one volume a month, so samples within a month are weighted by days, not "
    "by volume.",
    effect="if gas and flow changed together within the month, the mean composition is a little "
    "off",
    mend="give daily volumes for this meter",
    example='rows = "monthly" for a meter whose gas is analysed weekly',
)


def condition_of(volume: Row) -> str:
    """Return the reference condition that a volume is stated at, as a unit name.

    Args:
        volume: in cubic metres or cubic feet at one condition. [volume]

    Source: definition
    """
    return next(name for name in CONDITIONS if volume.unit == units.unit(name))


def daily_volume(context: Context, stream: Stream) -> Row:
    """Return the volume of each day, in the plain unit of its reference condition.

    Args:
        context: site, year, factors. [context]
        stream: a gas stream with daily readings. [stream]

    Source: definition
    """
    read = metered_volume(context, stream)
    return convert(
        read,
        _plain_unit(read),
        context.key(stream.name, "volume", "daily"),
        f"{stream.name}: volume of the day",
    )


def _plain_unit(volume: Row) -> units.Unit:
    return next(
        units.unit(name)
        for name in CONDITIONS
        if units.is_convertible(volume.unit, units.unit(name))
    )


def volume_by_piece(context: Context, stream: Stream, pieces: Pieces) -> Row:
    """Return the volume of each piece, in the plain unit of its reference condition.

    Args:
        context: site, year, factors. [context]
        stream: a gas stream. [stream]
        pieces: which sample speaks for which days. [pieces]

    Source: definition
    """
    key = context.key
    read = metered_volume(context, stream)
    words = f"{stream.name}: volume"
    if read.axis.kind == "months":
        what = f'"{stream.name}" has one volume a month: its analyses are weighted by days'
        context.findings.append(BY_TIME.at(Where("site.toml", column=stream.name), what))
        made = context.made.get(by_analysis_key(stream))
        is_mixed = stream.position == "after mixing"
        summed = shared_by_days(context, stream, read, pieces) if made is None or is_mixed else made
    else:
        summed = step(
            span(read, pieces.days, pieces.axis),
            key(stream.name, "volume", "by analysis, as read"),
            f"{words}, as read",
            "sum of the days that one sample speaks for",
        )
    return convert(summed, _plain_unit(summed), key(stream.name, "volume", "by analysis"), words)


def reference_key(stream: Stream) -> str:
    """Return where the context keeps a volume that was brought to its reference condition.

    Args:
        stream: metered at line conditions. [stream]

    Source: definition
    """
    return f"volume/{stream.name}"


def by_analysis_key(stream: Stream) -> str:
    """Return where the context keeps the same volume by piece, of a meter read monthly.

    Args:
        stream: metered at line conditions. [stream]

    Source: definition
    """
    return f"volume by analysis/{stream.name}"


def shared_by_days(context: Context, stream: Stream, read: Row, pieces: Pieces) -> Row:
    """Return a monthly volume shared among the pieces of the month by their days.

    Args:
        context: site, year, factors. [context]
        stream: a gas stream. [stream]
        read: by month. [volume]
        pieces: which sample speaks for which days. [pieces]

    Source: common practice, no source
    """
    key, name = context.key, stream.name
    month = step(
        pick(read, pieces.month_of, pieces.axis),
        key(name, "volume", "of the month"),
        f"{name}: volume of the month",
        "as read, by month",
    )
    return step(
        month * _share_of_days(context, stream, pieces),
        key(name, "volume", "by analysis, as read"),
        f"{name}: volume, as read",
        "share of the month's days",
    )


def _share_of_days(context: Context, stream: Stream, pieces: Pieces) -> Row:
    """Return how much of its month each piece lasts."""
    days = context.calendar.days_of_months
    shares = [
        (b - a) / (days[m][1] - days[m][0])
        for (a, b), m in zip(pieces.days, pieces.month_of, strict=True)
    ]
    return leaf(
        shares,
        units.NONE,
        pieces.axis,
        origins=[DEFINITION],
        key=context.key(stream.name, "share of the month", "days"),
        words=f"{stream.name}: share of the month's days",
    )


def metered_volume(context: Context, stream: Stream) -> Row:
    """Return the volume of the stream's own gas as its meter saw it.

    A meter that stands after the mixing counts the gases that joined before it; their volumes are
    taken off, so that carbon which is metered upstream is counted once.

    Args:
        context: site, year, factors. [context]
        stream: a gas stream. [stream]

    Source: real volumes at one reference condition add up within 0.1 %: common practice, no source
    """
    read = _own_volume(context, stream)
    if stream.position != "after mixing":
        return read
    others = [one for one in context.site.streams if one.name in stream.mixed_with]
    joined = [_in_unit_of(read, _own_volume(context, one), one.name) for one in others]
    return step(
        read - sum_of(joined),
        context.key(stream.name, "volume", "before mixing"),
        f"{stream.name}: volume before mixing",
        "meter after the mixing less the gases that joined before it",
    )


def _own_volume(context: Context, stream: Stream) -> Row:
    """Return what the stream's meter counted, at a reference condition."""
    key = reference_key(stream)
    return context.made[key] if key in context.made else context.reading(stream.meter, stream.name)


def _in_unit_of(read: Row, other: Row, name: str) -> Row:
    return convert(
        other, read.unit, f"{other.key}, in the unit of the mixed gas", f"{name}, in the same unit"
    )
