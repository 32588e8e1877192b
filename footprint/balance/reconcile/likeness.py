"""Candidates that the data cannot tell apart, for ever or this time."""

from __future__ import annotations

import numpy as np

from footprint.balance.reconcile.arrays import Array, Mask
from footprint.balance.reconcile.candidates import ALIKE, Suspicion
from footprint.balance.reconcile.significance import LEVEL, critical_z


def cosines(found: Suspicion) -> Array:
    """Return the cosine between the marks of each two candidates; NaN where there is no mark.

    Args:
        found: candidates with their marks. [suspicion]

    Source: correlation of two likelihood ratio statistics when nothing is wrong
    """
    unit = _unit(found)
    table: Array = unit.T @ unit
    return table


def equivalent_sets(found: Suspicion) -> list[tuple[int, ...]]:
    """Return sets of visible candidates whose marks are the same but for size and sign.

    No data can tell the members apart, whatever the size: all must be named as suspects. Sets of
    one are left out.

    Args:
        found: candidates with their marks. [suspicion]

    Source: Bagajewicz & Jiang, equivalency of gross errors (1998) (from memory)
    """
    unit = _unit(found)
    left = [int(place) for place in np.flatnonzero(found.visible)]
    sets: list[tuple[int, ...]] = []
    while left:
        first = unit[:, left[0]]
        alike = [place for place in left if _angle(first, unit[:, place]) <= ALIKE]
        left = [place for place in left if place not in alike]
        sets += [tuple(alike)] if len(alike) > 1 else []
    return sets


def _unit(found: Suspicion) -> Array:
    """Return the marks at length 1."""
    unit: Array = found.marks * found.error
    return unit


def _angle(first: Array, second: Array) -> float:
    return float(min(np.linalg.norm(first - second), np.linalg.norm(first + second)))


def rivals(found: Suspicion, best: int, level: float = LEVEL) -> Mask:
    """Return which candidates the data do not reject in favour of the best one.

    With a rival allowed for, does the best one still explain more than chance? If not, the rival
    stands. The statistic, (z_best - c z_rival) / sqrt(1 - c^2) with c the cosine of their marks, is
    standard normal if the rival is what is wrong; the best is the best of all others, so the limit
    is that of as many tests. Equivalent candidates always stand.

    Args:
        found: candidates with their marks. [suspicion]
        best: place of the best candidate. [1]
        level: accepted chance of rejecting the true one. [1]

    Source: the likelihood ratio test of two models inside the model that holds both (textbook; Cox
        1961 in this use, from memory)
    """
    unit = _unit(found)
    cosine = np.clip(np.nan_to_num(unit[:, best] @ unit), -1.0, 1.0)
    apart = np.sqrt(1.0 - cosine**2)
    excess = np.abs(found.z[best] - cosine * np.nan_to_num(found.z))
    stands = excess <= critical_z(level, found.tests - 1) * apart + ALIKE * np.abs(found.z[best])
    answer: Mask = found.visible & stands
    return answer
