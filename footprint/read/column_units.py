"""The unit of a column: from heading, row below or site file; all that speak must agree."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from footprint.base.finding import Finding, Where, declare
from footprint.base.units import Unit, quotient_of, unit
from footprint.read.fault import Refusal
from footprint.read.headings import Column
from footprint.read.purposes import settled
from footprint.read.rate_words import UNIT_IS_NO_RATE, parted
from footprint.read.roles import Purpose, kind_of, unit_for
from footprint.read.unit_words import LEFT_OPEN, UNKNOWN_UNIT, unit_named

MISSING_UNIT = declare(
    "missing-unit",
    "stop",
    means="Neither the heading, nor the row below it, nor site.toml names the unit of a column.",
    effect="the readings of the column can't be used",
    mend='write the unit behind the heading, such as "Feed gas (Nm3)", or add '
    "unit = ... to the meter",
    example='heading "Feed gas" alone; mended: "Feed gas (Nm3)"',
)
UNITS_DISAGREE = declare(
    "units-disagree",
    "stop",
    means="The heading, the row below it and site.toml name different units for one column.",
    effect="nothing tells which is right; between kg and t lies a factor of a thousand",
    mend="write the unit that the meter's data sheet gives in each of these places",
    example='"Ammonia product (t)" with unit = "kg" in site.toml',
)
STANDARD_VOLUME_TAKEN = declare(
    "standard-volume-taken-at-15-c",
    "note",
    means='The unit "Sm3" stands without a temperature.',
    effect="it was read as 15 °C and 101.325 kPa; counted at 20 °C it would be 1.7 % less gas",
    mend='write "Sm3 (15 °C)"',
    example='"Sm3"; mended: "Sm3 (15 °C)"',
)


@dataclass(frozen=True, slots=True)
class _Said:
    """A unit as one place names it."""

    place: str
    where: Where
    text: str


def unit_of(
    column: Column, declared: str | None, purposes: Sequence[Purpose], *, is_rate: bool = False
) -> tuple[Unit | None, list[Finding]]:
    """Return the unit of a column with its stream's substance, or None where it is refused.

    A unit in the site file settles what a heading leaves open, such as the conditions of "m3".

    Args:
        column: at its heading. [column]
        declared: the unit of the meter in the site file; None where it names none. [text]
        purposes: roles and uses of the meter. [text]
        is_rate: whether the readings are rates, so that the unit has a time below. [flag]

    Findings:
        unit-is-no-rate: a rate without a time.
        missing-unit, units-disagree, standard-volume-taken-at-15-c, bad-unit-for-role.
        the codes of `unit_words`.

    Source: definition
    """
    units: list[tuple[_Said, Unit]] = []
    for said in _said(column, declared):
        amount, time = parted(said.text) if is_rate else (said.text, "")
        if is_rate and not time:
            what = f'unit "{said.text}" has no time below'
            return None, [_refused(said, Refusal(UNIT_IS_NO_RATE, what))]
        found = unit_named(amount)
        is_overruled = bool(declared) and said.text != declared
        if isinstance(found, Refusal) and not (is_overruled and found.code in LEFT_OPEN):
            found = settled(amount, found, purposes)
        if isinstance(found, Refusal):
            if declared and (found.code in LEFT_OPEN or found.code is UNKNOWN_UNIT):
                continue
            return None, [_refused(said, found)]
        fitting = _for_all(purposes, unit(found))
        if isinstance(fitting, Refusal):
            return None, [_refused(said, fitting)]
        units.append((said, quotient_of(fitting, unit(time)) if time else fitting))
    if not units:
        return _without(column, purposes)
    if any(one != units[0][1] for _, one in units):
        what = ", but ".join(f'{said.place} says "{said.text}"' for said, _ in units)
        return None, [UNITS_DISAGREE.at(units[0][0].where, what)]
    return units[0][1], _standard_volume(units)


def _said(column: Column, declared: str | None) -> list[_Said]:
    """Return the places that speak of the unit, with what they say."""
    heading = _where(column, column.header_row)
    below = _where(column, column.unit_row or column.header_row)
    said = [
        _Said("the heading", heading, column.tail),
        _Said("the row below", below, column.unit_text),
        _Said("site.toml", heading, declared or ""),
    ]
    return [one for one in said if one.text]


def _where(column: Column, row: int) -> Where:
    """Return the place of a heading or of the unit below it."""
    return column.sheet.where(column.column, [row], column.heading)


def _refused(said: _Said, refusal: Refusal) -> Finding:
    """Return the finding of a unit at its place."""
    return refusal.code.at(said.where, refusal.what, read=said.text, mend=refusal.mend)


def _for_all(purposes: Sequence[Purpose], written: Unit) -> Unit | Refusal:
    """Return the unit that all roles and uses of a meter give it; the first refusal wins."""
    found: Unit | Refusal = written
    for purpose in purposes:
        found = unit_for(purpose, written)
        if isinstance(found, Refusal):
            return found
    return found


def _without(column: Column, purposes: Sequence[Purpose]) -> tuple[Unit | None, list[Finding]]:
    """Return the unit of a column that nobody names: a count needs none."""
    if purposes and all(kind_of(purpose) == "starts" for purpose in purposes):
        return unit("start"), []
    where = _where(column, column.header_row)
    return None, [MISSING_UNIT.at(where, f'nothing names the unit of "{column.heading}"')]


def _standard_volume(units: Sequence[tuple[_Said, Unit]]) -> list[Finding]:
    """Return a note where a standard cubic metre stands without temperature everywhere."""
    texts = [said.text for said, _ in units]
    if units[0][1] not in (unit("Sm3"), unit("kSm3"), unit("MSm3")) or any(
        "15" in t for t in texts
    ):
        return []
    what = f'unit "{texts[0]}" was read as 15 °C, 101.325 kPa'
    return [STANDARD_VOLUME_TAKEN.at(units[0][0].where, what)]
