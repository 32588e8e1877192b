"""2006 IPCC Guidelines: CH4 and N2O of all that is burnt, by default factors, and all as CO2e."""

from __future__ import annotations

from footprint.account import Account
from footprint.account.carbon_dioxide import added
from footprint.base import units
from footprint.base.formulas import convert, sum_of
from footprint.base.line import Line, Section
from footprint.base.row import Row, step
from footprint.measure.fuel import known_fuels

NAME = "IPCC 2006"
JURISDICTION = "IPCC"
GASEOUS = "natural gas"
COMBUSTION = "2006 IPCC Guidelines, volume 2, table 2.3"


def other_gases(account: Account) -> tuple[dict[str, Row], Section]:
    """Return CH4 and N2O from all that is burnt: fuel gas, off-gas, other fuels.

    Args:
        account: the figures of the works. [account]

    Source: 2006 IPCC Guidelines, volume 2, table 2.3 (evidence stands with each factor)
    """
    line = account.measured.context.line
    burnt = {
        fuel: _energy_burnt(account, fuel, rows) for fuel, rows in _burnt_by_fuel(account).items()
    }
    gases = {gas: _from_combustion(account, gas, f"t_{gas}", burnt) for gas in ("CH4", "N2O")}
    lines = tuple(map(line, (*burnt.values(), *gases.values())))
    note = "Defaults of manufacturing industries; their range is a factor of three each way."
    return gases, Section("CH4 and N2O from combustion", lines, note)


def as_co2e(account: Account, net: Row, gases: dict[str, Row]) -> list[Line]:
    """Return all gases as CO2e, by the edition of warming potentials that the site file names.

    Args:
        account: the figures of the works. [account]
        net: CO2 emitted by month. [t CO2]
        gases: CH4 and N2O by month. [t]

    Source: GWP100 of the edition named (evidence stands with each factor)
    """
    context = account.measured.context
    parts = [_warming(account, gas, row) for gas, row in {"CO2": net, **gases}.items()]
    edition = context.site.works.gwp_set
    whole = step(
        sum_of(parts),
        context.key(NAME, "CO2e", edition),
        f"CO2, CH4 and N2O as CO2e, {edition}",
        "sum of the gases",
    )
    lines = [context.line(row) for row in (*gases.values(), *parts)]
    return [*lines, context.line(whole, is_total=True)]


def _warming(account: Account, gas: str, row: Row) -> Row:
    context = account.measured.context
    edition = context.site.works.gwp_set
    return step(
        row * context.factor(f"GWP100 of {gas}, {edition}"),
        context.key(NAME, f"{gas} as CO2e", edition),
        f"{gas} as CO2e, {edition}",
        f"mass times GWP100, {edition}",
    )


def _burnt_by_fuel(account: Account) -> dict[str, list[Row]]:
    """Return net energy burnt, by the name of the fuel in the table of defaults.

    Off-gas counts with natural gas. A fuel without defaults is without data: it goes to natural
    gas, so that the figures that depend on it cannot be given.
    """
    measured = account.measured
    off_gases = measured.gases("purge gas", "let-down gas", "flash gas", "solvent flash gas")
    gaseous = [one.net for one in account.record.fuels]
    gaseous += [flow.net for flow in off_gases if flow.stream.to != "sold"]
    known = known_fuels(measured.context.register)
    by_fuel: dict[str, list[Row]] = {GASEOUS: gaseous}
    for fuel in measured.fuel.values():
        name = str(fuel.stream.fuel)
        by_fuel.setdefault(name if name in known else GASEOUS, []).append(fuel.net)
    return by_fuel


def _energy_burnt(account: Account, fuel: str, rows: list[Row]) -> Row:
    key = account.measured.context.key(NAME, "energy", f"burnt, {fuel}")
    named = "gas burnt, off-gas included" if fuel == GASEOUS else f"{fuel} burnt"
    return added(account.measured, rows, key, f"{named}: net energy", "GJ_net")


def _from_combustion(account: Account, gas: str, unit: str, burnt: dict[str, Row]) -> Row:
    parts = [_from_fuel(account, gas, unit, fuel, energy) for fuel, energy in burnt.items()]
    key = account.measured.context.key(NAME, gas, "combustion")
    return step(sum_of(parts), key, f"{gas} from combustion", COMBUSTION)


def _from_fuel(account: Account, gas: str, unit: str, fuel: str, energy: Row) -> Row:
    context = account.measured.context
    key = context.key(NAME, gas, f"from {fuel}")
    small = step(
        energy * context.factor(f"{gas} emission factor of {fuel}", JURISDICTION),
        f"{key}, as published",
        f"{gas} from {fuel}, as published",
        f"{COMBUSTION}: net energy times factor",
    )
    return convert(small, units.unit(unit), key, f"{gas} from {fuel}")
