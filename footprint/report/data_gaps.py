"""The sheet of missing readings: how each basis fills them, and what that does to its total."""

from __future__ import annotations

from collections.abc import Sequence

from footprint.base.listing import Column, Entries, Listing, Shown
from footprint.base.source import EVIDENCE
from footprint.base.units import label
from footprint.bases import Basis
from footprint.bases.gap_rules import OwnGap

SHEET = "Data gaps"
QUESTION = "Which readings are missing, how does each basis fill them, and what does that do?"
COLUMNS = (
    Column("Meter", 16),
    Column("Counts", 26),
    Column("Periods without a reading", 14, is_number=True),
    Column("As filed", 16, is_number=True),
    Column("Had it been filled plainly", 16, is_number=True),
    Column("Unit", 22),
    Column("Adds to the total, t CO₂e", 16, is_number=True),
    Column("Direction", 22),
    Column("Rule", 50),
    Column("Was the rule read?", 22),
)
IN_WORDS = {
    "high": "high: counted as input",
    "low": "low: taken off or produced",
    None: "as the site file fills it",
}


def data_gaps_sheet(every: Sequence[Basis]) -> Listing:
    """Return the sheet of missing readings; without parts where nothing is missing.

    Args:
        every: the bases applied. [bases]

    Source: definition
    """
    parts = [_part(basis) for basis in every if basis.gaps]
    return Listing(SHEET, QUESTION, COLUMNS, tuple(parts))


def _part(basis: Basis) -> Entries:
    lines = tuple(_line(one) for one in basis.gaps)
    words = dict.fromkeys(one.rule.words for one in basis.gaps)
    return Entries(basis.name, lines, "; ".join(words))


def _line(one: OwnGap) -> tuple[Shown, ...]:
    return (
        one.tag,
        ", ".join(one.streams),
        one.filled,
        one.put_in,
        one.plainly,
        label(one.put_in.unit),
        one.effect,
        IN_WORDS[one.direction],
        one.rule.rule,
        EVIDENCE.get(one.rule.evidence, one.rule.evidence),
    )
