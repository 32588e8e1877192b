"""Rows of totals as a check: what somebody added up in the sheet against what stands above it."""

from __future__ import annotations

import re

from footprint.base.finding import declare
from footprint.read.fault import Fault, Refusal, fault_in
from footprint.read.headings import Column
from footprint.read.plain_numbers import is_equal, number_of
from footprint.read.rows import Rows, TotalRow
from footprint.read.sheet import Cell

_LEVEL = re.compile(r"%|°|bar|pa\b", re.IGNORECASE)

TOTAL_DISAGREES = declare(
    "total-disagrees",
    "warn",
    means="A row of totals in the sheet is not the sum, mean, largest or "
    "smallest of the rows above it.",
    effect="a reading was changed after the total was typed, or the formula of "
    "the total leaves rows out",
    mend="look at the total's range and at the readings; the total itself is not used",
    example="Total in B33 is 5000 above the sum of B2:B32",
)


def totals_checked(column: Column, rows: Rows) -> list[Fault]:
    """Return the totals of a column that disagree with the numbers above them.

    A total may cover all rows above it or those since the total before.

    Args:
        column: of the table. [column]
        rows: of the table. [rows]

    Findings:
        total-disagrees

    Source: definition
    """
    totals = sorted(rows.totals, key=lambda one: one.row)
    if not totals:
        return []
    set_aside = {total.row for total in totals} | rows.examples
    numbers = {
        row: number
        for row in column.sheet.by_row
        if row > column.header_row
        and row not in set_aside
        and (number := number_of(column.sheet.at(row, column.column))) is not None
    }
    faults: list[Fault] = []
    before = dict.fromkeys(("sum", "mean", "max", "min"), 0)
    for total in totals:
        cell = column.sheet.at(total.row, column.column)
        spans = [
            [value for row, value in numbers.items() if first < row < total.row]
            for first in (0, before[total.kind])
        ]
        before[total.kind] = total.row
        kinds = _kinds(total, column)
        if cell is not None and all(spans) and (refusal := _disagreement(kinds, cell, spans)):
            faults.append(fault_in(column.sheet, column.heading, cell, refusal))
    return faults


def _kinds(total: TotalRow, column: Column) -> tuple[str, ...]:
    """Return what a row of totals may hold: under per cent and states also a mean."""
    is_level = _LEVEL.search(f"{column.tail} {column.unit_text}") is not None
    return ("sum", "mean") if total.kind == "sum" and is_level else (total.kind,)


def _disagreement(kinds: tuple[str, ...], cell: Cell, spans: list[list[float]]) -> Refusal | None:
    """Return what is wrong with a total, or None where it fits one of the spans."""
    number = number_of(cell)
    if number is None or any(
        _is_fitting(kind, number, span, cell) for kind in kinds for span in spans
    ):
        return None
    above = _computed(kinds[0], spans[0])
    words = {"sum": "sum", "mean": "mean", "max": "largest", "min": "smallest"}[kinds[0]]
    side = "above" if number > above else "below"
    what = f"the total is {abs(number - above):.10g} {side} the {words} of the rows above it"
    return Refusal(TOTAL_DISAGREES, what)


def _is_fitting(kind: str, number: float, values: list[float], cell: Cell) -> bool:
    """Return whether a total fits; a mean may be weighted."""
    if kind == "mean":
        return min(values) <= number <= max(values)
    return is_equal(number, _computed(kind, values), cell)


def _computed(kind: str, values: list[float]) -> float:
    """Return the sum, mean, largest or smallest."""
    if kind == "mean":
        return sum(values) / len(values)
    if kind == "max":
        return max(values)
    return min(values) if kind == "min" else sum(values)
