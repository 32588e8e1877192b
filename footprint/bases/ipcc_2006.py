"""2006 IPCC Guidelines, volume 3, chapter 3, section 3.2: ammonia by the tier that the works names.

The section itself was not seen when this was written: its equations are from memory, and the
report says so.
"""

from __future__ import annotations

from footprint.base.finding import Finding, Where, declare
from footprint.base.line import Section
from footprint.base.row import Row, step
from footprint.bases.basis import Basis, Filed, Said
from footprint.bases.ipcc_2006_bridge import ipcc_effects
from footprint.bases.ipcc_2006_combustion import COMBUSTION, NAME, as_co2e, other_gases
from footprint.bases.ipcc_2006_recovered import DEDUCTION, deducted_of, recovered_of
from footprint.bases.ipcc_2006_tiers import CHAPTER, MEANS, Tier, plausibility, tiers_of
from footprint.bases.rules import Rules

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
    number, tiers = rules.context.site.ipcc.tier, tiers_of(rules)
    tier, deducted = tiers[number], deducted_of(rules)
    recovered, recovered_section = recovered_of(rules, deducted)
    words = "CO2 emitted: generated less recovered"
    net = step(tier.gross - recovered, rules.key(NAME, "CO2", "net"), words, tier.rule)
    gases, gas_section = other_gases(rules)
    in_warming, whole, shown = as_co2e(rules, net, gases)
    lines = _filed_lines(rules, tier, (recovered, net), gases, whole)
    emissions = (*map(rules.line, (tier.gross, recovered, net)), *shown)
    sections = (
        Section("Emissions", emissions),
        tier.section,
        recovered_section,
        gas_section,
        *(tiers[other].section for other in tiers if other != number),
        plausibility(rules, tiers, number),
    )
    basis = Basis(
        NAME,
        f"Return, {NAME}",
        lines,
        sections,
        DOUBTS,
        total=lines[-1].filed,
        effects=ipcc_effects(
            rules,
            (tiers, number),
            deducted,
            (gases, {gas: in_warming[gas] for gas in gases}),
            lines[-1],
        ),
        said=_said(tier),
        boundary=BOUNDARY,
    )
    return basis, _lacking(rules)


def _said(tier: Tier) -> tuple[Said, ...]:
    means = f"tier {tier.number}: {MEANS[tier.number]}"
    return (
        Said("2.B.1 method", "tier of the method, and what it rests on", means, CHAPTER, "memory"),
        Said(
            "2.B.1 energy",
            "how double counting with the energy sector is avoided",
            "feed and fuel are reported together here and must be left out of fuel combustion",
            f"{CHAPTER}, section 3.2 (from memory)",
            "memory",
        ),
    )


def _lacking(rules: Rules) -> list[Finding]:
    """Say that CO2 to urea stays in the total where no urea made is there to deduct it by."""
    measured = rules.measured
    sent = measured.context.site.with_role("CO2 to urea")
    counted = [one.name for one in sent if one.is_counted_elsewhere]
    by_meter = measured.context.site.ipcc.urea_by == "CO2 metered"
    if not counted or by_meter or measured.masses("urea"):
        return []
    what = f'"{counted[0]}" is counted elsewhere, but no urea made is metered'
    return [UREA_NOT_METERED.at(Where("site.toml", column=f"streams > {counted[0]}"), what)]


def _filed_lines(
    rules: Rules, tier: Tier, carbon_dioxide: tuple[Row, Row], gases: dict[str, Row], whole: Row
) -> tuple[Filed, ...]:
    recovered, net = carbon_dioxide
    before = "CO2 generated from feed and fuel, before any deduction"
    by_tier, deduction = (tier.rule, "memory"), (DEDUCTION, "memory")
    small = [
        rules.filed("1.A.2", f"{gas} emitted", row, (COMBUSTION, "seen-secondary"), digits=1)
        for gas, row in gases.items()
    ]
    return (
        rules.filed("2.B.1", before, tier.gross, by_tier),
        rules.filed("2.B.1 recovered", "CO2 recovered and counted elsewhere", recovered, deduction),
        rules.filed("2.B.1 net", "CO2 emitted", net, by_tier).on_first_sheet(),
        *small,
        rules.filed("all gases", "CO2, CH4 and N2O together", whole, EDITION).on_first_sheet(),
    )
