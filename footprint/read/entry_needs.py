"""What a method for gaps and a split of heavier hydrocarbons need in the site file."""

from __future__ import annotations

import math

from footprint.base.finding import Finding, declare
from footprint.gas.names import COMPONENTS, name_of
from footprint.read.nearest import offer
from footprint.read.role_needs import place_of
from footprint.read.site import Analysis, GapMethod, Site

KEY_OF: dict[GapMethod, str] = {
    "redundant meter": "other_meter",
    "production": "other_meter",
    "conservative value": "value",
}

KEY_NEEDED_BY_GAP = declare(
    "key-needed-by-gap",
    "stop",
    means="A [[gaps]] entry lacks the key that its method needs.",
    effect="the missing readings can't be filled",
    mend="add the key to the entry",
    example='method = "redundant meter" without other_meter = "FT-1102"',
)
SPLIT_NOT_USABLE = declare(
    "plus-fraction-split-not-usable",
    "stop",
    means="The split of a lumped C6+ names an unknown component, or its shares don't sum to 1.",
    effect="carbon of the heavier hydrocarbons would be lost or counted twice",
    mend="name components of the table, with shares that sum to 1",
    example='plus_fraction = { "n-hexane" = 0.5, "n-heptane" = 0.3 }; mended: 0.7 and 0.3',
)


def entry_needs(site: Site) -> list[Finding]:
    """Return what gaps and splits of heavier hydrocarbons lack.

    Args:
        site: as declared. [site]

    Findings:
        key-needed-by-gap, plus-fraction-split-not-usable

    Source: definition
    """
    findings: list[Finding] = []
    for index, gap in enumerate(site.gaps):
        key = KEY_OF.get(gap.method)
        if key and getattr(gap, key) is None:
            what = f'"{gap.method}" needs {key}'
            where = place_of("gaps", index, gap.meter, key)
            findings.append(KEY_NEEDED_BY_GAP.at(where, what, mend=f"add {key} to the entry"))
    for index, analysis in enumerate(site.analyses):
        findings += _split(index, analysis)
    return findings


def _split(index: int, analysis: Analysis) -> list[Finding]:
    """Return what is wrong with the split of one gas."""
    shares = analysis.plus_fraction
    where = place_of("analyses", index, analysis.gas, "plus_fraction")
    findings = [
        SPLIT_NOT_USABLE.at(where, f'"{name}" is no known component', mend=offer(name, COMPONENTS))
        for name in shares
        if name_of(name) is None
    ]
    total = math.fsum(shares.values())
    if shares and (abs(total - 1) > 1e-6 or min(shares.values()) < 0):  # noqa: PLR2004  rounding
        findings.append(SPLIT_NOT_USABLE.at(where, f"the shares sum to {total:.6g}, not to 1"))
    return findings
