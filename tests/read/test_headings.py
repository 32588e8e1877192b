from __future__ import annotations

import pytest

from footprint.base.finding import Finding
from footprint.read.headings import Column, headings_in, locate, name_without_unit, tail_of
from footprint.read.sheet import Merged
from tests.read.sheets import Value, sheet_of


@pytest.mark.parametrize(
    ("heading", "tail"),
    [
        ("Feed gas", ""),
        ("FEED  GAS", ""),
        ("Feed\ngas (Nm3)", "Nm3"),
        ("Feed\u00a0gas, Nm3", "Nm3"),
        ("Feed gas [Nm3]", "Nm3"),
        ("Feed gas, Nm3 (0 °C, 101.325 kPa)", "Nm3 (0 °C, 101.325 kPa)"),
        ("Feed gas (corrected)", "corrected"),
        ("Feed gases", None),
        ("Main feed gas", None),
        ("Feed", None),
    ],
)
def test_heading_is_recognised_with_its_unit(heading: str, tail: str | None) -> None:
    """A heading is the wanted one after cleaning, with or without a unit behind it."""
    assert tail_of(heading, "Feed gas") == tail


def test_unit_in_the_wanted_heading_is_found_too() -> None:
    """The site file may name the heading with its unit."""
    assert tail_of("Feed gas (Nm3)", "feed gas (nm3)") == "Nm3"


def test_name_is_parted_from_its_unit() -> None:
    """The unit behind a name is split off, a remark in brackets is not."""
    assert name_without_unit("CH4 (mol-%)") == ("CH4", "mol-%")
    assert name_without_unit("Flow (wet), Nm3") == ("Flow (wet)", "Nm3")
    assert name_without_unit("2,2-dimethylbutane") == ("2,2-dimethylbutane", "")


def test_column_is_found_below_titles_and_beside_others() -> None:
    """The first row that has both headings is the row of headings."""
    sheet = sheet_of([["Feed gas report"], [], [None, "Date", "Other", "Feed gas (Nm3)"]])

    found = locate(sheet, "Date", "Feed gas")

    assert isinstance(found, Column)
    assert (found.header_row, found.date_column, found.column, found.tail) == (3, 2, 4, "Nm3")


def test_row_of_units_is_found() -> None:
    """Texts right below the headings, without date or number, are the units."""
    sheet = sheet_of([["Date", "Feed gas"], [None, "Nm3"], ["2025-01-01", 5]])

    found = locate(sheet, "Date", "Feed gas")

    assert isinstance(found, Column)
    assert (found.unit_row, found.unit_text) == (2, "Nm3")


@pytest.mark.parametrize("first", [["2025-01-01", "n/a"], ["2025-01-01", 5], [None, "12,5"]])
def test_first_row_of_readings_is_no_row_of_units(first: list[str | int | None]) -> None:
    """A row with a date or a number is no row of units."""
    found = locate(sheet_of([["Date", "Feed gas"], [*first]]), "Date", "Feed gas")

    assert isinstance(found, Column)
    assert found.unit_row is None


def test_merged_heading_over_two_rows_counts_for_both() -> None:
    """A date heading merged over two rows stands beside headings of the lower row."""
    rows: list[list[Value]] = [["Date", "Reformer", None], [None, "Feed gas (Nm3)", "Fuel"]]
    sheet = sheet_of(rows, (Merged(1, 1, 2, 1), Merged(1, 2, 1, 3)))

    found = locate(sheet, "Date", "Feed gas")

    assert isinstance(found, Column)
    assert (found.header_row, found.date_column, found.column) == (2, 1, 2)


def test_merged_heading_stands_for_its_whole_range() -> None:
    """The text of merged headings counts for each of their columns."""
    sheet = sheet_of([["Date", "Reformer"]], (Merged(1, 2, 1, 3),))

    assert [column for column, _ in headings_in(sheet, 1)] == [1, 2, 3]


def test_heading_with_a_remark_yields_to_the_plain_one() -> None:
    """A heading with a remark in brackets counts only where no heading fits better."""
    sheet = sheet_of([["Date", "Feed gas (old meter)", "Feed gas (Nm3)"]])

    found = locate(sheet, "Date", "Feed gas")

    assert isinstance(found, Column)
    assert found.column == 3


def test_missing_heading_offers_the_nearest() -> None:
    """A heading that is not there is told with the nearest one, without its unit."""
    found = locate(sheet_of([["Date", "Feed gass (Nm3)", "Fuel gas (Nm3)"]]), "Date", "Feed gas")

    assert isinstance(found, Finding)
    assert found.code == "missing-column"
    assert found.mend == 'write "Feed gass" in site.toml, if that is meant'


def test_missing_date_heading_is_named() -> None:
    """Where the heading of the dates is wrong, the finding names it and not the value's."""
    found = locate(sheet_of([["Day", "Feed gas (Nm3)"]]), "Date", "Feed gas")

    assert isinstance(found, Finding)
    assert found.what == 'no heading "Date" in row 1'
