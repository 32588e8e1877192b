from __future__ import annotations

from datetime import date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footprint.read.date_words import Dated, DateOrder, Precision, dates_in, meanings
from footprint.read.fault import Refusal
from footprint.read.sheet import Cell, Kind

YEAR = 2025
DAYS_OF_YEAR = st.dates(date(YEAR, 1, 1), date(YEAR, 12, 31))
CLEAR_FORMATS = ["%Y-%m-%d", "%Y/%m/%d", "%d.%m.%Y", "%d %b %Y", "%d-%B-%y", "%B %d, %Y"]


def cell(value: float | str | datetime, row: int = 1) -> Cell:
    """Return a cell of the date column."""
    kind: Kind = "date" if isinstance(value, datetime) else "text"
    if isinstance(value, float):
        kind = "number"
    return Cell(row, 1, kind, value, str(value))


def days_in(
    values: list[float | str | datetime],
    precision: Precision = "day",
    order: DateOrder | None = None,
) -> list[date | str]:
    """Return the day of each cell, or the code of its refusal."""
    found = dates_in([cell(value) for value in values], precision, YEAR, order)
    return [one.day if isinstance(one, Dated) else one.code.code for one in found]


@given(DAYS_OF_YEAR, st.sampled_from(CLEAR_FORMATS))
def test_date_in_clear_format_is_read_back(day: date, form: str) -> None:
    """A date written in a format that can mean one day only is read as that day."""
    assert days_in([day.strftime(form)]) == [day]


@given(st.lists(DAYS_OF_YEAR, min_size=1, max_size=30), st.sampled_from(["%d/%m/%Y", "%m/%d/%Y"]))
def test_dates_with_slashes_are_read_right_or_refused(days: list[date], form: str) -> None:
    """A column with slashes is read as what was written, or refused as open; never wrongly."""
    found = days_in([day.strftime(form) for day in days])

    for day, one in zip(days, found, strict=True):
        assert one in (day, "ambiguous-date-order")


def test_whole_year_with_slashes_is_read() -> None:
    """A column that runs through the year settles the order of day and month by itself."""
    days = [date(YEAR, 1, 1) + timedelta(days=number) for number in range(365)]

    assert days_in([day.strftime("%m/%d/%Y") for day in days]) == days
    assert days_in([day.strftime("%d/%m/%Y") for day in days]) == days


def test_days_in_a_row_settle_the_order() -> None:
    """Of two readings the one that runs day after day is taken."""
    found = days_in(["01/02/2025", "02/02/2025", "03/02/2025"])

    assert found == [date(2025, 2, 1), date(2025, 2, 2), date(2025, 2, 3)]


@pytest.mark.parametrize(
    ("order", "day"), [("day first", date(2025, 4, 3)), ("month first", date(2025, 3, 4))]
)
def test_site_file_settles_the_order(order: DateOrder, day: date) -> None:
    """The order in the site file decides where the column leaves it open."""
    assert days_in(["03/04/2025"], order=order) == [day]


@pytest.mark.parametrize("text", ["2025-01", "01/2025", "Jan 2025", "Jan-25", "January 2025"])
def test_month_is_its_first_day(text: str) -> None:
    """A month in words or numbers is its first day in monthly rows."""
    assert days_in([text], "month") == [date(2025, 1, 1)]


def test_month_is_no_day() -> None:
    """A month is no date in a column of days."""
    assert days_in(["2025-01", "Jan-25"]) == ["date-not-understood"] * 2


@pytest.mark.parametrize(
    "text", ["31.02.2025", "45/13/2025", "March", "4 Mrz", "2025", "20250304", "1.2", "", "n/a"]
)
def test_text_that_is_no_date_is_refused(text: str) -> None:
    """What the calendar or the grammar does not know is refused."""
    assert days_in([text]) == ["date-not-understood"]


def test_hour_24_is_the_next_day() -> None:
    """Midnight written as 24:00 belongs to the next day, as 00:00 does."""
    assert days_in(["2025-03-31 24:00", "2025-04-01 00:00"]) == [date(2025, 4, 1)] * 2


def test_last_digits_of_a_stored_date_do_not_change_the_day() -> None:
    """A stored date a fraction of a second before midnight is the day that was meant."""
    stored = datetime(2025, 3, 4) - timedelta(microseconds=90)  # noqa: DTZ001

    assert days_in([stored]) == [date(2025, 3, 4)]


def test_plain_number_is_a_day_only_within_the_year() -> None:
    """A serial number counts as a day of the year of the return, and any other number is refused.

    45658 is 1 January 2025 in the spreadsheets' count of days: common practice, no source.
    """
    found = days_in([45658.0, 45657.0, 45658.5, 20250304.0])

    assert found == [date(2025, 1, 1), *["date-not-understood"] * 3]


def test_text_with_slashes_beside_stored_dates_is_refused() -> None:
    """Texts with slashes beside stored dates are refused, since the stored may be exchanged."""
    found = days_in([datetime(2025, 1, 12), "13/01/2025", "11/01/2025"])  # noqa: DTZ001

    assert found == [date(2025, 1, 12), date(2025, 1, 13), "mixed-dates"]


def test_refusal_names_both_days() -> None:
    """An open date is refused with both days that it may mean."""
    (found,) = dates_in([cell("03/04/2025")], "day", YEAR)

    assert isinstance(found, Refusal)
    assert found.what == '"03/04/2025" may be 2025-03-04 or 2025-04-03'


def test_meanings_of_a_clear_date_agree() -> None:
    """A date without ambiguity is the same day under both orders."""
    assert set(meanings("2025-03-04", "day").values()) == {date(2025, 3, 4)}
