"""Fuels that are counted by mass or litre and taken at default values: diesel, oil, coal."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.base import units
from footprint.base.finding import declare
from footprint.base.formulas import convert
from footprint.base.row import Row, constant, step
from footprint.base.source import Assumption
from footprint.measure.accuracy import errors_of_one, stated
from footprint.measure.context import Context
from footprint.measure.mass import mass_by_month
from footprint.read.site import Stream
from footprint.register import Register

UNKNOWN_FUEL = declare(
    "fuel-without-default-values",
    "stop",
    means="A stream of role other fuel names a fuel that the table of default values does not "
    "hold.",
    effect="its energy, carbon and emissions cannot be given, nor the totals that contain them",
    mend="write the name as the table has it",
    example='fuel = "diesel"; mended: fuel = "gas or diesel oil"',
)
_VALUE = "net calorific value of "


def known_fuels(register: Register) -> list[str]:
    """Return the fuels that have default values.

    Args:
        register: factors by day and jurisdiction. [register]

    Source: 2006 IPCC Guidelines, volume 2, table 1.2 (evidence stands with each factor)
    """
    return [
        entry.quantity.removeprefix(_VALUE)
        for entry in register.entries
        if entry.quantity.startswith(_VALUE) and entry.jurisdiction == "IPCC"
    ]


@dataclass(frozen=True, eq=False, slots=True)
class OtherFuel:
    """A fuel over the months: mass, net energy and carbon, the last two by default values.

    Litres are there where the meter counts them.
    """

    stream: Stream
    mass: Row
    net: Row
    carbon: Row
    litres: Row | None = None


def other_fuel(context: Context, stream: Stream) -> OtherFuel:
    """Return a fuel by month, with its energy and carbon by default values.

    Args:
        context: site, year, factors. [context]
        stream: a stream of role "other fuel" with the name of its default values. [stream]

    Source: 2006 IPCC Guidelines, volume 2, tables 1.2 and 1.3 (evidence stands with each factor)
    """
    name, key = stream.name, context.key
    mass, litres = _mass(context, stream)
    published = step(
        mass * context.factor(f"net calorific value of {stream.fuel}", "IPCC"),
        key(name, "net energy", "default, as published"),
        f"{name}: net energy, as published",
        "mass times default net calorific value",
    )
    net = convert(
        published, units.unit("GJ_net"), key(name, "net energy", "default"), f"{name}: net energy"
    )
    kilograms = step(
        net * context.factor(f"carbon content of {stream.fuel}", "IPCC"),
        key(name, "carbon", "default, kg"),
        f"{name}: carbon, kg",
        "energy times default carbon content",
    )
    carbon = convert(
        kilograms, units.unit("t_C"), key(name, "carbon", "default"), f"{name}: carbon"
    )
    return OtherFuel(stream, mass, net, carbon, litres)


def _mass(context: Context, stream: Stream) -> tuple[Row, Row | None]:
    """Return the mass of a fuel by month, and its litres where it is metered in such."""
    name, key = stream.name, context.key
    read = context.reading(stream.meter, name)
    if not units.is_convertible(read.unit, units.unit("litre")):
        return mass_by_month(context, stream), None
    summed = context.by_month(
        read, key(name, "volume", "metered, as read"), f"{name}: volume, as read"
    )
    litres = convert(summed, units.unit("litre"), key(name, "volume", "metered"), f"{name}: volume")
    kilograms = step(
        litres * _density(context, stream),
        key(name, "mass", "metered, kg"),
        f"{name}: mass, kg",
        "volume times density",
    )
    words = f"{name}: mass"
    mass = convert(kilograms, units.unit("tonne"), key(name, "mass", "metered"), words)
    return mass, litres


def _density(context: Context, stream: Stream) -> Row:
    """Return the density that the site file states; the reader makes sure that there is one."""
    if stream.density_kg_per_litre is None:
        raise ValueError(f"{stream.name} has no density")
    works, of = context.site.works, units.unit("kg/litre")
    accuracy = stated(stream.density_uncertainty)
    accuracy = accuracy or context.unstated.take("density of fuel", stream.name)
    key = f"density of {stream.name}"
    row = constant(
        stream.density_kg_per_litre,
        of,
        context.key(stream.name, "density", "assumed"),
        f"{stream.name}: density",
        Assumption(
            works.operator, "density stated in the site file", works.plan.approved, "streams"
        ),
    )
    return row.replaced(errors=errors_of_one(key, accuracy, stream.density_kg_per_litre, of))
