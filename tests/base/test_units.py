from __future__ import annotations

import pytest

from footprint.base.formulas import conversion, convert
from footprint.base.operations import UnitMismatchError
from footprint.base.units import is_convertible, label, ratio_of, time_below, unit
from tests.base.rows import factor, read


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("t_C", "t_CO2"),  # 44/12 forgotten
        ("GJ_net", "GJ_gross"),  # basis of the heating value forgotten
        ("Nm3", "Sm3"),  # 0 °C and 15 °C
        ("t_CO2", "t_CO2e"),  # warming potential forgotten
        ("t_NH3", "tonne"),
        ("kmol_C", "kmol"),
    ],
)
def test_unlike_things_are_not_added(first: str, second: str) -> None:
    """Adding what differs by a forgotten factor is refused, and both origins are named."""
    feed, other = read([1, 2, 3, 4], first), factor(2, second, words="urea carbon")

    with pytest.raises(UnitMismatchError) as refusal:
        feed + other

    assert "feed.xlsx > Daily > B2" in str(refusal.value)
    assert "a handbook, table 1" in str(refusal.value)
    assert label(unit(first)) in str(refusal.value)


def test_comparing_unlike_things_is_refused() -> None:
    """A limit in another unit than the figure is a mistake, not a comparison."""
    with pytest.raises(UnitMismatchError, match="feed gas"):
        _ = read([1, 2, 3, 4], "t_C") < factor(3, "t_CO2")


def test_substances_cancel_in_products() -> None:
    """Tonnes of carbon times CO2 per carbon are tonnes of CO2."""
    emitted = read([10, 20, 30, 40], "t_C") * factor(3.664, "t_CO2/t_C")

    assert emitted.unit == unit("t_CO2")


@pytest.mark.parametrize(
    ("have", "want", "expected"),
    [
        ("MWh_net", "GJ_net", 3.6),
        ("kg_CO2", "t_CO2", 0.001),
        ("TJ_net", "GJ_net", 1000.0),
        ("bar", "kPa", 100.0),
        ("MNm3", "Nm3", 1e6),
        ("kg_CO2/TJ_net", "t_CO2/GJ_net", 1e-6),
    ],
)
def test_conversions_are_exact_decimals(have: str, want: str, expected: float) -> None:
    """A conversion within one dimension is the decimal factor itself, without dust.

    Source: SI prefixes; 1 MWh = 3.6 GJ (definition)
    """
    assert ratio_of(unit(have), unit(want)) == expected


def test_reference_conditions_do_not_convert() -> None:
    """A cubic metre at 0 °C is not turned into one at 15 °C by a number alone."""
    assert not is_convertible(unit("Nm3"), unit("Sm3"))
    with pytest.raises(ValueError, match="measure different things"):
        ratio_of(unit("Nm3"), unit("Sm3"))


def test_a_conversion_is_one_visible_row() -> None:
    """The factor between two units is a named row, the same for every use."""
    mass = read([1, 2, 3, 4], "kg_CO2")

    converted = convert(mass, unit("t_CO2"), "test/mass/t", "mass in tonnes")

    assert converted.args == (mass, conversion(unit("kg_CO2"), unit("t_CO2")))
    assert converted.values.tolist() == [0.001, 0.002, 0.003, 0.004]
    assert convert(mass, unit("kg_CO2"), "test/mass/kg", "mass") is mass


@pytest.mark.parametrize(
    ("text", "time"),
    [("Nm3/hour", "hour"), ("t_NH3/day", "day"), ("kg/second", "second")],
)
def test_time_that_a_rate_is_counted_by_is_known(text: str, time: str) -> None:
    """A rate tells the time below its amount, so that rate times time is the amount."""
    found = time_below(unit(text))

    assert found == unit(time)


@pytest.mark.parametrize("text", ["Nm3", "hour", "kg/kmol"])
def test_amount_has_no_time_below(text: str) -> None:
    """An amount, a duration and a ratio of amounts are no rates."""
    assert time_below(unit(text)) is None
