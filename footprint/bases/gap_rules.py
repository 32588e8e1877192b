"""How a basis wants missing readings to be filled, and what that did to one meter."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from footprint.base.row import Row

Direction = Literal["high", "low"]


@dataclass(frozen=True, slots=True)
class GapRule:
    """How a basis wants missing readings to be filled.

    Attributes:
        is_conservative: high for inputs, low for what is taken off. [flag]
        rule: the place in the document. [text]
        evidence: word of `base.source.EVIDENCE`. [text]
        words: the algorithm in a sentence. [text]
    """

    is_conservative: bool
    rule: str
    evidence: str
    words: str


@dataclass(frozen=True, eq=False, slots=True)
class OwnGap:
    """The holes of one meter as a basis fills them.

    Attributes:
        basis: its name. [text]
        tag: of the meter. [text]
        streams: that the meter counts. [text]
        direction: which way is conservative; None where the site file's method stays. [text]
        rule: how the basis wants it. [rule]
        filled: number of periods filled. [1, row once]
        put_in: sum of what the basis puts in. [unit of the meter, row once]
        plainly: sum of what the site file's method puts in. [unit of the meter, row once]
        effect: what it does to the total. [t CO2e, row once]; None where nothing differs
    """

    basis: str
    tag: str
    streams: tuple[str, ...]
    direction: Direction | None
    rule: GapRule
    filled: Row
    put_in: Row
    plainly: Row
    effect: Row | None


PLAIN = "as the site file fills it"
SURROGATE = (
    "conservative: mean and two standard deviations of up to 15 readings on each side, more for "
    "inputs, less for what is taken off, never on the other side of the plain filling"
)
EU = "Implementing Regulation (EU) 2018/2066, Article 66(1)"
AS_THE_SITE_SAYS = GapRule(
    is_conservative=False, rule="no rule of its own", evidence="practice", words=PLAIN
)
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
