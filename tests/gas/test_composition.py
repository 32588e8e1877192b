from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footprint.gas.composition import from_volume_fractions, normalise

READINGS = st.lists(st.floats(min_value=1e-4, max_value=100.0), min_size=1, max_size=20)


@given(READINGS)
def test_normalise_gives_fractions_that_sum_to_one(readings: list[float]) -> None:
    """Whatever an analysis sums to, its mole fractions sum to 1."""
    fractions = normalise("gas", {f"component {i}": x for i, x in enumerate(readings)})

    assert sum(fractions) == pytest.approx(1, abs=1e-12)


@given(READINGS)
def test_normalise_keeps_the_proportions(readings: list[float]) -> None:
    """The ratio of two components is that of their readings."""
    fractions = normalise("gas", {f"component {i}": x for i, x in enumerate(readings)})

    assert fractions[-1] / fractions[0] == pytest.approx(readings[-1] / readings[0], rel=1e-12)


def test_volume_fractions_of_ideal_gases_are_mole_fractions() -> None:
    """Without deviation from the ideal gas, volumes are amounts."""
    fractions = from_volume_fractions((0.87, 0.13), (0.0, 0.0))

    assert fractions == pytest.approx((0.87, 0.13), rel=1e-15)


def test_volume_fractions_favour_the_gas_that_deviates_most() -> None:
    """A litre of propane at 15 °C holds more molecules than a litre of methane.

    Source: ISO 6976:2016, Table 2: s of methane 0.04452, of propane 0.1344; amounts
    0.87/0.998018 = 0.871728 and 0.13/0.981937 = 0.132391 by hand.
    """
    methane, propane = from_volume_fractions((0.87, 0.13), (0.04452, 0.1344))

    assert methane == pytest.approx(0.868152, abs=1e-6)
    assert propane == pytest.approx(0.131848, abs=1e-6)
