"""Rows of meters that count no amounts: each follows its readings when they change."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from footprint.base.row import Row, ancestry, evaluate
from footprint.base.source import Reading
from footprint.base.units import unit
from footprint.read.readings import Basis, Bills, Dips, Indexes, Listed, Weights
from tests.sites.hand_made import CALENDAR, DAYS_IN_MONTH, HandMade

INDEX = np.array([1000.0 + 10 * place for place in range(13)])
SOMEBODY = {"author": "N. Body", "why": "meter was out", "when": date(2025, 2, 1)}


def listed(values: NDArray[np.float64] | list[float]) -> Listed:
    """Return numbers with a cell for each."""
    cells = (Reading("hand.xlsx", "Log", f"B{place}", "read") for place in range(len(values)))
    return Listed(np.asarray(values, dtype=float), tuple(cells))


def made_with(basis: Basis, values: Any, rows: str = "monthly", **keys: Any) -> HandMade:
    """Return a works with one meter whose amounts follow from what is written."""
    made = HandMade()
    dates = keys.pop("dates", ())
    made.meter("M", keys.pop("unit_name", "MWh"), values, rows, dates, **keys)
    made.series["M"] = replace(made.series["M"], basis=basis)
    return made


def indexes(
    index: NDArray[np.float64] = INDEX, exchange: tuple[float, float] = (0.0, 0.0)
) -> Indexes:
    """Return an index by month; the exchange of a meter lies in May."""
    spans = tuple((place, place + 1) for place in range(12))
    removed, fitted = np.zeros(12), np.zeros(12)
    removed[4], fitted[4] = exchange
    return Indexes(listed(index), spans, removed, fitted, np.ones(12))


def leaf_of(row: Row, words: str) -> Row:
    """Return the reading behind a row that holds some words in its key."""
    return next(one for one in ancestry([row]) if one.is_leaf and words in one.key)


def amount(made: HandMade) -> Row:
    """Return the amounts of the meter."""
    made.stream("power", "power bought", "M")
    return made.context().reading("M", "power")


def test_amount_of_an_index_is_its_growth_times_the_factor() -> None:
    """Each month has what the index grew by, times the factor of the certificate."""
    row = amount(made_with(indexes(), 10.0, counts="index", index={"factor": 2.5}))

    assert row.values.tolist() == [25.0] * 12
    assert row.axis == CALENDAR.months


def test_changed_index_moves_two_months_and_not_the_year() -> None:
    """An index belongs to the month before it and the one after: a change moves both, live."""
    row = amount(made_with(indexes(), 10.0, counts="index"))
    read = leaf_of(row, "index/as read")
    other = read.values.copy()
    other[3] += 4.0

    (found,) = evaluate([row], {read: other})

    assert (found - row.values).tolist() == [0, 0, 4, -4, 0, 0, 0, 0, 0, 0, 0, 0]


def test_index_that_passes_zero_counts_across_it_live() -> None:
    """Wherever the index falls, the range of the meter is added by the formula itself."""
    row = amount(made_with(indexes(), 10.0, counts="index", index={"rolls_over_at": 1050.0}))
    read = leaf_of(row, "index/as read")

    (found,) = evaluate([row], {read: INDEX % 1050.0})

    assert found.tolist() == [10.0] * 12


def test_exchange_counts_up_to_the_one_meter_and_on_from_the_other() -> None:
    """In the month of an exchange both meters count: to the closing, from the opening index."""
    index = np.where(np.arange(13) > 4, INDEX - 1044.0, INDEX)

    row = amount(made_with(indexes(index, (1044.0, 0.0)), 10.0, counts="index"))

    assert row.values.tolist() == [10.0] * 12


def test_months_between_two_readings_share_their_growth_by_days() -> None:
    """Where the index of 1 March is missing, February and March share the growth by their days."""
    whole = indexes()
    index, shares = INDEX.copy(), np.ones(12)
    index[2], shares[1], shares[2] = np.nan, 28 / 59, 31 / 59
    spans = (*whole.spans[:1], (1, 3), (1, 3), *whole.spans[3:])
    basis = replace(whole, index=listed(index), spans=spans, shares=shares)

    row = amount(made_with(basis, 10.0, counts="index"))

    assert row.values[1:3] == pytest.approx([20 * 28 / 59, 20 * 31 / 59])
    assert row.values.sum() == pytest.approx(120.0)


@pytest.mark.parametrize(
    ("stated", "leaf", "effect"),
    [("2 % (k=2)", "factor of the index", 0.01), ("2 MWh (k=2)", "index/as read", 1.0)],
)
def test_uncertainty_of_an_index_meter_lies_where_it_acts(
    stated: str, leaf: str, effect: float
) -> None:
    """A share of the reading is one of the factor; an absolute one shifts every index alike.

    Differences of readings that share an absolute error are free of it: JCGM 100:2008, F.1.2.3
    (from memory).
    """
    row = amount(made_with(indexes(), 10.0, counts="index", uncertainty=stated))

    errors = [one for one in ancestry([row]) if one.errors]

    assert [leaf in one.key for one in errors] == [True]
    assert np.all(errors[0].errors[0].size == effect)


def test_rate_is_multiplied_by_the_hours_of_its_month() -> None:
    """A mean rate of 2 t/h gives 1488 t in a month of 31 days."""
    made = HandMade()
    made.meter("M", "tonne/hour", 2.0, counts="rate")

    row = amount(made)

    assert row.unit == unit("tonne")
    assert row.values.tolist() == (2.0 * 24 * DAYS_IN_MONTH).tolist()


def test_rate_by_the_day_is_multiplied_by_days() -> None:
    """A mean rate of 48 t/d gives 48 t a day: the hours are turned into days first."""
    made = HandMade()
    made.meter("M", "tonne/day", 48.0, "daily", counts="rate")

    row = amount(made)

    assert row.values == pytest.approx(48.0)


def test_substitute_of_a_rate_is_a_rate() -> None:
    """A value put in place of a missing rate is a rate too, and is integrated like the others."""
    values = np.full(365, 2.0)
    values[10] = np.nan
    made = HandMade()
    made.meter("M", "tonne/hour", list(values), "daily", counts="rate")
    span = {"first_day": date(2025, 1, 11), "last_day": date(2025, 1, 11)}
    made.substitutes.append({"meter": "M", "value": 1.5, **span, **SOMEBODY})

    row = amount(made)

    assert row.values[9:12].tolist() == [48.0, 36.0, 48.0]


def test_net_weight_is_gross_less_tare() -> None:
    """Each ticket is its gross less its tare, both with their cells."""
    basis = Weights(listed([38.5, 40.0]), listed([14.0, 14.5]))
    days = (date(2025, 1, 3), date(2025, 2, 3))

    row = amount(made_with(basis, [24.5, 25.5], "tickets", dates=days))

    assert row.values.tolist() == [24.5, 25.5]
    assert leaf_of(row, "gross").origin(1) == Reading("hand.xlsx", "Log", "B1", "read")


def test_invoices_are_spread_over_the_days_of_their_periods() -> None:
    """Each month has its days' share of each invoice; what lies outside the year is left out."""
    first = (date(2024, 12, 22), date(2025, 1, 11))
    last = (date(2025, 1, 10), date(2025, 12, 31))
    basis = Bills(first, last, listed([200.0, 3550.0]))

    row = amount(made_with(basis, 310.0))

    assert row.values == pytest.approx(DAYS_IN_MONTH * 10.0)
    assert row.axis == CALENDAR.months


def test_changed_invoice_moves_its_months() -> None:
    """An invoice of 59 days over two months moves both by their days when it is changed."""
    ends = (date(2025, 1, 1), date(2025, 3, 1))
    basis = Bills(ends, (date(2025, 2, 28), date(2025, 12, 31)), listed([590.0, 3060.0]))
    row = amount(made_with(basis, 310.0))
    read = leaf_of(row, "invoiced")

    (found,) = evaluate([row], {read: np.array([590.0 + 59.0, 3060.0])})

    assert (found - row.values)[:3] == pytest.approx([31.0, 28.0, 0.0])


def tank() -> Row:
    """Return what a tank holds that stands at 7 500 mm all year."""
    table = listed([0.0, 5000.0, 10000.0])
    levels, contents = listed([7500.0] * 13), listed([0.0, 4000.0, 9000.0])
    basis = Dips(levels, unit("mm"), table, contents, (1,) * 13)
    return amount(made_with(basis, 6500.0, "stock", unit_name="t_NH3"))


def test_content_lies_between_two_rows_of_the_table() -> None:
    """Half way between 4 000 t and 9 000 t lie 6 500 t; a level changed between them follows."""
    row = tank()
    level = leaf_of(row, "level/as read")

    (found,) = evaluate([row], {level: np.full(13, 6000.0)})

    assert row.values.tolist() == [6500.0] * 13
    assert found.tolist() == [5000.0] * 13


def test_level_that_leaves_its_rows_of_the_table_gives_no_figure() -> None:
    """A level typed over so that it leaves the two rows is shown as such, never extrapolated."""
    row = tank()
    level = leaf_of(row, "level/as read")

    (found,) = evaluate([row], {level: np.full(13, 4000.0)})

    assert np.isnan(found).all()
