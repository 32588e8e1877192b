"""Streams counted by mass."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.base.units import unit
from tests.sites.hand_made import DAYS_IN_MONTH, HandMade


def test_ammonia_counts_as_pure_by_its_laboratory_purity() -> None:
    """1 000 t a day of product with 99.8 % NH3 by mass are 998 t NH3 a day: definition."""
    made = HandMade()
    made.meter("WB-1", "t_NH3", 1000.0, "daily")
    made.meter("LAB", "percent", 99.8, "daily")
    made.stream("ammonia", "ammonia produced", "WB-1", purity="LAB")

    ammonia = made.measured().mass["ammonia"]

    assert ammonia.unit == unit("t_NH3")
    assert ammonia.values == pytest.approx(998.0 * DAYS_IN_MONTH, rel=1e-12)
    assert "purity-not-given" not in made.codes()


@pytest.mark.parametrize(("role", "name"), [("ammonia produced", "t_NH3"), ("urea", "t_urea")])
def test_a_product_without_purity_is_taken_as_pure_and_told(role: str, name: str) -> None:
    """Ammonia or urea without a laboratory series counts in full, with a note."""
    made = HandMade()
    made.counted("product", role, name, 500.0)

    assert made.measured().mass["product"].values == pytest.approx(np.full(12, 500.0))
    assert made.codes() == ["purity-not-given"]


def test_urea_counts_by_its_nitrogen_over_that_of_pure_urea() -> None:
    """Product of 46.2 % N is 46.2 over 46.65 of pure urea.

    Source: 2 N over CO(NH2)2 = 28.014/60.056 = 46.65 %, IUPAC abridged atomic weights, from memory.
    """
    made = HandMade()
    made.meter("LAB", "percent", 46.2)
    made.counted("urea", "urea", "t_urea", 10_000.0, nitrogen="LAB")

    urea = made.measured().mass["urea"]

    assert urea.values == pytest.approx(np.full(12, 10_000 * 46.2 / 46.65), rel=0.005 / 46.65)
    assert made.codes() == []


def test_a_mass_in_kilograms_is_shown_in_tonnes() -> None:
    """25 000 kg of CO2 over the weighbridge are 25 t, by a visible conversion."""
    made = HandMade()
    made.counted("CO2 sold", "CO2 sold", "kg_CO2", 25_000.0)

    sold = made.measured().mass["CO2 sold"]

    assert sold.unit == unit("t_CO2")
    assert sold.values == pytest.approx(np.full(12, 25.0))
    assert made.codes() == []


def test_a_stock_grows_by_closing_less_opening() -> None:
    """Each month closes with what the next one opens with, and the growth adds up to the year's."""
    gauged = [100.0, 120.0, 90.0, *[90.0] * 9, 130.0]
    made = HandMade()
    made.meter("LT-1", "t_NH3", gauged, "stock")
    made.stream("tank", "ammonia stock", "LT-1")

    stock = made.measured().stock["tank"]

    assert list(stock.opening.values) == gauged[:12]
    assert list(stock.closing.values) == gauged[1:]
    assert list(stock.growth.values[:2]) == [20.0, -30.0]
    assert stock.growth.values.sum() == pytest.approx(30.0)
