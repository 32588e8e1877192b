"""The sheet that leads from one total to another, step by step, with a chart of each way."""

from __future__ import annotations

from collections.abc import Sequence

from footprint.base.listing import Bars, Column, Entries, Listing, Shown
from footprint.base.units import label
from footprint.bases.bridge import Bridge
from footprint.bases.topics import MEANS

SHEET = "Between bases"
QUESTION = "Why do the totals under different rules differ, step by step?"
COLUMNS = (
    Column("Step", 30),
    Column("What it is about", 56),
    Column("Adds", 15, is_number=True),
    Column("Total after it", 17, is_number=True),
    Column("Unit", 12),
    Column("Reason", 80),
)
ORDER = "The size of a step depends on the order of the steps, so the order is always this one."
ADDS = 2  # column of the step sizes


def bridges_sheet(bridges: Sequence[Bridge]) -> Listing:
    """Return the sheet of all bridges.

    Args:
        bridges: the ways. [bridges]

    Source: definition
    """
    return Listing(SHEET, QUESTION, COLUMNS, tuple(_part(one) for one in bridges))


def _part(bridge: Bridge) -> Entries:
    start, unit = bridge.start or "Gross CO2 of the works", label(bridge.first.unit)
    steps: list[tuple[Shown, ...]] = [
        (one.topic, MEANS[one.topic], one.size, one.after, unit, one.size.because)
        for one in bridge.steps
    ]
    lines: tuple[tuple[Shown, ...], ...] = (
        (start, "where the way begins", None, bridge.first, unit, bridge.first.because),
        *steps,
        (bridge.end, "as filed", None, bridge.last, unit, bridge.last.because),
        ("left over", "must be 0", None, bridge.left, unit, bridge.left.because),
    )
    title = f"{start} to {bridge.end}"
    bars = Bars(f"Steps: {title}", unit, 1, len(steps), ADDS) if steps else None
    return Entries(title, lines, ORDER, bars)
