"""Meters that are overdue, out of range, stuck, jumping, or zero while the works runs."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from tests.sites.daily_works import FEED, SIZE, daily_works, found, place
from tests.sites.hand_made import HandMade

CODES = (
    "calibration-overdue",
    "reading-outside-range",
    "stuck-reading",
    "jumping-reading",
    "zero-while-running",
)
CO2 = 44.0095 / 22.3602  # kg by Nm3 of methane: molar mass over molar volume, ISO 6976:2016
DAY = date(2025, 3, 4)


def named_tonnes(why: str) -> float:
    """Return the tonnes of CO2 that a finding names."""
    return float(why.split("would be ")[1].split(" t CO2", maxsplit=1)[0].replace(",", ""))


@pytest.mark.parametrize("code", CODES)
def test_a_works_that_reads_well_is_told_nothing(code: str) -> None:
    """Readings that wander with the load, in range and calibrated, give no finding."""
    made = daily_works(
        calibration_due=date(2026, 6, 1), range={"lowest": 60_000.0, "highest": 900_000.0}
    )

    assert found(made, code) == []


def test_readings_after_the_due_day_are_told_with_the_carbon_on_them() -> None:
    """A meter due on 30 June is overdue from 1 July: 184 readings with their cells."""
    made = daily_works(calibration_due=date(2025, 6, 30))

    (told,) = found(made, "calibration-overdue")

    first = place(date(2025, 7, 1))
    tonnes = made.series["FT-1"].values[first:].sum() * CO2 / 1000
    assert told.level == "warn"
    assert told.what == (
        'FT-1 ("feed gas") was due for calibration on 2025-06-30, in the year: 184 readings since'
    )
    assert told.where.cell == f"B{first + 2}:B{SIZE + 1}"
    resting = float(told.why.split("; ")[1].split(" t of")[0].replace(",", ""))
    assert resting == pytest.approx(tonnes, rel=0.001)


def test_a_meter_due_before_its_first_reading_is_told_so() -> None:
    """A calibration that was due the year before concerns every reading."""
    (told,) = found(daily_works(calibration_due=date(2024, 6, 30)), "calibration-overdue")

    assert "before its first reading: 365 readings since" in told.what


def test_a_reading_outside_the_range_is_told_with_its_cell_and_effect() -> None:
    """A reading above the range names cell, range and what the median would change."""
    made = daily_works(range={"lowest": 60_000.0, "highest": 900_000.0})
    made.series["FT-1"].values[place(DAY)] = 950_000.0

    (told,) = found(made, "reading-outside-range")

    assert told.where.words == f'hand.xlsx > FT-1 > B{place(DAY) + 2} (column "FT-1")'
    assert "reads 950,000 Nm³" in told.what
    assert "outside 60,000 Nm³" in told.what
    median = float(np.median(made.series["FT-1"].values))
    assert named_tonnes(told.why) == pytest.approx((950_000 - median) * CO2 / 1000, abs=1)


@pytest.mark.parametrize(("days", "count"), [(4, 0), (5, 1), (12, 1)])
def test_five_days_with_one_value_are_stuck(days: int, count: int) -> None:
    """The same value on five running days or more is told once, on four it is not."""
    made = daily_works()
    made.series["FT-1"].values[place(DAY) : place(DAY) + days] = 601_234.0

    told = found(made, "stuck-reading")

    assert len(told) == count
    assert all(f"({days} readings)" in one.what for one in told)


def test_a_shut_down_is_not_stuck_and_not_zero_while_running() -> None:
    """A meter that stands still while the works stands still is as it should be."""
    made = daily_works()
    at = slice(place(DAY), place(DAY) + 20)
    made.series["CLOCK"].values[at] = 0.0
    made.series["FT-1"].values[place(DAY) : place(DAY) + 10] = 1_200.0
    made.series["FT-1"].values[place(DAY) + 10 : place(DAY) + 20] = 0.0

    assert found(made, "stuck-reading") == []
    assert found(made, "zero-while-running") == []
    assert found(made, "jumping-reading") == []


def test_readings_rounded_to_few_values_are_not_stuck() -> None:
    """Estimates with two digits tie by chance, which says nothing about the meter."""
    made = daily_works()
    rounded = np.round(made.series["FT-2"].values, -4)
    made.series["FT-2"].values[:] = rounded

    assert found(made, "stuck-reading") == []


@pytest.mark.parametrize(("value", "count"), [(31 * FEED, 1), (29 * FEED, 0), (FEED / 31.5, 1)])
def test_a_reading_far_from_the_median_jumps(value: float, count: int) -> None:
    """Over 30 times the median, or under a thirtieth while the works runs, is told."""
    made = daily_works()
    made.series["FT-1"].values[:] *= FEED / np.median(made.series["FT-1"].values)
    made.series["FT-1"].values[place(DAY)] = value

    assert len(found(made, "jumping-reading")) == count


def test_zero_while_the_works_runs_is_told() -> None:
    """Two days of zero feed with 24 hours on line are one finding with both days."""
    made = daily_works()
    made.series["FT-1"].values[place(DAY) : place(DAY) + 2] = 0.0

    (told,) = found(made, "zero-while-running")

    assert "2025-03-04 to 2025-03-05 (2 readings)" in told.what
    assert told.why.endswith("higher with the median of the year instead")


def test_without_hours_on_line_zero_is_not_judged() -> None:
    """Where nobody says when the works ran, a zero may be right."""
    made: HandMade = daily_works()
    made.streams = [one for one in made.streams if one["role"] != "hours on line"]
    made.series["FT-1"].values[place(DAY)] = 0.0

    assert found(made, "zero-while-running") == []
