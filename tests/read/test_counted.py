"""Values of meters that count no amounts: what is read beside the findings."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from footprint.base.units import unit
from footprint.read.hours import hours_of_day
from footprint.read.rate_words import parted
from footprint.read.readings import Dips, Indexes, Series, Weights
from tests.findings.cases_cells import put
from tests.findings.cases_counted import (
    across_zero,
    bills,
    dipped,
    exchanged,
    indexed,
    invoices,
    monthly_bills,
    tickets,
    without_last_index,
)
from tests.findings.site_folder import MONTHS, STOCK_DAYS, SiteFolder, good_site, table

PLACE_OF_4_MARCH = 62
DAYS_OF_MARCH_AND_APRIL = 61


def series_of(path: Path, tag: str, *changes: Callable[[SiteFolder], None]) -> Series:
    """Return the series of a meter after some changes of the good site."""
    folder = good_site(path)
    for change in changes:
        change(folder)
    readings, findings = folder.read()
    assert readings is not None, [one.in_words() for one in findings]
    return readings.series[tag]


def codes(path: Path, *changes: Callable[[SiteFolder], None]) -> list[str]:
    """Return the codes of the findings after some changes of the good site."""
    folder = good_site(path)
    for change in changes:
        change(folder)
    return [one.code for one in folder.read()[1]]


@pytest.mark.parametrize("change", [indexed(), across_zero, exchanged])
def test_index_gives_the_same_amounts_across_zero_and_across_an_exchange(
    change: Callable[[SiteFolder], None], tmp_path: Path
) -> None:
    """An index that grows evenly gives the same amount each day, rolled over or exchanged."""
    series = series_of(tmp_path, "FT-1", change)

    assert len(series.values) == 365
    assert np.all(series.values == 700_000)


def test_factor_of_the_certificate_multiplies_the_growth(tmp_path: Path) -> None:
    """The amount is the growth of the index times the factor of the meter."""
    series = series_of(tmp_path, "FT-1", indexed(factor=2.5))

    assert np.all(series.values == 1_750_000)


def test_amounts_around_a_falling_index_are_missing(tmp_path: Path) -> None:
    """Where the index falls, neither reading is used: the days on all sides are open."""
    series = series_of(tmp_path, "FT-1", indexed(), put("B66", 100))

    missing = np.flatnonzero(np.isnan(series.values))
    assert list(missing) == [PLACE_OF_4_MARCH - 2, PLACE_OF_4_MARCH - 1, PLACE_OF_4_MARCH]


def test_missing_index_is_bridged_and_keeps_the_total(tmp_path: Path) -> None:
    """Between two readings the amount is known: it is spread over the days, none is lost."""
    changes = [put(f"B{row}", None) for row in (66, 67, 68)]
    series = series_of(tmp_path, "FT-1", indexed(), *changes)

    assert isinstance(series.basis, Indexes)
    assert series.values.sum() == 365 * 700_000
    assert series.basis.spans[PLACE_OF_4_MARCH] == (PLACE_OF_4_MARCH - 1, PLACE_OF_4_MARCH + 3)
    assert series.basis.shares[PLACE_OF_4_MARCH] == 0.25


def test_refused_index_is_not_bridged(tmp_path: Path) -> None:
    """A text in place of an index leaves its two days open: the finding must be mended first."""
    series = series_of(tmp_path, "FT-1", indexed(), put("B66", "n/a"))

    missing = np.flatnonzero(np.isnan(series.values))
    assert list(missing) == [PLACE_OF_4_MARCH - 1, PLACE_OF_4_MARCH]


def test_last_day_is_open_without_the_index_of_the_next_year(tmp_path: Path) -> None:
    """Without the index at the end of the year its last day can't be given; the others can."""
    series = series_of(tmp_path, "FT-1", indexed(), without_last_index)

    assert np.flatnonzero(np.isnan(series.values)).tolist() == [364]


def test_monthly_index_read_at_the_end_of_months(tmp_path: Path) -> None:
    """An index dated by the month whose end it was read at needs that of the December before."""
    folder = good_site(tmp_path)
    before = MONTHS[0].replace(year=2024, month=12)
    rows = table(["Month", "Power bought (MWh)"], [before, *MONTHS], [0])
    for place, row in enumerate(rows[3:]):
        row[1] = 100 * place
    folder.books["meters.xlsx"]["Power"] = rows
    folder.meter("EM-4").update(counts="index", index={"reads": "end of the day"})

    readings, findings = folder.read()

    assert findings == []
    assert readings is not None
    assert readings.series["EM-4"].values.tolist() == [100.0] * 12


@settings(deadline=None, max_examples=25)
@given(
    growth=st.lists(st.integers(0, 99), min_size=12, max_size=12),
    gone=st.sets(st.integers(1, 11)),
    start=st.integers(0, 999),
)
def test_index_readings_left_out_never_change_the_year(
    growth: list[int], gone: set[int], start: int
) -> None:
    """Whatever an index grows by and wherever it begins, readings left out move no total."""
    with TemporaryDirectory() as path:
        folder = good_site(Path(path))
        rows = table(["Month", "Power bought (MWh)"], STOCK_DAYS, [None])
        for place, row in enumerate(rows[3:]):
            row[1] = None if place in gone else (start + sum(growth[:place]))
        folder.books["meters.xlsx"]["Power"] = rows
        folder.meter("EM-4")["counts"] = "index"

        readings, findings = folder.read()

    assert readings is not None
    assert {one.code for one in findings} <= {"index-not-read"}
    assert readings.series["EM-4"].values.sum() == pytest.approx(sum(growth))


def test_rows_of_an_index_do_not_trouble_other_meters(tmp_path: Path) -> None:
    """The row of 1 January that an index needs is no finding for the meters beside it."""
    assert codes(tmp_path, indexed()) == []


def test_rate_keeps_its_unit_and_tells_that_of_its_amount(tmp_path: Path) -> None:
    """A mean rate is read as written; the stream sees the unit of the amount."""
    folder = good_site(tmp_path)
    folder.put("Gas", "B3", "Feed gas (kNm3/h)")
    folder.meter("FT-1")["counts"] = "rate"

    readings, findings = folder.read()

    assert findings == []
    assert readings is not None
    series = readings.series["FT-1"]
    assert series.unit == unit("kNm3/hour")
    assert series.amount_unit == unit("kNm3")


def test_rate_is_refused_where_amounts_are_counted(tmp_path: Path) -> None:
    """A unit with a time is accepted with counts = "rate" alone."""
    assert codes(tmp_path, put("B3", "Feed gas (Nm3/h)")) == ["unit-is-a-rate"]


@pytest.mark.parametrize(
    ("text", "amount", "time"),
    [
        ("Nm3/h", "Nm3", "hour"),
        ("Nm3/h (0 °C)", "Nm3 (0 °C)", "hour"),
        ("t / d", "t", "day"),
        ("t/h NH3", "t NH3", "hour"),
        ("kg per hour", "kg", "hour"),
        ("MW", "MWh", "hour"),
        ("tpd", "t", "day"),
        ("kg/s", "kg", "second"),
        ("Nm3", "Nm3", ""),
        ("MWh", "MWh", ""),
    ],
)
def test_unit_of_a_rate_is_parted(text: str, amount: str, time: str) -> None:
    """The unit of a rate is parted into amount and time; an amount has no time."""
    assert parted(text) == (amount, time)


@pytest.mark.parametrize(
    ("day", "zone", "expected"),
    [
        (date(2025, 3, 30), "Europe/Dublin", 23.0),
        (date(2025, 10, 26), "Europe/Dublin", 25.0),
        (date(2025, 6, 1), "Europe/Dublin", 24.0),
        (date(2025, 3, 30), None, 24.0),
        (date(2025, 3, 9), "America/Chicago", 23.0),
    ],
)
def test_day_of_the_clock_change_has_its_hours(
    day: date, zone: str | None, expected: float
) -> None:
    """Days have 23 and 25 hours where the clock changes, by the dates of Directive 2000/84/EC.

    Summer time begins on the last Sunday of March and ends on the last of October (articles 2
    and 3, from memory); in the United States it begins on the second Sunday of March (from memory).
    """
    assert hours_of_day(day, zone) == expected


def test_gas_day_of_the_clock_change_is_the_one_that_holds_the_night() -> None:
    """A day that starts at 06:00 has the hour of the change in the day before."""
    assert hours_of_day(date(2025, 3, 29), "Europe/Dublin", "06:00") == 23.0
    assert hours_of_day(date(2025, 3, 30), "Europe/Dublin", "06:00") == 24.0


def test_tickets_are_gross_less_tare_and_name_ticket_and_vehicle(tmp_path: Path) -> None:
    """The net weight is gross less tare, and its words tell ticket and vehicle."""
    series = series_of(tmp_path, "FT-1", tickets("2025-03-04;38.5;14.0;4711;12-D-345"))

    assert isinstance(series.basis, Weights)
    assert series.values.tolist() == [24.5]
    assert series.basis.gross.values.tolist() == [38.5]
    origin = series.basis.tare.origins[0]
    assert origin is not None
    assert (origin.cell, origin.written) == ("C2", "14.0, ticket 4711, vehicle 12-D-345")


def test_tickets_that_differ_in_number_are_not_the_same(tmp_path: Path) -> None:
    """Two loads of one day and weight with different tickets are two loads."""
    rows = ("2025-03-04;38.5;14.0;4711;A", "2025-03-04;38.5;14.0;4712;A")

    assert codes(tmp_path, tickets(*rows)) == []


def test_ticket_entered_twice_tells_what_it_would_move(tmp_path: Path) -> None:
    """The warning says by how much the total is too high; both tickets are counted."""
    folder = good_site(tmp_path)
    tickets(*["2025-03-04;38.5;14.0;4711;A"] * 2)(folder)

    readings, findings = folder.read()

    assert readings is not None
    assert readings.series["FT-1"].values.sum() == 49.0
    assert findings[0].why.startswith("all were counted; if they are one load, the total is 24.5 ")


def test_invoices_of_whole_months_are_the_months(tmp_path: Path) -> None:
    """Invoices for calendar months need no spreading and no finding."""
    assert codes(tmp_path, invoices(*monthly_bills())) == []
    series = series_of(tmp_path, "EM-4", invoices(*monthly_bills()))
    assert series.rows == "monthly"
    assert series.values[:3].tolist() == [3100.0, 2800.0, 3100.0]


def test_invoice_over_a_month_end_is_shared_by_days(tmp_path: Path) -> None:
    """An invoice of 61 days gives each month its days, and the note says what may be elsewhere."""
    folder = good_site(tmp_path)
    rows = monthly_bills()
    rows[2:4] = ["2025-03-01;2025-04-30;6710.0"]
    invoices(*rows)(folder)

    readings, findings = folder.read()

    assert readings is not None
    each = 6710.0 / DAYS_OF_MARCH_AND_APRIL
    assert readings.series["EM-4"].values[2:4] == pytest.approx([31 * each, 30 * each])
    assert [one.code for one in findings] == ["invoice-spread-over-months"]
    assert "3300 MWh" in findings[0].why


def test_credit_note_and_new_invoice_replace_the_old_one(tmp_path: Path) -> None:
    """An invoice that is credited in full and billed anew counts once."""
    anew = [f"2025-03-01;2025-03-31;{amount}" for amount in ("3100.0", "-3100.0", "3000.0")]

    series = series_of(tmp_path, "EM-4", bills(2, *anew))

    assert series.values[2] == 3000.0


def test_month_with_a_day_that_nobody_billed_is_missing(tmp_path: Path) -> None:
    """A month with an unbilled day can't be given; the others can."""
    series = series_of(tmp_path, "EM-4", bills(2, "2025-03-01;2025-03-30;3000.0"))

    assert np.flatnonzero(np.isnan(series.values)).tolist() == [2]


def test_level_between_two_rows_is_interpolated(tmp_path: Path) -> None:
    """Half way between two rows of the tank table lies the mean of their contents."""
    rows = [[0, 0.0], [5000, 4000.0], [10000, 9000.0]]

    series = series_of(tmp_path, "LT-5", dipped(rows, level=7500))

    assert isinstance(series.basis, Dips)
    assert np.all(series.values == 6500.0)
    assert series.unit == unit("t_NH3")
    assert series.basis.below == (1,) * 13


def test_level_at_the_last_row_is_read(tmp_path: Path) -> None:
    """A tank that is full to the last row of its table holds what that row says."""
    rows = [[0, 0.0], [5000, 4000.0], [10000, 9000.0]]

    series = series_of(tmp_path, "LT-5", dipped(rows, level=10000))

    assert np.all(series.values == 9000.0)
