"""Streams whose readings could not be read: months without data, and so no figures from them."""

from __future__ import annotations

from footprint.base import units
from footprint.base.row import Row, leaf
from footprint.measure.context import Context
from footprint.measure.fuel import OtherFuel
from footprint.measure.gas_flow import GasFlow
from footprint.measure.mass import Stock
from footprint.read.site import Stream


def without_data(context: Context, stream: Stream, quantity: str, unit: str) -> Row:
    """Return twelve months without data.

    Args:
        context: site, year, factors. [context]
        stream: as declared. [stream]
        quantity: what is missing. [text]
        unit: unit of the house. [text]

    Source: definition
    """
    return leaf(
        [float("nan")] * context.calendar.months.size,
        units.unit(unit),
        context.calendar.months,
        key=context.key(stream.name, quantity, "no data"),
        words=f"{stream.name}: {quantity}",
        origins=[None],
    )


def gas_without_data(context: Context, stream: Stream) -> GasFlow:
    """Return a gas stream without data.

    Args:
        context: site, year, factors. [context]
        stream: a gas stream. [stream]

    Source: definition
    """

    def blank(quantity: str, unit: str) -> Row:
        return without_data(context, stream, quantity, unit)

    return GasFlow(
        stream,
        amount=blank("amount of gas", "kmol"),
        carbon=blank("carbon", "t_C"),
        net=blank("net calorific energy", "GJ_net"),
        gross=blank("gross calorific energy", "GJ_gross"),
        reducing=blank("reducing equivalents", "kmol_equivalent"),
        nitrogen=blank("nitrogen atoms", "kmol_N"),
        mass=blank("mass of gas", "kg"),
        volume=blank("volume, dry", "Nm3"),
    )


def stock_without_data(context: Context, stream: Stream, unit: str) -> Stock:
    """Return a stock without data.

    Args:
        context: site, year, factors. [context]
        stream: a stock. [stream]
        unit: tonnes of the substance. [text]

    Source: definition
    """
    opening, closing, growth = (
        without_data(context, stream, quantity, unit)
        for quantity in ("opening", "closing", "growth")
    )
    return Stock(stream, opening, closing, growth)


def fuel_without_data(context: Context, stream: Stream) -> OtherFuel:
    """Return a fuel counted by mass, without data.

    Args:
        context: site, year, factors. [context]
        stream: a stream of role "other fuel". [stream]

    Source: definition
    """
    return OtherFuel(
        stream,
        mass=without_data(context, stream, "mass", "tonne"),
        net=without_data(context, stream, "net energy", "GJ_net"),
        carbon=without_data(context, stream, "carbon", "t_C"),
    )
