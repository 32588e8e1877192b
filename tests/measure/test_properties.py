"""The property table of a gas, built from the factor files."""

from __future__ import annotations

from datetime import date

import pytest

from footprint.base.row import ancestry
from footprint.base.units import label, unit
from footprint.gas.properties import CONDITIONS
from footprint.measure.properties import Physics, constants_of, properties_of
from footprint.register import load

COMPONENTS = ("methane", "hydrogen", "ammonia", "water")


@pytest.fixture(scope="module")
def physics() -> Physics:
    """Return the delivered factors on a day of 2025."""
    register, _ = load()
    return Physics(register, date(2025, 12, 31))


def test_net_values_are_those_of_the_1995_table_within_its_change(physics: Physics) -> None:
    """Net values at 25 °C are near those of the edition that still printed them.

    Source: ISO 6976:1995, Table 3, from memory: methane 802.60, hydrogen 241.81 MJ/kmol; the gross
    value of methane fell by 0.05 since. Ammonia 382.81 - 1.5 x 44.013 by hand.
    """
    net = properties_of("gas", COMPONENTS, physics).net

    megajoules = [float(row.values[0]) * 1000 for row in net]
    assert megajoules == pytest.approx([802.554, 241.817, 316.7905, 0.0], abs=1e-9)
    assert megajoules[:2] == pytest.approx([802.60, 241.81], abs=0.05)


def test_rows_of_one_property_share_unit_and_lie_on_one_value(physics: Physics) -> None:
    """Each property is a block: single values in one unit, so that it can stand in one range."""
    properties = properties_of("gas", COMPONENTS, physics, ("Sm3",))

    blocks = {
        "kg/kmol": properties.molar_mass,
        "": properties.summation["Sm3"],
        "GJ_gross/kmol": properties.gross,
        "GJ_net/kmol": properties.net,
        "kmol_H/kmol": properties.atoms.hydrogen,
    }
    for name, block in blocks.items():
        assert {row.unit for row in block} == {unit(name)}
        assert {row.axis.kind for row in block} == {"once"}


def test_two_gases_have_tables_of_their_own(physics: Physics) -> None:
    """Two gases with a component in common share the factor but no row of their tables."""
    first = properties_of("feed gas", COMPONENTS, physics)
    second = properties_of("purge gas", COMPONENTS, physics)

    named = [row for row in ancestry([*first.net, *second.net]) if row.is_named]
    assert len({row.key for row in named}) == len(named)
    assert first.net[0].key == "gas/feed gas/methane/net calorific value"


@pytest.mark.parametrize(
    ("condition", "volume"),
    [
        ("Nm3", 22.4140),
        ("Sm3", 23.6448),
        ("m3_20C", 24.0551),
        ("scf_60F", 836.62),
        ("scf_68F", 849.50),
    ],
)
def test_ideal_molar_volumes_are_the_customary_ones(
    physics: Physics, condition: str, volume: float
) -> None:
    """An ideal gas fills the volumes per kmol that the trade knows.

    Source: 849.5 scf at 68 °F in 40 CFR 98.163, 836.6 at 60 °F in 40 CFR 98.33 (from memory),
    22.414 and 23.645 m3 in ISO 13443 (from memory); last digits from R = 8.3144621.
    """
    row = constants_of(physics, (condition,)).ideal_molar_volume[condition]

    assert row.values[0] == pytest.approx(volume, rel=6e-6)
    assert row.unit == unit(f"{condition}/kmol")


def test_ideal_molar_volume_is_made_once(physics: Physics) -> None:
    """All gases refer to one and the same molar volume."""
    condition = CONDITIONS["Nm3"]

    assert physics.ideal_molar_volume(condition) is physics.ideal_molar_volume(condition)


def test_saturation_line_is_written_for_kilopascal(physics: Physics) -> None:
    """The unit of pressure of the saturation line is 1 MPa, shown in kPa."""
    pressure = physics.saturation.pressure

    assert pressure.values[0] == pytest.approx(1000, rel=1e-12)
    assert label(pressure.unit) == "kPa (abs)"


def test_nitrogen_to_oxygen_of_air_is_that_of_the_handbooks(physics: Physics) -> None:
    """Dry air holds 0.78084 nitrogen and 0.20946 oxygen: common practice, no source."""
    assert physics.synthesis.air_ratio.values[0] == pytest.approx(0.78084 / 0.20946, rel=1e-12)
