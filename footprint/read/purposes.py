"""What a meter is for: roles and uses by its tag, and the units that they settle."""

from __future__ import annotations

from collections.abc import Sequence

from footprint.read.fault import Refusal
from footprint.read.roles import Purpose, Use
from footprint.read.site import Site, Stream
from footprint.read.unit_aliases import (
    CUBIC_METRES,
    GAUGE_PRESSURES,
    MILLIONS,
    THOUSANDS,
    without_blanks,
)
from footprint.read.unit_words import GAS_VOLUME_WITHOUT_CONDITIONS, GAUGE_PRESSURE

AT_LINE: Use = "gas at line conditions"
ABOVE_ATMOSPHERE: Use = "gas pressure, atmosphere stated"


def purposes_of(site: Site, tag: str) -> list[Purpose]:
    """Return the roles and uses of a meter, each once.

    Args:
        site: as declared. [site]
        tag: of the meter. [text]

    Source: definition
    """
    purposes: list[Purpose] = []
    for stream in site.streams:
        named: list[tuple[str | None, Purpose]] = [(stream.meter, stream.role)]
        named += [(beside, use) for _, beside, use in beside_meter(site, stream)]
        if stream.line:
            named.append((stream.meter, AT_LINE))
        purposes += [purpose for name, purpose in named if name == tag]
    return list(dict.fromkeys(purposes))


def beside_meter(site: Site, stream: Stream) -> list[tuple[str, str, Use]]:
    """Return the meters that a stream names beside its own: key, tag and use of each.

    Args:
        site: as declared. [site]
        stream: one of its streams. [stream]

    Source: definition
    """
    is_stated = site.works.atmospheric_pressure_kpa is not None
    pressure: Use = ABOVE_ATMOSPHERE if is_stated else "gas pressure"
    found: list[tuple[str, str | None, Use]] = [
        ("purity", stream.purity, "purity"),
        ("nitrogen", stream.nitrogen, "nitrogen content"),
        ("invoiced", stream.invoiced, "supplier's bill"),
    ]
    for key, state in (("water", stream.water), ("line", stream.line)):
        if state:
            found.append((f"{key} > temperature", state.temperature, "gas temperature"))
            found.append((f"{key} > pressure", state.pressure, pressure))
    return [(key, tag, use) for key, tag, use in found if tag is not None]


def settled(text: str, refusal: Refusal, purposes: Sequence[Purpose]) -> str | Refusal:
    """Return the unit that a refused text has by the site file, or the refusal as it was.

    A bare cubic metre is one at line conditions where the stream states its line; a gauge pressure
    can be used where the works states the pressure of its atmosphere.

    Args:
        text: of the unit, as written. [text]
        refusal: of the text alone. [refusal]
        purposes: roles and uses of the meter. [text]

    Source: definition
    """
    key = without_blanks(text)
    if refusal.code is GAUGE_PRESSURE and ABOVE_ATMOSPHERE in purposes:
        return GAUGE_PRESSURES.get(key.lower().partition("g")[0].rstrip("("), refusal)
    if refusal.code is GAS_VOLUME_WITHOUT_CONDITIONS and AT_LINE in purposes:
        return _at_line(key) or refusal
    return refusal


def _at_line(key: str) -> str | None:
    """Return the cubic metre at line conditions with its multiple, or None for a cubic foot."""
    for metre in CUBIC_METRES:
        if key.lower().endswith(metre):
            times = key[: -len(metre)]
            prefix = "k" if times in THOUSANDS else "M" if times in MILLIONS else ""
            return f"{prefix}m3_line" if prefix or not times else None
    return None
