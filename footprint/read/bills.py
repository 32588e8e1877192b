"""Invoices for billing periods that are not months: their amounts spread over the days."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from footprint.base.finding import Finding, declare
from footprint.base.units import label
from footprint.read.bill import Bill, not_taken_back, runs_of
from footprint.read.date_words import Dated, dates_in
from footprint.read.fault import Fault, Refusal, fault_in
from footprint.read.headings import Column, locate
from footprint.read.holes import Hole, periods, substitute_for
from footprint.read.readings import Bills, Listed, Series
from footprint.read.series import (
    Result,
    Source,
    needless_findings,
    origin_of,
    rows_refused,
    substituted_findings,
    values_of,
)

PERIOD_TURNED_ROUND = declare(
    "billing-period-turned-round",
    "stop",
    means="The last day of a billing period is missing or before its first day.",
    effect="the amount belongs to no day and is not used",
    mend="write the last day of the period, as the invoice has it",
    example="2025-03-01 to 2025-02-28; mended: 2025-03-01 to 2025-03-31",
)
DAYS_NOT_BILLED = declare(
    "days-not-billed",
    "stop",
    means="Days of the year lie in no billing period.",
    effect="the amounts of their months can't be given",
    mend="add the invoice of these days, or mend the ends of the periods beside them",
    example="one invoice until 2025-03-14, the next from 2025-03-16",
)
DAYS_BILLED_TWICE = declare(
    "days-billed-twice",
    "warn",
    means="Days lie in more than one billing period, with no credit note for either.",
    effect="the amounts of both invoices were counted",
    mend="mend the ends of the periods, remove the invoice that was replaced, or add its credit "
    "note",
    example="two invoices from 2025-03-01 to 2025-03-31",
)
CREDITED = declare(
    "credit-note",
    "note",
    means="An invoice is below zero.",
    effect="it was taken as a credit note and reduces the amounts of the days of its period",
    mend="nothing, if it corrects an earlier invoice",
    example="-1250 GJ (gross) from 2025-03-01 to 2025-03-31",
)
SPREAD_OVER_MONTHS = declare(
    "invoice-spread-over-months",
    "note",
    means="A billing period runs over the end of a month.",
    effect="its amount was shared among the months by days, as if every day had used the same",
    mend="nothing, or give the meter's daily readings",
    example="an invoice from 2025-01-15 to 2025-02-14",
)


def bills_of(source: Source) -> Result | list[Finding]:
    """Return invoiced amounts by month with the invoices beside them, or why they are not read.

    Args:
        source: where they stand, and what they must be. [source]

    Findings:
        billing-period-turned-round, days-not-billed, days-billed-twice.
        credit-note, invoice-spread-over-months: what was chosen.
        missing-column: of the last days; the codes of `date_words` and `cell_values`.

    Source: definition
    """
    sheet, meter = source.column.sheet, source.meter
    until = locate(sheet, meter.date_column, meter.to_column or "")
    if isinstance(until, Finding):
        return [until]
    read, faults = values_of(source)
    bills, more = _bills(source, until, read)
    faults += more
    refused = rows_refused(faults)
    holes = [
        Hole(source.column, meter.tag, (day,), (row,), has_row=True)
        for row, day in source.rows.days.items()
        if row not in read and row not in refused
    ]
    year = source.year
    inside = [one for one in bills if one.inside(date(year, 1, 1), date(year, 12, 31))]
    series, findings = _by_month(source, inside)
    return Result(series, faults, holes, [*_told(source, inside), *findings])


def _bills(source: Source, until: Column, read: dict[int, float]) -> tuple[list[Bill], list[Fault]]:
    """Return the invoices in the order of their first days, and periods that can't be.

    An invoice without amount keeps its period, so that its days are known as billed.
    """
    sheet, rows = until.sheet, sorted(source.rows.days)
    cells = [cell for row in rows if (cell := sheet.at(row, until.column)) is not None]
    found = dates_in(cells, "day", source.year, source.meter.date_order)
    last_of = {cell.row: one for cell, one in zip(cells, found, strict=True)}
    bills: list[Bill] = []
    faults: list[Fault] = []
    for row in rows:
        first, last, cell = source.rows.days[row], last_of.get(row), sheet.at(row, until.column)
        if isinstance(last, Dated) and last.day >= first:
            bills.append(Bill(row, first, last.day, read.get(row, np.nan)))
        elif isinstance(last, Refusal) and cell is not None:
            faults.append(fault_in(sheet, until.heading, cell, last))
        else:
            ends = f"ends on {last.day.isoformat()}" if isinstance(last, Dated) else "has no end"
            what = f"the period from {first.isoformat()} {ends}"
            written = cell.written if cell else ""
            refusal = Refusal(PERIOD_TURNED_ROUND, what)
            faults.append(Fault(refusal, sheet, until.heading, row, until.column, written))
    return sorted(bills, key=lambda one: (one.first, one.last, one.row)), faults


def _told(source: Source, bills: Sequence[Bill]) -> list[Finding]:
    """Return notes on credit notes and on amounts that were shared among months."""
    column, unit, findings = source.column, label(source.unit), list[Finding]()
    notes = [one for one in bills if one.amount < 0]
    if notes:
        where = column.sheet.where(column.column, [one.row for one in notes], column.heading)
        total = sum(one.amount for one in notes)
        what = f"{len(notes)} below zero were taken as credit notes, {total:.10g} {unit} in all"
        findings.append(CREDITED.at(where, what))
    over = [one for one in bills if one.is_over_months]
    if over:
        where = column.sheet.where(column.column, [one.row for one in over], column.heading)
        moved = sum(one.smaller_part for one in over)
        what = f"{len(over)} of {len(bills)} invoices run over the end of a month"
        why = (
            f"they were shared by days: {moved:.10g} {unit} lie in the months that hold the "
            "smaller parts and may belong to their neighbours"
        )
        findings.append(SPREAD_OVER_MONTHS.at(where, what, why=why))
    return findings


def _by_month(source: Source, bills: Sequence[Bill]) -> tuple[Series, list[Finding]]:
    """Return the amounts by month, and days that are billed never or twice."""
    months = periods("monthly", source.year)
    ends = [*(day - timedelta(days=1) for day in months[1:]), date(source.year, 12, 31)]
    values = np.array(
        [
            sum(bill.amount * bill.inside(first, last) / bill.days for bill in bills)
            for first, last in zip(months, ends, strict=True)
        ]
    )
    never, twice = _coverage(source, bills)
    unbilled = [place for place, month in enumerate(months) if any(_same(month, d) for d in never)]
    values[unbilled] = np.nan
    bare = [int(place) for place in np.flatnonzero(np.isnan(values))]
    covered = [months[place] for place in bare if substitute_for(source.substitutes, months[place])]
    open_days = [day for day in never if not any(_same(month, day) for month in covered)]
    present = [month for place, month in enumerate(months) if place not in bare]
    findings = [
        *_never(source, open_days),
        *twice,
        *substituted_findings(source, covered, {}),
        *needless_findings(source, present),
    ]
    return _series(source, [*bills, *_without_invoice(never)], values), findings


def _without_invoice(days: Sequence[date]) -> list[Bill]:
    """Return a period without amount for each run of days that no invoice covers."""
    return [Bill(0, run[0], run[-1], float("nan")) for run in runs_of(days)]


def _same(month: date, day: date) -> bool:
    """Return whether a day lies in a month."""
    return (month.year, month.month) == (day.year, day.month)


def _coverage(source: Source, bills: Sequence[Bill]) -> tuple[list[date], list[Finding]]:
    """Return the days of the year that no invoice covers, and those that more than one covers."""
    standing = not_taken_back(bills)
    findings: list[Finding] = []
    column, unit = source.column, label(source.unit)
    for place, one in enumerate(standing):
        for other in standing[place + 1 :]:
            shared = one.inside(other.first, other.last)
            if not shared:
                continue
            amounts = (one.amount * shared / one.days, other.amount * shared / other.days)
            amount = min(amounts, key=lambda each: (np.isnan(each), each))
            where = column.sheet.where(column.column, [one.row, other.row], column.heading)
            what = f"{one.words} and {other.words} share {shared} day{'s' * (shared > 1)}"
            why = f"both were counted; on these days {amount:.10g} {unit} may be counted twice"
            findings.append(DAYS_BILLED_TWICE.at(where, what, why=why))
    days = [date(source.year, 1, 1) + timedelta(days=place) for place in range(366)]
    return [
        day
        for day in days
        if day.year == source.year and not any(one.first <= day <= one.last for one in standing)
    ], findings


def _never(source: Source, days: Sequence[date]) -> list[Finding]:
    """Return a finding for each run of days that no invoice covers."""
    column = source.column
    where = column.sheet.where(column.date_column, [column.header_row], column.date_heading)
    findings: list[Finding] = []
    for run in runs_of(days):
        span = run[0].isoformat()
        if len(run) > 1:
            span += f" to {run[-1].isoformat()} ({len(run)} days)"
        what = f"{source.meter.tag}: no invoice for {span}"
        findings.append(DAYS_NOT_BILLED.at(where, what))
    return findings


def _series(source: Source, bills: Sequence[Bill], values: NDArray[np.float64]) -> Series:
    """Return the amounts by month with the invoices that they follow from."""
    column = source.column
    cells = [column.sheet.at(one.row, column.column) for one in bills]
    origins = tuple(origin_of(column, cell) if cell else None for cell in cells)
    amounts = Listed(np.array([one.amount for one in bills], dtype=np.float64), origins)
    basis = Bills(tuple(one.first for one in bills), tuple(one.last for one in bills), amounts)
    months = periods("monthly", source.year)
    first = [
        next((o for o, one in zip(origins, bills, strict=True) if one.last >= month), None)
        for month in months
    ]
    return Series(
        source.meter.tag, "monthly", tuple(months), values, source.unit, tuple(first), basis
    )
