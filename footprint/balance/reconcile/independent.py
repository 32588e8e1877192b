"""Which balances say something of their own, and whether the others agree with them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from footprint.balance.reconcile.arrays import (
    Array,
    Places,
    first_independent,
    lengths,
    pivots,
    powers_of_two,
    solved,
    without_noise,
)
from footprint.balance.reconcile.problem import Problem

AGREEMENT = 1e-9  # of the size of the terms: a larger gap is a contradiction


@dataclass(frozen=True, eq=False, slots=True)
class Dropped:
    """A balance that measurements cannot test apart from the others, and was left out.

    Attributes:
        balance: its place among the balances of the problem. [1]
        combination: multiples of the problem's balances that nothing moves, shape (m,). [any]
        gap: right side of that combination, less what constants or measurements say. [any]
        allowed: largest gap that rounding explains. [any]
    """

    balance: int
    combination: Array
    gap: float
    allowed: float

    @property
    def consistent(self) -> bool:
        """Whether it agrees with the others; if not, no adjustment can close all of them."""
        return abs(self.gap) <= self.allowed

    @property
    def others(self) -> Places:
        """Places of the balances it follows from; none where it holds only constants."""
        used = self.combination != 0
        used[self.balance] = False
        return np.flatnonzero(used)


@dataclass(frozen=True, eq=False, slots=True)
class Independent:
    """The balances that count, constants on the right side, each near unit length.

    Attributes:
        kept: places of the balances among those of the problem. [1]
        scale: what each kept balance was multiplied by. [any]
        balances: coefficients of the measured flows; 0 for constants. [any]
        unmeasured: coefficients of the unmeasured flows. [any]
        right: right side. [any]
        dropped: the balances left out. [balances]
    """

    kept: Places
    scale: Array
    balances: Array
    unmeasured: Array
    right: Array
    dropped: tuple[Dropped, ...]


def independent(problem: Problem) -> Independent:
    """Return the independent balances of a problem, and the others with their gaps.

    Args:
        problem: as posed. [problem]

    Source: rank by QR with column pivoting, Golub & Van Loan (from memory); a forgotten duplicate
        balance would otherwise make the covariance of the imbalances singular
    """
    constants = np.where(problem.constant, problem.measured, 0.0)
    moving = np.where(problem.constant, 0.0, problem.balances)
    whole = np.hstack([moving, problem.unmeasured])
    scale = powers_of_two(lengths(whole))
    kept = first_independent(scale[:, None] * whole)
    right = problem.right - problem.balances @ constants
    dropped = [dropped_for(problem, one, constants) for one in _combinations(whole, kept, scale)]
    return Independent(
        kept,
        scale[kept],
        (scale[:, None] * moving)[kept],
        (scale[:, None] * problem.unmeasured)[kept],
        (scale * right)[kept],
        tuple(dropped),
    )


def _combinations(whole: Array, kept: Places, scale: Array) -> list[tuple[int, Array]]:
    """Return each balance left out and the combination in which all flows cancel."""
    table = scale[:, None] * whole
    left = np.setdiff1d(np.arange(whole.shape[0]), kept)
    columns = pivots(table[kept])[0][: kept.size]
    shares = solved(table[np.ix_(kept, columns)].T, table[np.ix_(left, columns)].T).T
    found = np.zeros((left.size, whole.shape[0]))
    found[:, kept] = -without_noise(shares, np.ones_like(shares)) * scale[kept]
    found[np.arange(left.size), left] = scale[left]
    return [(int(place), one / scale[place]) for place, one in zip(left, found, strict=True)]


def dropped_for(problem: Problem, one: tuple[int, Array], values: Array) -> Dropped:
    """Return a balance that is left out, with the gap that the values leave.

    Args:
        problem: as posed. [problem]
        one: place of the balance and the combination that nothing moves. [1, any]
        values: of the measured flows that do not cancel in it, shape (n,). [any]

    Source: common practice, no source
    """
    place, combination = one
    gap = combination @ (problem.right - problem.balances @ values)
    size = np.abs(problem.right) + np.abs(problem.balances) @ np.abs(values)
    return Dropped(place, combination, float(gap), float(AGREEMENT * np.abs(combination) @ size))
