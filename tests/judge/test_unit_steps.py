"""Steps by the factor of a known confusion of units."""

from __future__ import annotations

from datetime import date

import pytest

from tests.sites.daily_works import SIZE, daily_works, found, place

CODE = "unit-may-have-changed"
DAY = date(2025, 5, 1)
FACTORS = [
    # temperatures of the reference conditions: definition
    (288.15 / 273.15, "15 °C taken for 0 °C"),
    (273.15 / 288.15, "15 °C taken for 0 °C"),
    (293.15 / 273.15, "20 °C taken for 0 °C"),
    # 3600 seconds in an hour: definition of the watt hour
    (3.6, "gigajoules taken for megawatt hours"),
    (1000.0, "a unit taken for its thousandfold"),
    # 1 foot = 0.3048 m: definition of the international foot
    (0.3048**-3, "cubic feet taken for cubic metres"),
]


@pytest.mark.parametrize(("factor", "words"), FACTORS)
def test_a_step_that_lasts_names_first_cell_and_confusion(factor: float, words: str) -> None:
    """From the first of May on the feed reads in another unit: told once, not as a jump as well."""
    made = daily_works()
    made.series["FT-1"].values[place(DAY) :] *= factor

    (told,) = found(made, CODE)

    assert told.level == "warn"
    assert told.where.cell == f"B{place(DAY) + 2}:B{SIZE + 1}"
    assert words in told.why
    assert "without the step" in told.why
    assert found(made, "jumping-reading") == []


def test_a_step_that_is_taken_back_ends_there() -> None:
    """Two months in another unit are one finding with the cells of these months."""
    made = daily_works()
    end = place(date(2025, 7, 1))
    made.series["FT-1"].values[place(DAY) : end] *= 288.15 / 273.15

    (told,) = found(made, CODE)

    assert told.where.cell == f"B{place(DAY) + 2}:B{end + 1}"


@pytest.mark.parametrize("factor", [1.0, 1.02, 1.2, 2.0])
def test_a_step_of_no_known_factor_is_not_told(factor: float) -> None:
    """Other factors are a change of the process or of the meter, not of the unit."""
    made = daily_works()
    made.series["FT-1"].values[place(DAY) :] *= factor

    assert found(made, CODE) == []


def test_a_change_of_load_is_not_told() -> None:
    """Feed, fuel and ammonia that rise together by 5.5 % are a change of load."""
    made = daily_works()
    for tag in ("FT-1", "FT-2", "WB-3"):
        made.series[tag].values[place(DAY) :] *= 288.15 / 273.15

    assert found(made, CODE) == []


def test_three_days_are_no_change_of_unit() -> None:
    """What does not last is not told as a change of unit."""
    made = daily_works()
    made.series["FT-1"].values[place(DAY) : place(DAY) + 3] *= 288.15 / 273.15

    assert found(made, CODE) == []
