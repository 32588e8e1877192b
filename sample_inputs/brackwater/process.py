"""The process section of the invented works: from feed gas to ammonia, day by day.

Front end (reforming, air, shift), CO2 removal, methanation, synthesis loop. Each section is linear
in the feed and in the process air, so that the air for a wanted purge gas follows from two trials.
"""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from .closure import all_atoms, atoms_of, refuse_negative, refuse_open
from .gas import MOLAR_MASS, PLACE, Array, atoms, component, gas_of, total

DRY_AIR = {"N2": 0.78084, "O2": 0.20946, "Ar": 0.0097}  # CO2 of the air is left out
WITH_OVERHEAD = {"H2": 0.0025, "N2": 0.0020, "CH4": 0.012, "CO": 0.006}  # share of the raw gas
WITH_FLASH = {"H2": 0.0022, "N2": 0.0018, "CH4": 0.012, "CO": 0.006, "CO2": 0.009}
LET_DOWN = {"CH4": 0.100, "Ar": 0.060, "H2": 0.0025, "N2": 0.0030}  # share of the make-up gas
DISSOLVED = {"CH4": 0.004, "Ar": 0.004, "H2": 0.0001, "N2": 0.0002}  # share that stays in ammonia
AMMONIA_IN_LET_DOWN_GAS = 0.12
GASES = (
    "feed",
    "raw",
    "start_up_vent",
    "overhead",
    "solvent_flash",
    "treated",
    "make_up",
    "purge",
    "let_down",
    "dissolved",
)


@dataclass(frozen=True)
class Conditions:
    """What is given, by day.

    Attributes:
        natural_gas: mole fractions, shape (days, components). [mol/mol]
        load: ammonia the front end makes gas for on a whole day. [t/d]
        front_end_hours: reforming on line. [h]
        loop_hours: synthesis on line, at most the front end's hours. [h]
        methane_slip: CH4 in dry raw gas. [mol/mol]
        carbon_monoxide_slip: CO in dry raw gas. [mol/mol]
        co2_slip: CO2 in dry gas to methanation. [mol/mol]
        purge_inerts: CH4 and Ar in purge gas. [mol/mol]
        purge_ammonia: NH3 in purge gas. [mol/mol]
        purge_ratio: H2 to N2 in purge gas. [mol/mol]
        urea: urea planned, 100 %. [t/d]
        liquefaction: CO2 planned to the liquefaction unit. [t/d]
        liquefaction_loss: share of it that leaves with the inerts. [1]
        reformer_duty: heat fired in the reformer, all fuels. [GJ net/d]
        boiler_duty: heat fired in the auxiliary boiler. [GJ net/d]
    """

    natural_gas: Array
    load: Array
    front_end_hours: Array
    loop_hours: Array
    methane_slip: Array
    carbon_monoxide_slip: Array
    co2_slip: Array
    purge_inerts: Array
    purge_ammonia: Array
    purge_ratio: Array
    urea: Array
    liquefaction: Array
    liquefaction_loss: Array
    reformer_duty: Array
    boiler_duty: Array

    @property
    def vented_share(self) -> Array:
        """The share of the raw gas that is vented while the loop does not take it."""
        hours = self.front_end_hours
        taken = np.divide(self.loop_hours, hours, out=np.ones_like(hours), where=hours > 0)
        return 1 - taken


@dataclass(frozen=True)
class Process:
    """Streams of the process section, by day in kmol; air, water and ammonia as molecules."""

    feed: Array
    air: Array
    water_in: Array
    raw: Array
    start_up_vent: Array
    overhead: Array
    solvent_flash: Array
    treated: Array
    make_up: Array
    water_out: Array
    purge: Array
    let_down: Array
    dissolved: Array
    ammonia: Array

    def scaled(self, factor: Array) -> Process:
        """Return the same process with every stream multiplied.

        Args:
            factor: by day. [1]

        Source: definition
        """
        streams = (getattr(self, field.name) for field in fields(self))
        return Process(*(s * (factor[:, None] if s.ndim > 1 else factor) for s in streams))


def process(given: Conditions) -> Process:
    """Return the process section, sized so that the load is met, closed on every element.

    Args:
        given: conditions by day. [conditions]

    Source: definition
    """
    days = len(given.load)
    without, with_one = (_purge_gap(given, _unit(given, np.full(days, air))) for air in (0.0, 1.0))
    unit = _unit(given, without / (without - with_one))
    wanted = given.load * given.loop_hours / 24 * 1000 / MOLAR_MASS[PLACE["NH3"]]
    sized = unit.scaled(wanted / unit.ammonia)
    _check(sized)
    return sized


def _purge_gap(given: Conditions, trial: Process) -> Array:
    """Return how far the purge gas is from the wanted ratio of hydrogen to nitrogen."""
    return component(trial.purge, "H2") - given.purge_ratio * component(trial.purge, "N2")


def _unit(given: Conditions, air: Array) -> Process:
    """Return the process section for one kmol of feed and some kmol of air."""
    feed = given.natural_gas
    raw, water_in = _front_end(feed, air, given)
    start_up_vent = raw * given.vented_share[:, None]
    overhead, solvent_flash, treated = _co2_removal(raw - start_up_vent, given)
    make_up, water_out = _methanation(treated)
    purge, let_down, dissolved, ammonia = _loop(make_up, given)
    return Process(
        feed=feed,
        air=air,
        water_in=water_in,
        raw=raw,
        start_up_vent=start_up_vent,
        overhead=overhead,
        solvent_flash=solvent_flash,
        treated=treated,
        make_up=make_up,
        water_out=water_out,
        purge=purge,
        let_down=let_down,
        dissolved=dissolved,
        ammonia=ammonia,
    )


def _front_end(feed: Array, air: Array, given: Conditions) -> tuple[Array, Array]:
    """Return dry raw gas after the shift and the steam used up.

    Counted in reducing equivalents 4 C + H - 2 O, which water does not change: H2 and CO hold 2,
    CH4 holds 8, and each O2 of the air takes 4.
    """
    carbon, oxygen = atoms(feed, "C"), atoms(feed, "O")
    equivalents = 4 * carbon + atoms(feed, "H") - 2 * oxygen - 4 * DRY_AIR["O2"] * air
    nitrogen = atoms(feed, "N") / 2 + DRY_AIR["N2"] * air
    argon = DRY_AIR["Ar"] * air
    methane, monoxide = given.methane_slip, given.carbon_monoxide_slip
    dry = (carbon + equivalents / 2 + nitrogen + argon) / (1 + monoxide + 4 * methane)
    raw = gas_of(
        len(air),
        CO2=carbon - (methane + monoxide) * dry,
        CO=monoxide * dry,
        CH4=methane * dry,
        H2=equivalents / 2 - (monoxide + 4 * methane) * dry,
        N2=nitrogen,
        Ar=argon,
    )
    return raw, atoms(raw, "O") - oxygen - 2 * DRY_AIR["O2"] * air


def _shares(flow: Array, shares: dict[str, float]) -> Array:
    """Return some share of some components of a gas."""
    part = {formula: share * component(flow, formula) for formula, share in shares.items()}
    return gas_of(len(flow), **part)


def _co2_removal(raw: Array, given: Conditions) -> tuple[Array, Array, Array]:
    """Return regenerator overhead, solvent flash gas and gas to methanation."""
    overhead, flash = _shares(raw, WITH_OVERHEAD), _shares(raw, WITH_FLASH)
    rest = raw - overhead - flash
    others = total(rest) - component(rest, "CO2")
    slip = given.co2_slip / (1 - given.co2_slip) * others
    overhead = overhead + gas_of(len(raw), CO2=component(rest, "CO2") - slip)
    return overhead, flash, raw - overhead - flash


def _methanation(treated: Array) -> tuple[Array, Array]:
    """Return make-up gas and the water made: CO + 3 H2 -> CH4 + H2O, CO2 + 4 H2 -> CH4 + 2 H2O."""
    monoxide, dioxide = component(treated, "CO"), component(treated, "CO2")
    change = gas_of(
        len(treated),
        CO=-monoxide,
        CO2=-dioxide,
        CH4=monoxide + dioxide,
        H2=-3 * monoxide - 4 * dioxide,
    )
    return treated + change, monoxide + 2 * dioxide


def _loop(make_up: Array, given: Conditions) -> tuple[Array, Array, Array, Array]:
    """Return purge gas, let-down gas, gas dissolved in product, and ammonia.

    All CH4 and Ar must leave, and their share in the purge gas therefore sets its amount. H2 and
    N2 that do not leave become ammonia.
    """
    days = len(make_up)
    let_down = _shares(make_up, LET_DOWN)
    with_let_down = AMMONIA_IN_LET_DOWN_GAS / (1 - AMMONIA_IN_LET_DOWN_GAS) * total(let_down)
    dissolved = _shares(make_up, DISSOLVED)
    left = make_up - let_down - dissolved
    inerts = component(left, "CH4") + component(left, "Ar")
    amount = inerts / given.purge_inerts
    purged = given.purge_ammonia * amount
    made = (total(left) - amount + purged) / 2
    turned = gas_of(days, H2=1.5 * made, N2=0.5 * made, NH3=-purged)
    let_down = let_down + gas_of(days, NH3=with_let_down)
    return left - turned, let_down, dissolved, made - purged - with_let_down


def _check(p: Process) -> None:
    """Refuse a process section that does not close on every element, every day."""
    gases = {name: getattr(p, name) for name in GASES}
    refuse_negative({**gases, "steam": p.water_in, "ammonia": p.ammonia})
    of = {name: all_atoms(flow) for name, flow in gases.items()}
    air = atoms_of(p.air, N=2 * DRY_AIR["N2"], O=2 * DRY_AIR["O2"], Ar=DRY_AIR["Ar"])
    water_in, water_out = atoms_of(p.water_in, H=2, O=1), atoms_of(p.water_out, H=2, O=1)
    taken = [of["feed"], air, water_in]
    removed = [of["overhead"], of["solvent_flash"]]
    products = [of["purge"], of["let_down"], of["dissolved"], atoms_of(p.ammonia, N=1, H=3)]
    refuse_open(
        {
            "front end": (taken, [of["raw"]]),
            "CO2 removal": ([of["raw"]], [of["start_up_vent"], *removed, of["treated"]]),
            "methanation": ([of["treated"]], [of["make_up"], water_out]),
            "loop": ([of["make_up"]], products),
            "whole": (taken, [of["start_up_vent"], *removed, water_out, *products]),
        }
    )
