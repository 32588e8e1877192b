"""Words of the trade in headings, and the role of a stream that they speak for."""

from __future__ import annotations

import re
from dataclasses import dataclass

from footprint.read.site import Role

_CO2 = r"\bco2\b|carbon dioxide"
_NH3 = r"\bnh3\b|\bammonia\b"
_POWER = r"\bpower\b|electric"
_STEAM = r"\bsteam\b"
_SOLD = r"\bsold\b|\bsales?\b|dispatch|despatch|loaded|loading|shipped|customer|weighbridge|ticket"
_BOUGHT = r"bought|purchas|\bimport|received"
_STOCK = r"\btanks?\b|\bstocks?\b|\blevel\b|inventory|\bstored\b"
_LOST = r"\bloss(es)?\b|\blost\b"
_GAS = r"\bgas\b"

# what a heading must hold, all of it, and the roles that it may mean; the first that fits counts
_RULES: tuple[tuple[tuple[str, ...], tuple[Role, ...]], ...] = (
    ((_POWER, r"\bsold\b|\bsales?\b"), ("power sold",)),
    ((_POWER, r"export|\bto\b"), ("power exported",)),
    ((_POWER, rf"{_BOUGHT}|\bgrid\b"), ("power bought",)),
    ((_POWER, r"\bmade\b|generat|turbine"), ("power made",)),
    ((_POWER,), ("power bought", "power made", "power exported")),
    ((_STEAM, rf"{_BOUGHT}|\bfrom\b"), ("steam bought",)),
    ((_STEAM, r"export|\bto\b"), ("steam exported",)),
    ((_STEAM,), ("steam bought", "steam exported")),
    ((r"stripper", r"\bvent"), ("condensate stripper vent",)),
    ((r"start ?up", r"\bvent"), ("start-up vent",)),
    ((_CO2, r"\bstack\b|flue"), ("CO2 recovered from stack", "stack CO2")),
    ((_CO2, r"\burea\b"), ("CO2 to urea",)),
    ((_CO2, r"injected|injection|sequest|pipeline"), ("CO2 to storage",)),
    ((_CO2, _STOCK), ("liquid CO2 stock",)),
    ((_CO2, _LOST), ("CO2 liquefaction loss",)),
    ((_CO2, r"\bvent"), ("CO2 vented",)),
    ((_CO2, _SOLD), ("CO2 sold",)),
    ((_CO2, _BOUGHT), ("CO2 bought",)),
    ((_CO2, r"removed|removal|overhead|regenerator|absorbed"), ("CO2 removed",)),
    ((_CO2,), ("CO2 removed", "CO2 to urea", "CO2 sold", "CO2 vented")),
    ((r"\bvent",), ("CO2 vented", "start-up vent", "condensate stripper vent")),
    ((_NH3, r"\burea\b"), ("ammonia to urea",)),
    ((_NH3, _STOCK), ("ammonia stock",)),
    ((_NH3, _LOST), ("ammonia losses",)),
    ((_NH3, r"reclaim"), ("ammonia reclaimed",)),
    ((_NH3, _SOLD), ("ammonia sold",)),
    ((_NH3, _BOUGHT), ("ammonia bought",)),
    ((_NH3, r"produc|\bmade\b|\bmake\b|output|rundown"), ("ammonia produced",)),
    ((_NH3,), ("ammonia produced", "ammonia sold", "ammonia to urea")),
    ((r"\bdiesel\b|\bgas ?oil\b|\bfuel oil\b|\blpg\b",), ("other fuel",)),
    (
        (r"\bhours?\b|\bhrs\b", r"on ?line|running|\brun\b|operat|on ?stream|service"),
        ("hours on line",),
    ),
    ((r"\bstarts?\b|\bstart ups?\b",), ("starts",)),
    ((r"\btrips?\b",), ("trips",)),
    ((r"\bpurge\b",), ("purge gas",)),
    ((r"\blet ?down\b",), ("let-down gas",)),
    ((r"\bflash", r"solvent|amine|mdea|carbonate"), ("solvent flash gas",)),
    ((r"\bflash",), ("let-down gas", "flash gas", "solvent flash gas")),
    ((r"hydrogen|\bh2\b", _BOUGHT), ("hydrogen bought",)),
    ((r"hydrogen|\bh2\b", _SOLD), ("hydrogen sold",)),
    ((r"third part",), ("gas to third parties",)),
    ((r"\bfeed\b(?! ?water)",), ("feed",)),
    ((r"\bfuel\b",), ("fuel",)),
    ((r"\breformer\b|\bboilers?\b|\bheaters?\b|\bburners?\b", _GAS), ("fuel",)),
    ((_GAS, rf"{_BOUGHT}|\bfence\b|supply|custody|intake"), ("purchased gas",)),
    ((r"natural gas|\bgas\b",), ("purchased gas", "feed", "fuel")),
    ((r"\burea\b",), ("urea",)),
)
_BURNERS = {
    "reformer": r"reformer|primary reform",
    "boiler": r"boiler",
    "heater": r"heater",
    "flare pilot": r"pilot",
    "flare assist": r"flare assist",
    "engine": r"engine|generator|pump",
}
_BESIDE = {
    "temperature": r"\btemp(erature)?\b",
    "pressure": r"\bpressure\b",
    "purity": r"purity|\bassay\b|\bnh3 content\b",
    "nitrogen": r"\bnitrogen\b|\bn content\b",
}
_CUMULATIVE = re.compile(r"index|counter|totali[sz]|cumulat|meter reading|odometer", re.IGNORECASE)
_TAG = re.compile(r"\b[A-Z]{1,4}[-_ ]?\d{2,5}[A-Z]?\b")
_COMPONENT_LIKE = re.compile(r"^(CO2|NH3|H2|N2|CH4)$", re.IGNORECASE)


@dataclass(frozen=True)
class Spoken:
    """What words say about a column: the roles that it may have; one is as good as certain."""

    roles: tuple[Role, ...]
    burner: str = ""


def plain(text: str) -> str:
    """Return a text in small letters, hyphens and underscores as blanks.

    Args:
        text: of a heading, or the name of a sheet or file. [text]

    Source: definition
    """
    folded = text.translate(str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789")).casefold()
    return " ".join(re.sub(r"[-_–/]+", " ", folded).split())


def spoken_by(text: str) -> Spoken:
    """Return the roles that the words of a text may mean; none where it holds no trade word.

    Args:
        text: of a heading, or of heading, sheet and file together. [text]

    Source: common practice, no source
    """
    words = plain(text)
    roles = next(
        (roles for needed, roles in _RULES if all(re.search(one, words) for one in needed)), ()
    )
    burner = next((name for name, one in _BURNERS.items() if re.search(one, words)), "")
    return Spoken(roles, burner if roles in (("fuel",), ("other fuel",)) else "")


def beside_of(heading: str) -> str:
    """Return temperature, pressure, purity or nitrogen for a series that serves another meter.

    Args:
        heading: of a column. [text]

    Source: common practice, no source
    """
    words = plain(heading)
    return next((name for name, one in _BESIDE.items() if re.search(one, words)), "")


def is_cumulative(heading: str) -> bool:
    """Return whether a heading speaks of a counter that only grows.

    Args:
        heading: of a column. [text]

    Source: common practice, no source
    """
    return _CUMULATIVE.search(heading) is not None


def tag_in(text: str) -> str:
    """Return the tag of a meter in a text, such as FT-101; empty where there is none.

    Args:
        text: of a heading, or of a cell beside it. [text]

    Source: common practice, no source
    """
    match = _TAG.search(text)
    return match[0] if match and not _COMPONENT_LIKE.match(match[0]) else ""
