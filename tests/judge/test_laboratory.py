"""Samples that repeat, that hold air, that lack what is usual, or that are too few."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest

from footprint.base.finding import Finding
from footprint.judge import judge
from tests.sites.hand_made import CALENDAR, HandMade, plain_works

GAS = {
    "methane": [94.0 + month / 10 for month in range(12)],
    "ethane": [3.0 - month / 10 for month in range(12)],
    "nitrogen": 2.0,
    "carbon dioxide": 1.0,
    "oxygen": 0.0,
}


def works(gas: dict[str, float | list[float]], sampled: tuple[date, ...] = ()) -> HandMade:
    """Return the plain works with other analyses of its natural gas."""
    made = plain_works()
    made.analyses.clear()
    made.gas("natural gas", gas, sampled or CALENDAR.first_days)
    return made


def found(made: HandMade, code: str) -> list[Finding]:
    """Return what judging finds of one kind."""
    return [one for one in judge(made.account())[1] if one.code == code]


def test_good_samples_are_told_nothing_but_their_number() -> None:
    """Samples that differ, close and come monthly give one note on their frequency alone."""
    made = works(GAS)

    codes = {one.code for one in judge(made.account())[1] if not one.code.startswith("figure-")}
    (note,) = found(made, "sampling-frequency-not-prescribed")

    assert codes == {"sampling-frequency-not-prescribed"}
    assert note.level == "note"
    assert note.what == "samples a month: natural gas 1; IPCC 2006 prescribes no number"


def test_a_sample_that_repeats_the_one_before_is_told() -> None:
    """A certificate with the values of the month before in every component is told."""
    made = works(GAS)
    made.gases["natural gas"].values[5] = made.gases["natural gas"].values[4]

    (told,) = found(made, "sample-repeats-the-one-before")

    assert told.level == "warn"
    assert told.what.endswith("1 of 12 samples repeat the one before, first that of 2025-06-01")


def test_one_equal_component_is_no_repetition() -> None:
    """Samples that agree in one component and differ in another are two samples."""
    assert found(works(GAS), "sample-repeats-the-one-before") == []


@pytest.mark.parametrize("own", [0.0, 2.0])
def test_air_in_a_sample_is_recognised_and_not_taken_off(own: float) -> None:
    """Oxygen with nitrogen as in air, beside nitrogen of the gas or without, is told in per cent.

    Source: dry air holds 78.08 % nitrogen and 20.95 % oxygen by mole (from memory).
    """
    made = works({**GAS, "nitrogen": own})
    values = made.gases["natural gas"].values
    values[5, 2:5] = [own + 0.05 * 78.08, 1.0, 0.05 * 20.95]
    before = values.copy()

    (told,) = found(made, "air-in-sample")

    assert told.what.startswith('"natural gas", sample of 2025-06-01: 1.05 % oxygen')
    assert "about 5 % air" in told.what
    assert "% methane instead of 94.5 %" in told.why
    assert np.array_equal(values, before)


def test_oxygen_in_another_ratio_is_not_air() -> None:
    """Oxygen without the nitrogen of air comes from elsewhere."""
    made = works(GAS)
    made.gases["natural gas"].values[5, 4] = 1.0

    assert found(made, "air-in-sample") == []


@pytest.mark.parametrize("missing", ["nitrogen", "carbon dioxide"])
def test_a_natural_gas_without_a_usual_component_is_noted(missing: str) -> None:
    """A natural gas whose analyses have no column for nitrogen or CO2 is noted."""
    (told,) = found(
        works({name: share for name, share in GAS.items() if name != missing}),
        "usual-component-missing",
    )

    assert told.level == "note"
    assert told.what == f'"natural gas" has no column for {missing}'


def test_months_without_a_sample_are_named() -> None:
    """Months in which gas flowed and no sample was taken are a warning."""
    made = works(
        {"methane": [94.0, 95.0], "nitrogen": [4.0, 3.0], "carbon dioxide": 2.0},
        (date(2025, 1, 1), date(2025, 3, 1)),
    )

    (told,) = found(made, "month-without-sample")

    assert told.level == "warn"
    assert "has no sample in 2025-02, 2025-04" in told.what


def test_a_month_without_flow_needs_no_sample() -> None:
    """A month in which the gas did not flow is not asked for."""
    days = tuple(day for day in CALENDAR.first_days if day.month != 6)
    made = works({"methane": 94.0, "nitrogen": 4.0, "carbon dioxide": 2.0}, days)
    for tag in ("feed gas", "fuel gas"):
        made.series[tag].values[5] = 0.0

    assert found(made, "month-without-sample") == []


def test_weekly_samples_are_not_noted() -> None:
    """Four samples in each month need no note on their number."""
    days = tuple(date(2025, month, day) for month in range(1, 13) for day in (1, 8, 15, 22))
    made = works({"methane": 94.0, "nitrogen": 4.0, "carbon dioxide": 2.0}, days)

    assert found(made, "sampling-frequency-not-prescribed") == []
