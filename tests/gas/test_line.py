"""The range in which an equation gives the compression factor of a gas in its line."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.gas.line import EQUATIONS, FIELDS, composition_outside, compression_factors, outside
from footprint.gas.names import COMPONENTS

AGA = "AGA 8 DETAIL"


def test_components_of_the_equations_are_those_of_the_component_table() -> None:
    """21 components are known, each by a name of the component table; neopentane joins n-pentane.

    Source: AGA Report No. 8, 21 components.
    """
    assert set(FIELDS) <= set(COMPONENTS)
    assert len(set(FIELDS.values())) == 21
    assert [name for name in FIELDS if FIELDS[name] == "n_pentane"] == ["n-pentane", "neopentane"]


@pytest.mark.parametrize(
    ("equation", "kelvin", "kpa", "is_outside"),
    [
        (AGA, 263.0, 12_000.0, False),
        (AGA, 262.9, 4_000.0, True),
        (AGA, 338.1, 4_000.0, True),
        (AGA, 300.0, 12_001.0, True),
        (AGA, 300.0, 0.0, True),
        ("GERG-2008", 262.9, 4_000.0, False),
        ("GERG-2008", 450.1, 4_000.0, True),
        ("GERG-2008", 300.0, 35_001.0, True),
    ],
)
def test_states_outside_the_range(
    equation: str, kelvin: float, kpa: float, *, is_outside: bool
) -> None:
    """263 to 338 K and 12 MPa for AGA 8, 90 to 450 K and 35 MPa for GERG-2008.

    Source: ISO 12213-2:2006 and GERG-2008, from memory.
    """
    assert bool(outside(equation, np.array([kelvin]), np.array([kpa]))[0]) is is_outside


def test_a_missing_reading_is_not_outside() -> None:
    """A day without temperature is told as a missing reading, not as a state out of range."""
    assert not outside(AGA, np.array([np.nan]), np.array([4000.0]))[0]


@pytest.mark.parametrize(
    ("fractions", "words"),
    [
        ({"methane": 0.95, "ethane": 0.05}, []),
        ({"methane": 0.69, "nitrogen": 0.19, "ethane": 0.10}, ["methane 69.00% is under 70.00%"]),
        ({"methane": 0.75, "nitrogen": 0.25}, ["nitrogen 25.00% is over 20.00%"]),
        (
            {"methane": 0.98, "isobutane": 0.01, "n-butane": 0.01},
            ["isobutane and n-butane 2.00% is over 1.50%"],
        ),
        ({"methane": 0.88, "hydrogen": 0.12}, ["hydrogen 12.00% is over 10.00%"]),
    ],
)
def test_compositions_outside_the_range(fractions: dict[str, float], words: list[str]) -> None:
    """Pipeline gas has limits by component and group of isomers.

    Source: ISO 12213-2:2006, pipeline quality gas, from memory.
    """
    assert composition_outside(AGA, fractions) == words
    assert composition_outside("GERG-2008", fractions) == []


def test_ranges_name_their_source() -> None:
    """A reader sees that the ranges are from memory and must be checked."""
    assert all("from memory" in one.source for one in EQUATIONS.values())


def test_other_numbers_may_be_put_in_for_many_draws() -> None:
    """Draws of temperature and pressure by period keep their shape, each with its own factor."""
    temperature = np.linspace(280.0, 300.0, 6).reshape(2, 3)
    pressure = np.array([1000.0, 4000.0, 8000.0])

    found = compression_factors(AGA, ("methane",), temperature, pressure, [np.array([1.0])])

    assert found.shape == (2, 3)
    assert found[1, 2] == compression_factors(
        AGA, ("methane",), np.array([300.0]), np.array([8000.0]), [np.array([1.0])]
    )
    assert len(set(found.ravel())) == 6
