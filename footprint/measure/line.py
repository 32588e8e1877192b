"""Volumes counted as the gas flows, brought to a reference condition by its own compression."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from footprint.base import units
from footprint.base.axis import Axis
from footprint.base.formulas import convert, frozen, pick, span
from footprint.base.row import Row, constant, step
from footprint.gas.line import EQUATIONS, FIELDS, compression_factors, volume_at_reference
from footprint.gas.properties import CONDITIONS
from footprint.measure.accuracy import errors_of_one, stated
from footprint.measure.analysis import GasSamples
from footprint.measure.context import Context
from footprint.measure.pieces import Pieces, pieces_of
from footprint.measure.state import absolute_pressure, absolute_temperature
from footprint.measure.volume import by_analysis_key, reference_key, shared_by_days
from footprint.read.site import LineConditions, Stream

Array = NDArray[np.float64]
EQUATION_STATES = "0.1 % (95 %)"  # of Z: AGA Report No. 8 and GERG-2008 in their usual range
BECAUSE = "V (p / p ref) (T ref / T) (Z ref / Z line), p and T absolute"


@dataclass(frozen=True, eq=False, slots=True)
class _Metered:
    """A line volume by day, or by piece where the meter is read monthly, with its samples.

    Attributes:
        line: temperature, pressure, reference, equation. [line]
        volume: as it flows. [m3_line]
        places: place of the sample that speaks for each period. [1]
        months: month of each piece; empty for daily readings. [1]
    """

    context: Context
    stream: Stream
    line: LineConditions
    volume: Row
    places: tuple[int, ...]
    months: tuple[int, ...]

    @property
    def axis(self) -> Axis:
        """The periods."""
        return self.volume.axis

    def key(self, quantity: str, basis: str) -> str:
        """Return the key of a row of this stream."""
        return self.context.key(self.stream.name, quantity, basis)

    def words(self, quantity: str) -> str:
        """Return what the reader calls a row of this stream."""
        return f"{self.stream.name}: {quantity}"

    def of_sample(self, row: Row, quantity: str) -> Row:
        """Return a figure of the samples over the periods."""
        return step(
            pick(row, self.places, self.axis),
            self.key(quantity, "of the period"),
            self.words(quantity),
            "of the sample that speaks for the period",
        )

    def read(self, tag: str, quantity: str) -> Row:
        """Return a temperature or pressure over the periods."""
        read = self.context.reading(tag, self.words(quantity))
        if not self.months:
            return read
        return step(
            pick(read, self.months, self.axis),
            self.key(quantity, "of the month"),
            self.words(f"{quantity}, of the month"),
            "as read, by month",
        )


def correct(context: Context, stream: Stream, samples: GasSamples) -> None:
    """Bring the volume of a stream to its reference condition, for all that ask for it later.

    Args:
        context: site, year, factors; keeps the volume by day or month, and by piece. [context]
        stream: metered at line conditions. [stream]
        samples: dry analyses of its gas; the little water of a wet gas is left out of Z. [samples]

    Source: definition; compression factor at the reference by ISO 6976:2016, in the line by AGA
        Report No. 8 or GERG-2008
    """
    pieces = pieces_of(samples.dates, samples.represents, context.calendar, stream.name)
    metered = _metered(context, stream, pieces)
    volume = _at_reference(metered, samples)
    if not metered.months:
        context.made[reference_key(stream)] = volume
        return
    context.made[by_analysis_key(stream)] = volume
    context.made[reference_key(stream)] = step(
        span(volume, pieces.months, context.calendar.months),
        metered.key("volume", "at reference, by month"),
        metered.words(f"volume, {metered.line.reference}, of the month"),
        "sum of the pieces of the month",
    )


def _metered(context: Context, stream: Stream, pieces: Pieces) -> _Metered:
    """Return the volume as it flows with what belongs to its periods."""
    if stream.line is None:
        raise ValueError(f"{stream.name} does not state its line")
    read = context.reading(stream.meter, stream.name)
    plain = convert(
        read,
        units.unit("m3_line"),
        context.key(stream.name, "volume", "at line conditions"),
        f"{stream.name}: volume at line conditions",
    )
    if read.axis.kind != "months":
        return _Metered(context, stream, stream.line, plain, pieces.by_day, ())
    shared = shared_by_days(context, stream, plain, pieces)
    return _Metered(context, stream, stream.line, shared, pieces.samples, pieces.month_of)


def _at_reference(metered: _Metered, samples: GasSamples) -> Row:
    """Return the volume of each period at the reference condition."""
    physics, reference = metered.context.physics, metered.line.reference
    kelvin = absolute_temperature(
        metered.read(metered.line.temperature, "line temperature"),
        metered.key("line temperature", "absolute"),
        metered.words("line temperature, absolute"),
    )
    kilopascal = absolute_pressure(
        metered.context,
        metered.read(metered.line.pressure, "line pressure"),
        (metered.stream.name, "line pressure"),
        metered.words("line pressure"),
    )
    at_reference = metered.of_sample(
        samples.quality.compression[reference], f"compression factor, {reference}"
    )
    in_line = _in_line(metered, samples, kelvin, kilopascal)
    of_reference = physics.value(f"temperature of {CONDITIONS[reference].temperature}")
    volume = volume_at_reference(
        metered.volume,
        kilopascal / physics.value("reference pressure of gas volumes"),
        of_reference / kelvin,
        at_reference / in_line,
    )
    return step(
        volume * _cubic_metre(metered.context, reference),
        metered.key("volume", "at reference"),
        metered.words(f"volume, {reference}"),
        BECAUSE,
    )


def _in_line(metered: _Metered, samples: GasSamples, kelvin: Row, kilopascal: Row) -> Row:
    """Return the compression factor in the line, which a spreadsheet cannot compute."""
    equation = EQUATIONS[metered.line.equation]
    known = metered.context.readings.analyses[samples.gas].components
    named = zip(known, samples.quality.fractions, strict=True)
    held = {name: row for name, row in named if name in FIELDS}  # others hold nothing: line_faults
    fractions = [metered.of_sample(row, f"{name} in the line") for name, row in held.items()]
    return frozen(
        _solver(metered.line.equation, tuple(held)),
        units.NONE,
        kelvin,
        kilopascal,
        *fractions,
        key=metered.key("compression factor", "in the line, iterated"),
        words=metered.words("compression factor in the line"),
        method=f"compression factor, {equation.name}, by the library pyaga8",
    )


def _solver(equation: str, components: tuple[str, ...]) -> Callable[..., Array]:
    """Return the function of temperature, pressure and mole fractions that gives Z."""

    def factors(temperature: Array, pressure: Array, *fractions: Array) -> Array:
        return compression_factors(equation, components, temperature, pressure, fractions)

    return factors


def _cubic_metre(context: Context, reference: str) -> Row:
    """Return 1: the cubic metre is the same, its condition is another; made once.

    It carries what the equation of state leaves open, alike in all lines.
    """
    key = f"definitions/gas volume/cubic metre/{reference} by line"
    if key not in context.made:
        one, of = 1.0, units.unit(f"{reference}/m3_line")
        words = f"the cubic metre of {reference} is that of the line"
        errors = errors_of_one("equation of state in the line", stated(EQUATION_STATES), one, of)
        context.made[key] = constant(one, of, key, words).replaced(errors=errors)
    return context.made[key]
