"""Factors looked up or assumed where the works could measure: what measuring could move."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.base.axis import ONCE
from footprint.base.rewire import rewired
from footprint.base.row import Row, ancestry, constant, leaf, step
from footprint.base.source import DEFINITION, Assumption, Factor
from footprint.base.units import NONE
from footprint.bases.basis import Basis
from footprint.register import Entry, Register

COULD_BE = {  # a part of the factor's name: how a works would measure it
    "emission factor of": "analysis of the fuel for CO2; a test at the stack for CH4 and N2O",
    "carbon content": "analysis of the fuel",
    "calorific value": "analysis of the fuel, or the supplier's certificate by delivery",
    "heat content": "analysis of the fuel, or the supplier's certificate by delivery",
    "high heat value": "analysis of the fuel, or the supplier's certificate by delivery",
    "oxidised share": "carbon monoxide and soot in the flue gas",
    "oxidation factor": "carbon monoxide and soot in the flue gas",
    "fuel requirement": "meters of feed and fuel",
    "grid": "the supplier's own factor, with its proof",
    "power": "the supplier's own factor, with its proof",
    "efficiency": "a heat balance of the boiler",
    "density": "density of each delivery",
    "leak": "a leak survey, or refills weighed",
}
FIXED = ("GWP100", "ratio of", "atomic weight", "molar mass", "uncertainty of", "bound in")
PHYSICS = "factors/any/"  # constants and component tables: no works measures these
TRIALS = {  # where no range was published
    end: constant(share, NONE, f"trial/{end}/share/not measured", f"{share:.0%}")
    for end, share in (("low", 0.99), ("high", 1.01))
}


@dataclass(frozen=True, eq=False, slots=True)
class NotMeasured:
    """One factor behind a total that was not measured.

    Attributes:
        factor: as used. [row once]
        how: a works would measure it. [text]
        low: what the lower end of its range adds to the total. [t CO2e, row once]
        high: what the upper end adds. [t CO2e, row once]
        range_words: which range that is. [text]
    """

    factor: Row
    how: str
    low: Row
    high: Row
    range_words: str


def not_measured(basis: Basis, register: Register) -> tuple[NotMeasured, ...]:
    """Return the factors behind a basis' total that the works could measure instead.

    Args:
        basis: applied to the year. [basis]
        register: factors with their published ranges. [register]

    Source: definition
    """
    exact = next(line.exact for line in basis.lines if line.filed is basis.total)
    ranges = {register.row_of(entry): entry for entry in register.entries}
    found = []
    for row in ancestry([exact]):
        how = _how(row)
        if how:
            found.append(_moved(basis.name, exact, row, ranges.get(row), how))
    return tuple(found)


def _how(row: Row) -> str:
    """Return how a single value could be measured; empty for what is measured or fixed."""
    if not row.is_leaf or row.axis is not ONCE or not row.origins:
        return ""
    if not isinstance(row.origins[0], Factor | Assumption) or row.origins[0] is DEFINITION:
        return ""
    words = row.words
    if row.key.startswith(PHYSICS):
        return ""
    if any(fixed in words for fixed in FIXED) or (row.unit == NONE and "share" not in words):
        return ""
    return next((how for part, how in COULD_BE.items() if part in words), "")


def _moved(basis: str, exact: Row, row: Row, entry: Entry | None, how: str) -> NotMeasured:
    """Return what the ends of a factor's range make of the total."""
    is_published = entry is not None and entry.low is not None and entry.high is not None
    words = "range published with it" if is_published else "1 % of it each way"
    ends = []
    for name in ("low", "high"):
        end = _end(row, entry if is_published else None, basis, name)
        (other,) = rewired([exact], {row: end}, f", {basis}, {name} {row.key}")
        key = f"{exact.key}/not measured/{row.key}, {name}"
        ends.append(step(other - exact, key, f"{row.words}: {name} end adds", words))
    return NotMeasured(row, how, ends[0], ends[1], words)


def _end(row: Row, entry: Entry | None, basis: str, end: str) -> Row:
    """Return one end of a factor's range."""
    key, words = f"{row.key}, {end} for {basis}", f"{row.words}, {end} end"
    if entry is None:
        return step(row * TRIALS[end], key, words, "a trial")
    value = entry.low if end == "low" else entry.high
    number = float("nan") if value is None else value
    return leaf([number], row.unit, ONCE, key=key, words=words, origins=[entry.source])
