"""The workbook of a works with an uncorrected meter and a supplier's bill, recalculated."""

from __future__ import annotations

from pathlib import Path

import openpyxl

from footprint.account import account
from footprint.balance import balance
from footprint.bases import bases
from footprint.judge import judge
from footprint.measure import measure
from footprint.report import Book, Returns, book_of, report
from footprint.report.arrange import arrange
from footprint.report.places import address
from tests.calc.recalculate import (
    POISON,
    differences,
    formulas_of,
    recalculate_small,
    values_of,
)
from tests.sites.hand_made import HandMade, factors, plain_works

LINE = "Ammonia/feed gas/compression factor/in the line, iterated"


def works() -> HandMade:
    """Return the plain works with its feed metered as it flows, under gauge pressure, and billed.

    18.43 million Nm3 of methane are about 0.46 million m3 at 39 bar and 20 °C.
    """
    made = plain_works()
    made.works = {**made.works, "atmospheric_pressure_kpa": 101.0}
    made.meters = [one for one in made.meters if one["tag"] != "feed gas"]
    made.meter("feed gas", "m3_line", 4.6e5)
    made.meter("TT-1", "celsius", 20.0)
    made.meter("PT-1", "bar_gauge", 38.0)
    made.meter("BILL", "MWh_gross", 2.04e5)
    feed = next(one for one in made.streams if one["name"] == "feed gas")
    feed |= {"line": {"temperature": "TT-1", "pressure": "PT-1"}, "invoiced": "BILL"}
    return made


def book() -> Book:
    """Return what the workbook shows."""
    measured, findings = measure(works().readings(), factors())
    accounted, found = account(measured, balance(measured)[0])
    every, more = bases(accounted)
    judged, last = judge(accounted)
    return book_of(accounted, Returns(tuple(every)), judged, [*findings, *found, *more, *last])


def test_every_formula_recalculates_to_what_is_stored(tmp_path: Path) -> None:
    """With wrong results stored, an engine of others finds what Python computed."""
    clean, poisoned = tmp_path / "clean.xlsx", tmp_path / "poisoned.xlsx"
    report(book(), clean)
    report(book(), poisoned, stored=lambda _: POISON)
    cells = list(formulas_of(clean))

    computed = recalculate_small(poisoned)

    assert len(cells) > 1000
    assert differences(values_of(clean), computed, cells) == []


def test_the_compression_factor_in_the_line_holds_until_its_operands_change(
    tmp_path: Path,
) -> None:
    """The check beside the frozen factor says HOLDS, and OPEN once the temperature was edited."""
    shown = book()
    layout = arrange(shown)
    path, edited = tmp_path / "clean.xlsx", tmp_path / "edited.xlsx"
    report(shown, path)
    factor = next(row for row in layout.places if row.key == LINE)
    read = next(row for row in layout.places if row.key.startswith("meter/TT-1/"))
    at, place = layout.place(factor), layout.place(read)
    check = at.sheet, address(at.row, at.column - 1, is_fixed=False)
    workbook = openpyxl.load_workbook(path)
    workbook[place.sheet][address(*place.at(0), is_fixed=False)] = 25.0
    workbook.save(edited)

    before, after = values_of(path)[check], recalculate_small(edited)[check]

    assert (before, after) == ("HOLDS", "OPEN")


def test_the_bill_has_its_section_and_its_check(tmp_path: Path) -> None:
    """The sheet of months shows the bill against the meter, and the sheet of checks judges it."""
    path = tmp_path / "clean.xlsx"

    report(book(), path)

    texts = {name: list(sheet.values) for name, sheet in _sheets(path).items()}
    months = [str(row[0]) for row in texts["Month by month"]]
    assert "Bill against meter: feed gas" in months
    assert "feed gas: gross energy, billed" in months
    assert any("combustion temperature of 25 °C" in text for text in months)
    checks = [str(cell) for row in texts["Checks"] for cell in row]
    assert any("feed gas: bill less meter" in text for text in checks)


def _sheets(path: Path) -> dict[str, openpyxl.worksheet.worksheet.Worksheet]:
    workbook = openpyxl.load_workbook(path)
    return {sheet.title: sheet for sheet in workbook.worksheets}
