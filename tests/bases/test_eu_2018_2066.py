"""Implementing Regulation (EU) 2018/2066 applied to a works whose figures are known."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from footprint.account import Account
from footprint.bases import Basis, bases
from footprint.bases.effects import gross_of
from footprint.bases.rules import Rules
from tests.sites.hand_made import HandMade, plain_works

NAME = "EU 2018/2066"
DIESEL = {"fuel": "gas or diesel oil", "density_kg_per_litre": 0.84}


def applied(made: HandMade, name: str = NAME) -> tuple[Account, Basis]:
    """Return the figures of a works, and the regulation applied to them."""
    made.works = {**made.works, "bases": [name]}
    account = made.account()
    (basis,), findings = bases(account)
    assert findings == []
    return account, basis


def figure(basis: Basis, words: str) -> float:
    """Return the exact figure of a line."""
    return float(next(one for one in basis.lines if one.words == words).exact.values[0])


def over_total(account: Account, basis: Basis) -> float:
    """Return gross CO2 and all steps, over the total."""
    gross = float(gross_of(Rules(account, 2025)).values[0])
    steps = sum(float(one.effect.values[0]) for one in basis.effects)
    return (gross + steps) / float(basis.total.values[0])


def test_feed_and_fuel_are_counted_alike_with_3_664() -> None:
    """All carbon of feed and fuel times 3.664; activity data in TJ, factor in t CO2 by TJ.

    Source: Annex IV section 17, Article 24(1), Article 36(3) (seen).
    """
    account, basis = applied(plain_works())
    record = account.record
    carbon = sum(float(one.carbon.values.sum()) for one in (*record.feeds, *record.fuels))

    assert figure(basis, "total emissions of the installation") == pytest.approx(carbon * 3.664)
    energy = figure(basis, "feed gas: activity data")
    factor = figure(basis, "feed gas: emission factor")
    assert energy * factor == pytest.approx(figure(basis, "feed gas: emissions"))


def test_the_factor_of_methane_is_close_to_the_table() -> None:
    """Methane by analysis gives 54.9 t CO2 by TJ, as far as a table with 50.0 GJ by tonne can say.

    Source: Annex VI, table 1, methane: 54.9 (seen).
    """
    _, basis = applied(plain_works())

    assert figure(basis, "feed gas: emission factor") == pytest.approx(54.9, abs=0.08)


def test_diesel_takes_the_table() -> None:
    """10 000 L a month at 0.84 kg/L: 43.0 GJ/t and 74.1 t CO2/TJ.

    Source: Annex VI, table 1, gas or diesel oil (seen).
    """
    made = plain_works()
    made.counted("diesel", "other fuel", "litre", 10_000.0, **DIESEL)
    _, basis = applied(made)

    tonnes = 12 * 10_000 * 0.84 / 1000
    assert figure(basis, "diesel: emissions") == pytest.approx(tonnes * 43.0 * 74.1 / 1000)


def test_urea_and_sales_stay_and_storage_is_taken_off() -> None:
    """CO2 to urea and sold is emitted by the works; only CO2 to storage is deducted.

    Source: Annex IV section 17, Article 49(1) (seen).
    """
    made = plain_works()
    made.counted("CO2 removed", "CO2 removed", "t_CO2", 35_000.0)
    made.counted("to urea", "CO2 to urea", "t_CO2", 8_000.0, is_counted_elsewhere=True)
    made.counted("urea", "urea", "t_urea", 10_000.0)
    made.counted("sold", "CO2 sold", "t_CO2", 500.0, is_counted_elsewhere=True)
    made.counted("stored", "CO2 to storage", "t_CO2", 1_000.0, is_counted_elsewhere=True)
    account, basis = applied(made)
    _, plain = applied(plain_works())

    words = "total emissions of the installation"
    assert figure(plain, words) - figure(basis, words) == pytest.approx(12_000.0, rel=1e-6)
    assert figure(basis, "to urea: to urea, counted as emitted") == pytest.approx(96_000, rel=1e-6)
    assert over_total(account, basis) == pytest.approx(1.0, rel=1e-12)


def test_the_total_is_filed_in_whole_tonnes() -> None:
    """Article 72(1): whole tonnes; the exact figure stands beside it."""
    _, basis = applied(plain_works())
    line = next(one for one in basis.lines if one.number == "total")

    assert float(line.filed.values[0]) == round(float(line.exact.values[0]))


def test_the_uk_version_says_what_is_not_known() -> None:
    """The same arithmetic under its own name, with the doubt first."""
    _, basis = applied(plain_works(), "UK 2018/2066")
    _, of_the_eu = applied(plain_works())

    assert basis.total.values[0] == of_the_eu.total.values[0]
    assert "UK" in basis.doubts[0]


@given(
    methane=st.floats(60, 95),
    co2=st.floats(0, 5),
    feed=st.floats(1e5, 5e7),
    fuel=st.floats(0, 2e7),
    diesel=st.floats(0, 1e5),
    stored=st.floats(0, 1e4),
)
@settings(max_examples=15, deadline=None)
def test_the_bridge_closes_on_any_works(  # noqa: PLR0913, PLR0917  what a works is made of
    methane: float, co2: float, feed: float, fuel: float, diesel: float, stored: float
) -> None:
    """Gross CO2 and all steps make the total."""
    made = HandMade()
    made.gas("gas", {"methane": methane, "carbon dioxide": co2, "nitrogen": 100 - methane - co2})
    made.counted("feed gas", "feed", "Nm3", feed, analysis="gas")
    made.counted("fuel gas", "fuel", "Sm3", fuel, analysis="gas")
    made.meter("LAB", "percent", 100.0)
    made.counted("ammonia", "ammonia produced", "t_NH3", 30_000.0, purity="LAB")
    made.counted("diesel", "other fuel", "litre", diesel, **DIESEL)
    made.counted("CO2 removed", "CO2 removed", "t_CO2", 35_000.0)
    made.counted("stored", "CO2 to storage", "t_CO2", stored, is_counted_elsewhere=True)

    account, basis = applied(made)

    assert over_total(account, basis) == pytest.approx(1.0, rel=1e-12)
