"""The rows of a gas against the same functions on numbers; a purge gas with every element."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footprint.base.axis import Axis
from footprint.base.row import Row, ancestry, constant, leaf
from footprint.base.spelling import Names, spell
from footprint.base.units import NONE, Unit, unit
from footprint.gas import carbon, compressibility, elements, heating
from footprint.gas.composition import normalise
from footprint.gas.properties import AtomsOfComponents, Constants, Properties
from footprint.gas.quality import GasQuality, gas_quality

SAMPLES = Axis("samples", ("2025-01-06", "2025-01-13"), "purge gas")
# ISO 6976:2016, Tables 1 to 3, from copies: M, s at 0 and 15 °C, gross at 25 °C, C H N O S
TABLE = {
    "methane": (16.04246, 0.04886, 0.04452, 890.58, (1, 4, 0, 0, 0)),
    "hydrogen": (2.01588, -0.01, -0.01, 285.83, (0, 2, 0, 0, 0)),
    "nitrogen": (28.0134, 0.0214, 0.0170, 0.0, (0, 0, 2, 0, 0)),
    "ammonia": (17.03052, 0.1230, 0.1100, 382.81, (0, 3, 1, 0, 0)),
    "carbon dioxide": (44.0095, 0.0821, 0.0752, 0.0, (1, 0, 0, 2, 0)),
    "hydrogen sulfide": (34.08088, 0.1004, 0.0923, 562.01, (0, 2, 0, 0, 1)),
}
READINGS = {
    "methane": (13.0, 96.0),
    "hydrogen": (60.0, 0.5),
    "nitrogen": (20.0, 1.0),
    "ammonia": (2.0, 0.1),
    "carbon dioxide": (4.0, 2.1),
    "hydrogen sulfide": (0.5, 0.2),
}
LATENT, AIR, CARBON = 44.013 / 2, 28.96546, 12.0107
IDEAL = {"Nm3": 8.3144621 * 273.15 / 101.325, "Sm3": 8.3144621 * 288.15 / 101.325}
AIR_COMPRESSION = {"Nm3": 0.999419, "Sm3": 0.999595}


def _block(quantity: str, values: list[float], of: Unit) -> tuple[Row, ...]:
    pairs = zip(TABLE, values, strict=True)
    return tuple(
        constant(v, of, f"gas/purge gas/{name}/{quantity}", f"{quantity} of {name}")
        for name, v in pairs
    )


def _column(place: int) -> list[float]:
    return [float(row[place]) for row in TABLE.values()]  # type: ignore[arg-type]


def _atoms(place: int) -> list[float]:
    return [float(row[4][place]) for row in TABLE.values()]


def _net() -> list[float]:
    return [
        heating.net_of_component(g, h, LATENT, 1.0)
        for g, h in zip(_column(3), _atoms(1), strict=True)
    ]


def _properties() -> Properties[Row]:
    atoms = {
        name: _block(f"{name} atoms", _atoms(place), unit(f"kmol_{symbol}/kmol"))
        for place, (name, symbol) in enumerate(
            [
                ("carbon", "C"),
                ("hydrogen", "H"),
                ("nitrogen", "N"),
                ("oxygen", "O"),
                ("sulfur", "S"),
            ]
        )
    }
    gross = [value / 1000 for value in _column(3)]
    net = [value / 1000 for value in _net()]
    return Properties(
        components=tuple(TABLE),
        molar_mass=_block("molar mass", _column(0), unit("kg/kmol")),
        summation={
            "Nm3": _block("summation factor, Nm3", _column(1), NONE),
            "Sm3": _block("summation factor, Sm3", _column(2), NONE),
        },
        gross=_block("gross calorific value", gross, unit("GJ_gross/kmol")),
        net=_block("net calorific value", net, unit("GJ_net/kmol")),
        atoms=AtomsOfComponents(**atoms),
    )


def _constants() -> Constants[Row]:
    return Constants(
        ideal_molar_volume={
            name: constant(v, unit(f"{name}/kmol"), f"gas/ideal gas/molar volume/{name}", name)
            for name, v in IDEAL.items()
        },
        air_mass=constant(AIR, unit("kg/kmol"), "factors/any/air/always", "molar mass of dry air"),
        air_compression={
            name: constant(v, NONE, f"factors/any/Z air {name}/always", f"Z of air, {name}")
            for name, v in AIR_COMPRESSION.items()
        },
        carbon_mass=constant(CARBON, unit("kg_C/kmol_C"), "factors/any/C/always", "carbon"),
    )


@pytest.fixture(scope="module")
def quality() -> GasQuality:
    """Return the rows of a purge gas and a natural gas, as two samples."""
    readings = {
        name: leaf(
            values, NONE, SAMPLES, key=f"gas/purge gas/{name}/read", words=name, origins=[None]
        )
        for name, values in READINGS.items()
    }
    fractions = normalise("purge gas", readings)
    ratio = constant(3.664, unit("t_CO2/t_C"), "factors/EU/CO2 per C/always", "CO2 per C")
    return gas_quality("purge gas", fractions, _properties(), _constants(), ratio)


def _on_numbers(sample: int) -> dict[str, float]:
    """Return the same figures from the functions on plain numbers."""
    x = normalise("purge gas", {name: values[sample] for name, values in READINGS.items()})
    mass = compressibility.molar_mass(x, _column(0))
    z = {
        name: compressibility.compression_factor(
            compressibility.summation_factor(x, _column(place))
        )
        for name, place in (("Nm3", 1), ("Sm3", 2))
    }
    volume = {name: compressibility.molar_volume(z[name], IDEAL[name]) for name in z}
    gross, net = heating.molar(x, _column(3)), heating.molar(x, _net())
    relative = compressibility.relative_density(mass, AIR, z["Nm3"], AIR_COMPRESSION["Nm3"])
    atoms = elements.Atoms(*(elements.atoms_in_gas(x, _atoms(place)) for place in range(5)))
    gross_by_volume = heating.by_volume(gross, volume["Nm3"])
    net_by_energy = carbon.carbon_by_energy(atoms.carbon, CARBON, net / 1000)
    gross_by_energy = carbon.carbon_by_energy(atoms.carbon, CARBON, gross / 1000)
    return {
        "molar_mass": mass,
        "gross": gross / 1000,
        "net": net / 1000,
        "gross_by_mass": heating.by_mass(gross, mass),
        "net_by_mass": heating.by_mass(net, mass),
        "gross_by_volume": gross_by_volume,
        "net_by_volume": heating.by_volume(net, volume["Nm3"]),
        "carbon": atoms.carbon,
        "hydrogen": atoms.hydrogen,
        "nitrogen": atoms.nitrogen,
        "oxygen": atoms.oxygen,
        "sulfur": atoms.sulfur,
        "reducing": elements.reducing_equivalents(atoms, elements.PER_ATOM),
        "carbon_content": carbon.carbon_content(atoms.carbon, CARBON, mass),
        "emission_factor_net": carbon.emission_factor(net_by_energy, 3.664),
        "emission_factor_gross": carbon.emission_factor(gross_by_energy, 3.664),
        "density": compressibility.density(mass, volume["Nm3"]),
        "relative_density": relative,
        "wobbe": compressibility.wobbe_index(gross_by_volume, relative),
        "molar_volume, Nm3": volume["Nm3"],
        "molar_volume, Sm3": volume["Sm3"],
    }


@pytest.mark.parametrize("name", _on_numbers(0))
def test_rows_give_the_same_as_numbers(quality: GasQuality, name: str) -> None:
    """Each row holds, sample by sample, what the functions give on plain numbers."""
    attribute, _, condition = name.partition(", ")

    held = getattr(quality, attribute)
    row = held[condition] if condition else held

    expected = [_on_numbers(0)[name], _on_numbers(1)[name]]
    np.testing.assert_allclose(row.values, expected, rtol=1e-12)


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("molar_mass", "kg/kmol"),
        ("gross", "GJ_gross/kmol"),
        ("net", "GJ_net/kmol"),
        ("gross_by_mass", "MJ_gross/kg"),
        ("net_by_mass", "MJ_net/kg"),
        ("gross_by_volume", "MJ_gross/Nm3"),
        ("net_by_volume", "MJ_net/Nm3"),
        ("carbon", "kmol_C/kmol"),
        ("reducing", "kmol_equivalent/kmol"),
        ("carbon_content", "kg_C/kg"),
        ("emission_factor_net", "t_CO2/TJ_net"),
        ("emission_factor_gross", "t_CO2/TJ_gross"),
        ("density", "kg/Nm3"),
        ("relative_density", ""),
        ("wobbe", "MJ_gross/Nm3"),
    ],
)
def test_rows_carry_the_unit_the_reader_expects(
    quality: GasQuality, name: str, expected: str
) -> None:
    """Units follow from the formulas and come out as those of the trade."""
    row: Row = getattr(quality, name)

    assert row.unit == unit(expected)


def test_every_row_has_a_key_of_its_own(quality: GasQuality) -> None:
    """No two named rows behind the quality of a gas share a key."""
    keys = [row.key for row in ancestry(quality.rows) if row.is_named]

    assert len(keys) == len(set(keys))


def test_no_formula_refers_to_more_than_eight_places(quality: GasQuality) -> None:
    """A formula stays short enough to be read; a block of components counts as one place."""
    for row in ancestry(quality.rows):
        if row.is_named and row.op and row.op not in {"SUMPRODUCT", "BLOCK_SUM"}:
            assert _places(row) <= 8, row.key


def _places(row: Row) -> int:
    """Return how many cells a formula refers to."""
    if row.op in {"SUMPRODUCT", "BLOCK_SUM"}:
        return 2
    return sum(1 if arg.is_named else _places(arg) for arg in row.args)


def test_sum_of_readings_is_one_range(quality: GasQuality) -> None:
    """The sum before normalising is spelled as one range, however many components there are."""
    total = next(row for row in ancestry(quality.rows) if row.key.endswith("sum of the readings"))

    text = spell(total, 0, Names())

    assert text.startswith("SUM(")
    assert "," not in text


def test_every_row_names_its_rule(quality: GasQuality) -> None:
    """Each shown row says in words by which rule it was computed."""
    assert all(row.because for row in quality.rows)


def _figures(scale: float) -> list[float]:
    x = normalise("gas", {name: scale * values[0] for name, values in READINGS.items()})
    s = compressibility.summation_factor(x, _column(1))
    return [*x, compressibility.compression_factor(s), heating.molar(x, _net())]


@given(st.floats(min_value=1e-6, max_value=1e6))
def test_scaling_the_readings_changes_nothing(scale: float) -> None:
    """Mole per cent, mole fractions or areas in proportion give the same gas."""
    figures = _figures(scale)

    assert figures == pytest.approx(_figures(1.0), rel=1e-12)


def test_water_vapour_has_no_net_calorific_value() -> None:
    """Water in the gas adds its latent heat to the gross value only: net exactly zero.

    Source: ISO 6976:2016, formula (3): gross value of water is L and it has two hydrogen atoms.
    """
    latent = heating.latent_per_hydrogen(44.013, 2.0)

    assert heating.net_of_component(44.013, 2.0, latent, 1.0) == 0


def test_carbon_monoxide_has_one_value() -> None:
    """A gas without hydrogen has the same value net and gross."""
    latent = heating.latent_per_hydrogen(44.013, 2.0)

    assert heating.net_of_component(282.98, 0.0, latent, 1.0) == 282.98


@given(st.floats(min_value=90.0, max_value=110.0))
def test_compression_factor_goes_to_one_with_pressure(pressure: float) -> None:
    """The deviation from an ideal gas is proportional to pressure.

    Source: ISO 6976:2016, formulas (1) and (18).
    """
    z = compressibility.compression_factor(0.05)

    at_pressure = compressibility.compression_factor_at(z, pressure / 101.325)

    assert math.isclose((1 - at_pressure) / (1 - z), pressure / 101.325, rel_tol=1e-9)
