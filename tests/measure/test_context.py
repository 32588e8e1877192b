"""What every part of measuring asks of its context."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from footprint.base.row import Row
from footprint.base.source import Assumption, Reading
from tests.sites.hand_made import CALENDAR, DAYS_IN_MONTH, HandMade

READ, INSTEAD = 700.0, 650.0
AUTHOR = {"author": "N. Body", "why": "meter was out", "when": date(2025, 2, 1)}


def with_holes() -> HandMade:
    """Return a daily meter without readings on 11 and 20 January, substituted from 10 to 12."""
    values = np.full(365, READ)
    values[[10, 19]] = np.nan
    made = HandMade()
    made.meter("FT-1", "Nm3", list(values), "daily")
    made.substitutes.append(
        {
            "meter": "FT-1",
            "first_day": date(2025, 1, 10),
            "last_day": date(2025, 1, 12),
            "value": INSTEAD,
            **AUTHOR,
        }
    )
    made.stream("feed", "feed", "FT-1")
    return made


def substitute_of(used: Row) -> Row:
    """Return the row of substitutes behind the readings as they are used."""
    assert used.op == "CHOOSE"
    return used.args[2]


def test_a_substitute_stands_where_a_reading_is_missing_and_only_there() -> None:
    """A day that was read keeps its reading; a missing day that nobody answers for stays open."""
    used = with_holes().context().reading("FT-1", "feed")

    assert used.values[9] == READ
    assert used.values[10] == INSTEAD
    assert used.values[11] == READ
    assert np.isnan(used.values[19])
    assert np.sum(used.values == INSTEAD) == 1


def test_a_substitute_says_who_answers_for_it() -> None:
    """The substitute is an assumption with its author on the days named, and nothing elsewhere."""
    used = with_holes().context().reading("FT-1", "feed")
    instead = substitute_of(used)

    named = [place for place in range(365) if instead.origin(place) is not None]

    assert named == [9, 10, 11]
    origin = instead.origin(10)
    assert isinstance(origin, Assumption)
    assert origin.who == AUTHOR["author"]
    assert origin.why == AUTHOR["why"]
    assert np.isnan(np.delete(instead.values, named)).all()


def test_a_meter_without_substitutes_is_its_reading() -> None:
    """Readings that nobody substitutes are a leaf whose every value names its cell."""
    made = HandMade()
    made.meter("FT-1", "Nm3", READ, "daily")
    made.stream("feed", "feed", "FT-1")

    row = made.context().reading("FT-1", "feed")

    assert row.is_leaf
    assert all(isinstance(row.origin(place), Reading) for place in range(365))


def test_a_meter_is_one_row_however_often_it_is_asked_for() -> None:
    """Two streams on one meter share one reading, so that its error is theirs in common."""
    context = with_holes().context()

    assert context.reading("FT-1", "feed") is context.reading("FT-1", "feed gas")


def test_a_substitute_of_a_month_counts_for_the_month() -> None:
    """A monthly meter takes the substitute of the span that holds the first of the month."""
    values = np.full(12, READ)
    values[2] = np.nan
    made = HandMade()
    made.meter("EM-1", "MWh", list(values))
    span = {"first_day": date(2025, 3, 1), "last_day": date(2025, 3, 31)}
    made.substitutes.append({"meter": "EM-1", "value": INSTEAD, **span, **AUTHOR})
    made.stream("power", "power bought", "EM-1")

    used = made.context().reading("EM-1", "power")

    assert used.values[2] == INSTEAD
    assert np.sum(used.values == READ) == 11


def test_days_are_summed_to_months() -> None:
    """A daily row of 1 gives the number of days in each month of 2025."""
    made = HandMade()
    made.meter("FT-1", "Nm3", 1.0, "daily")
    made.stream("feed", "feed", "FT-1")
    context = made.context()

    summed = context.by_month(context.reading("FT-1", "feed"), "key", "feed")

    assert list(summed.values) == [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]
    assert summed.axis == CALENDAR.months


def test_tickets_are_summed_to_the_month_of_their_day() -> None:
    """Two tickets of one day and one of another month are added where they belong."""
    days = (date(2025, 1, 31), date(2025, 1, 31), date(2025, 3, 1))
    made = HandMade()
    made.meter("WB-1", "t_CO2", [10.0, 5.0, 7.0], "tickets", days)
    made.stream("CO2 sold", "CO2 sold", "WB-1")
    context = made.context()

    summed = context.by_month(context.reading("WB-1", "CO2 sold"), "key", "CO2 sold")

    assert list(summed.values) == [15, 0, 7, *[0] * 9]


def test_a_monthly_row_is_named_again_and_stays_one_reading() -> None:
    """A row by month is referred to, not added up."""
    made = HandMade()
    made.meter("EM-1", "MWh", list(DAYS_IN_MONTH))
    made.stream("power", "power bought", "EM-1")
    context = made.context()
    read = context.reading("EM-1", "power")

    again = context.by_month(read, "key", "power")

    assert again.op == "="
    assert again.args == (read,)


def test_the_figure_of_the_year_is_made_once() -> None:
    """The sum over the months has the key of the months and /year, and is one row on every call."""
    made = HandMade()
    made.meter("FT-1", "Nm3", 1.0, "daily")
    made.stream("feed", "feed", "FT-1")
    context = made.context()
    months = context.by_month(context.reading("FT-1", "feed"), "works/feed/volume/read", "feed")

    year = context.year(months)

    assert context.year(months) is year
    assert context.line(months).year is year
    assert year.key == "works/feed/volume/read/year"
    assert year.values == pytest.approx([365.0])
