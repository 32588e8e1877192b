"""Enthalpies against IAPWS R7-97(2012), tables 5 and 15.

The tables were read as quoted, identically, in several public implementations.
"""

from __future__ import annotations

import pytest

from footprint.measure.steam import specific_enthalpy

CASES = [  # table, MPa, K, kJ/kg as printed
    ("table 5", 3, 300, 115.331273),
    ("table 5", 80, 300, 184.142828),
    ("table 5", 3, 500, 975.542239),
    ("table 15", 0.0035, 300, 2549.91145),
    ("table 15", 0.0035, 700, 3335.68375),
    ("table 15", 30, 700, 2631.49474),
]


@pytest.mark.parametrize(("table", "pressure", "temperature", "printed"), CASES)
def test_enthalpy_meets_the_printed_digits(
    table: str, pressure: float, temperature: float, printed: float
) -> None:
    """Water and steam have the enthalpies of the release's check tables."""
    del table

    assert specific_enthalpy(pressure, temperature) == pytest.approx(printed, rel=2e-9)


def test_a_state_outside_both_regions_has_no_enthalpy() -> None:
    """Near the critical point no number is made up."""
    assert specific_enthalpy(25.0, 650.0) != specific_enthalpy(25.0, 650.0)
