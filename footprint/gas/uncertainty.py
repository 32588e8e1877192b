"""Standard uncertainties of the gas quality: those of analysis, component table and constants."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
# each result as a product of powers of: calorific value by kmol, molar mass, compression factor,
# gas constant, molar mass of air, compression factor of air
POWERS = {
    "calorific value by kmol": np.array([1.0, 0.0, 0.0, 0.0, 0.0, 0.0]),
    "calorific value by kg": np.array([1.0, -1.0, 0.0, 0.0, 0.0, 0.0]),
    "calorific value by volume": np.array([1.0, 0.0, -1.0, -1.0, 0.0, 0.0]),
    "density": np.array([0.0, 1.0, -1.0, -1.0, 0.0, 0.0]),
    "relative density": np.array([0.0, 1.0, -1.0, 0.0, -1.0, 1.0]),
    "Wobbe index": np.array([1.0, -0.5, -0.5, -1.0, 0.5, -0.5]),
}


@dataclass(frozen=True, eq=False, slots=True)
class Components:
    """Of the components of one gas, arrays in the order of its composition, shape (components,).

    Attributes:
        molar_mass: molar mass. [kg/kmol]
        summation: summation factor at the metering temperature. [1]
        u_summation: its standard uncertainty. [1]
        gross: gross calorific value at the combustion temperature. [MJ/kmol]
        u_gross: its standard uncertainty. [MJ/kmol]
        atoms: atoms of each element in one molecule, shape (components, elements). [1]
    """

    molar_mass: Array
    summation: Array
    u_summation: Array
    gross: Array
    u_gross: Array
    atoms: Array


@dataclass(frozen=True, eq=False, slots=True)
class Physical:
    """Constants with their standard uncertainties.

    Attributes:
        u_atomic_weights: of the elements, ordered as the columns of the atoms. [kg/kmol]
        hydrogen: column of hydrogen among the elements. [1]
        vaporisation: enthalpy of vaporisation of water and its uncertainty. [MJ/kmol]
        relative: of gas constant, molar mass and compression factor of air. [1]
    """

    u_atomic_weights: Array
    hydrogen: int
    vaporisation: tuple[float, float]
    relative: tuple[float, float, float]


def relative_uncertainties(
    fractions: Array,
    u_fractions: Array,
    components: Components,
    physical: Physical,
    *,
    is_net: bool = False,
) -> dict[str, float]:
    """Return the relative standard uncertainty (k = 1) of each result, fractions uncorrelated.

    Args:
        fractions: mole fraction of each component. [kmol/kmol]
        u_fractions: their standard uncertainties. [kmol/kmol]
        components: component table. [arrays]
        physical: constants. [arrays]
        is_net: net calorific values instead of gross. [flag]

    Valid: 101.325 kPa; real gas
    Source: ISO 6976:2016, Annex B: linear propagation
    """
    hydrogen = components.atoms[:, physical.hydrogen]
    half_hydrogen = hydrogen / 2 if is_net else np.zeros_like(hydrogen)
    water, u_water = physical.vaporisation
    values = components.gross - half_hydrogen * water
    heat, mass = fractions @ values, fractions @ components.molar_mass
    summation = fractions @ components.summation
    by_summation = -2 * summation / (1 - summation * summation)
    composition = [values / heat, components.molar_mass / mass, by_summation * components.summation]
    table = [
        np.append(fractions * components.u_gross, fractions @ half_hydrogen * u_water) / heat,
        fractions @ components.atoms * physical.u_atomic_weights / mass,
        by_summation * fractions * components.u_summation,
    ]
    of_gas = np.hstack([np.array(composition) * u_fractions, _side_by_side(*table)])
    constants = np.diag(physical.relative)
    return {
        name: float(np.hypot(_length(powers[:3] @ of_gas), _length(powers[3:] @ constants)))
        for name, powers in POWERS.items()
    }


def _length(pulls: Array) -> float:
    """Return the root of the sum of squares of independent pulls."""
    return float(np.sqrt(pulls @ pulls))


def _side_by_side(*pulls: Array) -> Array:
    """Return rows of pulls, each on columns of its own: errors that touch one row only."""
    rows = [
        [own if i == j else np.zeros_like(own) for j, own in enumerate(pulls)]
        for i in range(len(pulls))
    ]
    return np.array([np.hstack(row) for row in rows])
