from __future__ import annotations

import numpy as np
import pytest

from footprint.base.formulas import choose, is_read, ratio, rounded
from footprint.base.row import step
from footprint.base.units import unit
from footprint.report.cells import shown
from footprint.report.looks import factor_format, number_format
from footprint.report.words import formula_in_words, in_figures, published_decimals
from tests.base.rows import factor, read

MISSING = float("nan")


def test_a_formula_is_told_in_words() -> None:
    """Names stand in place of cells, and a hyphen inside a name is no minus."""
    gas, other = read([1, 2, 3, 4], words="let-down gas"), read([1, 2, 3, 4], words="purge gas")
    made = step((gas - other) / (gas + other), "k", "made", "b")

    assert formula_in_words(made) == "(let-down gas − purge gas) ÷ (let-down gas + purge gas)"


def test_words_inside_a_formula_stay_as_they_are() -> None:
    """Text that a formula shows is not read as signs of arithmetic."""
    rate = step(
        ratio(read([1, 2, 3, 4]), read([1, 2, 3, 4], words="made"), "no-load, 1/2"),
        "k",
        "rate",
        "b",
    )

    assert formula_in_words(rate) == 'if(made = 0; "no-load, 1/2"; feed gas ÷ made)'


def test_a_substitute_is_told_in_words() -> None:
    """The choice between reading and substitute reads as a sentence."""
    reading, instead = read([1, 2, 3, 4]), read([5, 6, 7, 8], words="substitute")
    used = step(choose(is_read(reading), reading, instead), "k", "used", "b")

    assert formula_in_words(used) == "if(is read(feed gas); feed gas; substitute)"


@pytest.mark.parametrize(
    ("values", "unit_name", "words", "expected"),
    [
        ([52341.7, 48000.2, 1.0, 2.0], "t_CO2", "CO2", "#,##0"),
        ([30.75, 31.2, 29.9, 28.1], "GJ_net/t_NH3", "energy by tonne", "#,##0.00"),
        ([0.0123456, 0.02, 0.011, 0.015], "t_CO2/t_NH3", "rate", "#,##0.00000"),
        ([1.5e6, 2e6, 1e6, 1e6], "Nm3", "volume", "#,##0"),
        ([0.912, 0.9, 0.91, 0.92], "", "share of feed", "0.0%"),
        ([1, 0, 1, 1], "", "share is judged", "#,##0"),
        ([12.5, 3.25, 8.0, 1.0], "tonne", "losses", "#,##0.00"),
        ([3, 1, 0, 2], "start", "starts", "#,##0"),
    ],
)
def test_figures_show_the_digits_that_mean_something(
    values: list[float], unit_name: str, words: str, expected: str
) -> None:
    """Tonnes and volumes are whole, rates have two decimals or four digits, shares are per cent."""
    made = step(read(values, unit_name), f"u/x/{words}/made", words, "b")

    assert number_format(made) == expected


@pytest.mark.parametrize(
    ("value", "expected"),
    [
        (16.04246, "#,##0.00000"),
        (273.15, "#,##0.00"),
        (265.0, "#,##0"),
        (1e-9, "0E+00"),
        (5.6704e-8, "0.0000E+00"),
    ],
)
def test_factors_show_all_their_published_digits(value: float, expected: str) -> None:
    """No digit of a factor is hidden by its format."""
    assert factor_format(value) == expected


def test_published_decimals_are_counted() -> None:
    """Decimals are those of the shortest text of the number."""
    assert [published_decimals(value) for value in (44.0095, 12.0, 0.1, 1e-5, 1500.0)] == [
        4,
        0,
        1,
        5,
        0,
    ]


def test_figures_in_print_have_gaps_at_the_thousands() -> None:
    """Thousands stand apart, a zero has no sign, words stand where there is no number."""
    row = step(read([-0.0, 1234567.0, 2e6, MISSING], "t_CO2"), "k", "CO2", "b")

    assert [in_figures(row, value) for value in row.values] == [
        "0",
        "1 234 567",
        "2 000 000",
        "cannot be given",
    ]


def test_cells_show_words_where_a_formula_has_no_number() -> None:
    """No data, no production, cannot be given: each cell says why it has no number."""
    reading = read([1, MISSING, 3, 4], "t_CO2")
    made = read([1, 1, 0, 4], "t_NH3", words="ammonia")
    rate = step(ratio(reading, made), "k", "rate", "b")
    again = step(rate, "k2", "again", "b")
    twice = step(rate + rate, "k3", "twice", "b")

    assert [shown(reading, place) for place in range(4)] == [1, "no data", 3, 4]
    assert [shown(rate, place) for place in range(4)] == [1, None, "no production", 1]
    assert [shown(again, place) for place in range(4)] == [1, "cannot be given", "no production", 1]
    assert [shown(twice, place) for place in range(4)] == [2, None, None, 2]


def test_a_number_too_large_for_a_cell_cannot_be_given() -> None:
    """An overflow is words, as it is an error in the spreadsheet."""
    with np.errstate(over="ignore"):
        huge = step(read([1e200, 1, 1, 1]) * read([1e200, 1, 1, 1], words="other"), "k", "w", "b")

    assert [shown(huge, place) for place in range(2)] == [None, 1]


def test_a_filed_figure_is_told_as_rounded() -> None:
    """Rounding is said in the words of the formula."""
    filed = step(rounded(factor(2.5, "t_CO2") / 1, 0), "k", "filed", "b")

    assert formula_in_words(filed) == "rounded(factor ÷ 1; 0)"
    assert filed.unit == unit("t_CO2")
    assert np.all(filed.values == 3)
