"""Flows that cannot be negative."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy import optimize

from footprint.balance.reconcile.arrays import Array, Places
from footprint.balance.reconcile.problem import Problem, pose
from footprint.balance.reconcile.solve import Reconciled, reconcile

BELOW = 1e-9  # of the size of the flow: a value that little below its bound is at it
FIXED = 1e-12  # of its uncertainty: a flow that can move no more than that is fixed


@dataclass(frozen=True, eq=False, slots=True)
class Bounded:
    """A reconciliation under bounds.

    An active bound is a finding: usually a gross error, or a flow that is really off. The objective
    then obeys no chi-square law, and uncertainties hold only if the flow is exactly at its bound.

    Attributes:
        reconciled: with each active bound as one more balance. [reconciliation]
        active: measured flows held at their bound. [1]
        active_unmeasured: unmeasured flows held at their bound. [1]
        forces: multiplier of each active bound, first of measured, then of unmeasured flows; none
            negative at the optimum. [per unit of flow]
        feasible: whether any values obey balances and bounds; if not, bounds are left out. [1]
    """

    reconciled: Reconciled
    active: Places
    active_unmeasured: Places
    forces: Array
    feasible: bool

    @property
    def is_free(self) -> bool:
        """Whether no bound is active, so that the usual tests apply."""
        return self.active.size + self.active_unmeasured.size == 0


def reconcile_bounded(
    problem: Problem, lowest: Array, lowest_unmeasured: Array | None = None
) -> Bounded:
    """Return the nearest values that obey balances and lower bounds.

    Args:
        problem: as posed. [problem]
        lowest: lower bound of each measured flow, -inf for none, shape (n,). [as measured]
        lowest_unmeasured: of each unmeasured flow, likewise; none when left out. A flow that is not
            observable is not bounded. [any]

    Source: active set for least squares under inequalities, Lawson & Hanson, Solving Least Squares
        Problems (1974), ch. 23; for flows: Narasimhan & Harikumar (1993) (both from memory)
    """
    free = reconcile(problem)
    count = problem.unmeasured.shape[1]
    none = np.full(count, -np.inf)
    bounds = np.concatenate([lowest, none if lowest_unmeasured is None else lowest_unmeasured])
    active = _active(free, bounds)
    if active is None:
        return _bounded(free, np.zeros(0, dtype=np.intp), feasible=False)
    if active.size == 0:
        return _bounded(free, active, feasible=True)
    rows = np.eye(bounds.size)[active]
    cut = problem.measured.size
    held = pose(
        problem.measured,
        problem.factor,
        np.vstack([problem.balances, rows[:, :cut]]),
        np.vstack([problem.unmeasured, rows[:, cut:]]),
        np.concatenate([problem.right, bounds[active]]),
    )
    return _bounded(reconcile(held), active, feasible=True)


def _bounded(found: Reconciled, active: Places, *, feasible: bool) -> Bounded:
    cut = found.problem.measured.size
    forces = -found.multipliers[found.multipliers.size - active.size :]
    measured = active < cut
    return Bounded(found, active[measured], active[~measured] - cut, forces, feasible)


def _active(free: Reconciled, bounds: Array) -> Places | None:
    """Return which bounds hold the flows back; none can be obeyed if None.

    What is sought are the smallest further causes that lift every flow to its bound: a problem of
    least distance, solved by its dual, which is least squares without negative unknowns.
    """
    values = np.concatenate([free.adjusted, free.unmeasured])
    effects = np.vstack([free.factor, free.unmeasured_factor])
    sizes, sigmas = _sizes(free)
    used = np.flatnonzero(np.isfinite(bounds) & np.isfinite(values))
    lack = bounds[used] - values[used]
    if np.all(lack <= BELOW * sizes[used]):
        return used[:0]
    reach = np.linalg.norm(effects[used], axis=1)
    moving = reach > FIXED * sigmas[used]
    if np.any(~moving & (lack > BELOW * sizes[used])):
        return None
    used, lack, reach = used[moving], lack[moving], reach[moving]
    table = np.vstack([(effects[used] / reach[:, None]).T, lack / reach])
    forces, _ = optimize.nnls(table, np.append(np.zeros(effects.shape[1]), 1.0))
    rest = table @ forces
    rest[-1] -= 1.0
    if np.linalg.norm(rest) <= BELOW:
        return None
    held: Places = used[forces > BELOW * np.max(forces)]
    return held


def _sizes(free: Reconciled) -> tuple[Array, Array]:
    """Return what each flow is large against, and its uncertainty without the balances."""
    problem, finding = free.problem, np.abs(free.classified.finding)
    terms = np.abs(problem.balances)
    sizes = np.abs(problem.measured) + problem.sigma
    found = finding @ (np.abs(problem.right) + terms @ sizes)
    return np.append(sizes, found), np.append(problem.sigma, finding @ terms @ problem.sigma)
