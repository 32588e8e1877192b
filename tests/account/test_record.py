"""Meters of record."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from footprint.account.record import QUANTITIES, gas_of_record
from tests.sites.hand_made import METHANE, HandMade

VOLUMES = st.floats(1.0e5, 1.0e8)


def fenced(fence: float, feed: float, fuel: float, record: str = "fence meter") -> HandMade:
    """Return a works with a fence meter and two sub-meters on one gas."""
    made = HandMade()
    made.works["record"] = record
    made.gas("natural gas", {"methane": 96.0, "ethane": 3.0, "nitrogen": 1.0})
    made.counted("fence", "purchased gas", "Nm3", fence, analysis="natural gas")
    made.counted("feed gas", "feed", "Nm3", feed, analysis="natural gas")
    made.counted("fuel gas", "fuel", "Nm3", fuel, analysis="natural gas")
    return made


@settings(max_examples=20, deadline=None)
@given(VOLUMES, VOLUMES, VOLUMES)
def test_scaled_shares_are_what_the_fence_meter_counts(
    fence: float, feed: float, fuel: float
) -> None:
    """However far the sub-meters are off, carbon, energy and atoms add up to the fence meter's."""
    measured = fenced(fence, feed, fuel).measured()

    record = gas_of_record(measured)

    bought = measured.gas["fence"]
    for of, name in zip(
        QUANTITIES.values(), ("carbon", "net", "reducing", "nitrogen"), strict=True
    ):
        shares = sum(getattr(one, name).values for one in (*record.feeds, *record.fuels))
        assert shares == pytest.approx(of(bought).values, rel=1e-12)


def test_the_split_is_that_of_the_sub_meters() -> None:
    """The fence meter says how much, the sub-meters say in which ratio."""
    record = gas_of_record(fenced(33.0e6, 20.0e6, 10.0e6).measured())

    feed, fuel = record.feeds[0].carbon.values, record.fuels[0].carbon.values

    assert feed == pytest.approx(2 * fuel, rel=1e-12)


def test_sub_meters_of_record_stand_as_they_are() -> None:
    """Where the sub-meters count, the fence meter changes nothing."""
    measured = fenced(33.0e6, 20.0e6, 10.0e6, "sub-meters").measured()

    record = gas_of_record(measured)

    assert record.feeds[0].carbon is measured.gas["feed gas"].carbon
    assert len(record.sections) == 1


def test_gas_of_third_parties_is_not_shared_out() -> None:
    """What a neighbour takes behind the fence meter is taken off before the rest is split."""
    made = fenced(33.0e6, 20.0e6, 10.0e6)
    made.counted("neighbour", "gas to third parties", "Nm3", 3.0e6, analysis="natural gas")
    measured = made.measured()

    record = gas_of_record(measured)

    left = measured.gas["fence"].carbon.values - measured.gas["neighbour"].carbon.values
    shares = record.feeds[0].carbon.values + record.fuels[0].carbon.values
    assert shares == pytest.approx(left, rel=1e-12)


def test_a_month_without_gas_at_the_sub_meters_shares_nothing() -> None:
    """A month in which no sub-meter turned stays 0 and is no division by zero."""
    made = fenced(0.0, 20.0e6, 10.0e6)
    for name in ("feed gas", "fuel gas"):
        made.series[name].values[6] = 0.0

    record = gas_of_record(made.measured())

    assert record.feeds[0].carbon.values[6] == 0.0


def test_bought_hydrogen_is_a_feed_that_no_fence_meter_scales() -> None:
    """Hydrogen over the fence counts in full beside the gas."""
    made = fenced(33.0e6, 20.0e6, 10.0e6)
    made.gas("hydrogen", {"hydrogen": 99.0, "methane": 1.0})
    made.counted("hydrogen", "hydrogen bought", "Nm3", 1.0e6, analysis="hydrogen")
    measured = made.measured()

    record = gas_of_record(measured)

    assert [one.stream.name for one in record.feeds] == ["feed gas", "hydrogen"]
    assert record.feeds[1].reducing is measured.gas["hydrogen"].reducing


def test_a_fence_meter_alone_shares_out_nothing() -> None:
    """Without sub-meters there is no feed and no fuel to be named."""
    made = HandMade()
    made.gas("natural gas", METHANE)
    made.counted("fence", "purchased gas", "Nm3", 1.0e6, analysis="natural gas")

    record = gas_of_record(made.measured())

    assert record.feeds == ()
    assert record.fuels == ()
    assert np.all([section.lines == () for section in record.sections])
