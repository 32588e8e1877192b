from __future__ import annotations

import numpy as np
import pytest
from uncertainties import UFloat, ufloat

from footprint.gas import compressibility, heating
from footprint.gas.uncertainty import POWERS, Components, Physical, relative_uncertainties

# ISO 6976:2016, Tables 1 to 3 and Annex A, from copies: s and u(s) at 15 °C, gross and its
# uncertainty at 15 °C, atoms C H N O; a rich gas with hydrogen and moisture
TABLE = {
    "methane": (0.04452, 0.0005, 891.51, 0.19, (1, 4, 0, 0)),
    "ethane": (0.0919, 0.0011, 1562.14, 0.51, (2, 6, 0, 0)),
    "propane": (0.1344, 0.0016, 2221.10, 0.51, (3, 8, 0, 0)),
    "hydrogen": (-0.01, 0.025, 286.15, 0.02, (0, 2, 0, 0)),
    "nitrogen": (0.0170, 0.001, 0.0, 0.0, (0, 0, 2, 0)),
    "carbon dioxide": (0.0752, 0.002, 0.0, 0.0, (1, 0, 0, 2)),
}
FRACTIONS = np.array([0.80, 0.06, 0.03, 0.08, 0.02, 0.01])
U_FRACTIONS = np.array([4e-4, 3e-4, 2e-4, 2e-4, 1e-4, 1e-4])
WEIGHTS = ((12.0107, 0.0004), (1.00794, 0.000035), (14.0067, 0.0001), (15.9994, 0.00015))
LATENT, GAS_CONSTANT = (44.431, 0.004), (8.3144621, 0.0000075)
AIR_MASS, AIR_COMPRESSION = (28.96546, 0.00017), (0.999595, 0.000015)


def _with_uncertainties(*, is_net: bool) -> dict[str, UFloat]:
    """Return the results from the gas functions on numbers that carry their uncertainty."""
    x = [ufloat(*pair) for pair in zip(FRACTIONS, U_FRACTIONS, strict=True)]
    weights = [ufloat(*pair) for pair in WEIGHTS]
    molar_mass = [
        sum(n * w for n, w in zip(row[4], weights, strict=True)) for row in TABLE.values()
    ]
    s = [ufloat(row[0], row[1]) for row in TABLE.values()]
    gross = [ufloat(row[2], row[3]) if row[3] else row[2] for row in TABLE.values()]
    latent = heating.latent_per_hydrogen(ufloat(*LATENT), 2.0)
    hydrogen = [row[4][1] for row in TABLE.values()]
    net = [
        heating.net_of_component(g, h, latent, 1.0) for g, h in zip(gross, hydrogen, strict=True)
    ]
    heat = heating.molar(x, net if is_net else gross)
    mass = compressibility.molar_mass(x, molar_mass)
    z = compressibility.compression_factor(compressibility.summation_factor(x, s))
    ideal = compressibility.ideal_molar_volume(ufloat(*GAS_CONSTANT), 288.15, 101.325)
    volume = compressibility.molar_volume(z, ideal)
    air, z_air = ufloat(*AIR_MASS), ufloat(*AIR_COMPRESSION)
    relative = compressibility.relative_density(mass, air, z, z_air)
    by_volume = heating.by_volume(heat, volume)
    return {
        "calorific value by kmol": heat,
        "calorific value by kg": heating.by_mass(heat, mass),
        "calorific value by volume": by_volume,
        "density": compressibility.density(mass, volume),
        "relative density": relative,
        "Wobbe index": compressibility.wobbe_index(by_volume, relative),
    }


def _found(*, is_net: bool) -> dict[str, float]:
    atoms = np.array([row[4] for row in TABLE.values()], dtype=float)
    s, u_s, gross, u_gross = (np.array([row[i] for row in TABLE.values()]) for i in range(4))
    weights, u_weights = np.array(WEIGHTS).T
    components = Components(atoms @ weights, s, u_s, gross, u_gross, atoms)
    of_constant, of_mass, of_compression = (
        u / v for v, u in (GAS_CONSTANT, AIR_MASS, AIR_COMPRESSION)
    )
    physical = Physical(u_weights, 1, LATENT, (of_constant, of_mass, of_compression))
    return relative_uncertainties(FRACTIONS, U_FRACTIONS, components, physical, is_net=is_net)


@pytest.mark.parametrize("is_net", [False, True], ids=["gross", "net"])
@pytest.mark.parametrize("name", POWERS)
def test_uncertainty_equals_linear_propagation(name: str, *, is_net: bool) -> None:
    """The closed form of Annex B is what an independent library finds on the same functions.

    Source: library `uncertainties`, linear propagation with all correlations by shared inputs.
    """
    expected = _with_uncertainties(is_net=is_net)[name]

    found = _found(is_net=is_net)[name]

    assert found == pytest.approx(expected.std_dev / expected.nominal_value, rel=1e-9)


def test_certain_inputs_give_certain_results() -> None:
    """Without any uncertainty there is none in the results."""
    nothing = np.zeros(2)
    pair = np.array([1.0, 2.0])
    components = Components(pair, pair * 0.01, nothing, pair, nothing, np.ones((2, 1)))
    physical = Physical(np.zeros(1), 0, (44.0, 0.0), (0.0, 0.0, 0.0))

    found = relative_uncertainties(pair / 3, nothing, components, physical)

    assert set(found.values()) == {0.0}
