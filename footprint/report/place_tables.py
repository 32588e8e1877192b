"""Gives places to rows finer than a month: analyses, days, tickets; periods run down."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from footprint.base.axis import ONCE, Axis
from footprint.base.row import Row
from footprint.base.spelling import Names
from footprint.report.layout import ANALYSES, BY_DAY, BY_PIECE, BlockPlace, Layout
from footprint.report.lineage import Side, was_read
from footprint.report.place_months import stream_of
from footprint.report.places import Place, Runs
from footprint.report.plan import FIRST, Table, TableSheet

WIDEST = 12  # columns of a table that is not a block, so that it can be printed
SHEETS = (
    (
        ANALYSES,
        "What was each gas made of, sample by sample, and what follows from it?",
        3,
        frozenset(["samples"]),
    ),
    (
        BY_PIECE,
        "Which sample speaks for which days, and how much gas was that?",
        1,
        frozenset(["pieces"]),
    ),
    (
        BY_DAY,
        "Which figures are worked out day by day, before they are summed?",
        1,
        frozenset(["days", "dates", "tickets", "editions"]),
    ),
)


def place_tables(layout: Layout) -> None:
    """Give every row finer than a month its column.

    Args:
        layout: the plan so far. [layout]

    Source: definition
    """
    for name, question, first_column, kinds in SHEETS:
        sheet = TableSheet(name, question, first_column)
        waiting = [
            row
            for row in layout.lineage.rows
            if row.axis.kind in kinds and row not in layout.places
        ]
        for axis in dict.fromkeys(row.axis for row in waiting):
            sheet.tables += _tables_of(layout, axis, [row for row in waiting if row.axis == axis])
        if name == ANALYSES:
            sheet.tables += _single_tables(layout)
        _settle(layout, sheet)
        if sheet.tables:
            layout.tables.append(sheet)


def _tables_of(layout: Layout, axis: Axis, rows: Sequence[Row]) -> list[Table]:
    sides = [side for use in layout.lineage.blocks if use.axis == axis for side in use.sides]
    running = [side for side in dict.fromkeys(sides) if any(row.axis == axis for row in side)]
    tables: list[Table] = []
    placed: set[Row] = set()
    for is_leaf in (True, False):
        kind = [row for row in rows if row.is_leaf == is_leaf]
        for side in running:
            if all(row in kind and row not in placed for row in side):
                tables.append(Table(_title(axis, side), axis, side))
                placed.update(side)
        chunks = _chunks([row for row in kind if row not in placed])
        tables += [Table(_title(axis, chunk), axis, chunk) for chunk in chunks]
    for side in running:
        if _found(tables, side) is None:
            tables.append(Table(_title(axis, side), axis, side, is_copy=True))
    _add_properties(layout, axis, tables)
    return tables


def _title(axis: Axis, rows: Side) -> str:
    owner = axis.owner or stream_of(rows[0])
    if not rows[0].is_leaf:
        return f"{owner}: worked out"
    return f"{owner}: as reported" if was_read(rows[0]) else f"{owner}: as stated"


def _chunks(rows: Iterable[Row]) -> Iterable[Side]:
    by_stream: dict[str, list[Row]] = {}
    for row in rows:
        by_stream.setdefault(stream_of(row), []).append(row)
    for group in by_stream.values():
        for first in range(0, len(group), WIDEST):
            yield tuple(group[first : first + WIDEST])


def _found(tables: Iterable[Table], side: Side) -> tuple[Table, int] | None:
    """Return the table whose neighbouring columns are a block, and the first of them."""
    for table in tables:
        for first in range(len(table.columns) - len(side) + 1):
            if table.columns[first : first + len(side)] == side:
                return table, first
    return None


def _add_properties(layout: Layout, axis: Axis, tables: Iterable[Table]) -> None:
    """Put blocks of single values above the columns that they are multiplied with."""
    for use in layout.lineage.blocks:
        running = [side for side in use.sides if any(row.axis == axis for row in side)]
        single = [side for side in use.sides if side not in running]
        if use.axis != axis or not running or not single:
            continue
        found = _found(tables, running[0])
        if found is not None and (found[1], single[0]) not in found[0].properties:
            found[0].properties.append((found[1], single[0]))


def _single_tables(layout: Layout) -> list[Table]:
    """Return tables for blocks that are single values on both sides."""
    tables: list[Table] = []
    for use in layout.lineage.blocks:
        if use.axis.kind == "months" or any(
            row.axis.kind != "once" for side in use.sides for row in side
        ):
            continue
        for side in use.sides:
            if _found(tables, side) is None:
                tables.append(Table(Names().block(side, 0), ONCE, side, is_copy=True))
    return tables


def _settle(layout: Layout, sheet: TableSheet) -> None:
    at = FIRST
    for table in sheet.tables:
        table.at = at
        at = table.after
        runs: Runs = "once" if table.axis.kind == "once" else "down"
        for offset, row in enumerate(table.columns):
            column = sheet.first_column + offset
            if row.axis == table.axis and not (table.is_copy and row in layout.places):
                layout.put(row, Place(sheet.name, table.first_period, column, runs))
    _settle_blocks(layout, sheet)


def _settle_blocks(layout: Layout, sheet: TableSheet) -> None:
    for use in layout.lineage.blocks:
        if use.axis.kind == "months":
            continue
        for side in use.sides:
            place = _block_place(sheet, side, use.axis)
            if place is not None:
                layout.blocks.setdefault((side, use.axis), place)


def _block_place(sheet: TableSheet, side: Side, axis: Axis) -> BlockPlace | None:
    for table in sheet.tables:
        if table.axis == axis or table.axis.kind == "once":
            found = _found([table], side)
            if found is not None:
                column, runs = sheet.first_column + found[1], table.axis.kind != "once"
                return BlockPlace(
                    sheet.name, table.first_period, column, len(side), is_upright=False, runs=runs
                )
        for line, (first, rows) in enumerate(table.properties):
            if rows == side and table.axis == axis:
                column = sheet.first_column + first
                return BlockPlace(
                    sheet.name,
                    table.first_property + line,
                    column,
                    len(side),
                    is_upright=False,
                    runs=False,
                )
    return None
