"""How far the balances may miss: the covariance H of their imbalances, as a triangular factor."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from scipy import linalg
from scipy.linalg import blas

from footprint.balance.reconcile.arrays import (
    Array,
    Places,
    lengths,
    pivots,
    powers_of_two,
    without_noise,
)
from footprint.balance.reconcile.classify import Classified
from footprint.balance.reconcile.independent import dropped_for
from footprint.balance.reconcile.problem import Problem

STIFF = 1e-13  # of the largest pivot: below it no cause moves a balance apart from the others


@dataclass(frozen=True, eq=False, slots=True)
class Weights:
    """H = spread @ spread', where spread says what each cause does to each remaining balance.

    Attributes:
        spread: effect of one standard deviation of each cause, shape (d, k). [any]
        triangle: upper triangle T; T'T is H with rows and columns scaled and in `order`. [any]
        order: order of the balances in the triangle. [1]
        scale: what each balance was multiplied by before. [any]
        directions: orthonormal mixtures of causes that the balances see, shape (k, d). [1]
    """

    spread: Array
    triangle: Array
    order: Places
    scale: Array
    directions: Array

    def whiten(self, vectors: Array) -> Array:
        """Return vectors over balances in coordinates where imbalances have covariance 1.

        Args:
            vectors: shape (d,) or (d, c). [as the balances]

        Source: f'H^-1 g is the ordinary product of f and g so transformed
        """
        if vectors.shape[0] == 0:
            return np.zeros(vectors.shape)
        table = vectors.reshape(vectors.shape[0], -1) * self.scale[:, None]
        found: Array = blas.dtrsm(1.0, self.triangle, table[self.order], trans_a=1)
        return found.reshape(vectors.shape)

    def solve(self, vectors: Array) -> Array:
        """Return H^-1 @ vectors, refined once.

        Args:
            vectors: shape (d,) or (d, c). [as the balances]

        Source: Björck, Numerical Methods for Least Squares Problems (1996), corrected seminormal
            equations (from memory)
        """
        first = self._once(vectors)
        return first + self._once(vectors - self.spread @ (self.spread.T @ first))

    def causes(self, vectors: Array) -> Array:
        """Return the smallest causes that make imbalances: spread' @ H^-1 @ vectors.

        Args:
            vectors: imbalances, shape (d,) or (d, c). [as the balances]

        Source: least length by QR of spread' (Golub & Van Loan, from memory); multipliers, whose
            differences may be tiny beside them, are not needed
        """
        found: Array = self.directions @ self.whiten(vectors)
        return found

    def _once(self, vectors: Array) -> Array:
        if vectors.shape[0] == 0:
            return np.zeros(vectors.shape)
        table = self.whiten(vectors).reshape(vectors.shape[0], -1)
        found = np.zeros_like(table)
        found[self.order] = blas.dtrsm(1.0, self.triangle, table)
        return (found * self.scale[:, None]).reshape(vectors.shape)

    @property
    def condition(self) -> float:
        """Condition number of the correlations of the imbalances; 1 where there are none."""
        sizes = np.linalg.svd(self.spread / lengths(self.spread)[:, None], compute_uv=False)
        return float((sizes[0] / sizes[-1]) ** 2) if sizes.size else 1.0


def weigh(problem: Problem, found: Classified) -> tuple[Classified, Weights]:
    """Return the balances that errors can move, and the weights of their imbalances.

    H is never formed: its triangle comes from the effects of the causes by QR with sorted rows and
    pivoted columns, which loses no digits where the causes differ by powers of ten. A combination
    of balances that no cause moves is dropped: it holds or it is a contradiction.

    Args:
        problem: as posed. [problem]
        found: the problem without its unmeasured flows. [problem]

    Source: Cox & Higham, Stability of Householder QR factorization for weighted least squares
        problems (1998) (from memory)
    """
    terms = np.abs(found.balances) @ np.abs(problem.factor)
    spread = without_noise(found.balances @ problem.factor, terms, STIFF)
    scale = powers_of_two(lengths(spread))
    table = (scale[:, None] * spread).T
    largest_first = np.argsort(-np.max(np.abs(table), axis=1, initial=0.0), kind="stable")
    order, rank = pivots(table[largest_first], STIFF)
    if rank < order.size:
        return weigh(problem, _freed(problem, found, spread, np.sort(order[:rank])))
    directions = np.zeros((table.shape[0], rank))
    triangle = np.zeros((rank, rank))
    if rank:
        mixed, triangle, order = linalg.qr(table[largest_first], mode="economic", pivoting=True)
        directions[largest_first] = mixed
    return found, Weights(spread, triangle, order, scale, directions)


def _freed(problem: Problem, found: Classified, spread: Array, kept: Places) -> Classified:
    """Return the balances without those that no cause moves apart from the kept ones."""
    rest = np.setdiff1d(np.arange(spread.shape[0]), kept)
    found_shares = np.linalg.lstsq(spread[kept].T, spread[rest].T, rcond=None)[0].T
    shares = without_noise(
        np.asarray(found_shares, dtype=float), np.ones(found_shares.shape), STIFF
    )
    combinations = found.joining[rest] - shares @ found.joining[kept]
    places = np.argmax(np.abs(combinations), axis=1)
    dropped = tuple(
        dropped_for(problem, (int(place), one / one[place]), problem.measured)
        for place, one in zip(places, combinations, strict=True)
    )
    balances = found.balances[kept]
    return replace(
        found,
        joining=found.joining[kept],
        balances=balances,
        right=found.right[kept],
        redundant=np.any(balances != 0, axis=0),
        dropped=found.dropped + dropped,
    )
