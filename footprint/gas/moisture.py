"""Water vapour in a gas: saturation pressure in closed form, and the dry amount in a wet volume."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic

from footprint.base.row import Row, constant, step
from footprint.base.units import unit
from footprint.gas.arithmetic import Number, root

BECAUSE = "IAPWS R7-97(2012), equation 30"


@dataclass(frozen=True, eq=False, slots=True)
class Saturation(Generic[Number]):
    """Coefficients of the saturation line of water.

    Attributes:
        n: the ten coefficients. [1]
        two: of the formula for square equations. [1]
        four: of the formula for square equations. [1]
        temperature: unit of temperature, 1 K. [kelvin]
        pressure: unit of pressure, 1 MPa, written as 1000 kPa where kPa are wanted. [kPa]
    """

    n: tuple[Number, ...]
    two: Number
    four: Number
    temperature: Number
    pressure: Number


KELVIN_PER_CELSIUS = constant(
    1, unit("kelvin/celsius"), "definitions/celsius/degree/size", "kelvin in one degree Celsius"
)
ZERO_CELSIUS = constant(273.15, unit("kelvin"), "definitions/celsius/zero/temperature", "0 °C")


def absolute_temperature(celsius: Row, key: str, words: str) -> Row:
    """Return a temperature in kelvin.

    Args:
        celsius: temperature. [celsius]
        key: key of the result. [text]
        words: what the reader calls it. [text]

    Source: definition
    """
    return step(celsius * KELVIN_PER_CELSIUS + ZERO_CELSIUS, key, words, "t + 273.15")


def saturation_pressure(
    temperature: Number, line: Saturation[Number], key: str = "", words: str = "gas"
) -> Number:
    """Return the pressure at which water vapour is saturated, with its parts as named rows.

    Args:
        temperature: absolute; a row must have a name. [kelvin]
        line: coefficients of the saturation line. [table]
        key: front of the keys, such as "ammonia/purge gas/water". [text]
        words: the gas or place, for the reader. [text]

    Returns:
        saturation pressure, absolute, in the unit of the line's pressure. [kPa]

    Valid: 273.15 to 647.096 K
    Source: IAPWS R7-97(2012), equations 29 and 30
    """

    def named(row: Number, quantity: str) -> Number:
        return step(row, f"{key}/{quantity}", f"{quantity}, {words}", BECAUSE)

    n = line.n
    scaled = named(temperature / line.temperature, "temperature in kelvin as a number")
    theta = named(scaled + n[8] / (scaled - n[9]), "theta of the saturation line")
    a = named(theta * theta + n[0] * theta + n[1], "A of the saturation line")
    b = named(n[2] * theta * theta + n[3] * theta + n[4], "B of the saturation line")
    c = named(n[5] * theta * theta + n[6] * theta + n[7], "C of the saturation line")
    square_root = named(root(b * b - line.four * a * c), "root of B² - 4 A C")
    fourth_root = named(line.two * c / (square_root - b), "fourth root of the saturation pressure")
    pressure = fourth_root * fourth_root * fourth_root * fourth_root * line.pressure
    return named(pressure, "saturation pressure of water")


def water_fraction(saturation: Number, pressure: Number) -> Number:
    """Return the mole fraction of water in a gas saturated with it.

    Args:
        saturation: saturation pressure at the temperature of the gas. [kPa]
        pressure: of the gas, absolute. [kPa]

    Source: Dalton's law; the enhancement factor (0.4 % of the water at 1 bar) is left out
    """
    return saturation / pressure


def dry_amount(volume: Number, molar_volume: Number, water: Number) -> Number:
    """Return the amount of dry gas in a volume of wet real gas: the water takes its share of it.

    Args:
        volume: wet gas at the metering reference. [volume]
        molar_volume: molar volume of the dry gas there. [volume/kmol]
        water: mole fraction of water. [kmol/kmol]

    Source: definition
    """
    return volume * (1 - water) / molar_volume
