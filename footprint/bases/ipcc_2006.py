"""2006 IPCC Guidelines, volume 3, chapter 3, section 3.2: ammonia by tier 3, tier 1 beside it.

The section itself was not seen when this was written: its equations are from memory, and the
report says so.
"""

from __future__ import annotations

from footprint.account import Account
from footprint.account.carbon_dioxide import added
from footprint.account.rate import Rate, rate_of
from footprint.base import units
from footprint.base.finding import Finding, Where, declare
from footprint.base.formulas import convert, rounded
from footprint.base.line import Line, Section
from footprint.base.row import Row, step
from footprint.bases.basis import Basis, Filed
from footprint.bases.ipcc_2006_combustion import (
    COMBUSTION,
    JURISDICTION,
    NAME,
    as_co2e,
    other_gases,
)
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


def ipcc_2006(account: Account) -> tuple[Basis, list[Finding]]:
    """Return the lines of the guidelines' ammonia category for the year, and what they lack.

    Args:
        account: the figures of the works. [account]

    Source: 2006 IPCC Guidelines, volume 3, chapter 3, section 3.2 (from memory)
    """
    gross, gross_section = _generated(account)
    recovered, recovered_section = _recovered(account)
    key, line = account.measured.context.key, account.measured.context.line
    words = "CO2 emitted: generated less recovered"
    net = step(gross - recovered, key(NAME, "CO2", "net"), words, TIER_3)
    gases, gas_section = other_gases(account)
    emissions = (*map(line, (gross, recovered, net)), *as_co2e(account, net, gases))
    lines = _filed_lines(account, (gross, recovered, net), gases)
    sections = (
        _filing_section(lines),
        Section("Emissions", emissions),
        gross_section,
        recovered_section,
        gas_section,
        _tier_1(account, gross),
    )
    return Basis(NAME, f"Return, {NAME}", lines, sections, DOUBTS), _lacking(account)


def _lacking(account: Account) -> list[Finding]:
    """Say that CO2 to urea stays in the total where no urea made is there to deduct it by."""
    measured = account.measured
    sent = measured.context.site.with_role("CO2 to urea")
    counted = [one.name for one in sent if one.is_counted_elsewhere]
    if not counted or measured.masses("urea"):
        return []
    what = f'"{counted[0]}" is counted elsewhere, but no urea made is metered'
    return [UREA_NOT_METERED.at(Where("site.toml", column=f"streams > {counted[0]}"), what)]


def _filed_lines(
    account: Account, carbon_dioxide: tuple[Row, Row, Row], gases: dict[str, Row]
) -> tuple[Filed, ...]:
    gross, recovered, net = carbon_dioxide
    before = "CO2 generated from feed and fuel, before any deduction"
    return (
        _filed(account, before, gross, TIER_3),
        _filed(account, "CO2 recovered and counted elsewhere", recovered, DEDUCTION),
        _filed(account, "CO2 emitted", net, TIER_3),
        *(
            _filed(account, f"{gas} emitted", row, COMBUSTION, digits=1)
            for gas, row in gases.items()
        ),
    )


def _filed(account: Account, words: str, row: Row, rule: str, digits: int = 0) -> Filed:
    exact = account.measured.context.year(row)
    key = f"{row.key}/filed"
    filed = step(rounded(exact, digits), key, f"{words}, rounded", "rounded for the return")
    return Filed(words, exact, filed, rule)


def _filing_section(lines: tuple[Filed, ...]) -> Section:
    return Section(
        "Figures for the return", tuple(Line(None, line.filed, is_total=True) for line in lines)
    )


def _generated(account: Account) -> tuple[Row, Section]:
    """Return all carbon of feed and fuel as CO2.

    Energy times carbon content times oxidised share times 44/12.
    """
    context, key = account.measured.context, account.measured.context.key
    energy, carbon = _requirement(account), _carbon(account)
    gross = step(
        _as_co2(account, carbon),
        key(NAME, "CO2", "generated"),
        "CO2 generated from feed and fuel",
        f"{TIER_3}: carbon is energy times carbon content",
    )
    lines = (
        context.line(energy),
        context.line(carbon),
        _content(account, carbon, energy),
        context.line(gross, is_total=True),
    )
    return gross, Section("CO2 generated, tier 3", lines)


def _requirement(account: Account) -> Row:
    return step(
        account.energy.feed + account.energy.fuel,
        account.measured.context.key(NAME, "total fuel requirement", "net"),
        "total fuel requirement, feed and fuel",
        TIER_3,
    )


def _carbon(account: Account) -> Row:
    record = account.record
    carbons = [one.carbon for one in (*record.feeds, *record.fuels)]
    carbons += [one.carbon for one in account.measured.fuel.values()]
    key = account.measured.context.key(NAME, "carbon", "feed and fuel")
    return added(account.measured, carbons, key, "carbon in feed and fuel", "t_C")


def _content(account: Account, carbon: Row, energy: Row) -> Line:
    key = account.measured.context.key(NAME, "carbon content", "kg C/GJ net")
    kilo = convert(
        step(carbon, f"{key}/carbon", "carbon in feed and fuel", "sum"),
        units.unit("kg_C"),
        f"{key}/carbon, kg",
        "carbon in feed and fuel, kg",
    )
    words, because = "carbon content of feed and fuel", "carbon over net energy"
    return rate_of(account.measured, kilo, energy, Rate(key, words, because, otherwise="no fuel"))


def _as_co2(account: Account, carbon: Row) -> Row:
    """Return the CO2 that a mass of carbon gives: what is oxidised of it, times 44/12."""
    factor = account.measured.context.factor
    share = factor(f"oxidised share of the fuel of ammonia, {_process(account)}", JURISDICTION)
    return carbon * share * factor("ratio of CO2 to carbon", JURISDICTION)


def _process(account: Account) -> str:
    return PROCESSES[account.measured.context.site.units[0].tier_1_process]


def _recovered(account: Account) -> tuple[Row, Section]:
    """Return CO2 that leaves for a use or store that somebody else's inventory counts."""
    measured, line = account.measured, account.measured.context.line
    by_urea, to_urea = _by_urea(account)
    leaving = _counted_elsewhere(account)
    recovered = added(
        measured,
        [*by_urea, *leaving],
        measured.context.key(NAME, "CO2", "recovered"),
        "CO2 recovered and counted elsewhere",
    )
    note = (
        "Deducted: urea made times 44/60. CO2 metered to urea stands beside it and is not used: "
        "what the urea unit loses is emitted at the works."
    )
    shown = map(line, (*by_urea, *to_urea, *leaving))
    lines = (*shown, line(recovered, is_total=True))
    return recovered, Section("CO2 recovered", lines, note)


def _counted_elsewhere(account: Account) -> list[Row]:
    """Return CO2 sold and stored whose later release the site file says is counted elsewhere."""
    by_flow = account.captured.by_flow
    roles: tuple[Role, ...] = ("CO2 sold", "CO2 to storage")
    return [
        by_flow[stream.name]
        for role in roles
        for stream in account.measured.context.site.with_role(role)
        if stream.is_counted_elsewhere and stream.name in by_flow
    ]


def _by_urea(account: Account) -> tuple[list[Row], list[Row]]:
    """Return CO2 bound in the urea made, and CO2 sent to it; none where it counts nowhere else."""
    context = account.measured.context
    if not any(one.is_counted_elsewhere for one in context.site.with_role("CO2 to urea")):
        return [], []
    to_urea = [row for _, row in account.captured.of_role(account.measured, "CO2 to urea")]
    bound = [
        step(
            mass * context.factor("CO2 bound in urea", JURISDICTION),
            context.key(stream.name, "CO2", "recovered, IPCC 2006"),
            f"{stream.name}: CO2 bound, by urea made",
            DEDUCTION,
        )
        for stream, mass in account.measured.masses("urea")
    ]
    return bound, to_urea


def _tier_1(account: Account, gross: Row) -> Section:
    """Return the guidelines' default for the process, beside tier 3: plausibility only."""
    context, key = account.measured.context, account.measured.context.key
    default = step(
        _as_co2(account, _carbon_by_default(account)),
        key(NAME, "CO2", "tier 1"),
        "CO2 generated by default, tier 1",
        TIER_1,
    )
    words = "tier 3 over tier 1"
    named = Rate(key(NAME, words, "plausibility"), words, "plausibility only")
    lines = (context.line(default), rate_of(account.measured, gross, default, named))
    return Section(
        f"Tier 1 for plausibility: {_process(account)}",
        lines,
        "Not for filing where tier 3 is possible.",
    )


def _carbon_by_default(account: Account) -> Row:
    context, process = account.measured.context, _process(account)
    need, content = (
        context.factor(f"{quantity} of ammonia, {process}", JURISDICTION)
        for quantity in ("fuel requirement", "carbon content of the fuel")
    )
    kilo = step(
        account.ammonia.produced * need * content,
        context.key(NAME, "carbon", "tier 1, kg"),
        "carbon by default, kg",
        TIER_1,
    )
    key = context.key(NAME, "carbon", "tier 1")
    return convert(kilo, units.unit("t_C"), key, "carbon by default")
