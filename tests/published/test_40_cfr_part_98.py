"""Equations of 40 CFR Part 98 on plants made of plain numbers, answers worked with exact fractions.

No worked example of the rule could be read. The cases follow equations G-1, G-4 and PP-1, whose
symbols were seen, and C-2a, C-2b, C-5, C-8, C-9a, A-1 and PP-3a, which are from memory.
"""

from __future__ import annotations

import csv
from collections import defaultdict
from datetime import date
from pathlib import Path

import pytest

from footprint.bases import us_part98_equations as rule
from footprint.bases.us_part98_missing import carbon_content, fuel_property, quantity
from tests.sites.hand_made import factors

FILE = Path(__file__).with_name("us_part98_cases.csv")
RATIO, IDEAL, KILO = 44 / 12, 849.5, 0.001
EXACT = 1e-9  # relative, as the answers are given
Table = dict[tuple[str, str, str], dict[str, float]]


def table() -> Table:
    """Return inputs and answers by case, role and name; each by index."""
    found: Table = defaultdict(dict)
    with FILE.open(encoding="utf-8", newline="") as lines:
        for line in csv.DictReader(lines):
            found[line["case"], line["role"], line["name"]][line["index"]] = float(line["value"])
    return found


CASES = table()


def given(case: str, name: str) -> dict[str, float]:
    """Return the inputs of a name."""
    return CASES[case, "input", name]


def answer(case: str, name: str, index: str = "year") -> float:
    """Return an answer."""
    return CASES[case, "result", name][index]


def term(volume: float, carbon: float, molar_weight: float) -> float:
    """Return tonnes of CO2 by G-1 or C-5."""
    counted = rule.gas_carbon(volume, (carbon, molar_weight), IDEAL)
    return rule.as_co2_by_rule(counted, RATIO) * KILO


def test_equation_g_1_over_twelve_months() -> None:
    """Case A01: each month's term and the year."""
    volumes, contents = given("A01", "Fdstk_n"), given("A01", "CC_n")
    weight = given("A01", "MW")["year"]

    terms = {month: term(volumes[month], contents[month], weight) for month in volumes}

    steps = CASES["A01", "step", "CO2_term_n"]
    assert terms == pytest.approx(steps, rel=EXACT)
    assert sum(terms.values()) == pytest.approx(answer("A01", "CO2_G"), rel=EXACT)
    assert sum(volumes.values()) == pytest.approx(answer("A01", "sum_Fdstk"), rel=EXACT)


def test_two_feeds_one_of_them_idle_for_half_the_year() -> None:
    """Case A02: months without flow need no carbon content; the unit is the sum (G-4)."""
    unit = 0.0
    for feed in ("natural_gas", "off_gas"):
        weight = given("A02", "MW")[f"{feed}:year"]
        co2 = sum(
            term(volume, given("A02", "CC_n").get(month, 0.0), weight)
            for month, volume in given("A02", "Fdstk_n").items()
            if month.startswith(feed)
        )
        assert co2 == pytest.approx(answer("A02", "CO2_G", f"{feed}:year"), rel=EXACT)
        unit += co2

    assert unit == pytest.approx(answer("A02", "E_CO2"), rel=EXACT)


def test_tier_2_with_monthly_heat_content() -> None:
    """Case A03: two results of July are averaged first, then C-2b, C-2a, C-9a and A-1."""
    fuel, heat = dict(given("A03", "Fuel_i")), dict(given("A03", "HHV_i"))
    july = [heat.pop(f"m07:sample{place}") for place in (1, 2)]
    heat["m07"] = sum(july) / 2

    mean = rule.weighted_mean([heat[month] for month in fuel], list(fuel.values()))
    whole = sum(fuel.values())
    co2, ch4, n2o = (rule.from_heat(whole, mean, factor) * KILO for factor in (53.06, 1e-3, 1e-4))

    assert mean == pytest.approx(answer("A03", "HHV_annual"), rel=EXACT)
    assert co2 == pytest.approx(answer("A03", "CO2"), rel=EXACT)
    assert ch4 == pytest.approx(answer("A03", "CH4"), rel=EXACT)
    assert n2o == pytest.approx(answer("A03", "N2O"), rel=EXACT)
    assert co2 + 28 * ch4 + 265 * n2o == pytest.approx(answer("A03", "CO2e"), rel=EXACT)


def test_tier_3_leaves_purge_gas_out() -> None:
    """Case A04: natural gas alone by C-5 and C-8; the purge would be a double count."""
    volume = given("A04", "Fuel")["natural_gas:year"]
    carbon = given("A04", "CC")["natural_gas:year"]
    weight = given("A04", "MW")["natural_gas:year"]

    co2 = term(volume, carbon, weight)
    ch4, n2o = (rule.from_heat(volume, 0.001026, factor) * KILO for factor in (1e-3, 1e-4))

    assert co2 == pytest.approx(answer("A04", "CO2"), rel=EXACT)
    assert ch4 == pytest.approx(answer("A04", "CH4"), rel=EXACT)
    assert co2 + 28 * ch4 + 265 * n2o == pytest.approx(answer("A04", "CO2e"), rel=EXACT)


def test_supply_through_two_mass_meters() -> None:
    """Case A05: PP-1 for each meter, PP-3a for both; a quarter without flow has no analysis."""
    flows, shares = given("A05", "Q_p"), given("A05", "C_CO2_p")
    both = 0.0
    for meter in ("meter1", "meter2"):
        quarters = [f"{meter}:q{place}" for place in (1, 2, 3, 4)]
        co2 = rule.supplied_co2(
            [flows[one] for one in quarters], [shares.get(one, 0.0) / 100 for one in quarters]
        )
        assert co2 == pytest.approx(answer("A05", "CO2_u", f"{meter}:year"), rel=EXACT)
        both += co2

    assert both == pytest.approx(answer("A05", "CO2"), rel=EXACT)


def test_printed_constants_are_those_of_an_ideal_gas() -> None:
    """849.5 and 836.6 scf in a kmol at 68 and 60 F and one atmosphere; 5.18e-7 is 44 over 849.5.

    Source: molar gas constant 8.314462618 J/mol/K (CODATA 2018); cubic foot 0.3048^3 m3.
    """
    foot = 0.3048**3
    for fahrenheit, printed in ((68.0, 849.5), (60.0, 836.6)):
        kelvin = (fahrenheit - 32) / 1.8 + 273.15
        assert 8.314462618 * kelvin / 101.325 / foot == pytest.approx(printed, abs=0.05)
    assert pytest.approx(5.18e-7, rel=2e-4) == 44 / 849.5 / 100 / 1000
    assert rule.stack_co2(10.0, 1e6, 5.18e-7) == pytest.approx(5.18)
    assert rule.on_wet_flow(5.18, 20.0) == pytest.approx(4.144)


@pytest.mark.parametrize(
    ("unit", "kelvin"), [("Nm3", 273.15), ("Sm3", 288.15), ("m3_20C", 293.15), ("scf_60F", None)]
)
def test_factors_to_scf_follow_from_the_printed_volumes(unit: str, kelvin: float | None) -> None:
    """Each factor is 849.5 over the ideal molar volume at the other condition."""
    row = factors().row(f"scf at 68 F in one {unit}", date(2025, 12, 31), "US")
    volume = 836.6 if kelvin is None else 8.314462618 * kelvin / 101.325

    assert float(row.values[0]) == pytest.approx(849.5 / volume, rel=2e-6)


@pytest.mark.parametrize(
    ("day", "ch4", "n2o"),
    [
        (date(2013, 12, 31), 21, 310),
        (date(2014, 1, 1), 25, 298),
        (date(2024, 12, 31), 25, 298),
        (date(2025, 1, 1), 28, 265),
    ],
)
def test_warming_potentials_change_on_their_day(day: date, ch4: float, n2o: float) -> None:
    """Table A-1 as of 2009, 2014 and 2025 (the last values from memory)."""
    assert float(factors().row("GWP of CH4", day, "US").values[0]) == ch4
    assert float(factors().row("GWP of N2O", day, "US").values[0]) == n2o


def test_calibration_errors() -> None:
    """98.3(i): 5 % of the reference value for a meter, 2 % of full scale for a transmitter."""
    assert rule.calibration_error(200.0, 190.0, 200.0) == pytest.approx(5.0)
    assert rule.calibration_error(50.0, 51.0, 100.0) == pytest.approx(1.0)


def test_missing_carbon_content_takes_the_mean_of_its_neighbours() -> None:
    """98.75(a) (from memory): before and after, after alone, and a gap at the end is asked for."""
    put = carbon_content([None, 0.74, None, None, 0.76, None])

    assert [one.place for one in put] == [0, 2, 3, 5]
    assert [one.value for one in put] == [0.74, pytest.approx(0.75), pytest.approx(0.75), None]


def test_missing_fuel_properties_and_quantities() -> None:
    """98.35(b) (from memory): a property has a mean, a quantity is never invented."""
    assert [one.value for one in fuel_property([1.0, None, 3.0, None])] == [2.0, 3.0]
    assert [one.value for one in quantity([1.0, None])] == [None]


def test_liquids_solids_bills_and_on_site_use() -> None:
    """The remaining equations are products of what they name."""
    carbon = rule.dense_carbon(100.0, 2.5)
    assert rule.as_co2_by_rule(carbon, RATIO) == pytest.approx(100 * 2.5 * 44 / 12)
    assert rule.solid_fuel_co2(10.0, 0.7, RATIO, 0.91) == pytest.approx(10 * 0.7 * 44 / 12 * 0.91)
    assert rule.from_bill(1000.0, 0.1, 53.06) == pytest.approx(5306.0)
    assert rule.supplied_by_volume([1000.0], [0.001868], [0.99]) == pytest.approx(1.84932)
    assert rule.less_on_site([100.0, 50.0], [30.0]) == pytest.approx(120.0)
