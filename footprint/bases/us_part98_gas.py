"""40 CFR Part 98: CO2 of a gas from its volume at 68 F, carbon content and molar weight."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.account.record import Recorded
from footprint.base import units
from footprint.base.formulas import choose, convert
from footprint.base.row import Row, step
from footprint.bases.rules import Rules
from footprint.bases.us_part98_equations import as_co2_by_rule, gas_carbon
from footprint.measure.gas_flow import GasFlow
from footprint.measure.volume import condition_of

NAME = "40 CFR Part 98"
US = "US"


@dataclass(frozen=True, eq=False, slots=True)
class ScfGas:
    """One gas over the months, in the units of the rule.

    Attributes:
        recorded: the gas as it counts. [gas]
        volume: at 68 F and one atmosphere. [scf]
        content: carbon by mass of gas. [kg C/kg]
        molar_weight: of the gas. [kg/kmol]
        co2: by equation G-1 or C-5. [t CO2]
    """

    recorded: Recorded
    volume: Row
    content: Row
    molar_weight: Row
    co2: Row


def scf_gas(rules: Rules, recorded: Recorded, rule: str) -> ScfGas:
    """Return a feed or fuel gas with its CO2, month by month.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]
        recorded: the gas as it counts. [gas]
        rule: the equation. [text]

    Source: 40 CFR 98.73(b)(1), equation G-1 (symbols seen); 98.33(a)(3)(iii), C-5 (from memory)
    """
    flow, name = rules.measured.gas[recorded.stream.name], recorded.stream.name
    key = rules.key
    volume = _volume(rules, recorded, flow)
    carbon = convert(
        flow.carbon, units.unit("kg_C"), key(name, "carbon, kg", NAME), f"{name}: kg C"
    )
    content = step(
        choose(flow.mass > 0, carbon / flow.mass, 0),
        key(name, "carbon content", NAME),
        f"{name}: carbon content CC",
        "carbon over mass of gas, of the month",
    )
    molar_weight = step(
        choose(flow.amount > 0, flow.mass / flow.amount, 0),
        key(name, "molar weight", NAME),
        f"{name}: molar weight MW",
        "mass over amount of gas, of the month",
    )
    by_mole = rules.factor("molar volume at 68 F", US)
    counted = step(
        gas_carbon(volume, (content, molar_weight), by_mole),
        key(name, "carbon by rule, kg", NAME),
        f"{name}: Fdstk x CC x MW / MVC, kg carbon",
        rule,
    )
    kilo = step(
        as_co2_by_rule(counted, rules.factor("ratio of CO2 to carbon", US)),
        key(name, "CO2, kg", NAME),
        f"{name}: CO2, kg",
        f"{rule}: times 44/12",
    )
    co2 = convert(kilo, units.unit("t_CO2"), key(name, "CO2", NAME), f"{name}: CO2")
    return ScfGas(recorded, volume, content, molar_weight, co2)


def _volume(rules: Rules, recorded: Recorded, flow: GasFlow) -> Row:
    """Return the volume of record at 68 F; of a gas metered wet, from its dry amount."""
    name, key = recorded.stream.name, rules.key(recorded.stream.name, "volume at 68 F", NAME)
    if flow.volume is None:
        metered = flow.amount * rules.factor("molar volume at 68 F", US)
        because = "dry amount times 849.5"
    else:
        metered = flow.volume * rules.factor(f"scf at 68 F in one {condition_of(flow.volume)}", US)
        because = "metered volume by the molar volumes of an ideal gas"
    scf = step(metered, f"{key}, as metered", f"{name}: volume at 68 F, as metered", because)
    if recorded.carbon is flow.carbon:
        return scf
    share = step(
        choose(flow.carbon > 0, recorded.carbon / flow.carbon, 1),
        rules.key(name, "of record over metered", NAME),
        f"{name}: of record over metered",
        "the meter of record counts, sub-meters share it out",
    )
    return step(scf * share, key, f"{name}: volume at 68 F, of record", "scaled to the record")
