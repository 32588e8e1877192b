"""The workbook of a small invented works, recalculated by two engines that are not ours."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest

from footprint.report import report
from footprint.report.arrange import arrange
from footprint.report.places import address
from tests.calc.recalculate import (
    POISON,
    Values,
    differences,
    formulas_of,
    needs_calc,
    recalculate,
    recalculate_small,
    values_of,
)
from tests.report.works import book

ENGINES = [
    pytest.param(recalculate_small, id="small engine"),
    pytest.param(recalculate, id="LibreOffice", marks=[needs_calc, pytest.mark.calc]),
]


@pytest.mark.parametrize("engine", ENGINES)
def test_every_formula_recalculates_to_what_is_stored(
    engine: Callable[[Path], Values], tmp_path: Path
) -> None:
    """With wrong results stored, an engine of others finds what Python computed."""
    clean, poisoned = tmp_path / "clean.xlsx", tmp_path / "poisoned.xlsx"
    report(book(), clean)
    report(book(), poisoned, stored=lambda _: POISON)
    cells = list(formulas_of(clean))

    computed = engine(poisoned)

    assert len(cells) > 1500
    assert differences(values_of(clean), computed, cells) == []


@pytest.mark.parametrize("engine", ENGINES)
def test_the_comparison_has_teeth(engine: Callable[[Path], Values], tmp_path: Path) -> None:
    """One stored result that is wrong by a ten-thousandth is found."""
    wrong = tmp_path / "wrong.xlsx"
    falsified: list[float] = []

    def once_wrong(value: float | str) -> float | str:
        if isinstance(value, float) and value > 1000 and not falsified:
            falsified.append(value)
            return value * 1.0001
        return value

    report(book(), wrong, stored=once_wrong)

    found = differences(values_of(wrong), engine(wrong), list(formulas_of(wrong)))

    assert len(found) == 1


@needs_calc
@pytest.mark.calc
def test_an_iterated_value_turns_open_when_its_operand_is_typed_over(tmp_path: Path) -> None:
    """The check beside an iterated value says OPEN once its operands were edited."""
    works = book()
    layout = arrange(works)
    path, edited = tmp_path / "clean.xlsx", tmp_path / "edited.xlsx"
    report(works, path)
    pressure = next(row for row in layout.places if row.key == "unit 1/steam/pressure/assumed")
    enthalpy = next(row for row in layout.places if row.key == "unit 1/steam/enthalpy/iterated")
    place, value = layout.place(pressure), layout.place(enthalpy)
    workbook = openpyxl.load_workbook(path)
    workbook[place.sheet][address(place.row, place.column, is_fixed=False)] = 41.0
    workbook.save(edited)
    check = value.sheet, address(value.row, value.column - 1, is_fixed=False)

    before, after = values_of(path)[check], recalculate(edited)[check]

    assert (before, after) == ("HOLDS", "OPEN")


@needs_calc
@pytest.mark.calc
def test_a_missing_reading_that_is_typed_in_comes_through(tmp_path: Path) -> None:
    """A cell that says no data takes a number, and the line that refers to it shows the number."""
    works = book()
    layout = arrange(works)
    path, edited = tmp_path / "clean.xlsx", tmp_path / "edited.xlsx"
    report(works, path)
    read = next(row for row in layout.places if row.key == "unit 1/purge gas/volume/as read")
    used = next(row for row in layout.places if row.key == "unit 1/purge gas/volume/used")
    at, shown = (address(*layout.place(row).at(40), is_fixed=False) for row in (read, used))
    workbook = openpyxl.load_workbook(path)
    assert workbook[layout.place(read).sheet][at].value == "no data"
    workbook[layout.place(read).sheet][at] = 77_000.0
    workbook.save(edited)

    computed = recalculate(edited)

    assert values_of(path)[layout.place(used).sheet, shown] == 88_000.0
    assert computed[layout.place(used).sheet, shown] == 77_000.0
