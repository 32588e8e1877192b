"""Holes in the readings of a meter, filled by each method as live rows."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from footprint.base.row import Row, ancestry
from footprint.measure import measure
from footprint.measure.gap_places import windows
from tests.sites.daily_works import SIZE, daily_works, gap, place
from tests.sites.hand_made import HandMade, factors

FIRST, LAST = date(2025, 3, 4), date(2025, 3, 6)


def with_hole(first: date = FIRST, last: date = LAST) -> HandMade:
    """Return a works whose feed meter has no readings on some days."""
    made = daily_works()
    made.series["FT-1"].values[place(first) : place(last) + 1] = np.nan
    return made


def used(made: HandMade) -> Row:
    """Return the readings of the feed meter as they are used."""
    measured, _ = measure(made.readings(), factors())
    return measured.context.made["reading/FT-1"]


def test_neighbours_fill_a_hole_with_their_mean() -> None:
    """Three missing days get the mean of the three readings before and the three after."""
    made = with_hole()
    made.gaps.append(gap("neighbouring periods", FIRST, LAST))
    at, values = place(FIRST), made.series["FT-1"].values.copy()

    row = used(made)

    expected = (values[at - 3 : at].sum() + values[at + 3 : at + 6].sum()) / 6
    assert row.values[at : at + 3] == pytest.approx([expected] * 3)
    assert row.values[:at] == pytest.approx(values[:at])
    assert not np.isnan(row.values).any()


def test_each_hole_has_its_own_neighbours() -> None:
    """One entry that covers two holes fills each from the readings around it."""
    made = with_hole()
    made.series["FT-1"].values[place(date(2025, 3, 20))] = np.nan
    made.gaps.append(gap("neighbouring periods", FIRST, date(2025, 3, 31)))
    at, values = place(date(2025, 3, 20)), made.series["FT-1"].values.copy()

    row = used(made)

    assert row.values[at] == pytest.approx((values[at - 1] + values[at + 1]) / 2)


def test_at_the_end_of_the_year_the_other_side_counts_alone() -> None:
    """A hole on the last days is the mean of the days before it."""
    made = with_hole(date(2025, 12, 30), date(2025, 12, 31))
    made.gaps.append(gap("neighbouring periods", date(2025, 12, 30), date(2025, 12, 31)))
    values = made.series["FT-1"].values.copy()

    row = used(made)

    assert row.values[-2:] == pytest.approx([values[-4:-2].mean()] * 2)


def test_windows_stop_at_other_holes() -> None:
    """Readings beyond a second hole are no neighbours."""
    values = np.array([1.0, np.nan, 3.0, np.nan, np.nan, 6.0, 7.0])

    before, after = windows(values, (3, 4))

    assert (before, after) == ((2, 3), (5, 7))


@pytest.mark.parametrize("method", ["redundant meter", "production"])
def test_another_meter_fills_a_hole_by_the_ratio_of_both(method: str) -> None:
    """The other meter's reading times the ratio of the sums over the days on which both read."""
    made = with_hole()
    made.series["WB-3"].values[10] = np.nan
    made.gaps.append(gap(method, FIRST, LAST, other_meter="WB-3"))
    feed, ammonia = made.series["FT-1"].values.copy(), made.series["WB-3"].values
    both = ~np.isnan(feed) & ~np.isnan(ammonia)

    row = used(made)

    at = slice(place(FIRST), place(LAST) + 1)
    rate = feed[both].sum() / ammonia[both].sum()
    assert row.values[at] == pytest.approx(ammonia[at] * rate)


def test_a_stated_value_fills_a_hole() -> None:
    """A conservative value stands on each missing day, with its author as origin."""
    made = with_hole()
    made.gaps.append(gap("conservative value", FIRST, LAST, value=650_000.0))

    row = used(made)

    authors = [
        origin.words
        for leaf in ancestry([row])
        for origin in leaf.origins
        if origin is not None and "A. Nobody" in origin.words
    ]
    assert list(row.values[place(FIRST) : place(LAST) + 1]) == [650_000.0] * 3
    assert authors[0] == "A. Nobody, 2025-04-01: transmitter failed"


def test_two_methods_fill_two_holes_of_one_meter() -> None:
    """Each entry fills its own days, and a day that is filled stays as it is."""
    made = with_hole()
    other = date(2025, 8, 1)
    made.series["FT-1"].values[place(other)] = np.nan
    made.gaps.append(gap("conservative value", FIRST, LAST, value=650_000.0))
    made.gaps.append(gap("neighbouring periods", date(2025, 1, 1), date(2025, 12, 31)))

    row = used(made)

    assert row.values[place(FIRST)] == 650_000.0
    assert 500_000 < row.values[place(other)] < 700_000
    assert row.values.shape == (SIZE,)
