"""Compression factors in a line, and volumes brought to a reference condition."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest

from footprint.gas.line import compression_factors, volume_at_reference
from footprint.measure.analysis import gas_samples
from tests.sites.hand_made import HandMade

EXAMPLES = csv.DictReader(
    (Path(__file__).parent / "gas_quality_examples.csv").read_text("utf-8").splitlines()
)
CASES = [case for case in EXAMPLES if case["quantity"].startswith("Z in the line")]
# AGA Report No. 8, reference gas "Gulf Coast"
GULF_COAST = {
    "methane": 0.965222,
    "nitrogen": 0.002595,
    "carbon dioxide": 0.005956,
    "ethane": 0.018186,
    "propane": 0.004596,
    "isobutane": 0.000977,
    "n-butane": 0.001007,
    "isopentane": 0.000473,
    "n-pentane": 0.000324,
    "n-hexane": 0.000664,
}
ANOTHER_PROGRAM = [  # °C, bar (abs), Z; computed with the HEOS mixture of CoolProp 8.0
    (15.0, 4.0, 0.991524),
    (15.0, 20.0, 0.957811),
    (20.0, 35.0, 0.931368),
    (38.0, 45.0, 0.931023),
    (10.0, 70.0, 0.848204),
]
# gas of ISO 6976:2016, Annex D.2, dry
ANNEX_D2 = {
    "methane": 93.3212,
    "ethane": 2.5656,
    "propane": 1.5368,
    "nitrogen": 1.035,
    "carbon dioxide": 1.5414,
}


def composition_of(case: dict[str, str]) -> dict[str, float]:
    """Return the mole fractions of an example."""
    parts = (part.split("=") for part in case["composition"].split("; "))
    return {name: float(x) for name, x in parts}


def factor(equation: str, composition: dict[str, float], kelvin: float, kpa: float) -> float:
    """Return the compression factor in one state."""
    fractions = [np.array([x]) for x in composition.values()]
    state = np.array([kelvin]), np.array([kpa])
    return float(compression_factors(equation, tuple(composition), *state, fractions)[0])


@pytest.mark.parametrize("case", CASES, ids=[f"{c['example']} {c['metering']}" for c in CASES])
def test_compression_factor_meets_published_value(case: dict[str, str]) -> None:
    """Every published Z of gas_quality_examples.csv comes back within its stated tolerance."""
    equation = case["quantity"].removeprefix("Z in the line, ")
    kelvin = float(case["metering"].removesuffix(" K"))

    got = factor(equation, composition_of(case), kelvin, float(case["pressure"]))

    assert got == pytest.approx(float(case["published"]), abs=float(case["tolerance"]))


def test_all_published_compression_factors_are_there() -> None:
    """Two check points of each equation's authors and six of the standard are compared."""
    assert len(CASES) == 8


@pytest.mark.parametrize(("celsius", "bar", "expected"), ANOTHER_PROGRAM)
@pytest.mark.parametrize(("equation", "apart"), [("GERG-2008", 3e-5), ("AGA 8 DETAIL", 5e-4)])
def test_another_program_finds_the_same(
    celsius: float, bar: float, expected: float, equation: str, apart: float
) -> None:
    """GERG-2008 agrees with another program's mixture model to 3e-5, AGA 8 to half its 0.1 %.

    Source: CoolProp 8.0, HEOS, computed; 0.1 % for AGA 8: Lemmon 2013.
    """
    got = factor(equation, GULF_COAST, celsius + 273.15, bar * 100)

    assert got == pytest.approx(expected, abs=apart)


@pytest.mark.parametrize(
    ("condition", "compression", "molar_volume", "normal"),
    [
        ("Nm3", 0.997307, 22.35361, 1.0),
        ("Sm3", 0.997762, 23.59192, 0.94751),
        ("m3_20C", 0.997895, 24.00448, 0.93123),
    ],
)
def test_reference_conditions_convert_by_hand(
    condition: str, compression: float, molar_volume: float, normal: float
) -> None:
    """Z, molar volume and Nm3 per m3 of the standard's gas are those worked out by hand.

    Source: ISO 6976:2016, gas of Annex D.2; hand values computed from its tables and formulas (1),
    (8) and (11).
    """
    made = HandMade()
    made.gas("natural gas", ANNEX_D2)
    made.counted("feed gas", "feed", condition, 1.0, analysis="natural gas")
    quality = gas_samples(made.context(), "natural gas").quality

    z = quality.compression[condition].values[0]
    room = quality.molar_volume[condition].values[0]
    kelvin = {"Nm3": 273.15, "Sm3": 288.15, "m3_20C": 293.15}[condition]
    z_normal = quality.compression["Nm3"].values[0]
    in_normal = volume_at_reference(1.0, 1.0, 273.15 / kelvin, float(z_normal / z))

    assert z == pytest.approx(compression, abs=5e-7)
    assert room == pytest.approx(molar_volume, abs=5e-6)
    assert in_normal == pytest.approx(normal, abs=5e-6)


def test_a_volume_in_the_line_by_hand() -> None:
    """1 m3 of methane-rich gas at 20 °C and 35 bar is 36.84 Sm3, 34.6 times 0.983 over 0.9311.

    Source: arithmetic; Z of the line from CoolProp 8.0, 0.99777 at 15 °C from ISO 6976:2016.
    """
    got = volume_at_reference(1.0, 3500 / 101.325, 288.15 / 293.15, 0.997777 / 0.931368)

    assert got == pytest.approx(34.5423 * 0.982944 * 1.071302, rel=1e-5)


def test_the_sum_of_a_composition_does_not_matter() -> None:
    """A composition in per cent, or one that sums to 0.9999, is brought to a sum of 1 first."""
    state = 290.0, 4000.0
    expected = factor("AGA 8 DETAIL", GULF_COAST, *state)

    for scale in (100.0, 0.9999):
        scaled = {name: x * scale for name, x in GULF_COAST.items()}
        assert factor("AGA 8 DETAIL", scaled, *state) == pytest.approx(expected, rel=1e-12)


def test_neopentane_counts_as_pentane() -> None:
    """Neopentane is lumped with n-pentane, as ISO 12213-2 does (from memory)."""
    state = 290.0, 4000.0
    lumped = {"methane": 0.98, "n-pentane": 0.02}
    apart = {"methane": 0.98, "n-pentane": 0.005, "neopentane": 0.015}

    assert factor("GERG-2008", apart, *state) == factor("GERG-2008", lumped, *state)


@pytest.mark.parametrize("equation", ["AGA 8 DETAIL", "GERG-2008"])
@pytest.mark.parametrize("state", [(290.0, 0.0), (290.0, -5.0), (float("nan"), 4000.0)])
def test_a_state_without_density_has_no_factor(equation: str, state: tuple[float, float]) -> None:
    """No pressure, a negative one or a missing temperature give no number, not a wrong one."""
    assert np.isnan(factor(equation, GULF_COAST, *state))
