"""Heat in steam that crosses the boundary, above the feedwater it is made from."""

from __future__ import annotations

import numpy as np
from chemicals import iapws
from numpy.typing import NDArray

from footprint.base import units
from footprint.base.finding import Where, declare
from footprint.base.formulas import convert, frozen
from footprint.base.row import Row, constant, step
from footprint.base.source import Assumption
from footprint.measure.accuracy import errors_of_one, stated
from footprint.measure.context import Context
from footprint.measure.mass import mass_by_month
from footprint.read.site import SteamState, Stream

GAS_CONSTANT_OF_WATER = 0.461526  # kJ/(kg K), IAPWS R7-97(2012), equation 1
ZERO_CELSIUS = 273.15  # K
WATER, STEAM = 1, 2  # regions of the formulation
METHOD = "specific enthalpy of water and steam, IAPWS-IF97, R7-97(2012), regions 1 and 2"
Array = NDArray[np.float64]


OUTSIDE = declare(
    "steam-state-outside-tables",
    "stop",
    means="A pressure and temperature in the site file are neither liquid water nor steam below "
    "800 °C.",
    effect="the enthalpy, and with it the energy credited or charged for this steam, cannot be "
    "found",
    mend="state absolute pressure in bar and temperature in °C of superheated steam or liquid "
    "feedwater",
    example="pressure_bar_abs = 250.0, temperature_c = 360.0 lies near the critical point",
)


def specific_enthalpy(pressure: float, temperature: float) -> float:
    """Return the specific enthalpy of liquid water or superheated steam.

    It is 0 for the liquid at the triple point.

    Args:
        pressure: absolute. [MPa]
        temperature: absolute. [K]

    Valid: regions 1 and 2, that is water to 623.15 K and steam to 1073.15 K; NaN elsewhere. [kJ/kg]
    Source: IAPWS R7-97(2012), regions 1 and 2, by the library `chemicals`
    """
    region = iapws.iapws97_identify_region_TP(temperature, pressure * 1e6)
    if region == WATER:
        tau = 1386.0 / temperature
        slope = iapws.iapws97_dG_dtau_region1(tau, pressure / 16.53)
    elif region == STEAM:
        tau = 540.0 / temperature
        slope = iapws.iapws97_dG0_dtau_region2(tau, pressure)
        slope += iapws.iapws97_dGr_dtau_region2(tau, pressure)
    else:
        return float("nan")
    return float(GAS_CONSTANT_OF_WATER * temperature * tau * slope)


def _enthalpies(pressure: Array, celsius: Array) -> Array:
    each = np.vectorize(lambda p, t: specific_enthalpy(p, t + ZERO_CELSIUS), otypes=[float])
    return np.asarray(each(pressure, celsius))


def heat_by_month(context: Context, stream: Stream) -> Row:
    """Return the heat in a steam stream by month, above the feedwater that it is made from.

    Args:
        context: site, year, factors. [context]
        stream: a steam stream with its state, which the reader makes sure of. [stream]

    Source: energy above feedwater: common practice, no source
    """
    state = stream.steam
    if state is None:
        raise ValueError(f"{stream.name} has no state of steam")
    mass = mass_by_month(context, stream)
    return step(
        mass * _gained_by_tonne(context, stream, state),
        context.key(stream.name, "heat", "metered"),
        f"{stream.name}: heat",
        "mass times enthalpy above feedwater",
    )


def _gained_by_tonne(context: Context, stream: Stream, state: SteamState) -> Row:
    """Return the enthalpy of the steam above that of its feedwater."""
    live = _enthalpy(context, stream, state, "steam")
    water = _enthalpy(context, stream, state, "feedwater")
    words = f"{stream.name}: enthalpy above feedwater"
    gained = step(
        live - water,
        context.key(stream.name, "enthalpy gained", "iterated"),
        words,
        "steam less feedwater",
    )
    return convert(
        gained,
        units.unit("GJ_heat/t_steam"),
        context.key(stream.name, "enthalpy gained", "by tonne"),
        f"{words}, by tonne",
    )


def _enthalpy(context: Context, stream: Stream, state: SteamState, what: str) -> Row:
    name, point = f"{stream.name}: {what}", _point(state, what)
    bar, celsius = _stated(context, stream, state, what)
    pressure = convert(
        bar,
        units.unit("MPa"),
        context.key(stream.name, f"{what} pressure", "MPa"),
        f"{name}, pressure, MPa",
    )
    if np.isnan(specific_enthalpy(point[0] / 10, point[1] + ZERO_CELSIUS)):
        at = f"{point[0]:g} bar and {point[1]:g} °C"
        wrong = f'{what} of "{stream.name}" at {at} is not in the steam tables'
        context.findings.append(OUTSIDE.at(Where("site.toml", column=stream.name), wrong))
    return frozen(
        _enthalpies,
        units.unit("kJ_heat/kg_steam"),
        pressure,
        celsius,
        key=context.key(stream.name, f"{what} enthalpy", "iterated"),
        words=f"{name}, enthalpy",
        method=METHOD,
    )


def _point(state: SteamState, what: str) -> tuple[float, float]:
    """Return pressure in bar and temperature in °C."""
    if what == "steam":
        return state.pressure_bar_abs, state.temperature_c
    return state.feedwater_pressure_bar_abs, state.feedwater_temperature_c


def _stated(context: Context, stream: Stream, state: SteamState, what: str) -> tuple[Row, Row]:
    """Return pressure and temperature as the site file states them."""
    origin = Assumption(state.author, state.why, state.when, "streams")
    said = (state.pressure_uncertainty, state.temperature_uncertainty)
    rows = []
    for place, (quantity, name) in enumerate((("pressure", "bar"), ("temperature", "celsius"))):
        value, unit = _point(state, what)[place], units.unit(name)
        accuracy = stated(said[place])
        accuracy = accuracy or context.unstated.take(f"{quantity} of steam", stream.name)
        errors = errors_of_one(f"{quantity} of {what}, {stream.name}", accuracy, value, unit)
        key = context.key(stream.name, f"{what} {quantity}", "assumed")
        words = f"{stream.name}: {what}, {quantity}"
        rows.append(constant(value, unit, key, words, origin).replaced(errors=errors))
    return rows[0], rows[1]
