"""The blemishes of a real year: what the works wrote down besides plain readings.

What truly flowed stays as it is. Each blemish is one that a stated rule settles: `site.toml` says
the rule beside the meter, and a finding of the report says what it did.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from itertools import accumulate

import numpy as np

from .gas import Array
from .sheets import DAY, Column, Table
from .trade import Ticket
from .year import BOUNDARIES, DAYS, MONTHS

# The transmitter of the boiler gas meter was away for repair.
BOILER_METER = "FT-131"
WITHOUT_READING = (date(2025, 8, 12), date(2025, 8, 13))

# The counter at the diesel pump has five digits, and pump and counter were replaced in autumn.
DIESEL_METER = "TK-601"
FIRST_INDEX = 78_640.0  # litres
ROLLS_OVER_AT = 100_000.0
EXCHANGED = date(2025, 9, 16)
CLOSING, OPENING = 7_370.0, 15.0  # litres; a new counter has counted its test at the maker's

# The supplier of power estimated a month, and sent the reading in the month after.
POWER_METER = "EM-501"
ESTIMATED_MONTH = date(2025, 3, 1)
ESTIMATE = 0.97  # of what was read afterwards

# A ticket of liquid CO2 was typed twice, and a row later that day takes the second one off again.
TYPED_TWICE = 700  # place of the ticket in the year


def noted_tables(tables: Sequence[Table]) -> list[Table]:
    """Return the sheets as the works keeps them.

    Args:
        tables: what the meters read. [tables]

    Source: definition
    """
    kept: list[Table] = []
    for table in tables:
        tags = {column.tag for column in table.columns}
        if BOILER_METER in tags:
            kept.append(replace(table, columns=tuple(map(_with_hole, table.columns))))
        elif DIESEL_METER in tags:
            kept.append(_counter(table))
        elif POWER_METER in tags:
            kept += _with_statement(table)
        else:
            kept.append(table)
    return kept


def noted_tickets(tickets: Sequence[Ticket]) -> list[Ticket]:
    """Return the tickets as they were typed: one of them twice, and a row that cancels it once.

    Args:
        tickets: in order of time. [tickets]

    Source: definition
    """
    twice = tickets[TYPED_TWICE]
    of_the_day = [place for place, ticket in enumerate(tickets) if ticket.day == twice.day]
    until, evening = TYPED_TWICE + 1, of_the_day[-1] + 1
    cancelled = replace(twice, net=-twice.net)
    return [*tickets[:until], twice, *tickets[until:evening], cancelled, *tickets[evening:]]


def _with_hole(column: Column) -> Column:
    """Return a daily column; the boiler's without the readings that are missing."""
    is_missing = [day in WITHOUT_READING and column.tag == BOILER_METER for day in DAYS]
    return replace(column, values=np.where(is_missing, np.nan, column.values))


def _counter(table: Table) -> Table:
    """Return what the counter at the diesel pump showed at each month's start."""
    litres = table.columns[0]
    counter = replace(litres, heading="Diesel counter", values=_shown_by_counter(litres.values))
    return replace(
        table,
        columns=(counter,),
        date_heading="Date",
        dates=BOUNDARIES,
        date_format=DAY,
        has_total=False,
    )


def _shown_by_counter(litres: Array) -> Array:
    """Return the index at 13 month boundaries from what was drawn between them."""
    old = np.array(list(accumulate(litres, initial=FIRST_INDEX)))
    is_new = np.array([day > EXCHANGED for day in BOUNDARIES])
    return np.where(is_new, old - ROLLS_OVER_AT - CLOSING + OPENING, old % ROLLS_OVER_AT)


def _with_statement(table: Table) -> list[Table]:
    """Return power bought as the supplier states it, and the sheet that keeps the rest."""
    bought = next(column for column in table.columns if column.tag == POWER_METER)
    rest = tuple(column for column in table.columns if column is not bought)
    at = MONTHS.index(ESTIMATED_MONTH)
    estimate = round(ESTIMATE * float(bought.values[at]), bought.decimals)
    statement = Table(
        table.file,
        "Power bought",
        "Readings of the supplier's meter, from the monthly statements",
        (replace(bought, values=np.insert(bought.values, at, estimate)),),
        table.date_heading,
        (*MONTHS[:at], ESTIMATED_MONTH, *MONTHS[at:]),
        table.date_format,
        status=tuple(np.insert(np.full(len(MONTHS), "final", dtype="<U11"), at, "provisional")),
    )
    return [statement, replace(table, columns=rest)]
