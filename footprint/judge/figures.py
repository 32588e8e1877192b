"""The figures that are held against limits, under the names that their limits have."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.account import Account
from footprint.balance.steam_reforming import CO2_HEADER, GAS_HEADER, REMOVAL
from footprint.base import units
from footprint.base.formulas import conversion, given, ratio, sum_of
from footprint.base.line import Line
from footprint.base.row import Row, step
from footprint.measure.gas_flow import GasFlow

CLOSURE = "closure of the carbon balance, process section"
SUB_METERS = "sub-meters against purchase meter"
BILL = "supplier's bill against meter"
JUDGED_NODES = (REMOVAL, GAS_HEADER, CO2_HEADER)


@dataclass(frozen=True, eq=False, slots=True)
class Figure:
    """A figure by month, with the lines of the minimum where physics sets the limit.

    Attributes:
        name: of the limits. [text]
        months: the figure. [any]
        least: physical least of the same figure; None where the limit is a number. [same]
        physics: "low", "high" or "": the side on which a value beyond stop is impossible. [text]
        by_tonne: judged only in months that run at least 60 % of the time. [flag]
    """

    name: str
    months: Row
    least: Row | None = None
    physics: str = ""
    by_tonne: bool = True


def figures_of(account: Account) -> list[Figure]:
    """Return the figures that this works' meters allow to be judged.

    Args:
        account: the figures of the works. [account]

    Source: definition
    """
    return [
        *_energy(account),
        *_carbon(account),
        *_gas(account),
        *_products(account),
        *_closures(account),
        *(Figure(BILL, bill.share, by_tonne=False) for bill in account.measured.bills.values()),
    ]


def _energy(account: Account) -> list[Figure]:
    energy, minimum = account.energy, account.minimum
    feed, gas, net = (_months(energy.by_tonne[name]) for name in ("feed", "feed and fuel", "net"))
    feeds, over = [], []
    if minimum is not None:
        feeds = [Figure("energy of all feeds", feed, _months(minimum.by_tonne), "low")]
        over = [Figure("net energy over least feed energy", _months(energy.over_minimum))]
    share = _share(account, "feed share of gas", energy.feed, energy.gas)
    power = _by_tonne(account, "power", energy.power, "kWh/t_NH3")
    return [
        *feeds,
        Figure("energy of feed and fuel gas", gas),
        Figure("net energy", net),
        *over,
        Figure("feed share of gas", share),
        Figure("power", power),
    ]


def _carbon(account: Account) -> list[Figure]:
    split, minimum, removed = account.split, account.minimum, account.captured.removed
    feeds, shares = [], []
    if minimum is not None:
        made = _by_tonne(account, "process CO2", split.process, "t_CO2/t_NH3")
        feeds = [Figure("process CO2", made, _months(minimum.co2_by_tonne), "low")]
    if removed is not None and not _follows(account, "CO2 removed"):
        share = _share(account, "CO2 removed over process CO2", removed, split.process)
        shares.append(Figure("CO2 removed over process CO2", share, None, "high"))
    return [
        *feeds,
        Figure("combustion CO2", _by_tonne(account, "combustion CO2", split.fuel, "t_CO2/t_NH3")),
        Figure(
            "process and combustion CO2",
            _by_tonne(account, "process and combustion CO2", split.gross, "t_CO2/t_NH3"),
        ),
        *shares,
    ]


def _gas(account: Account) -> list[Figure]:
    context = account.measured.context
    found = []
    for flow in account.measured.gases("purchased gas") or account.measured.gases("feed"):
        name = flow.stream.name
        found += [
            Figure("CO2 factor of natural gas", _emission_factor(account, flow), by_tonne=False),
            Figure(
                "gross over net calorific value of natural gas",
                step(
                    ratio(flow.gross, flow.net, "no gas"),
                    context.key(name, "gross over net", "judged"),
                    f"{name}: gross over net calorific value",
                    "gross over net energy",
                ),
                by_tonne=False,
            ),
        ]
    return found


def _emission_factor(account: Account, flow: GasFlow) -> Row:
    context, name = account.measured.context, flow.stream.name
    kilo = conversion(units.unit("t_CO2"), units.unit("kg_CO2"))
    return step(
        ratio(flow.carbon * context.co2_per_carbon * kilo, flow.net, "no gas"),
        context.key(name, "CO2 factor", "judged"),
        f"{name}: CO2 factor",
        "CO2 over net energy",
    )


def _products(account: Account) -> list[Figure]:
    measured = account.measured
    urea = [row for _, row in measured.masses("urea")]
    if not urea:
        return []
    key = measured.context.key("urea", "mass", "all")
    made = urea[0] if len(urea) == 1 else step(sum_of(urea), key, "urea made", "sum")
    used = {
        "CO2 to urea": [row for _, row in account.captured.of_role(measured, "CO2 to urea")],
        "ammonia to urea": [row for _, row in measured.masses("ammonia to urea")],
    }
    return [
        Figure(name, _by_tonne_of_urea(account, name, rows, made), None, "low")
        for name, rows in used.items()
        if rows
    ]


def _by_tonne_of_urea(account: Account, name: str, rows: list[Row], made: Row) -> Row:
    return step(
        ratio(sum_of(rows), made, "no urea"),
        account.measured.context.key(name, "by tonne of urea", "judged"),
        f"{name} by tonne of urea",
        "over urea made",
    )


def limits_of_closure(node: str) -> str:
    """Return the name of the limits that the closure of a node is held against.

    Args:
        node: of the carbon network. [text]

    Source: definition
    """
    return SUB_METERS if node == GAS_HEADER else CLOSURE


def _closures(account: Account) -> list[Figure]:
    found = [
        Figure(limits_of_closure(closure.node), closure.share, by_tonne=False)
        for closure in account.balance.closures
        if closure.node in JUDGED_NODES and closure.share is not None
    ]
    if account.ammonia.imbalance is not None:
        found.append(Figure("closure of the ammonia balance", _months(account.ammonia.imbalance)))
    return found


def _follows(account: Account, name: str) -> bool:
    return any(
        flow.name == name and flow.is_by_difference for flow in account.balance.network.flows
    )


def _months(line: Line | None) -> Row:
    if line is None or line.months is None:
        raise ValueError("a figure is judged by month")
    return line.months


def _share(account: Account, name: str, part: Row, whole: Row) -> Row:
    key = account.measured.context.key(name, "share", "judged")
    return step(ratio(part, whole, "no gas"), key, name, "part over whole")


def _by_tonne(account: Account, name: str, row: Row, unit: str) -> Row:
    wanted, ammonia = units.unit(unit), account.ammonia
    plain = row / ammonia.produced
    scaled = plain if plain.unit == wanted else plain * conversion(plain.unit, wanted)
    return step(
        given(ammonia.runs, scaled, "no production"),
        account.measured.context.key(name, "by tonne of ammonia", "judged"),
        f"{name} by tonne of ammonia",
        "over ammonia produced",
    )
