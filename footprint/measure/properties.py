"""The property table of each gas, and the constants all gases share, taken from the register."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property

from footprint.base.formulas import conversion, convert
from footprint.base.row import Row, constant, step
from footprint.base.units import NONE, unit
from footprint.gas import compressibility, heating
from footprint.gas.elements import ELEMENTS
from footprint.gas.moisture import Saturation
from footprint.gas.properties import CONDITIONS, AtomsOfComponents, Condition, Constants, Properties
from footprint.gas.theory import Stoichiometry, stoichiometry
from footprint.register import Register

FROM_TABLE = "component table of ISO 6976:2016"


@dataclass
class Physics:
    """The register on one day at one combustion temperature, and the rows all gases share.

    Attributes:
        register: factors. [register]
        day: the day they must apply on. [date]
        combustion: combustion temperature as the component table names it. [text]
    """

    register: Register
    day: date
    combustion: str = "25 °C"
    _volumes: dict[str, Row] = field(default_factory=dict)

    def value(self, quantity: str) -> Row:
        """Return a value of science in force on the day.

        Args:
            quantity: as in the factor files. [text]

        Source: definition
        """
        return self.register.row(quantity, self.day)

    @cached_property
    def latent(self) -> Row:
        """Heat of condensation of the water from one hydrogen atom, counted as gross energy.

        Source: ISO 6976:2016, formula (3)
        """
        in_water = constant(
            2,
            unit("kmol_H/kmol"),
            "definitions/water/hydrogen atoms/by molecule",
            "hydrogen atoms in one molecule of water",
        )
        vaporisation = self.value(f"vaporisation enthalpy of water at {self.combustion}")
        counted = constant(
            0.001,  # kJ/mol is MJ/kmol
            unit("GJ_gross/kmol") / vaporisation.unit,
            "definitions/energy/joule/gross by latent",
            "latent heat in kJ/mol as gross energy in GJ/kmol",
        )
        return step(
            heating.latent_per_hydrogen(vaporisation * counted, in_water),
            f"gas/water/latent heat/by hydrogen atom, {self.combustion}",
            f"heat of condensation by hydrogen atom at {self.combustion}",
            "ISO 6976:2016, formula (3): L over the hydrogen atoms of water",
        )

    @cached_property
    def net_per_gross(self) -> Row:
        """1: net and gross energy are counted in the same joule.

        Source: definition
        """
        return constant(
            1,
            unit("GJ_net/GJ_gross"),
            "definitions/energy/joule/net by gross",
            "net and gross energy are counted in the same joule",
        )

    @cached_property
    def saturation(self) -> Saturation[Row]:
        """Coefficients of the saturation line of water, for kPa.

        Source: IAPWS R7-97(2012), table 34 (from memory)
        """
        return Saturation(
            n=tuple(
                self.value(f"saturation pressure coefficient n{place}") for place in range(1, 11)
            ),
            two=constant(2, NONE, "definitions/square formula/two", "two"),
            four=constant(4, NONE, "definitions/square formula/four", "four"),
            temperature=self.value("saturation pressure reference temperature"),
            pressure=convert(
                self.value("saturation pressure reference pressure"),
                unit("kPa"),
                "definitions/water/saturation line/unit of pressure",
                "unit of pressure of the saturation line, kPa",
            ),
        )

    @cached_property
    def synthesis(self) -> Stoichiometry[Row]:
        """Whole numbers of the ammonia synthesis and the nitrogen to oxygen ratio of dry air.

        Source: stoichiometry; composition of dry air through the register
        """
        ratio = self.value("mole fraction of nitrogen in dry air") / self.value(
            "mole fraction of oxygen in dry air"
        )
        words = "nitrogen to oxygen in dry air"
        return stoichiometry(
            step(
                ratio, "gas/dry air/nitrogen to oxygen/by amount", words, "ratio of mole fractions"
            )
        )

    def ideal_molar_volume(self, condition: Condition) -> Row:
        """Return the molar volume of an ideal gas; the same row on every call.

        Args:
            condition: reference condition. [condition]

        Source: ISO 6976:2016, formula (8)
        """
        if condition.unit not in self._volumes:
            volume = compressibility.ideal_molar_volume(
                self.value("molar gas constant"),
                self.value(f"temperature of {condition.temperature}"),
                self.value("reference pressure of gas volumes"),
            )
            self._volumes[condition.unit] = step(
                volume * self.value(f"{condition.words} in a cubic metre of gas"),
                f"gas/ideal gas/molar volume/{condition.unit}",
                f"molar volume of an ideal gas, {condition.words}",
                "ISO 6976:2016, formula (8): R T / p",
            )
        return self._volumes[condition.unit]


def properties_of(
    gas: str, components: Sequence[str], physics: Physics, conditions: Sequence[str] = ("Nm3",)
) -> Properties[Row]:
    """Return the property table of one gas: a row for each component and property.

    Args:
        gas: name of the gas. [text]
        components: names in the component table, in the order of the composition. [text]
        physics: register, day and combustion temperature. [physics]
        conditions: reference conditions by name of volume; Nm3 is always among them. [text]

    Source: ISO 6976:2016, Tables 1 to 3, through the register
    """
    table = _Table(gas, tuple(components), physics)
    wanted = dict.fromkeys(("Nm3", *conditions))
    gross = table.rows(
        "gross calorific value", "{} of {} at " + physics.combustion, "GJ_gross/kmol"
    )
    atoms = {
        element: table.rows(f"{element} atoms", "{} in {}", f"kmol_{symbol}/kmol")
        for element, symbol in ELEMENTS.items()
    }
    return Properties(
        components=table.components,
        molar_mass=table.rows("molar mass", "{} of {}", "kg/kmol"),
        summation={name: table.summation(CONDITIONS[name]) for name in wanted},
        gross=gross,
        net=table.net(gross, atoms["hydrogen"]),
        atoms=AtomsOfComponents(**atoms),
    )


def constants_of(physics: Physics, conditions: Sequence[str] = ("Nm3",)) -> Constants[Row]:
    """Return the constants of an ideal gas, of dry air and of carbon.

    Args:
        physics: register, day and combustion temperature. [physics]
        conditions: reference conditions by name of volume; Nm3 is always among them. [text]

    Source: ISO 6976:2016, Annex A, through the register
    """
    wanted = [CONDITIONS[name] for name in dict.fromkeys(("Nm3", *conditions))]
    return Constants(
        ideal_molar_volume={one.unit: physics.ideal_molar_volume(one) for one in wanted},
        air_mass=physics.value("molar mass of dry air"),
        air_compression={
            one.unit: physics.value(f"compression factor of dry air at {one.table}")
            for one in wanted
        },
        carbon_mass=physics.value("atomic weight of carbon"),
    )


@dataclass(frozen=True)
class _Table:
    """Makes the rows of one property of all components of one gas."""

    gas: str
    components: tuple[str, ...]
    physics: Physics

    def rows(self, prop: str, asked: str, wanted: str, shown: str = "") -> tuple[Row, ...]:
        """Return one property of each component, in the unit wanted."""
        return tuple(
            self._named(
                _in_unit(self.physics.value(asked.format(prop, name)), wanted),
                name,
                shown or prop,
                FROM_TABLE,
            )
            for name in self.components
        )

    def summation(self, condition: Condition) -> tuple[Row, ...]:
        """Return the summation factors at the temperature of a reference condition."""
        asked = "{} of {} at " + condition.table
        return self.rows("summation factor", asked, "", f"summation factor, {condition.unit}")

    def net(self, gross: Sequence[Row], hydrogen: Sequence[Row]) -> tuple[Row, ...]:
        """Return the net calorific value of each component."""
        latent, same_joule = self.physics.latent, self.physics.net_per_gross
        because = "ISO 6976:2016, formula (3): gross less half the hydrogen atoms times L"
        return tuple(
            self._named(
                heating.net_of_component(value, atoms, latent, same_joule),
                name,
                "net calorific value",
                because,
            )
            for name, value, atoms in zip(self.components, gross, hydrogen, strict=True)
        )

    def _named(self, row: Row, component: str, prop: str, because: str) -> Row:
        return step(
            row,
            f"gas/{self.gas}/{component}/{prop}",
            f"{prop} of {component} ({self.gas})",
            because,
        )


def _in_unit(row: Row, wanted: str) -> Row:
    return row if row.unit == unit(wanted) else row * conversion(row.unit, unit(wanted))
