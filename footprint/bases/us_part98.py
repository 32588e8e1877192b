"""40 CFR Part 98: subpart G for ammonia, C for fuels, PP for CO2 supplied, the facility total."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.account.carbon_dioxide import added
from footprint.base.finding import Finding
from footprint.base.formulas import named_sum
from footprint.base.line import Line, Section
from footprint.base.row import Row, step
from footprint.bases.basis import Basis, Effect, Filed
from footprint.bases.effects import effect_of, in_co2e, warming_effects
from footprint.bases.rules import Rules
from footprint.bases.us_part98_combustion import C_8, Burnt, burnt_of
from footprint.bases.us_part98_gas import NAME, US, ScfGas, scf_gas
from footprint.bases.us_part98_supply import supply_lines, supply_section
from footprint.bases.us_part98_words import BOUNDARY, doubts_of, lacking_of, said_of

G_1 = "40 CFR 98.73(b)(1), equation G-1"
G_4 = "40 CFR 98.73(b)(4)"
A_1 = "40 CFR 98.3(c)(4)(i), equation A-1 (from memory)"
ITEMS = "40 CFR 98.76"


@dataclass(frozen=True, eq=False, slots=True)
class _Facility:
    """The facility over the months: subpart G, subpart C, all as CO2e."""

    feeds: tuple[ScfGas, ...]
    process: Row
    burnt: Burnt
    in_warming: dict[str, Row]
    whole: Row


def us_part98(rules: Rules) -> tuple[Basis, list[Finding]]:
    """Return what an ammonia works reports under subparts A, C, G and PP.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]

    Source: 40 CFR Part 98 (what was read and what is from memory stands with each line)
    """
    facility = _facility(rules)
    total = rules.filed(
        "98.3(c)(4)(i)",
        "facility total without biogenic CO2",
        facility.whole,
        (A_1, "memory"),
        None,
    ).on_first_sheet()
    lines = (
        *_ammonia_lines(rules, facility),
        *_fuel_lines(rules, facility.burnt),
        total,
        *supply_lines(rules),
    )
    basis = Basis(
        NAME,
        f"Return, {NAME}",
        lines,
        (*_sections(rules, facility), supply_section(rules)),
        doubts_of(rules),
        total=total.filed,
        effects=_effects(rules, facility),
        said=said_of(rules),
        lacking=lacking_of(rules, facility.burnt),
        boundary=BOUNDARY,
    )
    return basis, []


def _facility(rules: Rules) -> _Facility:
    feeds = tuple(scf_gas(rules, one, G_1) for one in rules.account.record.feeds)
    rows, key = [one.co2 for one in feeds], rules.key(NAME, "CO2", "subpart G")
    process = added(rules.measured, rows, key, "CO2 process emissions, subpart G")
    burnt = burnt_of(rules)
    masses = {"CO2": process, **burnt.other_gases}
    in_warming = {
        gas: step(
            row * rules.factor(f"GWP of {gas}", US),
            rules.key(NAME, f"{gas} as CO2e", "Table A-1"),
            f"{gas} as CO2e, Table A-1",
            "mass times GWP of Table A-1 in force",
        )
        for gas, row in {**masses, "CO2": _all_co2(rules, process, burnt)}.items()
    }
    words = "facility total without biogenic CO2, as CO2e"
    key = rules.key(NAME, "CO2e", "facility")
    whole = named_sum(list(in_warming.values()), key, words, A_1)
    return _Facility(feeds, process, burnt, in_warming, whole)


def _all_co2(rules: Rules, process: Row, burnt: Burnt) -> Row:
    key = rules.key(NAME, "CO2", "facility")
    return step(process + burnt.co2, key, "CO2 of the facility", "subparts G and C")


def _ammonia_lines(rules: Rules, facility: _Facility) -> tuple[Filed, ...]:
    measured, account = rules.measured, rules.account
    seen = (ITEMS, "seen")
    feeds = [
        rules.filed("98.76(b)(2)", f"{one.recorded.stream.name} used", one.volume, seen)
        for one in facility.feeds
    ]
    urea = [
        rules.filed("98.76(b)(12)", f"{stream.name} made", mass, (ITEMS, "seen"))
        for stream, mass in measured.masses("urea")
    ]
    to_urea = [row for _, row in account.captured.of_role(measured, "CO2 to urea")]
    used = [
        rules.filed(
            "98.76(b)(13)",
            "CO2 collected and used on site for urea; not subtracted",
            added(measured, to_urea, rules.key(NAME, "CO2 to urea", "98.76"), "CO2 used for urea"),
            (ITEMS, "seen"),
        )
    ]
    made = rules.filed("98.76(b)(14)", "ammonia made", account.ammonia.produced, (ITEMS, "memory"))
    return (
        rules.filed(
            "98.76(b)(1)",
            "CO2 process emissions of the ammonia unit",
            facility.process,
            (f"{G_1} (symbols seen); sum by {G_4} (text from 2025 not seen)", "memory"),
            None,
        ).on_first_sheet(),
        *feeds,
        *urea,
        *(used if to_urea else ()),
        made,
    )


def _fuel_lines(rules: Rules, burnt: Burnt) -> tuple[Filed, ...]:
    cited = ("40 CFR 98.36 (opening seen, rest from memory)", "memory")
    gases = [
        rules.filed(f"98.36 {gas}", f"{gas} of fuels burnt", row, (C_8, "memory"), None)
        for gas, row in burnt.other_gases.items()
    ]
    co2 = rules.filed("98.36 CO2", "CO2 of fuels burnt, purge gas left out", burnt.co2, cited, None)
    return (co2.on_first_sheet(), *gases)


def _sections(rules: Rules, facility: _Facility) -> tuple[Section, ...]:
    line, burnt = rules.line, facility.burnt
    return (
        *(_gas_section("Subpart G", rules, one) for one in facility.feeds),
        *(_gas_section("Subpart C, tier 3", rules, one) for one in burnt.gases),
        Section("Subpart C, other fuels", tuple(line(row) for row in burnt.others.values())),
        Section(
            "Subpart C, all fuels",
            (line(burnt.co2, is_total=True), *map(line, burnt.other_gases.values())),
            "CO2 of purge gas is inside subpart G: 98.72(b) leaves it out here.",
        ),
        Section(
            "Facility",
            (
                line(facility.process),
                *map(line, facility.in_warming.values()),
                line(facility.whole, is_total=True),
            ),
        ),
        *_gross_less_urea(rules, facility),
    )


def _gas_section(title: str, rules: Rules, one: ScfGas) -> Section:
    shown = (
        rules.line(one.volume),
        Line(one.content),
        Line(one.molar_weight),
        rules.line(one.co2, is_total=True),
    )
    return Section(f"{title}: {one.recorded.stream.name}", shown, "Each month its own CC and MW.")


def _gross_less_urea(rules: Rules, facility: _Facility) -> list[Section]:
    """Show what a subtraction would give, unmarked: the rule as read does not subtract."""
    to_urea = [row for _, row in rules.account.captured.of_role(rules.measured, "CO2 to urea")]
    if not to_urea:
        return []
    less = named_sum(
        [facility.process, *(-row for row in to_urea)],
        rules.key(NAME, "CO2", "subpart G less urea"),
        "subpart G less CO2 used for urea: for comparison, not the figure of the rule",
        "nothing that was read subtracts it; read 98.73(b)(4)",
    )
    note = "The text of 98.73(b)(4) in force from 2025 was not seen: read it before filing."
    return [Section("Had CO2 for urea been subtracted", (rules.line(less),), note)]


def _effects(rules: Rules, facility: _Facility) -> tuple[Effect, ...]:
    """Return the steps from the gross CO2 of the works to the facility total."""
    burnt, year = facility.burnt, rules.context.year
    atomic, ratio = rules.context.co2_per_carbon, rules.factor("ratio of CO2 to carbon", US)
    gases = [*facility.feeds, *burnt.gases]
    effects = []
    if gases:
        key = rules.key(NAME, "bridge", "gas of G-1 and C-5")
        by_rule = named_sum([year(one.co2) for one in gases], f"{key}, CO2", "CO2 of gas", "sum")
        carbons = [year(one.recorded.carbon) for one in gases]
        carbon = named_sum(carbons, f"{key}, carbon", "carbon of gas, real", "sum")
        ideal = step(by_rule / ratio, f"{key}, ideal", "carbon of gas, ideal", "over 44/12")
        effects += [
            effect_of(
                rules,
                NAME,
                "gas constants",
                in_co2e(rules, (ideal - carbon) * atomic),
                "volumes at 68 F over 849.5, an ideal gas, in place of real gas",
            ),
            effect_of(
                rules,
                NAME,
                "ratio of CO2 to carbon",
                in_co2e(rules, by_rule - ideal * atomic),
                "44/12 in place of atomic weights",
            ),
        ]
    tabled = [
        year(row) - year(fuel.carbon) * atomic
        for row, fuel in zip(burnt.others.values(), rules.measured.fuel.values(), strict=True)
    ]
    if tabled:
        key = rules.key(NAME, "bridge", "other fuels")
        named = [
            step(row, f"{key} {place}", "other fuel: Table C-1 less the accounts", "difference")
            for place, row in enumerate(tabled, 1)
        ]
        moved = in_co2e(rules, named_sum(named, key, "other fuels, moved", "sum"))
        because = "Table C-1 in place of the defaults of the accounts"
        effects.append(effect_of(rules, NAME, "default or measured factor", moved, because))
    masses = {gas: year(row) for gas, row in burnt.other_gases.items()}
    counted = [year(facility.in_warming[gas]) for gas in masses]
    return (*effects, *warming_effects(rules, NAME, masses, counted))
