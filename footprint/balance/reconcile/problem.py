"""What is to be reconciled: measured values, their causes of error, and the balances they obey."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from footprint.balance.reconcile.arrays import Array, Mask, lengths

NEGATIVE = 1e-9  # of the largest eigenvalue of the correlations: less is rounding


@dataclass(frozen=True, eq=False, slots=True)
class Problem:
    """n measured and p unmeasured flows that obey m linear balances; errors come from k causes.

    balances @ true + unmeasured @ unknown = right, and measured = true + factor @ causes, where the
    causes are independent with mean 0 and standard deviation 1. The covariance is factor @ factor'.

    Attributes:
        measured: measured values, shape (n,). [any]
        factor: what one standard deviation of each cause does to each value, (n, k). [as measured]
        balances: coefficients of the measured flows, shape (m, n). [any]
        unmeasured: coefficients of the unmeasured flows, shape (m, p). [any]
        right: right side of the balances, shape (m,). [any]
    """

    measured: Array
    factor: Array
    balances: Array
    unmeasured: Array
    right: Array

    @property
    def constant(self) -> Mask:
        """Which values no cause moves: taken as exact, never adjusted."""
        found: Mask = ~np.any(self.factor != 0, axis=1)
        return found

    @property
    def sigma(self) -> Array:
        """Standard uncertainty of each measured value."""
        return lengths(self.factor)


def pose(
    measured: Array,
    factor: Array,
    balances: Array,
    unmeasured: Array | None = None,
    right: Array | None = None,
) -> Problem:
    """Return a problem, its shapes checked.

    Args:
        measured: measured values, shape (n,). [any]
        factor: effect of each cause on each value, shape (n, k); a zero row is a constant.
            [as measured]
        balances: coefficients of the measured flows, in = +, out = -, shape (m, n). [any]
        unmeasured: coefficients of the unmeasured flows, shape (m, p); none when left out. [any]
        right: right side of the balances, shape (m,); 0 when left out. [any]

    Returns:
        The problem, all arrays as floats.

    Raises:
        ValueError: shapes that do not fit, or a number that is not finite.

    Source: Narasimhan & Jordache, Data Reconciliation and Gross Error Detection (2000), ch. 3
        (statement seen); errors by causes instead of a covariance: JCGM 100:2008, 5.2 (from memory)
    """
    table = np.atleast_2d(np.asarray(balances, dtype=float))
    rows = table.shape[0]
    found = Problem(
        np.asarray(measured, dtype=float),
        np.asarray(factor, dtype=float),
        table,
        np.zeros((rows, 0)) if unmeasured is None else np.asarray(unmeasured, dtype=float),
        np.zeros(rows) if right is None else np.asarray(right, dtype=float),
    )
    _refuse_misfits(found)
    return found


def _refuse_misfits(problem: Problem) -> None:
    values, rows = problem.measured.shape, problem.balances.shape[0]
    wanted = {
        "balances": (rows, *values),
        "unmeasured": (rows, *problem.unmeasured.shape[1:]),
        "right": (rows,),
        "factor": (*values, *problem.factor.shape[1:]),
    }
    dimensions = {"balances": 2, "unmeasured": 2, "right": 1, "factor": 2}
    for name, shape in wanted.items():
        is_shape = getattr(problem, name).shape
        if is_shape != shape or len(is_shape) != dimensions[name]:
            raise ValueError(f"{name} has shape {is_shape}, the other arrays ask for {shape}")
    for name in (*wanted, "measured"):
        if not np.all(np.isfinite(getattr(problem, name))):
            raise ValueError(f"{name} holds a number that is not finite")


def own_errors(sigma: Array) -> Array:
    """Return the factor of errors that have nothing in common.

    Args:
        sigma: standard uncertainties, shape (n,). [any]

    Source: JCGM 100:2008, clause 5.1 (from memory)
    """
    found: Array = np.diag(np.asarray(sigma, dtype=float))
    return found


def factor_of(covariance: Array) -> Array:
    """Return a factor of a covariance, one artificial cause a column.

    Args:
        covariance: symmetric, no negative eigenvalue, shape (n, n). [square of any]

    Raises:
        ValueError: the matrix is no covariance.

    Source: Cholesky decomposition of the correlations; their eigenvectors where they are singular
    """
    table = np.asarray(covariance, dtype=float)
    square = table.ndim == 2 and table.shape[0] == table.shape[1]  # noqa: PLR2004  a matrix
    if not square or np.any(np.diagonal(table) < 0) or not np.allclose(table, table.T, rtol=1e-9):
        raise ValueError("a covariance is square, symmetric and has no negative variance")
    sigma = np.sqrt(np.diagonal(table))
    safe = np.where(sigma > 0, sigma, 1.0)
    correlation = table / np.outer(safe, safe)
    found: Array = sigma[:, None] * _root(correlation, sigma > 0)
    return found


def _root(correlation: Array, moving: Mask) -> Array:
    """Return a square root of the correlations of the values that move."""
    if np.any(correlation[~moving] != 0):
        raise ValueError("a value without variance has a covariance with another")
    found = np.zeros_like(correlation)
    inner = correlation[np.ix_(moving, moving)]
    try:
        found[np.ix_(moving, moving)] = np.linalg.cholesky(inner)
    except np.linalg.LinAlgError:
        sizes, vectors = np.linalg.eigh((inner + inner.T) / 2)
        if sizes[0] < -NEGATIVE * sizes[-1]:
            raise ValueError("a covariance has no negative eigenvalue") from None
        found[np.ix_(moving, moving)] = vectors * np.sqrt(np.maximum(sizes, 0.0))
    return found
