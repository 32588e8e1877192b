"""Whether the gas of a line can be brought to a reference condition: components, states."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

import numpy as np
from numpy.typing import NDArray

from footprint.base.finding import Finding, Where, declare
from footprint.base.units import Unit, is_convertible, label, ratio_of, unit
from footprint.gas.line import (
    EQUATIONS,
    FIELDS,
    composition_outside,
    compression_factors,
    outside,
)
from footprint.read.readings import AnalysisSeries, Readings, Series
from footprint.read.site import LineConditions, Stream

Array = NDArray[np.float64]
ZERO_CELSIUS = 273.15  # K

NOT_IN_EQUATION = declare(
    "gas-not-in-line-equation",
    "stop",
    means="A gas that is metered at line conditions holds a component that the equation of its "
    "compression factor does not know.",
    effect="how much gas a cubic metre in the line holds cannot be found",
    mend="give this meter's volumes at a reference condition, as its flow computer can",
    example="2 % of ammonia in purge gas metered in m3 (line)",
)
NO_DENSITY = declare(
    "line-state-without-density",
    "stop",
    means="At the temperature and pressure of a line the equation gives no density of a gas.",
    effect="the gas that was metered in these periods cannot be found",
    mend="look at the readings of temperature and pressure, at their units, and at gauge or "
    "absolute",
    example="a pressure of 0 bar (abs)",
)
OUTSIDE_RANGE = declare(
    "line-state-outside-equation",
    "warn",
    means="Temperature, pressure or composition in a line lie outside the range in which the "
    "equation gives the compression factor to 0.1 %.",
    effect="the volume is given, but may be off by some tenths of a per cent",
    mend='look at the readings and their units; the range of equation = "GERG-2008" is the wider',
    example="natural gas of 60 % methane with the equation AGA 8 DETAIL",
)
NOT_USED = declare(
    "line-conditions-not-used",
    "note",
    means="A stream states its line, while its meter already gives volumes at a reference "
    "condition.",
    effect="the volumes are used as they are, because a second correction would be wrong",
    mend="remove [streams.line], or write the unit m3 (line) if the meter is not corrected",
    example="a flow computer in Nm3 with [streams.line]",
)


def is_at_line(stream: Stream, readings: Readings) -> bool:
    """Return whether the meter of a stream counts the gas as it flows.

    Args:
        stream: as declared. [stream]
        readings: what was written down. [readings]

    Source: definition
    """
    series = readings.series.get(stream.meter)
    is_volume = series is not None and is_convertible(series.amount_unit, unit("m3_line"))
    return stream.line is not None and is_volume


def unit_counted_in(stream: Stream, readings: Readings) -> Unit | None:
    """Return the unit of a stream's volume after the correction; None where nothing was read.

    Args:
        stream: as declared. [stream]
        readings: what was written down. [readings]

    Source: definition
    """
    if stream.line is not None and is_at_line(stream, readings):
        return unit(stream.line.reference)
    series = readings.series.get(stream.meter)
    return series.amount_unit if series else None


def tags_of_line(stream: Stream, readings: Readings) -> tuple[str, ...]:
    """Return the meters of temperature and pressure that a stream's volume needs.

    Args:
        stream: as declared. [stream]
        readings: what was written down. [readings]

    Source: definition
    """
    if stream.line is None or not is_at_line(stream, readings):
        return ()
    return stream.line.temperature, stream.line.pressure


def line_faults(stream: Stream, readings: Readings) -> list[Finding]:
    """Return what keeps a line volume from its reference condition, or makes it less sure.

    Args:
        stream: as declared, all its series readable. [stream]
        readings: what was written down. [readings]

    Source: definition; ranges with their sources in `gas.line`
    """
    if stream.line is None or stream.analysis is None:
        return []
    where = Where("site.toml", column=f"streams > {stream.name} > line")
    metered = readings.series[stream.meter].amount_unit
    if not is_at_line(stream, readings):
        what = f'"{stream.name}": {stream.meter} reads {label(metered)}, so that its line is unused'
        return [NOT_USED.at(where, what)]
    series = readings.analyses[stream.analysis]
    unknown = _unknown(series)
    if unknown:
        what = f'"{stream.name}" holds {", ".join(unknown)}, which {stream.line.equation} lacks'
        return [NOT_IN_EQUATION.at(where, what)]
    return [
        *_compositions(stream, stream.line, series, where),
        *_states(stream, stream.line, readings, where),
    ]


def _unknown(series: AnalysisSeries) -> list[str]:
    """Return the components found in the gas that the equations lack."""
    return [
        name
        for place, name in enumerate(series.components)
        if name not in FIELDS and np.nansum(series.values[:, place]) > 0
    ]


def _compositions(
    stream: Stream, line: LineConditions, series: AnalysisSeries, where: Where
) -> Iterable[Finding]:
    """Yield one finding for all samples that are outside the range."""
    told: dict[date, list[str]] = {}
    for day, sample in zip(series.dates, series.values, strict=True):
        shares = sample / np.nansum(sample)
        fractions = {
            name: float(x)
            for name, x in zip(series.components, shares, strict=True)
            if np.isfinite(x)
        }
        if beyond := composition_outside(line.equation, fractions):
            told[day] = beyond
    if told:
        first = next(iter(told))
        count = f"{len(told)} of {len(series.dates)} samples"
        said = f"{count} outside the range of {line.equation}, {first}: {told[first][0]}"
        why = f"{OUTSIDE_RANGE.effect}; range: {EQUATIONS[line.equation].source}"
        yield OUTSIDE_RANGE.at(where, f'"{stream.name}": {said}', why=why)


def _states(
    stream: Stream, line: LineConditions, readings: Readings, where: Where
) -> Iterable[Finding]:
    """Yield one finding for all periods outside the range, and one for those without density."""
    temperature, pressure = _kelvin(readings.series[line.temperature]), _kpa(line, readings)
    if temperature.shape != pressure.shape:
        return  # told as rows that do not match
    beyond = outside(line.equation, temperature, pressure)
    if not beyond.any():
        return
    first = int(np.argmax(beyond))
    day = readings.series[line.temperature].dates[first].isoformat()
    said = (
        f"{int(beyond.sum())} of {beyond.size} states outside the range of {line.equation}, "
        f"{day}: {temperature[first] - ZERO_CELSIUS:.2f} °C, {pressure[first]:.6g} kPa (abs)"
    )
    code = OUTSIDE_RANGE
    if np.isnan(_factors(stream, line, readings, temperature[beyond], pressure[beyond])).any():
        code = NO_DENSITY
    source = EQUATIONS[line.equation].source
    yield code.at(where, f'"{stream.name}": {said}', why=f"{code.effect}; range: {source}")


def _factors(
    stream: Stream, line: LineConditions, readings: Readings, temperature: Array, pressure: Array
) -> Array:
    """Return compression factors of the first sample in some states."""
    series = readings.analyses[str(stream.analysis)]
    held = {
        name: float(x)
        for name, x in zip(series.components, series.values[0], strict=True)
        if name in FIELDS and np.isfinite(x)
    }
    fractions = [np.full(temperature.shape, x) for x in held.values()]
    return compression_factors(line.equation, tuple(held), temperature, pressure, fractions)


def _kelvin(series: Series) -> Array:
    if is_convertible(series.unit, unit("celsius")):
        return series.values + ZERO_CELSIUS
    return series.values


def _kpa(line: LineConditions, readings: Readings) -> Array:
    """Return the absolute pressure of each period."""
    series = readings.series[line.pressure]
    if is_convertible(series.unit, unit("kPa")):
        return series.values * ratio_of(series.unit, unit("kPa"))
    atmosphere = readings.site.works.atmospheric_pressure_kpa or 0.0
    return series.values * ratio_of(series.unit, unit("kPa_gauge")) + atmosphere
