"""Sheets whose periods run down, rows side by side: analyses, analysis periods, days."""

from __future__ import annotations

from footprint.base.row import Row
from footprint.base.source import Reading, place_in_words
from footprint.base.spelling import Names
from footprint.base.units import label
from footprint.report.desk import Desk
from footprint.report.pages import rule_of
from footprint.report.places import Place
from footprint.report.plan import LINES_ABOVE, Table, TableSheet
from footprint.report.sheet import Sheet
from footprint.report.words import formula_in_words

WIDE = 12.0
LINES_WRAPPED = 4  # words, unit, formula, rule; the key is cut at its column


def write_tables(desk: Desk, plan: TableSheet) -> None:
    """Write a sheet of tables, one below the other.

    Args:
        desk: plan, file and looks. [desk]
        plan: the tables and where they stand. [plan]

    Source: definition
    """
    widest = max(len(table.columns) for table in plan.tables)
    sides = [22.0, 22.0, 11.0][: plan.first_column]
    headings = ["Period", "File and sheet", "Cells"][: plan.first_column]
    sheet = desk.sheet(plan.name, plan.question, [*sides, *[WIDE] * widest], headings)
    for table in plan.tables:
        _write_table(desk, sheet, plan, table)


def _write_table(desk: Desk, sheet: Sheet, plan: TableSheet, table: Table) -> None:
    sheet.text(table.at, 0, table.title, desk.looks.of("section"))
    for line, words in enumerate(LINES_ABOVE, 1):
        sheet.text(table.at + line, 0, words, desk.looks.of("note"))
    for line in range(1, LINES_WRAPPED + 1):
        texts = [_head_of(row)[line - 1] for row in table.columns]
        sheet.heighten(table.at + line, [(text, 1.25 * WIDE) for text in texts], 10.5)
    for offset, row in enumerate(table.columns):
        _write_head(desk, sheet, table, plan.first_column + offset, row)
    for line, (first, rows) in enumerate(table.properties):
        _write_property(desk, sheet, table.first_property + line, plan.first_column + first, rows)
    _write_periods(desk, sheet, plan, table)


def _write_head(desk: Desk, sheet: Sheet, table: Table, column: int, row: Row) -> None:
    looks = desk.looks
    for line, text in enumerate(_head_of(row), 1):
        look = (
            looks.of("heading", font_size=8)
            if line == 1
            else looks.of("small" if line <= LINES_WRAPPED else "key")
        )
        if text:
            sheet.text(table.at + line, column, text, look)
    if row.is_named:
        for line, targets in ((6, desk.sources(row, 1)), (7, desk.uses(row, 1))):
            desk.links(sheet, table.at + line, column, targets)


def _head_of(row: Row) -> tuple[str, str, str, str, str]:
    return row.words, label(row.unit), formula_in_words(row), rule_of(row), row.key


def _write_property(desk: Desk, sheet: Sheet, at: int, column: int, rows: tuple[Row, ...]) -> None:
    sheet.text(
        at,
        0,
        f"{Names().block(rows, 0)}, {label(rows[0].unit)}",
        desk.looks.of("small", text_wrap=False),
    )
    for offset, row in enumerate(rows):
        _write_cells(desk, sheet, row, Place(sheet.name, at, column + offset))


def _write_periods(desk: Desk, sheet: Sheet, plan: TableSheet, table: Table) -> None:
    label_look, small = desk.looks.of("calculated"), desk.looks.of("key")
    for index, period in enumerate(table.axis.labels):
        at = table.first_period + index
        sheet.text(at, 0, period, label_look)
        if plan.first_column > 1:
            for column, text in enumerate(_cells_read(table, index), 1):
                if text:
                    sheet.text(at, column, text, small)
    runs = "once" if table.axis.kind == "once" else "down"
    for offset, row in enumerate(table.columns):
        home = Place(
            sheet.name,
            table.first_period,
            plan.first_column + offset,
            "down" if runs == "down" else "once",
        )
        _write_cells(desk, sheet, row, home, table.axis.size)


def _write_cells(desk: Desk, sheet: Sheet, row: Row, home: Place, size: int = 1) -> None:
    if row.is_named:
        desk.fill(sheet, row, home, size=size)
        return
    for index in range(size):  # a free number, such as 0 atoms of carbon
        sheet.number(*home.at(index), float(row.values[0]), desk.looks.of("calculated", "General"))


def _cells_read(table: Table, index: int) -> tuple[str, str]:
    """Return file and sheet, and the range of cells, that one line of readings came from."""
    origins = [row.origin(index) for row in table.columns if row.is_leaf]
    found = [origin for origin in origins if isinstance(origin, Reading)]
    if not found:
        return "", ""
    first, last = found[0].cell, found[-1].cell
    return place_in_words(
        found[0].file, found[0].sheet
    ), first if first == last else f"{first}:{last}"
