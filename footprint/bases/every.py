"""The bases that the site file asks for, in its order."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from footprint.account import Account
from footprint.base.finding import Finding, Where, declare
from footprint.bases.basis import Basis, Excluded
from footprint.bases.eu_2018_2066 import eu_2018_2066, uk_2018_2066
from footprint.bases.gap_rules import AS_THE_SITE_SAYS, GAP_RULES
from footprint.bases.gaps import with_own_gaps
from footprint.bases.ipcc_2006 import ipcc_2006
from footprint.bases.rules import Rules
from footprint.bases.us_part98 import us_part98
from footprint.read.nearest import offer
from footprint.register.register import NoFactorInForceError

Applied = Callable[[Rules], tuple[Basis, list[Finding]]]
BASES: dict[str, Applied] = {
    "IPCC 2006": ipcc_2006,
    "40 CFR Part 98": us_part98,
    "EU 2018/2066": eu_2018_2066,
    "UK 2018/2066": uk_2018_2066,
}
WHERE = Where("site.toml", column="works > bases")

UNKNOWN_BASIS = declare(
    "unknown-basis",
    "stop",
    means="site.toml asks for rules of reporting that are not known here, or for the same twice.",
    effect="nothing is reported under them",
    mend="write one of the names that the finding lists",
    example='bases = ["IPPC 2006"]; mended: bases = ["IPCC 2006"]',
)


def bases(account: Account, year: int | None = None) -> tuple[list[Basis], list[Finding]]:
    """Return each basis that the site file names, applied to the year.

    Args:
        account: the figures of the works. [account]
        year: whose rules apply; that of the return when None. [year]

    Findings:
        unknown-basis; no-factor-in-force: a basis needs a factor that has no value for the year.

    Source: definition
    """
    works = account.measured.context.site.works
    rules = Rules(account, works.year if year is None else year)
    every: list[Basis] = []
    findings: list[Finding] = []
    for place, name in enumerate(works.bases):
        if name not in BASES or name in works.bases[:place]:
            findings.append(_unknown(name))
            continue
        try:
            basis, found = BASES[name](rules)
        except NoFactorInForceError as lacking:
            findings.append(lacking.finding(WHERE))
            continue
        filled = with_own_gaps(basis, rules, GAP_RULES.get(name, AS_THE_SITE_SAYS))
        every.append(replace(filled, excluded=(*filled.excluded, *_left_out(rules))))
        findings += found
    return every, findings


def _left_out(rules: Rules) -> tuple[Excluded, ...]:
    """Return the sources that the site file leaves out on purpose, with who says why."""
    return tuple(
        Excluded(one.source, f"{one.author}, {one.when:%Y-%m-%d}: {one.reason}", "site.toml")
        for one in rules.context.site.excluded
    )


def _unknown(name: str) -> Finding:
    what = f'"{name}" is named twice' if name in BASES else f'no rules are called "{name}"'
    return UNKNOWN_BASIS.at(WHERE, what, mend=offer(name, BASES))
