"""Units of the house: substances, heating-value basis and reference conditions are dimensions.

A tonne of carbon is not a tonne of CO2, net energy is not gross energy, and a cubic metre at 0 °C
is not one at 15 °C, so that a forgotten 44/12, heating-value basis or reference condition is
refused instead of added.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any, cast

import pint

# name = (definition, label shown to the reader)
_UNITS: dict[str, tuple[str, str]] = {
    "tonne": ("[mass]", "t"),
    "kg": ("tonne / 1000", "kg"),
    "kmol": ("[amount_of_gas]", "kmol"),
    "mol": ("kmol / 1000", "mol"),
    "litre": ("[liquid_volume]", "L"),
    "m3_liquid": ("1000 * litre", "m³ liquid"),
    "m3_gas": (
        "[gas_volume]",
        "m³",
    ),  # at a temperature and pressure that stand beside it in the equation
    "hour": ("[time]", "h"),
    "day": ("24 * hour", "d"),
    "minute": ("hour / 60", "min"),
    "second": ("hour / 3600", "s"),
    "metre": ("[level]", "m"),  # of a liquid in a tank
    "cm": ("metre / 100", "cm"),
    "mm": ("metre / 1000", "mm"),
    "start": ("[starts]", "starts"),
    "kelvin": ("[temperature]", "K"),
    "celsius": ("[celsius_temperature]", "°C"),
    "kPa": ("[pressure]", "kPa (abs)"),
    "bar": ("100 * kPa", "bar (abs)"),
    "MPa": ("1000 * kPa", "MPa (abs)"),
    "Pa": ("kPa / 1000", "Pa (abs)"),
    "kPa_gauge": ("[pressure_above_atmosphere]", "kPa (gauge)"),
    "bar_gauge": ("100 * kPa_gauge", "bar (gauge)"),
    "MPa_gauge": ("1000 * kPa_gauge", "MPa (gauge)"),
    "Pa_gauge": ("kPa_gauge / 1000", "Pa (gauge)"),
    "GJ_net": ("[net_energy]", "GJ (net)"),
    "MJ_net": ("GJ_net / 1000", "MJ (net)"),
    "kJ_net": ("GJ_net / 1000000", "kJ (net)"),
    "TJ_net": ("1000 * GJ_net", "TJ (net)"),
    "GJ_gross": ("[gross_energy]", "GJ (gross)"),
    "MJ_gross": ("GJ_gross / 1000", "MJ (gross)"),
    "kJ_gross": ("GJ_gross / 1000000", "kJ (gross)"),
    "TJ_gross": ("1000 * GJ_gross", "TJ (gross)"),
    "MWh_gross": ("36/10 * GJ_gross", "MWh (gross)"),
    "kWh_gross": ("MWh_gross / 1000", "kWh (gross)"),
    "MWh_net": ("36/10 * GJ_net", "MWh (net)"),
    "kWh_net": ("MWh_net / 1000", "kWh (net)"),
    "GJ_heat": ("[heat]", "GJ (heat)"),
    "kJ_heat": ("GJ_heat / 1000000", "kJ (heat)"),
    "kJ_latent": ("[latent_heat]", "kJ (latent)"),
    "MWh": ("[electricity]", "MWh"),
    "kWh": ("MWh / 1000", "kWh"),
    "GWh": ("1000 * MWh", "GWh"),
    "GJ": ("[any_energy]", "GJ"),
    "mmBtu": ("[gross_energy_at_60F]", "mmBtu"),  # gross, as 40 CFR Part 98 counts it
    "short_ton": ("[mass_by_short_ton]", "short ton"),
    "gallon": ("[volume_by_gallon]", "gal"),
    "percent": ("[percent]", "%"),
}
for _substance, _label in {
    "C": "C",
    "CO2": "CO₂",
    "CO2e": "CO₂e",
    "CH4": "CH₄",
    "N2O": "N₂O",
    "NH3": "NH₃",
    "urea": "urea",
    "product": "product",
    "steam": "steam",
    "water": "water",
    "air": "dry air",
}.items():
    _UNITS[f"t_{_substance}"] = (f"[mass_of_{_substance}]", f"t {_label}")
    _UNITS[f"kg_{_substance}"] = (f"t_{_substance} / 1000", f"kg {_label}")
for _atom in ("C", "H", "N", "O", "S"):
    _UNITS[f"kmol_{_atom}"] = (f"[amount_of_{_atom}_atoms]", f"kmol {_atom}")
    _UNITS[f"mol_{_atom}"] = (f"kmol_{_atom} / 1000", f"mol {_atom}")
_UNITS["kmol_equivalent"] = ("[reducing_equivalents]", "kmol reducing equivalents")
_UNITS["kmol_NH3"] = ("[amount_of_ammonia]", "kmol NH₃")
for _name, _label in {  # one dimension per reference condition
    "Nm3": "Nm³ (0 °C, 101.325 kPa)",
    "Sm3": "Sm³ (15 °C, 101.325 kPa)",
    "m3_20C": "m³ (20 °C, 101.325 kPa)",
    "scf_60F": "scf (60 °F, 14.696 psia)",
    "scf_68F": "scf (68 °F, 14.696 psia)",
    "m3_line": "m³ (line)",  # at the temperature and pressure of the gas in the meter
}.items():
    _UNITS[_name] = (f"[volume_{_name}]", _label)
    _UNITS[f"k{_name}"] = (f"1000 * {_name}", f"thousand {_label}")
    _UNITS[f"M{_name}"] = (f"1000000 * {_name}", f"million {_label}")

REGISTRY: pint.UnitRegistry[Any] = pint.UnitRegistry(None)
for _name, (_definition, _) in _UNITS.items():
    REGISTRY.define(f"{_name} = {_definition}")
Unit = pint.Unit
NONE = REGISTRY.Unit("")


@cache
def unit(text: str) -> pint.Unit:
    """Return a unit of the house by name, such as "t_CO2/t_NH3"; empty text is a plain number.

    Args:
        text: names from the table above, joined by * and /. [text]

    Source: definition
    """
    return REGISTRY.Unit(text)


@cache
def product_of(a: pint.Unit, b: pint.Unit) -> pint.Unit:
    """Return the unit of a product.

    Args:
        a: unit of the first. [unit]
        b: unit of the second. [unit]

    Source: definition
    """
    product: pint.Unit = a * b
    return product


@cache
def quotient_of(a: pint.Unit, b: pint.Unit) -> pint.Unit:
    """Return the unit of a quotient.

    Args:
        a: unit above the line. [unit]
        b: unit below the line. [unit]

    Source: definition
    """
    quotient: pint.Unit = a / b
    return quotient


@cache
def power_of(a: pint.Unit, exponent: float) -> pint.Unit:
    """Return the unit of a power.

    Args:
        a: unit of the base. [unit]
        exponent: a number without unit. [1]

    Source: definition
    """
    return cast("pint.Unit", a**exponent)  # pint names a wider class for a power


@cache
def time_below(a: pint.Unit) -> pint.Unit | None:
    """Return the time that a rate is counted by, such as h of Nm3/h; None for what is no rate.

    Args:
        a: any unit of the house. [unit]

    Source: definition
    """
    below = {name for name, power in REGISTRY.Quantity(1.0, a).unit_items() if power == -1}
    found = next((time for time in ("second", "minute", "hour", "day") if time in below), None)
    return unit(found) if found else None


@cache
def is_convertible(a: pint.Unit, b: pint.Unit) -> bool:
    """Return whether one unit can be turned into the other by a number alone.

    Args:
        a: unit to turn. [unit]
        b: unit wanted. [unit]

    Source: definition
    """
    return bool(a.dimensionality == b.dimensionality)


@cache
def ratio_of(a: pint.Unit, b: pint.Unit) -> float:
    """Return how many of unit b are in one of unit a.

    Args:
        a: unit to turn. [unit]
        b: unit wanted. [unit]

    Raises:
        ValueError: the two measure different things, such as tonnes of carbon and tonnes of CO2.

    Source: definition
    """
    if not is_convertible(a, b):
        raise ValueError(
            f"{label(a)} cannot be turned into {label(b)}: they measure different things"
        )
    ratio = (REGISTRY.Quantity(1.0, a)).to(b).magnitude
    return float(f"{ratio:.12g}")  # the ratios are exact decimals; division in binary leaves dust


def _house(parts: Mapping[str, float], registry: Any, **options: Any) -> str:
    """Spell a unit with the labels of the table above."""
    del registry, options

    def spelled(name: str, power: float) -> str:
        text = _UNITS[name][1]
        return text if power == 1 else f"{text}^{power:g}"

    named = {name: power for name, power in parts.items() if name in _UNITS}
    above = [spelled(name, power) for name, power in named.items() if power > 0]
    below = [spelled(name, -power) for name, power in named.items() if power < 0]
    if not named:
        return "1"
    return "/".join(["·".join(above) or "1", *below])


pint.register_unit_format("house")(_house)


@cache
def label(a: pint.Unit) -> str:
    """Return the unit as the reader sees it, such as "t CO₂/t NH₃"; a plain number shows "1".

    Args:
        a: any unit of the house. [unit]

    Source: definition
    """
    return format(a, "house")
