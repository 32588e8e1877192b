from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from uncertainties import ufloat, umath

from footprint.base.formulas import (
    absolute,
    block_product,
    block_sum,
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
    square_root,
    total,
)
from footprint.base.operations import OPERATIONS
from footprint.base.row import Row, apply, evaluate, step
from footprint.base.slopes import slopes, standard_uncertainty, variances
from footprint.base.units import NONE
from tests.base.rows import DAYS, QUARTERS, factor, read, scattered, sure

A, B, C = (
    read([3, 5, 7, 9], "", words="a"),
    read([2, 4, 8, 6], "", words="b"),
    factor(1.5, words="c"),
)
D, E = (
    read([1, 2, 3, 4, 5, 6, 7, 8], "", axis=DAYS, words="d"),
    read([2] * 8, "", axis=DAYS, words="e"),
)
SPANS = [(0, 2), (2, 5), (5, 6), (6, 8)]
CASES: dict[str, Callable[[], Row]] = {
    "=": lambda: step(A, "again", "again", "b"),
    "+": lambda: A + B * C,
    "-": lambda: A - B * C,
    "*": lambda: A * B * C,
    "/": lambda: A / (B * C),
    "RATIO": lambda: ratio(A, B + C),
    "NEGATIVE": lambda: -(A * C),
    "POWER": lambda: (A * C) ** 2.5,
    "SQRT": lambda: square_root(A * C),
    "ABS": lambda: absolute(B - A),
    "SUM": lambda: apply("SUM", A, B, A * C),
    "MIN": lambda: smallest(A, B * C * C),
    "MAX": lambda: largest(A, B * C * C),
    "CHOOSE": lambda: choose(A > B, A * C, B),
    "GIVEN": lambda: given(A > 0, A * C, "none"),
    "SUMPRODUCT": lambda: block_product([A, B], [C, A]),
    "BLOCK_SUM": lambda: block_sum([A, B, A]),
    "TOTAL": lambda: total(A * C),
    "PICK": lambda: pick(D, [7, 0, 3, 3], QUARTERS),
    "SPAN": lambda: span(D, SPANS, QUARTERS),
    "DOT": lambda: dot(D, E, SPANS, QUARTERS),
    "FROZEN": lambda: frozen(
        lambda a, c: np.exp(a / 10) * c, NONE, A, C, key="f", words="f", method="trial"
    ),
    "ROUND": lambda: rounded(A * C, 0),
}
FLAT = {"<", "<=", ">", ">=", "AND", "OR", "IS_READ", "WORDS", "COUNT"}


def central_difference(top: Row, index: int, leaf: Row, place: int) -> float:
    """Return the slope of one cell by moving one value of one leaf up and down."""
    step_size = 1e-5 * max(1.0, abs(leaf.values[place]))
    ends = []
    for sign in (1, -1):
        moved = leaf.values.astype(float).copy()
        moved[place] += sign * step_size
        ends.append(evaluate([top], {leaf: moved})[0][index])
    return float((ends[0] - ends[1]) / (2 * step_size))


@pytest.mark.parametrize("name", sorted(set(CASES) - {"ROUND"}))
def test_slopes_equal_central_differences(name: str) -> None:
    """The slope of every operation is what moving an operand a little shows."""
    top = CASES[name]()

    for index in range(top.values.size):
        for leaf, slope in slopes(top, index).items():
            expected = [
                central_difference(top, index, leaf, place) for place in range(leaf.values.size)
            ]
            assert slope == pytest.approx(
                expected, rel=2e-4 if name == "FROZEN" else 1e-6, abs=1e-7
            )


def test_rounding_counts_as_no_rounding() -> None:
    """A rounded figure has the slope of the figure before rounding."""
    (slope,) = (slope for row, slope in slopes(CASES["ROUND"](), 1).items() if row is A)

    assert slope.tolist() == [0, 1.5, 0, 0]


def test_every_operation_has_a_slope_that_is_tried() -> None:
    """No operation is left out of these tests."""
    assert set(CASES) | FLAT == set(OPERATIONS)


@pytest.mark.parametrize(
    "top",
    [A > B, A <= B, apply("AND", A > B, B > C), is_read(A), in_words(A > B, "no", "yes"),
     count(D, SPANS, QUARTERS)],
)  # fmt: skip
def test_what_jumps_has_no_slope(top: Row) -> None:
    """Comparisons, flags, words and counts do not move with small errors."""
    assert all(not slope.any() for slope in slopes(top, 1).values())


def test_a_masked_reading_pulls_nothing() -> None:
    """Where a substitute stands in for a missing reading, only the substitute has a slope."""
    reading = read([1, float("nan"), 3, 4], "", words="with a hole")
    used = choose(is_read(reading), reading, B) * C

    found = slopes(used, 1)

    assert found[reading].tolist() == [0, 0, 0, 0]
    assert found[B].tolist() == [0, 1.5, 0, 0]
    assert found[C].tolist() == [4]


def test_uncertainty_equals_that_of_an_independent_library() -> None:
    """First-order uncertainty equals that of the package uncertainties."""
    volume = read([900, 950, 870, 910], "", words="volume", errors=scattered(9.0))
    carbon = factor(0.73, words="carbon").replaced(errors=tuple(sure(0.004, 1)))
    other = read([100, 101, 99, 100], "", words="other", errors=scattered(2.0))
    made = step(volume * carbon - square_root(other), "made", "made", "b")
    top = ratio(made, largest(other, volume))

    shift = ufloat(0, 1.0)  # volume and other name one cause, so they move together
    metered, beside = 950 + 9.0 * shift, 101 + 2.0 * shift
    expected = (metered * ufloat(0.73, 0.004) - umath.sqrt(beside)) / metered

    assert standard_uncertainty(top, 1) == pytest.approx(expected.std_dev, rel=1e-9)


def test_a_row_less_itself_is_certain() -> None:
    """One meter used twice is fully correlated with itself."""
    row = read([10, 20, 30, 40], errors=sure(0.5))

    assert standard_uncertainty(step(row, "again", "again", "b") - row, 2) == 0


def test_rows_that_share_a_cause_move_together() -> None:
    """Two meters with one calibration differ by nothing, and their sum is twice as unsure."""
    first, second = (
        read([10] * 4, errors=sure(0.5)),
        read([10] * 4, words="other", errors=sure(0.5)),
    )

    assert standard_uncertainty(first - second) == 0
    assert standard_uncertainty(first + second) == pytest.approx(1.0)


def test_shared_errors_add_and_scattered_ones_add_in_squares() -> None:
    """Over four months a shared error grows fourfold, an independent one twofold.

    Source: JCGM 100:2008, clause 5.2 (from memory)
    """
    alike = step(read([10] * 4, errors=sure(0.5)), "k", "w", "b")
    apart = step(read([10] * 4, errors=scattered(0.5)), "k", "w", "b")

    assert standard_uncertainty(total(alike)) == pytest.approx(2.0)
    assert standard_uncertainty(total(apart)) == pytest.approx(1.0)


def test_variances_name_their_causes() -> None:
    """Each cause's part of the variance is told, and the parts add up."""
    row = read([10, 20, 30, 40], errors=[*sure(0.3), *scattered(0.4)])

    parts = variances(row, 0)

    assert parts == pytest.approx({"meter FT-1/calibration": 0.09, "meter FT-1/reading": 0.16})
    assert standard_uncertainty(row, 0) == pytest.approx(math.sqrt(0.25))
