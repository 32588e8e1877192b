"""The delivered factor files: sound, sourced, and plausible against their neighbours."""

from __future__ import annotations

from datetime import date
from itertools import pairwise

import pytest

from footprint.base.source import EVIDENCE
from footprint.register import Entry, Register, load

DAY = date(2025, 6, 30)
PREFIX = "molar mass of "
COMBUSTION = ("0 °C", "15 °C", "60 °F", "20 °C", "25 °C")
METERING = COMBUSTION[:-1]
COMPROMISE = {"hydrogen", "helium", "neon"}
BURN_HOTTER_WHEN_WARM = {"carbon monoxide", "carbonyl sulfide", "carbon disulfide"}
INERT = {
    "helium",
    "neon",
    "argon",
    "nitrogen",
    "oxygen",
    "carbon dioxide",
    "sulfur dioxide",
}
NORMAL_ALKANES = (
    "n-butane",
    "n-pentane",
    "n-hexane",
    "n-heptane",
    "n-octane",
    "n-nonane",
    "n-decane",
    "n-undecane",
    "n-dodecane",
    "n-tridecane",
    "n-tetradecane",
    "n-pentadecane",
)


@pytest.fixture(scope="module")
def register() -> Register:
    """Return the delivered factors."""
    found, findings = load()
    assert findings == []
    return found


@pytest.fixture(scope="module")
def components(register: Register) -> list[str]:
    """Return the names of the gas components, in the order of the table."""
    table = [entry for entry in register.entries if entry.line.file == "gas_components.csv"]
    masses = [entry.quantity for entry in table if entry.quantity.startswith(PREFIX)]
    return [quantity.removeprefix(PREFIX) for quantity in masses]


def value(register: Register, quantity: str) -> float:
    """Return the value of a quantity of science."""
    return register.entry(quantity, DAY).value


def summation(register: Register, name: str) -> list[float]:
    """Return the summation factors of a component in the order of rising temperature."""
    return [value(register, f"summation factor of {name} at {at}") for at in METERING]


def gross(register: Register, name: str) -> list[float]:
    """Return the gross calorific values of a component in the order of rising temperature."""
    return [value(register, f"gross calorific value of {name} at {at}") for at in COMBUSTION]


def test_every_line_names_a_document_and_how_it_was_checked(register: Register) -> None:
    """No delivered value is without source, and only a text that was read counts as seen."""
    for entry in register.entries:
        assert entry.source.document, entry.line
        assert entry.evidence in EVIDENCE, entry.line
        assert entry.source.is_seen == (entry.evidence == "seen"), entry.line


def test_value_taken_from_memory_says_so_where_it_is_shown(register: Register) -> None:
    """A remembered value is marked in the words that every report prints."""
    remembered = [entry for entry in register.entries if entry.evidence == "memory"]

    assert remembered
    assert all("from memory" in entry.source.words for entry in remembered)


def test_ids_are_unique(register: Register) -> None:
    """No two lines share the id that the workbook prints."""
    keys = [entry.key for entry in register.entries]

    assert len(set(keys)) == len(keys)


def test_component_table_is_complete(register: Register, components: list[str]) -> None:
    """Sixty components, each with all figures that a gas calculation asks for."""
    wanted = [
        "molar mass of {}",
        "standard uncertainty of the summation factor of {}",
        "standard uncertainty of the gross calorific value of {}",
        *(f"summation factor of {{}} at {at}" for at in METERING),
        *(f"gross calorific value of {{}} at {at}" for at in COMBUSTION),
        *(
            f"{atom} atoms in {{}}"
            for atom in ("carbon", "hydrogen", "nitrogen", "oxygen", "sulfur")
        ),
    ]

    missing = [
        pattern.format(name)
        for name in components
        for pattern in wanted
        if not _is_known(register, pattern.format(name))
    ]

    assert len(components) == 60
    assert missing == []


def _is_known(register: Register, quantity: str) -> bool:
    return any(entry.quantity == quantity for entry in register.search([quantity]))


def test_summation_factors_fall_with_temperature(register: Register, components: list[str]) -> None:
    """A warmer gas is closer to ideal; three light gases hold one compromise value instead.

    Source: second virial coefficients of gases, common knowledge
    """
    for name in components:
        factors = summation(register, name)
        if name in COMPROMISE:
            assert factors == [-0.01] * 4
        else:
            assert all(cold > warm for cold, warm in pairwise(factors)), name
            assert 0 < factors[-1] < factors[0] < 1.2, name


def test_summation_factors_bend_the_same_way(register: Register, components: list[str]) -> None:
    """The value at 60 °F lies just below that at 15 °C, a ninth of the way to 20 °C: no slip.

    Source: 60 °F is 15.556 °C, by definition
    """
    for name in components:
        _, at_15, at_60, at_20 = summation(register, name)
        on_the_line = at_15 + (at_20 - at_15) * 0.5556 / 5

        assert at_60 == pytest.approx(on_the_line, abs=0.00025), name


def test_calorific_values_fall_with_temperature(register: Register, components: list[str]) -> None:
    """Burning to liquid water gives less when warm; without hydrogen it may give more.

    Source: Kirchhoff's law, common knowledge
    """
    for name in components:
        values = gross(register, name)
        if name in INERT:
            assert values == [0.0] * 5
        elif name in BURN_HOTTER_WHEN_WARM:
            assert all(cold <= warm for cold, warm in pairwise(values)), name
        else:
            assert all(cold > warm for cold, warm in pairwise(values)), name


def test_calorific_values_lie_on_a_line_over_temperature(
    register: Register, components: list[str]
) -> None:
    """Between 0 and 25 °C the change is all but linear, so a slipped digit would stand out.

    Source: heat capacities change little over 25 K, common knowledge
    """
    for name in components:
        values = gross(register, name)
        for temperature, found in zip((15.0, 15.5556, 20.0), values[1:4], strict=True):
            on_the_line = values[0] + (values[4] - values[0]) * temperature / 25
            assert found == pytest.approx(on_the_line, abs=0.25 + 1e-5 * found), name


def test_normal_alkanes_grow_by_one_group(register: Register) -> None:
    """From n-butane to n-pentadecane each step adds CH2: its mass, and 658 to 661 MJ per kmol.

    Source: additivity of CH2 groups, common knowledge
    """
    masses = [value(register, f"molar mass of {name}") for name in NORMAL_ALKANES]
    energies = [gross(register, name)[4] for name in NORMAL_ALKANES]
    factors = [summation(register, name)[0] for name in NORMAL_ALKANES]

    assert all(b - a == pytest.approx(14.02658, abs=2e-5) for a, b in pairwise(masses))
    assert all(b - a == pytest.approx(658.8, abs=1.0) for a, b in pairwise(energies))
    assert all(a < b for a, b in pairwise(factors))


def test_water_vapour_has_no_net_calorific_value(register: Register) -> None:
    """Its gross value is the heat of vaporisation, at every temperature.

    Source: definition of the net calorific value
    """
    for at in COMBUSTION:
        latent = value(register, f"vaporisation enthalpy of water at {at}")

        assert value(register, f"gross calorific value of water at {at}") == latent


def test_uncertainties_are_small_beside_the_values(
    register: Register, components: list[str]
) -> None:
    """No standard uncertainty of a calorific value is above 0.2 % of it.

    Source: common practice, no source; the largest known is hydrogen cyanide with 0.19 %
    """
    for name in components:
        size = value(register, f"standard uncertainty of the gross calorific value of {name}")

        assert size <= 0.002 * gross(register, name)[4], name


def test_figures_in_tonnes_are_the_figures_in_kilograms(register: Register) -> None:
    """A value delivered in two units is one value."""
    pairs = [
        ("atomic weight of carbon, by kmol", "atomic weight of carbon"),
        ("molar mass of carbon dioxide, by kmol of gas", "molar mass of carbon dioxide"),
        ("molar mass of ammonia made, by kmol", "molar mass of ammonia made"),
    ]

    for tonnes, kilograms in pairs:
        assert value(register, tonnes) * 1000 == pytest.approx(value(register, kilograms))


def test_limits_stand_in_their_order(register: Register) -> None:
    """For each figure watched: stop low, warn low, warn high, stop high, in rising order."""
    limits = [entry for entry in register.entries if entry.line.file == "limits.csv"]
    names = {entry.quantity.partition(":")[0] for entry in limits}

    assert len(names) == 32
    for name in names:
        of_name = {
            entry.quantity.partition(": ")[2]: entry
            for entry in limits
            if entry.quantity.startswith(f"{name}:")
        }
        in_order = [
            of_name[word].value
            for word in ("stop low", "warn low", "warn high", "stop high")
            if word in of_name
        ]
        assert len(of_name) == 4, name
        assert in_order == sorted(in_order), name


def test_limits_say_whether_physics_or_experience_set_them(register: Register) -> None:
    """Only a limit set by physics may stop a return; each line says which kind it is."""
    limits = [entry for entry in register.entries if entry.line.file == "limits.csv"]

    physics = {entry.quantity for entry in limits if entry.source.note.startswith("set by physics")}

    assert all(_says_its_kind(entry) for entry in limits)
    assert physics == {
        "energy of all feeds: stop low, share of the minimum",
        "process CO2: stop low, share of the minimum",
        "CO2 removed over process CO2: stop high",
        "CO2 to urea: stop low",
        "ammonia to urea: stop low",
    }


def _says_its_kind(entry: Entry) -> bool:
    return entry.source.note.startswith(("set by physics", "set by experience"))


def test_stoichiometric_limits_lie_below_stoichiometry(register: Register) -> None:
    """Less CO2 or ammonia than urea is made of is impossible, less the error of two meters.

    Source: CO2 + 2 NH3 = CO(NH2)2 + H2O
    """
    for limit, least in (
        ("CO2 to urea: stop low", "CO2 bound in urea"),
        ("ammonia to urea: stop low", "ammonia bound in urea"),
    ):
        share = value(register, limit) / value(register, least)

        assert 0.97 < share < 1


def test_urea_weighs_what_it_is_made_of(register: Register) -> None:
    """CO2 and ammonia bound in a tonne of urea exceed it by the water that is set free.

    Source: CO2 + 2 NH3 = CO(NH2)2 + H2O; conservation of mass, of carbon and of nitrogen
    """
    dioxide = value(register, "CO2 bound in urea")
    ammonia = value(register, "ammonia bound in urea")
    water = value(register, "molar mass of water") / value(register, "molar mass of urea")
    carbon = value(register, "carbon in urea") * value(register, "ratio of CO2 to carbon")
    nitrogen = value(register, "nitrogen in ammonia") * ammonia

    assert dioxide + ammonia == pytest.approx(1 + water, rel=1e-9)
    assert carbon == pytest.approx(dioxide, rel=1e-9)
    assert nitrogen == pytest.approx(value(register, "nitrogen in urea"), rel=1e-9)
    assert dioxide / ammonia == pytest.approx(value(register, "ratio of CO2 to ammonia in urea"))


def test_benchmarks_are_above_the_chemical_minimum(register: Register) -> None:
    """No published consumption is below what chemistry asks for, and low ends lie below high ends.

    Source: 20.83 GJ net per tonne from methane, steam and air, by stoichiometry
    """
    benchmarks = {
        entry.quantity: entry.value
        for entry in register.entries
        if entry.line.file == "benchmarks.csv"
    }

    assert all(20.83 < figure < 60 for figure in benchmarks.values())
    for quantity, figure in benchmarks.items():
        if quantity.endswith(": low"):
            assert figure < benchmarks[quantity.removesuffix("low") + "high"]


def test_sum_of_a_best_practice_figure_is_its_parts(register: Register) -> None:
    """Electricity, feed and fuel less steam give the printed totals.

    Source: LBNL best practice tables (Schyns 2006), as quoted
    """
    final = value(register, "B05 best practice natural gas, final energy: typical")
    primary = value(register, "B06 best practice natural gas, primary energy: typical")
    coal = value(register, "B07 best practice coal, final energy: typical")

    assert final == pytest.approx(0.29 + 20.67 + 10.93 - 3.87)
    assert primary == pytest.approx(0.74 + 20.67 + 10.93 - 4.30)
    assert coal == pytest.approx(3.70 + 20.67 + 17.33 - 1.30)


def test_primary_factor_and_steam_efficiency_are_those_between_the_two_totals(
    register: Register,
) -> None:
    """The two rows of one table show what one MWh and one GJ of steam were counted as.

    Source: LBNL best practice tables (Schyns 2006), as quoted; rounded to two decimals there
    """
    factor = value(register, "primary energy factor of electricity, best practice tables")
    efficiency = value(register, "efficiency of steam supply")

    assert factor == pytest.approx(0.74 / 0.29, abs=0.005)
    assert efficiency == pytest.approx(3.87 / 4.30, abs=0.005)


def test_calorific_value_of_ammonia_follows_from_the_component_table(register: Register) -> None:
    """Net and gross per tonne made are those of the component at 25 °C.

    Source: definition; ISO 6976:2016 formula (3)
    """
    energy = gross(register, "ammonia")[4]
    mass = value(register, "molar mass of ammonia")
    latent = value(register, "vaporisation enthalpy of water at 25 °C")

    gross_made = value(register, "gross calorific value of ammonia made")
    net_made = value(register, "net calorific value of ammonia made")
    assert gross_made == pytest.approx(energy / mass, abs=0.005)
    assert net_made == pytest.approx((energy - 3 / 2 * latent) / mass, abs=0.05)
