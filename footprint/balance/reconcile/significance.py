"""Is an imbalance or an adjustment larger than the uncertainties explain?"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy import special

from footprint.balance.reconcile.arrays import Array, lengths
from footprint.balance.reconcile.problem import Problem
from footprint.balance.reconcile.solve import Reconciled

LEVEL = 0.05  # chance of a false alarm that is accepted when nothing is wrong


@dataclass(frozen=True, slots=True)
class GlobalTest:
    """All imbalances judged at once.

    Attributes:
        statistic: least sum of squares. [1]
        degrees_of_freedom: number of independent statements. [1]
        critical: what chance exceeds with the probability of the level. [1]
        chance: probability of as much or more when nothing is wrong. [1]
    """

    statistic: float
    degrees_of_freedom: int
    critical: float
    chance: float

    @property
    def passes(self) -> bool:
        """Whether the imbalances are no more than the uncertainties explain."""
        return self.statistic <= self.critical


def global_test(found: Reconciled, level: float = LEVEL) -> GlobalTest:
    """Return the test of all imbalances at once; without redundancy it passes and says nothing.

    Args:
        found: a reconciliation. [reconciliation]
        level: accepted chance of a false alarm. [1]

    Source: Reilly & Carpani (1963); Almasy & Sztano (1975); Madron (1977) (from memory)
    """
    freedom = found.degrees_of_freedom
    if freedom == 0:
        return GlobalTest(0.0, 0, 0.0, 1.0)
    critical = float(special.chdtri(freedom, level))
    chance = float(special.chdtrc(freedom, found.objective))
    return GlobalTest(found.objective, freedom, critical, chance)


def each_level(level: float, tests: int) -> float:
    """Return the level of each of several tests, for the level of all of them together.

    Args:
        level: chance of any false alarm. [1]
        tests: how many tests. [1]

    Source: Šidák (1967); for this use Mah & Tamhane, AIChE J. 28:828 (1982) (from memory); exact
        for independent tests, prudent for dependent normal ones
    """
    return float(-np.expm1(np.log1p(-level) / max(tests, 1)))


def any_chance(chances: Array, tests: int) -> Array:
    """Return the chance that the best of several tests is as good, from that of one test.

    Args:
        chances: probability of as much or more in one test. [1]
        tests: how many tests. [1]

    Source: Šidák (1967) (from memory)
    """
    found: Array = -np.expm1(max(tests, 1) * np.log1p(-np.minimum(chances, 1.0 - 1e-16)))
    return found


def critical_z(level: float = LEVEL, tests: int = 1) -> float:
    """Return the size of a standard normal variable that any of several tests exceeds by chance.

    Args:
        level: accepted chance of any false alarm. [1]
        tests: how many tests, both signs counting as one. [1]

    Source: as `each_level`
    """
    return float(-special.ndtri(each_level(level, tests) / 2.0))


def nodal_test(problem: Problem) -> Array:
    """Return each balance's imbalance in its standard uncertainties, with its sign.

    NaN for a balance that holds an unmeasured flow or no uncertain one.

    Args:
        problem: as posed. [problem]

    Source: Reilly & Carpani (1963); Mah, Stanley & Downing, IEC Proc. Des. Dev. 15:175 (1976) (from
        memory)
    """
    imbalance = problem.balances @ problem.measured - problem.right
    sigma = lengths(problem.balances @ problem.factor)
    known = (sigma > 0) & ~np.any(problem.unmeasured != 0, axis=1)
    found: Array = imbalance / np.where(known, sigma, np.nan)
    return found


def measurement_test(found: Reconciled) -> Array:
    """Return each adjustment in its standard uncertainties, with its sign; NaN if not testable.

    Args:
        found: a reconciliation. [reconciliation]

    Source: Mah & Tamhane, AIChE J. 28:828 (1982) (from memory)
    """
    weights = found.weights
    effect = weights.whiten(weights.spread @ found.problem.factor.T)
    sigma = lengths(effect.T)
    adjustment = effect.T @ weights.whiten(found.imbalance)
    safe = np.where(found.testable & (sigma > 0), sigma, np.nan)
    return np.asarray(adjustment / safe)


def criterion_2048(found: Reconciled) -> Array:
    """Return what the local criterion of VDI 2048 compares with 1.96; NaN if not testable.

    The variance of the adjustment is not taken below a tenth of the measured one, so that a flow
    that is hardly adjusted gets no large value.

    Args:
        found: a reconciliation. [reconciliation]

    Source: VDI 2048 part 1 (2000); its 1.96 rule seen in the user guide of a modelling library, the
        floor of one tenth in its source and confirmed by its numbers; the standard was not read
    """
    weights = found.weights
    effect = weights.whiten(weights.spread @ found.problem.factor.T)
    variance = np.maximum(np.sum(effect**2, axis=0), found.problem.sigma**2 / 10.0)
    safe = np.where(found.testable, np.sqrt(variance), np.nan)
    return np.asarray(np.abs(effect.T @ weights.whiten(found.imbalance)) / safe)
