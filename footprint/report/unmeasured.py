"""The sheet of factors that the works could measure: what measuring them could change."""

from __future__ import annotations

from collections.abc import Sequence

from footprint.base.listing import Column, Entries, Listing, Shown
from footprint.base.source import seen_or_memory
from footprint.base.units import label
from footprint.bases import Basis
from footprint.bases.not_measured import NotMeasured, not_measured
from footprint.register import Register

SHEET = "Factors not measured"
QUESTION = "Which figures rest on published or assumed factors, and what could measuring change?"
COLUMNS = (
    Column("Factor", 46),
    Column("Value", 14, is_number=True),
    Column("Unit", 18),
    Column("Low end adds, t CO₂e", 14, is_number=True),
    Column("High end adds, t CO₂e", 14, is_number=True),
    Column("Which range", 22),
    Column("How it would be measured", 44),
    Column("Document or author", 50),
    Column("Evidence", 14),
)
NOTE = "What the total becomes if the true value lies at an end of the range, less the total."
NONE_BEHIND = "No factor that the works could measure stands behind this total."


def unmeasured_sheet(every: Sequence[Basis], register: Register) -> Listing:
    """Return the sheet of factors that were not measured.

    Args:
        every: the bases applied. [bases]
        register: factors with their published ranges. [register]

    Source: definition
    """
    parts = []
    for basis in every:
        lines = tuple(_line(one) for one in not_measured(basis, register))
        parts.append(Entries(basis.name, lines, NOTE if lines else NONE_BEHIND))
    return Listing(SHEET, QUESTION, COLUMNS, tuple(parts))


def _line(one: NotMeasured) -> tuple[Shown, ...]:
    origin = one.factor.origins[0]
    return (
        one.factor.words,
        one.factor,
        label(one.factor.unit),
        one.low,
        one.high,
        one.range_words,
        one.how,
        origin.words if origin is not None else "",
        (seen_or_memory(origin) if origin is not None else "") or "assumed",
    )
