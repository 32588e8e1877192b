"""What the role of a stream needs in the site file: keys of the stream, rows of its meter."""

from __future__ import annotations

from collections.abc import Iterable

from footprint.base.finding import Finding, Where, declare
from footprint.base.units import Unit, is_convertible, label, unit
from footprint.read.roles import GASES, LOOP_GASES, STOCKS, kind_of
from footprint.read.site import Role, Site, Stream

_COUNTED: tuple[Role, ...] = ("CO2 sold", "CO2 to storage", "CO2 to urea")
_STEAM: tuple[Role, ...] = ("steam bought", "steam exported")
_FILE = "site.toml"
_HOW = {
    "analysis": "the name of an analysed gas",
    "to": '"fuel", "flare" or "sold"',
    "is_counted_elsewhere": "true or false",
    "use": "the buyer's use in quotes",
    "fuel": "the name of the fuel in quotes",
    "steam": "its state, as a table [streams.steam],",
    "line": "the tags of temperature and pressure, as a table [streams.line],",
    "position": '"before mixing" or "after mixing"',
    "mixed_with": "a list of the streams that join before the meter",
    "burner": '"reformer", "boiler" or another burner',
    "density_kg_per_litre": "the fuel's density, such as 0.84,",
}

KEY_NEEDED_BY_ROLE = declare(
    "key-needed-by-role",
    "stop",
    means="A stream lacks a key that its role needs.",
    effect="its carbon, its heat or its destination can't be told",
    mend="add the key to the stream",
    example='a stream of role "purge gas" without to = "fuel"',
)
ROWS_NOT_FOR_ROLE = declare(
    "rows-not-for-role",
    "stop",
    means="A stock is not read at the turn of each month, or a flow is read as a stock.",
    effect="levels would be added up as if they were flows",
    mend='write rows = "stock" for stocks, and daily, monthly or tickets for all others',
    example='a tank level with rows = "daily"; mended: rows = "stock"',
)


def place_of(kind: str, index: int, name: str, key: str = "") -> Where:
    """Return a place in the site file, such as meters[3] FT-1101 > unit.

    Args:
        kind: of the entries, such as meters. [text]
        index: counted from 0. [1]
        name: of the entry. [text]
        key: inside the entry. [text]

    Source: definition
    """
    return Where(_FILE, f"{kind}[{index + 1}] {name}", key)


def needs_of(site: Site, index: int, stream: Stream) -> list[Finding]:
    """Return what the role of a stream needs and the site file lacks.

    Args:
        site: as declared. [site]
        index: of the stream, counted from 0. [1]
        stream: as declared. [stream]

    Findings:
        key-needed-by-role, rows-not-for-role

    Source: definition
    """
    findings: list[Finding] = []
    for key, why in (*_needed(stream), *_needed_by_fuel(site, stream)):
        what = f'a stream of role "{stream.role}" needs {key}'
        where = place_of("streams", index, stream.name, key)
        mend = f"add {key} = {_HOW[key]} to the stream"
        findings.append(KEY_NEEDED_BY_ROLE.at(where, what, why=why, mend=mend))
    return [*findings, *_rows(site, index, stream)]


def needs_of_unit(index: int, stream: Stream, metered: Unit) -> Finding | None:
    """Return the key that a stream needs because of the unit of its meter, if it lacks it.

    Args:
        index: of the stream, counted from 0. [1]
        stream: as declared. [stream]
        metered: unit of the readings. [unit]

    Findings:
        key-needed-by-role

    Source: definition
    """
    is_volume = is_convertible(metered, unit("litre"))
    is_mass = is_convertible(metered, unit("t_CO2"))
    key = ""
    if is_convertible(metered, unit("m3_line")) and stream.line is None:
        key, why = "line", "what these cubic metres hold follows from temperature and pressure"
    elif stream.role == "other fuel" and is_volume and stream.density_kg_per_litre is None:
        key, why = "density_kg_per_litre", "default factors count fuels by mass"
    elif kind_of(stream.role) == "CO2" and not is_mass and stream.analysis is None:
        key, why = "analysis", "how much CO2 a gas volume holds follows from its composition"
    if not key:
        return None
    what = f'meter "{stream.meter}" reads {label(metered)}, so that the stream needs {key}'
    where = place_of("streams", index, stream.name, key)
    return KEY_NEEDED_BY_ROLE.at(
        where, what, why=why, mend=f"add {key} = {_HOW[key]} to the stream"
    )


def _needed(stream: Stream) -> Iterable[tuple[str, str]]:
    """Yield each key that the role needs and the stream lacks, with the consequence."""
    role = stream.role
    if role in GASES and stream.analysis is None:
        yield "analysis", "the carbon of a gas follows from its composition alone"
    elif stream.analysis is None and (stream.line or stream.invoiced):
        yield "analysis", "the compression and the energy of a gas follow from its composition"
    if role in LOOP_GASES and stream.to is None:
        yield "to", "its carbon is burnt, flared or sold: each counts in another line"
    if role in _COUNTED and stream.is_counted_elsewhere is None:
        yield "is_counted_elsewhere", "CO2 that leaves is counted by exactly one inventory"
    if role == "CO2 sold" and stream.use is None:
        yield "use", "what the buyer does with the CO2 decides how it is reported"
    if role == "other fuel" and stream.fuel is None:
        yield "fuel", "default factors are found by the name of the fuel"
    if role in _STEAM and stream.steam is None:
        yield "steam", "the heat of steam follows from its pressure and temperature"


def _needed_by_fuel(site: Site, stream: Stream) -> Iterable[tuple[str, str]]:
    """Yield each key that a fuel meter needs where gases of the process are burnt too."""
    if stream.role != "fuel" or not _is_any_gas_burnt(site):
        return
    why = "a meter behind the mixing point counts the carbon of purge and flash gas a second time"
    if stream.position is None:
        yield "position", why
    if stream.position == "after mixing" and not stream.mixed_with:
        yield "mixed_with", why
    if stream.burner is None:
        yield "burner", "where loop gases are burnt, the heat of each burner must be told apart"


def _is_any_gas_burnt(site: Site) -> bool:
    """Return whether purge, let-down or flash gas goes to fuel."""
    return any(stream.to == "fuel" for stream in site.with_role(*LOOP_GASES))


def _rows(site: Site, index: int, stream: Stream) -> list[Finding]:
    """Return a finding where a stock is not read as a stock, or a flow is."""
    meter = next((one for one in site.meters if one.tag == stream.meter), None)
    if meter is None or (meter.rows == "stock") == (stream.role in STOCKS):
        return []
    what = f'meter "{meter.tag}" of role "{stream.role}" has rows = "{meter.rows}"'
    return [ROWS_NOT_FOR_ROLE.at(place_of("streams", index, stream.name, "meter"), what)]
