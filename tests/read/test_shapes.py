from __future__ import annotations

from datetime import datetime, timedelta
from hashlib import sha256
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from footprint.base.source import Reading
from footprint.read.readings import Readings, Series
from tests.findings.cases_shapes import (
    HOURS,
    WEEKLY,
    berlin,
    by_month,
    days_across,
    laboratory_by_half,
    sheet_by_month,
    text_rows,
    with_status,
    written,
)
from tests.findings.site_folder import YEAR, SiteFolder, good_site


def read(folder: SiteFolder) -> tuple[Readings, list[str]]:
    """Return what was read, and the codes of what was found."""
    readings, findings = folder.read()
    assert readings is not None, [one.in_words() for one in findings]
    return readings, [one.code for one in findings]


def feed(folder: SiteFolder) -> tuple[Series, list[str]]:
    """Return the series of the feed meter, and the codes of what was found."""
    readings, codes = read(folder)
    return readings.series["FT-1"], codes


def numbered(folder: SiteFolder) -> None:
    """Give each day of the feed meter its own amount: the number of the day in the year."""
    for day, row in enumerate(folder.sheet("Gas")[3:], start=1):
        row[1] = day


def origin(series: Series, place: int) -> Reading:
    """Return the cell that a value comes from."""
    found = series.origins[place]
    assert found is not None
    return found


def test_month_files_make_one_series(tmp_path: Path) -> None:
    """Files that fit a pattern make one series, each value with its own file and cell."""
    folder = good_site(tmp_path)
    numbered(folder)
    by_month(folder)

    readings, codes = read(folder)

    series = readings.series["FT-1"]
    assert codes == []
    assert list(series.values) == list(range(1, 366))
    assert series.origins[31] == Reading("gas_02.xlsx", "Gas", "B4", "32")
    gas = [one for one in readings.files if one.name.startswith("gas_")]
    assert [one.readings for one in gas[:2]] == [62, 56]
    assert len(gas) == 12


def test_month_sheets_make_one_series(tmp_path: Path) -> None:
    """Sheets that fit a pattern make one series in their order, not in that of their names."""
    folder = good_site(tmp_path)
    numbered(folder)
    sheet_by_month(folder)

    series, codes = feed(folder)

    assert codes == ["sheet-passed-over"]
    assert list(series.values) == list(range(1, 366))
    assert origin(series, 364) == Reading("gas.xlsx", "Month 12", "B34", "365")


def test_columns_of_files_are_matched_by_heading(tmp_path: Path) -> None:
    """A file with its columns in another order gives each meter its own readings."""
    folder = good_site(tmp_path)
    by_month(folder)
    rows = folder.books["gas_05.xlsx"]["Gas"]
    swapped = [[row[0], row[2], row[1]] for row in rows[2:]]
    folder.books["gas_05.xlsx"]["Gas"] = [*rows[:2], *swapped]

    readings, codes = read(folder)

    assert codes == []
    assert set(readings.series["FT-1"].values) == {700000}
    assert origin(readings.series["FT-1"], 120).cell == "C4"


def test_days_across_are_read_like_days_down(tmp_path: Path) -> None:
    """A turned table gives the same readings, with the addresses of the file."""
    folder = good_site(tmp_path)
    numbered(folder)
    days_across(folder)

    series, codes = feed(folder)

    assert codes == []
    assert list(series.values) == list(range(1, 366))
    assert origin(series, 1) == Reading("meters.xlsx", "Gas", "E2", "2")


def test_row_of_dates_without_label_is_named_by_its_number(tmp_path: Path) -> None:
    """Where nothing stands in front of the dates, date_column = "row 1" names their row."""
    folder = good_site(tmp_path)
    days_across(folder)
    folder.sheet("Gas")[0][2] = None
    for tag in ("FT-1", "FT-2"):
        folder.meter(tag)["date_column"] = "Row 1"

    series, codes = feed(folder)

    assert codes == []
    assert series.values.sum() == 365 * 700000


@pytest.mark.parametrize(
    "spell", [lambda day: f"{day:%b-%y}", lambda day: f"{day:%Y-%m}", lambda day: day]
)
def test_months_across_are_read(tmp_path: Path, spell: Any) -> None:
    """Months across may be written Jan-25, 2025-01 or as their first day; a total is set aside."""
    folder = good_site(tmp_path)
    rows = folder.sheet("Power")[3:]
    days, amounts = [spell(row[0]) for row in rows], list(range(1, 13))
    across = [["Power"], ["Month", *days, "Total"], ["Power bought (MWh)", *amounts, 78]]
    folder.books["meters.xlsx"]["Power"] = across
    folder.meter("EM-4")["across"] = True

    readings, codes = read(folder)

    assert codes == []
    assert list(readings.series["EM-4"].values) == amounts
    assert origin(readings.series["EM-4"], 11).cell == "M3"


def test_months_without_year_are_those_of_the_return(tmp_path: Path) -> None:
    """January to December without a year are the months of the return, and it is said."""
    folder = good_site(tmp_path)
    for number, row in enumerate(folder.sheet("Power")[3:], start=1):
        row[:2] = [f"{row[0]:%B}", number]

    readings, codes = read(folder)

    assert codes == ["month-without-year"]
    assert list(readings.series["EM-4"].values) == list(range(1, 13))


def test_samples_of_two_files_make_one_series(tmp_path: Path) -> None:
    """Analyses may stand in several files with the same components."""
    folder = good_site(tmp_path)
    laboratory_by_half(folder)
    later = folder.books["laboratory_2.xlsx"]["Natural gas"]
    for row in later[2:]:
        row.pop()

    readings, codes = read(folder)

    analyses = readings.analyses["natural gas"]
    assert codes == []
    assert len(analyses.dates) == 13
    assert analyses.origins[-1][0].file == "laboratory_2.xlsx"


def ends(hours: list[datetime]) -> list[str]:
    """Return hours stamped with their ends, the last of each day as 24:00."""
    return [f"{hour:%Y-%m-%d} {hour.hour + 1:02d}:00" for hour in hours]


@pytest.mark.parametrize("stamps", [written(HOURS), ends(HOURS)])
def test_hours_are_added_up_by_day(tmp_path: Path, stamps: list[str]) -> None:
    """Each hour counts on its own day, whether the stamps name its start or its end."""
    folder = good_site(tmp_path)
    amounts = [hour.timetuple().tm_yday for hour in HOURS]
    text_rows("hourly", stamps, amounts)(folder)

    series, codes = feed(folder)

    digest = sha256("\n".join(["2"] * 24).encode()).hexdigest()[:8]
    assert codes == []
    assert series.rows == "daily"
    assert list(series.values) == [24 * day for day in range(1, 366)]
    expected = Reading("feed.csv", "", "B26:B49", f"24 readings, sha256 {digest}")
    assert series.origins[1] == expected


def test_hours_stored_in_a_workbook_are_read(tmp_path: Path) -> None:
    """Stamps stored as dates with a time are hours; the mean of a day is taken of a state."""
    folder = good_site(tmp_path)
    rows = [["Date", "Ammonia (t)", "Purity (% by mass)"]]
    folder.books["meters.xlsx"]["Product"] = [
        *rows,
        *[[hour, 40, 99.5 + 0.4 * (hour.hour < 12)] for hour in HOURS],
    ]
    for tag in ("WB-3", "LAB-3"):
        folder.meter(tag)["rows"] = "hourly"

    readings, codes = read(folder)

    assert codes == []
    assert set(readings.series["WB-3"].values) == {960.0}
    assert readings.series["LAB-3"].values == pytest.approx(99.7)


def test_gas_day_runs_from_its_hour(tmp_path: Path) -> None:
    """With day_starts = "06:00" the hours until 06:00 of the next day belong to the day."""
    folder = good_site(tmp_path)
    hours = [hour + timedelta(hours=6) for hour in HOURS]
    amounts = [hour.timetuple().tm_yday for hour in HOURS]
    text_rows("hourly", written(hours), amounts, day_starts="06:00")(folder)

    series, codes = feed(folder)

    assert codes == ["day-starts-off-midnight"]
    assert list(series.values) == [24 * day for day in range(1, 366)]


@pytest.mark.parametrize("is_end", [False, True])
def test_days_of_the_clock_change_have_23_and_25_hours(tmp_path: Path, is_end: bool) -> None:  # noqa: FBT001
    """With a time zone the days of the change have 23 and 25 hours, and none is missing.

    30 March and 26 October 2025 are the days of the change in Berlin (Directive 2000/84/EC: the
    last Sundays of March and October).
    """
    folder = good_site(tmp_path)
    hours = [hour + timedelta(hours=is_end) for hour in berlin()]
    text_rows("hourly", written(hours), time_zone="Europe/Berlin")(folder)

    series, codes = feed(folder)

    by_day = dict(zip(series.dates, series.values, strict=True))
    assert codes == []
    assert by_day[datetime(YEAR, 3, 30).date()] == 2300  # noqa: DTZ001
    assert by_day[datetime(YEAR, 10, 26).date()] == 2500  # noqa: DTZ001
    assert series.values.sum() == 876000


def test_substitute_covers_a_day_that_lacks_an_hour(tmp_path: Path) -> None:
    """A substitute of the day stands for a day with an hour too few, and nothing stops."""
    folder = good_site(tmp_path)
    text_rows("hourly", written([*HOURS[:100], *HOURS[101:]]))(folder)
    day = HOURS[100].date()
    entry = {"meter": "FT-1", "value": 2400.0, "first_day": day, "last_day": day}
    folder.site["substitutes"] = [entry | {"author": "A. Person", "why": "log", "when": day}]

    series, codes = feed(folder)

    assert codes == ["reading-substituted"]
    assert int(np.isnan(series.values).sum()) == 1


@pytest.mark.parametrize("shift", [0, 6])
def test_weeks_are_split_by_days(tmp_path: Path, shift: int) -> None:
    """Each day carries a seventh of its week, dated with its first or with its last day."""
    folder = good_site(tmp_path)
    first = [datetime.fromisoformat(week) + timedelta(days=shift) for week in WEEKLY]
    dates = [f"{day:%Y-%m-%d}" for day in first]
    text_rows("weekly", dates, [7 * week for week in range(53)])(folder)

    series, codes = feed(folder)

    assert codes == ["week-across-months"]
    assert list(series.values[:6]) == [0, 0, 0, 0, 0, 1]
    assert series.origins[5] == Reading("feed.csv", "", "B3", "a seventh of 7")


def test_weeks_of_the_calendar_are_read(tmp_path: Path) -> None:
    """2025-W02 is the week from Monday 6 January (ISO 8601: week 1 holds the first Thursday)."""
    folder = good_site(tmp_path)
    names = [f"{YEAR}-W{week:02d}" for week in range(1, 53)]
    text_rows("weekly", [*names, f"{YEAR + 1}-W01"], [7 * week for week in range(53)])(folder)

    series, _ = feed(folder)

    assert list(series.values[4:7]) == [0, 1, 1]


def test_corrected_reading_counts_before_the_final_one(tmp_path: Path) -> None:
    """Of provisional, final and corrected readings of a day the corrected one is used."""
    folder = good_site(tmp_path)
    more = [[11, 7002, None, "Corrected"], [11, 7003, None, "final"]]
    with_status({11: [7001, 3, "provisional"]}, more)(folder)

    series, codes = feed(folder)

    assert codes.count("superseded-reading") == 2
    assert series.values[7] == 7002
    assert origin(series, 7).cell == "B369"


def test_many_superseded_readings_are_told_together(tmp_path: Path) -> None:
    """Superseded readings of a whole month become one note with both sums."""
    folder = good_site(tmp_path)
    changes = {row: [100, 3, "provisional"] for row in range(4, 35)}
    with_status(changes, [[row, 110, 3, "final"] for row in range(4, 35)])(folder)

    _, findings = folder.read()

    notes = [one for one in findings if "FT-1" in one.what]
    assert [one.code for one in notes] == ["superseded-reading"]
    assert notes[0].what == "FT-1: 31 readings are superseded, together 3100 by 3410"
