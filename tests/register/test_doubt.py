"""Errors of published values."""

from __future__ import annotations

import math
from datetime import date

import pytest

from footprint.base.row import step
from footprint.base.slopes import standard_uncertainty, variances
from tests.sites.hand_made import factors

DAY = date(2025, 6, 30)


def u(quantity: str, jurisdiction: str = "any") -> float:
    """Return the standard uncertainty of a factor."""
    return standard_uncertainty(factors().row(quantity, DAY, jurisdiction))


def test_molar_mass_is_as_sure_as_its_atoms() -> None:
    """Methane: root of 0.0004² + (4 x 0.000035)² kg/kmol.

    Source: ISO 6976:2016, Annex A.2 (copies of the standard): u of C 0.0004, of H 0.000035.
    """
    assert u("molar mass of methane") == pytest.approx(math.hypot(0.0004, 4 * 0.000035))


def test_ratio_of_co2_to_carbon_shares_the_error_of_carbon() -> None:
    """Carbon times the ratio is CO2: what remains is the error of its molar mass."""
    register = factors()
    ratio = register.row("ratio of CO2 to carbon", DAY)
    weight = register.row("atomic weight of carbon, by kmol", DAY)

    product = step(ratio * weight, "t/CO2/mass/by kmol", "CO2 by kmol", "product")

    expected = math.hypot(0.0004, 2 * 0.00015) / 1000
    assert standard_uncertainty(product) == pytest.approx(expected)


def test_published_range_is_a_95_per_cent_interval() -> None:
    """Net calorific value of natural gas, 46.5 to 50.4: half of it over 1.96.

    Source: 2006 IPCC Guidelines, volume 2, table 1.2 (from memory); volume 1, chapter 3.
    """
    expected = (50.4 - 46.5) / 2 / 1.959964
    assert u("net calorific value of natural gas", "IPCC") == pytest.approx(expected, rel=1e-6)


def test_component_table_states_its_own_uncertainties() -> None:
    """Gross calorific value of methane ± 0.19 MJ/kmol, summation factor ± 0.0005.

    Source: ISO 6976:2016, Tables 2 and 3 (copies of the standard).
    """
    assert u("gross calorific value of methane at 25 °C") == pytest.approx(0.19)
    assert u("summation factor of methane at 15 °C") == pytest.approx(0.0005)


def test_one_value_at_two_temperatures_is_wrong_alike() -> None:
    """The calorific value at 15 and at 25 °C rests on one measurement."""
    register = factors()
    rows = [register.row(f"gross calorific value of methane at {t} °C", DAY) for t in (15, 25)]

    left = step(rows[0] - rows[1], "t/h/s/left", "left", "difference")

    assert standard_uncertainty(left) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(
    "quantity", ["GWP100 of CO2, SAR", "zero of the Celsius scale", "carbon atoms in methane"]
)
def test_definitions_are_exact(quantity: str) -> None:
    """What a law or a convention sets has no error."""
    assert u(quantity) == 0


def test_ends_of_a_benchmark_are_no_error() -> None:
    """A band of works is no uncertainty of one figure."""
    assert variances(factors().row("B16 conventional reforming: typical", DAY)) == {}
