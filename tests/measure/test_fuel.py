"""Fuels at default values."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.measure import measure
from footprint.measure.fuel import known_fuels
from tests.sites.hand_made import HandMade, factors

DIESEL = "gas or diesel oil"


def test_litres_become_tonnes_energy_and_carbon_by_the_defaults() -> None:
    """1 000 litres of diesel at 0.84 kg/L hold 36.1 GJ net and 0.73 t of carbon.

    Source: 2006 IPCC Guidelines, volume 2: 43.0 TJ/Gg (table 1.2), 20.2 kg C/GJ (table 1.3; from
    memory). The density is the test's own.
    """
    made = HandMade()
    made.counted("diesel", "other fuel", "litre", 1000.0, fuel=DIESEL, density_kg_per_litre=0.84)

    diesel = made.measured().fuel["diesel"]

    assert diesel.mass.values == pytest.approx(np.full(12, 0.84))
    assert diesel.net.values == pytest.approx(np.full(12, 0.84 * 43.0))
    assert diesel.carbon.values == pytest.approx(np.full(12, 0.84 * 43.0 * 20.2 / 1000))


def test_a_weighed_fuel_needs_no_density() -> None:
    """2 t of diesel are 86 GJ net: 2006 IPCC Guidelines, volume 2, table 1.2, 43.0 TJ/Gg."""
    made = HandMade()
    made.counted("diesel", "other fuel", "tonne", 2.0, fuel=DIESEL)

    assert made.measured().fuel["diesel"].net.values == pytest.approx(np.full(12, 86.0))


def test_cubic_metres_of_liquid_are_a_thousand_litres() -> None:
    """3 m3 of fuel at 0.84 kg/L weigh 2.52 t."""
    made = HandMade()
    made.counted("diesel", "other fuel", "m3_liquid", 3.0, fuel=DIESEL, density_kg_per_litre=0.84)

    assert made.measured().fuel["diesel"].mass.values == pytest.approx(np.full(12, 2.52))


def test_an_unknown_fuel_is_told_with_the_nearest_names() -> None:
    """A fuel that the table lacks gives no figure, and the finding offers what it may be."""
    made = HandMade()
    made.counted("pumps", "other fuel", "tonne", 2.0, fuel="diesel oil")

    measured, findings = measure(made.readings(), factors())

    assert [one.code for one in findings] == ["fuel-without-default-values"]
    assert findings[0].read == "diesel oil"
    assert DIESEL in findings[0].mend
    assert findings[0].mend.count(",") < 3
    assert np.isnan(measured.fuel["pumps"].carbon.values).all()


def test_every_known_fuel_has_all_its_defaults() -> None:
    """Each fuel that may be named has heating value, carbon, CH4 and N2O."""
    names = known_fuels(factors())

    held = {entry.quantity for entry in factors().entries if entry.jurisdiction == "IPCC"}

    assert DIESEL in names
    for fuel in names:
        assert {
            f"net calorific value of {fuel}",
            f"carbon content of {fuel}",
            f"CH4 emission factor of {fuel}",
            f"N2O emission factor of {fuel}",
        } <= held
