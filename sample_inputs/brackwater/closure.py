"""Conservation of atoms: what enters a section of the invented works leaves it again."""

from __future__ import annotations

import numpy as np

from .gas import ELEMENTS, Array, atoms

CLOSURE = 1e-9  # of the atoms that enter a section

Section = tuple[list[Array], list[Array]]  # atoms in, atoms out, each (days, elements)


def all_atoms(flow: Array) -> Array:
    """Return the atoms of every element in a gas.

    Args:
        flow: amounts by day and component. [kmol/d]

    Source: definition
    """
    return np.stack([atoms(flow, element) for element in ELEMENTS], axis=-1)


def atoms_of(amount: Array, **each: float) -> Array:
    """Return the atoms in some amount of a substance that is no gas of the table, such as water.

    Args:
        amount: molecules by day. [kmol/d]
        each: atoms of each element in one molecule. [1]

    Source: definition
    """
    in_one: Array = np.array([each.get(element, 0.0) for element in ELEMENTS])
    return amount[:, None] * in_one


def imbalance(section: Section) -> float:
    """Return the largest imbalance of any element on any day, as a share of the most that enters.

    Args:
        section: atoms that enter and atoms that leave. [kmol/d]

    Source: conservation of atoms
    """
    entering, leaving = (np.sum(side, axis=0) for side in section)
    scale = np.maximum(np.max(np.abs(entering), axis=0), 1.0)
    return float(np.max(np.abs(entering - leaving) / scale))


def refuse_open(sections: dict[str, Section]) -> None:
    """Return nothing; refuse sections where atoms appear or vanish.

    Args:
        sections: by name. [kmol/d]

    Raises:
        ValueError: a section does not close.

    Source: conservation of atoms
    """
    for name, section in sections.items():
        gap = imbalance(section)
        if gap > CLOSURE:
            raise ValueError(f"{name} does not close: {gap:.2e}")


def refuse_negative(flows: dict[str, Array]) -> None:
    """Return nothing; refuse streams that flow backwards.

    Args:
        flows: by name. [kmol/d]

    Raises:
        ValueError: an amount is negative.

    Source: definition
    """
    for name, flow in flows.items():
        lowest = float(flow.min())
        if lowest < -CLOSURE:
            raise ValueError(f"{name} is negative: {lowest:.2e}")
