"""Source streams of a works, each with the row of the table of tiers that it falls under."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.base.row import Row
from footprint.measure import Measured
from footprint.read.site import Role, Stream

FEED, OTHER, STANDARD = (
    "fuel as process input",
    "other gaseous and liquid fuels",
    "commercial standard fuels",
)
SOLID, FLARES, TRANSFER = "solid fuels", "flares", "CO2 transfer"
# Article 3 of the Regulation names gas oil, light fuel oil, motor spirit, lamp oil, propane, butane
# and jet fuels (from memory)
_STANDARD = ("gas or diesel oil", "liquefied petroleum gases", "motor gasoline", "kerosene")
_SOLID = ("coal", "anthracite", "lignite", "coke", "peat")
_GASES: tuple[Role, ...] = (
    "purchased gas",
    "gas to third parties",
    "feed",
    "fuel",
    "purge gas",
    "let-down gas",
    "flash gas",
    "solvent flash gas",
)


@dataclass(frozen=True, eq=False, slots=True)
class SourceStream:
    """A stream whose amount of the year is activity data.

    Attributes:
        name: of the stream. [text]
        kind: row of the table of tiers. [text]
        year: its amount of the year. [any]
    """

    name: str
    kind: str
    year: Row


def source_streams(measured: Measured) -> list[SourceStream]:
    """Return the streams whose amounts are activity data, in the order of the site file.

    Gas of the process that is burnt at the works is no source stream: its carbon came in with the
    feed. Gas at the fence stands here since the meters inside only share out what it counts.

    Args:
        measured: every stream by month. [measured]

    Source: Implementing Regulation (EU) 2018/2066, Annex II, section 1, and Annex IV, section 17
    """
    year = measured.context.year
    found: list[SourceStream] = []
    for flow in measured.gases(*_GASES):
        kind = _kind_of_gas(flow.stream)
        if kind is not None:
            found.append(SourceStream(flow.stream.name, kind, year(flow.amount)))
    found += [
        SourceStream(name, _kind_of_fuel(str(fuel.stream.fuel)), year(fuel.mass))
        for name, fuel in measured.fuel.items()
    ]
    found += [
        SourceStream(stream.name, TRANSFER, year(row))
        for stream, row in measured.masses("CO2 to storage")
    ]
    return found


def _kind_of_gas(stream: Stream) -> str | None:
    if stream.role == "feed":
        return FEED
    if stream.role in {"purchased gas", "gas to third parties", "fuel"}:
        return OTHER
    return FLARES if stream.to == "flare" else None


def _kind_of_fuel(fuel: str) -> str:
    if any(word in fuel for word in _SOLID):
        return SOLID
    return STANDARD if fuel in _STANDARD else OTHER
