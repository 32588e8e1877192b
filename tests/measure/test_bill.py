"""The supplier's bill beside the works' own meter."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from footprint.judge import judge
from footprint.measure import measure
from tests.sites.hand_made import HandMade, factors, plain_works

VOLUME = 18.43e6  # Nm3 of methane a month, as the feed of the plain works
GROSS = 39.828  # MJ (gross)/Nm3 of methane at 25 °C, 0 °C: ISO 6976:2016
MOLAR_VOLUME = 22.3605  # Nm3/kmol of methane: ISO 6976:2016, 22.4140 times 1 - 0.04886²


def billed(energy: float | list[float], name: str = "GJ_gross") -> HandMade:
    """Return the plain works with a bill for its feed gas."""
    made = plain_works()
    made.meter("BILL", name, energy)
    next(one for one in made.streams if one["name"] == "feed gas")["invoiced"] = "BILL"
    return made


def outcome(made: HandMade) -> list[str]:
    """Return the outcome of the check of the bill by month."""
    judged, _ = judge(made.account())
    words = ("not judged", "PASS", "LOOK", "OPEN")
    check = next(one for one in judged.checks if "bill less meter" in one.words)
    return [words[int(value)] for value in check.outcome.values]


def told(made: HandMade) -> list[Any]:
    """Return what judging found about the bill."""
    return [one for one in judge(made.account())[1] if "bill less meter" in one.what]


def test_energy_comes_first_and_in_the_bills_own_basis() -> None:
    """A bill of 1 % more than the meter's gross energy is 1 % of the meter above it.

    Source: gross calorific value of methane by ISO 6976:2016, computed.
    """
    metered = VOLUME * GROSS / 1000  # GJ
    bill = billed(1.01 * metered).measured().bills["feed gas"]

    assert bill.flow.gross.values == pytest.approx(np.full(12, metered), rel=2e-5)
    assert bill.difference.values == pytest.approx(0.01 * metered, rel=3e-3)
    assert bill.share.values == pytest.approx(np.full(12, 0.01 / 1.01), abs=2e-5)


def test_a_bill_in_megawatt_hours_is_the_same_bill() -> None:
    """1 MWh (gross) is 3.6 GJ (gross) and 1000 kWh (gross)."""
    in_gj, in_mwh, in_kwh = (
        billed(energy, name).measured().bills["feed gas"].billed.values
        for energy, name in ((3.6e5, "GJ_gross"), (1e5, "MWh_gross"), (1e8, "kWh_gross"))
    )

    assert in_mwh == pytest.approx(in_gj, rel=1e-12)
    assert in_kwh == pytest.approx(in_gj, rel=1e-12)


def test_billed_energy_becomes_an_amount_by_the_months_composition() -> None:
    """The energy of the meter's own volume, billed, is the meter's own amount of gas.

    Source: molar volume of methane by ISO 6976:2016, computed.
    """
    bill = billed(VOLUME * GROSS / 1000).measured().bills["feed gas"]

    by_hand = VOLUME / MOLAR_VOLUME
    assert bill.flow.amount.values == pytest.approx(np.full(12, by_hand), rel=1e-5)
    assert bill.amount.values == pytest.approx(np.full(12, by_hand), rel=3e-5)


def test_share_of_the_year_is_no_sum_of_months() -> None:
    """Twelve bills of 2 % too much are 2 % too much in the year."""
    bill = billed(VOLUME * GROSS / 1000 / 0.98).measured().bills["feed gas"]

    year = next(line.year for line in bill.lines if line.months is bill.share)

    assert year is not None
    assert year.values[0] == pytest.approx(0.02, abs=3e-5)


def test_outcome_follows_the_difference() -> None:
    """A difference of 0.5 % passes, 2 % is looked at, 6 % is open."""
    metered = VOLUME * GROSS / 1000
    shares = [0.005, 0.02, 0.06, *[0.0] * 9]

    found = outcome(billed([metered / (1 - share) for share in shares]))

    assert found == ["PASS", "LOOK", "OPEN", *["PASS"] * 9]


@pytest.mark.parametrize(
    ("ratio", "words"),
    [(1.0549, "cubic metres at 15 °C taken for 0 °C"), (1.1085, "gross taken for net")],
)
def test_a_known_confusion_is_named(ratio: float, words: str) -> None:
    """A bill that differs by the ratio of two conditions or of gross to net says so."""
    found = told(billed(VOLUME * GROSS / 1000 / ratio))

    assert [one.code for one in found] == ["figure-out-of-band"]
    assert words in found[0].why


def test_a_month_without_bill_is_not_judged() -> None:
    """Where nothing was billed there is no share, and no finding."""
    metered = VOLUME * GROSS / 1000
    made = billed([0.0, *[metered] * 11])

    assert outcome(made)[0] == "not judged"
    assert told(made) == []


def test_a_month_in_which_nothing_flowed_adds_nothing_to_the_year() -> None:
    """Without gas and without bill a month's amount is 0; billed gas that never came has none."""
    metered = VOLUME * GROSS / 1000
    stopped, paid = billed([0.0, *[metered] * 11]), billed(metered)
    for made in (stopped, paid):
        made.series["feed gas"].values[0] = 0.0

    idle, unmet = (made.measured().bills["feed gas"].amount.values for made in (stopped, paid))

    assert idle[0] == 0.0
    assert idle.sum() == pytest.approx(11 * idle[1])
    assert np.isnan(unmet[0])


def test_a_bill_that_could_not_be_read_leaves_the_meter_alone() -> None:
    """Without the bill's readings the gas is measured as before."""
    made = billed(1.0)
    made.series.pop("BILL")

    measured, findings = measure(made.readings(), factors())

    assert measured.bills == {}
    assert [one for one in findings if one.level == "stop"] == []
    assert np.isfinite(measured.gas["feed gas"].carbon.values).all()
