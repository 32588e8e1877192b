"""How large must an error be before the balances can show it?"""

from __future__ import annotations

import numpy as np
from scipy import optimize, stats

from footprint.balance.reconcile.arrays import Array
from footprint.balance.reconcile.candidates import Suspicion
from footprint.balance.reconcile.significance import LEVEL, each_level

POWER = 0.9  # chance of an alarm that counts as sure enough


def power(found: Suspicion, sizes: Array, level: float = LEVEL) -> Array:
    """Return the chance that each candidate is flagged if it is there in a given size.

    The likelihood ratio is then non-central chi-square with 1 degree of freedom; its non-centrality
    is size^2 f'H^-1 f.

    Args:
        found: candidates with their marks. [suspicion]
        sizes: of the candidates, shape (c,). [of the candidates]
        level: accepted chance of any false alarm, over all candidates. [1]

    Source: Narasimhan & Jordache (2000), ch. 7 (from memory); law of the squared normal variable
    """
    critical = stats.chi2(1).isf(each_level(level, found.tests))
    shifts = (np.asarray(sizes) / found.error) ** 2
    return _chance(critical, 1, shifts)


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
    critical = stats.chi2(degrees_of_freedom).isf(level)
    return _chance(critical, degrees_of_freedom, (np.asarray(sizes) / found.error) ** 2)


def detectable(found: Suspicion, wanted: float = POWER, level: float = LEVEL) -> Array:
    """Return the size at which each candidate is flagged with a wanted chance; infinite if unseen.

    Args:
        found: candidates with their marks. [suspicion]
        wanted: chance of an alarm. [1]
        level: accepted chance of any false alarm, over all candidates. [1]

    Source: as `power`, solved for the size
    """
    critical = float(stats.chi2(1).isf(each_level(level, found.tests)))

    def miss(root: float) -> float:
        return float(_chance(critical, 1, np.array([root**2]))[0]) - wanted

    if miss(0.0) >= 0:
        return np.where(found.visible, 0.0, np.inf)
    highest = critical**0.5 + float(stats.norm.isf(1.0 - wanted)) + 10.0
    root = float(optimize.brentq(miss, 0.0, highest, xtol=1e-12, rtol=1e-12))
    return np.where(found.visible, root * np.nan_to_num(found.error), np.inf)


def _chance(critical: float, freedom: int, shifts: Array) -> Array:
    chances: Array = stats.ncx2.sf(critical, freedom, shifts)
    return chances
