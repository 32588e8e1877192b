"""How large must an error be before the balances can show it?"""

from __future__ import annotations

import numpy as np
from scipy import optimize, special

from footprint.balance.reconcile.arrays import Array
from footprint.balance.reconcile.candidates import Suspicion
from footprint.balance.reconcile.significance import LEVEL, critical_z

POWER = 0.9  # chance of an alarm that counts as sure enough


def power(found: Suspicion, sizes: Array, level: float = LEVEL) -> Array:
    """Return the chance that each candidate is flagged if it is there in a given size.

    The likelihood ratio is then non-central chi-square with 1 degree of freedom; its non-centrality
    is size^2 f'H^-1 f, so that its signed root is normal about size / error.

    Args:
        found: candidates with their marks. [suspicion]
        sizes: of the candidates, shape (c,). [of the candidates]
        level: accepted chance of any false alarm, over all candidates. [1]

    Source: Narasimhan & Jordache (2000), ch. 7 (from memory); law of the squared normal variable
    """
    limit = critical_z(level, found.tests)
    return _either_side(np.abs(np.asarray(sizes)) / found.error, limit)


def global_power(
    found: Suspicion, sizes: Array, degrees_of_freedom: int, level: float = LEVEL
) -> Array:
    """Return the chance that the global test fails if a candidate is there in a given size.

    Args:
        found: candidates with their marks. [suspicion]
        sizes: of the candidates, shape (c,). [of the candidates]
        degrees_of_freedom: of the reconciliation. [1]
        level: accepted chance of a false alarm. [1]

    Source: non-central chi-square law of r'H^-1 r (textbook)
    """
    if degrees_of_freedom == 0:
        return np.where(found.visible, 0.0, np.nan)
    critical = special.chdtri(degrees_of_freedom, level)
    shifts = (np.asarray(sizes) / found.error) ** 2
    chances: Array = 1.0 - special.chndtr(critical, degrees_of_freedom, shifts)
    return chances


def detectable(found: Suspicion, wanted: float = POWER, level: float = LEVEL) -> Array:
    """Return the size at which each candidate is flagged with a wanted chance; infinite if unseen.

    Args:
        found: candidates with their marks. [suspicion]
        wanted: chance of an alarm. [1]
        level: accepted chance of any false alarm, over all candidates. [1]

    Source: as `power`, solved for the size
    """
    limit = critical_z(level, found.tests)

    def miss(shift: float) -> float:
        return float(_either_side(np.array([shift]), limit)[0]) - wanted

    if miss(0.0) >= 0:
        return np.where(found.visible, 0.0, np.inf)
    highest = limit + float(special.ndtri(wanted)) + 1.0
    shift = float(optimize.brentq(miss, 0.0, highest, xtol=1e-12, rtol=1e-12))
    return np.where(found.visible, shift * np.nan_to_num(found.error), np.inf)


def _either_side(shifts: Array, limit: float) -> Array:
    """Return the chance that a normal variable about each shift is beyond plus or minus a limit."""
    chances: Array = special.ndtr(shifts - limit) + special.ndtr(-shifts - limit)
    return chances
