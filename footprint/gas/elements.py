"""Atoms in a gas and its reducing equivalents: the electrons its carbon and hydrogen can give.

One kmol of ammonia needs three equivalents, one kmol of oxygen takes four; the balance of
equivalents over a works needs no heating value.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic

from footprint.base.row import Row, constant, step
from footprint.base.units import unit
from footprint.gas.arithmetic import Number, weighted_sum

ELEMENTS = {"carbon": "C", "hydrogen": "H", "nitrogen": "N", "oxygen": "O", "sulfur": "S"}


@dataclass(frozen=True, eq=False, slots=True)
class Atoms(Generic[Number]):
    """Atoms per amount of gas, or any amount of each that stands for one feed."""

    carbon: Number
    hydrogen: Number
    nitrogen: Number
    oxygen: Number
    sulfur: Number


@dataclass(frozen=True, eq=False, slots=True)
class Equivalents(Generic[Number]):
    """Equivalents that an atom gives (carbon, hydrogen) or binds (oxygen, sulfur as H2S)."""

    carbon: Number
    hydrogen: Number
    oxygen: Number
    sulfur: Number


PER_ATOM = Equivalents(4.0, 1.0, 2.0, 2.0)


def _per_atom(element: str, value: float) -> Row:
    return constant(
        value,
        unit(f"kmol_equivalent/kmol_{ELEMENTS[element]}"),
        f"definitions/{element}/reducing equivalents/by atom",
        f"reducing equivalents by atom of {element}",
    )


PER_ATOM_ROWS = Equivalents(
    _per_atom("carbon", 4), _per_atom("hydrogen", 1), _per_atom("oxygen", 2), _per_atom("sulfur", 2)
)


def atoms_in_gas(fractions: Sequence[Number], atoms: Sequence[Number]) -> Number:
    """Return the atoms of one element per amount of gas.

    Args:
        fractions: mole fraction of each component; they sum to 1. [kmol/kmol]
        atoms: atoms of the element in one molecule of each component. [kmol_atoms/kmol]

    Source: definition
    """
    return weighted_sum(fractions, atoms)


def given_equivalents(atoms: Atoms[Number], by_atom: Equivalents[Number]) -> Number:
    """Return the equivalents that carbon and hydrogen give: 4 c + h.

    Args:
        atoms: amounts of each element. [kmol_atoms]
        by_atom: equivalents of one atom of each element. [kmol_equivalent/kmol_atoms]

    Source: definition
    """
    return by_atom.carbon * atoms.carbon + by_atom.hydrogen * atoms.hydrogen


def bound_equivalents(atoms: Atoms[Number], by_atom: Equivalents[Number]) -> Number:
    """Return the equivalents that oxygen and sulfur of the gas have bound already: 2 o + 2 s.

    Args:
        atoms: amounts of each element. [kmol_atoms]
        by_atom: equivalents of one atom of each element. [kmol_equivalent/kmol_atoms]

    Source: definition
    """
    return by_atom.oxygen * atoms.oxygen + by_atom.sulfur * atoms.sulfur


def reducing_equivalents(
    atoms: Atoms[Number],
    by_atom: Equivalents[Number],
    key: str = "",
    words: str = "",
    because: str = "",
) -> Number:
    """Return the reducing equivalents B = 4 c + h - 2 o - 2 s, with its two halves as named rows.

    Args:
        atoms: amounts of each element. [kmol_atoms]
        by_atom: equivalents of one atom of each element. [kmol_equivalent/kmol_atoms]
        key: front of the keys, such as "gas/feed gas/mixture". [text]
        words: name of the gas. [text]
        because: the rule, for the reader. [text]

    Source: definition; the oxygen, hydrogen and nitrogen balances of steam reforming added up
    """
    given = step(
        given_equivalents(atoms, by_atom),
        f"{key}/reducing equivalents given",
        f"reducing equivalents that carbon and hydrogen of {words} give",
        because,
    )
    bound = step(
        bound_equivalents(atoms, by_atom),
        f"{key}/reducing equivalents bound",
        f"reducing equivalents that oxygen and sulfur of {words} bind",
        because,
    )
    return step(
        given - bound, f"{key}/reducing equivalents", f"reducing equivalents of {words}", because
    )
