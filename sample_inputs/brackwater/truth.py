"""What truly flowed at the invented works, by month and in the year, for tests to compare."""

from __future__ import annotations

from typing import Any

import numpy as np

from .gas import (
    MOLAR_MASS,
    MOLAR_MASS_CARBON,
    PLACE,
    Array,
    carbon_mass,
    component,
    gross_energy,
    mass,
    net_energy,
    total,
    volume,
    wet_volume,
)
from .trade import Year
from .works import Works
from .year import DAYS, MONTHS, STARTS, TRIPS, YEAR, by_month

MOLAR_MASS_CO2 = float(MOLAR_MASS[PLACE["CO2"]])
CO2_BY_CARBON = MOLAR_MASS_CO2 / MOLAR_MASS_CARBON
MOLAR_MASS_AIR = 28.96546  # kg/kmol, dry; ISO 6976:2016 annex A

Quantities = dict[str, tuple[str, Array]]


def quantities(year: Year) -> Quantities:
    """Return every true quantity: name, then unit and twelve months.

    Args:
        year: the year at the works. [year]

    Source: definition
    """
    return {
        **_gases(year),
        **_co2(year),
        **_ammonia_and_urea(year),
        **_sums(year.works),
        **_utilities(year),
    }


def truth(year: Year) -> dict[str, Any]:
    """Return the true quantities as they are written to a file.

    Args:
        year: the year at the works. [year]

    Source: definition
    """

    def rounded(value: float) -> float:
        return float(f"{value:.12g}")

    return {
        "works": "Brackwater Works, invented",
        "year": YEAR,
        "months": [month.isoformat()[:7] for month in MONTHS],
        "quantities": {
            name: {
                "unit": unit,
                "months": [rounded(value) for value in months],
                "year": rounded(float(np.sum(months))),
            }
            for name, (unit, months) in quantities(year).items()
        },
        "month boundaries": {
            "ammonia stock": {"unit": "t_NH3", "values": list(map(rounded, year.ammonia.stock))},
            "liquid CO2 stock": {
                "unit": "t_CO2",
                "values": list(map(rounded, year.liquid_co2.stock)),
            },
        },
    }


def _gases(year: Year) -> Quantities:
    """Return volume, carbon and energy of the gases."""
    works = year.works
    gases = {
        "purchased gas": works.fence,
        "feed gas": works.process.feed,
        "reformer fuel gas": works.reformer_fuel,
        "boiler fuel gas": works.boiler_fuel,
        **works.off_gases,
        "raw synthesis gas": works.process.raw,
        "start-up vent": works.process.start_up_vent,
        "gas dissolved in ammonia": works.process.dissolved,
    }
    found: Quantities = {}
    for name, flow in gases.items():
        found[f"{name}/volume"] = "Nm3", by_month(volume(flow))
        found[f"{name}/carbon"] = "t_C", by_month(carbon_mass(flow))
        found[f"{name}/net energy"] = "GJ_net", by_month(net_energy(flow))
        found[f"{name}/gross energy"] = "GJ_gross", by_month(gross_energy(flow))
    found["purchased gas/volume at 15 °C"] = "Sm3", by_month(volume(works.fence, 15))
    return found


def _co2(year: Year) -> Quantities:
    """Return the CO2 header, from removal to the last user."""
    works, around = year.works, year.around
    header = {
        "CO2 removed": (
            works.process.overhead,
            around.overhead_celsius,
            around.overhead_kilopascal,
        ),
        "CO2 to urea": (works.co2_to_urea, around.urea_celsius, around.urea_kilopascal),
        "CO2 vented": (works.co2_vented, around.vent_celsius, around.vent_kilopascal),
    }
    found: Quantities = {}
    for name, (flow, celsius, kilopascal) in header.items():
        found[f"{name}/wet volume"] = "Nm3", by_month(wet_volume(flow, celsius, kilopascal))
        found[f"{name}/dry volume"] = "Nm3", by_month(volume(flow))
        found[f"{name}/CO2"] = "t_CO2", by_month(mass(flow, "CO2"))
        found[f"{name}/carbon"] = "t_C", by_month(carbon_mass(flow))
    return {**found, **_uses_of_co2(year, found["CO2 to urea/CO2"][1])}


def _uses_of_co2(year: Year, to_urea: Array) -> Quantities:
    """Return what becomes of CO2 in the urea and liquefaction units."""
    works = year.works
    sent = by_month(mass(works.co2_to_liquefaction, "CO2"))
    liquid = by_month(works.liquid_co2_mass)
    bound = by_month(works.urea * MOLAR_MASS_CO2 / 1000)
    gas = by_month(carbon_mass(works.co2_to_liquefaction))
    return {
        "CO2 bound in urea/CO2": ("t_CO2", bound),
        "CO2 lost in urea unit/CO2": ("t_CO2", to_urea - bound),
        "CO2 to liquefaction/CO2": ("t_CO2", sent),
        "CO2 to liquefaction/carbon": ("t_C", gas),
        "CO2 liquefaction loss/CO2": ("t_CO2", sent - liquid),
        "CO2 sold/CO2": ("t_CO2", by_month(year.liquid_co2.sold)),
        "liquid CO2 stock change/CO2": ("t_CO2", np.diff(year.liquid_co2.stock)),
    }


def _ammonia_and_urea(year: Year) -> Quantities:
    """Return product, its uses and the change of stock."""
    works, around = year.works, year.around
    return {
        "ammonia produced": ("t_NH3", by_month(works.ammonia_mass)),
        "ammonia produced/product": ("t_product", by_month(works.ammonia_mass / around.purity)),
        "ammonia to urea": ("t_NH3", by_month(works.ammonia_to_urea_mass)),
        "ammonia sold": ("t_NH3", by_month(year.ammonia.sold)),
        "ammonia losses": ("t_NH3", by_month(year.ammonia.lost)),
        "ammonia stock change": ("t_NH3", np.diff(year.ammonia.stock)),
        "urea": ("t_urea", by_month(works.urea_mass)),
        "urea/product": ("t_product", by_month(works.urea_mass / around.urea_purity)),
    }


def _sums(works: Works) -> Quantities:
    """Return the sums that a return asks for."""
    feed = by_month(carbon_mass(works.process.feed)) * CO2_BY_CARBON
    fuel = by_month(carbon_mass(works.reformer_fuel + works.boiler_fuel)) * CO2_BY_CARBON
    off_gas = by_month(carbon_mass(np.sum(list(works.off_gases.values()), axis=0))) * CO2_BY_CARBON
    return {
        "all feed carbon as CO2": ("t_CO2", feed),
        "natural gas burnt/CO2": ("t_CO2", fuel),
        "process gases burnt/CO2": ("t_CO2", off_gas),
        "stack/CO2": ("t_CO2", fuel + off_gas),
        "dry process air": ("t_air", by_month(works.process.air * MOLAR_MASS_AIR / 1000)),
        "hydrogen in make-up gas": ("kmol", by_month(component(works.process.make_up, "H2"))),
        "nitrogen in make-up gas": ("kmol", by_month(component(works.process.make_up, "N2"))),
        "methane in raw gas": ("kmol", by_month(component(works.process.raw, "CH4"))),
        "carbon monoxide in raw gas": ("kmol", by_month(component(works.process.raw, "CO"))),
        "dry raw gas": ("kmol", by_month(total(works.process.raw))),
        "CO2 and others in overhead": ("kmol", by_month(total(works.process.overhead))),
        "CO2 in overhead": ("kmol", by_month(component(works.process.overhead, "CO2"))),
        "CO2 slip": ("kmol", by_month(component(works.process.treated, "CO2"))),
        "gas to methanation": ("kmol", by_month(total(works.process.treated))),
    }


def _utilities(year: Year) -> Quantities:
    """Return power, steam, diesel and hours."""
    used = year.utilities
    return {
        "power bought": ("MWh", used.power_bought),
        "power made": ("MWh", used.power_made),
        "power to urea": ("MWh", used.power_to_urea),
        "power to CO2 liquefaction": ("MWh", used.power_to_liquefaction),
        "steam to urea": ("t_steam", used.steam_to_urea),
        "diesel": ("litre", used.diesel),
        "hours on line": ("hour", by_month(year.given.loop_hours)),
        "starts": ("start", by_month(np.array([float(day in STARTS) for day in DAYS]))),
        "trips": ("start", by_month(np.array([float(day in TRIPS) for day in DAYS]))),
    }
