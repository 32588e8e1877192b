"""How much room a kmol of real gas takes, and its density, relative density and Wobbe index."""

from __future__ import annotations

from collections.abc import Sequence

from footprint.gas.arithmetic import Number, root, weighted_sum


def molar_mass(fractions: Sequence[Number], of_components: Sequence[Number]) -> Number:
    """Return the molar mass of the gas.

    Args:
        fractions: mole fraction of each component; they sum to 1. [kmol/kmol]
        of_components: molar mass of each component. [kg/kmol]

    Source: ISO 6976:2016, formula (5)
    """
    return weighted_sum(fractions, of_components)


def summation_factor(fractions: Sequence[Number], of_components: Sequence[Number]) -> Number:
    """Return the summation factor of the gas; hydrogen and helium keep their negative sign.

    Args:
        fractions: mole fraction of each component; they sum to 1. [kmol/kmol]
        of_components: summation factor of each component at the metering temperature. [1]

    Source: ISO 6976:2016, formula (1), the sum inside the square
    """
    return weighted_sum(fractions, of_components)


def compression_factor(summation: Number) -> Number:
    """Return the compression factor at 101.325 kPa.

    Args:
        summation: summation factor of the gas. [1]

    Valid: compression factor above 0.9
    Source: ISO 6976:2016, formula (1)
    """
    return 1 - summation * summation


def compression_factor_at(at_reference: Number, pressure_ratio: Number) -> Number:
    """Return the compression factor at a pressure near 101.325 kPa; also for air.

    Args:
        at_reference: compression factor at 101.325 kPa. [1]
        pressure_ratio: pressure over 101.325 kPa. [1]

    Valid: 90 to 110 kPa
    Source: ISO 6976:2016, formulas (1) and (18)
    """
    return 1 - pressure_ratio * (1 - at_reference)


def ideal_molar_volume(gas_constant: Number, temperature: Number, pressure: Number) -> Number:
    """Return the molar volume of an ideal gas.

    Args:
        gas_constant: molar gas constant. [kPa volume/(kmol K)]
        temperature: absolute. [kelvin]
        pressure: absolute. [kPa]

    Source: ISO 6976:2016, formula (8)
    """
    return gas_constant * temperature / pressure


def molar_volume(compression: Number, ideal: Number) -> Number:
    """Return the molar volume of the real gas.

    Args:
        compression: compression factor of the gas at the reference condition. [1]
        ideal: molar volume of an ideal gas there. [volume/kmol]

    Source: ISO 6976:2016, formula (11)
    """
    return compression * ideal


def density(molar_mass_of_gas: Number, volume: Number) -> Number:
    """Return the mass per volume; real or ideal as the molar volume is.

    Args:
        molar_mass_of_gas: molar mass. [kg/kmol]
        volume: molar volume. [volume/kmol]

    Source: ISO 6976:2016, formulas (14) and (19)
    """
    return molar_mass_of_gas / volume


def relative_density(
    mass: Number, air_mass: Number, compression: Number, air_compression: Number
) -> Number:
    """Return the density over that of dry air.

    With both compression factors 1 it is the relative density of the ideal gases.

    Args:
        mass: molar mass of the gas. [kg/kmol]
        air_mass: molar mass of dry air. [kg/kmol]
        compression: compression factor of the gas. [1]
        air_compression: compression factor of dry air at the same condition. [1]

    Source: ISO 6976:2016, formulas (13) and (17)
    """
    return mass * air_compression / (air_mass * compression)


def wobbe_index(volume_value: Number, relative: Number) -> Number:
    """Return the Wobbe index: calorific value per volume over the root of the relative density.

    Args:
        volume_value: calorific value per volume, gross or net. [energy/volume]
        relative: relative density, real or ideal as the calorific value is. [1]

    Source: ISO 6976:2016, formulas (15), (16), (20) and (21)
    """
    return volume_value / root(relative)
