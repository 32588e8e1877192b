from __future__ import annotations

import numpy as np
import pytest

from footprint.base.axis import Axis
from footprint.base.formulas import (
    absolute,
    choose,
    count,
    dot,
    frozen,
    given,
    in_words,
    is_read,
    largest,
    pick,
    ratio,
    rounded,
    smallest,
    span,
    total,
)
from footprint.base.row import AxisMismatchError, Row, ancestry, apply, evaluate, leaf, step
from footprint.base.units import NONE, unit
from tests.base.rows import DAYS, QUARTERS, factor, read

MISSING = float("nan")


def test_a_row_has_no_truth_value() -> None:
    """A Python branch on a row's data is refused, and the way out is named."""
    with pytest.raises(TypeError, match="choose"):
        bool(read([1, 2, 3, 4]) > factor(2, "tonne"))


def test_a_row_is_no_number() -> None:
    """Bare arithmetic would lose the derivation, so a row refuses to become a float."""
    with pytest.raises(TypeError, match="no single number"):
        float(factor(1.0))  # type: ignore[arg-type]  # that is what is refused


@pytest.mark.parametrize("number", [44 / 12, 0.95, 3.6])
def test_a_number_without_a_source_is_refused(number: float) -> None:
    """Only 0, 1, 12 and powers of ten may stand in a formula; others need a source."""
    with pytest.raises(ValueError, match="needs a name and a source"):
        read([1, 2, 3, 4]) * number


def test_rows_over_different_periods_do_not_meet() -> None:
    """Months and days meet only through pick, span and dot; the refusal names both."""
    daily = read(range(8), axis=DAYS, words="flow")

    with pytest.raises(AxisMismatchError, match=r"months .*days of feed"):
        read([1, 2, 3, 4]) + daily


def test_single_values_spread_over_the_months() -> None:
    """A row with one value joins a row over months period by period."""
    share = read([10, 20, 30, 40]) * factor(0.5)

    assert share.axis == QUARTERS
    assert share.values.tolist() == [5, 10, 15, 20]


@pytest.mark.parametrize(
    ("value", "digits", "expected"),
    [
        (2.5, 0, 3.0),
        (-2.5, 0, -3.0),
        (1.005, 2, 1.01),
        (0.5, 0, 1.0),
        (1234.5, -2, 1200.0),
        (2.675, 2, 2.68),
    ],
)
def test_rounding_is_half_away_from_zero(value: float, digits: int, expected: float) -> None:
    """Rounding follows the spreadsheet's rule on fifteen digits, not Python's.

    Source: ROUND(2.5,0) = 3 and ROUND(1.005,2) = 1.01 in two spreadsheet programs (measured)
    """
    assert rounded(factor(value), digits).values.tolist() == [expected]


def test_rounding_to_more_digits_than_a_number_has_changes_nothing() -> None:
    """A large number rounded to many decimals stays as it is."""
    assert rounded(factor(123456789012345678.0), 12).values.tolist() == [123456789012345678.0]


def test_a_missing_reading_is_replaced_only_where_it_is_missing() -> None:
    """The substitute is taken where there is no reading, and nowhere else."""
    reading, instead = read([1, MISSING, 3, 4]), read([9, 9, 9, MISSING], words="substitute")

    used = choose(is_read(reading), reading, instead)

    assert used.values.tolist() == [1, 9, 3, 4]


def test_a_missing_reading_makes_what_needs_it_missing() -> None:
    """No sum, comparison or choice turns a missing reading into a number."""
    reading = read([1, MISSING, 3, 4])

    assert np.isnan((reading + 1 * reading).values).tolist() == [False, True, False, False]
    assert np.isnan(total(step(reading, "k", "w", "b")).values).tolist() == [True]
    assert np.isnan((reading > factor(2, "tonne")).values).tolist() == [False, True, False, False]
    assert np.isnan(choose(reading > 0, reading, reading).values).tolist() == [
        False,
        True,
        False,
        False,
    ]
    assert np.isnan(given(reading > 0, reading, "none").values).tolist() == [
        False,
        True,
        False,
        False,
    ]
    assert np.isnan(smallest(reading, largest(reading, absolute(reading))).values).sum() == 1


def test_logic_with_a_missing_operand_is_missing_only_where_it_matters() -> None:
    """A false operand decides AND, a true one decides OR, whatever the missing one is."""
    known, missing = read([0, 1, 0, 1], ""), read([MISSING] * 4, "", words="missing")

    both, either = apply("AND", known, missing).values, apply("OR", known, missing).values

    assert both.tolist()[0::2] == [0, 0]
    assert np.isnan(both[1::2]).all()
    assert either.tolist()[1::2] == [1, 1]
    assert np.isnan(either[0::2]).all()


def test_nothing_below_the_line_gives_no_number() -> None:
    """A month without production has no figure by tonne, and a plain quotient does not raise."""
    produced = read([10, 0, 30, 40], "t_NH3", words="ammonia")

    rate = ratio(read([1, 2, 3, 4], "t_CO2"), produced)

    assert np.isnan(rate.values).tolist() == [False, True, False, False]
    assert np.isnan((read([1, 2, 3, 4]) / produced).values).tolist() == [False, True, False, False]


def test_days_are_summed_picked_counted_and_weighted_by_month() -> None:
    """Operations across axes take the places that dates fix."""
    months = Axis("months", ("2025-01", "2025-02"))
    flow = read([1, 2, 3, 4, 5, 6, 7, MISSING], axis=DAYS, words="flow")
    share = read([0.5] * 8, "", axis=DAYS, words="share")
    spans = [(0, 4), (4, 7)]

    assert span(flow, spans, months).values.tolist() == [10, 18]
    assert dot(flow, share, spans, months).values.tolist() == [5, 9]
    assert pick(flow, [3, 6], months).values.tolist() == [4, 7]
    assert count(flow, [(0, 4), (4, 8)], months).values.tolist() == [4, 3]


def test_naming_a_reading_makes_a_row_that_refers_to_it() -> None:
    """A named copy of a reading is no second reading."""
    reading = read([1, 2, 3, 4])

    named = step(reading, "test/again", "again", "as read")

    assert named.op == "="
    assert named.args == (reading,)
    assert step(2.5, "k", "w", "b") == 2.5


def test_equal_readings_are_two_readings() -> None:
    """Rows compare by identity, so two meters that show the same are told apart."""
    assert read([1, 2, 3, 4]) != read([1, 2, 3, 4])


def test_ancestry_puts_every_row_after_its_operands() -> None:
    """The order of rows allows writing and evaluating from first to last."""
    feed = read([1, 2, 3, 4])
    carbon = step(feed * factor(0.7), "c", "carbon", "b")
    top = step(carbon + feed, "t", "top", "b")

    order = ancestry([top])

    assert all(order.index(arg) < order.index(row) for row in order for arg in row.args)
    assert len(order) == len(set(order))


def test_evaluation_on_draws_equals_evaluation_one_by_one() -> None:
    """The same tree on (draws, periods) arrays gives what it gives on each draw alone."""
    daily, monthly = read(range(1, 9), axis=DAYS, words="flow"), read([3, 1, 2, 5])
    price = factor(2.0)
    summed = step(span(daily, [(0, 2), (2, 4), (4, 6), (6, 8)], QUARTERS), "s", "summed", "b")
    top = step(
        total(step(ratio(summed * price - monthly, monthly), "r", "rate", "b")), "t", "top", "b"
    )
    rng = np.random.default_rng(1)
    draws = {
        row: row.values * rng.normal(1, 0.1, (50, row.values.size))
        for row in (daily, monthly, price)
    }

    (together,) = evaluate([top], draws)
    alone = [
        evaluate([top], {row: drawn[[i]] for row, drawn in draws.items()})[0][0] for i in range(50)
    ]

    assert together.shape == (50, 1)
    assert np.allclose(together, alone, rtol=1e-14)


def test_evaluation_without_changes_gives_the_row_itself() -> None:
    """With nothing given, the tree gives its own values."""
    top = step(read([1, 2, 3, 4]) * factor(2.0), "t", "top", "b")

    assert evaluate([top], {})[0].tolist() == top.values.tolist()


def iterated(row: Row) -> Row:
    """Return the root of a number by iteration, as a frozen row."""

    def root(value: np.ndarray) -> np.ndarray:
        guess = np.maximum(value, 1.0)
        for _ in range(60):
            guess = (guess + value / guess) / 2
        return guess

    return frozen(
        root, NONE, row, key="test/root/iterated", words="root", method="Heron's iteration"
    )


def test_an_iterated_value_is_rounded_and_evaluated_again() -> None:
    """A frozen row holds twelve digits, and other operands give another value."""
    row = read([2, 9, 16, 25], "")

    root = iterated(row)
    (again,) = evaluate([root], {row: np.array([4.0, 1.0, 100.0, 49.0])})

    assert root.values.tolist() == [float(f"{2**0.5:.12g}"), 3, 4, 5]
    assert again.tolist() == [2, 1, 10, 7]


def test_an_iterated_value_has_one_result_a_period() -> None:
    """A frozen row over months that gives a single number is refused: its slopes would be wrong."""
    with pytest.raises(ValueError, match="one result a period"):
        frozen(
            lambda a: a.sum(-1, keepdims=True),
            NONE,
            read([1, 2, 3, 4], ""),
            key="k",
            words="w",
            method="m",
        )


def test_words_keep_their_numbers() -> None:
    """A row shown as words stays a number for judging."""
    assert in_words(read([0, 1, 1, 0], ""), "PASS", "OPEN").values.tolist() == [0, 1, 1, 0]


def test_a_leaf_needs_a_value_and_an_origin_a_period() -> None:
    """Too few values or origins is our own mistake and refused at once."""
    with pytest.raises(ValueError, match="3 values"):
        leaf([1, 2, 3], unit("tonne"), QUARTERS, key="k", words="w", origins=[None])
