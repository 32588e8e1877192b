"""What the arithmetic needs to know of the components, of an ideal gas, of air and of carbon."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic

from footprint.gas.arithmetic import Number


@dataclass(frozen=True, slots=True)
class Condition:
    """A reference condition of volumes, at 101.325 kPa.

    Attributes:
        unit: name of its cubic metre or cubic foot. [text]
        words: the same for the reader. [text]
        temperature: in the words of the register. [text]
        table: temperature in the component table that is the same. [text]
    """

    unit: str
    words: str
    temperature: str
    table: str


CONDITIONS = {
    one.unit: one
    for one in (
        Condition("Nm3", "Nm3", "0 °C", "0 °C"),
        Condition("Sm3", "Sm3", "15 °C", "15 °C"),
        Condition("m3_20C", "m3 at 20 °C", "20 °C", "20 °C"),
        Condition("scf_60F", "scf at 60 °F", "60 °F", "60 °F"),
        Condition("scf_68F", "scf at 68 °F", "68 °F", "20 °C"),
    )
}


@dataclass(frozen=True, eq=False, slots=True)
class Properties(Generic[Number]):
    """Of each component of one gas, in the order of its composition.

    Attributes:
        components: names. [text]
        molar_mass: one a component. [kg/kmol]
        summation: summation factor of each component, by reference condition. [1]
        gross: gross calorific value at one combustion temperature. [GJ_gross/kmol]
        net: net calorific value at the same temperature. [GJ_net/kmol]
        atoms: atoms of each element in one molecule. [kmol_atoms/kmol]
    """

    components: tuple[str, ...]
    molar_mass: tuple[Number, ...]
    summation: dict[str, tuple[Number, ...]]
    gross: tuple[Number, ...]
    net: tuple[Number, ...]
    atoms: AtomsOfComponents[Number]


@dataclass(frozen=True, eq=False, slots=True)
class AtomsOfComponents(Generic[Number]):
    """Atoms of each element in one molecule of each component."""

    carbon: tuple[Number, ...]
    hydrogen: tuple[Number, ...]
    nitrogen: tuple[Number, ...]
    oxygen: tuple[Number, ...]
    sulfur: tuple[Number, ...]


@dataclass(frozen=True, eq=False, slots=True)
class Constants(Generic[Number]):
    """Of an ideal gas, of dry air and of carbon.

    Attributes:
        ideal_molar_volume: by reference condition. [volume/kmol]
        air_mass: molar mass of dry air. [kg/kmol]
        air_compression: compression factor of dry air by reference condition. [1]
        carbon_mass: molar mass of carbon. [kg_C/kmol_C]
    """

    ideal_molar_volume: dict[str, Number]
    air_mass: Number
    air_compression: dict[str, Number]
    carbon_mass: Number
