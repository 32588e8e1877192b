"""Worked figures of the 2006 IPCC Guidelines and of a published inventory that follows them.

California Air Resources Board, Documentation of California's Greenhouse Gas Inventory: pages of the
categories named beside each case, inputs and results as printed there (seen).
"""

from __future__ import annotations

from datetime import date

import pytest

from footprint.bases.ipcc_2006_combustion import emitted
from tests.sites.hand_made import factors

IN_2025 = date(2025, 12, 31)
BTU_IN_MMBTU = 1e6


def published(quantity: str, jurisdiction: str = "any") -> float:
    """Return a value of the factor files."""
    return float(factors().row(quantity, IN_2025, jurisdiction).values[0])


# volume in scf, heat content in Btu/scf, factor in g by Btu, printed tonnes, tolerance
INVENTORY = {
    "1A4a sewerage systems, natural gas, CO2, 2005, 13th edition": (
        (52_693.0, 1_023.0, 0.053),
        2.86,
        0.002,
    ),
    "1A4a food and liquor, natural gas, CH4, 1990, 1st edition": (
        (4_662_700_035.0, 1_032.0, 5.0e-6),
        24.07,
        0.001,
    ),
    "1A4a telephone services, natural gas, CH4, 2010, 11th edition": (
        (210_081_976.0, 1_022.0, 1.0e-6),
        0.215,
        0.002,
    ),
    "1A1b petroleum refining, associated gas, CO2, 1990, 1st edition": (
        (12_454_194_856.0, 808.0, 0.0651),
        655_477.0,
        0.001,
    ),
}


@pytest.mark.parametrize("name", INVENTORY)
def test_emission_is_energy_times_factor(name: str) -> None:
    """Volume times heat content times factor gives the printed tonnes; the inputs are rounded."""
    (volume, heat, grams), printed, tolerance = INVENTORY[name]

    tonnes = emitted(volume * heat, grams) / BTU_IN_MMBTU

    assert tonnes == pytest.approx(printed, rel=tolerance)


# tonnes of gas, edition, gas, printed CO2e, tolerance
WARMING = {
    "food and liquor, CH4, 1990, 1st edition": (24.07, "SAR", "CH4", 505.49, 0.001),
    "telephone services, CH4, 2010, 11th edition": (0.215, "AR4", "CH4", 5.36, 0.003),
    "3B1 forest fire, N2O, 1990, 1st edition": (40.49, "SAR", "N2O", 12_553.0, 0.0002),
    "3C4 manure spread daily, N2O, 1990, 1st edition": (251.22, "SAR", "N2O", 77_879.0, 0.0001),
}


@pytest.mark.parametrize("name", WARMING)
def test_co2e_is_mass_times_warming_potential(name: str) -> None:
    """Mass times GWP100 of the edition of that inventory gives the printed CO2e."""
    mass, edition, gas, printed, tolerance = WARMING[name]

    in_co2e = emitted(mass, published(f"GWP100 of {gas}, {edition}"))

    assert in_co2e == pytest.approx(printed, rel=tolerance)


def test_a_ratio_of_molar_masses_comes_from_its_atomic_weights() -> None:
    """Nitrous oxide over nitrogen by the weights of ISO 6976 is the printed ratio to 5e-5.

    Source: 3C4 manure spread daily, N2O, 1990, 1st edition: 1.571133815, and 251.22 t from
    15,989,824,097 g of nitrogen at 1 %.
    """
    nitrogen, oxygen = 14.0067, 15.9994  # atomic weights of IUPAC, from memory
    ratio = (2 * nitrogen + oxygen) / (2 * nitrogen)

    assert ratio == pytest.approx(1.571133815, rel=5e-5)
    assert emitted(15_989_824_097e-6 * 0.01, 1.571133815) == pytest.approx(251.22, abs=0.005)


def test_urea_takes_44_parts_of_co2_in_60() -> None:
    """A tonne of urea holds 0.733 t of CO2 (2006 IPCC Guidelines, volume 3, 3.2.2, from memory)."""
    assert published("CO2 bound in urea", "IPCC") == pytest.approx(0.733, abs=0.0005)
