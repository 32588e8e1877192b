"""Saturation pressure of water against the check points of the industrial formulation."""

from __future__ import annotations

from datetime import date

import pytest
from chemicals.iapws import Psat_IAPWS

from footprint.gas.moisture import Saturation, saturation_pressure
from footprint.register import load


@pytest.fixture(scope="module")
def line() -> Saturation[float]:
    """Return the coefficients of the factor files as numbers."""
    register, _ = load()
    names = [f"saturation pressure coefficient n{place}" for place in range(1, 11)]
    n = tuple(float(register.row(name, date(2025, 12, 31)).values[0]) for name in names)
    return Saturation(n, 2.0, 4.0, 1.0, 1.0)


@pytest.mark.parametrize(
    ("kelvin", "megapascal"),
    [(300.0, 0.353658941e-2), (500.0, 0.263889776e1), (600.0, 0.123443146e2)],
)
def test_saturation_pressure_meets_the_check_points(
    line: Saturation[float], kelvin: float, megapascal: float
) -> None:
    """The three check points of the release come back to their nine digits.

    Source: IAPWS R7-97(2012), Table 35, as quoted alike in several public implementations.
    """
    got = saturation_pressure(kelvin, line)

    assert got == pytest.approx(megapascal, rel=2e-9)


@pytest.mark.parametrize("celsius", [0.0, 15.0, 20.0, 40.0, 90.0])
def test_saturation_pressure_equals_an_independent_library(
    line: Saturation[float], celsius: float
) -> None:
    """At the temperatures of gas meters the same equation in another library gives the same.

    Source: library `chemicals`, IAPWS R7-97, equation 30.
    """
    got = saturation_pressure(celsius + 273.15, line)

    assert got == pytest.approx(Psat_IAPWS(celsius + 273.15) / 1e6, rel=1e-12)


@pytest.mark.parametrize(
    ("celsius", "fraction"), [(15.0, 0.01683), (20.0, 0.02309), (30.0, 0.0419)]
)
def test_water_in_saturated_gas_at_one_atmosphere(
    line: Saturation[float], celsius: float, fraction: float
) -> None:
    """Water in a gas saturated at 101.325 kPa agrees with another equation of state.

    Source: IAPWS-95 through the library CoolProp.
    """
    got = saturation_pressure(celsius + 273.15, line) * 1000 / 101.325

    assert got == pytest.approx(fraction, rel=1e-3)
