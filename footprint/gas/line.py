"""Gas at the temperature and pressure of its line: compression factor, volume at reference."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pyaga8
from numpy.typing import NDArray

from footprint.gas.arithmetic import Number

Array = NDArray[np.float64]
FIELDS = {  # component of our table: component of the equations
    "methane": "methane",
    "nitrogen": "nitrogen",
    "carbon dioxide": "carbon_dioxide",
    "ethane": "ethane",
    "propane": "propane",
    "isobutane": "isobutane",
    "n-butane": "n_butane",
    "isopentane": "isopentane",
    "n-pentane": "n_pentane",
    "neopentane": "n_pentane",  # lumped, as ISO 12213-2 does (from memory)
    "n-hexane": "hexane",
    "n-heptane": "heptane",
    "n-octane": "octane",
    "n-nonane": "nonane",
    "n-decane": "decane",
    "hydrogen": "hydrogen",
    "oxygen": "oxygen",
    "carbon monoxide": "carbon_monoxide",
    "water": "water",
    "hydrogen sulfide": "hydrogen_sulfide",
    "helium": "helium",
    "argon": "argon",
}


@dataclass(frozen=True, slots=True)
class Equation:
    """An equation of state and the range in which it gives the compression factor to 0.1 %.

    Attributes:
        name: in the site file. [text]
        solver: of the library. [class]
        options: of its density. [any]
        temperature: lowest and highest. [kelvin]
        pressure: highest, absolute. [kPa]
        least: least mole fraction by component. [kmol/kmol]
        most: highest mole fraction of groups of components. [kmol/kmol]
        source: of the range. [text]
    """

    name: str
    solver: Any
    options: tuple[int, ...]
    temperature: tuple[float, float]
    pressure: float
    source: str
    least: dict[str, float] = field(default_factory=dict)
    most: dict[tuple[str, ...], float] = field(default_factory=dict)


EQUATIONS = {
    one.name: one
    for one in (
        Equation(
            "AGA 8 DETAIL",
            pyaga8.Detail,
            (),
            temperature=(263.0, 338.0),
            pressure=12_000.0,
            source="ISO 12213-2:2006, pipeline quality gas (from memory: check before filing)",
            least={"methane": 0.7},
            most={
                ("nitrogen",): 0.20,
                ("carbon dioxide",): 0.20,
                ("ethane",): 0.10,
                ("propane",): 0.035,
                ("isobutane", "n-butane"): 0.015,
                ("isopentane", "n-pentane", "neopentane"): 0.005,
                ("n-hexane",): 0.001,
                ("n-heptane",): 0.0005,
                ("n-octane", "n-nonane", "n-decane"): 0.0005,
                ("hydrogen",): 0.10,
                ("carbon monoxide",): 0.03,
                ("helium",): 0.005,
                ("water",): 0.00015,
            },
        ),
        Equation(
            "GERG-2008",
            pyaga8.Gerg2008,
            (0,),  # phase: found by the library
            temperature=(90.0, 450.0),
            pressure=35_000.0,
            source="range of normal use of GERG-2008 (from memory: check before filing)",
        ),
    )
}


def compression_factors(
    equation: str,
    components: Sequence[str],
    temperature: Array,
    pressure: Array,
    fractions: Sequence[Array],
) -> Array:
    """Return the compression factor of a gas in each of several states.

    Args:
        equation: "AGA 8 DETAIL" or "GERG-2008". [text]
        components: names in the component table, all of them in FIELDS. [text]
        temperature: absolute, one a state. [kelvin]
        pressure: absolute, one a state. [kPa]
        fractions: mole fraction of each component, one a state; brought to a sum of 1. [kmol/kmol]

    Valid: the range of the equation; NaN where it gives no density
    Source: AGA Report No. 8 and ISO 20765-2 by the library `pyaga8`
    """
    states = np.broadcast_arrays(temperature, pressure, *fractions)
    found = [
        _compression_factor(EQUATIONS[equation], components, state)
        for state in np.stack([one.ravel() for one in states], axis=1)
    ]
    return np.array(found, dtype=float).reshape(states[0].shape)


def _compression_factor(equation: Equation, components: Sequence[str], state: Array) -> float:
    """Return the compression factor in one state: temperature, pressure, mole fractions."""
    total = float(state[2:].sum())
    if not np.isfinite(state).all() or total <= 0:
        return float("nan")
    lumped = dict.fromkeys(FIELDS.values(), 0.0)
    for name, fraction in zip(components, state[2:], strict=True):
        lumped[FIELDS[name]] += float(fraction) / total
    composition, gas = pyaga8.Composition(), equation.solver()
    for field_name, fraction in lumped.items():
        setattr(composition, field_name, fraction)
    gas.set_composition(composition)
    gas.temperature, gas.pressure = float(state[0]), float(state[1])
    try:
        gas.calc_density(*equation.options)
    except (RuntimeError, ValueError):  # no density in this state
        return float("nan")
    gas.calc_properties()
    return float(gas.z)


def volume_at_reference(
    volume: Number, pressures: Number, temperatures: Number, compressions: Number
) -> Number:
    """Return the volume at a reference condition of a gas metered in its line.

    Args:
        volume: as it flows. [volume]
        pressures: pressure in the line over that of the reference, both absolute. [1]
        temperatures: temperature of the reference over that in the line, both absolute. [1]
        compressions: compression factor at the reference over that in the line. [1]

    Source: definition: the same amount of gas; V p / (Z T) is what stays
    """
    return volume * pressures * temperatures * compressions


def outside(equation: str, temperature: Array, pressure: Array) -> NDArray[np.bool_]:
    """Return where a state lies outside the range of the equation; not where it is missing.

    Args:
        equation: "AGA 8 DETAIL" or "GERG-2008". [text]
        temperature: absolute. [kelvin]
        pressure: absolute. [kPa]

    Source: the range's own source
    """
    one = EQUATIONS[equation]
    low, high = one.temperature
    return (temperature < low) | (temperature > high) | (pressure <= 0) | (pressure > one.pressure)


def composition_outside(equation: str, fractions: dict[str, float]) -> list[str]:
    """Return the components that are outside the range of the equation, in words.

    Args:
        equation: "AGA 8 DETAIL" or "GERG-2008". [text]
        fractions: mole fraction of each component; they sum to 1. [kmol/kmol]

    Source: the range's own source
    """
    one = EQUATIONS[equation]
    found = [
        f"{name} {fractions.get(name, 0):.2%} is under {least:.2%}"
        for name, least in one.least.items()
        if fractions.get(name, 0) < least
    ]
    for names, most in one.most.items():
        held = sum(fractions.get(name, 0) for name in names)
        if held > most:
            found.append(f"{' and '.join(names)} {held:.2%} is over {most:.2%}")
    return found
