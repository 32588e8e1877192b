"""Carbon as the CO2 it becomes, and sums of it."""

from __future__ import annotations

from collections.abc import Sequence

from footprint.base.formulas import named_sum
from footprint.base.row import Row, leaf, step
from footprint.base.source import DEFINITION
from footprint.base.units import unit
from footprint.measure import Measured


def as_co2(measured: Measured, carbon: Row, name: str, basis: str) -> Row:
    """Return carbon as CO2, by atomic weights; made once for each name and basis.

    Args:
        measured: every stream by month. [measured]
        carbon: by month. [t C]
        name: of the stream or flow. [text]
        basis: how the carbon was found. [text]

    Source: atomic weights of ISO 6976:2016, Annex A.2
    """
    context = measured.context
    key = context.key(name, "CO2", basis)
    words = name if name.startswith("CO2") else f"{name}: as CO2"
    if key not in context.made:
        context.made[key] = step(
            carbon * context.co2_per_carbon, key, words, "carbon times CO2 per carbon"
        )
    return context.made[key]


def added(
    measured: Measured, rows: Sequence[Row], key: str, words: str, unit_name: str = "t_CO2"
) -> Row:
    """Return the sum of rows by month; twelve zeros when the works has no such stream.

    Args:
        measured: every stream by month. [measured]
        rows: of one unit, or none at all. [any]
        key: key of the sum. [text]
        words: what the reader calls it. [text]
        unit_name: unit of the sum when there is nothing to add. [text]

    Source: definition
    """
    if not rows:
        months = measured.context.calendar.months
        return leaf(
            [0.0] * months.size,
            unit(unit_name),
            months,
            key=key,
            words=f"{words} (none at this works)",
            origins=[DEFINITION],
        )
    return named_sum(rows, key, words, "sum of the lines above")
