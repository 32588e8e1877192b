"""The [[streams]] of a draft: what flows through each meter, and what its role still needs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from footprint.base.units import unit
from footprint.read.role_needs import needs_of, needs_of_unit
from footprint.read.roles import GASES
from footprint.read.site import Role, Site, Stream
from footprint.read.unit_words import unit_named
from footprint.start.notes import commented, known, listed, question
from footprint.start.series_guess import Guess
from footprint.start.trade_words import plain

_NATURAL: tuple[Role, ...] = ("purchased gas", "gas to third parties", "feed", "fuel")
_SHORT_WORDS = ("co2", "to", "gas")
_BEGIN: dict[str, object] = {
    "analysis": "natural gas",
    "to": "fuel",
    "is_counted_elsewhere": False,
    "use": "drinks and food",
    "fuel": "gas or diesel oil",
    "position": "before mixing",
    "burner": "reformer",
    "mixed_with": [],
    "density_kg_per_litre": 0.84,
}


@dataclass(frozen=True)
class Metered:
    """A drafted meter: its guess and the tag that it has in the draft."""

    guess: Guess
    tag: str


def streams_text(meters: Sequence[Metered], gases: Sequence[str]) -> str:
    """Return the lines of all streams: active where the role is certain, else remarks.

    Args:
        meters: drafted, without series that serve other meters. [meters]
        gases: names of the analysed gases. [text]

    Source: definition
    """
    flowing = [one for one in meters if not one.guess.beside and one.guess.roles]
    certain = [_stream(one, gases) for one in flowing if _is_certain(one.guess)]
    parts: list[str] = []
    for one in flowing:
        if _is_certain(one.guess):
            parts.append(_certain(one, meters, certain, gases))
        else:
            parts.append(_doubtful(one))
    return "".join(parts)


def _is_certain(guess: Guess) -> bool:
    return len(guess.roles) == 1


def _stream(one: Metered, gases: Sequence[str]) -> Stream:
    """Return the stream as far as it is known."""
    guess = one.guess
    return Stream.model_construct(
        name=one.tag,
        role=guess.roles[0],
        meter=one.tag,
        analysis=_gas_of(guess.roles[0], gases),
        burner=guess.burner or None,
    )


def _certain(
    one: Metered, meters: Sequence[Metered], streams: Sequence[Stream], gases: Sequence[str]
) -> str:
    """Return the lines of a stream whose role is as good as certain."""
    guess, role = one.guess, one.guess.roles[0]
    gas = _gas_of(role, gases)
    lines = [
        "\n[[streams]]\n",
        known("name", one.tag),
        known("role", role, guess.because),
        known("meter", one.tag),
    ]
    if gas:
        lines.append(known("analysis", gas, "the only analysed gas of that name"))
    if guess.burner:
        lines.append(known("burner", guess.burner, guess.because))
    lines += _series_beside(one, meters)
    return "".join([*lines, *_needs(guess, one.tag, streams, gases)])


def _doubtful(one: Metered) -> str:
    """Return the lines of a stream whose role is in doubt: all of them remarks."""
    guess = one.guess
    roles = list(dict.fromkeys(guess.roles))
    asked = dict(guess.questions).get("role") or f"{guess.place} may be {listed(roles)}: which?"
    lines = [known("name", one.tag), known("role", roles[0]), known("meter", one.tag)]
    return "\n" + question(asked) + commented("".join(["[[streams]]\n", *lines]))


def _gas_of(role: Role, gases: Sequence[str]) -> str | None:
    """Return the analysed gas that a role's stream consists of, where only one fits by name."""
    if role in _NATURAL:
        fitting = [gas for gas in gases if "natural gas" in plain(gas)]
    elif role in GASES:
        fitting = [gas for gas in gases if plain(role).removesuffix(" gas") in plain(gas)]
    else:
        return None
    return fitting[0] if len(fitting) == 1 else None


def _series_beside(one: Metered, meters: Sequence[Metered]) -> Iterable[str]:
    """Yield the laboratory's series of a product, and a question on series of a wet gas."""
    role, table = one.guess.roles[0], one.guess.table
    same = [other for other in meters if other.guess.table is table and other.guess.beside]
    key = "nitrogen" if role == "urea" else "purity" if role.startswith("ammonia") else ""
    found = [other for other in same if other.guess.beside == key and is_per_cent(other.guess)]
    if len(found) == 1:
        yield known(key, found[0].tag, f"{found[0].guess.place} in the same sheet")
    if role.startswith("CO2"):
        yield from _water(one, same)


def _water(one: Metered, same: Sequence[Metered]) -> Iterable[str]:
    """Yield the question whether a gas is wet, where temperature and pressure stand beside it."""
    tags = {
        kind: other.tag
        for kind in ("temperature", "pressure")
        for other in same
        if other.guess.beside == kind and is_beside(other.guess, one.guess)
    }
    if len(tags) == 2:  # noqa: PLR2004  temperature and pressure
        asked = "is the gas saturated with water at the temperature and pressure beside it?"
        yield question(asked, "water", tags)


def is_beside(state: Guess, flow: Guess) -> bool:
    """Return whether a temperature or pressure is that of a stream, by their first words.

    Args:
        state: of a gas. [guess]
        flow: of the gas. [guess]

    Source: common practice, no source
    """
    words, others = plain(state.column).split(), plain(flow.column).split()
    count = 2 if len(words) > 2 and words[0] in _SHORT_WORDS else 1  # noqa: PLR2004  name and kind
    return state.table is flow.table and words[:count] == others[:count]


def is_per_cent(guess: Guess) -> bool:
    """Return whether the unit of a column is per cent.

    Args:
        guess: what the column is thought to be. [guess]

    Source: definition
    """
    return unit_named(guess.unit_text) == "percent"


def _needs(
    guess: Guess, tag: str, streams: Sequence[Stream], gases: Sequence[str]
) -> Iterable[str]:
    """Yield a question for each key that the role of a stream needs and the draft lacks."""
    site = Site.model_construct(
        works=None, units=[], meters=[], analyses=[], streams=list(streams), assumptions=[]
    )
    index = next(place for place, one in enumerate(streams) if one.name == tag)
    found = needs_of(site, index, streams[index])
    named = unit_named(guess.unit_text) if guess.unit_text else None
    by_unit = needs_of_unit(index, streams[index], unit(named)) if isinstance(named, str) else None
    for finding in [*found, *([by_unit] if by_unit else [])]:
        key = finding.where.column or finding.where.cell
        begin = gases[0] if key == "analysis" and gases else _BEGIN.get(key)
        asked = f"{finding.what}: {finding.why}; {finding.mend}"
        yield question(asked, key if begin is not None else "", begin)
