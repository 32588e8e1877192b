from __future__ import annotations

import hashlib
from datetime import date, datetime
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from footprint.base.units import unit
from footprint.read.readings import Readings
from tests.findings.site_folder import DAYS, MONTHS, SiteFolder, good_site, table


def readings_of(folder: SiteFolder) -> Readings:
    """Return what is read in a folder without any stop."""
    readings, findings = folder.read()
    assert readings is not None, [one.in_words() for one in findings]
    assert [one for one in findings if one.level == "stop"] == []
    return readings


def test_daily_series_holds_every_day(tmp_path: Path) -> None:
    """A daily series has a value, a date and a cell for each day of the year."""
    folder = good_site(tmp_path)
    folder.put("Gas", "B66", 123456.5)

    series = readings_of(folder).series["FT-1"]

    place = series.dates.index(date(2025, 3, 4))
    origin = series.origins[place]
    assert len(series.dates) == 365
    assert series.unit == unit("Nm3")
    assert series.values[place] == 123456.5
    assert origin is not None
    assert origin.words == "meters.xlsx > Gas > B66"
    assert origin.written == "123456.5"


def test_monthly_series_and_stock_are_in_order(tmp_path: Path) -> None:
    """A monthly series has twelve values, a stock thirteen, whatever the order of the rows."""
    folder = good_site(tmp_path)
    for name in ("Power", "Stock"):
        rows = folder.sheet(name)
        for place, row in enumerate(rows[3:]):
            row[1] = float(place)
        rows[3:] = rows[:2:-1]

    readings = readings_of(folder)

    assert readings.series["EM-4"].values.tolist() == list(range(12))
    assert readings.series["LT-5"].values.tolist() == list(range(13))
    assert readings.series["LT-5"].dates[-1] == date(2026, 1, 1)


def test_tickets_are_in_the_order_of_their_dates(tmp_path: Path) -> None:
    """Tickets are sorted by date, those of one day in the order of the rows."""
    folder = good_site(tmp_path)
    folder.use_text(["Date;Feed gas (Nm3)", "2025-03-05;3", "2025-03-04;1", "2025-03-04;2"])

    series = readings_of(folder).series["FT-1"]

    assert series.values.tolist() == [1, 2, 3]
    assert [one.cell for one in series.origins if one] == ["B3", "B4", "B2"]


def test_unit_gets_the_substance_of_the_stream(tmp_path: Path) -> None:
    """A tonne of a stream of ammonia is a tonne of ammonia, per cent stays per cent."""
    readings = readings_of(good_site(tmp_path))

    assert readings.series["WB-3"].unit == unit("t_NH3")
    assert readings.series["LAB-3"].unit == unit("percent")
    assert readings.series["LAB-3"].values[0] == 99.8


def test_cells_shown_as_per_cent_are_read_as_shown(tmp_path: Path) -> None:
    """A column that shows 99.8 % and stores 0.998 is read as 99.8."""
    folder = good_site(tmp_path)

    def change(sheet: Any) -> None:
        for row in range(4, 369):
            sheet[f"C{row}"] = 0.998
            sheet[f"C{row}"].number_format = "0.0%"

    folder.touch("Product", change)

    series = readings_of(folder).series["LAB-3"]

    assert set(series.values) == {99.8}
    assert series.origins[0] is not None
    assert series.origins[0].written == "99.8 %"


def test_unit_in_the_site_file_settles_what_the_heading_leaves_open(tmp_path: Path) -> None:
    """The conditions of "m3" in a heading are settled by the unit of the meter."""
    folder = good_site(tmp_path)
    folder.put("Gas", "B3", "Feed gas (m3)")
    folder.meter("FT-1")["unit"] = "Nm3"

    assert readings_of(folder).series["FT-1"].unit == unit("Nm3")


def test_analyses_are_in_order_with_their_components(tmp_path: Path) -> None:
    """Analyses carry the names of the component table and the cell of each value."""
    folder = good_site(tmp_path)
    folder.site["analyses"][0]["components"] = {"Rest": "nitrogen"}
    folder.put("Natural gas", "D3", "Rest (mol-%)")

    series = readings_of(folder).analyses["natural gas"]

    assert series.components == ("methane", "ethane", "nitrogen", "carbon dioxide")
    assert series.values.shape == (13, 4)
    assert series.dates[0] == date(2024, 12, 31)
    assert series.origins[1][2].words == "laboratory.xlsx > Natural gas > D5"


def test_the_method_of_a_sample_stands_beside_its_shares(tmp_path: Path) -> None:
    """Where a column names the method of each sample, it is kept with the text of every share."""
    folder = good_site(tmp_path)
    folder.site["analyses"][0]["method_column"] = "Method"
    for row, line in enumerate(folder.sheet("Natural gas"), start=1):
        line.append({3: "Method"}.get(row, "ISO 6974" if row > 3 else None))

    series = readings_of(folder).analyses["natural gas"]

    assert all(one.written.endswith(" by ISO 6974") for sample in series.origins for one in sample)
    assert series.components == ("methane", "ethane", "nitrogen", "carbon dioxide")


def test_files_are_named_with_their_fingerprint(tmp_path: Path) -> None:
    """Each file is told once, with size, SHA-256, sheets and the number of readings."""
    readings = readings_of(good_site(tmp_path))

    meters = readings.files[0]
    content = (tmp_path / "meters.xlsx").read_bytes()
    assert [one.name for one in readings.files] == ["meters.xlsx", "laboratory.xlsx"]
    assert (meters.size, meters.sha256) == (len(content), hashlib.sha256(content).hexdigest())
    assert meters.sheets == ("Gas", "Product", "Power", "Stock")
    assert meters.readings == 4 * 365 + 12 + 13
    assert readings.files[1].readings == 13 * 4


def test_text_file_and_workbook_give_the_same_series(tmp_path: Path) -> None:
    """The same table as text, with decimal commas, gives the same values as the workbook."""
    folder = good_site(tmp_path)
    numbers = [700000 + day / 8 for day in range(365)]
    lines = [
        f"{day:%d.%m.%Y};{str(number).replace('.', ',')}"
        for day, number in zip(DAYS, numbers, strict=True)
    ]
    folder.use_text(["Date;Feed gas (Nm3)", *lines])
    folder.meter("FT-1")["rows"] = "daily"

    series = readings_of(folder).series["FT-1"]

    assert series.values.tolist() == numbers


def test_site_file_settles_the_decimal_mark(tmp_path: Path) -> None:
    """A mark that the column leaves open is settled by the meter's entry."""
    folder = good_site(tmp_path)
    folder.use_text(["Date;Feed gas (Nm3)", "2025-03-04;12,500"], decimal_mark=",")

    assert readings_of(folder).series["FT-1"].values.tolist() == [12.5]


def test_sheet_need_not_be_named_where_one_fits(tmp_path: Path) -> None:
    """Without a name of a sheet, the only visible one with the columns is read."""
    folder = good_site(tmp_path)
    for meter in folder.site["meters"]:
        meter.pop("sheet")
    for name in ("Gas", "Product", "Power"):
        folder.sheet(name)[0] = [f"sheet {name}"]
    folder.site["analyses"][0].pop("sheet")

    readings = readings_of(folder)

    assert len(readings.series) == 6
    assert set(readings.analyses) == {"natural gas"}


@st.composite
def moved_tables(draw: st.DrawFn) -> list[list[Any]]:
    """Return a table of twelve months somewhere on a sheet."""
    case = draw(st.sampled_from([str.upper, str.lower, str.title]))
    rows = table([case("month"), case("power bought") + " (MWh)"], MONTHS, [0.0])
    for number, row in enumerate(rows[3:]):
        row[1] = number + 0.5
    if draw(st.booleans()):
        rows = [row[::-1] for row in rows]
    left = draw(st.integers(0, 3))
    nothing: list[list[Any]] = [[]]
    moved = nothing * draw(st.integers(0, 5)) + [[None] * left + row for row in rows]
    blank = nothing * draw(st.integers(0, 30))
    return [*moved[:-3], *blank, *moved[-3:]]


@settings(
    deadline=None,
    max_examples=15,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(moved=moved_tables())
def test_moving_the_table_changes_no_value(tmp_path: Path, moved: list[list[Any]]) -> None:
    """Rows above, columns before, blank rows within, other order and case change no value."""
    folder = good_site(tmp_path)
    folder.books["meters.xlsx"]["Power"] = moved

    series = readings_of(folder).series["EM-4"]

    assert series.values.tolist() == [number + 0.5 for number in range(12)]


@settings(
    deadline=None,
    max_examples=25,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(
    row=st.integers(3, 14),
    change=st.sampled_from(["remove", "double", "empty", "text", "date", "error"]),
)
def test_damaging_a_cell_is_never_silent(tmp_path: Path, row: int, change: str) -> None:
    """Removing, doubling, emptying or spoiling any row of a monthly table leads to a stop."""
    folder = good_site(tmp_path)
    rows = folder.sheet("Power")
    spoilt: dict[str, Any] = {"empty": None, "text": "12 MWh", "error": "#REF!"}
    if change == "remove":
        rows.pop(row)
    elif change == "double":
        rows.insert(row, list(rows[row]))
    elif change == "date":
        rows[row][0] = datetime(2025, 1, 15)  # noqa: DTZ001
    else:
        rows[row][1] = spoilt[change]

    readings, findings = folder.read()

    assert [one.level for one in findings] == ["stop"]
    assert readings is not None
    assert np.isnan(readings.series["EM-4"].values).sum() == 1


@pytest.mark.parametrize("year", [2024, 2025])
def test_leap_day_is_wanted_in_leap_years_alone(year: int, tmp_path: Path) -> None:
    """A daily series of a leap year has 366 days."""
    folder = good_site(tmp_path)
    folder.site["works"]["year"] = year
    folder.site["works"]["plan"]["valid_from"] = date(2020, 1, 1)

    readings, _ = folder.read()

    assert readings is not None
    assert len(readings.series["FT-1"].dates) == (366 if year == 2024 else 365)
