"""Values that a spreadsheet cannot compute, beside their operands: HOLDS or OPEN."""

from __future__ import annotations

from footprint.base.row import Row
from footprint.base.spelling import spell
from footprint.base.units import label
from footprint.report.cells import Cells, Live, shown
from footprint.report.desk import Desk
from footprint.report.layout import FACTORS
from footprint.report.place_leaves import ITERATED_VALUE
from footprint.report.places import Place, Runs, address
from footprint.report.plan import FactorLine, FactorSheet
from footprint.report.sheet import Sheet
from footprint.report.words import CANNOT_BE_GIVEN

HOLDS, OPEN = "HOLDS", "OPEN"
RIGHT = {"align": "right", "shrink": True}
CHECK, UNIT, FIRST_OPERAND = 1, 3, 4
ALLOWANCE = "0.000000001"  # relative, as everywhere in the workbook


def write_iterated(desk: Desk, sheet: Sheet, plan: FactorSheet) -> None:
    """Write iterated values, their operands now and then, and whether these are still equal.

    Args:
        desk: plan, file and looks. [desk]
        sheet: the sheet of factors. [sheet]
        plan: the lines and where they stand. [plan]

    Source: definition
    """
    heading = plan.iterated_heading
    if heading is None:
        return
    sheet.text(heading.at, 0, heading.text, desk.looks.of("section"))
    for line in plan.iterated:
        if line.index == 0:
            _write_head(desk, sheet, line)
        _write_line(desk, sheet, line)
    last = plan.iterated[-1].at
    for words, look in ((HOLDS, desk.looks.of("passed")), (OPEN, desk.looks.of("open"))):
        rule = {"type": "cell", "criteria": "==", "value": f'"{words}"', "format": look}
        sheet.paper.conditional_format(heading.at, CHECK, last, CHECK, rule)


def _write_head(desk: Desk, sheet: Sheet, line: FactorLine) -> None:
    row, looks = line.row, desk.looks
    sheet.text(line.at - 2, 0, f"{row.words}: {row.because}", looks.of("note"))
    names = [arg.words or "a value" for arg in row.args]
    heads = ["Period", "Check", "Value", "Unit", *(f"{name}, now" for name in names)]
    for column, words in enumerate([*heads, *(f"{name}, when iterated" for name in names)]):
        sheet.text(line.at - 1, column, words, looks.of("small"))


def _write_line(desk: Desk, sheet: Sheet, line: FactorLine) -> None:
    row, looks = line.row, desk.looks
    period = row.axis.labels[line.index] if row.axis.size > 1 else "year"
    sheet.text(line.at, 0, period, looks.of("text"))
    value = shown(row, line.index)
    look = looks.of("frozen", looks.numbers(row), **RIGHT)
    sheet.put(line.at, ITERATED_VALUE, CANNOT_BE_GIVEN if value is None else value, look)
    sheet.text(line.at, UNIT, label(row.unit), looks.of("text", indent=1))
    known = [_write_operand(desk, sheet, line, place) for place in range(len(row.args))]
    holds = _holds(line.at, len(row.args)) if all(known) else CANNOT_BE_GIVEN
    sheet.put(line.at, CHECK, holds, looks.of("calculated"))


def _write_operand(desk: Desk, sheet: Sheet, line: FactorLine, place: int) -> bool:
    """Write an operand as it is now and as it was; return whether it had a value then."""
    arg, looks, column = line.row.args[place], desk.looks, FIRST_OPERAND + place
    runs: Runs = "once" if line.row.axis.kind == "once" else "down"
    home = Place(FACTORS, line.at - line.index, ITERATED_VALUE, runs)
    then, numbers = shown(arg, line.index), looks.numbers(arg)
    now = _now(desk, home, line.row, (place, line.index))
    sheet.put(line.at, column, now, looks.of("calculated", numbers, **RIGHT))
    kept = CANNOT_BE_GIVEN if then is None else then
    sheet.put(line.at, column + len(line.row.args), kept, looks.of("frozen", numbers, **RIGHT))
    return isinstance(then, float)


def _now(desk: Desk, home: Place, row: Row, at: tuple[int, int]) -> Live | str:
    place, index = at
    arg = row.args[place]
    value = shown(arg, index)
    if value is None and not arg.is_named:
        return CANNOT_BE_GIVEN
    cells = Cells(desk.layout, home, row)
    where = 0 if arg.axis.kind == "once" else index
    formula = cells.cell(arg, where) if arg.is_named else spell(arg, index, cells)
    return Live(formula, CANNOT_BE_GIVEN if value is None else value)


def _holds(at: int, count: int) -> Live:
    """Return whether every operand is still what the value was iterated from."""

    def is_equal(column: int) -> str:
        now, then = (address(at, place, is_fixed=False) for place in (column, column + count))
        return f"ABS({now}-{then})<={ALLOWANCE}*(1+ABS({then}))"

    tests = ",".join(is_equal(column) for column in range(FIRST_OPERAND, FIRST_OPERAND + count))
    return Live(f'IF(AND({tests}),"{HOLDS}","{OPEN}")', HOLDS)
