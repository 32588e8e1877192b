from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footprint.base.axis import months_of
from footprint.base.row import Row, ancestry, constant, leaf
from footprint.base.units import unit
from footprint.gas.elements import (
    PER_ATOM,
    PER_ATOM_ROWS,
    Atoms,
    reducing_equivalents,
)
from footprint.gas.theory import Synthesis, ammonia_from, least_feed_energy, stoichiometry

AIR = 3.72787  # 0.78084 / 0.20946
AMOUNTS = st.floats(min_value=0.01, max_value=100.0)


def _by_linear_equations(reducing: float, nitrogen: float) -> tuple[float, float]:
    """Return air oxygen and ammonia from the two balances as a linear system."""
    # equivalents: 4 oxygen + 3 ammonia = B; nitrogen: ammonia - 2 r oxygen = n
    matrix = np.array([[4.0, 3.0], [-2 * AIR, 1.0]])
    oxygen, ammonia = np.linalg.solve(matrix, np.array([reducing, nitrogen]))
    return float(oxygen), float(ammonia)


@given(reducing=AMOUNTS, share=st.floats(min_value=0.0, max_value=0.999))
def test_ammonia_closes_both_balances(reducing: float, share: float) -> None:
    """With air, what is made solves the balances of equivalents and of nitrogen."""
    nitrogen = share * reducing / 3

    made = ammonia_from(reducing, nitrogen, stoichiometry(AIR))

    expected = _by_linear_equations(reducing, nitrogen)
    assert (made.air_oxygen, made.ammonia) == pytest.approx(expected, rel=1e-9, abs=1e-12)


@given(reducing=AMOUNTS, surplus=st.floats(min_value=1.0, max_value=50.0))
def test_feed_with_all_the_nitrogen_needs_no_air(reducing: float, surplus: float) -> None:
    """Where the feed holds a third of its equivalents or more as nitrogen, no oxygen comes in."""
    made = ammonia_from(reducing, surplus * reducing / 3, stoichiometry(AIR))

    assert made.air_oxygen == pytest.approx(0, abs=1e-14 * reducing)
    assert made.ammonia == pytest.approx(reducing / 3, rel=1e-12)
    assert made.ammonia == pytest.approx(made.ammonia_without_oxygen, rel=1e-12)


@given(reducing=AMOUNTS, share=st.floats(min_value=0.0, max_value=2.0), scale=AMOUNTS)
def test_a_month_of_feed_makes_a_month_of_ammonia(
    reducing: float, share: float, scale: float
) -> None:
    """Scaling the feed scales the ammonia, so that a month is treated as a kmol is."""
    nitrogen = share * reducing / 3
    numbers = stoichiometry(AIR)

    small = ammonia_from(reducing, nitrogen, numbers)
    large = ammonia_from(scale * reducing, scale * nitrogen, numbers)

    assert large.ammonia == pytest.approx(scale * small.ammonia, rel=1e-12)


def _row(value: list[float], name: str, key: str) -> Row:
    months = [*value, *[value[0]] * (12 - len(value))]
    return leaf(months, unit(name), months_of(2025), key=key, words=key, origins=[None])


def _made() -> Synthesis[Row]:
    reducing = _row([8.0e6, 6.0e6], "kmol_equivalent", "ammonia/feed/reducing")
    nitrogen = _row([0.02e6, 2.5e6], "kmol_N", "ammonia/feed/nitrogen")
    ratio = constant(AIR, unit(""), "factors/any/air ratio/always", "air ratio")
    return ammonia_from(reducing, nitrogen, stoichiometry(ratio), "ammonia/feed", "feed")


def test_ammonia_of_rows_equals_that_of_numbers() -> None:
    """Rows give month by month what numbers give, on both sides of the limit of nitrogen."""
    made = _made()

    numbers = stoichiometry(AIR)
    expected = [
        ammonia_from(8.0e6, 0.02e6, numbers).ammonia,
        ammonia_from(6.0e6, 2.5e6, numbers).ammonia,
    ]
    np.testing.assert_allclose(made.ammonia.values[:2], expected, rtol=1e-12)
    assert made.ammonia.unit == unit("kmol_NH3")


def test_rows_of_the_synthesis_are_named_and_short() -> None:
    """Every part has a key of its own, and no formula refers to more than eight cells."""
    made = _made()

    named = [row for row in ancestry([made.ammonia, made.ammonia_without_oxygen]) if row.is_named]

    assert len({row.key for row in named}) == len(named)
    assert all(_places(row) <= 8 for row in named)


def _places(row: Row) -> int:
    return sum(1 if arg.is_named else _places(arg) for arg in row.args)


def test_least_feed_energy_of_rows_has_its_unit() -> None:
    """Energy over ammonia comes out by tonne of ammonia, net staying net."""
    made = _made()
    energy = _row([0.8e6, 0.6e6], "GJ_net", "ammonia/feed/net energy")
    mass = constant(0.017031, unit("t_NH3/kmol_NH3"), "factors/any/ammonia/always", "ammonia")

    least = least_feed_energy(energy, made.ammonia, mass)

    assert least.unit == unit("GJ_net/t_NH3")


def test_carbon_dioxide_in_the_feed_gives_no_equivalents() -> None:
    """Four from carbon less four for its oxygen: CO2 only passes through."""
    dioxide = Atoms(carbon=1.0, hydrogen=0.0, nitrogen=0.0, oxygen=2.0, sulfur=0.0)

    assert reducing_equivalents(dioxide, PER_ATOM) == 0


@pytest.mark.parametrize(
    ("atoms", "equivalents"),
    [((1, 4, 0, 0, 0), 8), ((0, 2, 0, 0, 0), 2), ((1, 0, 0, 1, 0), 2), ((0, 2, 0, 0, 1), 0)],
    ids=["methane", "hydrogen", "carbon monoxide", "hydrogen sulfide"],
)
def test_equivalents_of_pure_gases(atoms: tuple[float, ...], equivalents: float) -> None:
    """Methane 8, hydrogen 2, CO 2, H2S 0: the hydrogen each gives with steam, twice.

    Source: stoichiometry of steam reforming, shift and sulfur removal.
    """
    rows = Atoms(
        *(
            constant(float(n), unit(f"kmol_{symbol}"), symbol, symbol)
            for n, symbol in zip(atoms, "CHNOS", strict=True)
        )
    )

    on_rows = reducing_equivalents(rows, PER_ATOM_ROWS, "gas", "gas")

    assert reducing_equivalents(Atoms(*map(float, atoms)), PER_ATOM) == equivalents
    assert on_rows.values[0] == equivalents
