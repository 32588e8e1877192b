"""The whole invented works: the process section, and where its CO2, ammonia and off-gases go."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .closure import Section, all_atoms, atoms_of, refuse_negative, refuse_open
from .gas import MOLAR_MASS, MOLAR_MASS_UREA, PLACE, Array, component, gas_of, mass, net_energy
from .process import Conditions, Process, process

UREA_CO2_EXCESS = 0.008  # CO2 sent and not bound
UREA_AMMONIA_EXCESS = 0.012  # ammonia sent and not bound
MOST_TO_UREA, MOST_USED = 0.95, 0.98  # shares of the CO2 removed; the rest is vented


@dataclass(frozen=True)
class Works:
    """Everything that flows, by day: gases in kmol by component, liquids in kmol."""

    process: Process
    co2_to_urea: Array
    co2_to_liquefaction: Array
    co2_vented: Array
    liquid_co2: Array
    urea: Array
    ammonia_to_urea: Array
    reformer_fuel: Array
    boiler_fuel: Array

    @property
    def fence(self) -> Array:
        """Natural gas that enters the works, kmol: for feed and for both fuels."""
        return self.process.feed + self.reformer_fuel + self.boiler_fuel

    @property
    def off_gases(self) -> dict[str, Array]:
        """The gases from the process that the reformer burns, kmol."""
        return {
            "purge gas": self.process.purge,
            "let-down gas": self.process.let_down,
            "solvent flash gas": self.process.solvent_flash,
        }

    @property
    def ammonia_mass(self) -> Array:
        """Ammonia made, t NH3."""
        return ammonia_mass(self.process.ammonia)

    @property
    def ammonia_to_urea_mass(self) -> Array:
        """Ammonia sent to the urea unit, t NH3."""
        return ammonia_mass(self.ammonia_to_urea)

    @property
    def urea_mass(self) -> Array:
        """Urea made, t of pure urea."""
        return self.urea * MOLAR_MASS_UREA / 1000

    @property
    def liquid_co2_mass(self) -> Array:
        """CO2 made liquid, t."""
        return mass(gas_of(len(self.urea), CO2=self.liquid_co2), "CO2")


def ammonia_mass(amount: Array) -> Array:
    """Return the mass of some ammonia.

    Args:
        amount: molecules by day. [kmol/d]

    Source: definition
    """
    return mass(gas_of(len(amount), NH3=amount), "NH3")


def run(given: Conditions) -> Works:
    """Return all streams for given conditions, every section closed.

    Args:
        given: conditions by day. [conditions]

    Source: definition
    """
    found = process(given)
    urea, liquefied = _uses(given, component(found.overhead, "CO2"))
    to_urea = _with_co2(found.overhead, urea * (1 + UREA_CO2_EXCESS))
    to_liquefaction = _with_co2(found.overhead, liquefied)
    off_gas = net_energy(found.purge + found.let_down + found.solvent_flash)
    works = Works(
        process=found,
        co2_to_urea=to_urea,
        co2_to_liquefaction=to_liquefaction,
        co2_vented=found.overhead - to_urea - to_liquefaction,
        liquid_co2=liquefied * (1 - given.liquefaction_loss),
        urea=urea,
        ammonia_to_urea=2 * urea * (1 + UREA_AMMONIA_EXCESS),
        reformer_fuel=_gas_for(given.reformer_duty - off_gas, given.natural_gas),
        boiler_fuel=_gas_for(given.boiler_duty, given.natural_gas),
    )
    _check(works)
    return works


def _uses(given: Conditions, removed: Array) -> tuple[Array, Array]:
    """Return the urea made and the CO2 sent to liquefaction, as planned or as CO2 allows, kmol."""
    running = given.loop_hours / 24
    planned_urea = given.urea * running * 1000 / MOLAR_MASS_UREA
    urea = np.minimum(planned_urea, MOST_TO_UREA * removed / (1 + UREA_CO2_EXCESS))
    planned_liquid = given.liquefaction * running * 1000 / MOLAR_MASS[PLACE["CO2"]]
    left = MOST_USED * removed - urea * (1 + UREA_CO2_EXCESS)
    return urea, np.minimum(planned_liquid, left)


def _with_co2(overhead: Array, wanted: Array) -> Array:
    """Return the part of the overhead gas that holds some CO2."""
    removed = component(overhead, "CO2")
    share = np.divide(wanted, removed, out=np.zeros_like(wanted), where=removed > 0)
    return overhead * share[:, None]


def _gas_for(duty: Array, gas: Array) -> Array:
    """Return the natural gas that gives some heat."""
    return gas * (duty / net_energy(gas))[:, None]


def _check(works: Works) -> None:
    """Refuse a CO2 header, urea unit or fence that does not close."""
    users = [works.co2_to_urea, works.co2_to_liquefaction, works.co2_vented]
    refuse_open(
        {
            "CO2 header": ([all_atoms(works.process.overhead)], [all_atoms(gas) for gas in users]),
            "urea unit": _urea_unit(works),
        }
    )
    refuse_negative(
        {
            "CO2 vented": works.co2_vented,
            "CO2 to liquefaction": works.co2_to_liquefaction,
            "reformer fuel": works.reformer_fuel,
            "boiler fuel": works.boiler_fuel,
        }
    )


def _urea_unit(works: Works) -> Section:
    """Return what enters and leaves the urea unit: 2 NH3 + CO2 -> CO(NH2)2 + H2O, with excess."""
    co2 = component(works.co2_to_urea, "CO2")
    return (
        [atoms_of(co2, C=1, O=2), atoms_of(works.ammonia_to_urea, N=1, H=3)],
        [
            atoms_of(works.urea, C=1, O=1, N=2, H=4),
            atoms_of(works.urea, H=2, O=1),
            atoms_of(works.urea * UREA_CO2_EXCESS, C=1, O=2),
            atoms_of(2 * works.urea * UREA_AMMONIA_EXCESS, N=1, H=3),
        ],
    )
