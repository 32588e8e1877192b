"""Where readings stand, in words: the cells of some places of a series."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date
from itertools import groupby

from footprint.base.finding import Where
from footprint.base.source import Reading
from footprint.read.readings import Series

SHOWN = 4
_ADDRESS = re.compile(r"([A-Z]+)([0-9]+)")


def where_of(series: Series, places: Iterable[int]) -> Where:
    """Return file, sheet and cells of some readings.

    Args:
        series: of a meter. [series]
        places: of the readings. [1]

    Source: definition
    """
    found = [origin for place in places if (origin := series.origins[place]) is not None]
    return where_of_origins(found, series)


def where_of_origins(origins: Sequence[Reading], series: Series | None = None) -> Where:
    """Return file, sheet and cells of readings; those of further sheets are counted.

    Args:
        origins: cells, in their order. [readings]
        series: whose file is named where no cell is. [series]

    Source: definition
    """
    if not origins:
        beside = [one for one in series.origins if one is not None] if series else []
        return (
            Where(beside[0].file, beside[0].sheet, "", series.tag) if beside and series else Where()
        )
    first = origins[0]
    here = [one.cell for one in origins if (one.file, one.sheet) == (first.file, first.sheet)]
    others = len({(one.file, one.sheet) for one in origins}) - 1
    more = f" and cells of {others} more sheet{'s' if others > 1 else ''}" if others else ""
    return Where(first.file, first.sheet, f"{_ranges(here)}{more}", series.tag if series else "")


def _ranges(cells: Sequence[str]) -> str:
    """Return addresses as ranges, such as "D7:D9, D12"."""
    parsed = [match.groups() for cell in cells if (match := _ADDRESS.fullmatch(cell))]
    if len(parsed) != len(cells):
        return ", ".join(dict.fromkeys(cells[:SHOWN]))
    shown: list[str] = []
    left = 0
    in_order = sorted(
        {(column, int(row)) for column, row in parsed}, key=lambda one: (len(one[0]), one)
    )
    for _, group in groupby(enumerate(in_order), key=lambda one: (one[1][0], one[1][1] - one[0])):
        run = [cell for _, cell in group]
        if len(shown) == SHOWN:
            left += len(run)
            continue
        ends = dict.fromkeys((run[0], run[-1]))
        shown.append(":".join(f"{column}{row}" for column, row in ends))
    return ", ".join(shown) + (f" and {left} more" if left else "")


def days_in_words(series: Series, places: Sequence[int]) -> str:
    """Return days or months of readings, such as "2025-03-04 to 2025-03-09 (6 readings)".

    Args:
        series: of a meter. [series]
        places: in rising order, at least one. [1]

    Source: definition
    """
    first, last = (_day(series, series.dates[place]) for place in (places[0], places[-1]))
    return first if len(places) == 1 else f"{first} to {last} ({len(places)} readings)"


def _day(series: Series, day: date) -> str:
    return f"{day:%Y-%m}" if series.rows == "monthly" else day.isoformat()
