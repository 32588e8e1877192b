"""The least feed that ammonia can be made from: by chemistry alone, and with the heat balanced.

Every carbon atom leaves as CO2, no hydrogen is lost, steam supplies what hydrogen is missing,
nitrogen comes from air and from the feed only, the oxygen of that air is consumed. The equations
hold for a kmol of feed and for the feed of a month alike, as long as its figures are of one kind.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic

from footprint.base.row import Row, constant, step
from footprint.base.units import unit
from footprint.gas.arithmetic import Number, positive_part

BECAUSE = "balances of oxygen, hydrogen and nitrogen for synthesis from feed, steam and air"


@dataclass(frozen=True, eq=False, slots=True)
class Stoichiometry(Generic[Number]):
    """The whole numbers of the synthesis, and the ratio of nitrogen to oxygen in air.

    Attributes:
        by_nitrogen: equivalents that bind one nitrogen atom as ammonia: 3. [kmol_equivalent/kmol_N]
        by_oxygen: equivalents that one molecule of oxygen takes up: 4. [kmol_equivalent/kmol]
        in_nitrogen: atoms in one molecule of nitrogen: 2. [kmol_N/kmol]
        in_ammonia: nitrogen atoms in one molecule of ammonia: 1. [kmol_N/kmol_NH3]
        air_ratio: nitrogen over oxygen in dry air. [kmol/kmol]
    """

    by_nitrogen: Number
    by_oxygen: Number
    in_nitrogen: Number
    in_ammonia: Number
    air_ratio: Number


_MEANINGS = {
    "ammonia/reducing equivalents/by nitrogen atom": (
        3,
        "kmol_equivalent/kmol_N",
        "reducing equivalents that bind one nitrogen atom as ammonia",
    ),
    "oxygen/reducing equivalents/by molecule": (
        4,
        "kmol_equivalent/kmol",
        "reducing equivalents that one molecule of oxygen takes up",
    ),
    "nitrogen/nitrogen atoms/by molecule": (2, "kmol_N/kmol", "atoms in one molecule of nitrogen"),
    "ammonia/nitrogen atoms/by molecule": (
        1,
        "kmol_N/kmol_NH3",
        "nitrogen atoms in one molecule of ammonia",
    ),
}
_ROWS = tuple(
    constant(value, unit(name), f"definitions/{key}", words)
    for key, (value, name, words) in _MEANINGS.items()
)


def stoichiometry(air_ratio: Number) -> Stoichiometry[Number]:
    """Return the whole numbers of the synthesis beside the air ratio, rows beside a row.

    Args:
        air_ratio: nitrogen over oxygen in dry air. [kmol/kmol]

    Source: definition
    """
    if isinstance(air_ratio, Row):
        by_nitrogen, by_oxygen, in_nitrogen, in_ammonia = _ROWS
        return Stoichiometry(by_nitrogen, by_oxygen, in_nitrogen, in_ammonia, air_ratio)
    return Stoichiometry(3.0, 4.0, 2.0, 1.0, air_ratio)


@dataclass(frozen=True, eq=False, slots=True)
class Synthesis(Generic[Number]):
    """What a feed can make.

    Attributes:
        air_oxygen: oxygen that comes with the air nitrogen. [kmol]
        ammonia: made with nitrogen from air and feed. [kmol_NH3]
        ammonia_without_oxygen: made when nitrogen comes without oxygen, E2. [kmol_NH3]
    """

    air_oxygen: Number
    ammonia: Number
    ammonia_without_oxygen: Number


def ammonia_from(
    reducing: Number,
    nitrogen: Number,
    numbers: Stoichiometry[Number],
    key: str = "",
    words: str = "feed",
) -> Synthesis[Number]:
    """Return the ammonia that a feed can make; no air where the feed holds all the nitrogen.

    With reducing equivalents B, nitrogen atoms n and air ratio r: oxygen (B - 3 n) / (6 r + 4), not
    below 0; ammonia (B - 4 oxygen) / 3.

    Args:
        reducing: reducing equivalents of the feed; a row must have a name. [kmol_equivalent]
        nitrogen: nitrogen atoms of the feed. [kmol_N]
        numbers: stoichiometry. [table]
        key: front of the keys, such as "ammonia/feed gas". [text]
        words: name of the feed. [text]

    Source: balances of oxygen, hydrogen and nitrogen of the reaction, solved for ammonia
    """
    unbound = step(
        reducing - numbers.by_nitrogen * nitrogen,
        f"{key}/reducing equivalents/beyond the feed's nitrogen",
        f"reducing equivalents of {words} that need nitrogen from air",
        BECAUSE,
    )
    taken = step(
        numbers.by_nitrogen * numbers.in_nitrogen * numbers.air_ratio + numbers.by_oxygen,
        f"{key}/reducing equivalents/by air oxygen",
        "reducing equivalents by molecule of air oxygen with its nitrogen",
        BECAUSE,
    )
    oxygen = step(
        positive_part(unbound) / taken,
        f"{key}/oxygen from air/least",
        f"oxygen from air, least, {words}",
        BECAUSE,
    )
    by_ammonia = numbers.by_nitrogen * numbers.in_ammonia
    ammonia = (reducing - numbers.by_oxygen * oxygen) / by_ammonia
    return Synthesis(
        oxygen,
        step(ammonia, f"{key}/ammonia/most", f"ammonia that {words} can make with air", BECAUSE),
        step(
            reducing / by_ammonia,
            f"{key}/ammonia/most, nitrogen without oxygen",
            f"ammonia that {words} can make with nitrogen free of oxygen",
            BECAUSE,
        ),
    )


def least_feed_energy(energy: Number, ammonia: Number, ammonia_mass: Number) -> Number:
    """Return the feed energy per tonne of ammonia at the chemical limit.

    E1 with the ammonia made with air, E2 with that made with nitrogen alone. Surplus heat is not
    credited and missing heat is taken as free.

    Args:
        energy: calorific energy of the feed, net or gross. [GJ]
        ammonia: that the feed can make, with air or with nitrogen alone. [kmol_NH3]
        ammonia_mass: molar mass of ammonia. [t_NH3/kmol_NH3]

    Source: definition
    """
    return energy / (ammonia * ammonia_mass)


def thermoneutral_energy(ammonia_value: Number, ammonia_mass: Number) -> Number:
    """Return the feed energy per tonne with the heat balanced and water entering as vapour, E3.

    It is the calorific value of ammonia for every feed; the gross one with water entering as
    liquid.

    Args:
        ammonia_value: calorific value of ammonia gas, net or gross. [GJ/kmol_NH3]
        ammonia_mass: molar mass of ammonia. [t_NH3/kmol_NH3]

    Source: law of Hess
    """
    return ammonia_value / ammonia_mass


def surplus_heat(
    energy: Number, ammonia: Number, ammonia_value: Number, ammonia_mass: Number
) -> Number:
    """Return the heat of the synthesis per tonne of ammonia, so that E1 less surplus heat is E3.

    Net values are for water entering as vapour, gross values for liquid water.

    Args:
        energy: calorific energy of the feed, net or gross. [GJ]
        ammonia: that the feed can make. [kmol_NH3]
        ammonia_value: calorific value of ammonia gas on the same basis. [GJ/kmol_NH3]
        ammonia_mass: molar mass of ammonia. [t_NH3/kmol_NH3]

    Source: law of Hess
    """
    return (energy - ammonia * ammonia_value) / (ammonia * ammonia_mass)


def process_co2(carbon: Number, ammonia: Number, ammonia_mass: Number) -> Number:
    """Return the CO2 that leaves per tonne of ammonia at the chemical limit.

    Args:
        carbon: carbon of the feed as mass of CO2. [t_CO2]
        ammonia: that the feed can make. [kmol_NH3]
        ammonia_mass: molar mass of ammonia. [t_NH3/kmol_NH3]

    Source: definition
    """
    return carbon / (ammonia * ammonia_mass)
