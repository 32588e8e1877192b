"""Series of one stream that cannot be used together."""

from __future__ import annotations

import numpy as np

from footprint.measure import measure
from tests.sites.hand_made import METHANE, HandMade, factors


def test_daily_and_monthly_rows_do_not_match() -> None:
    """A daily product with a monthly purity is told, and gives no figure."""
    made = HandMade()
    made.meter("WB-1", "t_NH3", 1000.0, "daily")
    made.meter("LAB", "percent", 99.8)
    made.stream("ammonia", "ammonia produced", "WB-1", purity="LAB")

    measured, findings = measure(made.readings(), factors())

    assert [one.code for one in findings] == ["rows-that-do-not-match"]
    assert '"ammonia"' in findings[0].what
    assert "daily rows for WB-1 and monthly rows for LAB" in findings[0].what
    assert np.isnan(measured.mass["ammonia"].values).all()


def test_volumes_at_different_conditions_are_not_taken_from_each_other() -> None:
    """Purge gas in Sm3 is not taken off a mixed meter in Nm3: it is told, and gives no figure."""
    made = HandMade()
    made.gas("natural gas", METHANE)
    made.counted("purge gas", "purge gas", "Sm3", 1.0e6, analysis="natural gas", to="fuel")
    made.meter("FT-1", "Nm3", 5.0e6)
    mixed = {"position": "after mixing", "mixed_with": ["purge gas"]}
    made.stream("fuel gas", "fuel", "FT-1", analysis="natural gas", **mixed)

    measured, findings = measure(made.readings(), factors())

    told = [one for one in findings if one.level == "stop"]
    assert [one.code for one in told] == ["volumes-at-different-conditions"]
    assert "Nm³ (0 °C" in told[0].what
    assert "Sm³ (15 °C" in told[0].what
    assert np.isnan(measured.gas["fuel gas"].carbon.values).all()
    assert not np.isnan(measured.gas["purge gas"].carbon.values).any()


def test_a_stock_goes_with_any_rhythm() -> None:
    """A tank gauged at month boundaries with a daily purity is no fault."""
    made = HandMade()
    made.meter("LT-1", "t_NH3", 1000.0, "stock")
    made.meter("LAB", "percent", 99.8, "daily")
    made.stream("tank", "ammonia stock", "LT-1", purity="LAB")

    assert made.codes() == []
