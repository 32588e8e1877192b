"""Figures per tonne of ammonia of the invented works, beside the bands in which real works lie."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from .gas import Array
from .truth import Quantities
from .year import TURNAROUND

STEAM_HEAT = 2.68434  # GJ/t: 26 bar 350 °C less feedwater of 5 bar 105 °C, IAPWS-IF97
POWER = 3.6  # GJ/MWh
PRACTICE = "common practice, no source"
COMPUTED = "stoichiometry and usual losses, computed"
EFMA = "EFMA, Best available techniques, booklet 1 (2000), seen as quoted elsewhere"
IPCC = "IPCC AR4 WG III (2007), 7.4.3.2, for the low end; practice for the high end"
ABOVE_STOICHIOMETRY = "stoichiometry for the low end; practice for the high end"


class Magnitude(NamedTuple):
    """A monthly figure with the band outside which somebody should look."""

    name: str
    values: Array
    low: float
    high: float
    source: str

    @property
    def is_inside(self) -> bool:
        """Whether every month with production lies in the band."""
        made = np.delete(self.values, TURNAROUND - 1)
        return bool(np.all((made >= self.low) & (made <= self.high)))


def magnitudes(found: Quantities) -> list[Magnitude]:
    """Return the figures that tell a plausible works; the month of the turnaround has none.

    Args:
        found: true quantities by name. [quantities]

    Source: as named with each band
    """
    months = {name: values for name, (_, values) in found.items()}
    return [*_carbon(months), *_energy(months), *_flows(months), *_compositions(months)]


Months = dict[str, Array]


def _ratio(above: Array, below: Array) -> Array:
    """Return a quotient by month, nothing where nothing was made."""
    return np.asarray(np.divide(above, below, out=np.full(12, np.nan), where=below > 0))


def _carbon(of: Months) -> Iterator[Magnitude]:
    """Return CO2 per tonne."""
    made, feed, stack = of["ammonia produced"], of["all feed carbon as CO2"], of["stack/CO2"]
    captured = _ratio(of["CO2 removed/CO2"], feed)
    yield Magnitude("process CO2, t/t", _ratio(feed, made), 1.17, 1.40, COMPUTED)
    yield Magnitude("CO2 removed of it, t/t", captured, 0.90, 0.99, COMPUTED)
    yield Magnitude("combustion CO2, t/t", _ratio(stack, made), 0.35, 0.90, COMPUTED)
    yield Magnitude("gross CO2, t/t", _ratio(feed + stack, made), 1.55, 2.40, COMPUTED)


def _energy(of: Months) -> Iterator[Magnitude]:
    """Return energy per tonne; steam and power sent to other units are taken off."""
    made, feed = of["ammonia produced"], of["feed gas/net energy"]
    fuel = of["reformer fuel gas/net energy"] + of["boiler fuel gas/net energy"]
    power = of["power bought"] - of["power to urea"] - of["power to CO2 liquefaction"]
    net = feed + fuel + POWER * power - STEAM_HEAT * of["steam to urea"]
    yield Magnitude("feed, GJ net/t", _ratio(feed, made), 21.5, 25.5, COMPUTED)
    yield Magnitude("fuel, GJ net/t", _ratio(fuel, made), 6.0, 16.0, PRACTICE)
    yield Magnitude("feed and fuel, GJ net/t", _ratio(feed + fuel, made), 27.5, 40.0, IPCC)
    yield Magnitude("net energy, GJ net/t", _ratio(net, made), 27.0, 40.0, IPCC)
    yield Magnitude("feed of the gas", _ratio(feed, feed + fuel), 0.62, 0.82, COMPUTED)
    yield Magnitude("power, kWh/t", 1000 * _ratio(power, made), 15.0, 150.0, PRACTICE)


def _flows(of: Months) -> Iterator[Magnitude]:
    """Return flows per tonne of ammonia or urea."""
    made, urea = of["ammonia produced"], of["urea"]
    purge, let_down = of["purge gas/volume"], of["let-down gas/volume"]
    air = 1000 * _ratio(of["dry process air"], made)
    co2, ammonia = _ratio(of["CO2 to urea/CO2"], urea), _ratio(of["ammonia to urea"], urea)
    yield Magnitude("purge gas, Nm3/t", _ratio(purge, made), 20.0, 250.0, COMPUTED)
    yield Magnitude("let-down gas, Nm3/t", _ratio(let_down, made), 5.0, 25.0, PRACTICE)
    yield Magnitude("dry process air, kg/t", air, 1050.0, 1200.0, COMPUTED)
    yield Magnitude("CO2 to urea, t/t urea", co2, 0.7328, 0.755, ABOVE_STOICHIOMETRY)
    yield Magnitude("NH3 to urea, t/t urea", ammonia, 0.567, 0.585, ABOVE_STOICHIOMETRY)


def _compositions(of: Months) -> Iterator[Magnitude]:
    """Return compositions inside the process."""
    raw, treated = of["dry raw gas"], of["gas to methanation"]
    methane = 100 * _ratio(of["methane in raw gas"], raw)
    monoxide = 100 * _ratio(of["carbon monoxide in raw gas"], raw)
    slip = 1e6 * _ratio(of["CO2 slip"], treated)
    overhead = 100 * _ratio(of["CO2 in overhead"], of["CO2 and others in overhead"])
    make_up = _ratio(of["hydrogen in make-up gas"], of["nitrogen in make-up gas"])
    yield Magnitude("CH4 in raw gas, mol-%", methane, 0.15, 0.7, EFMA)
    yield Magnitude("CO in raw gas, mol-%", monoxide, 0.1, 0.5, EFMA)
    yield Magnitude("CO2 slip, ppm", slip, 20.0, 1000.0, EFMA)
    yield Magnitude("CO2 in overhead, mol-%", overhead, 98.0, 99.9, PRACTICE)
    yield Magnitude("H2 to N2 in make-up gas", make_up, 2.9, 3.1, PRACTICE)
