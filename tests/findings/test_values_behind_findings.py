from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

import numpy as np
import pytest

from tests.findings.case import Case
from tests.findings.cases_cells import CELL_CASES, put
from tests.findings.site_folder import good_site

STOPPED = [case for case in CELL_CASES if case.code in ("text-in-number-cell", "negative-reading")]
PLACE_OF_4_MARCH = 62


@pytest.mark.parametrize("case", STOPPED, ids=lambda case: case.name)
def test_refused_cell_is_missing_and_others_stay(case: Case, tmp_path: Path) -> None:
    """A refused cell becomes a missing reading that still names its cell; others are untouched."""
    folder = good_site(tmp_path)
    case.change(folder)

    readings, _ = folder.read()

    assert readings is not None
    series = readings.series["FT-1"]
    origin = series.origins[PLACE_OF_4_MARCH]
    assert np.isnan(series.values[PLACE_OF_4_MARCH])
    assert np.nansum(series.values) == 700000 * np.isfinite(series.values).sum()
    assert origin is not None
    assert origin.cell == "B66"


def test_empty_cell_is_missing_not_zero(tmp_path: Path) -> None:
    """An empty cell is a missing reading without a cell of its own, never zero."""
    folder = good_site(tmp_path)
    folder.put("Gas", "B66", None)

    readings, _ = folder.read()

    assert readings is not None
    assert np.isnan(readings.series["FT-1"].values[PLACE_OF_4_MARCH])
    assert readings.series["FT-1"].origins[PLACE_OF_4_MARCH] is None


@pytest.mark.parametrize(
    ("tag", "key", "value", "mend"),
    [
        (
            "EM-4",
            "file",
            "metres.xlsx",
            'write file = "meters.xlsx" in site.toml, if that is meant',
        ),
        ("EM-4", "sheet", "Powr", 'write "Power", if that is meant'),
        ("EM-4", "column", "Power buoght", 'write "Power bought" in site.toml, if that is meant'),
        ("EM-4", "date_column", "Mnth", 'write "Month" in site.toml, if that is meant'),
    ],
)
def test_nearest_name_is_offered(tag: str, key: str, value: str, mend: str, tmp_path: Path) -> None:
    """A misspelt file, sheet or heading is told with the nearest name there is."""
    folder = good_site(tmp_path)
    folder.meter(tag)[key] = value

    _, findings = folder.read()

    assert [one.mend for one in findings] == [mend]


def test_column_of_mixed_per_cent_refuses_the_rarer_kind(tmp_path: Path) -> None:
    """In a column of per cent with two formats, only cells of the rarer format are refused."""
    folder = good_site(tmp_path)
    case = next(case for case in CELL_CASES if case.code == "mixed-per-cent")
    case.change(folder)

    readings, _ = folder.read()

    assert readings is not None
    values = readings.series["LAB-3"].values
    assert np.isnan(values).sum() == 1
    assert np.nanmax(values) == 99.8


def test_repeated_date_leaves_both_readings_unused(tmp_path: Path) -> None:
    """Where a date stands twice, neither reading is used and the day is missing."""
    folder = good_site(tmp_path)
    folder.put("Gas", "A67", datetime(2025, 3, 4))  # noqa: DTZ001

    readings, _ = folder.read()

    assert readings is not None
    missing = np.flatnonzero(np.isnan(readings.series["FT-1"].values))
    assert [readings.series["FT-1"].dates[place] for place in missing] == [
        date(2025, 3, 4),
        date(2025, 3, 5),
    ]


def test_total_row_is_set_aside(tmp_path: Path) -> None:
    """A row of totals that agrees is no reading, no finding, and is told with the file."""
    folder = good_site(tmp_path)
    folder.sheet("Gas").append(["Total", 365 * 700000, 365 * 300000])

    readings, findings = folder.read()

    assert findings == []
    assert readings is not None
    assert readings.series["FT-1"].values.sum() == 365 * 700000
    assert readings.files[0].left_out == "1 row of totals"


@pytest.mark.parametrize("word", ["Sum", "TOTAL 2025", "Grand total", "Week 53"])
def test_total_row_is_known_by_its_label(word: str, tmp_path: Path) -> None:
    """The usual words for a row of totals are understood."""
    folder = good_site(tmp_path)
    folder.sheet("Gas").append([word, 365 * 700000, 365 * 300000])

    _, findings = folder.read()

    assert findings == []


def test_substitute_takes_the_place_of_a_refused_cell(tmp_path: Path) -> None:
    """A text in a cell whose day has a substitute is told as substituted, and stops nothing."""
    folder = good_site(tmp_path)
    substitute = next(case for case in CELL_CASES if case.code == "reading-substituted")
    substitute.change(folder)
    put("B66", "meter out")(folder)

    _, findings = folder.read()

    assert [one.code for one in findings] == ["reading-substituted"]


def test_slips_in_the_site_file_do_not_hide_those_in_the_sheets(tmp_path: Path) -> None:
    """All faults of all files are told in one run."""
    folder = good_site(tmp_path)
    folder.stream("feed")["analysis"] = "naturla gas"
    folder.put("Gas", "C66", "n/a")

    readings, findings = folder.read()

    assert readings is None
    assert [one.code for one in findings] == ["undeclared-gas", "text-in-number-cell"]
