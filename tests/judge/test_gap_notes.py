"""What filled gaps do to the totals, and what would fill those that are open."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from tests.sites.daily_works import daily_works, found, gap, place
from tests.sites.hand_made import HandMade

FIRST, LAST = date(2025, 3, 4), date(2025, 3, 6)
CO2 = 44.0095 / 22.3602  # kg by Nm3 of methane: molar mass over molar volume, ISO 6976:2016


def with_hole() -> HandMade:
    """Return a works whose feed meter has no readings on three days."""
    made = daily_works()
    made.series["FT-1"].values[place(FIRST) : place(LAST) + 1] = np.nan
    return made


def test_a_filled_gap_says_what_it_adds() -> None:
    """Number of readings, method, author, amount and share, and the CO2 it carries.

    Source: molar volume of methane at 0 °C from its summation factor, ISO 6976:2016 (from memory).
    """
    made = with_hole()
    made.gaps.append(gap("conservative value", FIRST, LAST, value=600_000.0))

    (told,) = found(made, "gap-filled")

    tonnes = 3 * 600_000 * CO2 / 1000
    assert told.level == "note"
    assert told.what == (
        'FT-1: 2025-03-04 to 2025-03-06 (3 readings) filled by "conservative value", by A. Nobody'
    )
    assert "1,800,000 Nm³" in told.why or "1.8e+06 Nm³" in told.why
    named = float(told.why.split("would be ")[1].split(" t CO2")[0].replace(",", ""))
    assert named == pytest.approx(tonnes, rel=0.001)
    assert told.why.endswith("lower without them")


def test_an_open_hole_names_what_each_method_would_give() -> None:
    """The mean around it, the meter that goes along best, and the largest reading are offered."""
    made = with_hole()
    values = made.series["FT-1"].values

    (told,) = found(made, "hole-that-could-be-filled")

    assert told.what.startswith("FT-1, 2025-03-04 to 2025-03-06 (3 readings): by period, ")
    assert '"neighbouring periods"' in told.what
    assert '"redundant meter" or "production" by ' in told.what
    assert f"{np.nanmax(values):,.6g}" in told.what


def test_a_works_without_holes_is_told_nothing() -> None:
    """Complete readings give neither note."""
    made = daily_works()

    assert found(made, "gap-filled") == []
    assert found(made, "hole-that-could-be-filled") == []


def test_a_method_that_gives_nothing_is_told() -> None:
    """Where the other meter did not read either, the day stays open and stops."""
    made = with_hole()
    made.series["WB-3"].values[place(LAST)] = np.nan
    made.gaps.append(gap("production", FIRST, LAST, other_meter="WB-3"))

    (told,) = found(made, "gap-not-filled")
    (filled,) = found(made, "gap-filled")

    assert told.level == "stop"
    assert told.what == 'FT-1: "production" gives no value for 2025-03-06'
    assert "2025-03-04 to 2025-03-05 (2 readings)" in filled.what


def test_a_gap_whose_other_meter_is_not_read_daily_fills_nothing() -> None:
    """A monthly meter cannot fill days: the whole gap stays open and stops."""
    made = with_hole()
    made.meter("EM-4", "MWh", 1500.0)
    made.gaps.append(gap("production", FIRST, LAST, other_meter="EM-4"))

    (told,) = found(made, "gap-not-filled")

    assert "(3 readings)" in told.what
    assert found(made, "gap-filled") == []
