"""The sample year's workbook, recalculated by a program that is not ours."""

from __future__ import annotations

import random
import re
from functools import cache
from pathlib import Path

import numpy as np
import openpyxl
import pytest

import footprint
from footprint.base.operations import OPERATIONS
from footprint.base.row import Row, ancestry, evaluate
from footprint.base.source import Reading
from footprint.report import Book, report
from footprint.report.arrange import arrange
from footprint.report.cells import shown
from footprint.report.layout import Layout
from footprint.report.places import address
from tests.calc.recalculate import (
    POISON,
    differences,
    formulas_of,
    needs_calc,
    recalculate,
    values_of,
)
from tests.sites.sample_modules import SAMPLE

LONGEST, MOST_REFERENCES = 120, 8
REFERENCE = re.compile(r"(?:'[^']+'!|\b[A-Za-z_]+!)?\$?[A-Z]{1,3}\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?")
NUMBER = re.compile(r"(?<![A-Za-z$\d.!'])\d+(?:\.\d+)?(?:E[+-]?\d+)?")
PLAIN_NUMBERS = re.compile(r"(?:0|1|12|10*|0\.0*1)(?:E[+-]?\d+)?")


@cache
def book() -> Book:
    """Return the sample year's book."""
    found = footprint.run(SAMPLE).book
    assert found is not None
    return found


@pytest.fixture(scope="module")
def clean(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the workbook of the sample year."""
    path = tmp_path_factory.mktemp("clean") / "year.xlsx"
    report(book(), path)
    return path


@needs_calc
@pytest.mark.calc
def test_every_formula_recalculates_to_what_is_stored(clean: Path, tmp_path: Path) -> None:
    """With a wrong result stored beside every formula, LibreOffice finds what Python computed."""
    poisoned = tmp_path / "year.xlsx"
    report(book(), poisoned, stored=lambda _: POISON)
    cells = list(formulas_of(clean))

    computed = recalculate(poisoned)

    assert len(cells) > 20_000
    assert differences(values_of(clean), computed, cells) == []


def readings_of(tops: list[Row]) -> list[Row]:
    """Return the rows that were read from cells."""
    return [
        row
        for row in ancestry(tops)
        if row.is_leaf and any(isinstance(one, Reading) for one in row.origins)
    ]


def shifted(rows: list[Row], seed: int) -> dict[Row, np.ndarray]:
    """Return every reading times a factor of its own, 0.97 to 1.03."""
    dice = random.Random(seed)  # noqa: S311  a drawn case
    return {
        row: row.values * np.array([dice.uniform(0.97, 1.03) for _ in row.values]) for row in rows
    }


def typed_over(clean: Path, edited: Path, layout: Layout, given: dict[Row, np.ndarray]) -> None:
    """Write other readings into the workbook's own cells of readings."""
    workbook = openpyxl.load_workbook(clean)
    for row, values in given.items():
        place = layout.evidence.get(row) or layout.place(row)
        sheet = workbook[place.sheet]
        for index, value in enumerate(values):
            if np.isnan(value):  # a missing reading stays missing
                continue
            line, column = place.at(index)
            cell = sheet.cell(line + 1, column + 1)
            assert cell.value == pytest.approx(row.values[index]), (
                f"{place.sheet} {cell.coordinate}"
            )
            cell.value = float(value)
    workbook.save(edited)


@needs_calc
@pytest.mark.calc
@pytest.mark.parametrize("seed", [11, 12])
def test_typing_over_all_readings_moves_the_workbook_as_python(
    clean: Path, tmp_path: Path, seed: int
) -> None:
    """Every reading changed by its own factor moves every figure as it moves Python's."""
    layout = arrange(book())
    named = [row for row in ancestry(book().tops) if row.is_named and row.op]
    given = shifted(readings_of(book().tops), seed)
    edited = tmp_path / "edited.xlsx"
    typed_over(clean, edited, layout, given)

    sheets = recalculate(edited)
    figures = evaluate(named, given)

    wrong, moved = [], 0
    for row, values in zip(named, figures, strict=True):
        place = layout.place(row)
        for index, value in enumerate(np.atleast_1d(values)):
            line, column = place.at(index)
            got = sheets.get((place.sheet, address(line, column, is_fixed=False)))
            expected = shown(row.replaced(values=values), index) if row.op == "WORDS" else value
            if isinstance(expected, float) and np.isnan(expected):
                continue
            moved += isinstance(expected, float) and expected != row.values[index]
            is_same = (
                got == expected
                if isinstance(expected, str)
                else got == pytest.approx(expected, rel=1e-9, abs=1e-9)
            )
            if not is_same:
                wrong.append(
                    f"{row.key} at {row.axis.labels[index]}: sheet {got!r}, Python {expected!r}"
                )
    assert wrong[:10] == []
    assert moved > 10_000


def test_no_formula_is_without_a_stored_value(clean: Path) -> None:
    """A viewer that never calculates shows a value in every formula cell, and none is an error."""
    stored = values_of(clean)

    values = [stored.get(place) for place in formulas_of(clean)]

    assert None not in values
    assert not [value for value in values if isinstance(value, str) and value.startswith("#")]


def test_no_text_cell_starts_a_formula(clean: Path) -> None:
    """Text from inputs is text, whatever it starts with."""
    workbook = openpyxl.load_workbook(clean)

    texts = [
        cell.value
        for sheet in workbook
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type == "s"
    ]

    assert not [text for text in texts if str(text).startswith(("=", "+", "@", "\t"))]


def test_the_same_run_gives_the_same_bytes(clean: Path, tmp_path: Path) -> None:
    """A second run over the same folder writes the same file, byte for byte."""
    again = footprint.run(SAMPLE)
    again.write(tmp_path / "again.xlsx")

    assert (tmp_path / "again.xlsx").read_bytes() == clean.read_bytes()


def test_formulas_are_short_and_hold_no_numbers(clean: Path) -> None:
    """At most 120 characters, 8 references, no number but 0, 1, 12 and powers of ten."""
    faults = []
    for place, formula in formulas_of(clean).items():
        bare = re.sub(r'"[^"]*"', "", REFERENCE.sub("", formula))
        bare = re.sub(r"POWER\(([^,()]*),[\d.]+\)", r"POWER(\1)", bare)
        numbers = [number for number in NUMBER.findall(bare) if not PLAIN_NUMBERS.fullmatch(number)]
        if len(formula) > LONGEST or len(REFERENCE.findall(formula)) > MOST_REFERENCES or numbers:
            faults.append((place, formula))
    assert faults[:5] == []


def test_a_row_has_one_formula_all_along() -> None:
    """Every row but those that only pick addresses is one relative formula in every period."""
    from footprint.base.spelling import ADDRESS_ONLY, Names, spell  # noqa: PLC0415  used here alone

    rows = [
        row
        for row in ancestry(book().tops)
        if row.is_named and row.op and row.op not in {*ADDRESS_ONLY, "FROZEN"}
    ]

    for row in rows:
        texts = {spell(row, index, Names()) for index in range(row.axis.size)}
        assert len(texts) == 1, row.key


def test_every_operation_of_the_sample_is_in_the_table() -> None:
    """The operation table lists what may appear in a cell; iterated results are few."""
    rows = ancestry(book().tops)

    assert {row.op for row in rows if row.op} <= set(OPERATIONS)
    iterated = [row.key for row in rows if row.op == "FROZEN"]
    assert sorted(key for key in iterated if not key.endswith("/tiers/year")) == [
        "Ammonia/steam to urea/feedwater enthalpy/iterated",
        "Ammonia/steam to urea/steam enthalpy/iterated",
    ]


def test_the_quality_of_every_gas_stands_in_the_workbook(clean: Path) -> None:
    """Emission factors, calorific values, density and Wobbe index are shown for every gas."""
    sheet = openpyxl.load_workbook(clean)["Gas analyses"]
    texts = {str(cell.value) for row in sheet.iter_rows() for cell in row}

    for gas in ("natural gas", "purge gas", "CO2 overhead"):
        for quantity in ("emission factor by net energy", "density", "gross Wobbe index"):
            assert f"{quantity} of {gas}" in texts
