"""All streams by month: the one thing that later stages start from."""

from __future__ import annotations

from dataclasses import dataclass, field
from difflib import get_close_matches

from footprint.base import units
from footprint.base.finding import Finding, Where
from footprint.base.formulas import convert
from footprint.base.row import Row
from footprint.measure.analysis import GasSamples, gas_samples
from footprint.measure.bill import Bill, bill_of
from footprint.measure.blank import (
    fuel_without_data,
    gas_without_data,
    stock_without_data,
    without_data,
)
from footprint.measure.context import Context
from footprint.measure.fuel import UNKNOWN_FUEL, OtherFuel, known_fuels, other_fuel
from footprint.measure.gas_flow import GasFlow, gas_flow
from footprint.measure.line import correct
from footprint.measure.line_range import is_at_line, line_faults, tags_of_line
from footprint.measure.mass import Stock, mass_by_month, stock_by_month
from footprint.measure.steam import heat_by_month
from footprint.measure.together import faults_together
from footprint.read.readings import Readings
from footprint.read.site import Role, Stream
from footprint.register import Register

STOCK_ROLES: frozenset[Role] = frozenset({"ammonia stock", "liquid CO2 stock"})
POWER_ROLES: frozenset[Role] = frozenset(
    {"power bought", "power made", "power sold", "power exported"}
)
STEAM_ROLES: frozenset[Role] = frozenset({"steam bought", "steam exported"})
COUNT_ROLES: frozenset[Role] = frozenset({"hours on line", "starts", "trips"})


@dataclass(frozen=True, eq=False)
class Measured:
    """Every stream by month, by its name; a stream whose meter could not be read is absent."""

    context: Context
    gas: dict[str, GasFlow] = field(default_factory=dict)
    mass: dict[str, Row] = field(default_factory=dict)
    stock: dict[str, Stock] = field(default_factory=dict)
    power: dict[str, Row] = field(default_factory=dict)
    heat: dict[str, Row] = field(default_factory=dict)
    fuel: dict[str, OtherFuel] = field(default_factory=dict)
    count: dict[str, Row] = field(default_factory=dict)
    bills: dict[str, Bill] = field(default_factory=dict)

    def gases(self, *roles: Role) -> list[GasFlow]:
        """Return the gas flows of some roles, in the order of the site file.

        Args:
            roles: trade terms. [text]

        Source: definition
        """
        return [
            self.gas[one.name]
            for one in self.context.site.with_role(*roles)
            if one.name in self.gas
        ]

    def masses(self, *roles: Role) -> list[tuple[Stream, Row]]:
        """Return the streams of some roles that are counted by mass.

        Args:
            roles: trade terms. [text]

        Source: definition
        """
        streams = self.context.site.with_role(*roles)
        return [(one, self.mass[one.name]) for one in streams if one.name in self.mass]


def measure(readings: Readings, register: Register) -> tuple[Measured, list[Finding]]:
    """Return every stream by month in house units, and what was found on the way.

    Args:
        readings: what was written down. [readings]
        register: factors by day and jurisdiction. [register]

    Source: definition
    """
    context = Context(readings, register)
    measured = Measured(context)
    samples: dict[str, GasSamples] = {}
    readable = [one.name for one in context.site.streams if _is_readable(context, one)]
    for stream in context.site.streams:  # before the others: a mixed meter takes them off
        if stream.name in readable and stream.analysis and is_at_line(stream, readings):
            correct(context, stream, _samples(context, stream.analysis, samples))
    for stream in context.site.streams:
        if stream.name in readable:
            _measure_stream(measured, stream, samples)
        else:
            _leave_blank(measured, stream)
    return measured, [*context.findings, *context.unstated.findings]


def _is_readable(context: Context, stream: Stream) -> bool:
    """Return whether every series that a stream needs could be read and can be used together."""
    series, others = context.readings.series, _mixed_with(context, stream)
    water = (stream.water.temperature, stream.water.pressure) if stream.water else ()
    laboratory = [tag for tag in (stream.purity, stream.nitrogen) if tag]
    needed = [stream.meter, *water, *laboratory, *tags_of_line(stream, context.readings)]
    for other in others:
        needed += [other.meter, *tags_of_line(other, context.readings)]
    is_analysed = stream.analysis is None or stream.analysis in context.readings.analyses
    if not is_analysed or any(tag not in series for tag in needed):
        return False
    faults = faults_together(stream, context.readings, others)
    faults += line_faults(stream, context.readings)
    context.findings.extend(faults)
    of_joined = [fault for other in others for fault in line_faults(other, context.readings)]
    return all(fault.level != "stop" for fault in (*faults, *of_joined))


def _mixed_with(context: Context, stream: Stream) -> list[Stream]:
    """Return the streams that joined before a meter that stands after the mixing."""
    if stream.position != "after mixing":
        return []
    return [one for one in context.site.streams if one.name in stream.mixed_with]


def _measure_stream(measured: Measured, stream: Stream, samples: dict[str, GasSamples]) -> None:
    context, name = measured.context, stream.name
    if stream.role in STOCK_ROLES:
        measured.stock[name] = stock_by_month(context, stream)
    elif stream.role in STEAM_ROLES:
        measured.heat[name] = heat_by_month(context, stream)
    elif stream.role in POWER_ROLES:
        measured.power[name] = _in(context, stream, "MWh")
    elif stream.role in COUNT_ROLES:
        measured.count[name] = _in(context, stream, _unit_of_count(stream))
    elif stream.role == "other fuel":
        _measure_fuel(measured, stream)
    elif stream.analysis is not None:
        of_gas = _samples(context, stream.analysis, samples)
        measured.gas[name] = gas_flow(context, stream, of_gas)
        if stream.invoiced in context.readings.series:
            measured.bills[name] = bill_of(context, measured.gas[name], stream.invoiced)
    else:
        measured.mass[name] = mass_by_month(context, stream)


def _samples(context: Context, gas: str, made: dict[str, GasSamples]) -> GasSamples:
    """Return the samples of a gas, made once."""
    if gas not in made:
        made[gas] = gas_samples(context, gas)
        context.qualities[gas] = made[gas].quality
    return made[gas]


def _measure_fuel(measured: Measured, stream: Stream) -> None:
    """Enter a fuel at default values; without data when the site file names one that has none."""
    context = measured.context
    if stream.fuel in known_fuels(context.register):
        measured.fuel[stream.name] = other_fuel(context, stream)
        return
    near = get_close_matches(str(stream.fuel), known_fuels(context.register), n=3, cutoff=0.3)
    context.findings.append(
        UNKNOWN_FUEL.at(
            Where("site.toml", column=f"streams > {stream.name} > fuel"),
            f'no default values are known for the fuel "{stream.fuel}"',
            read=str(stream.fuel),
            mend=f"write one of: {', '.join(near or known_fuels(context.register))}",
        )
    )
    measured.fuel[stream.name] = fuel_without_data(context, stream)


def _leave_blank(measured: Measured, stream: Stream) -> None:
    context, name = measured.context, stream.name
    if stream.role in STOCK_ROLES:
        unit = "t_CO2" if stream.role == "liquid CO2 stock" else "t_NH3"
        measured.stock[name] = stock_without_data(context, stream, unit)
    elif stream.role in STEAM_ROLES:
        measured.heat[name] = without_data(context, stream, "heat", "GJ_heat")
    elif stream.role in POWER_ROLES:
        measured.power[name] = without_data(context, stream, "quantity", "MWh")
    elif stream.role in COUNT_ROLES:
        measured.count[name] = without_data(context, stream, "quantity", _unit_of_count(stream))
    elif stream.role == "other fuel":
        measured.fuel[name] = fuel_without_data(context, stream)
    elif stream.analysis is not None:
        measured.gas[name] = gas_without_data(context, stream)
    else:
        measured.mass[name] = without_data(context, stream, "mass", _substance_of(stream))


def _unit_of_count(stream: Stream) -> str:
    return "hour" if stream.role == "hours on line" else "start"


def _substance_of(stream: Stream) -> str:
    """Return tonnes of the substance that a role counts by mass."""
    if stream.role == "urea":
        return "t_urea"
    if "CO2" in stream.role:
        return "t_CO2"
    return "t_NH3" if "ammonia" in stream.role else "tonne"


def _in(context: Context, stream: Stream, house: str) -> Row:
    read = context.reading(stream.meter, stream.name)
    wanted, key = units.unit(house), context.key
    if read.unit == wanted:
        return context.by_month(read, key(stream.name, "quantity", "metered"), stream.name)
    summed = context.by_month(
        read, key(stream.name, "quantity", "metered, as read"), f"{stream.name}, as read"
    )
    return convert(summed, wanted, key(stream.name, "quantity", "metered"), stream.name)
