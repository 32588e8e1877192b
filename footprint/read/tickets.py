"""Tickets of a weighbridge: gross less tare, and the ticket that was entered twice."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date

import numpy as np

from footprint.base.finding import Finding, declare
from footprint.base.source import Reading
from footprint.base.units import label
from footprint.read.column_units import UNITS_DISAGREE, unit_of
from footprint.read.fault import Fault, Refusal, fault_in
from footprint.read.headings import Column, clean, locate
from footprint.read.holes import Hole
from footprint.read.readings import Listed, Series, Weights
from footprint.read.series import Result, Source, origin_of, values_of
from footprint.read.sheet import Cell

ENTERED_TWICE = declare(
    "ticket-entered-twice",
    "warn",
    means="Two tickets agree in date, number or vehicle, and weights.",
    effect="both were counted; if they are one load, the total is too high by its weight",
    mend="remove the second row, or accept the finding in site.toml if two loads left",
    example="ticket 4711 of 2025-03-04 with 21.4 t in rows 66 and 67; mended: row 67 removed",
)
TARE_ABOVE_GROSS = declare(
    "tare-above-gross",
    "stop",
    means="The tare of a ticket is below zero or above its gross weight.",
    effect="no vehicle weighs less laden than empty; the ticket counts as missing",
    mend="look both weights up on the ticket; column is the gross weight, tare_column the tare",
    example="gross 14.2, tare 38.9; mended: gross 38.9, tare 14.2",
)


@dataclass(frozen=True, eq=False, slots=True)
class _Slip:
    """One ticket as it stands in its row.

    Attributes:
        row: of the ticket. [1]
        day: of the ticket. [date]
        weights: net; gross and tare where they are written. [unit]
        number: printed on the ticket; empty where no column holds it. [text]
        vehicle: that carried it; empty where no column holds it. [text]
    """

    row: int
    day: date
    weights: tuple[float, ...]
    number: str
    vehicle: str

    @property
    def is_told_apart(self) -> bool:
        """Whether the ticket says more than its date and weight, and has a weight."""
        return bool(self.number or self.vehicle) and not np.isnan(self.weights).any()

    @property
    def words(self) -> str:
        """Number and vehicle in words."""
        named = (("ticket", self.number), ("vehicle", self.vehicle))
        return ", ".join(f"{what} {text}" for what, text in named if text)


@dataclass(eq=False, slots=True)
class _Table:
    """The columns of the tickets and what was found in them."""

    source: Source
    gross: dict[int, float]
    tare: dict[int, float] | None
    tare_column: Column | None
    others: dict[str, int]
    faults: list[Fault]
    findings: list[Finding] = field(default_factory=list)


def tickets_of(source: Source) -> Result | list[Finding]:
    """Return tickets in the order of their dates, or why a column beside theirs is not read.

    A ticket without amount is a hole.

    Args:
        source: where they stand, and what they must be. [source]

    Findings:
        ticket-entered-twice: names both cells and what it would move.
        tare-above-gross; missing-column, units-disagree: of the columns beside.
        the codes of `cell_values`.

    Source: definition
    """
    columns = _beside(source)
    faults = [one for one in columns.values() if isinstance(one, Finding)]
    found = {key: one for key, one in columns.items() if isinstance(one, Column)}
    tare_column = found.get("tare")
    if not faults and tare_column is not None:
        faults = _other_unit(source, tare_column)
    if faults:
        return faults
    gross, slips = values_of(source)
    tare, more = values_of(replace(source, column=tare_column)) if tare_column else (None, [])
    others = {key: one.column for key, one in found.items() if key != "tare"}
    table = _Table(source, gross, tare, tare_column, others, [*slips, *more])
    net = _net(table)
    dated = sorted(source.rows.days.items(), key=lambda pair: pair[1])
    tickets = [_slip(table, row, day, net) for row, day in dated]
    table.findings += _twice(table, tickets)
    return Result(_series(table, tickets), table.faults, _holes(table, net), table.findings)


def _beside(source: Source) -> dict[str, Column | Finding]:
    """Return the columns beside the weights that the site file names."""
    meter, sheet = source.meter, source.column.sheet
    named = {
        "tare": meter.tare_column,
        "number": meter.number_column,
        "vehicle": meter.vehicle_column,
    }
    return {
        key: locate(sheet, meter.date_column, heading) for key, heading in named.items() if heading
    }


def _other_unit(source: Source, tare: Column) -> list[Finding]:
    """Return the finding of a tare in another unit than the gross weight."""
    found, findings = unit_of(tare, source.meter.unit, source.purposes)
    if found is None or found == source.unit:
        return findings if found is None else []
    where = tare.sheet.where(tare.column, [tare.header_row], tare.heading)
    what = f"the tare is in {label(found)}, the gross weight in {label(source.unit)}"
    return [UNITS_DISAGREE.at(where, what)]


def _net(table: _Table) -> dict[int, float]:
    """Return the net weight by row; a tare that can't be is a fault."""
    if table.tare is None or table.tare_column is None:
        return table.gross
    column, net = table.tare_column, {}
    for row in table.gross.keys() & table.tare.keys():
        gross, tare = table.gross[row], table.tare[row]
        if 0 <= tare <= gross:
            net[row] = gross - tare
            continue
        refusal = Refusal(TARE_ABOVE_GROSS, f"tare {tare:.10g} with a gross weight of {gross:.10g}")
        cell = column.sheet.cells[(row, column.column)]
        table.faults.append(fault_in(column.sheet, column.heading, cell, refusal))
    return net


def _slip(table: _Table, row: int, day: date, net: Mapping[int, float]) -> _Slip:
    """Return one ticket with all that its row says of it."""
    sheet = table.source.column.sheet
    sides = (net, table.gross, table.tare) if table.tare is not None else (net,)
    weights = tuple(one.get(row, np.nan) for one in sides)
    number, vehicle = (
        clean(cell.written) if (at := table.others.get(key)) and (cell := sheet.at(row, at)) else ""
        for key in ("number", "vehicle")
    )
    return _Slip(row, day, weights, number, vehicle)


def _twice(table: _Table, tickets: Iterable[_Slip]) -> list[Finding]:
    """Return a warning for each ticket that stands in more than one row."""
    groups: dict[tuple[object, ...], list[_Slip]] = {}
    for one in tickets:
        if one.is_told_apart:
            key = (one.day, one.number, one.vehicle, one.weights)
            groups.setdefault(key, []).append(one)
    column, unit = table.source.column, label(table.source.unit)
    findings: list[Finding] = []
    for same in groups.values():
        if len(same) < 2:  # noqa: PLR2004  twice is what the finding is about
            continue
        first, amount = same[0], same[0].weights[0] * (len(same) - 1)
        where = column.sheet.where(column.column, [one.row for one in same], column.heading)
        what = f"{first.words} of {first.day.isoformat()} stands in {len(same)} rows"
        why = f"all were counted; if they are one load, the total is {amount:.10g} {unit} too high"
        read = f"{first.weights[0]:.10g}"
        findings.append(ENTERED_TWICE.at(where, what, read=read, why=why))
    return findings


def _holes(table: _Table, net: Mapping[int, float]) -> list[Hole]:
    """Return tickets that lack a weight without a fault that says why."""
    refused = {fault.row for fault in table.faults}
    source, holes = table.source, list[Hole]()
    for row, day in source.rows.days.items():
        if row not in net and row not in refused:
            is_tare = row in table.gross and table.tare_column is not None
            column = table.tare_column if is_tare and table.tare_column else source.column
            holes.append(Hole(column, source.meter.tag, (day,), (row,), has_row=True))
    return holes


def _series(table: _Table, tickets: list[_Slip]) -> Series:
    """Return the net weights, with gross and tare beside them where they are written."""
    source, column = table.source, table.source.column
    gross = [_origin(column, one) for one in tickets]
    basis = None
    if table.tare is not None and table.tare_column is not None:
        sides = np.array([one.weights for one in tickets]).reshape(-1, 3)
        tare = tuple(_origin(table.tare_column, one) for one in tickets)
        basis = Weights(Listed(sides[:, 1], tuple(gross)), Listed(sides[:, 2], tare))
    return Series(
        source.meter.tag,
        source.meter.rows,
        tuple(one.day for one in tickets),
        np.array([one.weights[0] for one in tickets], dtype=np.float64),
        source.unit,
        tuple(gross),
        basis,
    )


def _origin(column: Column, ticket: _Slip) -> Reading | None:
    """Return the cell of a weight; its text names the ticket and the vehicle."""
    cell: Cell | None = column.sheet.at(ticket.row, column.column)
    if cell is None:
        return None
    origin = origin_of(column, cell)
    return replace(origin, written=f"{origin.written}, {ticket.words}") if ticket.words else origin
