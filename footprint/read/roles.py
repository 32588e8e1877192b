"""What each role of the trade is measured in, and how a bare tonne becomes a tonne of something."""

from __future__ import annotations

from typing import Literal

from footprint.base.finding import declare
from footprint.base.units import NONE, Unit, is_convertible, label, unit
from footprint.read.fault import Refusal
from footprint.read.site import Role

Use = Literal[
    "purity",
    "nitrogen content",
    "gas temperature",
    "gas pressure",
    "gas pressure, atmosphere stated",
    "gas at line conditions",
    "supplier's bill",
]
Purpose = Role | Use

GASES: tuple[Role, ...] = (
    "purchased gas",
    "gas to third parties",
    "feed",
    "fuel",
    "purge gas",
    "let-down gas",
    "flash gas",
    "solvent flash gas",
    "hydrogen bought",
    "hydrogen sold",
    "start-up vent",
    "condensate stripper vent",
)
LOOP_GASES: tuple[Role, ...] = ("purge gas", "let-down gas", "flash gas", "solvent flash gas")
STOCKS: tuple[Role, ...] = ("liquid CO2 stock", "ammonia stock")
MAY_BE_NEGATIVE: tuple[Purpose, ...] = (
    "power exported",
    "steam exported",
    "CO2 liquefaction loss",
    "CO2 vented",
    "ammonia losses",
    "gas temperature",
    "supplier's bill",
)
_VOLUMES = ("Nm3", "Sm3", "m3_20C", "scf_60F", "scf_68F", "m3_line")
_GAS_UNITS = (*_VOLUMES, "kmol")
_WORDS_OF_KIND = {
    "gas": "a gas volume such as Nm3, or kmol",
    "CO2": "tonnes, or a gas volume such as Nm3",
    "NH3": "tonnes",
    "urea": "tonnes",
    "steam": "tonnes",
    "fuel": "tonnes or litres",
    "power": "kWh or MWh",
    "hours": "hours",
    "starts": "a count",
    "per cent": "per cent by mass",
    "temperature": "°C or K",
    "pressure": "absolute kPa or bar",
    "pressure above atmosphere": "absolute or gauge kPa or bar",
    "bill": "gross energy such as MWh (gross)",
}
_UNITS_OF_KIND = {
    "gas": _GAS_UNITS,
    "CO2": (*_GAS_UNITS, "t_CO2"),
    "NH3": ("t_NH3",),
    "urea": ("t_urea",),
    "steam": ("t_steam",),
    "fuel": ("tonne", "litre"),
    "power": ("MWh",),
    "hours": ("hour",),
    "starts": ("start",),
    "per cent": ("percent",),
    "temperature": ("celsius", "kelvin"),
    "pressure": ("kPa",),
    "pressure above atmosphere": ("kPa", "kPa_gauge"),
    "bill": ("GJ_gross",),
}
_SUBSTANCE_OF_KIND = {"CO2": "CO2", "NH3": "NH3", "urea": "urea", "steam": "steam"}

BAD_UNIT_FOR_ROLE = declare(
    "bad-unit-for-role",
    "stop",
    means="A meter reads in a unit that does not measure what its stream's role is counted in.",
    effect="the readings cannot be turned into the quantity that the role needs and are not used",
    mend="look whether the stream names the right meter, and whether the unit is right",
    example='"ammonia produced" metered in MWh; mended: the weighbridge in t',
)


def kind_of(purpose: Purpose) -> str:
    """Return what a role or use is counted in: gas, CO2, NH3, power and so on.

    Args:
        purpose: role of a stream, or use of a meter beside it. [text]

    Source: definition
    """
    if purpose in GASES:
        return "gas"
    first = purpose.split()[0]
    named = {
        "other fuel": "fuel",
        "liquid CO2 stock": "CO2",
        "stack CO2": "CO2",
        "ammonia reclaimed": "NH3",
        "hours on line": "hours",
        "starts": "starts",
        "trips": "starts",
        "purity": "per cent",
        "nitrogen content": "per cent",
        "gas temperature": "temperature",
        "gas pressure": "pressure",
        "gas pressure, atmosphere stated": "pressure above atmosphere",
        "supplier's bill": "bill",
    }
    return named.get(purpose) or {"ammonia": "NH3"}.get(first, first)


def unit_for(purpose: Purpose, written: Unit) -> Unit | Refusal:
    """Return the unit with the substance that a role gives it, or why it does not fit.

    Args:
        purpose: role of a stream, or use of a meter beside it. [text]
        written: as the heading, the unit row or the site file has it. [unit]

    Findings:
        bad-unit-for-role: the unit measures something else.

    Source: definition
    """
    kind = kind_of(purpose)
    substance = _SUBSTANCE_OF_KIND.get(kind)
    if substance and is_convertible(written, unit("tonne")):
        return unit(f"kg_{substance}" if written == unit("kg") else f"t_{substance}")
    if kind == "starts" and written == NONE:
        return unit("start")
    if any(is_convertible(written, unit(name)) for name in _UNITS_OF_KIND[kind]):
        return written
    what = f'"{purpose}" is counted in {_WORDS_OF_KIND[kind]}, not in {label(written)}'
    return Refusal(BAD_UNIT_FOR_ROLE, what)
