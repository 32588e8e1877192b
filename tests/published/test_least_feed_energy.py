"""The least feed energy of ammonia against published equations and formation enthalpies."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from chemicals import Hfg

from footprint.gas import theory
from footprint.gas.elements import PER_ATOM, Atoms, atoms_in_gas, reducing_equivalents

AIR = 0.78084 / 0.20946  # dry air, handbooks: common practice, no single source
AMMONIA = 0.017031  # t/kmol, abridged atomic weights
# component: CAS number and atoms C, H, O, N
COMPONENTS = {
    "methane": ("74-82-8", (1, 4, 0, 0)),
    "ethane": ("74-84-0", (2, 6, 0, 0)),
    "propane": ("74-98-6", (3, 8, 0, 0)),
    "isobutane": ("75-28-5", (4, 10, 0, 0)),
    "n-butane": ("106-97-8", (4, 10, 0, 0)),
    "isopentane": ("78-78-4", (5, 12, 0, 0)),
    "n-pentane": ("109-66-0", (5, 12, 0, 0)),
    "n-hexane": ("110-54-3", (6, 14, 0, 0)),
    "nitrogen": (None, (0, 0, 0, 2)),
    "carbon dioxide": ("124-38-9", (1, 0, 2, 0)),
}
# AGA Report No. 8, reference gases (also ISO 12213-2): mole fractions in the order of COMPONENTS
METHANE = (1.0, *[0.0] * 9)
GULF_COAST = (
    0.965222,
    0.018186,
    0.004596,
    0.000977,
    0.001007,
    0.000473,
    0.000324,
    0.000664,
    0.002595,
    0.005956,
)
AMARILLO = (
    0.906724,
    0.045279,
    0.008280,
    0.001037,
    0.001563,
    0.000321,
    0.000443,
    0.000393,
    0.031284,
    0.004676,
)
EKOFISK = (
    0.859063,
    0.084919,
    0.023015,
    0.003486,
    0.003506,
    0.000509,
    0.000480,
    0.0,
    0.010068,
    0.014954,
)
HIGH_NITROGEN = (0.814410, 0.033, 0.006050, 0.001, 0.001040, 0.0, 0.0, 0.0, 0.134650, 0.009850)
GASES = {
    "methane": METHANE,
    "Gulf Coast": GULF_COAST,
    "Amarillo": AMARILLO,
    "Ekofisk": EKOFISK,
    "high nitrogen": HIGH_NITROGEN,
}
# formation enthalpies, kJ/mol: Active Thermochemical Tables, as held by the library `chemicals`
CARBON_DIOXIDE, WATER_VAPOUR, LIQUID_WATER = -393.474, -241.822, -285.825
FORMED_AMMONIA = -45.558


def formation(cas: str | None) -> float:
    """Return the formation enthalpy of a gas at 25 °C, kJ/mol."""
    if cas is None:
        return 0.0
    source = "CRC" if cas in {"78-78-4", "109-66-0"} else "ATCT_G"
    return float(Hfg(cas, method=source)) / 1000


@dataclass(frozen=True)
class Feed:
    """A feed gas with its atoms and formation enthalpy."""

    fractions: tuple[float, ...]

    @property
    def atoms(self) -> Atoms[float]:
        """Atoms per mole."""
        counts = [atoms for _, atoms in COMPONENTS.values()]
        c, h, o, n = (atoms_in_gas(self.fractions, [float(a[i]) for a in counts]) for i in range(4))
        return Atoms(carbon=c, hydrogen=h, nitrogen=n, oxygen=o, sulfur=0.0)

    @property
    def formed(self) -> float:
        """Formation enthalpy, kJ/mol."""
        each = zip(self.fractions, COMPONENTS.values(), strict=True)
        return sum(x * formation(cas) for x, (cas, _) in each)

    def heating_value(self, water: float) -> float:
        """Return the heat of combustion with water formed as given, kJ/mol."""
        return self.formed - CARBON_DIOXIDE * self.atoms.carbon - water * self.atoms.hydrogen / 2

    def synthesis(self, air_ratio: float = AIR) -> theory.Synthesis[float]:
        """Return what one mole can make."""
        reducing = reducing_equivalents(self.atoms, PER_ATOM)
        return theory.ammonia_from(reducing, self.atoms.nitrogen, theory.stoichiometry(air_ratio))

    def reaction_heat(self, water: float) -> float:
        """Return the heat set free by the reaction with steam and air, kJ/mol of feed."""
        made, atoms = self.synthesis(), self.atoms
        consumed = 2 * atoms.carbon - atoms.oxygen - 2 * made.air_oxygen
        products = CARBON_DIOXIDE * atoms.carbon + FORMED_AMMONIA * made.ammonia
        return self.formed + water * consumed - products


def test_methane_gives_the_published_equation() -> None:
    """CH4 + 0.3035 O2 + 1.131 N2 + 1.393 H2O gives CO2 + 2.262 NH3.

    Source: Ullmann's Encyclopedia and Appl, Ammonia (1999), from memory; their air ratio is 3.7265.
    """
    made = Feed(METHANE).synthesis(air_ratio=3.7265)

    assert made.air_oxygen == pytest.approx(0.3035, abs=0.00005)
    assert made.air_oxygen * 3.7265 == pytest.approx(1.131, abs=0.0005)
    assert 2 - 2 * made.air_oxygen == pytest.approx(1.393, abs=0.0005)
    assert made.ammonia == pytest.approx(2.262, abs=0.0005)


def test_methane_needs_the_published_energy() -> None:
    """Least feed is 20.9 GJ/t with 583 m3/t and 1.15 t CO2/t, as far as these roundings go.

    Source: Ullmann's Encyclopedia and Appl, Ammonia (1999), from memory; 583 m3 at 35.81 MJ/m3
    is 20.88 GJ.
    """
    made = Feed(METHANE).synthesis()

    energy = theory.least_feed_energy(802.58e-3, made.ammonia, AMMONIA)
    volume = theory.least_feed_energy(22.414, made.ammonia, AMMONIA)
    dioxide = theory.process_co2(0.044009, made.ammonia, AMMONIA)

    assert energy == pytest.approx(20.88, rel=0.0025)
    assert volume == pytest.approx(583, rel=0.0025)
    assert dioxide == pytest.approx(1.15, abs=0.01)


# B, ammonia, E1 net, E1 gross, CO2, E2 net, surplus heat with water as vapour, with liquid water;
# worked out separately from the balances and the formation enthalpies of ATcT and CRC
WORKED = {
    "methane": (8.0, 2.26212, 20.8321, 23.1165, 1.1423, 17.6718, 2.2087, 0.6175),
    "Gulf Coast": (8.17062, 2.31116, 20.8451, 23.1064, 1.1597, 17.6889, 2.2217, 0.6074),
    "Amarillo": (8.16028, 2.31694, 20.7870, 23.0204, 1.1637, 17.7061, 2.1636, 0.5214),
    "Ekofisk": (8.73511, 2.47304, 20.8838, 23.0839, 1.1972, 17.7376, 2.2604, 0.5849),
    "high nitrogen": (7.15132, 2.06300, 20.4512, 22.6582, 1.1481, 17.6991, 1.8278, 0.1592),
}


@pytest.mark.parametrize("gas", GASES)
def test_least_feed_energy_of_reference_gases(gas: str) -> None:
    """E1, E2, CO2 and surplus heat of the AGA 8 gases come back, with their own enthalpies.

    Source: compositions of AGA Report No. 8; enthalpies of the library `chemicals`; the figures
    were worked out independently of this program from both.
    """
    feed, expected = Feed(GASES[gas]), WORKED[gas]
    made = feed.synthesis()
    net, gross = feed.heating_value(WATER_VAPOUR) / 1e3, feed.heating_value(LIQUID_WATER) / 1e3

    got = (
        reducing_equivalents(feed.atoms, PER_ATOM),
        made.ammonia,
        theory.least_feed_energy(net, made.ammonia, AMMONIA),
        theory.least_feed_energy(gross, made.ammonia, AMMONIA),
        theory.process_co2(feed.atoms.carbon * 0.044009, made.ammonia, AMMONIA),
        theory.least_feed_energy(net, made.ammonia_without_oxygen, AMMONIA),
        feed.reaction_heat(WATER_VAPOUR) / 1e3 / (made.ammonia * AMMONIA),
        feed.reaction_heat(LIQUID_WATER) / 1e3 / (made.ammonia * AMMONIA),
    )

    assert got == pytest.approx(expected, rel=1e-5, abs=2e-4)


@pytest.mark.parametrize("gas", GASES)
@pytest.mark.parametrize("water", [WATER_VAPOUR, LIQUID_WATER])
def test_least_feed_less_reaction_heat_is_heating_value_of_ammonia(gas: str, water: float) -> None:
    """E1 less the heat of the reaction is the heating value of ammonia, for every feed.

    Source: law of Hess; the heat is summed from formation enthalpies, not from heating values.
    """
    feed = Feed(GASES[gas])
    made = feed.synthesis()
    value = (FORMED_AMMONIA - 1.5 * water) / 1e3
    energy = feed.heating_value(water) / 1e3

    least = theory.least_feed_energy(energy, made.ammonia, AMMONIA)
    heat = feed.reaction_heat(water) / 1e3 / (made.ammonia * AMMONIA)

    assert heat == pytest.approx(
        theory.surplus_heat(energy, made.ammonia, value, AMMONIA), abs=1e-10
    )
    assert least - heat == pytest.approx(theory.thermoneutral_energy(value, AMMONIA), abs=1e-10)


def test_thermoneutral_energy_is_the_published_heating_value() -> None:
    """The heating value of ammonia is 18.6 net and 22.5 gross GJ/t.

    Source: Ullmann's Encyclopedia and Appl, Ammonia (1999), from memory.
    """
    net = theory.thermoneutral_energy((FORMED_AMMONIA - 1.5 * WATER_VAPOUR) / 1e3, AMMONIA)
    gross = theory.thermoneutral_energy((FORMED_AMMONIA - 1.5 * LIQUID_WATER) / 1e3, AMMONIA)

    assert net == pytest.approx(18.6, abs=0.05)
    assert gross == pytest.approx(22.5, abs=0.05)
