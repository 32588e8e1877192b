"""Balances that are not linear: solved as linear ones, again and again, about where one stands."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from footprint.balance.reconcile.arrays import Array
from footprint.balance.reconcile.problem import pose
from footprint.balance.reconcile.solve import Reconciled, reconcile

Miss = Callable[[Array, Array], Array]
Slopes = Callable[[Array, Array], tuple[Array, Array]]
MOST_STEPS = 100
HALVINGS = 30
STEP, MISS = 1e-9, 1e-9  # in standard uncertainties or relative; relative to the terms


@dataclass(frozen=True, slots=True)
class Equations:
    """Balances of measured and unmeasured flows.

    Attributes:
        miss: what measured and unmeasured flows leave open in each balance, shape (m,). [any]
        slopes: derivatives of it by measured and by unmeasured flows, (m, n) and (m, p). [any]
    """

    miss: Miss
    slopes: Slopes


@dataclass(frozen=True, slots=True)
class Iteration:
    """One step of the iteration.

    Attributes:
        step: largest change, in standard uncertainties for measured flows, relative for others. [1]
        miss: largest imbalance, as a share of the terms in its balance. [1]
        objective: sum of squares of the causes. [1]
    """

    step: float
    miss: float
    objective: float


@dataclass(frozen=True, eq=False, slots=True)
class Iterated:
    """Result of an iteration.

    Attributes:
        reconciled: of the balances as linear ones about the last point; covariances, tests and
            sizes of suspects come from it. [reconciliation]
        unmeasured: values of the unmeasured flows; where not observable, one of many. [any]
        iterations: in their order. [iterations]
        converged: whether steps and imbalances have come to rest. [1]
    """

    reconciled: Reconciled
    unmeasured: Array
    iterations: tuple[Iteration, ...]
    converged: bool


def reconcile_nonlinear(
    measured: Array, factor: Array, equations: Equations, start: Array | None = None
) -> Iterated:
    """Return the values nearest to the measured ones that obey balances of any smooth form.

    Each step makes the balances linear about the last point and solves for the distance from the
    original measurements, which stay fixed. Where it does not converge, the report says so.

    Args:
        measured: measured values, shape (n,). [any]
        factor: effect of each cause on each value, shape (n, k). [as measured]
        equations: the balances. [balances]
        start: first guess of the unmeasured flows, shape (p,); none when left out. [any]

    Source: Crowe, AIChE J. 32:616 (1986) (first page seen); Pai & Fisher, AIChE J. 34:876 (1988)
        (from memory)
    """
    here = np.asarray(measured, dtype=float), np.zeros(0) if start is None else np.asarray(start)
    iterations: list[Iteration] = []
    for _ in range(MOST_STEPS):
        found = _linear(here, measured, factor, equations)
        there = _unbroken(here, (found.adjusted, _unmeasured(found, here[1])), equations)
        iterations.append(_report(here, there, found, equations))
        here = there
        if iterations[-1].step <= STEP and iterations[-1].miss <= MISS:
            return Iterated(found, here[1], tuple(iterations), converged=True)
    return Iterated(found, here[1], tuple(iterations), converged=False)


Point = tuple[Array, Array]


def _linear(here: Point, measured: Array, factor: Array, equations: Equations) -> Reconciled:
    by_measured, by_unmeasured = equations.slopes(*here)
    right = by_measured @ here[0] + by_unmeasured @ here[1] - equations.miss(*here)
    return reconcile(pose(measured, factor, by_measured, by_unmeasured, right))


def _unmeasured(found: Reconciled, before: Array) -> Array:
    """Return unmeasured flows; those not observable move as little as the balances ask."""
    problem = found.problem
    lack = problem.right - problem.balances @ found.adjusted - problem.unmeasured @ before
    moved = before + np.linalg.lstsq(problem.unmeasured, lack, rcond=None)[0]
    answer: Array = np.where(found.classified.observable, found.unmeasured, moved)
    return answer


def _unbroken(here: Point, there: Point, equations: Equations) -> Point:
    """Return the new point, or one on the way to it where the balances can be computed."""
    share = 1.0
    for _ in range(HALVINGS):
        point = (
            here[0] + share * (there[0] - here[0]),
            here[1] + share * (there[1] - here[1]),
        )
        with np.errstate(all="ignore"):
            if np.all(np.isfinite(equations.miss(*point))):
                return point if share < 1 else there
        share /= 2.0
    return here


def _report(here: Point, there: Point, found: Reconciled, equations: Equations) -> Iteration:
    by_measured, by_unmeasured = equations.slopes(*there)
    terms = np.abs(by_measured) @ np.abs(there[0]) + np.abs(by_unmeasured) @ np.abs(there[1])
    misses = np.abs(equations.miss(*there)) / np.where(terms > 0, terms, 1.0)
    sigma = found.problem.sigma
    moves = np.abs(there[0] - here[0]) / np.where(sigma > 0, sigma, 1.0)
    others = np.abs(there[1] - here[1]) / np.maximum(np.abs(there[1]), 1e-300)
    step = max(float(np.max(moves, initial=0.0)), float(np.max(others, initial=0.0)))
    return Iteration(step, float(np.max(misses, initial=0.0)), found.objective)
