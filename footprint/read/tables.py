"""The tables of a site: meters whose columns stand in the same sheets and share their rows."""

from __future__ import annotations

from dataclasses import dataclass, replace
from zoneinfo import available_timezones

from footprint.base.finding import Finding, declare
from footprint.read.headings import Column
from footprint.read.joined import joined, part_of, units_in_parts
from footprint.read.kinds import wanted_of
from footprint.read.library import Library
from footprint.read.nearest import nearest
from footprint.read.places import columns_of, finder_of
from footprint.read.role_needs import place_of
from footprint.read.rows import Wanted
from footprint.read.site import Meter, Site

STATUS_WITHOUT_PERIOD = declare(
    "status-without-period",
    "stop",
    means="site.toml names a column of status for tickets or invoices.",
    effect="several of them share a date, so that nothing tells which one a later row replaces",
    mend="remove status_column, and the rows that no longer count",
    example='status_column = "Status" with rows = "tickets"',
)

UNKNOWN_TIME_ZONE = declare(
    "unknown-time-zone",
    "stop",
    means="time_zone in site.toml is not a name of the time zone database.",
    effect="nothing tells when the clocks change; the readings are not used",
    mend='write the name of a zone such as "Europe/Dublin"',
    example='time_zone = "GMT+1"; mended: time_zone = "Europe/Paris"',
)

_Place = tuple[str, str, int, int]


@dataclass(frozen=True, slots=True)
class _Key:
    """What meters of one table share."""

    places: tuple[_Place, ...]
    wanted: Wanted
    clock: tuple[bool, str, str | None, str | None]
    status: tuple[str, str] | None


@dataclass(frozen=True, eq=False, slots=True)
class Table:
    """A table and the meters that it holds.

    Attributes:
        meters: with their columns, in the first sheet or in all of them joined. [meters]
        wanted: what its dates must be. [text]
        is_first: no table before it stands in the same sheets. [flag]
    """

    meters: list[tuple[Meter, Column]]
    wanted: Wanted
    is_first: bool


def tables_of(site: Site, library: Library) -> tuple[list[Table], list[Finding]]:
    """Return the tables of all meters, each in one sheet or joined from several.

    Args:
        site: as declared. [site]
        library: the files of the site. [files]

    Findings:
        status-without-period, unknown-time-zone, units-disagree and the codes of `places`.

    Source: definition
    """
    findings: list[Finding] = []
    groups: dict[_Key, list[tuple[Meter, list[Column]]]] = {}
    for index, meter in enumerate(site.meters):
        columns, told = columns_of(library, meter, finder_of(meter, meter.column))
        if refused := _refused(meter, index):
            columns, told = [], [refused]
        differing = units_in_parts(columns) if columns else None
        findings += [*told, *([differing] if differing else [])]
        if columns and not differing:
            groups.setdefault(_key(meter, columns, site.works.year), []).append((meter, columns))
    seen: set[tuple[_Place, ...]] = set()
    tables: list[Table] = []
    for key, members in groups.items():
        tables.append(Table(_in_one(members), key.wanted, key.places not in seen))
        seen.add(key.places)
    return tables, findings


def _refused(meter: Meter, index: int) -> Finding | None:
    """Return why an entry can't be read the way it says, or None."""
    if meter.status_column and meter.rows in ("tickets", "invoices"):
        what = f'meter "{meter.tag}" has rows = "{meter.rows}" and a column of status'
        where = place_of("meters", index, meter.tag, "status_column")
        return STATUS_WITHOUT_PERIOD.at(where, what)
    if meter.time_zone is None or meter.time_zone in (known := available_timezones()):
        return None
    near = nearest(meter.time_zone, known)
    mend = f'write time_zone = "{near}", if that is meant' if near else ""
    where = place_of("meters", index, meter.tag, "time_zone")
    return UNKNOWN_TIME_ZONE.at(where, f'"{meter.time_zone}" is no time zone', mend=mend)


def _key(meter: Meter, columns: list[Column], year: int) -> _Key:
    """Return what a meter shares with the others of its table."""
    places = tuple(
        (one.sheet.file, one.sheet.name, one.header_row, one.date_column) for one in columns
    )
    wanted = replace(wanted_of(meter, year), has_status=meter.status_column is not None)
    clock = (meter.across, meter.day_starts, meter.time_zone, meter.stamps)
    status = (meter.status_column, meter.tag) if meter.status_column else None
    return _Key(places, wanted, clock, status)


def _in_one(members: list[tuple[Meter, list[Column]]]) -> list[tuple[Meter, Column]]:
    """Return the columns of a table in one sheet."""
    sheets = list(zip(*(columns for _, columns in members), strict=True))
    unit_row = max((one.unit_row or 0 for one in sheets[0]), default=0) or None
    firsts = [(meter, replace(columns[0], unit_row=unit_row)) for meter, columns in members]
    if len(sheets) == 1:
        return firsts
    sheet = joined([part_of(columns) for columns in sheets])
    return [(meter, replace(column, sheet=sheet)) for meter, column in firsts]
