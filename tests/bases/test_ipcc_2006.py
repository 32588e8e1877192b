"""The 2006 IPCC Guidelines applied to a works whose figures are known."""

from __future__ import annotations

import math

import numpy as np
import pytest

from footprint.account import Account
from footprint.base.line import Line
from footprint.bases import Basis, bases
from footprint.bases.effects import gross_of
from footprint.bases.rules import Rules
from tests.sites.hand_made import HandMade, plain_works

DIESEL = "gas or diesel oil"
# GWP100 of CH4 and N2O: IPCC AR4 WG I table 2.14; AR5 WG I table 8.A.1; AR6 WG I table 7.SM.7
WARMING = {"AR4": (25.0, 298.0), "AR5": (28.0, 265.0), "AR6": (27.9, 273.0)}


def applied(made: HandMade) -> tuple[Account, Basis]:
    """Return the figures of a works, and the basis applied to them."""
    account = made.account()
    every, findings = bases(account)
    assert findings == []
    assert [one.name for one in every] == ["IPCC 2006"]
    return account, every[0]


def year(basis: Basis, words: str) -> float:
    """Return the exact figure of the year of one line to file."""
    line = next(one for one in basis.lines if one.words.startswith(words))
    return float(line.exact.values[0])


def line_of(basis: Basis, words: str) -> Line:
    """Return a line of the sections by its words."""
    lines = [line for section in basis.sections for line in section.lines]
    return next(line for line in lines if line.row.words == words)


def months(line: Line) -> np.ndarray:
    """Return the months of a line."""
    assert line.months is not None
    return line.months.values


def with_urea(*, is_counted_elsewhere: bool) -> HandMade:
    """Return a works that makes 10 000 t of urea a month from 8 000 t of CO2."""
    made = plain_works()
    made.counted("CO2 removed", "CO2 removed", "t_CO2", 35_000.0)
    made.counted(
        "CO2 to urea",
        "CO2 to urea",
        "t_CO2",
        8_000.0,
        is_counted_elsewhere=is_counted_elsewhere,
    )
    made.counted("urea", "urea", "t_urea", 10_000.0)
    return made


def with_sold(tonnes: float, *, is_counted_elsewhere: bool) -> HandMade:
    """Return a works that sells CO2 over a weighbridge in January."""
    made = plain_works()
    made.counted("CO2 removed", "CO2 removed", "t_CO2", 35_000.0)
    made.counted(
        "liquid CO2",
        "CO2 sold",
        "t_CO2",
        [tonnes, *[0.0] * 11],
        is_counted_elsewhere=is_counted_elsewhere,
    )
    return made


def test_all_carbon_of_feed_and_fuel_becomes_co2_by_44_over_12() -> None:
    """Gross CO2 is carbon times 44/12, feed, fuel gas and diesel together.

    Source: 2006 IPCC Guidelines, volume 3, equation 3.3 (from memory): carbon oxidised in full.
    """
    made = plain_works()
    made.counted("diesel", "other fuel", "tonne", 100.0, fuel=DIESEL)
    account, basis = applied(made)

    gases = [one.carbon.values for one in (*account.record.feeds, *account.record.fuels)]
    diesel = [one.carbon.values for one in account.measured.fuel.values()]

    carbon = float(np.sum([*gases, *diesel]))
    assert year(basis, "CO2 generated") == pytest.approx(carbon * 44 / 12)


def test_carbon_content_is_carbon_over_energy() -> None:
    """The content of methane is 15 kg C/GJ net within 1 %.

    Source: 12.011 kg over 0.8026 GJ in a kmol of methane, handbook values from memory.
    """
    _, basis = applied(plain_works())

    content = line_of(basis, "carbon content of feed and fuel")

    assert months(content) == pytest.approx(np.full(12, 12.011 / 0.8026), rel=0.01)


def test_urea_is_deducted_by_44_over_60_of_what_was_made() -> None:
    """10 000 t of urea a month take off 88 000 t in the year, whatever CO2 was sent to it.

    Source: 2006 IPCC Guidelines, volume 3, section 3.2.2 (from memory): 44/60 t CO2 by t urea.
    """
    _, basis = applied(with_urea(is_counted_elsewhere=True))

    recovered = year(basis, "CO2 recovered")

    assert recovered == pytest.approx(12 * 10_000 * 44 / 60)
    assert year(basis, "CO2 emitted") == pytest.approx(year(basis, "CO2 generated") - recovered)


def test_urea_is_not_deducted_where_nobody_else_counts_it() -> None:
    """Without another inventory that counts the release, CO2 in urea stays in the total."""
    _, basis = applied(with_urea(is_counted_elsewhere=False))

    assert year(basis, "CO2 recovered") == 0.0
    assert year(basis, "CO2 emitted") == pytest.approx(year(basis, "CO2 generated"))


@pytest.mark.parametrize(("is_counted_elsewhere", "deducted"), [(False, 0.0), (True, 1_000.0)])
def test_co2_sold_is_deducted_only_where_it_is_counted_elsewhere(
    is_counted_elsewhere: bool,  # noqa: FBT001  a case
    deducted: float,
) -> None:
    """CO2 sold for short use stays in the total; CO2 that somebody else counts is taken off."""
    _, basis = applied(with_sold(1_000.0, is_counted_elsewhere=is_counted_elsewhere))

    assert year(basis, "CO2 recovered") == pytest.approx(deducted)
    assert year(basis, "CO2 emitted") == pytest.approx(year(basis, "CO2 generated") - deducted)


def test_co2_stored_is_deducted_where_it_is_counted_elsewhere() -> None:
    """CO2 that goes to a store which another inventory follows is taken off."""
    made = plain_works()
    made.counted("CO2 removed", "CO2 removed", "t_CO2", 35_000.0)
    made.counted("to store", "CO2 to storage", "t_CO2", 500.0, is_counted_elsewhere=True)

    _, basis = applied(made)

    assert year(basis, "CO2 recovered") == pytest.approx(6_000.0)


@pytest.mark.parametrize(("gas", "of_gas", "of_diesel"), [("CH4", 1.0, 3.0), ("N2O", 0.1, 0.6)])
def test_other_gases_are_energy_times_the_default_factor(
    gas: str, of_gas: float, of_diesel: float
) -> None:
    """CH4 and N2O follow from net energy of gas and diesel.

    Source: 2006 IPCC Guidelines, volume 2, table 2.3 (manufacturing industries), kg/TJ.
    """
    made = plain_works()
    made.counted("diesel", "other fuel", "tonne", 100.0, fuel=DIESEL)
    account, basis = applied(made)
    energy = float(account.record.fuels[0].net.values.sum())
    diesel = 12 * 100 * 43.0  # GJ: volume 2, table 1.2

    expected = (energy * of_gas + diesel * of_diesel) / 1e6

    assert year(basis, f"{gas} emitted") == pytest.approx(expected)


def test_off_gas_burnt_counts_with_gas_and_off_gas_sold_does_not() -> None:
    """Purge gas to the furnace adds to the energy burnt; what is sold is burnt elsewhere."""
    made = plain_works()
    made.gas("purge", {"hydrogen": 60.0, "nitrogen": 20.0, "methane": 20.0})
    made.counted("purge gas", "purge gas", "Nm3", 2.0e6, analysis="purge", to="fuel")
    made.counted("flash gas", "flash gas", "Nm3", 2.0e6, analysis="purge", to="sold")
    account, basis = applied(made)

    burnt = months(line_of(basis, "gas burnt, off-gas included: net energy"))

    purge = account.measured.gas["purge gas"].net.values
    assert burnt == pytest.approx(account.record.fuels[0].net.values + purge)


@pytest.mark.parametrize("edition", sorted(WARMING))
def test_warming_potentials_are_those_of_the_edition_chosen(edition: str) -> None:
    """CO2e is each gas times the GWP100 of the report that the site file names.

    Source: stands with the values above.
    """
    made = plain_works()
    made.works["gwp_set"] = edition
    _, basis = applied(made)
    methane, nitrous = WARMING[edition]

    whole = line_of(basis, f"CO2, CH4 and N2O as CO2e, {edition}").year

    expected = (
        year(basis, "CO2 emitted")
        + methane * year(basis, "CH4 emitted")
        + nitrous * year(basis, "N2O emitted")
    )
    assert whole is not None
    assert whole.values[0] == pytest.approx(expected)


def test_tier_1_is_production_times_the_default_of_the_process() -> None:
    """30 000 t a month at 37.5 GJ by tonne and 15.3 kg C by GJ give 2.104 t CO2 by tonne.

    Source: 2006 IPCC Guidelines, volume 3, table 3.1, average value natural gas (from memory).
    """
    _, basis = applied(plain_works())

    default = line_of(basis, "CO2 generated from feed and fuel, tier 1")

    assert months(default) == pytest.approx(np.full(12, 30_000 * 37.5 * 15.3e-3 * 44 / 12))
    assert months(default) / 30_000 == pytest.approx(np.full(12, 2.104), abs=0.0005)


def test_tier_3_stands_beside_tier_1() -> None:
    """The ratio of the two says how plausible the figure is, by month and for the year."""
    _, basis = applied(plain_works())

    ratio = line_of(basis, "tier 3 over tier 1")

    assert ratio.year is not None
    assert ratio.year.values[0] == pytest.approx(
        year(basis, "CO2 generated") / (12 * 30_000 * 37.5 * 15.3e-3 * 44 / 12)
    )


@pytest.mark.parametrize(("tonnes", "filed"), [(12.5, 13.0), (13.5, 14.0), (12.4, 12.0)])
def test_a_half_is_filed_away_from_zero(tonnes: float, filed: float) -> None:
    """12.5 t are filed as 13 t and 13.5 t as 14 t: never to the even neighbour.

    Source: rounding half away from zero is what spreadsheets do: common practice, no source.
    """
    _, basis = applied(with_sold(tonnes, is_counted_elsewhere=True))

    line = next(one for one in basis.lines if one.words.startswith("CO2 recovered"))

    assert line.filed.values[0] == filed


def test_every_filed_figure_is_its_exact_one_rounded() -> None:
    """CO2 is filed in whole tonnes, CH4 and N2O in tenths."""
    _, basis = applied(plain_works())

    for line in basis.lines:
        scale = 1 if "CO2" in line.words else 10
        exact = float(line.exact.values[0])
        assert line.filed.values[0] == pytest.approx(math.floor(exact * scale + 0.5) / scale)


def test_what_is_from_memory_says_so() -> None:
    """Every doubt about the rule is printed with the basis."""
    _, basis = applied(plain_works())

    assert any("from memory" in doubt for doubt in basis.doubts)
    assert all(line.evidence != "seen" for line in basis.lines)
    assert all("(from memory)" in line.rule for line in basis.lines if line.evidence == "memory")


def test_urea_that_is_not_metered_is_told() -> None:
    """CO2 to urea is not deducted without the urea made, and a finding says so."""
    made = plain_works()
    made.counted("CO2 removed", "CO2 removed", "t_CO2", 35_000.0)
    made.counted("CO2 to urea", "CO2 to urea", "t_CO2", 8_000.0, is_counted_elsewhere=True)

    every, findings = bases(made.account())

    assert year(every[0], "CO2 recovered") == 0
    assert [one.code for one in findings] == ["urea-made-not-metered"]


def test_the_bridge_leads_from_gross_co2_to_the_total() -> None:
    """Gross CO2 of the works and all steps make the total of the basis, whatever is deducted."""
    made = with_urea(is_counted_elsewhere=True)
    made.counted("diesel tank", "CO2 sold", "t_CO2", 12.5, is_counted_elsewhere=True)

    account, basis = applied(made)

    gross = gross_of(Rules(account, 2025))
    steps = sum(float(one.effect.values[0]) for one in basis.effects)
    assert {one.topic for one in basis.effects} >= {"CO2 to urea", "CO2 sold", "other gases"}
    assert gross.values[0] + steps == pytest.approx(basis.total.values[0], rel=1e-12)


def bridged(account: Account, basis: Basis) -> float:
    """Return gross CO2 and all steps, over the total."""
    gross = float(gross_of(Rules(account, 2025)).values[0])
    return (gross + sum(float(one.effect.values[0]) for one in basis.effects)) / float(
        basis.total.values[0]
    )


@pytest.mark.parametrize("tier", [1, 2, 3])
def test_the_tier_that_the_site_file_names_is_filed(tier: int) -> None:
    """Tier 1 takes energy and carbon from the table, tier 2 the energy, tier 3 neither.

    Source: 2006 IPCC Guidelines, volume 3, equations 3.1 to 3.4, table 3.1 (from memory).
    """
    made = plain_works()
    made.more = {"ipcc": {"tier": tier}}
    account, basis = applied(made)
    energy = account.energy.feed.values.sum() + account.energy.fuel.values.sum()
    carbon = sum(float(one.carbon.values.sum()) for one in account.record.feeds)
    carbon += sum(float(one.carbon.values.sum()) for one in account.record.fuels)
    need = 12 * 30_000 * 37.5
    expected = {1: need * 15.3e-3, 2: need * carbon / energy, 3: carbon}[tier]

    generated = year(basis, "CO2 generated")

    assert generated == pytest.approx(expected * 44 / 12, rel=1e-9)
    assert bridged(account, basis) == pytest.approx(1.0, rel=1e-12)
    assert f"tier {tier}:" in basis.said[0].text


def test_urea_may_be_deducted_by_the_meter_of_its_co2() -> None:
    """Where the site file says so, the CO2 metered to urea is deducted instead of urea made."""
    made = with_urea(is_counted_elsewhere=True)
    made.more = {"ipcc": {"urea_by": "CO2 metered"}}

    account, basis = applied(made)

    assert year(basis, "CO2 recovered") == pytest.approx(12 * 8_000.0, rel=1e-4)
    assert bridged(account, basis) == pytest.approx(1.0, rel=1e-12)
