"""Gases of the invented works: components, real volumes, energy and atoms.

A table and arithmetic of its own, apart from the product's code, so that the figures of the works
are a true check of the product. A flow is an array (days, components) in kmol a day, dry.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

ELEMENTS = ("C", "H", "N", "O", "Ar")


class Component(NamedTuple):
    """A component of gas, with figures of ISO 6976:2016 (tables 1 to 3)."""

    formula: str
    molar_mass: float  # kg/kmol
    gross: float  # gross calorific value at 25 °C, MJ/kmol
    s_0: float  # summation factor at 0 °C
    s_15: float  # summation factor at 15 °C
    atoms: tuple[int, int, int, int, int]  # C, H, N, O, Ar


COMPONENTS = (
    Component("CH4", 16.04246, 890.58, 0.04886, 0.04452, (1, 4, 0, 0, 0)),
    Component("C2H6", 30.06904, 1560.69, 0.0997, 0.0919, (2, 6, 0, 0, 0)),
    Component("C3H8", 44.09562, 2219.17, 0.1465, 0.1344, (3, 8, 0, 0, 0)),
    Component("i-C4H10", 58.1222, 2868.20, 0.1885, 0.1722, (4, 10, 0, 0, 0)),
    Component("n-C4H10", 58.1222, 2877.40, 0.2022, 0.184, (4, 10, 0, 0, 0)),
    Component("n-C5H12", 72.14878, 3535.77, 0.2586, 0.2361, (5, 12, 0, 0, 0)),
    Component("N2", 28.0134, 0.0, 0.0214, 0.017, (0, 0, 2, 0, 0)),
    Component("CO2", 44.0095, 0.0, 0.0821, 0.0752, (1, 0, 0, 2, 0)),
    Component("CO", 28.0101, 282.98, 0.0258, 0.0217, (1, 0, 0, 1, 0)),
    Component("H2", 2.01588, 285.83, -0.01, -0.01, (0, 2, 0, 0, 0)),
    Component("Ar", 39.948, 0.0, 0.0307, 0.0273, (0, 0, 0, 0, 1)),
    Component("NH3", 17.03052, 382.81, 0.123, 0.11, (0, 3, 1, 0, 0)),
)
FORMULAS = tuple(component.formula for component in COMPONENTS)
PLACE = {formula: place for place, formula in enumerate(FORMULAS)}

ATOMS: Array = np.array([component.atoms for component in COMPONENTS], dtype=float)
MOLAR_MASS: Array = np.array([component.molar_mass for component in COMPONENTS])
GROSS: Array = np.array([component.gross for component in COMPONENTS])
SUMMATION: dict[int, Array] = {
    0: np.array([component.s_0 for component in COMPONENTS]),
    15: np.array([component.s_15 for component in COMPONENTS]),
}
MOLAR_MASS_CARBON = 12.0107  # kg/kmol
MOLAR_MASS_UREA = 60.05526  # kg/kmol
NITROGEN_IN_UREA = 2 * 14.0067 / MOLAR_MASS_UREA  # kg/kg
EVAPORATION = 44.013  # of water at 25 °C, MJ/kmol, ISO 6976:2016 annex A
GAS_CONSTANT = 8.3144621  # kJ/(kmol K), the value of ISO 6976:2016
ATMOSPHERE = 101.325  # kPa


def total(flow: Array) -> Array:
    """Return the amount of gas, all components together.

    Args:
        flow: amounts by day and component. [kmol/d]

    Source: definition
    """
    return np.asarray(flow.sum(axis=-1))


def component(flow: Array, formula: str) -> Array:
    """Return the amount of one component.

    Args:
        flow: amounts by day and component. [kmol/d]
        formula: as in the table. [text]

    Source: definition
    """
    return flow[..., PLACE[formula]]


def atoms(flow: Array, element: str) -> Array:
    """Return the atoms of one element in a flow.

    Args:
        flow: amounts by day and component. [kmol/d]
        element: C, H, N, O or Ar. [text]

    Source: definition
    """
    return flow @ ATOMS[:, ELEMENTS.index(element)]


def gas_of(days: int, **amounts: Array | float) -> Array:
    """Return a flow from the amounts of some components; the others are zero.

    Args:
        days: number of days. [1]
        amounts: by formula. [kmol/d]

    Source: definition
    """
    flow = np.zeros((days, len(FORMULAS)))
    for formula, amount in amounts.items():
        flow[:, PLACE[formula]] = amount
    return flow


def composition(flow: Array) -> Array:
    """Return mole fractions; all zero where nothing flows.

    Args:
        flow: amounts by day and component. [kmol/d]

    Source: definition
    """
    amount = total(flow)[..., None]
    return np.divide(flow, amount, out=np.zeros_like(flow), where=amount > 0)


def volume(flow: Array, celsius: int = 0) -> Array:
    """Return the volume of the real gas at a reference temperature and 101.325 kPa.

    Args:
        flow: amounts by day and component. [kmol/d]
        celsius: reference temperature, 0 or 15. [°C]

    Source: ISO 6976:2016, equations 1 and 11
    """
    compression = 1 - (composition(flow) @ SUMMATION[celsius]) ** 2
    return total(flow) * compression * GAS_CONSTANT * (273.15 + celsius) / ATMOSPHERE


def wet_volume(flow: Array, celsius: Array, kilopascal: Array) -> Array:
    """Return the volume at 0 °C of gas with the water vapour that saturates it at the meter.

    The flow computer takes the compression factor of the dry gas and knows nothing of the water.

    Args:
        flow: dry amounts by day and component. [kmol/d]
        celsius: temperature at the meter. [°C]
        kilopascal: absolute pressure at the meter. [kPa]

    Source: Dalton's law
    """
    return volume(flow) / (1 - saturation_pressure(celsius) / kilopascal)


def gross_energy(flow: Array) -> Array:
    """Return the gross heat of combustion at 25 °C.

    Args:
        flow: amounts by day and component. [kmol/d]

    Source: ISO 6976:2016, equation 2
    """
    return flow @ GROSS / 1000


def net_energy(flow: Array) -> Array:
    """Return the net heat of combustion at 25 °C, water staying vapour.

    Args:
        flow: amounts by day and component. [kmol/d]

    Source: ISO 6976:2016, equation 3
    """
    return gross_energy(flow) - atoms(flow, "H") / 2 * EVAPORATION / 1000


def carbon_mass(flow: Array) -> Array:
    """Return the mass of carbon in a flow, in tonnes a day.

    Args:
        flow: amounts by day and component. [kmol/d]

    Source: definition
    """
    return atoms(flow, "C") * MOLAR_MASS_CARBON / 1000


def mass(flow: Array, formula: str) -> Array:
    """Return the mass of one component, in tonnes a day.

    Args:
        flow: amounts by day and component. [kmol/d]
        formula: as in the table. [text]

    Source: definition
    """
    return component(flow, formula) * float(MOLAR_MASS[PLACE[formula]]) / 1000


def saturation_pressure(celsius: Array) -> Array:
    """Return the vapour pressure of water, in kPa.

    Args:
        celsius: temperature. [°C]

    Source: IAPWS SR1-86(1992), equation 1
    """
    ratio = 1 - (celsius + 273.15) / 647.096
    exponents = (1.0, 1.5, 3.0, 3.5, 4.0, 7.5)
    factors = (-7.85951783, 1.84408259, -11.7866497, 22.6807411, -15.9618719, 1.80122502)
    exponent = sum(a * ratio**power for a, power in zip(factors, exponents, strict=True))
    return np.asarray(22064.0 * np.exp(exponent / (1 - ratio)))
