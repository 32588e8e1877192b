"""Adjust measured values so that the balances close, as little as their uncertainties allow."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from footprint.balance.reconcile.arrays import Array, Mask, lengths
from footprint.balance.reconcile.checks import Checks, checks_of
from footprint.balance.reconcile.classify import Classified, classify
from footprint.balance.reconcile.problem import Problem
from footprint.balance.reconcile.weigh import Weights, weigh

REFINEMENTS = 2


@dataclass(frozen=True, eq=False)
class Reconciled:
    """Adjusted values of a problem, with what is needed to judge and to trace them.

    Errors of the adjusted values are given by causes, like those of the measured ones: covariance
    is factor @ factor', and that of measured and unmeasured together comes from both factors.

    Attributes:
        problem: as posed. [problem]
        classified: balances without unmeasured flows, class of each flow, balances dropped.
            [problem]
        weights: of the imbalances of the remaining balances. [any]
        imbalance: of the remaining balances before adjustment, shape (d,). [any]
        adjusted: measured flows after adjustment, shape (n,). [as measured]
        factor: effect of each cause on the adjusted flows, shape (n, k). [as measured]
        unmeasured: flows found by the balances; NaN where not observable, shape (p,). [any]
        unmeasured_factor: effect of each cause on them; NaN likewise, shape (p, k). [any]
        causes: estimated size of each cause in its standard deviations, shape (k,). [1]
        multipliers: by balance of the problem: measured less adjusted is
            factor @ factor' @ balances' @ multipliers of the problem, shape (m,). [any]
        objective: least sum of squares, r'H^-1 r. [1]
    """

    problem: Problem
    classified: Classified
    weights: Weights
    imbalance: Array
    adjusted: Array
    factor: Array
    unmeasured: Array
    unmeasured_factor: Array
    causes: Array
    multipliers: Array
    objective: float

    @property
    def adjustment(self) -> Array:
        """Measured less adjusted."""
        found: Array = self.problem.measured - self.adjusted
        return found

    @property
    def sigma(self) -> Array:
        """Standard uncertainty of the adjusted flows."""
        return lengths(self.factor)

    @property
    def unmeasured_sigma(self) -> Array:
        """Standard uncertainty of the unmeasured flows; NaN where not observable."""
        return lengths(self.unmeasured_factor)

    @property
    def covariance(self) -> Array:
        """Covariance of the adjusted flows."""
        found: Array = self.factor @ self.factor.T
        return found

    @property
    def degrees_of_freedom(self) -> int:
        """Number of independent statements that errors of measurement can break."""
        return self.classified.degrees_of_freedom

    @property
    def testable(self) -> Mask:
        """Which measured flows the balances can test."""
        found: Mask = self.classified.redundant & ~self.classified.constant
        return found

    @property
    def adjustability(self) -> Array:
        """Share by which the uncertainty shrank; near 0, a bias hides. NaN for constants."""
        before = self.problem.sigma
        return 1.0 - self.sigma / np.where(before > 0, before, np.nan)

    @cached_property
    def checks(self) -> Checks:
        """Stored checks of the arithmetic."""
        return checks_of(self.problem, self.classified, self.weights, self.adjusted)

    def of_total(
        self, shares: Array, unmeasured_shares: Array | None = None
    ) -> tuple[float, float]:
        """Return a weighted sum of flows after adjustment and its standard uncertainty.

        Args:
            shares: weight of each measured flow, shape (n,). [any]
            unmeasured_shares: weight of each unmeasured flow, shape (p,); none when left out. [any]

        Source: JCGM 100:2008, clause 5.2 (from memory); reconciled values are correlated, so that
            their uncertainties must not be added as if they were not
        """
        weights = np.zeros(self.unmeasured.size) if unmeasured_shares is None else unmeasured_shares
        used = weights != 0
        value = shares @ self.adjusted + weights[used] @ self.unmeasured[used]
        effect = shares @ self.factor + weights[used] @ self.unmeasured_factor[used]
        return float(value), float(np.linalg.norm(effect))


def reconcile(problem: Problem) -> Reconciled:
    """Return the values nearest to the measured ones that obey the balances.

    Nearest in the sum of squares of the causes of error: the minimum-variance linear estimate if
    the uncertainties are right, the most likely values if errors are normal.

    Args:
        problem: as posed. [problem]

    Source: Kuehn & Davidson, Chem. Eng. Prog. 57:44 (1961); Narasimhan & Jordache (2000), ch. 3
        (problem seen, solution from memory): measured - V G' (G V G')^-1 (G measured - h)
    """
    classified, weights = weigh(problem, classify(problem))
    imbalance = classified.balances @ problem.measured - classified.right
    pull = weights.solve(imbalance)
    adjusted, factor = _closed(problem, classified, weights)
    finding = np.where(classified.observable[:, None], classified.finding, np.nan)
    return Reconciled(
        problem=problem,
        classified=classified,
        weights=weights,
        imbalance=imbalance,
        adjusted=adjusted,
        factor=factor,
        unmeasured=finding @ (problem.right - problem.balances @ adjusted),
        unmeasured_factor=-finding @ (problem.balances @ factor),
        causes=weights.causes(imbalance),
        multipliers=classified.joining.T @ pull,
        objective=float(np.sum(weights.whiten(imbalance) ** 2)),
    )


def _closed(problem: Problem, classified: Classified, weights: Weights) -> tuple[Array, Array]:
    """Return measured values and effects of causes, each moved so that the balances close.

    What is moved is a value or one standard deviation of a cause; both obey the same rule. The move
    is repeated on what is left open, since an adjustment many times the result costs its digits.
    """
    table = np.column_stack([problem.measured, problem.factor])
    right = np.column_stack([classified.right, np.zeros_like(weights.spread)])
    for _ in range(1 + REFINEMENTS):
        left_open = classified.balances @ table - right
        table = table - problem.factor @ weights.causes(left_open)
    return table[:, 0], table[:, 1:]
