"""Units as people write them, without blanks and in lower case, by their house names."""

from __future__ import annotations

PLAIN = {
    "tonne": (
        "t",
        "tonne",
        "tonnes",
        "te",
        "metricton",
        "metrictons",
        "metrictonne",
        "metrictonnes",
    ),
    "kg": ("kg", "kgs", "kilogram", "kilograms"),
    "kmol": ("kmol",),
    "mol": ("mol",),
    "litre": ("l", "ltr", "litre", "litres", "liter", "liters"),
    "m3_liquid": ("m3liquid", "m3(liquid)", "kl"),
    "MWh": ("mwh", "mwhe", "mwhel", "mwh(el)", "mwh(e)"),
    "kWh": ("kwh", "kwhe", "kwhel", "kwh(el)", "kwh(e)"),
    "GWh": ("gwh", "gwhe", "gwhel", "gwh(el)", "gwh(e)"),
    "metre": ("m", "metre", "metres", "meter", "meters"),
    "cm": ("cm",),
    "mm": ("mm",),
    "hour": ("h", "hr", "hrs", "hour", "hours"),
    "day": ("d", "days"),
    "start": ("start", "starts", "trip", "trips", "count", "number", "no."),
    "celsius": ("°c", "degc", "deg.c", "celsius"),
    "kelvin": ("k", "kelvin"),
    "percent": (
        *("%", "percent", "percentage", "pct", "%(m/m)", "%m/m", "%(w/w)", "%w/w", "%bymass"),
        *("wt-%", "wt%", "wt.%", "wt.-%", "%wt", "%(wt)", "mass-%", "mass%", "%mass", "%(mass)"),
        *("%n", "%(n)", "%nh3", "%urea"),
    ),
}
MOLE_PER_CENT = (
    *("mol-%", "mol%", "mol.-%", "mol.%", "mole-%", "mole%"),
    *("%mol", "%(mol)", "%mole", "molpercent", "molepercent"),
)
VOLUMES = {
    "Nm3": ("nm3", "m3n", "m3(n)", "ncm", "m3(0°c)", "nm3(0°c)"),
    "Sm3": ("sm3", "m3s", "m3(s)", "m3(15°c)", "sm3(15°c)"),
    "m3_20C": ("m3(20°c)", "sm3(20°c)"),
    "scf_60F": ("scf(60°f)",),
    "scf_68F": ("scf(68°f)",),
    "m3_line": ("m3(line)", "m3line", "m3(lineconditions)", "m3atlineconditions", "am3"),
}
ABSOLUTE_PRESSURES = {"pa": "Pa", "kpa": "kPa", "mpa": "MPa", "bar": "bar"}
GAUGE_PRESSURES = {name: f"{house}_gauge" for name, house in ABSOLUTE_PRESSURES.items()}
SUBSTANCES = {
    "NH3": ("nh3", "ammonia"),
    "CO2": ("co2", "carbondioxide"),
    "urea": ("urea",),
    "steam": ("steam",),
    "water": ("water", "h2o"),
}
HEAT = {"kj": "kJ", "mj": "MJ", "gj": "GJ", "tj": "TJ", "kwh": "kWh", "mwh": "MWh"}
NET = ("net", "lhv", "ncv")
GROSS = ("gross", "hhv", "gcv")
OTHER_HEAT = ("btu", "mmbtu", "mbtu", "therm", "therms", "dth", "kcal", "gcal")
CUBIC_METRES = ("m3", "cbm", "cum")
WITHOUT_CONDITIONS = (*CUBIC_METRES, "scf", "cf", "ft3")
AMBIGUOUS = ("ton", "tons", "mt", "mscf", "mcf", "ccf", "mmcf")
THOUSANDS = ("k", "1000", "thousand", "10^3", "x1000")
MILLIONS = ("MM", "million", "10^6")
_SPELLINGS = (("³", "3"), ("m^3", "m3"), ("m**3", "m3"), ("₂", "2"), ("₃", "3"), ("º", "°"))


def without_blanks(text: str) -> str:
    """Return a unit without blanks and with plain digits.

    Args:
        text: as a heading, a unit row or the site file has it. [text]

    Source: definition
    """
    key = "".join(text.split())
    for spelled, plain in _SPELLINGS:
        key = key.replace(spelled, plain)
    return key


def by_alias(names: dict[str, tuple[str, ...]]) -> dict[str, str]:
    """Return the table turned round: the house name for each spelling.

    Args:
        names: spellings by house name. [text]

    Source: definition
    """
    return {alias: name for name, aliases in names.items() for alias in aliases}
