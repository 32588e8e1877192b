from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footprint.base.axis import Axis
from footprint.base.row import Row, ancestry, constant, leaf
from footprint.base.units import NONE, unit
from footprint.gas import moisture

# IAPWS R7-97(2012), Table 34: coefficients n1 to n10
N = (
    0.11670521452767e4,
    -0.72421316703206e6,
    -0.17073846940092e2,
    0.12020824702470e5,
    -0.32325550322333e7,
    0.14915108613530e2,
    -0.48232657361591e4,
    0.40511340542057e6,
    -0.23855557567849,
    0.65017534844798e3,
)
LINE = moisture.Saturation(N, 2.0, 4.0, 1.0, 1.0)
DAYS = Axis("days", ("2025-01-01", "2025-01-02", "2025-01-03"))


def _line_of_rows() -> moisture.Saturation[Row]:
    return moisture.Saturation(
        tuple(constant(v, NONE, f"n{i}", f"n{i}") for i, v in enumerate(N, start=1)),
        constant(2, NONE, "two", "two"),
        constant(4, NONE, "four", "four"),
        constant(1, unit("kelvin"), "unit of temperature", "1 K"),
        constant(1, unit("MPa"), "unit of pressure", "1 MPa"),
    )


def _temperature() -> Row:
    celsius = leaf([15.0, 35.0, 60.0], unit("celsius"), DAYS, key="t", words="t", origins=[None])
    return moisture.absolute_temperature(celsius, "T", "T")


def test_saturation_pressure_of_rows_equals_that_of_numbers() -> None:
    """Rows give day by day what numbers give."""
    pressure = moisture.saturation_pressure(_temperature(), _line_of_rows(), "works/gas/water")

    expected = [moisture.saturation_pressure(273.15 + t, LINE) for t in (15.0, 35.0, 60.0)]
    np.testing.assert_allclose(pressure.values, expected, rtol=1e-12)
    assert pressure.unit == unit("MPa")


def test_parts_of_the_saturation_line_are_named_and_short() -> None:
    """Every part has a key of its own, and no formula refers to more than eight cells."""
    pressure = moisture.saturation_pressure(_temperature(), _line_of_rows(), "works/gas/water")

    named = [row for row in ancestry([pressure]) if row.is_named]

    assert len({row.key for row in named}) == len(named)
    assert all(_places(row) <= 8 for row in named)


def _places(row: Row) -> int:
    return sum(1 if arg.is_named else _places(arg) for arg in row.args)


@given(st.floats(min_value=273.15, max_value=640.0))
def test_saturation_pressure_rises_with_temperature(kelvin: float) -> None:
    """Warmer water has the higher vapour pressure."""
    here = moisture.saturation_pressure(kelvin, LINE)

    above = moisture.saturation_pressure(kelvin + 1, LINE)

    assert above > here


def test_dry_amount_of_ideal_gas_is_its_share_of_the_volume() -> None:
    """1000 m3 of ideal gas at 0 °C with 2 % water hold 980 m3 of dry gas: 43.722 kmol.

    Source: molar volume of an ideal gas 22.414 m3/kmol; by hand.
    """
    amount = moisture.dry_amount(1000.0, 22.414, 0.02)

    assert amount == pytest.approx(43.7227, abs=1e-4)


def test_saturated_gas_at_its_own_vapour_pressure_is_all_water() -> None:
    """At the boiling point at 0.1 MPa the water fraction is 1.

    Source: IAPWS R7-97(2012), Table 36: T(0.1 MPa) = 372.755919 K; half its last digit is 2e-8.
    """
    pressure = moisture.saturation_pressure(372.755919, LINE)

    assert moisture.water_fraction(pressure, 0.1) == pytest.approx(1, rel=4e-8)
