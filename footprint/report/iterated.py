"""Values that a spreadsheet cannot compute, each beside what it was computed from: HOLDS, or OPEN after an edit."""

from __future__ import annotations

from footprint.base.row import Row
from footprint.base.spelling import spell
from footprint.base.units import label
from footprint.report.cells import Cells, Live, shown
from footprint.report.desk import Desk
from footprint.report.layout import FACTORS
from footprint.report.place_leaves import ITERATED_VALUE
from footprint.report.places import Place, address
from footprint.report.plan import FactorLine, FactorSheet
from footprint.report.sheet import Sheet
from footprint.report.words import CANNOT_BE_GIVEN

HOLDS, OPEN = "HOLDS", "OPEN"
CHECK, UNIT, FIRST_OPERAND = 1, 3, 4
ALLOWANCE = "0.000000001"  # relative, as everywhere in the workbook


def write_iterated(desk: Desk, sheet: Sheet, plan: FactorSheet) -> None:
    """Write iterated values, their operands now and when they were computed, and whether these are still equal.

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
    row, looks, count = line.row, desk.looks, len(line.row.args)
    sheet.text(
        line.at, 0, row.axis.labels[line.index] if row.axis.size > 1 else "year", looks.of("text")
    )
    home = Place(
        FACTORS, line.at - line.index, ITERATED_VALUE, "once" if row.axis.kind == "once" else "down"
    )
    value = shown(row, line.index)
    look = looks.of("frozen", looks.numbers(row), align="right", shrink=True)
    sheet.put(line.at, ITERATED_VALUE, CANNOT_BE_GIVEN if value is None else value, look)
    sheet.text(line.at, UNIT, label(row.unit), looks.of("text", indent=1))
    is_known = True
    for place, arg in enumerate(row.args):
        then = shown(arg, line.index)
        is_known = is_known and isinstance(then, float)
        now = _now(desk, home, row, (place, line.index))
        column = FIRST_OPERAND + place
        sheet.put(
            line.at,
            column,
            now,
            looks.of("calculated", looks.numbers(arg), align="right", shrink=True),
        )
        frozen = looks.of("frozen", looks.numbers(arg), align="right", shrink=True)
        sheet.put(line.at, column + count, CANNOT_BE_GIVEN if then is None else then, frozen)
    sheet.put(
        line.at,
        CHECK,
        _holds(line.at, count) if is_known else CANNOT_BE_GIVEN,
        looks.of("calculated"),
    )


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
