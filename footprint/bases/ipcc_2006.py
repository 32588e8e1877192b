"""2006 IPCC Guidelines, volume 3, chapter 3, section 3.2: ammonia by tier 3, tier 1 beside it.

The section itself was not seen when this was written: its equations are from memory, and the
report says so.
"""

from __future__ import annotations

from footprint.account.carbon_dioxide import added
from footprint.account.rate import Rate, rate_of
from footprint.base import units
from footprint.base.finding import Finding, Where, declare
from footprint.base.formulas import convert
from footprint.base.line import Line, Section
from footprint.base.row import Row, step
from footprint.bases.basis import Basis, Filed
from footprint.bases.ipcc_2006_bridge import ipcc_effects
from footprint.bases.ipcc_2006_combustion import (
    COMBUSTION,
    JURISDICTION,
    NAME,
    as_co2e,
    other_gases,
)
from footprint.bases.rules import Rules
from footprint.bases.topics import Topic
from footprint.read.site import Role

CHAPTER = "2006 IPCC Guidelines, volume 3, chapter 3"
TIER_3 = f"{CHAPTER}, equations 3.3 and 3.4 (from memory)"
TIER_1 = f"{CHAPTER}, equation 3.1 and table 3.1 (from memory)"
DEDUCTION = f"{CHAPTER}, section 3.2.2 (from memory)"
PROCESSES = {
    "modern, conventional reforming, natural gas": "modern conventional reforming, natural gas",
    "modern, excess air reforming, natural gas": "modern excess-air reforming, natural gas",
    "modern, autothermal reforming, natural gas": "modern autothermal reforming, natural gas",
    "average, natural gas": "European average, natural gas",
}
UREA_NOT_METERED = declare(
    "urea-made-not-metered",
    "warn",
    means="CO2 goes to urea and counts where the urea is used, but urea made is not metered.",
    effect="nothing is deducted for it, so the emissions are too high by the CO2 bound",
    mend="add the meter of urea made as a stream of role urea",
    example='role = "CO2 to urea", is_counted_elsewhere = true, and no stream of role "urea"',
)
EDITION = ("GWP100 of the edition that the site file names", "seen-secondary")
BOUNDARY = (
    "Ammonia production: all fuel and feed together, category 2.B.1; what burns for other purposes "
    "belongs to category 1.A.2."
)
DOUBTS = (
    (
        "The text of section 3.2 and table 3.1 was not seen: equations and defaults are from "
        "memory. Check them against the document before a filing depends on them."
    ),
    (
        "CO2 recovered is deducted only where the site file says that its later release is counted "
        "elsewhere: CO2 bound in urea (by urea made, 44/60) and CO2 stored. CO2 sold for short use "
        "stays in the total."
    ),
    (
        "CH4 and N2O of the off-gas burnt are taken at the natural gas factors: no row of the "
        "table names off-gas."
    ),
)


def ipcc_2006(rules: Rules) -> tuple[Basis, list[Finding]]:
    """Return the lines of the guidelines' ammonia category for the year, and what they lack.

    Args:
        rules: the figures of the works, and the year whose rules apply. [rules]

    Source: 2006 IPCC Guidelines, volume 3, chapter 3, section 3.2 (from memory)
    """
    carbon = _carbon(rules)
    gross, gross_section = _generated(rules, carbon)
    deducted = _deducted(rules)
    recovered, recovered_section = _recovered(rules, deducted)
    key, line = rules.key, rules.line
    words = "CO2 emitted: generated less recovered"
    net = step(gross - recovered, key(NAME, "CO2", "net"), words, TIER_3)
    gases, gas_section = other_gases(rules)
    in_warming, whole, shown = as_co2e(rules, net, gases)
    lines = _filed_lines(rules, (gross, recovered, net), gases, whole)
    others = {gas: in_warming[gas] for gas in gases}
    sections = (
        Section("Emissions", (*map(line, (gross, recovered, net)), *shown)),
        gross_section,
        recovered_section,
        gas_section,
        _tier_1(rules, gross),
    )
    basis = Basis(
        NAME,
        f"Return, {NAME}",
        lines,
        sections,
        DOUBTS,
        total=lines[-1].filed,
        effects=ipcc_effects(
            rules, (carbon, _oxidised(rules)), deducted, (gases, others), lines[-1]
        ),
        boundary=BOUNDARY,
    )
    return basis, _lacking(rules)


def _lacking(rules: Rules) -> list[Finding]:
    """Say that CO2 to urea stays in the total where no urea made is there to deduct it by."""
    measured = rules.measured
    sent = measured.context.site.with_role("CO2 to urea")
    counted = [one.name for one in sent if one.is_counted_elsewhere]
    if not counted or measured.masses("urea"):
        return []
    what = f'"{counted[0]}" is counted elsewhere, but no urea made is metered'
    return [UREA_NOT_METERED.at(Where("site.toml", column=f"streams > {counted[0]}"), what)]


def _filed_lines(
    rules: Rules, carbon_dioxide: tuple[Row, Row, Row], gases: dict[str, Row], whole: Row
) -> tuple[Filed, ...]:
    gross, recovered, net = carbon_dioxide
    before = "CO2 generated from feed and fuel, before any deduction"
    tier_3, deduction = (TIER_3, "memory"), (DEDUCTION, "memory")
    small = [
        rules.filed("1.A.2", f"{gas} emitted", row, (COMBUSTION, "seen-secondary"), digits=1)
        for gas, row in gases.items()
    ]
    return (
        rules.filed("2.B.1", before, gross, tier_3),
        rules.filed("2.B.1 recovered", "CO2 recovered and counted elsewhere", recovered, deduction),
        rules.filed("2.B.1 net", "CO2 emitted", net, tier_3).on_first_sheet(),
        *small,
        rules.filed("all gases", "CO2, CH4 and N2O together", whole, EDITION).on_first_sheet(),
    )


def _generated(rules: Rules, carbon: Row) -> tuple[Row, Section]:
    """Return all carbon of feed and fuel as CO2.

    Energy times carbon content times oxidised share times 44/12.
    """
    key, energy = rules.key, _requirement(rules)
    gross = step(
        _as_co2(rules, carbon),
        key(NAME, "CO2", "generated"),
        "CO2 generated from feed and fuel",
        f"{TIER_3}: carbon is energy times carbon content",
    )
    lines = (
        rules.line(energy),
        rules.line(carbon),
        _content(rules, carbon, energy),
        rules.line(gross, is_total=True),
    )
    return gross, Section("CO2 generated, tier 3", lines)


def _requirement(rules: Rules) -> Row:
    return step(
        rules.account.energy.feed + rules.account.energy.fuel,
        rules.key(NAME, "total fuel requirement", "net"),
        "total fuel requirement, feed and fuel",
        TIER_3,
    )


def _carbon(rules: Rules) -> Row:
    record = rules.account.record
    carbons = [one.carbon for one in (*record.feeds, *record.fuels)]
    carbons += [one.carbon for one in rules.measured.fuel.values()]
    key = rules.key(NAME, "carbon", "feed and fuel")
    return added(rules.measured, carbons, key, "carbon in feed and fuel", "t_C")


def _content(rules: Rules, carbon: Row, energy: Row) -> Line:
    key = rules.key(NAME, "carbon content", "kg C/GJ net")
    kilo = convert(
        step(carbon, f"{key}/carbon", "carbon in feed and fuel", "sum"),
        units.unit("kg_C"),
        f"{key}/carbon, kg",
        "carbon in feed and fuel, kg",
    )
    words, because = "carbon content of feed and fuel", "carbon over net energy"
    return rate_of(rules.measured, kilo, energy, Rate(key, words, because, otherwise="no fuel"))


def _as_co2(rules: Rules, carbon: Row) -> Row:
    """Return the CO2 that a mass of carbon gives: what is oxidised of it, times 44/12."""
    return carbon * _oxidised(rules) * rules.factor("ratio of CO2 to carbon", JURISDICTION)


def _oxidised(rules: Rules) -> Row:
    return rules.factor(f"oxidised share of the fuel of ammonia, {_process(rules)}", JURISDICTION)


def _process(rules: Rules) -> str:
    return PROCESSES[rules.context.site.units[0].tier_1_process]


def _deducted(rules: Rules) -> dict[Topic, list[Row]]:
    """Return CO2 that leaves for a use or store that somebody else's inventory counts."""
    return {
        "CO2 to urea": _by_urea(rules),
        "CO2 sold": _counted_elsewhere(rules, "CO2 sold"),
        "CO2 stored": _counted_elsewhere(rules, "CO2 to storage"),
    }


def _recovered(rules: Rules, deducted: dict[Topic, list[Row]]) -> tuple[Row, Section]:
    """Return the sum of what is deducted, and all of it as shown."""
    recovered = added(
        rules.measured,
        [row for rows in deducted.values() for row in rows],
        rules.key(NAME, "CO2", "recovered"),
        "CO2 recovered and counted elsewhere",
    )
    note = (
        "Deducted: urea made times 44/60. CO2 metered to urea stands beside it and is not used: "
        "what the urea unit loses is emitted at the works."
    )
    by_urea, leaving = deducted["CO2 to urea"], deducted["CO2 sold"] + deducted["CO2 stored"]
    to_urea = [row for _, row in rules.account.captured.of_role(rules.measured, "CO2 to urea")]
    shown = map(rules.line, (*by_urea, *(to_urea if by_urea else ()), *leaving))
    lines = (*shown, rules.line(recovered, is_total=True))
    return recovered, Section("CO2 recovered", lines, note)


def _counted_elsewhere(rules: Rules, role: Role) -> list[Row]:
    """Return flows of a role whose later release the site file says is counted elsewhere."""
    by_flow = rules.account.captured.by_flow
    return [
        by_flow[stream.name]
        for stream in rules.context.site.with_role(role)
        if stream.is_counted_elsewhere and stream.name in by_flow
    ]


def _by_urea(rules: Rules) -> list[Row]:
    """Return CO2 bound in the urea made; none where it counts nowhere else."""
    sent = rules.context.site.with_role("CO2 to urea")
    if not any(one.is_counted_elsewhere for one in sent):
        return []
    return [
        step(
            mass * rules.factor("CO2 bound in urea", JURISDICTION),
            rules.key(stream.name, "CO2", "recovered, IPCC 2006"),
            f"{stream.name}: CO2 bound, by urea made",
            DEDUCTION,
        )
        for stream, mass in rules.measured.masses("urea")
    ]


def _tier_1(rules: Rules, gross: Row) -> Section:
    """Return the guidelines' default for the process, beside tier 3: plausibility only."""
    key = rules.key
    default = step(
        _as_co2(rules, _carbon_by_default(rules)),
        key(NAME, "CO2", "tier 1"),
        "CO2 generated by default, tier 1",
        TIER_1,
    )
    words = "tier 3 over tier 1"
    named = Rate(key(NAME, words, "plausibility"), words, "plausibility only")
    lines = (rules.line(default), rate_of(rules.measured, gross, default, named))
    return Section(
        f"Tier 1 for plausibility: {_process(rules)}",
        lines,
        "Not for filing where tier 3 is possible.",
    )


def _carbon_by_default(rules: Rules) -> Row:
    process = _process(rules)
    need, content = (
        rules.factor(f"{quantity} of ammonia, {process}", JURISDICTION)
        for quantity in ("fuel requirement", "carbon content of the fuel")
    )
    kilo = step(
        rules.account.ammonia.produced * need * content,
        rules.key(NAME, "carbon", "tier 1, kg"),
        "carbon by default, kg",
        TIER_1,
    )
    key = rules.key(NAME, "carbon", "tier 1")
    return convert(kilo, units.unit("t_C"), key, "carbon by default")
