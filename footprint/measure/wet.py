"""Wet gas, such as CO2 saturated with water: the dry amount from temperature and pressure."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.base import units
from footprint.base.formulas import pick
from footprint.base.row import Row, constant, step
from footprint.base.source import Assumption
from footprint.gas import moisture
from footprint.measure.accuracy import errors_of_one, stated
from footprint.measure.analysis import GasSamples
from footprint.measure.context import Context
from footprint.measure.state import absolute_pressure, absolute_temperature
from footprint.measure.volume import condition_of
from footprint.read.site import Stream, Water


@dataclass(frozen=True, eq=False, slots=True)
class WetVolume:
    """A wet volume by day or by piece, and where its other readings stand.

    Attributes:
        volume: by day, or by piece where the meter is read monthly. [volume]
        samples: place of the sample that speaks for each period. [1]
        months: month of each piece; empty for daily readings. [1]
    """

    volume: Row
    samples: tuple[int, ...]
    months: tuple[int, ...] = ()


def dry_amount(context: Context, stream: Stream, samples: GasSamples, wet_volume: WetVolume) -> Row:
    """Return the dry gas of each period, from wet volume, temperature and pressure.

    Args:
        context: site, year, factors. [context]
        stream: a wet gas stream. [stream]
        samples: dry analyses of its gas. [samples]
        wet_volume: by day or by piece. [volume]

    The water takes its share of the wet volume; the rest is the dry real gas.

    Source: IAPWS R7-97(2012), equation 30; ISO 6976:2016, formula (11)
    """
    if stream.water is None:
        raise ValueError(f"{stream.name} is not declared wet")
    key, name, volume = context.key, stream.name, wet_volume.volume
    condition = condition_of(volume)
    water = _water_fraction(context, stream, stream.water, wet_volume)
    room = step(
        pick(samples.quality.molar_volume[condition], wet_volume.samples, volume.axis),
        key(name, "molar volume, dry", "wet gas"),
        f"{name}: molar volume of the dry gas",
        "of the sample that speaks for the period",
    )
    return step(
        moisture.dry_amount(volume, room, water),
        key(name, "amount", "dry, by period"),
        f"{name}: dry gas",
        "wet volume less its share of water, over the molar volume of the dry gas",
    )


def _water_fraction(context: Context, stream: Stream, water: Water, wet_volume: WetVolume) -> Row:
    key, name = context.key, stream.name
    celsius = _level(context, stream, water.temperature, "temperature", wet_volume)
    read = _level(context, stream, water.pressure, "pressure", wet_volume)
    pressure = absolute_pressure(context, read, (name, "pressure"), f"{name}: pressure")
    kelvin = absolute_temperature(
        celsius, key(name, "absolute temperature", "wet gas"), f"{name}: absolute temperature"
    )
    saturation = moisture.saturation_pressure(
        kelvin, context.physics.saturation, key(name, "water", "wet gas"), name
    )
    words = f"{name}: relative humidity"
    accuracy = stated(water.humidity_uncertainty)
    accuracy = accuracy or context.unstated.take("humidity of saturated gas", name)
    errors = errors_of_one(words, accuracy, water.relative_humidity, units.NONE)
    humidity = constant(
        water.relative_humidity,
        units.NONE,
        key(name, "relative humidity", "assumed"),
        words,
        _declared(context),
    ).replaced(errors=errors)
    return step(
        moisture.water_fraction(saturation, pressure) * humidity,
        key(name, "water", "mole fraction"),
        f"{name}: mole fraction of water",
        "saturation pressure over pressure, times relative humidity",
    )


def _level(context: Context, stream: Stream, tag: str, quantity: str, wet_volume: WetVolume) -> Row:
    """Return a temperature or pressure over the periods of the wet volume."""
    words = f"{stream.name}: {quantity}"
    read = context.reading(tag, words)
    if not wet_volume.months:
        return read
    return step(
        pick(read, wet_volume.months, wet_volume.volume.axis),
        context.key(stream.name, quantity, "of the month"),
        f"{words}, of the month",
        "as read, by month",
    )


def _declared(context: Context) -> Assumption:
    plan = context.site.works.plan
    return Assumption(
        context.site.works.operator, "stated in the site file", plan.approved, "streams"
    )
