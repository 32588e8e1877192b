"""A new folder: what it holds, and that it is read back without further set-up."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from pathlib import Path

import openpyxl
import pytest

import footprint
from footprint.base.finding import Finding
from footprint.cli import main
from footprint.read.site import Site
from footprint.read.unit_words import unit_named
from footprint.run import Result
from footprint.start import draft
from footprint.start.flows import FLOWS
from footprint.start.plan import FORMS, Form
from footprint.start.workbooks import EXAMPLE, FIRST, HEADINGS, UNITS, cells_to_fill

YEAR = 2024  # a leap year: 366 days


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a new folder that nothing was written into since."""
    folder = tmp_path_factory.mktemp("new") / "works"
    assert main(["new", str(folder), "--year", str(YEAR), "--name", 'The "Old" Works']) == 0
    return folder


@pytest.fixture(scope="module")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a new folder whose every cell that waits for a reading holds a number."""
    folder = tmp_path_factory.mktemp("filled") / "works"
    main(["new", str(folder), "--year", str(YEAR)])
    for name in dict.fromkeys(form.file for form in FORMS):
        book = openpyxl.load_workbook(folder / name)
        for form in (one for one in FORMS if one.file == name):
            for address, value in cells_to_fill(form, YEAR):
                book[form.sheet][address] = value
        book.save(folder / name)
    return folder


@pytest.fixture(scope="module")
def begun_result(begun: Path) -> Result:
    """Return what the tool makes of the new folder."""
    return footprint.run(begun)


@pytest.fixture(scope="module")
def filled_result(filled: Path) -> Result:
    """Return what the tool makes of the folder that was filled in."""
    return footprint.run(filled)


def stops(findings: Iterable[Finding]) -> set[str]:
    """Return the codes of findings that stop a figure."""
    return {one.code for one in findings if one.level == "stop"}


def test_site_file_of_a_new_folder_fits_the_model(begun: Path) -> None:
    """The site file is TOML that the reader takes as it is, with the name and year asked for."""
    site = Site.model_validate(tomllib.loads((begun / "site.toml").read_text(encoding="utf-8")))

    assert site.works.name == 'The "Old" Works'
    assert site.works.year == YEAR
    assert {meter.file for meter in site.meters} | {one.file for one in site.analyses} == {
        path.name for path in begun.glob("*.xlsx")
    }


def test_unfilled_sheets_are_told_as_missing(begun_result: Result) -> None:
    """Empty sheets stop the figures by missing readings and empty samples, and by nothing else."""
    found = stops(begun_result.notices)

    assert found == {"missing-reading", "empty-component"}


def test_filled_sheets_give_a_report(filled_result: Result, tmp_path: Path) -> None:
    """With a number in every cell, the report is written and no finding stops a figure."""
    filled_result.write(tmp_path / "out.xlsx")

    assert stops(filled_result.notices) == set()
    assert (tmp_path / "out.xlsx").stat().st_size > 0
    assert filled_result.figures["value"].notna().all()


def test_example_rows_count_nowhere(filled_result: Result) -> None:
    """The ammonia of the year is that of 366 days: the example row is left out and said so."""
    made = filled_result.figures.set_index("words")["value"]["ammonia produced, 100 % NH3"]

    assert made == pytest.approx(366 * 1170 * 0.998, rel=1e-9)
    assert filled_result.book is not None
    left_out = {one.name: one.left_out for one in filled_result.book.files}
    assert "2 example rows" in left_out["gas_meters.xlsx"]


def test_what_is_left_to_fill_in_is_told(begun_result: Result) -> None:
    """Each text that the works must replace is a warning at its key."""
    told = {one.where.cell for one in begun_result.notices if one.code == "left-to-fill-in"}

    assert told == {"operator", "country", "version", "use", "author", "why"}


@pytest.mark.parametrize("form", FORMS, ids=lambda form: f"{form.file} {form.sheet}")
def test_sheet_is_ready_to_fill_in(begun: Path, form: Form) -> None:
    """Headings, units, an example, the year's dates, lists to choose from, frozen and printable."""
    sheet = openpyxl.load_workbook(begun / form.file)[form.sheet]
    headings = [cell.value for cell in sheet[HEADINGS + 1]]
    dates = [cell.value for cell in sheet["A"][FIRST:] if cell.value is not None]
    lists = {str(one.sqref) for one in sheet.data_validations.dataValidation if one.type == "list"}

    assert headings[: len(form.columns) + 1] == [
        form.date_heading,
        *(column.heading for column in form.columns),
    ]
    assert sheet.cell(EXAMPLE + 1, 1).value == "example"
    assert len(dates) == {"days": 366, "turns of months": 13}.get(form.dates, 12)
    assert (dates[0].year, dates[0].month, dates[0].day) == (YEAR, 1, 1)
    assert sheet.freeze_panes == f"B{FIRST + 1}"
    assert sheet.page_setup.orientation == "landscape"
    assert sheet.print_title_rows == f"${HEADINGS + 1}:${UNITS + 1}"
    for place, column in enumerate(form.columns, 2):
        unit = sheet.cell(UNITS + 1, place)
        assert unit.value == column.units[0]
        assert (unit.coordinate in lists) == (len(column.units) > 1)


def test_units_to_choose_from_are_all_understood() -> None:
    """No list offers a unit that the reader would refuse; mole per cent is for analyses alone."""
    units = {
        one for form in FORMS if not form.gas for column in form.columns for one in column.units
    }

    assert all(isinstance(unit_named(one), str) for one in units)


def test_choosing_another_unit_changes_the_reading(filled: Path, tmp_path: Path) -> None:
    """A kg chosen in the row of units makes the same number a thousand times less ammonia."""
    folder = tmp_path / "works"
    folder.mkdir()
    for path in filled.iterdir():
        (folder / path.name).write_bytes(path.read_bytes())
    book = openpyxl.load_workbook(folder / "production.xlsx")
    book["Ammonia"].cell(UNITS + 1, 2).value = "kg"
    book.save(folder / "production.xlsx")

    made = footprint.run(folder).figures.set_index("words")["value"]["ammonia produced, 100 % NH3"]

    assert made == pytest.approx(366 * 1.170 * 0.998, rel=1e-9)


@pytest.mark.parametrize("name", ["site.toml", "gas_meters.xlsx"])
def test_new_writes_over_nothing(
    tmp_path: Path, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """A folder that holds a site file or one of the sheets is refused and left as it was."""
    (tmp_path / name).write_text("mine", encoding="utf-8")

    status = main(["new", str(tmp_path)])

    assert status == 2
    assert f"holds a {name} already" in capsys.readouterr().err
    assert [path.name for path in tmp_path.iterdir()] == [name]
    assert (tmp_path / name).read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    ("words", "wrong"),
    [
        (["--year", "1999"], "--year 1999 is not between 2005 and 2100"),
        (["--year", "0"], "--year 0 is not between 2005 and 2100"),
        (["--name", " "], "--name is empty"),
    ],
)
def test_wrong_words_make_no_folder(
    tmp_path: Path, words: list[str], wrong: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """A year or a name that can't be is refused before anything is made."""
    status = main(["new", str(tmp_path / "works"), *words])

    assert status == 2
    assert wrong in capsys.readouterr().err
    assert not (tmp_path / "works").exists()


def test_file_in_the_place_of_the_folder(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A file where the folder should go is refused in words."""
    (tmp_path / "works").write_text("mine", encoding="utf-8")

    status = main(["new", str(tmp_path / "works")])

    assert status == 2
    assert "is a file, not a folder" in capsys.readouterr().err


def test_same_words_write_the_same_bytes(begun: Path, tmp_path: Path) -> None:
    """A folder made again is the same, byte for byte."""
    main(["new", str(tmp_path / "again"), "--year", str(YEAR), "--name", 'The "Old" Works'])

    assert {path.name: path.read_bytes() for path in (tmp_path / "again").iterdir()} == {
        path.name: path.read_bytes() for path in begun.iterdir()
    }


def test_filled_sheets_are_drafted_with_the_roles_they_were_made_for(filled: Path) -> None:
    """A draft of our own sheets finds their streams again; those it doubts, it does not give."""
    drafted = tomllib.loads(draft(sorted(filled.glob("*.xlsx"))).text)
    columns = {one["tag"]: one["column"] for one in drafted["meters"]}
    made = {column.tag: column.heading for form in FORMS for column in form.columns}

    found = {columns[one["meter"]]: one["role"] for one in drafted["streams"]}

    assert found == {made[flow.meter]: flow.role for flow in FLOWS}
