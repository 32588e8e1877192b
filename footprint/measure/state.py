"""State of a gas from its readings: absolute pressure in kPa, absolute temperature in kelvin."""

from __future__ import annotations

from footprint.base.formulas import convert
from footprint.base.row import Row, constant, step
from footprint.base.source import Assumption
from footprint.base.units import is_convertible, unit
from footprint.gas import moisture
from footprint.measure.accuracy import errors_of_one, stated
from footprint.measure.context import Context

ATMOSPHERE = "works/atmosphere/pressure/assumed"
ABSOLUTE_PER_GAUGE = constant(
    1,
    unit("kPa/kPa_gauge"),
    "definitions/pressure/kilopascal/absolute by gauge",
    "absolute and gauge pressure are counted in the same kilopascal",
)


def absolute_pressure(context: Context, read: Row, key: tuple[str, str], words: str) -> Row:
    """Return a pressure as absolute kPa; what is counted from the atmosphere has it added.

    Args:
        context: site, year, factors. [context]
        read: readings of the pressure, a named row. [pressure]
        key: stream and quantity, such as ("fence gas", "line pressure"). [text]
        words: what the reader calls it. [text]

    Source: definition; the pressure of the atmosphere is the site file's
    """
    name, quantity = key
    if not is_convertible(read.unit, unit("kPa_gauge")):
        converted = context.key(name, quantity, "kPa")
        return convert(read, unit("kPa"), converted, f"{words}, kPa")
    gauge = convert(
        read, unit("kPa_gauge"), context.key(name, quantity, "gauge, kPa"), f"{words}, gauge, kPa"
    )
    return step(
        gauge * ABSOLUTE_PER_GAUGE + _atmosphere(context),
        context.key(name, quantity, "kPa"),
        f"{words}, kPa",
        "gauge pressure and pressure of the atmosphere",
    )


def absolute_temperature(read: Row, key: str, words: str) -> Row:
    """Return a temperature in kelvin; the row itself where it was read in kelvin.

    Args:
        read: readings of the temperature, a named row. [temperature]
        key: key of the result. [text]
        words: what the reader calls it. [text]

    Source: definition
    """
    if is_convertible(read.unit, unit("kelvin")):
        return read
    return moisture.absolute_temperature(read, key, words)


def _atmosphere(context: Context) -> Row:
    """Return the pressure of the atmosphere, made once."""
    works = context.site.works
    if works.atmospheric_pressure_kpa is None:
        raise ValueError("a gauge pressure was read without the pressure of the atmosphere")
    if ATMOSPHERE not in context.made:
        origin = Assumption(
            works.operator,
            "stated in the site file",
            works.plan.approved,
            "works > atmospheric_pressure_kpa",
        )
        value, words = works.atmospheric_pressure_kpa, "pressure of the atmosphere"
        accuracy = stated(works.atmospheric_pressure_uncertainty)
        accuracy = accuracy or context.unstated.take(words, "works")
        context.made[ATMOSPHERE] = constant(value, unit("kPa"), ATMOSPHERE, words, origin).replaced(
            errors=errors_of_one(words, accuracy, value, unit("kPa"))
        )
    return context.made[ATMOSPHERE]
