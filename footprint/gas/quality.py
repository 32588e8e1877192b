"""The quality of one gas, sample by sample: the named rows that the workbook shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields

from footprint.base.formulas import conversion
from footprint.base.row import Row, step
from footprint.base.units import unit
from footprint.gas import carbon, compressibility, elements, heating
from footprint.gas.properties import Constants, Properties

STANDARD = "ISO 6976:2016"
ATOMS = "mole fraction times atoms, summed over the components"


@dataclass(frozen=True, eq=False, slots=True)
class GasQuality:
    """Figures of one gas by sample, all as named rows.

    Attributes:
        gas: name of the gas. [text]
        fractions: mole fraction of each component. [kmol/kmol]
        molar_mass: of the gas. [kg/kmol]
        summation: summation factor by reference condition. [1]
        compression: compression factor by reference condition. [1]
        molar_volume: of the real gas by reference condition, as in "Nm3". [volume/kmol]
        gross: gross calorific value at 25 °C, as the properties are. [GJ_gross/kmol]
        net: net calorific value. [GJ_net/kmol]
        gross_by_mass: for show. [MJ_gross/kg]
        net_by_mass: for show. [MJ_net/kg]
        gross_by_volume: for show. [MJ_gross/Nm3]
        net_by_volume: for show. [MJ_net/Nm3]
        carbon: all carbon atoms. [kmol_C/kmol]
        hydrogen: hydrogen atoms. [kmol_H/kmol]
        nitrogen: nitrogen atoms. [kmol_N/kmol]
        oxygen: oxygen atoms. [kmol_O/kmol]
        sulfur: sulfur atoms. [kmol_S/kmol]
        reducing: reducing equivalents. [kmol_equivalent/kmol]
        carbon_content: mass of carbon by mass of gas. [kg_C/kg]
        emission_factor_net: for show. [t_CO2/TJ_net]
        emission_factor_gross: for show. [t_CO2/TJ_gross]
        density: for show. [kg/Nm3]
        relative_density: for show. [1]
        wobbe: gross Wobbe index, for show. [MJ_gross/Nm3]
    """

    gas: str
    fractions: tuple[Row, ...]
    molar_mass: Row
    summation: dict[str, Row]
    compression: dict[str, Row]
    molar_volume: dict[str, Row]
    gross: Row
    net: Row
    gross_by_mass: Row
    net_by_mass: Row
    gross_by_volume: Row
    net_by_volume: Row
    carbon: Row
    hydrogen: Row
    nitrogen: Row
    oxygen: Row
    sulfur: Row
    reducing: Row
    carbon_content: Row
    emission_factor_net: Row
    emission_factor_gross: Row
    density: Row
    relative_density: Row
    wobbe: Row

    @property
    def rows(self) -> tuple[Row, ...]:
        """All rows in the order of showing, the mole fractions first.

        Source: definition
        """
        listed: list[Row] = []
        for field in fields(self):
            held = getattr(self, field.name)
            if isinstance(held, Row):
                listed.append(held)
            elif isinstance(held, dict):
                listed.extend(held.values())
            elif isinstance(held, tuple):
                listed.extend(held)
        return tuple(listed)


@dataclass(frozen=True, eq=False, slots=True)
class _Sheet:
    """Names rows of one gas."""

    gas: str

    def named(self, row: Row, quantity: str, because: str) -> Row:
        """Return the row under the gas's own key and words."""
        return step(row, f"gas/{self.gas}/mixture/{quantity}", f"{quantity} of {self.gas}", because)

    def shown(self, row: Row, wanted: str, quantity: str, because: str) -> Row:
        """Return the row in the unit the reader expects, named."""
        return self.named(row * conversion(row.unit, unit(wanted)), quantity, because)


def gas_quality(
    gas: str,
    fractions: Sequence[Row],
    properties: Properties[Row],
    constants: Constants[Row],
    co2_per_carbon: Row,
) -> GasQuality:
    """Return all figures of one gas by sample.

    Args:
        gas: name of the gas. [text]
        fractions: mole fraction of each component, in the order of the properties. [kmol/kmol]
        properties: of the components, at the reference conditions wanted; "Nm3" must be one. [rows]
        constants: of ideal gas, air and carbon. [rows]
        co2_per_carbon: mass of CO2 per mass of carbon, for the emission factors shown. [t_CO2/t_C]

    Valid: compression factor above 0.9; dry gas, or water counted as a component
    Source: ISO 6976:2016
    """
    sheet = _Sheet(gas)
    mass = compressibility.molar_mass(fractions, properties.molar_mass)
    mass = sheet.named(mass, "molar mass", f"{STANDARD}, formula (5)")
    room = _room(sheet, fractions, properties, constants)
    _, compression, volume = room
    gross, net = _calorific(sheet, fractions, properties)
    atoms = _atoms(sheet, fractions, properties)
    front, because = f"gas/{gas}/mixture", "4 c + h - 2 o - 2 s"
    return GasQuality(
        gas,
        tuple(fractions),
        mass,
        *room,
        gross,
        net,
        *(_by_mass(sheet, gross, mass, "gross"), _by_mass(sheet, net, mass, "net")),
        *(
            _by_volume(sheet, gross, volume["Nm3"], "gross"),
            _by_volume(sheet, net, volume["Nm3"], "net"),
        ),
        *(atoms.carbon, atoms.hydrogen, atoms.nitrogen, atoms.oxygen, atoms.sulfur),
        elements.reducing_equivalents(atoms, elements.PER_ATOM_ROWS, front, gas, because),
        *_carbon(sheet, constants, co2_per_carbon, (atoms.carbon, mass, net, gross)),
        *_density(sheet, constants, (mass, compression["Nm3"], volume["Nm3"], gross)),
    )


_ByCondition = dict[str, Row]


def _room(
    sheet: _Sheet, fractions: Sequence[Row], properties: Properties[Row], constants: Constants[Row]
) -> tuple[_ByCondition, _ByCondition, _ByCondition]:
    """Return summation factor, compression factor and molar volume by reference condition."""
    summation, compression, volume = {}, {}, {}
    for name, of_components in properties.summation.items():
        s = compressibility.summation_factor(fractions, of_components)
        inside = f"{STANDARD}, formula (1), the sum inside the square"
        summation[name] = sheet.named(s, f"summation factor, {name}", inside)
        z = compressibility.compression_factor(summation[name])
        compression[name] = sheet.named(
            z, f"compression factor, {name}", f"{STANDARD}, formula (1)"
        )
        v = compressibility.molar_volume(compression[name], constants.ideal_molar_volume[name])
        volume[name] = sheet.named(v, f"molar volume, {name}", f"{STANDARD}, formula (11)")
    return summation, compression, volume


def _calorific(
    sheet: _Sheet, fractions: Sequence[Row], properties: Properties[Row]
) -> tuple[Row, Row]:
    gross = heating.molar(fractions, properties.gross)
    net = heating.molar(fractions, properties.net)
    return (
        sheet.named(gross, "gross calorific value by kmol", f"{STANDARD}, formula (2)"),
        sheet.named(net, "net calorific value by kmol", f"{STANDARD}, formula (3), by component"),
    )


def _by_mass(sheet: _Sheet, value: Row, mass: Row, basis: str) -> Row:
    because = f"{STANDARD}: value by kmol over molar mass"
    return sheet.shown(
        heating.by_mass(value, mass), f"MJ_{basis}/kg", f"{basis} calorific value by kg", because
    )


def _by_volume(sheet: _Sheet, value: Row, volume: Row, basis: str) -> Row:
    because = f"{STANDARD}, formula ({'10' if basis == 'gross' else '12'})"
    by_volume = heating.by_volume(value, volume)
    return sheet.shown(by_volume, f"MJ_{basis}/Nm3", f"{basis} calorific value by Nm3", because)


def _atoms(
    sheet: _Sheet, fractions: Sequence[Row], properties: Properties[Row]
) -> elements.Atoms[Row]:
    found = {
        name: sheet.named(
            elements.atoms_in_gas(fractions, getattr(properties.atoms, name)),
            f"{name} atoms",
            ATOMS,
        )
        for name in elements.ELEMENTS
    }
    return elements.Atoms(**found)


def _density(
    sheet: _Sheet, constants: Constants[Row], of_gas: tuple[Row, Row, Row, Row]
) -> tuple[Row, Row, Row]:
    mass, compression, volume, gross = of_gas
    density = sheet.named(
        compressibility.density(mass, volume), "density", f"{STANDARD}, formula (19)"
    )
    relative = sheet.named(
        compressibility.relative_density(
            mass, constants.air_mass, compression, constants.air_compression["Nm3"]
        ),
        "relative density",
        f"{STANDARD}, formula (17)",
    )
    wobbe = compressibility.wobbe_index(heating.by_volume(gross, volume), relative)
    return (
        density,
        relative,
        sheet.shown(wobbe, "MJ_gross/Nm3", "gross Wobbe index", f"{STANDARD}, formula (20)"),
    )


def _carbon(
    sheet: _Sheet, constants: Constants[Row], co2_per_carbon: Row, of_gas: tuple[Row, Row, Row, Row]
) -> tuple[Row, Row, Row]:
    atoms, mass, net, gross = of_gas
    content = carbon.carbon_content(atoms, constants.carbon_mass, mass)

    def factor(value: Row, basis: str) -> Row:
        by_energy = sheet.named(
            carbon.carbon_by_energy(atoms, constants.carbon_mass, value),
            f"carbon by {basis} energy",
            "carbon over calorific value",
        )
        return sheet.shown(
            carbon.emission_factor(by_energy, co2_per_carbon),
            f"t_CO2/TJ_{basis}",
            f"emission factor by {basis} energy",
            "carbon by energy times CO2 per carbon",
        )

    named = sheet.named(
        content, "carbon content by mass", "carbon atoms times atomic weight over molar mass"
    )
    return named, factor(net, "net"), factor(gross, "gross")
