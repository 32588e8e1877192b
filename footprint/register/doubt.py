"""How sure a published value is, as errors of its row: ranges, standard uncertainties, elements.

A value has one cause of its own, so that it is wrong by the same share wherever it is used. What
follows from atomic weights shares theirs. Legal definitions, warming potentials and ratios that a
programme prescribes have no error: they are what the programme says they are.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from statistics import NormalDist

import numpy as np

from footprint.base.cause import Cause, Error, shared
from footprint.register.entry import Entry

BANDS = frozenset({"benchmarks.csv", "limits.csv"})  # ends of a band, no limits of an error
ELEMENTS = ("carbon", "hydrogen", "nitrogen", "oxygen", "sulfur")
HALF_OF_95 = NormalDist().inv_cdf(0.975)  # half-width over standard uncertainty
_TEMPERATURE = re.compile(r" at \d+ °[CF]")
Count = Mapping[str, int]
Known = Callable[[str], float | None]

_CO2: Count = {"carbon": 1, "oxygen": 2}
_NH3: Count = {"nitrogen": 1, "hydrogen": 3}
_UREA: Count = {"carbon": 1, "hydrogen": 4, "nitrogen": 2, "oxygen": 1}
_TWO_NH3: Count = {"nitrogen": 2, "hydrogen": 6}
# constants that follow from atomic weights: atoms above and below the line
_OF_ELEMENTS: dict[str, tuple[Count, Count]] = {
    "atomic weight of carbon, by kmol": ({"carbon": 1}, {}),
    "molar mass of carbon dioxide, by kmol of gas": (_CO2, {}),
    "molar mass of CO2 by carbon": (_CO2, {}),
    "molar mass of CH4 by carbon": ({"carbon": 1, "hydrogen": 4}, {}),
    "molar mass of N2O": ({"nitrogen": 2, "oxygen": 1}, {}),
    "molar mass of ammonia made": (_NH3, {}),
    "molar mass of ammonia made, by kmol": (_NH3, {}),
    "molar mass of urea": (_UREA, {}),
    "ratio of CO2 to carbon": (_CO2, {"carbon": 1}),
    "carbon in urea": ({"carbon": 1}, _UREA),
    "CO2 bound in urea": (_CO2, _UREA),
    "ammonia bound in urea": (_TWO_NH3, _UREA),
    "nitrogen in urea": ({"nitrogen": 2}, _UREA),
    "nitrogen in ammonia": ({"nitrogen": 1}, _NH3),
    "ratio of CO2 to ammonia in urea": (_CO2, _TWO_NH3),
}


def errors_of(entry: Entry, known: Known) -> tuple[Error, ...]:
    """Return the errors of a published value; none where it is a definition or states nothing.

    Args:
        entry: a line of a factor file. [entry]
        known: value of science by its quantity; None where there is none. [any]

    Source: ISO 6976:2016, Annex A and Tables 1 to 3; limits of a published range are those of a
        95 % interval: 2006 IPCC Guidelines, volume 1, chapter 3 (from memory)
    """
    elements = _elements_of(entry, known)
    if elements is not None:
        return _by_elements(entry.value, elements, known)
    base = _TEMPERATURE.sub("", entry.quantity)
    stated = known(f"standard uncertainty of the {base}")
    if stated is not None:
        return (_error(f"factor: {base}", base, stated),)
    if entry.low is None or entry.high is None or entry.line.file in BANDS:
        return ()
    half = (entry.high - entry.low) / 2
    return (_error(f"factor: {entry.key}", entry.words, half / HALF_OF_95),)


def _elements_of(entry: Entry, known: Known) -> tuple[Count, Count] | None:
    """Return the atoms that a value follows from; None where it follows from none."""
    if entry.quantity in _OF_ELEMENTS:
        return _OF_ELEMENTS[entry.quantity]
    name = entry.quantity.removeprefix("molar mass of ")
    if name == entry.quantity or known(f"carbon atoms in {name}") is None:
        return None
    atoms = {element: known(f"{element} atoms in {name}") for element in ELEMENTS}
    return {element: int(count) for element, count in atoms.items() if count}, {}


def _by_elements(value: float, atoms: tuple[Count, Count], known: Known) -> tuple[Error, ...]:
    """Return the errors that the atomic weights give a value, each with its sign."""
    weights = {element: known(f"atomic weight of {element}") or 0.0 for element in ELEMENTS}
    masses = [sum(weights[one] * count for one, count in side.items()) for side in atoms]
    errors = []
    for element in ELEMENTS:
        pulls = [
            side.get(element, 0) / mass for side, mass in zip(atoms, masses, strict=True) if mass
        ]
        pull = value * (pulls[0] - sum(pulls[1:])) if pulls else 0.0
        name = f"atomic weight of {element}"
        stated = known(f"standard uncertainty of the {name}")
        if pull and stated is not None:
            errors.append(_error(f"factor: {name}", name, pull * stated))
    return tuple(errors)


def _error(key: str, words: str, size: float) -> Error:
    return shared(Cause(key, words=f"{words}, as published"), np.array([size]))
