"""40 CFR Part 98 applied to a works whose figures are known."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from footprint.account import Account
from footprint.bases import Basis, bases
from footprint.bases.effects import gross_of
from footprint.bases.rules import Rules
from tests.sites.hand_made import HandMade, plain_works

CARBON, HYDROGEN = 12.011, 1.00794  # atomic weights of IUPAC, from memory: a check to 1e-4 only


def applied(made: HandMade, year: int = 2025) -> tuple[Account, Basis]:
    """Return the figures of a works, and the basis applied to them under the rules of a year."""
    made.works = {**made.works, "bases": ["40 CFR Part 98"]}
    account = made.account()
    (basis,), findings = bases(account, year)
    assert findings == []
    return account, basis


def exact(basis: Basis, number: str) -> float:
    """Return the exact figure of a line."""
    return float(next(one for one in basis.lines if one.number == number).exact.values[0])


def over_total(account: Account, basis: Basis, year: int = 2025) -> float:
    """Return gross CO2 and all steps, over the total."""
    gross = float(gross_of(Rules(account, year)).values[0])
    steps = sum(float(one.effect.values[0]) for one in basis.effects)
    return (gross + steps) / float(basis.total.values[0])


def test_feed_is_counted_by_volume_at_68_f_and_849_5() -> None:
    """Methane: one Nm3 is 37.9005 scf; a kmol by 849.5 gives 44 kg of CO2 for 12 kg of carbon.

    Source: equation G-1; ideal molar volume 22.41397 Nm3/kmol (CODATA).
    """
    _, basis = applied(plain_works())

    kmol = 12 * 18.43e6 / 22.41397
    assert exact(basis, "98.76(b)(2)") == pytest.approx(kmol * 849.5, rel=1e-6)
    assert exact(basis, "98.76(b)(1)") == pytest.approx(kmol * CARBON * 44 / 12 / 1000, rel=1e-4)


def test_fuel_is_counted_by_c_5_and_table_c_2() -> None:
    """Fuel gas by its carbon; CH4 by the default heat content: 0.001 kg in a mmBtu."""
    _, basis = applied(plain_works())

    scf = 12 * 7.54e6 / 22.41397 * 849.5
    assert exact(basis, "98.36 CO2") == pytest.approx(scf / 849.5 * CARBON * 44 / 12e3, rel=1e-4)
    assert exact(basis, "98.36 CH4") == pytest.approx(scf * 0.001026 * 1e-6, rel=1e-6)
    assert exact(basis, "98.36 N2O") == pytest.approx(scf * 0.001026 * 1e-7, rel=1e-6)


def test_diesel_is_counted_in_gallons_by_table_c_1() -> None:
    """10 000 L a month: 0.26417 gal, 0.138 mmBtu, 73.96 kg of CO2 (Tables A-2 and C-1)."""
    made = plain_works()
    made.counted(
        "diesel",
        "other fuel",
        "litre",
        10_000.0,
        fuel="gas or diesel oil",
        density_kg_per_litre=0.84,
    )
    _, with_diesel = applied(made)
    _, without = applied(plain_works())

    added = exact(with_diesel, "98.36 CO2") - exact(without, "98.36 CO2")
    assert added == pytest.approx(12 * 10_000 * 0.26417 * 0.138 * 73.96 / 1000, rel=1e-6)


def test_co2_to_urea_and_sold_are_lines_and_not_subtracted() -> None:
    """Urea and sales change no figure of subparts G and C; supply is told by quarter."""
    made = plain_works()
    made.counted("CO2 removed", "CO2 removed", "t_CO2", 35_000.0)
    made.counted("CO2 to urea", "CO2 to urea", "t_CO2", 8_000.0, is_counted_elsewhere=True)
    made.counted("urea", "urea", "t_urea", 10_000.0)
    sold = [100.0 * month for month in range(1, 13)]
    made.counted("liquid CO2", "CO2 sold", "t_CO2", sold, use="drinks", is_counted_elsewhere=False)
    _, basis = applied(made)
    _, plain = applied(plain_works())

    assert float(basis.total.values[0]) == pytest.approx(float(plain.total.values[0]))
    assert exact(basis, "98.76(b)(13)") == pytest.approx(96_000.0, rel=1e-6)
    assert exact(basis, "98.426(a) Q2") == pytest.approx(1_500.0, rel=1e-6)
    assert exact(basis, "98.422") == pytest.approx(7_800.0, rel=1e-6)
    assert any("98.73(b)(4)" in doubt for doubt in basis.doubts)


def test_purge_gas_is_no_fuel_of_subpart_c() -> None:
    """Purge gas burnt adds nothing: its carbon is in the feed."""
    made = plain_works()
    made.gas("purge", {"methane": 40.0, "hydrogen": 60.0})
    made.counted("purge gas", "purge gas", "Nm3", 1e6, analysis="purge", to="fuel")
    account, basis = applied(made)
    _, plain = applied(plain_works())

    assert exact(basis, "98.36 CO2") == pytest.approx(exact(plain, "98.36 CO2"))
    assert over_total(account, basis) == pytest.approx(1.0, rel=1e-12)


def test_the_rules_of_2024_take_the_older_warming_potentials_and_say_so() -> None:
    """25 and 298 until 31 December 2024; which applies to 2024 itself is printed as a doubt."""
    _, old = applied(plain_works(), 2024)
    _, new = applied(plain_works())

    ch4, n2o = exact(new, "98.36 CH4"), exact(new, "98.36 N2O")
    moved = float(new.total.values[0]) - float(old.total.values[0])
    assert moved == pytest.approx(3 * ch4 - 33 * n2o, rel=1e-6)
    assert any("2024" in doubt and "confirm" in doubt for doubt in old.doubts)


@given(
    gas=st.fixed_dictionaries(
        {
            "methane": st.floats(60, 95),
            "ethane": st.floats(0, 10),
            "nitrogen": st.floats(0, 5),
            "carbon dioxide": st.floats(0, 5),
        }
    ),
    feed=st.floats(1e5, 5e7),
    fuel=st.floats(0, 2e7),
    diesel=st.floats(0, 1e5),
    unit=st.sampled_from(["Nm3", "Sm3", "m3_20C", "scf_60F", "scf_68F"]),
)
@settings(max_examples=15, deadline=None)
def test_the_bridge_closes_on_any_works(
    gas: dict[str, float], feed: float, fuel: float, diesel: float, unit: str
) -> None:
    """Gross CO2 and all steps make the total, whatever the gas, the meters and their conditions."""
    whole = sum(gas.values())
    made = HandMade()
    made.gas("gas", {name: 100 * share / whole for name, share in gas.items()})
    made.counted("feed gas", "feed", unit, feed, analysis="gas")
    made.counted("fuel gas", "fuel", unit, fuel, analysis="gas")
    made.counted("fence", "purchased gas", unit, 1.02 * (feed + fuel), analysis="gas")
    made.meter("LAB", "percent", 100.0)
    made.counted("ammonia", "ammonia produced", "t_NH3", 30_000.0, purity="LAB")
    made.counted(
        "diesel", "other fuel", "litre", diesel, fuel="gas or diesel oil", density_kg_per_litre=0.84
    )

    account, basis = applied(made)

    assert np.isfinite(basis.total.values[0])
    assert over_total(account, basis) == pytest.approx(1.0, rel=1e-12)
