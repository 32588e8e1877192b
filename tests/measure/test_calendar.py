"""The year of the return as axes."""

from __future__ import annotations

from datetime import date

import pytest

from footprint.measure.calendar import Calendar, spans_by_month


@pytest.mark.parametrize(("year", "days", "february"), [(2024, 366, 29), (2025, 365, 28)])
def test_a_year_has_the_days_of_the_civil_calendar(year: int, days: int, february: int) -> None:
    """A leap year has its day in February.

    Source: Gregorian calendar: years divisible by 4 and not by 100, or by 400.
    """
    calendar = Calendar(year)

    first, last = calendar.days_of_months[1]

    assert calendar.days.size == days
    assert last - first == february
    assert calendar.days_of_months[11][1] == days


def test_stocks_are_counted_at_thirteen_boundaries() -> None:
    """Every first of a month is a boundary, and the first of the next year."""
    boundaries = Calendar(2025).boundaries

    assert boundaries.size == 13
    assert boundaries.labels[0] == "2025-01-01"
    assert boundaries.labels[-1] == "2026-01-01"


def test_a_month_without_dates_has_an_empty_span() -> None:
    """Dates in January and March leave February empty, so that its sum is 0."""
    spans = spans_by_month((date(2025, 1, 5), date(2025, 1, 9), date(2025, 3, 1)))

    assert spans[:4] == ((0, 2), (2, 2), (2, 3), (3, 3))
