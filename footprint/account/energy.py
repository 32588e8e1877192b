"""Energy by tonne of ammonia: final and primary apart, against the least of the month's feeds."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from operator import sub, truediv

from footprint.account.ammonia import Ammonia
from footprint.account.carbon_dioxide import added
from footprint.account.minimum import Minimum
from footprint.account.record import Record
from footprint.base.formulas import given
from footprint.base.line import Line, Section
from footprint.base.row import Row, step
from footprint.measure import Measured
from footprint.read.site import Role

BOUNDARY = (
    "Boundary: the ammonia unit with its refrigeration and storage. Steam and power sent to urea, "
    "CO2 compression, liquefaction and other users are exports and are taken off; purge and flash "
    "gas burnt inside carries no charge and no credit. Net calorific values at 25 °C."
)
FINAL = "Final energy: 1 MWh of power is 3.6 GJ, steam counts as the heat it carries."
PRIMARY = "Primary energy: power and steam count as the fuel it takes to make them elsewhere."


@dataclass(frozen=True, eq=False, slots=True)
class Energy:
    """Energy over the months; each line has months and year.

    Attributes:
        feed: all feeds. [GJ net]
        fuel: gas and other fuel bought as fuel. [GJ net]
        gas: feed and fuel together. [GJ net]
        by_tonne: final energy by part: feed, fuel, power, steam, feed and fuel, net, primary,
            fence. [GJ net/t NH3]
        over_minimum: net final energy over the least feed energy; None without feeds. [1]
        distance: net final energy less the least feed energy; None without feeds. [GJ net/t NH3]
        power: net power by tonne. [kWh/t NH3]
        sections: as shown. [sections]
    """

    feed: Row
    fuel: Row
    gas: Row
    by_tonne: dict[str, Line]
    over_minimum: Line | None
    distance: Line | None
    power: Row
    sections: tuple[Section, ...]


def energy_of(
    measured: Measured, record: Record, ammonia: Ammonia, minimum: Minimum | None
) -> Energy:
    """Return energy used within the boundary, in all and by tonne of ammonia.

    Args:
        measured: every stream by month. [measured]
        record: feed and fuel gas as it counts. [record]
        ammonia: made by month. [ammonia]
        minimum: least energy of the feeds. [minimum]

    Source: definition; conventions stand with each factor
    """
    feed = _sum(measured, [one.net for one in record.feeds], "feed energy")
    burnt = [one.net for one in record.fuels] + [one.net for one in measured.fuel.values()]
    fuel = _sum(measured, burnt, "fuel energy")
    key = measured.context.key("feed and fuel energy", "energy", "net")
    gas = step(feed + fuel, key, "feed and fuel energy", "sum of both")
    power, steam = _net_power(measured), _net_steam(measured)
    used = {
        "feed": feed,
        "fuel": fuel,
        "feed and fuel": gas,
        **_final(measured, gas, power, steam),
        **_primary(measured, gas, power, steam),
        **_fence(measured, gas),
    }
    by_tonne = {name: _by_tonne(measured, ammonia, name, row) for name, row in used.items()}
    compared = _against(measured, ammonia, by_tonne["net"], minimum)
    sections = (
        *_sections(by_tonne, minimum, compared),
        Section("Energy used", tuple(map(measured.context.line, used.values()))),
        Section("Power and steam that cross the boundary", _crossing(measured, power, steam)),
    )
    shown = tuple(section for section in sections if section.lines)
    return Energy(feed, fuel, gas, by_tonne, *compared, power, shown)


def _sections(
    by_tonne: dict[str, Line], minimum: Minimum | None, compared: tuple[Line | None, Line | None]
) -> tuple[Section, ...]:
    return (
        Section(
            "Energy by tonne of ammonia, net calorific value",
            tuple(by_tonne.values()),
            f"{BOUNDARY} {FINAL} {PRIMARY}",
        ),
        *([minimum.section] if minimum else []),
        Section(
            "Against the least that chemistry allows",
            tuple(line for line in compared if line),
        ),
    )


def _sum(measured: Measured, rows: list[Row], words: str) -> Row:
    return added(measured, rows, measured.context.key(words, "energy", "net"), words, "GJ_net")


def _rows(measured: Measured, table: dict[str, Row], *roles: Role) -> list[Row]:
    return [table[one.name] for one in measured.context.site.with_role(*roles) if one.name in table]


def _net_of(measured: Measured, plus: list[Row], minus: list[Row], name: str, unit: str) -> Row:
    """Return what comes in less what goes out."""
    key = measured.context.key
    entering = added(measured, plus, key(name, "in", "metered"), f"{name} bought", unit)
    leaving = added(measured, minus, key(name, "out", "metered"), f"{name} sold or exported", unit)
    return step(entering - leaving, key(name, "net", "metered"), f"{name}, net", "in less out")


def _net_power(measured: Measured) -> Row:
    table = measured.power
    return _net_of(
        measured,
        _rows(measured, table, "power bought"),
        _rows(measured, table, "power sold", "power exported"),
        "power",
        "MWh",
    )


def _net_steam(measured: Measured) -> Row:
    table = measured.heat
    return _net_of(
        measured,
        _rows(measured, table, "steam bought"),
        _rows(measured, table, "steam exported"),
        "steam",
        "GJ_heat",
    )


def _final(measured: Measured, gas: Row, power: Row, steam: Row) -> dict[str, Row]:
    context, key = measured.context, measured.context.key
    electric = step(
        power * context.factor("electricity as final energy"),
        key("power", "energy", "final"),
        "power as final energy",
        "3.6 GJ for each MWh",
    )
    heat = step(
        steam / context.factor("efficiency of steam supply, counted one to one"),
        key("steam", "energy", "final"),
        "steam as final energy",
        "heat above feedwater, one to one",
    )
    net = step(
        gas + electric + heat,
        key("net energy", "energy", "final"),
        "net energy, final",
        "feed, fuel, power and steam",
    )
    return {"power": electric, "steam": heat, "net": net}


def _primary(measured: Measured, gas: Row, power: Row, steam: Row) -> dict[str, Row]:
    context, key = measured.context, measured.context.key
    supplied = context.factor("primary energy factor of electricity, best practice tables")
    electric = step(
        power * context.factor("electricity as final energy") * supplied,
        key("power", "energy", "primary"),
        "power as primary energy",
        "final energy times the primary energy factor",
    )
    heat = step(
        steam / context.factor("efficiency of steam supply"),
        key("steam", "energy", "primary"),
        "steam as primary energy",
        "heat over the efficiency of steam supply",
    )
    net = step(
        gas + electric + heat,
        key("net energy", "energy", "primary"),
        "net energy, primary",
        "feed, fuel, power and steam",
    )
    return {"power, primary": electric, "steam, primary": heat, "net, primary": net}


def _fence(measured: Measured, gas: Row) -> dict[str, Row]:
    """Return what crosses the fence of the whole site: exports within it are not taken off."""
    context, key = measured.context, measured.context.key
    bought, sold = (
        _rows(measured, measured.power, role) for role in ("power bought", "power sold")
    )
    power = _net_of(measured, bought, sold, "power at the fence", "MWh")
    whole = step(
        gas + power * context.factor("electricity as final energy"),
        key("energy at the fence", "energy", "final"),
        "energy at the site fence, final",
        "gas and power that cross the fence; internal exports not taken off",
    )
    return {"site fence": whole}


def _by_tonne(measured: Measured, ammonia: Ammonia, name: str, row: Row) -> Line:
    context = measured.context
    key, words = (
        context.key(f"{name} energy", "by tonne of ammonia", "net"),
        f"{row.words}, by tonne of ammonia",
    )
    months = step(
        given(ammonia.runs, row / ammonia.produced, "no production"),
        key,
        words,
        "over ammonia produced",
    )
    year = step(
        given(
            ammonia.runs_year, context.year(row) / context.year(ammonia.produced), "no production"
        ),
        f"{key}/year",
        f"{words}, year",
        "year over year",
    )
    return Line(months, year, is_total=name in {"net", "net, primary"})


@dataclass(frozen=True, slots=True)
class _Comparison:
    """A way to hold the energy used against the least."""

    key: str
    words: str
    because: str
    compare: Callable[[Row, Row], Row]


OVER = _Comparison(
    "over the least",
    "net energy over the least feed energy",
    "final energy, net calorific value on both sides",
    truediv,
)
ABOVE = _Comparison(
    "above the least",
    "net energy above the least feed energy",
    "final energy less the minimum",
    sub,
)


def _against(
    measured: Measured, ammonia: Ammonia, net: Line, minimum: Minimum | None
) -> tuple[Line | None, Line | None]:
    """Return net energy over and above the least feed energy."""
    if minimum is None:
        return None, None
    least = minimum.by_tonne
    over, above = (
        Line(
            _compared(measured, (net.months, least.months), ammonia.runs, how, ""),
            _compared(measured, (net.year, least.year), ammonia.runs_year, how, "/year"),
        )
        for how in (OVER, ABOVE)
    )
    return over, above


def _compared(
    measured: Measured,
    pair: tuple[Row | None, Row | None],
    runs: Row,
    how: _Comparison,
    suffix: str,
) -> Row | None:
    used, least = pair
    if used is None or least is None:
        return None
    key = measured.context.key("net energy", how.key, f"theory{suffix}")
    figure = given(runs, how.compare(used, least), "no production")
    return step(figure, key, how.words, how.because)


def _crossing(measured: Measured, power: Row, steam: Row) -> tuple[Line, ...]:
    line = measured.context.line
    metered = [*measured.power.values(), *measured.heat.values()]
    return (*(line(row) for row in metered), line(power, is_total=True), line(steam, is_total=True))
