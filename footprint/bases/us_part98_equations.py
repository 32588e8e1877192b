"""Equations of 40 CFR Part 98, subparts A, C, G and PP: on numbers and on rows.

Symbols follow the rule. What the rule prints as 0.001 is a power of ten here; 44/12, molar volumes
and tons come in as arguments, since they are factors with a source.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from footprint.base.row import Row

Amount = TypeVar("Amount", Row, float)


def gas_carbon(volume: Amount, content: tuple[Amount, Amount], volume_by_mole: Amount) -> Amount:
    """Return carbon in kg in a gas: Fdstk x CC x MW / MVC.

    Args:
        volume: Fdstk or Fuel. [scf]
        content: CC and MW: carbon by mass of gas, molar mass. [kg C/kg, kg/kmol]
        volume_by_mole: MVC, 849.5 at 68 F or 836.6 at 60 F. [scf/kmol]

    Source: 40 CFR 98.73(b)(1), equation G-1 (symbols seen); 98.33(a)(3)(iii), C-5 (from memory)
    """
    carbon, molar_mass = content
    return volume * carbon * molar_mass / volume_by_mole


def dense_carbon(amount: Amount, carbon: Amount) -> Amount:
    """Return carbon in kg in a liquid or a solid: Fdstk x CC.

    Args:
        amount: feed or fuel. [gallon or kg]
        carbon: CC. [kg C/gallon or kg C/kg]

    Source: 40 CFR 98.73(b)(2) and (3), G-2, G-3 (seen); 98.33(a)(3)(ii), C-4 (from memory)
    """
    return amount * carbon


def as_co2_by_rule(carbon: Amount, ratio: Amount) -> Amount:
    """Return CO2 of carbon: the last step of G-1 to G-3, C-4 and C-5 before 0.001.

    Args:
        carbon: as counted. [kg C]
        ratio: 44/12. [kg CO2/kg C]

    Source: 40 CFR 98.73(b) (seen); 98.33(a)(3) (from memory)
    """
    return carbon * ratio


def solid_fuel_co2(short_tons: Amount, carbon: Amount, ratio: Amount, ton: Amount) -> Amount:
    """Return CO2 in metric tons from a solid fuel: C-3.

    Args:
        short_tons: fuel burnt. [short ton]
        carbon: CC. [1]
        ratio: 44/12. [t CO2/t C]
        ton: 0.91 as printed. [t/short ton]

    Source: 40 CFR 98.33(a)(3)(i), equation C-3 (from memory)
    """
    return short_tons * carbon * ratio * ton


def from_heat(amount: Amount, heat: Amount, factor: Amount) -> Amount:
    """Return kg of a gas from the heat of a fuel: C-1, C-2a, C-8, C-9a before 0.001.

    Args:
        amount: fuel burnt. [scf, gallon or short ton]
        heat: HHV, default or measured. [mmBtu by unit]
        factor: EF. [kg/mmBtu]

    Source: 40 CFR 98.33(a)(1)(i), C-1 (seen); (a)(2)(i), (c)(1), (c)(2): C-2a, C-8, C-9a (memory)
    """
    return amount * heat * factor


def from_bill(therms: float, by_therm: float, factor: float) -> float:
    """Return kg of a gas from billed heat: C-1a and C-8a before 0.001; C-1b, C-8b with 1.

    Args:
        therms: billed. [therm, or mmBtu]
        by_therm: 0.1, or 1 for a bill in mmBtu. [mmBtu/therm]
        factor: EF. [kg/mmBtu]

    Source: 40 CFR 98.33(a)(1)(ii), (iii) and (c)(1)(i), (ii) (from memory)
    """
    return by_therm * therms * factor


def weighted_mean(values: Sequence[float], weights: Sequence[float]) -> float:
    """Return the mean weighted by fuel burnt: C-2b.

    Args:
        values: one a month in which the fuel is burnt. [any]
        weights: fuel burnt in these months. [any]

    Source: 40 CFR 98.33(a)(2)(ii)(A), equation C-2b (from memory)
    """
    whole = sum(weights)
    return sum(value * weight for value, weight in zip(values, weights, strict=True)) / whole


def stack_co2(per_cent: float, flow: float, constant: float) -> float:
    """Return CO2 in metric tons by hour from a stack monitor: C-6.

    Args:
        per_cent: CO2 in the stack gas. [%]
        flow: of stack gas. [scf/h]
        constant: 5.18e-7. [t/scf/%]

    Source: 40 CFR 98.33(a)(4)(ii), equation C-6 (from memory)
    """
    return constant * per_cent * flow


def on_wet_flow(co2: float, water: float) -> float:
    """Return what C-6 gives where concentration is dry and flow is wet: C-7.

    Args:
        co2: by C-6. [t/h]
        water: in the stack gas. [%]

    Source: 40 CFR 98.33(a)(4)(iii), equation C-7 (from memory)
    """
    return co2 * (100 - water) / 100


def supplied_co2(quarters: Sequence[float], shares: Sequence[float]) -> float:
    """Return CO2 through one mass meter in the year: PP-1.

    Args:
        quarters: flow of the stream. [t]
        shares: CO2 in it, by mass. [1]

    Source: 40 CFR 98.423(a)(1), equation PP-1 (seen)
    """
    return sum(flow * share for flow, share in zip(quarters, shares, strict=True))


def supplied_by_volume(
    quarters: Sequence[float], densities: Sequence[float], shares: Sequence[float]
) -> float:
    """Return CO2 through one volume meter in the year: PP-2.

    Args:
        quarters: flow of the stream. [standard m3]
        densities: of CO2 with shares by volume, of the stream with shares by mass. [t/m3]
        shares: CO2 in it. [1]

    Source: 40 CFR 98.423(a)(2), equation PP-2 (seen)
    """
    every = zip(quarters, densities, shares, strict=True)
    return sum(flow * density * share for flow, density, share in every)


def less_on_site(main: Sequence[float], on_site: Sequence[float]) -> float:
    """Return CO2 supplied where meters stand before the branch to on-site use: PP-3b.

    Args:
        main: CO2 through main meters. [t]
        on_site: CO2 through meters of streams used on site. [t]

    Source: 40 CFR 98.423(a)(3)(ii), equation PP-3b (from memory)
    """
    return sum(main) - sum(on_site)


def calibration_error(reference: float, response: float, over: float) -> float:
    """Return the calibration error of a meter in per cent: A-2 over the reference, A-3 over scale.

    Args:
        reference: R. [any]
        response: A. [any]
        over: R itself, or the full scale FS. [any]

    Source: 40 CFR 98.3(i)(2) and (3), equations A-2 and A-3 (from memory)
    """
    return abs(reference - response) / over * 100
