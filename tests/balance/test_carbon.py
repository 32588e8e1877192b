"""The carbon network of a works, from the streams that it meters."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.balance import balance
from tests.sites.hand_made import METHANE, HandMade, plain_works

# t CO2 by t C: ISO 6976:2016, annex A.2, 44.0095/12.0107
CO2_BY_CARBON = 44.0095 / 12.0107


def with_removal(removed: float) -> HandMade:
    """Return the plain works with its removed CO2 weighed."""
    made = plain_works()
    made.counted("CO2 removed", "CO2 removed", "t_CO2", removed)
    return made


def test_a_works_without_off_gas_meter_finds_it_by_difference() -> None:
    """What is not taken out as CO2 leaves the loop as off-gas and is burnt in the furnace."""
    measured, balanced = with_removal(35_000.0).balanced()
    feed, fuel = (measured.gas[name].carbon.values for name in ("feed gas", "fuel gas"))

    off_gas, stack = balanced.flow("off-gas"), balanced.flow("stack CO2")

    assert off_gas.is_by_difference
    assert off_gas.carbon is not None
    assert stack.carbon is not None
    assert off_gas.carbon.values == pytest.approx(feed - 35_000 / CO2_BY_CARBON, rel=1e-9)
    assert stack.carbon.values == pytest.approx(fuel + off_gas.carbon.values, rel=1e-9)
    assert set(balanced.standing.values()) == {"follows"}


def test_meters_that_tell_nothing_apart_are_told_and_stop_nothing() -> None:
    """Feed and fuel alone leave removal, loop, furnace and header unknown, with a warning each."""
    measured = plain_works().measured()

    balanced, findings = balance(measured)

    assert {one.code for one in findings} == {"flow-cannot-be-known"}
    assert {one.level for one in findings} == {"warn"}
    unknown = [node for node, how in balanced.standing.items() if how == "not known"]
    assert unknown == ["synthesis loop", "CO2 removal", "furnace and boilers", "CO2 header"]
    assert balanced.flow("stack CO2").carbon is None


def test_the_whole_works_is_not_compared_where_a_way_out_is_unknown() -> None:
    """Carbon in less the part of carbon out that is known would be no closure."""
    _, balanced = plain_works().balanced()

    assert balanced.works.standing == "not known"
    assert balanced.works.difference is None


def test_the_whole_works_closes_where_all_follows() -> None:
    """Flows by difference leave nothing over, whatever the meters read."""
    _, balanced = with_removal(35_000.0).balanced()

    assert balanced.works.difference is not None
    assert balanced.works.difference.values == pytest.approx(np.zeros(12), abs=1e-6)


def test_two_urea_products_are_bound_together() -> None:
    """Prilled and granulated urea bind the sum of their carbon, and the rest is lost.

    Source: carbon in urea 12.0107/60.05526, ISO 6976:2016, annex A.2.
    """
    made = with_removal(35_000.0)
    made.counted("CO2 to urea", "CO2 to urea", "t_CO2", 10_000.0, is_counted_elsewhere=True)
    made.counted("prills", "urea", "t_urea", 9_000.0)
    made.counted("granules", "urea", "t_urea", 4_000.0)

    _, balanced = made.balanced()

    bound, lost = balanced.flow("bound in urea").carbon, balanced.flow("lost in the urea unit")
    assert bound is not None
    assert lost.carbon is not None
    assert bound.values == pytest.approx(np.full(12, 13_000 * 12.0107 / 60.05526))
    assert lost.carbon.values == pytest.approx(10_000 / CO2_BY_CARBON - bound.values)
    assert [flow.name for flow in balanced.network.flows].count("bound in urea") == 1


def test_a_front_end_vent_leaves_before_the_removal() -> None:
    """Carbon vented at start-up is not in the raw synthesis gas."""
    made = plain_works()
    made.gas("raw gas", METHANE)
    made.counted("start-up vent", "start-up vent", "Nm3", 1.0e6, analysis="raw gas")
    measured, balanced = made.balanced()

    raw = balanced.flow("raw synthesis gas").carbon

    assert raw is not None
    expected = measured.gas["feed gas"].carbon.values - measured.gas["start-up vent"].carbon.values
    assert raw.values == pytest.approx(expected)


def test_gas_sold_to_third_parties_leaves_at_the_header() -> None:
    """Purchased gas less feed, fuel and third parties is what the header does not close by."""
    made = plain_works()
    made.counted("fence", "purchased gas", "Nm3", 30.0e6, analysis="natural gas")
    made.counted("neighbour", "gas to third parties", "Nm3", 4.0e6, analysis="natural gas")
    _, balanced = made.balanced()

    closure = next(one for one in balanced.closures if one.node == "gas header")

    # Nm3 of one gas: 30.00 in, 18.43 feed, 7.54 fuel, 4.00 to the neighbour
    assert closure.standing == "checked"
    assert closure.share is not None
    assert closure.share.values == pytest.approx(np.full(12, 0.03 / 30.0), rel=1e-6)
