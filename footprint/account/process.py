"""Process and fuel CO2: by purpose, by point of release, and the bridge between the two."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.account.carbon_dioxide import added, as_co2
from footprint.account.rate import Rate, rate_of
from footprint.account.record import Record
from footprint.base.line import Line, Section
from footprint.base.row import Row, step
from footprint.measure import Measured

TO_FUEL, TO_FLARE, SOLD = "fuel", "flare", "sold"


@dataclass(frozen=True, eq=False, slots=True)
class Split:
    """CO2 of the works, split twice, all by month.

    Attributes:
        process: from all feed carbon. [t CO2]
        fuel: from all fuel carbon. [t CO2]
        gross: process and fuel together. [t CO2]
        burnt: feed carbon that is burnt as off-gas. [t CO2]
        flared: feed carbon that is flared. [t CO2]
        sold_as_gas: feed carbon that leaves in gas sold. [t CO2]
        process_sections: shown under process CO2. [sections]
        fuel_sections: shown under fuel CO2. [sections]
    """

    process: Row
    fuel: Row
    gross: Row
    burnt: Row
    flared: Row
    sold_as_gas: Row
    process_sections: tuple[Section, ...]
    fuel_sections: tuple[Section, ...]


def split_of(measured: Measured, record: Record, ammonia: Row) -> Split:
    """Return process and fuel CO2 by purpose and by point of release.

    Args:
        measured: every stream by month. [measured]
        record: feed and fuel gas as it counts. [record]
        ammonia: produced by month. [t NH3]

    Source: all feed carbon leaves as CO2 in the end: conservation of carbon
    """
    parts = _parts_of(measured, record)
    stream, stack = _stream(parts), _stack(parts)
    by_process = {"process CO2": parts.process}
    by_fuel = {"fuel CO2": parts.fuel, "gross CO2": parts.gross}
    return Split(
        parts.process,
        parts.fuel,
        parts.gross,
        burnt=parts.sums[TO_FUEL],
        flared=parts.sums[TO_FLARE],
        sold_as_gas=parts.sums[SOLD],
        process_sections=(
            *record.sections,
            *_process_sections(parts, stream),
            Section("By tonne of ammonia", _by_tonne(measured, by_process, ammonia)),
        ),
        fuel_sections=(
            *_fuel_sections(parts, stack),
            Section("Both together", _both(parts, stream, stack)),
            Section("By tonne of ammonia", _by_tonne(measured, by_fuel, ammonia)),
        ),
    )


@dataclass(frozen=True, eq=False, slots=True)
class _Parts:
    """What both splits are made of: feeds and fuels as CO2, off-gas by destination, their sums."""

    measured: Measured
    feeds: list[Row]
    fuels: list[Row]
    process: Row
    fuel: Row
    gross: Row
    off: dict[str, list[Row]]
    sums: dict[str, Row]


def _parts_of(measured: Measured, record: Record) -> _Parts:
    key = measured.context.key
    feeds = [as_co2(measured, one.carbon, one.stream.name, "of record") for one in record.feeds]
    fuels = _fuel_rows(measured, record)
    process = added(
        measured, feeds, key("process CO2", "CO2", "by purpose"), "process CO2: all feed carbon"
    )
    fuel = added(measured, fuels, key("fuel CO2", "CO2", "by purpose"), "fuel CO2: all fuel carbon")
    gross = step(
        process + fuel,
        key("gross CO2", "CO2", "by purpose"),
        "gross CO2: process and fuel",
        "sum of both",
    )
    off = {to: _off_gas(measured, to) for to in (TO_FUEL, TO_FLARE, SOLD)}
    sums = {to: _off_gas_sum(measured, to, rows) for to, rows in off.items()}
    return _Parts(measured, feeds, fuels, process, fuel, gross, off, sums)


def _off_gas_sum(measured: Measured, to: str, rows: list[Row]) -> Row:
    key = measured.context.key(f"off-gas to {to}", "CO2", "metered")
    return added(measured, rows, key, f"feed carbon in off-gas to {to}, as CO2")


def _stream(parts: _Parts) -> Row:
    sums = parts.sums
    return step(
        parts.process - sums[TO_FUEL] - sums[TO_FLARE] - sums[SOLD],
        parts.measured.context.key("process CO2", "CO2", "by release"),
        "process CO2 by release: CO2-removal stream and front-end vents",
        "all feed carbon less what leaves in off-gas",
    )


def _stack(parts: _Parts) -> Row:
    return step(
        parts.fuel + parts.sums[TO_FUEL],
        parts.measured.context.key("stack CO2", "CO2", "by release"),
        "CO2 released at stacks: fuel and off-gas",
        "fuel carbon and off-gas carbon burnt",
    )


def _process_sections(parts: _Parts, stream: Row) -> tuple[Section, Section]:
    line = parts.measured.context.line
    purpose = Section(
        "By purpose: what the carbon was bought for",
        (*map(line, parts.feeds), line(parts.process, is_total=True)),
    )
    release = Section(
        "By point of release, with the bridge",
        (
            line(parts.process),
            *(line(row) for rows in parts.off.values() for row in rows),
            *(line(parts.sums[to]) for to in parts.off if parts.off[to]),
            line(stream, is_total=True),
        ),
        "Feed carbon that slips through as methane and carbon monoxide leaves in off-gas and is "
        "burnt at the stack: it is counted once, as process CO2 by purpose and as stack CO2 by "
        "release.",
    )
    return purpose, release


def _fuel_sections(parts: _Parts, stack: Row) -> tuple[Section, Section]:
    line, fuel = parts.measured.context.line, parts.fuel
    return (
        Section("By purpose: fuel carbon", (*map(line, parts.fuels), line(fuel, is_total=True))),
        Section(
            "By point of release: stacks",
            (line(fuel), line(parts.sums[TO_FUEL]), line(stack, is_total=True)),
        ),
    )


def _fuel_rows(measured: Measured, record: Record) -> list[Row]:
    gases = [as_co2(measured, one.carbon, one.stream.name, "of record") for one in record.fuels]
    others = [
        as_co2(measured, one.carbon, one.stream.name, "default") for one in measured.fuel.values()
    ]
    return [*gases, *others]


def _off_gas(measured: Measured, to: str) -> list[Row]:
    flows = measured.gases("purge gas", "let-down gas", "flash gas", "solvent flash gas")
    return [
        as_co2(measured, flow.carbon, flow.stream.name, "metered")
        for flow in flows
        if (flow.stream.to or TO_FUEL) == to
    ]


def _both(parts: _Parts, stream: Row, stack: Row) -> tuple[Line, ...]:
    """Show that the two splits are one total."""
    context, sums = parts.measured.context, parts.sums
    whole = step(
        stream + stack + sums[TO_FLARE] + sums[SOLD],
        context.key("gross CO2", "CO2", "by release"),
        "gross CO2 by release: removal stream, vents, stacks, flare, gas sold",
        "sum of the points of release",
    )
    left = step(
        parts.gross - whole,
        context.key("gross CO2", "difference of the splits", "check"),
        "by purpose less by release: must be 0",
        "the two splits share one total",
    )
    line = context.line
    total = line(parts.gross, is_total=True)
    return (line(parts.process), line(parts.fuel), total, line(whole), line(left))


def _by_tonne(measured: Measured, rows: dict[str, Row], ammonia: Row) -> tuple[Line, ...]:
    return tuple(
        rate_of(
            measured,
            row,
            ammonia,
            Rate(
                measured.context.key(words, "by tonne of ammonia", "by purpose"),
                f"{words} by tonne of ammonia",
                "over ammonia produced",
                "year over year",
            ),
        )
        for words, row in rows.items()
    )
