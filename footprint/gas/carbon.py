"""Carbon in a gas: per kmol, per kg, per energy, and the CO2 it makes.

The mass of carbon is the base; the ratio of CO2 to carbon is a rule's own choice (3.664, 44/12)
and comes last.
"""

from __future__ import annotations

from collections.abc import Sequence

from footprint.gas.arithmetic import Number, weighted_sum


def carbon_in_gas(fractions: Sequence[Number], carbon_atoms: Sequence[Number]) -> Number:
    """Return all carbon in the gas, that of its CO2 and CO included.

    Args:
        fractions: mole fraction of each component; they sum to 1. [kmol/kmol]
        carbon_atoms: carbon atoms in one molecule of each component. [kmol_C/kmol]

    Source: definition
    """
    return weighted_sum(fractions, carbon_atoms)


def carbon_content(carbon: Number, carbon_mass: Number, molar_mass: Number) -> Number:
    """Return the mass of carbon per mass of gas.

    Args:
        carbon: carbon per amount of gas. [kmol_C/kmol]
        carbon_mass: molar mass of carbon. [kg_C/kmol_C]
        molar_mass: molar mass of the gas. [kg/kmol]

    Source: definition
    """
    return carbon * carbon_mass / molar_mass


def carbon_by_energy(carbon: Number, carbon_mass: Number, molar_value: Number) -> Number:
    """Return the mass of carbon per energy; net or gross as the calorific value is.

    Args:
        carbon: carbon per amount of gas. [kmol_C/kmol]
        carbon_mass: molar mass of carbon. [kg_C/kmol_C]
        molar_value: calorific value. [GJ/kmol]

    Source: definition
    """
    return carbon * carbon_mass / molar_value


def emission_factor(by_energy: Number, co2_per_carbon: Number) -> Number:
    """Return the CO2 of complete combustion per energy; 1 kg/GJ is 1 t/TJ.

    Args:
        by_energy: carbon per energy, net or gross. [kg_C/GJ]
        co2_per_carbon: mass of CO2 per mass of carbon, as the rule in force has it. [t_CO2/t_C]

    Source: definition
    """
    return by_energy * co2_per_carbon


def co2_by_volume(
    carbon: Number, carbon_mass: Number, co2_per_carbon: Number, molar_volume: Number
) -> Number:
    """Return the CO2 of complete combustion per volume of gas.

    Args:
        carbon: carbon per amount of gas. [kmol_C/kmol]
        carbon_mass: molar mass of carbon. [kg_C/kmol_C]
        co2_per_carbon: mass of CO2 per mass of carbon, as the rule in force has it. [t_CO2/t_C]
        molar_volume: of the real gas at the metering reference. [volume/kmol]

    Source: definition
    """
    return carbon * carbon_mass * co2_per_carbon / molar_volume
