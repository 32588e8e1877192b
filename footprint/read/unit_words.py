"""Units as people write them, and the ones that leave something open."""

from __future__ import annotations

import re

from footprint.base.finding import declare
from footprint.read.fault import Refusal
from footprint.read.nearest import nearest
from footprint.read.unit_aliases import (
    ABSOLUTE_PRESSURES,
    AMBIGUOUS,
    GROSS,
    HEAT,
    MILLIONS,
    MOLE_PER_CENT,
    NET,
    OTHER_HEAT,
    PLAIN,
    SUBSTANCES,
    THOUSANDS,
    VOLUMES,
    WITHOUT_CONDITIONS,
    by_alias,
    without_blanks,
)

UNKNOWN_UNIT = declare(
    "unknown-unit",
    "stop",
    means="A unit is not in the list of units that are understood.",
    effect="the readings of the column cannot be turned into house units and are not used",
    mend="write a unit such as Nm3, t, kg, MWh, h, % or kPa(a)",
    example='"Nm4"; mended: "Nm3"',
)
GAS_VOLUME_WITHOUT_CONDITIONS = declare(
    "gas-volume-without-conditions",
    "stop",
    means="A gas volume does not say at which temperature and pressure it is counted.",
    effect="the same gas fills 5.5 % more at 15 °C than at 0 °C",
    mend="write Nm3 (0 °C, 101.325 kPa) or Sm3 (15 °C, 101.325 kPa), as the "
    "meter's data sheet says; for m3 as they flow, add [streams.line] with temperature and "
    "pressure to the stream",
    example='"m3"; mended: "Nm3"',
)
UNIT_IS_A_RATE = declare(
    "unit-is-a-rate",
    "stop",
    means="The unit is an amount per time, while the column should hold amounts.",
    effect="a rate per hour taken for a day's amount is 24 times too small",
    mend="give the amount of each day, ticket or month, in a unit without time, or write "
    'counts = "rate" for the meter if each reading is the mean rate of its period',
    example='"Nm3/h"; mended: the day\'s total in "Nm3"',
)
GAUGE_PRESSURE = declare(
    "gauge-pressure",
    "stop",
    means="A pressure is counted from the pressure of the atmosphere.",
    effect="an absolute pressure of 2 bar is a gauge pressure of 1 bar: the water "
    "in the gas doubles",
    mend="write atmospheric_pressure_kpa under [works] in site.toml, or add it in the sheet and "
    "write kPa(a) or bar(a)",
    example='"bar(g)"; mended: atmospheric_pressure_kpa = 101.3 under [works]',
)
PRESSURE_WITHOUT_REFERENCE = declare(
    "pressure-without-reference",
    "stop",
    means="A pressure does not say whether it is absolute or counted from the atmosphere.",
    effect="the two are about 1 bar apart, and the water in the gas with them",
    mend="write kPa(a) or bar(a) for absolute pressure",
    example='"kPa"; mended: "kPa(a)"',
)
ENERGY_WITHOUT_BASIS = declare(
    "energy-without-net-or-gross",
    "stop",
    means="An amount of energy does not say whether it rests on the net or the "
    "gross heating value.",
    effect="for natural gas the two are about 11 % apart",
    mend='write "GJ (net)" or "GJ (gross)" for fuel, MWh for electricity',
    example='"GJ"; mended: "GJ (gross)"',
)
AMBIGUOUS_UNIT = declare(
    "ambiguous-unit",
    "stop",
    means="The unit means different amounts to different people.",
    effect="a short ton is 9 % less than a tonne; M is a thousand in one trade "
    "and a million in another",
    mend='write "t" for 1000 kg, "kscf (60 °F)" or "MMscf (60 °F)" for gas',
    example='"ton" or "MT"; mended: "t"',
)
PER_CENT_BY_MOLE = declare(
    "per-cent-by-mole",
    "stop",
    means="A laboratory's series of a product is in mole per cent.",
    effect="products are weighed: 1 % of the molecules as CO2 are 2.5 % of the mass of ammonia",
    mend='give the series in per cent by mass and write "% by mass"',
    example='"Purity (mol-%)"; mended: "Purity (% by mass)" with the values by mass',
)

_PLAIN = by_alias(PLAIN)
_VOLUMES = by_alias(VOLUMES)
_SUBSTANCES = by_alias(SUBSTANCES)
_RATE = re.compile(
    r".*(/|per)(h|hr|hour|d|day|s|sec|min|a|yr|year|mo|month)|[kmg]w(el|e)?|tp[dh]|m3[hd]"
)
_PRESSURE = re.compile(r"(m?bar|[kmh]?pa|psi|atm)\(?(a|abs|absolute|g|gauge|)\)?")
_MULTIPLE = "|".join(re.escape(prefix) for prefix in (*THOUSANDS, *MILLIONS, "M"))
_STATED = re.compile(rf"(?P<times>{_MULTIPLE})?(?P<base>[A-Za-z].*)")
_REFERENCE_PRESSURE = re.compile(
    r"[,;]?(101[.,]325kpa|1[.,]01325bar|1atm|14[.,]69[56]psi)(a|\(a\)|abs|\(abs\))?", re.IGNORECASE
)


def unit_named(text: str) -> str | Refusal:
    """Return the name of a house unit for a unit as people write it, or why it is refused.

    Args:
        text: as a heading, a unit row or the site file has it. [text]

    Findings:
        unknown-unit: not in the list.
        gas-volume-without-conditions: a volume without temperature.
        unit-is-a-rate: an amount per time.
        gauge-pressure, pressure-without-reference: counted from the atmosphere, or not said.
        energy-without-net-or-gross: the heating value may be either.
        ambiguous-unit: ton, MT, Mscf.
        per-cent-by-mole: mole per cent, which gas analyses alone are in.

    Source: definition
    """
    key = _key(text)
    if _RATE.fullmatch(key.lower()):
        return Refusal(UNIT_IS_A_RATE, f'unit "{text}" is an amount per time')
    if key.lower() in MOLE_PER_CENT:
        return Refusal(PER_CENT_BY_MOLE, f'unit "{text}" is per cent of the molecules')
    if named := _PLAIN.get(key.lower()):
        return named
    found = _pressure(key, text) or _volume(key) or _of_substance(key) or _heat(key, text)
    return found or _left_open(key, text)


LEFT_OPEN = (
    GAS_VOLUME_WITHOUT_CONDITIONS,
    ENERGY_WITHOUT_BASIS,
    AMBIGUOUS_UNIT,
    PRESSURE_WITHOUT_REFERENCE,
)  # what a heading leaves open, the unit in the site file may settle


def is_unit_like(text: str) -> bool:
    """Return whether a text is a unit, or a unit that leaves something open.

    Args:
        text: the tail of a heading, or a cell below it. [text]

    Source: definition
    """
    found = unit_named(text)
    return isinstance(found, str) or found.code is not UNKNOWN_UNIT


def _key(text: str) -> str:
    """Return the unit without blanks, superscripts and the usual reference pressure."""
    key = _REFERENCE_PRESSURE.sub("", without_blanks(text)).replace("()", "")
    key = re.sub(r"\(([0-9]+)(?:deg|°)?([CcFf])\)", r"(\1°\2)", key)
    return re.sub(r"@([0-9]+)(?:deg|°)?([CcFf])$", r"(\1°\2)", key)


def _pressure(key: str, text: str) -> str | Refusal | None:
    """Return an absolute pressure, the refusal of another, or None for what is no pressure."""
    match = _PRESSURE.fullmatch(key.lower())
    if not match:
        return None
    if match[2] in ("g", "gauge"):
        return Refusal(GAUGE_PRESSURE, f'unit "{text}" is counted from the atmosphere')
    if not match[2]:
        what = f'unit "{text}" does not say absolute or gauge'
        return Refusal(PRESSURE_WITHOUT_REFERENCE, what)
    return ABSOLUTE_PRESSURES.get(match[1])


def _volume(key: str) -> str | None:
    """Return a gas volume at stated conditions, with its multiple."""
    match = _STATED.fullmatch(key)
    if named := _VOLUMES.get(key.lower()):
        return named
    if not match or not match["times"]:
        return None
    named = _VOLUMES.get(match["base"].lower())
    is_traders_thousand = match["times"] == "M" and named is not None and named.startswith("scf")
    if not named or is_traders_thousand:
        return None
    return f"k{named}" if match["times"] in THOUSANDS else f"M{named}"


def _of_substance(key: str) -> str | None:
    """Return a mass that names its substance, such as "t NH3"."""
    match = re.fullmatch(
        r"(tonnes?|t|kg)\(?(?:of)?(?:100%)?(?P<substance>[a-z0-9]+)\)?", key.lower()
    )
    substance = _SUBSTANCES.get(match["substance"]) if match else None
    if not match or not substance:
        return None
    return f"{'kg' if match[1] == 'kg' else 't'}_{substance}"


def _heat(key: str, text: str) -> str | Refusal | None:
    """Return an energy with its basis, the refusal of one without, or None for another unit."""
    lower = key.lower().replace("_", "")
    for name, house in HEAT.items():
        basis = lower.removeprefix(name).strip("(),") if lower.startswith(name) else None
        if basis in NET or basis in GROSS:
            return f"{house}_{'net' if basis in NET else 'gross'}"
    if lower in HEAT or lower in OTHER_HEAT:
        return Refusal(ENERGY_WITHOUT_BASIS, f'unit "{text}" does not say net or gross')
    return None


def _left_open(key: str, text: str) -> Refusal:
    """Return the refusal of a unit that means several things, or nothing known."""
    lower = key.lower()
    if lower in AMBIGUOUS or re.fullmatch(r"Mscf.*", key):
        return Refusal(AMBIGUOUS_UNIT, f'unit "{text}" means different amounts to different people')
    match = _STATED.fullmatch(key)
    base = match["base"].lower() if match else lower
    if {base, lower} & set(WITHOUT_CONDITIONS):
        what = f'unit "{text}" does not say at which temperature and pressure'
        return Refusal(GAS_VOLUME_WITHOUT_CONDITIONS, what)
    usual = (
        "Nm3",
        "Sm3",
        "kg",
        "MWh",
        "kWh",
        "kmol",
        "mol-%",
        "kPa(a)",
        "bar(a)",
        "tonne",
        "litre",
    )
    near = nearest(text, usual)
    mend = f'write "{near}", if that is meant' if near else ""
    return Refusal(UNKNOWN_UNIT, f'unit "{text}" is not known', mend=mend)
