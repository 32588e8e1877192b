"""The same data under this year's and last year's rules: which lines move, by how much, and why."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from footprint.base.listing import Column, Entries, Listing, Shown
from footprint.base.row import Row, ancestry, step
from footprint.base.source import Factor
from footprint.base.units import label
from footprint.bases import Basis, Filed

SHEET = "Change of rules"
QUESTION = "Which lines move only because the rules changed since last year?"
NOTHING = "No figure moves: these rules give the same figures for this year's data as last year's."
NEW = "These rules had no figures for last year: the line, or a factor it needs, was not in force."
CLOSE = 1e-12  # relative; less is the last digit of a number


def year_change_of(year: int, every: Sequence[Basis], before: Sequence[Basis]) -> Listing:
    """Return the sheet of lines that move between the rules of two years.

    Args:
        year: of the return. [year]
        every: the bases under the rules of that year. [bases]
        before: the same bases under the rules of the year before; fewer where none applied. [bases]

    Source: definition
    """
    columns = (
        Column("Line", 17),
        Column("What is reported", 52),
        Column("Unit", 15),
        Column(f"Rules of {year}", 17, is_number=True),
        Column(f"Rules of {year - 1}", 17, is_number=True),
        Column("Difference", 15, is_number=True),
        Column("What changed", 70),
    )
    by_name = {basis.name: basis for basis in before}
    parts = tuple(_part(basis, by_name.get(basis.name)) for basis in every)
    return Listing(SHEET, QUESTION, columns, parts)


def _part(basis: Basis, before: Basis | None) -> Entries:
    if before is None:
        return Entries(basis.name, (), NEW)
    earlier = {(one.number, one.words): one for one in before.lines}
    lines = []
    for one in basis.lines:
        old = earlier.get((one.number, one.words))
        if old is None:
            lines.append(_line(one, None))
        elif _moves(one.exact, old.exact):
            lines.append(_line(one, old))
    return Entries(basis.name, tuple(lines), "" if lines else NOTHING)


def _moves(one: Row, other: Row) -> bool:
    """Return whether a figure differs by more than the last digit; one without data does not."""
    if one is other or one.unit != other.unit:
        return one is not other
    a, b = float(one.values[0]), float(other.values[0])
    return bool(np.isfinite(a) != np.isfinite(b)) or abs(a - b) > CLOSE * max(abs(a), abs(b))


def _line(one: Filed, old: Filed | None) -> tuple[Shown, ...]:
    unit = label(one.exact.unit)
    if old is None:
        return (one.number, one.words, unit, one.exact, None, None, "a new line")
    if old.exact.unit != one.exact.unit:
        was = f"in another unit before: {label(old.exact.unit)}"
        return (one.number, one.words, unit, one.exact, old.exact, None, was)
    moved = step(
        one.exact - old.exact,
        f"{one.exact.key}/change of rules/{one.number}",
        f"{one.words}: moved by the rules",
        "this year's rules less last year's, same data",
    )
    return (one.number, one.words, unit, one.exact, old.exact, moved, _reasons(one, old))


def _reasons(one: Filed, old: Filed) -> str:
    """Return the factors that differ, and the rule where it reads otherwise."""
    now, then = _factors(one.exact), _factors(old.exact)
    told = [
        f"{words}: {then[words]:.10g} before, {now[words]:.10g} now"
        for words in now
        if words in then and then[words] != now[words]
    ]
    if one.rule != old.rule:
        told.append(f"rule before: {old.rule}")
    return "; ".join(told) or "the way of computing; see both lines on Workings"


def _factors(top: Row) -> dict[str, float]:
    """Return the published values behind a figure, by what they are called."""
    return {
        row.words: float(row.values[0])
        for row in ancestry([top])
        if row.is_leaf and row.origins and isinstance(row.origins[0], Factor)
    }
