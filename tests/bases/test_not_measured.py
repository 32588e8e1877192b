"""Factors that a works could measure: which they are, and what they could move."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.account import Account
from footprint.base.row import evaluate
from footprint.bases import Basis, bases
from footprint.bases.not_measured import NotMeasured, not_measured
from tests.sites.hand_made import HandMade, factors, plain_works


def found(made: HandMade) -> tuple[Account, Basis, dict[str, NotMeasured]]:
    """Return the factors behind the total of the one basis, by name."""
    account = made.account()
    (basis,), _ = bases(account)
    return account, basis, {one.factor.words: one for one in not_measured(basis, factors())}


def test_published_factors_of_fuels_are_listed_and_physics_is_not() -> None:
    """Default emission factors could be measured; warming potentials and component tables not."""
    _, _, listed = found(plain_works())

    assert "CH4 emission factor of natural gas (IPCC)" in listed
    assert not any("GWP100" in name or "at 25 °C" in name for name in listed)
    assert not any("ratio of CO2" in name for name in listed)


def test_the_ends_of_a_range_move_the_total_as_computing_anew_does() -> None:
    """Low and high end add what the total becomes with them, less the total."""
    _, basis, listed = found(plain_works())
    one = listed["CH4 emission factor of natural gas (IPCC)"]
    exact = next(line.exact for line in basis.lines if line.filed is basis.total)

    for end, value in ((one.low, 0.3), (one.high, 3.0)):  # table 2.3, as quoted by others
        (other,) = evaluate([exact], {one.factor: np.array([value])})
        assert end.values[0] == pytest.approx(float(other[0]) - float(exact.values[0]), rel=1e-9)
    assert one.range_words == "range published with it"


def test_an_assumption_without_a_range_is_tried_at_one_per_cent() -> None:
    """The density that somebody stated for a fuel is no measurement; 1 % shows its weight."""
    made = plain_works()
    made.counted(
        "diesel",
        "other fuel",
        "litre",
        10_000.0,
        fuel="gas or diesel oil",
        density_kg_per_litre=0.84,
    )
    _, _, listed = found(made)

    one = listed["diesel: density"]

    assert one.range_words == "1 % of it each way"
    assert one.high.values[0] == pytest.approx(-one.low.values[0])
    assert one.high.values[0] > 0
