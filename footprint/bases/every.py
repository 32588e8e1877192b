"""The bases that the site file asks for, in its order."""

from __future__ import annotations

from collections.abc import Callable

from footprint.account import Account
from footprint.base.finding import Finding
from footprint.bases.basis import Basis
from footprint.bases.gap_rules import GapRule
from footprint.bases.gaps import with_own_gaps
from footprint.bases.ipcc_2006 import ipcc_2006
from footprint.bases.rules import Rules

Applied = Callable[[Rules], tuple[Basis, list[Finding]]]
BASES: dict[str, Applied] = {"IPCC 2006": ipcc_2006}

PLAIN = "as the site file fills it"
SURROGATE = (
    "conservative: mean and two standard deviations of up to 15 readings on each side, more for "
    "inputs, less for what is taken off, never on the other side of the plain filling"
)
EU = "Implementing Regulation (EU) 2018/2066, Article 66(1)"
GAP_RULES = {
    "IPCC 2006": GapRule(
        is_conservative=False,
        rule="2006 IPCC Guidelines, volume 1, chapter 5, section 5.3 (from memory)",
        evidence="memory",
        words=f"interpolation or a surrogate that goes along: {PLAIN}",
    ),
    "40 CFR Part 98": GapRule(
        is_conservative=False,
        rule="40 CFR 98.35(b)(2), 98.75(b), 98.425 (from memory)",
        evidence="memory",
        words=f"best available estimate from process data, with its reason: {PLAIN}",
    ),
    "EU 2018/2066": GapRule(is_conservative=True, rule=EU, evidence="seen", words=SURROGATE),
    "UK 2018/2066": GapRule(
        is_conservative=True, rule=f"{EU}, as assimilated", evidence="memory", words=SURROGATE
    ),
    "EU 2023/956": GapRule(
        is_conservative=True,
        rule="Implementing Regulation (EU) 2023/1773, Annex III, section B",
        evidence="seen",
        words=SURROGATE,
    ),
    "ISO 14064-1": GapRule(
        is_conservative=False,
        rule="ISO 14064-1:2018, clause 6 (from memory)",
        evidence="memory",
        words=PLAIN,
    ),
}


def bases(account: Account, year: int | None = None) -> tuple[list[Basis], list[Finding]]:
    """Return each basis that the site file names, applied to the year.

    Args:
        account: the figures of the works. [account]
        year: whose rules apply; that of the return when None. [year]

    Source: definition
    """
    works = account.measured.context.site.works
    rules = Rules(account, works.year if year is None else year)
    applied = [BASES[name](rules) for name in works.bases]
    filled = [with_own_gaps(basis, rules, GAP_RULES[basis.name]) for basis, _ in applied]
    return filled, [found for _, findings in applied for found in findings]
