"""Checks of the arithmetic of a reconciliation, kept with its result."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from footprint.balance.reconcile.arrays import Array
from footprint.balance.reconcile.classify import Classified
from footprint.balance.reconcile.problem import Problem
from footprint.balance.reconcile.weigh import Weights

CLOSURE, AGREEMENT, CONDITION = 1e-9, 1e-8, 1e10


@dataclass(frozen=True, slots=True)
class Checks:
    """Gaps that are 0 but for rounding.

    Attributes:
        closure: largest imbalance left, as a share of the largest term in a balance. [1]
        objective: r'H^-1 r less the sum of squares of the causes, as a share of it. [1]
        rank: sum of the variance removed, in measured variances, less the degrees of freedom. [1]
        second_solution: largest difference of a cause from that found by another method. [1]
        condition: condition number of the correlations of the imbalances; a warning above 1e10. [1]
        consistent: whether the balances left out agree with the others. [1]
    """

    closure: float
    objective: float
    rank: float
    second_solution: float
    condition: float
    consistent: bool

    @property
    def sound(self) -> bool:
        """Whether every gap is no more than rounding; the condition number only warns."""
        gaps = (self.objective, self.rank, self.second_solution)
        return self.consistent and self.closure <= CLOSURE and max(gaps) <= AGREEMENT

    @property
    def well_conditioned(self) -> bool:
        """Whether digits are safe whatever the method."""
        return self.condition <= CONDITION


def checks_of(
    problem: Problem, classified: Classified, weights: Weights, adjusted: Array
) -> Checks:
    """Return the checks of a reconciliation.

    Args:
        problem: as posed. [problem]
        classified: its balances without unmeasured flows. [problem]
        weights: of the imbalances. [any]
        adjusted: values found. [as measured]

    Source: identities of least squares, see Narasimhan & Jordache (2000), ch. 3 and 7 (from memory)
    """
    imbalance = classified.balances @ problem.measured - classified.right
    causes = weights.causes(imbalance)
    objective = float(np.sum(weights.whiten(imbalance) ** 2))
    removed = float(np.sum(weights.whiten(weights.spread) ** 2))
    left_open = np.abs(classified.balances @ adjusted - classified.right)
    sizes = np.maximum(np.abs(adjusted), np.abs(problem.measured))
    terms = np.max(np.abs(classified.balances) * sizes, axis=1, initial=0.0)
    size = max(1.0, float(np.max(np.abs(causes), initial=0.0)))
    other = causes_by_second_method(weights.spread, imbalance)
    return Checks(
        closure=_share(left_open, np.maximum(terms, np.abs(classified.right))),
        objective=abs(objective - float(causes @ causes)) / max(1.0, objective),
        rank=abs(removed - classified.degrees_of_freedom),
        second_solution=float(np.max(np.abs(causes - other), initial=0.0)) / size,
        condition=weights.condition,
        consistent=all(one.consistent for one in classified.dropped),
    )


def _share(parts: Array, wholes: Array) -> float:
    return float(np.max(parts / np.where(wholes > 0, wholes, 1.0), initial=0.0))


def causes_by_second_method(spread: Array, imbalance: Array) -> Array:
    """Return the estimated causes from the whole system of equations of Lagrange, by LU.

    The equations are: causes = spread' @ multipliers, and spread @ causes = imbalance.

    Args:
        spread: effect of each cause on each balance, shape (d, k). [any]
        imbalance: of the balances, shape (d,). [any]

    Source: conditions of Karush, Kuhn and Tucker for a minimum under equations (textbook)
    """
    balances, causes = spread.shape
    whole = np.zeros((balances + causes, balances + causes))
    whole[:causes, :causes] = np.eye(causes)
    whole[:causes, causes:] = -spread.T
    whole[causes:, :causes] = spread
    found: Array = np.linalg.solve(whole, np.concatenate([np.zeros(causes), imbalance]))[:causes]
    return found
