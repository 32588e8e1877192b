"""Calorific values of a gas: gross and net, per kmol, per kg and per cubic metre.

The molar values of the real gas are taken equal to those of the ideal gas, as the standard does.
"""

from __future__ import annotations

from collections.abc import Sequence

from footprint.gas.arithmetic import Number, weighted_sum


def molar(fractions: Sequence[Number], of_components: Sequence[Number]) -> Number:
    """Return the calorific value per amount of gas; net when the component values are net.

    Args:
        fractions: mole fraction of each component; they sum to 1. [kmol/kmol]
        of_components: calorific value of each, at one combustion temperature. [energy/kmol]

    Source: ISO 6976:2016, formulas (2) and (3)
    """
    return weighted_sum(fractions, of_components)


def latent_per_hydrogen(vaporisation: Number, hydrogen_in_water: Number) -> Number:
    """Return the heat set free when the water made from one hydrogen atom condenses.

    Args:
        vaporisation: enthalpy of vaporisation of water at the combustion temperature. [energy/kmol]
        hydrogen_in_water: hydrogen atoms in one molecule of water. [kmol_H/kmol]

    Source: ISO 6976:2016, formula (3)
    """
    return vaporisation / hydrogen_in_water


def net_of_component(
    gross: Number, hydrogen: Number, latent: Number, net_per_gross: Number
) -> Number:
    """Return the net calorific value of one component: gross less the heat of its condensed water.

    Water vapour has a gross value equal to its heat of vaporisation, and so a net value of zero.

    Args:
        gross: gross calorific value of the component. [GJ_gross/kmol]
        hydrogen: hydrogen atoms in one molecule. [kmol_H/kmol]
        latent: heat of condensation by hydrogen atom. [GJ_gross/kmol_H]
        net_per_gross: 1, as both are counted in one joule. [GJ_net/GJ_gross]

    Source: ISO 6976:2016, formula (3)
    """
    return (gross - hydrogen * latent) * net_per_gross


def by_mass(molar_value: Number, molar_mass: Number) -> Number:
    """Return the calorific value per mass of gas.

    Args:
        molar_value: calorific value. [energy/kmol]
        molar_mass: molar mass of the gas. [kg/kmol]

    Source: ISO 6976:2016, formulas for the mass basis
    """
    return molar_value / molar_mass


def by_volume(molar_value: Number, molar_volume: Number) -> Number:
    """Return the calorific value per volume; real or ideal as the molar volume is.

    Args:
        molar_value: calorific value. [energy/kmol]
        molar_volume: molar volume at the metering reference. [volume/kmol]

    Source: ISO 6976:2016, formulas (7), (9), (10) and (12)
    """
    return molar_value / molar_volume
