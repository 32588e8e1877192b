"""Flows that cannot be negative."""

from __future__ import annotations

from itertools import chain, combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from footprint.balance.reconcile import Bounded, Problem, own_errors, pose, reconcile_bounded
from tests.balance.reconcile.exact import incidence

Array = NDArray[np.float64]


def by_trying_all(problem: Problem) -> Array | None:
    """Return the best point at which some flows are 0 and none is negative; none if there is none.

    Every set of zeros is tried by the conditions of Karush, Kuhn and Tucker in full.
    """
    size, inverse = problem.measured.size, np.diag(1.0 / problem.sigma**2)
    best: tuple[float, Array] | None = None
    for zeros in chain.from_iterable(combinations(range(size), k) for k in range(size + 1)):
        rows = np.vstack([problem.balances, np.eye(size)[list(zeros)]])
        whole = np.block([[inverse, rows.T], [rows, np.zeros((len(rows), len(rows)))]])
        right = np.concatenate([inverse @ problem.measured, np.zeros(len(rows))])
        x = np.linalg.lstsq(whole, right, rcond=None)[0][:size]
        if np.min(x) < -1e-7 or np.max(np.abs(problem.balances @ x)) > 1e-6:
            continue
        cost = float(np.sum(((problem.measured - x) / problem.sigma) ** 2))
        if best is None or cost < best[0]:
            best = cost, x
    return None if best is None else best[1]


def verified(found: Bounded) -> bool:
    """Return whether the conditions of a minimum hold."""
    values = found.reconciled.adjusted
    size = np.max(np.abs(found.reconciled.problem.measured))
    forces = np.all(found.forces >= -1e-9 * np.max(np.abs(found.forces), initial=1.0))
    return bool(forces and np.min(values) >= -1e-9 * size and found.reconciled.checks.sound)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_the_best_set_of_zeros_is_found(seed: int) -> None:
    """Against every set of zeros tried one by one, on small networks with impossible readings."""
    random = np.random.default_rng(seed)
    nodes = int(random.integers(1, 4))
    table = incidence(random, nodes, nodes + int(random.integers(1, 4)))
    sigma = random.uniform(0.3, 3.0, table.shape[1])
    problem = pose(random.normal(1.0, 3.0, sigma.size), own_errors(sigma), table)

    found = reconcile_bounded(problem, np.zeros(sigma.size))

    best = by_trying_all(problem)
    assert best is not None
    assert found.feasible
    assert found.reconciled.adjusted == pytest.approx(best, abs=1e-6)
    assert verified(found)
    assert found.reconciled.adjusted[found.active] == pytest.approx(np.zeros(found.active.size))


def test_no_bound_is_active_where_all_is_well() -> None:
    """Then the answer is the free one, and its tests hold."""
    problem = pose([10.0, 6.0, 4.5], own_errors(np.ones(3)), [[1.0, -1.0, -1.0]])

    found = reconcile_bounded(problem, np.zeros(3))

    assert found.is_free
    assert found.feasible
    assert found.reconciled.degrees_of_freedom == 1


def test_an_unmeasured_flow_is_bounded_too() -> None:
    """A loss found by difference cannot be negative: the meters give way instead."""
    problem = pose([10.0, 10.4], own_errors(np.array([0.1, 0.2])), [[1.0, -1.0]], [[-1.0]])

    found = reconcile_bounded(problem, np.full(2, -np.inf), np.zeros(1))

    assert list(found.active_unmeasured) == [0]
    assert found.active.size == 0
    assert found.reconciled.unmeasured == pytest.approx([0.0], abs=1e-12)
    assert found.reconciled.adjusted == pytest.approx([10.08, 10.08])
    assert found.forces[0] > 0


def test_bounds_that_no_values_can_obey_are_told() -> None:
    """Two flows of at least 6 cannot come from an exact 10: the answer is the free one."""
    factor = own_errors(np.array([0.0, 1.0, 1.0]))
    problem = pose([10.0, 5.0, 5.0], factor, [[1.0, -1.0, -1.0]])

    found = reconcile_bounded(problem, np.array([-np.inf, 6.0, 6.0]))

    assert not found.feasible
    assert found.reconciled.adjusted == pytest.approx([10.0, 5.0, 5.0])


def test_a_bound_holds_whatever_the_units() -> None:
    """Flows of 1e-9 and of 1e9 are bounded alike."""
    for size in (1e-9, 1.0, 1e9):
        problem = pose(
            size * np.array([10.0, 10.6, 0.2]),
            own_errors(size * np.array([0.1, 0.1, 0.2])),
            [[1.0, -1.0, -1.0]],
        )
        found = reconcile_bounded(problem, np.zeros(3))
        assert found.reconciled.adjusted / size == pytest.approx([10.3, 10.3, 0.0], abs=1e-9)
