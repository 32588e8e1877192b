"""40 CFR Part 98, subpart C: fuel gas by tier 3, other fuels by tier 1, CH4 and N2O."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.account.carbon_dioxide import added, as_co2
from footprint.base import units
from footprint.base.formulas import convert
from footprint.base.row import Row, step
from footprint.bases.rules import Rules
from footprint.bases.us_part98_equations import from_heat
from footprint.bases.us_part98_gas import NAME, US, ScfGas, scf_gas
from footprint.measure.fuel import OtherFuel

C_5 = "40 CFR 98.33(a)(3)(iii), equation C-5, by month (from memory)"
C_1 = "40 CFR 98.33(a)(1)(i), equation C-1"
C_8 = "40 CFR 98.33(c)(1), equation C-8 (from memory)"
LIQUID = (
    "gas or diesel oil",
    "residual fuel oil",
    "naphtha",
    "liquefied petroleum gases",
    "ethane",
)
SOLID = ("anthracite", "other bituminous coal", "sub-bituminous coal", "lignite", "petroleum coke")
PETROLEUM = (*LIQUID, "petroleum coke")


@dataclass(frozen=True, eq=False, slots=True)
class Burnt:
    """What subpart C counts, by month.

    Attributes:
        gases: fuel gases. [gases]
        others: CO2 of other fuels, by stream. [t CO2]
        untabled: streams whose fuel or unit the tables do not hold. [text]
        co2: of all fuels. [t CO2]
        other_gases: CH4 and N2O. [t]
    """

    gases: tuple[ScfGas, ...]
    others: dict[str, Row]
    untabled: tuple[str, ...]
    co2: Row
    other_gases: dict[str, Row]


def burnt_of(rules: Rules) -> Burnt:
    """Return all fuels burnt; off-gas of the synthesis loop is left out.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]

    Source: 40 CFR 98.33 (from memory but for C-1); 98.72(b) (seen): purge gas is no fuel of C
    """
    gases = tuple(scf_gas(rules, one, C_5) for one in rules.account.record.fuels)
    fuels = list(rules.measured.fuel.values())
    others = {one.stream.name: _by_table(rules, one) for one in fuels}
    co2 = added(
        rules.measured,
        [*(gas.co2 for gas in gases), *others.values()],
        rules.key(NAME, "CO2", "subpart C"),
        "CO2 of fuels burnt, subpart C",
    )
    untabled = tuple(one.stream.name for one in fuels if _heat(rules, one) is None)
    return Burnt(
        gases,
        others,
        untabled,
        co2,
        {gas: _other_gas(rules, gas, gases, fuels) for gas in ("CH4", "N2O")},
    )


def _heat(rules: Rules, fuel: OtherFuel) -> Row | None:
    """Return the heat of another fuel by the default of the table; None where it has none."""
    name, kind = fuel.stream.name, str(fuel.stream.fuel)
    key, made = rules.key(name, "heat", NAME), rules.context.made
    if kind in LIQUID and fuel.litres is not None:
        amount = fuel.litres * rules.factor("gallons in one litre", US)
    elif kind in SOLID:
        amount = fuel.mass * rules.factor("short tons in one metric ton", US)
    else:
        return None
    if key not in made:
        counted = step(amount, f"{key}, amount", f"{name}: amount", "in the unit of the table")
        heat = counted * rules.factor(f"heat content of {kind}", US)
        made[key] = step(heat, key, f"{name}: heat, mmBtu", "amount times default heat content")
    return made[key]


def _by_table(rules: Rules, fuel: OtherFuel) -> Row:
    name, heat = fuel.stream.name, _heat(rules, fuel)
    if heat is None:
        return as_co2(rules.measured, fuel.carbon, name, "default")
    factor = rules.factor(f"CO2 emission factor of {fuel.stream.fuel}", US)
    kilo = step(heat * factor, rules.key(name, "CO2, kg", NAME), f"{name}: CO2, kg", C_1)
    return convert(kilo, units.unit("t_CO2"), rules.key(name, "CO2", NAME), f"{name}: CO2, C-1")


def _other_gas(rules: Rules, gas: str, gases: tuple[ScfGas, ...], fuels: list[OtherFuel]) -> Row:
    """Return CH4 or N2O of all fuels of the tables."""
    factor = rules.factor(f"{gas} emission factor of natural gas", US)
    heat = rules.factor("heat content of natural gas", US)
    kilos = {one.recorded.stream.name: from_heat(one.volume, heat, factor) for one in gases}
    for fuel in fuels:
        of_fuel = _heat(rules, fuel)
        if of_fuel is not None:
            kind = "petroleum products" if str(fuel.stream.fuel) in PETROLEUM else "coal and coke"
            kilos[fuel.stream.name] = of_fuel * rules.factor(f"{gas} emission factor of {kind}", US)
    unit = units.unit(f"t_{gas}")
    rows = []
    for name, kilo in kilos.items():
        key = rules.key(name, gas, NAME)
        named = step(kilo, f"{key}, kg", f"{name}: {gas}, kg", C_8)
        rows.append(convert(named, unit, key, f"{name}: {gas}"))
    words = f"{gas} of fuels burnt, subpart C"
    return added(rules.measured, rows, rules.key(NAME, gas, "subpart C"), words, f"t_{gas}")
