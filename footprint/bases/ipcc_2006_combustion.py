"""2006 IPCC Guidelines: CH4 and N2O of all that is burnt, by default factors, and all as CO2e."""

from __future__ import annotations

from typing import TypeVar

from footprint.account.carbon_dioxide import added
from footprint.base import units
from footprint.base.formulas import convert, sum_of
from footprint.base.line import Line, Section
from footprint.base.row import Row, step
from footprint.bases.rules import Rules
from footprint.measure.fuel import known_fuels

NAME = "IPCC 2006"
JURISDICTION = "IPCC"
GASEOUS = "natural gas"
Emitted = TypeVar("Emitted", Row, float)
COMBUSTION = "2006 IPCC Guidelines, volume 2, table 2.3"


def other_gases(rules: Rules) -> tuple[dict[str, Row], Section]:
    """Return CH4 and N2O from all that is burnt: fuel gas, off-gas, other fuels.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]

    Source: 2006 IPCC Guidelines, volume 2, table 2.3 (evidence stands with each factor)
    """
    line = rules.line
    burnt = {fuel: _energy_burnt(rules, fuel, rows) for fuel, rows in _burnt_by_fuel(rules).items()}
    gases = {gas: _from_combustion(rules, gas, f"t_{gas}", burnt) for gas in ("CH4", "N2O")}
    lines = tuple(map(line, (*burnt.values(), *gases.values())))
    note = "Defaults of manufacturing industries; their range is a factor of three each way."
    return gases, Section("CH4 and N2O from combustion", lines, note)


def as_co2e(
    rules: Rules, net: Row, gases: dict[str, Row]
) -> tuple[dict[str, Row], Row, tuple[Line, ...]]:
    """Return each gas as CO2e and their sum, by the edition that the site file names, as shown.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]
        net: CO2 emitted by month. [t CO2]
        gases: CH4 and N2O by month. [t]

    Source: GWP100 of the edition named (evidence stands with each factor)
    """
    parts = {gas: _warming(rules, gas, row) for gas, row in {"CO2": net, **gases}.items()}
    edition = rules.context.site.works.gwp_set
    whole = step(
        sum_of(list(parts.values())),
        rules.key(NAME, "CO2e", edition),
        f"CO2, CH4 and N2O as CO2e, {edition}",
        "sum of the gases",
    )
    lines = [rules.line(row) for row in (*gases.values(), *parts.values())]
    return parts, whole, (*lines, rules.line(whole, is_total=True))


def _warming(rules: Rules, gas: str, row: Row) -> Row:
    edition = rules.context.site.works.gwp_set
    return step(
        emitted(row, rules.factor(f"GWP100 of {gas}, {edition}")),
        rules.key(NAME, f"{gas} as CO2e", edition),
        f"{gas} as CO2e, {edition}",
        f"mass times GWP100, {edition}",
    )


def _burnt_by_fuel(rules: Rules) -> dict[str, list[Row]]:
    """Return net energy burnt, by the name of the fuel in the table of defaults.

    Off-gas counts with natural gas. A fuel without defaults is without data: it goes to natural
    gas, so that the figures that depend on it cannot be given.
    """
    measured = rules.measured
    off_gases = measured.gases("purge gas", "let-down gas", "flash gas", "solvent flash gas")
    gaseous = [one.net for one in rules.account.record.fuels]
    gaseous += [flow.net for flow in off_gases if flow.stream.to != "sold"]
    known = known_fuels(measured.context.register)
    by_fuel: dict[str, list[Row]] = {GASEOUS: gaseous}
    for fuel in measured.fuel.values():
        name = str(fuel.stream.fuel)
        by_fuel.setdefault(name if name in known else GASEOUS, []).append(fuel.net)
    return by_fuel


def _energy_burnt(rules: Rules, fuel: str, rows: list[Row]) -> Row:
    key = rules.key(NAME, "energy", f"burnt, {fuel}")
    named = "gas burnt, off-gas included" if fuel == GASEOUS else f"{fuel} burnt"
    return added(rules.measured, rows, key, f"{named}: net energy", "GJ_net")


def emitted(activity: Emitted, factor: Emitted) -> Emitted:
    """Return what a fuel or a process emits: what was done times what that gives.

    Args:
        activity: energy burnt, or mass. [any]
        factor: emitted by unit of it. [any]

    Source: 2006 IPCC Guidelines, volume 2, equation 2.1 (from memory)
    """
    return activity * factor


def _from_combustion(rules: Rules, gas: str, unit: str, burnt: dict[str, Row]) -> Row:
    parts = [_from_fuel(rules, gas, unit, fuel, energy) for fuel, energy in burnt.items()]
    key = rules.key(NAME, gas, "combustion")
    return step(sum_of(parts), key, f"{gas} from combustion", COMBUSTION)


def _from_fuel(rules: Rules, gas: str, unit: str, fuel: str, energy: Row) -> Row:
    key = rules.key(NAME, gas, f"from {fuel}")
    small = step(
        emitted(energy, rules.factor(f"{gas} emission factor of {fuel}", JURISDICTION)),
        f"{key}, as published",
        f"{gas} from {fuel}, as published",
        f"{COMBUSTION}: net energy times factor",
    )
    return convert(small, units.unit(unit), key, f"{gas} from {fuel}")
