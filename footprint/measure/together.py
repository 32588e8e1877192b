"""Whether the series that one stream needs fit together: same rhythm, same reference condition."""

from __future__ import annotations

from footprint.base import units
from footprint.base.finding import Finding, Where, declare
from footprint.measure.line_range import tags_of_line, unit_counted_in
from footprint.read.readings import Readings, Series
from footprint.read.site import Stream

DIFFERENT_ROWS = declare(
    "rows-that-do-not-match",
    "stop",
    means="A stream needs two series that are written down at different intervals, such as a daily "
    "flow and a monthly purity.",
    effect="one cannot be applied to the other, so the stream and all that depends on it cannot "
    "be given",
    mend="give both series the same rows, daily or monthly",
    example='meter with rows = "daily", purity with rows = "monthly"',
)
DIFFERENT_CONDITIONS = declare(
    "volumes-at-different-conditions",
    "stop",
    means="A meter after the mixing and the meter of a gas that joined before it state their "
    "volumes at different reference conditions.",
    effect="5 to 7 % would be lost or gained by taking one from the other",
    mend="give both volumes at the same reference condition",
    example="fuel gas in Nm3 after the mixing, purge gas in Sm3",
)


def faults_together(stream: Stream, readings: Readings, others: list[Stream]) -> list[Finding]:
    """Return what keeps the series of one stream from being used together.

    Args:
        stream: as declared, all its series readable. [stream]
        readings: what was written down. [readings]
        others: streams that joined before its meter. [streams]

    Source: definition
    """
    main = readings.series[stream.meter]
    water = (stream.water.temperature, stream.water.pressure) if stream.water else ()
    beside = [*water, *(tag for tag in (stream.purity, stream.nitrogen) if tag)]
    beside += tags_of_line(stream, readings)
    beside += [other.meter for other in others]
    is_stock = main.rows == "stock"
    found = (
        []
        if is_stock
        else [
            _different_rows(stream, main, readings.series[tag])
            for tag in beside
            if readings.series[tag].rows != main.rows
        ]
    )
    counted_in = unit_counted_in(stream, readings) or main.unit
    for other in others:
        joined = unit_counted_in(other, readings)
        if joined is not None and not units.is_convertible(joined, counted_in):
            found.append(_different_conditions((stream, counted_in), (other, joined)))
    return found


def _different_rows(stream: Stream, main: Series, beside: Series) -> Finding:
    what = (
        f'"{stream.name}" has {main.rows} rows for {main.tag} '
        f"and {beside.rows} rows for {beside.tag}"
    )
    return DIFFERENT_ROWS.at(Where("site.toml", column=f"streams > {stream.name}"), what)


def _different_conditions(
    mixed: tuple[Stream, units.Unit], joined: tuple[Stream, units.Unit]
) -> Finding:
    (stream, here), (other, there) = mixed, joined
    what = (
        f'"{stream.name}": {stream.meter} reads {units.label(here)}, '
        f"{other.meter} reads {units.label(there)}"
    )
    return DIFFERENT_CONDITIONS.at(Where("site.toml", column=f"streams > {stream.name}"), what)
