"""Values of the IPCC against their own parts, and against figures that others published with them.

Sources: 2006 IPCC Guidelines for National Greenhouse Gas Inventories, volume 2, chapters 1 and 2,
and volume 3, chapter 3 (evidence stands with each factor); California Air Resources Board,
Documentation of California's Greenhouse Gas Inventory, pages named beside each case, seen.
"""

from __future__ import annotations

from datetime import date
from decimal import ROUND_HALF_UP, Decimal

import pytest

from footprint.base.formulas import convert
from footprint.base.row import Row, constant
from footprint.base.units import unit
from footprint.register import Entry, Register, load

DAY = date(2025, 6, 30)
PROCESSES = (
    "modern conventional reforming, natural gas",
    "modern excess-air reforming, natural gas",
    "modern autothermal reforming, natural gas",
    "modern partial oxidation",
    "European average, natural gas",
    "European average, partial oxidation",
)


@pytest.fixture(scope="module")
def register() -> Register:
    """Return the delivered factors."""
    found, _ = load()
    return found


def ipcc(register: Register, quantity: str) -> Row:
    """Return a value of the guidelines."""
    return register.row(quantity, DAY, "IPCC")


def amount(value: float, name: str) -> Row:
    """Return a published amount in a unit of the house."""
    return constant(value, unit(name), "published/amount", "published amount")


def number(row: Row, name: str) -> float:
    """Return the value of a single figure in a unit of the house."""
    return float(convert(row, unit(name), "published/result", "result").values[0])


def to_decimals(value: float, digits: int) -> Decimal:
    """Return a value rounded half up, as printed tables are."""
    return Decimal(f"{value:.10f}").quantize(Decimal(1).scaleb(-digits), ROUND_HALF_UP)


def to_three_figures(value: float) -> Decimal:
    """Return a value rounded half up to three significant figures."""
    exact = Decimal(f"{value:.8f}")
    return exact.quantize(Decimal(1).scaleb(exact.adjusted() - 2), ROUND_HALF_UP)


def tier_1(register: Register, process: str) -> Row:
    """Return CO2 per tonne of ammonia: requirement x carbon x oxidised share x 44/12."""
    return (
        ipcc(register, f"fuel requirement of ammonia, {process}")
        * ipcc(register, f"carbon content of the fuel of ammonia, {process}")
        * ipcc(register, f"oxidised share of the fuel of ammonia, {process}")
        * ipcc(register, "ratio of CO2 to carbon")
    )


@pytest.mark.parametrize("process", PROCESSES)
def test_ammonia_factor_is_made_of_its_parts(register: Register, process: str) -> None:
    """Each printed factor is requirement x carbon x oxidised share x 44/12, to three decimals.

    Source: 2006 IPCC Guidelines, volume 3, chapter 3, Table 3.1
    """
    printed = ipcc(register, f"CO2 emission factor of ammonia, {process}")

    computed = number(tier_1(register, process), "t_CO2/t_NH3")

    assert to_decimals(computed, 3) == to_decimals(float(printed.values[0]), 3)


@pytest.mark.parametrize(
    ("process", "printed"),
    [
        ("modern conventional reforming, natural gas", "1.694"),
        ("modern partial oxidation", "2.772"),
    ],
)
def test_ammonia_factor_is_the_printed_one(register: Register, process: str, printed: str) -> None:
    """30.2 GJ x 15.3 kg and 36.0 GJ x 21.0 kg give the factors that third parties quote.

    Source: 2006 IPCC Guidelines, volume 3, chapter 3, Table 3.1, from memory; fuel requirements
    seen in public records
    """
    computed = number(tier_1(register, process), "t_CO2/t_NH3")

    assert str(to_decimals(computed, 3)) == printed


def test_limits_of_the_fuel_requirement_are_six_and_seven_per_cent(register: Register) -> None:
    """The limits of each default follow from its published uncertainty.

    Source: 2006 IPCC Guidelines, volume 3, chapter 3, Table 3.1, from memory
    """
    for process in PROCESSES:
        entry = register.entry(f"fuel requirement of ammonia, {process}", DAY, "IPCC")
        share = register.entry(f"uncertainty of the {entry.quantity}", DAY, "IPCC").value

        assert share == (0.07 if process.startswith("European") else 0.06)
        assert entry.low == pytest.approx(entry.value * (1 - share))
        assert entry.high == pytest.approx(entry.value * (1 + share))


def fuels(register: Register) -> list[str]:
    """Return the fuels of the guidelines."""
    prefix = "carbon content of "
    table = [entry for entry in register.entries if entry.line.file == "ipcc_fuels.csv"]
    contents = [entry.quantity for entry in table if entry.quantity.startswith(prefix)]
    return [quantity.removeprefix(prefix) for quantity in contents]


def ends(entry: Entry) -> tuple[float, float]:
    """Return both ends of a published range."""
    assert entry.low is not None
    assert entry.high is not None
    return entry.low, entry.high


def test_carbon_content_gives_the_co2_factor_of_every_fuel(register: Register) -> None:
    """Carbon content x 44/12 is the printed CO2 factor to three figures, for all fuels.

    Source: 2006 IPCC Guidelines, volume 2, chapter 1, Tables 1.3 and 1.4
    """
    ratio = ipcc(register, "ratio of CO2 to carbon")
    names = fuels(register)

    assert len(names) == 15
    for fuel in names:
        printed = register.entry(f"CO2 emission factor of {fuel}", DAY, "IPCC").value
        computed = number(ipcc(register, f"carbon content of {fuel}") * ratio, "kg_CO2/TJ_net")
        assert to_three_figures(computed) == to_three_figures(printed), fuel


def test_limits_of_the_carbon_content_give_those_of_the_co2_factor(register: Register) -> None:
    """The same holds for the 95 % limits, but for refinery gas.

    The limits remembered for refinery gas, 48 200 and 69 000, do not follow from 13.3 and 19.0 kg C
    per GJ, which give 48 800 and 69 700; they could not be compared with the document, and the
    factor says so in its note.

    Source: 2006 IPCC Guidelines, volume 2, chapter 1, Tables 1.3 and 1.4
    """
    for fuel in fuels(register):
        printed = register.entry(f"CO2 emission factor of {fuel}", DAY, "IPCC")
        carbon = register.entry(f"carbon content of {fuel}", DAY, "IPCC")
        follows = [
            to_three_figures(content * 44 / 12 * 1000) == to_three_figures(limit)
            for content, limit in zip(ends(carbon), ends(printed), strict=True)
        ]
        if fuel == "refinery gas":
            assert not any(follows)
            assert "doubtful" in printed.source.note
        else:
            assert all(follows), fuel


@pytest.mark.parametrize(
    ("fuel", "factor", "low", "high"),
    [
        ("natural gas", 56100, 54300, 58300),
        ("gas or diesel oil", 74100, 72600, 74800),
        ("liquefied petroleum gases", 63100, 61600, 65600),
    ],
)
def test_co2_factor_is_the_printed_one(
    register: Register, fuel: str, factor: float, low: float, high: float
) -> None:
    """The defaults and limits are those that a public text reproduces.

    Source: 2006 IPCC Guidelines, volume 2, chapter 2, Table 2.3, seen as reproduced by others
    """
    entry = register.entry(f"CO2 emission factor of {fuel}", DAY, "IPCC")

    assert (entry.value, entry.low, entry.high) == (factor, low, high)


def test_co2_of_urea_is_44_over_60(register: Register) -> None:
    """A tonne of urea binds 0.733 t of CO2, with whole and with exact molar masses alike.

    Source: 2006 IPCC Guidelines, volume 3, chapter 3, section 3.2.2, from memory
    """
    whole = ipcc(register, "CO2 bound in urea")
    exact = register.row("CO2 bound in urea", DAY)
    carbon = ipcc(register, "carbon in urea") * ipcc(register, "ratio of CO2 to carbon")

    assert str(to_decimals(float(whole.values[0]), 3)) == "0.733"
    assert str(to_decimals(float(exact.values[0]), 3)) == "0.733"
    assert number(carbon, "t_CO2/t_urea") == pytest.approx(44 / 60, rel=1e-12)


@pytest.mark.parametrize(
    ("methane", "gwp_set", "printed", "tolerance"),
    [
        # 1st edition, 1A4a food and liquor, natural gas, CH4, 1990: 4 662 700 035 scf x 1 032 Btu x
        # 5.000E-06 g
        (4_662_700_035 * 1032 * 5.000e-6 / 1e6, "SAR", 505.49, 0.001),
        (24.07, "SAR", 505.49, 0.001),
        # 11th edition, 1A4a telephone services, natural gas, CH4, 2010: 210 081 976 scf x 1 022 Btu
        # x 1.000E-06 g
        (210_081_976 * 1022 * 1.000e-6 / 1e6, "AR4", 5.36, 0.002),
    ],
)
def test_methane_counts_as_published(
    register: Register, methane: float, gwp_set: str, printed: float, tolerance: float
) -> None:
    """Methane times the warming potential of the edition is the printed CO2 equivalent.

    The inventory prints rounded inputs beside results of unrounded ones, hence the tolerance.

    Source: California Air Resources Board, Documentation of California's Greenhouse Gas Inventory,
    pages named above
    """
    potential = register.row(f"GWP100 of CH4, {gwp_set}", DAY)

    equivalent = number(amount(methane, "t_CH4") * potential, "t_CO2e")

    assert equivalent == pytest.approx(printed, rel=tolerance)


def test_nitrous_oxide_of_a_mass_of_nitrogen_is_as_published(register: Register) -> None:
    """15 989.8 t of nitrogen, 1 % of it as N2O, are 251.22 t of N2O and 77 879 t of CO2 equivalent.

    Source: California Air Resources Board, Documentation of California's Greenhouse Gas Inventory,
    1st edition, 3C4 manure spread daily, N2O, 1990
    """
    nitrogen = register.entry("atomic weight of nitrogen", DAY).value
    oxygen = register.entry("atomic weight of oxygen", DAY).value
    potential = register.row("GWP100 of N2O, SAR", DAY)
    ratio = (2 * nitrogen + oxygen) / (2 * nitrogen)

    oxide = 15_989_824_097 / 1e6 * 0.01 * ratio
    equivalent = number(amount(oxide, "t_N2O") * potential, "t_CO2e")

    assert ratio == pytest.approx(1.571133815, abs=5e-10)
    assert oxide == pytest.approx(251.22, rel=0.0001)
    assert equivalent == pytest.approx(77879, rel=0.0001)


def test_nitrous_oxide_of_a_fire_counts_as_published(register: Register) -> None:
    """40.49 t of N2O are 12 553 t of CO2 equivalent, within the rounding of the printed mass.

    Source: California Air Resources Board, Documentation of California's Greenhouse Gas Inventory,
    1st edition, 3B1 forest fire, N2O, 1990
    """
    potential = register.row("GWP100 of N2O, SAR", DAY)

    equivalent = number(amount(40.49, "t_N2O") * potential, "t_CO2e")

    assert equivalent == pytest.approx(12553, rel=0.0002)


def test_warming_potential_of_a_blend_is_the_mean_of_its_parts(register: Register) -> None:
    """Each refrigerant blend is the mass-weighted mean of its components.

    Source: ASHRAE 34 mass fractions, from memory
    """
    blends = {
        "R-410A": {"HFC-32": 0.50, "HFC-125": 0.50},
        "R-404A": {"HFC-125": 0.44, "HFC-143a": 0.52, "HFC-134a": 0.04},
        "R-407C": {"HFC-32": 0.23, "HFC-125": 0.25, "HFC-134a": 0.52},
        "R-507A": {"HFC-125": 0.50, "HFC-143a": 0.50},
    }

    for blend, shares in blends.items():
        for gwp_set in ("AR5", "AR6"):
            mean = sum(
                share * register.entry(f"GWP100 of {gas}, {gwp_set}", DAY).value
                for gas, share in shares.items()
            )
            printed = register.entry(f"GWP100 of {blend}, {gwp_set}", DAY).value
            assert printed == pytest.approx(mean, abs=0.051), blend


def test_fossil_methane_counts_more_by_the_co2_it_becomes(register: Register) -> None:
    """Fossil methane exceeds other methane by at most the CO2 of its carbon, 44/16.

    Source: IPCC Fifth and Sixth Assessment Reports, Working Group I, notes to Tables 8.7 and 7.15,
    from memory
    """
    for gwp_set in ("AR5", "AR5 with feedback", "AR6"):
        fossil = register.entry(f"GWP100 of fossil CH4, {gwp_set}", DAY).value
        other = register.entry(f"GWP100 of non-fossil CH4, {gwp_set}", DAY).value

        assert 0 < fossil - other <= 44 / 16 + 0.1
