from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from pathlib import Path

import openpyxl
import pytest
from openpyxl.worksheet.worksheet import Worksheet

from footprint.base.finding import Finding, Where
from footprint.base.source import Reading
from footprint.report import Book, Headline, Verdict, report
from footprint.report.arrange import arrange
from footprint.report.cells import shown
from footprint.report.places import LayoutError, address
from footprint.report.words import CANNOT_BE_GIVEN
from tests.report.gas_rows import daily
from tests.report.works import book

HOSTILE = "=1+1"


def empty(works: Book) -> Book:
    """Return the book without pages, checks, findings and files."""
    return replace(
        works, pages=(), checks=(), findings=(), files=(), headline=(), charts=None, flows=()
    )


def cells_of(sheet: Worksheet) -> Iterator[openpyxl.cell.cell.Cell]:
    """Return all cells that hold something."""
    return (cell for row in sheet.iter_rows() for cell in row if cell.value is not None)


@pytest.fixture(scope="module")
def works() -> Book:
    """Return the invented works."""
    return book()


@pytest.fixture(scope="module")
def path(works: Book, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return its workbook."""
    path = tmp_path_factory.mktemp("report") / "works.xlsx"
    report(works, path)
    return path


def test_sheets_stand_in_order(path: Path) -> None:
    """The first four sheets are for all; pages, evidence and explanations follow."""
    assert openpyxl.load_workbook(path).sheetnames == [
        "At a glance",
        "Sign-off",
        "Checks",
        "Findings",
        "Process CO2",
        "Fuel CO2",
        "Carbon balance",
        "Energy per tonne",
        "Workings",
        "Readings",
        "Gas analyses",
        "By analysis period",
        "By day",
        "Factors",
        "Input files",
        "How it works",
    ]


def test_empty_sheets_are_left_out(works: Book, tmp_path: Path) -> None:
    """A book without checks, findings and readings has no sheets for them."""
    report(empty(works), tmp_path / "empty.xlsx")

    names = openpyxl.load_workbook(tmp_path / "empty.xlsx").sheetnames
    assert names == ["At a glance", "Sign-off", "How it works"]


def test_every_value_of_every_row_stands_in_its_cell(works: Book, path: Path) -> None:
    """What a viewer that computes nothing shows is what Python computed, for every named row."""
    layout = arrange(works)
    stored = openpyxl.load_workbook(path, data_only=True)

    for row in layout.lineage.rows:
        place = layout.place(row)
        for index in range(row.axis.size):
            line, column = place.at(index)
            value = shown(row, index)
            expected = CANNOT_BE_GIVEN if value is None else value
            got = stored[place.sheet].cell(line + 1, column + 1).value
            assert got == (
                expected if isinstance(expected, str) else pytest.approx(expected, rel=1e-12)
            ), row.key


def test_readings_are_numbers_and_figures_are_formulas(works: Book, path: Path) -> None:
    """A computed row is a formula in each cell that has a value; a reading is never one."""
    layout = arrange(works)
    workbook = openpyxl.load_workbook(path)

    for row in layout.lineage.rows:
        place = layout.source(row)
        for index in range(row.axis.size):
            line, column = place.at(index)
            is_formula = workbook[place.sheet].cell(line + 1, column + 1).data_type == "f"
            is_computed = bool(row.op) and row.op != "FROZEN" and shown(row, index) is not None
            assert is_formula == is_computed, row.key


def test_no_formula_is_without_a_result(path: Path) -> None:
    """Every formula cell has a stored result, and none is an error value."""
    formulas, stored = openpyxl.load_workbook(path), openpyxl.load_workbook(path, data_only=True)

    results = [
        stored[sheet.title][cell.coordinate].value
        for sheet in formulas
        for cell in cells_of(sheet)
        if cell.data_type == "f"
    ]

    assert len(results) > 1500
    assert None not in results
    assert not [one for one in results if isinstance(one, str) and one.startswith("#")]


def test_text_from_outside_never_becomes_a_formula_or_a_link(works: Book, tmp_path: Path) -> None:
    """Names, file names and texts as written stay text, whatever they start with."""
    reading = daily("feed gas", 1.0, HOSTILE, "B")
    written = [Reading("http://example.org", "internal:A1", "B2", HOSTILE)] * 365
    hostile = replace(
        empty(works),
        works=HOSTILE,
        operator="@cmd",
        boundary="+1",
        verdicts=(Verdict("OPEN", HOSTILE),),
        findings=(
            Finding("x", "warn", HOSTILE, Where(HOSTILE, "http://x", "-1"), HOSTILE, "why", "do"),
        ),
        others=(reading, reading.replaced(key="other", words=HOSTILE, origins=tuple(written))),
        how=((HOSTILE, HOSTILE),),
    )
    report(hostile, tmp_path / "hostile.xlsx")

    workbook = openpyxl.load_workbook(tmp_path / "hostile.xlsx")
    cells = [cell for sheet in workbook for cell in cells_of(sheet)]
    assert sum(cell.value == HOSTILE for cell in cells) > 300
    assert {cell.data_type for cell in cells if cell.value == HOSTILE} == {"s"}
    links = [cell.hyperlink for cell in cells if cell.hyperlink]
    assert all(link.target is None and link.location for link in links)


def test_a_works_with_a_long_name_has_its_workbook(works: Book, tmp_path: Path) -> None:
    """Names longer than a footer holds, or with its own signs, stop nothing."""
    report(replace(works, works="Alpha & Beta " * 30), tmp_path / "long.xlsx")

    sheet = openpyxl.load_workbook(tmp_path / "long.xlsx")["At a glance"]

    assert sheet["B4"].value == "Alpha & Beta " * 30


def test_the_same_book_gives_the_same_bytes(path: Path, tmp_path: Path) -> None:
    """A second run of the same input writes the same file."""
    report(book(), tmp_path / "again.xlsx")

    assert (tmp_path / "again.xlsx").read_bytes() == path.read_bytes()


def test_a_failed_run_leaves_the_old_file_and_nothing_else(works: Book, tmp_path: Path) -> None:
    """A workbook is put in place at once or not at all."""
    target = tmp_path / "works.xlsx"
    target.write_text("the old one")
    twice = replace(works, pages=(*works.pages, works.pages[0]))

    with pytest.raises(LayoutError):
        report(twice, target)

    assert target.read_text() == "the old one"
    assert list(tmp_path.iterdir()) == [target]


def test_links_lead_to_cells_that_hold_something(path: Path) -> None:
    """Every link goes to a sheet that exists and to a cell that is not empty."""
    workbook = openpyxl.load_workbook(path)

    links = [cell.hyperlink for sheet in workbook for cell in cells_of(sheet) if cell.hyperlink]

    assert len(links) > 80
    for link in links:
        name, _, cells = link.location.rpartition("!")
        sheet = workbook[name.strip("'").replace("''", "'")]
        assert sheet[cells.partition(":")[0]].value is not None, link.location


def test_only_entries_are_unlocked(works: Book, path: Path) -> None:
    """Sheets are protected without a password; readings may be typed over, formulas not."""
    workbook = openpyxl.load_workbook(path)
    layout = arrange(works)

    assert all(sheet.protection.sheet and not sheet.protection.password for sheet in workbook)
    for sheet in workbook:
        assert not [
            cell for cell in cells_of(sheet) if cell.data_type == "f" and not cell.protection.locked
        ]
    for block in layout.readings:
        line, column = layout.source(block.row).at(3 if block.row.axis.size > 3 else 0)
        assert not workbook["Readings"].cell(line + 1, column + 1).protection.locked


def test_a_reading_stands_with_its_cell_and_its_use(path: Path) -> None:
    """Each reading names its text as written, file, sheet, cell, and the cell that uses it."""
    sheet = openpyxl.load_workbook(path)["Readings"]
    head = [cell.value for cell in sheet[4]]

    line = dict(zip(head, [cell.value for cell in sheet[6]], strict=True))

    assert line["Reading"] == "feed gas, as read"
    assert (line["File"], line["Sheet"], line["Cell"]) == ("feed.xlsx", "Daily", "B2")
    assert line["As written"] == "as written 0"
    assert line["Period"] == "2025-01-01"
    assert line["Used in"] == "By analysis period B13"
    assert re.fullmatch(r"R[0-9a-f]{8}", line["Id"])


def test_missing_and_estimated_readings_are_told_apart(path: Path) -> None:
    """A missing reading says no data; a substitute has the letter E, author and reason."""
    sheet = openpyxl.load_workbook(path)["Readings"]

    treatments = {row[7].value for row in sheet.iter_rows(min_row=5) if row[0].value}

    assert "no data" in treatments
    assert "E: A. Officer, 2025-03-01: no meter before the filter" in treatments


def test_a_reading_that_nothing_uses_says_so(works: Book, tmp_path: Path) -> None:
    """Readings that no figure needs are listed with that remark."""
    spare = daily("spare meter", 5.0, "spare.xlsx", "B")
    report(replace(works, others=(spare,)), tmp_path / "spare.xlsx")

    sheet = openpyxl.load_workbook(tmp_path / "spare.xlsx")["Readings"]

    uses = [
        row[11].value
        for row in sheet.iter_rows(min_row=5)
        if row[2].value == spare.words and row[0].value
    ]
    assert set(uses) == {"nowhere: no figure of this workbook needs it"}
    assert len(uses) == 365


def test_headline_figures_are_live(works: Book, path: Path) -> None:
    """The figures of the first sheet refer to the cells that compute them."""
    sheet = openpyxl.load_workbook(path)["At a glance"]

    lines = {row[0].value: row[1].value for row in sheet.iter_rows() if row[0].value}

    for one in works.headline:
        assert isinstance(one, Headline)
        assert str(lines[one.words]).startswith("='")


def test_an_unfit_workbook_says_so_on_its_first_sheet(
    path: Path, works: Book, tmp_path: Path
) -> None:
    """NOT FIT TO FILE stands on the first sheet when a finding stops a figure, and only then."""
    report(replace(works, is_fit_to_file=True), tmp_path / "fit.xlsx")

    unfit = [cell.value for cell in cells_of(openpyxl.load_workbook(path)["At a glance"])]
    fit = [
        cell.value
        for cell in cells_of(openpyxl.load_workbook(tmp_path / "fit.xlsx")["At a glance"])
    ]

    assert "NOT FIT TO FILE" in unfit
    assert "NOT FIT TO FILE" not in fit


def test_the_file_tells_no_clock_and_no_person(path: Path, works: Book) -> None:
    """Properties hold plan and fingerprint; the day is the last of the year, the author nobody."""
    workbook = openpyxl.load_workbook(path)

    custom = {one.name: one.value for one in workbook.custom_doc_props.props}

    assert workbook.properties.created == datetime(2025, 12, 31)  # noqa: DTZ001  the file knows no zones
    assert not workbook.properties.creator
    assert custom["Run"] == works.fingerprint
    assert custom["Plan"] == works.plan


def test_sheets_are_set_up_for_print(path: Path) -> None:
    """Every sheet prints on A4 across, one page wide, with its head repeated and a footer."""
    for sheet in openpyxl.load_workbook(path):
        assert sheet.page_setup.orientation == "landscape"
        assert int(sheet.page_setup.paperSize) == 9
        assert sheet.sheet_properties.pageSetUpPr.fitToPage
        assert (sheet.page_setup.fitToWidth or 1, sheet.page_setup.fitToHeight) == (1, 0)
        assert "Brackwater Works" in sheet.oddFooter.left.text
        assert "of &N" in sheet.oddFooter.right.text


def test_no_link_leads_out_and_no_sheet_is_hidden(path: Path) -> None:
    """The workbook holds no macros, no hidden sheets, no links to other files."""
    names = zipfile.ZipFile(path).namelist()

    assert not [name for name in names if "vba" in name.lower() or "externalLink" in name]
    assert all(sheet.sheet_state == "visible" for sheet in openpyxl.load_workbook(path))


def test_outcomes_are_coloured_by_their_word(path: Path) -> None:
    """A recalculated outcome takes the colour of its word by a rule of the sheet."""
    sheet = openpyxl.load_workbook(path)["Checks"]

    rules = {
        formula
        for found in sheet.conditional_formatting
        for rule in found.rules
        for formula in rule.formula
    }

    assert rules == {'"PASS"', '"LOOK"', '"OPEN"'}


def test_limits_and_outcomes_are_live(path: Path) -> None:
    """Each check shows limits as references and outcomes as formulas that name the words."""
    sheet = openpyxl.load_workbook(path)["Checks"]

    limits = [sheet.cell(5, column).value for column in range(16, 20)]
    outcome = sheet["C6"].value

    assert all(str(limit).startswith("=Factors!") for limit in limits)
    assert all(f'"{word}"' in outcome for word in ("PASS", "LOOK", "OPEN", "not judged"))


def test_addresses_are_the_spreadsheet_s() -> None:
    """Cells counted from 0 are named as a spreadsheet names them."""
    assert address(11, 3, is_fixed=False) == "D12"
    assert address(6, 26, is_fixed=True) == "$AA$7"
