"""Identities of least squares on networks drawn at random, errors shared or not.

Source: Narasimhan & Jordache (2000), ch. 7 (from memory); each side is computed by its own formula.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from footprint.balance.reconcile import (
    Candidate,
    Problem,
    Reconciled,
    allowing_for,
    each_cause,
    each_leak,
    each_meter,
    measurement_test,
    own_errors,
    pose,
    reconcile,
    suspect,
)
from tests.balance.reconcile.exact import incidence

COMMON = settings(max_examples=60, deadline=None)


@st.composite
def problems(draw: st.DrawFn, *, shared: bool = False) -> Problem:
    """Return a random network with measured values, and causes shared by flows if asked."""
    random = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    nodes = draw(st.integers(1, 6))
    table = incidence(random, nodes, nodes + draw(st.integers(1, 6)))
    sigma = 10.0 ** random.uniform(-2, 2, table.shape[1])
    factor = own_errors(sigma)
    if shared:
        factor = np.hstack([factor, random.normal(size=(sigma.size, 3)) * sigma[:, None]])
    return pose(100.0 * random.uniform(0.2, 2.0, sigma.size), factor, table)


def parts(found: Reconciled) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return balances, imbalance and its covariance, from the problem as posed."""
    problem = found.problem
    spread = problem.balances @ problem.factor
    return problem.balances, problem.balances @ problem.measured - problem.right, spread @ spread.T


@COMMON
@given(problems())
def test_the_objective_is_the_sum_of_weighted_squares(problem: Problem) -> None:
    """Identity 1: with independent errors, r'H^-1 r is the sum of (adjustment / sigma)^2."""
    found = reconcile(problem)
    _, r, h = parts(found)

    assert found.objective == pytest.approx(
        np.sum((found.adjustment / problem.sigma) ** 2), rel=1e-7
    )
    assert found.objective == pytest.approx(r @ np.linalg.solve(h, r), rel=1e-6)


@COMMON
@given(problems(shared=True))
def test_the_objective_is_the_sum_of_squared_causes(problem: Problem) -> None:
    """Identity 1 with shared errors: the causes take the place of the adjustments."""
    found = reconcile(problem)

    assert found.objective == pytest.approx(np.sum(found.causes**2), rel=1e-9)
    assert problem.factor @ found.causes == pytest.approx(found.adjustment, rel=1e-7, abs=1e-9)
    assert found.checks.sound


@COMMON
@given(problems())
def test_both_measurement_tests_agree_without_shared_errors(problem: Problem) -> None:
    """Identity 2: the adjustment's z is the maximum-power z if the covariance is diagonal."""
    found = reconcile(problem)

    power = suspect(found, each_meter(found)).z

    assert measurement_test(found) == pytest.approx(power, rel=1e-6, abs=1e-9, nan_ok=True)


@COMMON
@given(problems(shared=True))
def test_they_differ_with_shared_errors_and_obey_their_own_formulas(problem: Problem) -> None:
    """The adjustment's z is a / sqrt(Va); the maximum-power z is V^-1 a over its own sigma."""
    found = reconcile(problem)
    v = problem.factor @ problem.factor.T
    g, r, h = parts(found)
    a = v @ g.T @ np.linalg.solve(h, r)
    va = v @ g.T @ np.linalg.solve(h, g @ v)
    d = np.linalg.solve(v, a)
    vd = np.linalg.solve(v, np.linalg.solve(v, va).T)
    seen = found.testable & (np.diag(va) > 1e-9 * np.diag(v))

    assert measurement_test(found)[seen] == pytest.approx(
        (a / np.sqrt(np.abs(np.diag(va))))[seen], rel=1e-4, abs=1e-5
    )
    z = suspect(found, each_meter(found)).z
    assert z[seen] == pytest.approx((d / np.sqrt(np.abs(np.diag(vd))))[seen], rel=1e-4, abs=1e-5)


@COMMON
@given(problems(shared=True))
def test_a_ratio_is_the_drop_of_the_objective(problem: Problem) -> None:
    """Identity 3: for meters, leaks and causes alike, and the size is the estimate of the refit."""
    found = reconcile(problem)
    candidates = [*each_meter(found), *each_leak(found), *each_cause(found)]
    seen = suspect(found, candidates)
    slack = 1e-8 * found.objective + 1e-9

    for place in np.flatnonzero(seen.visible):
        refit = reconcile(allowing_for(problem, [candidates[place]]))
        assert found.objective - refit.objective == pytest.approx(
            seen.statistic[place], rel=1e-5, abs=slack
        )
        assert refit.unmeasured[0] == pytest.approx(seen.size[place], rel=1e-5, abs=1e-7)
        assert refit.unmeasured_sigma[0] == pytest.approx(seen.error[place], rel=1e-5)
        assert refit.degrees_of_freedom == found.degrees_of_freedom - 1


@COMMON
@given(problems(shared=True))
def test_a_leak_s_ratio_is_the_maximum_power_nodal_test(problem: Problem) -> None:
    """Identity 4: (H^-1 r) over the root of the diagonal of H^-1."""
    found = reconcile(problem)
    _, r, h = parts(found)
    inverse = np.linalg.inv(h)

    z = suspect(found, each_leak(found)).z

    told = inverse @ r / np.sqrt(np.diag(inverse))
    assert z == pytest.approx(told, rel=1e-4, abs=1e-5 * np.max(np.abs(told)))


@COMMON
@given(problems(shared=True))
def test_the_multipliers_give_the_adjustment_by_hand(problem: Problem) -> None:
    """What a reader can repeat in a sheet: measured less V A' multipliers closes the balances."""
    found = reconcile(problem)
    v = problem.factor @ problem.factor.T

    by_hand = problem.measured - v @ problem.balances.T @ found.multipliers

    scale = np.max(np.abs(problem.measured))
    assert by_hand == pytest.approx(found.adjusted, rel=1e-8, abs=1e-9 * scale)


@COMMON
@given(problems(shared=True), st.integers(0, 2**32 - 1))
def test_uncertainty_never_grows_and_totals_use_the_correlations(
    problem: Problem, seed: int
) -> None:
    """Any total is at most as uncertain after as before; its variance is c' V c."""
    found = reconcile(problem)
    shares = np.random.default_rng(seed).normal(size=problem.measured.size)

    value, sigma = found.of_total(shares)

    assert value == pytest.approx(shares @ found.adjusted)
    assert sigma == pytest.approx(np.sqrt(shares @ found.covariance @ shares), rel=1e-6)
    assert sigma <= np.linalg.norm(shares @ problem.factor) * (1 + 1e-9)
    assert np.all(found.adjustability > -1e-9)
    assert np.all(found.adjustability <= 1.0)


def test_the_same_bias_moves_the_ratio_as_the_formula_says() -> None:
    """A bias of a known size on exact data: the estimate is that size, on every testable meter."""
    random = np.random.default_rng(5)
    table = incidence(random, 4, 9)
    true = np.linalg.svd(table)[2][4:].T @ random.normal(size=5)
    factor = np.hstack([own_errors(np.full(9, 0.5)), random.normal(size=(9, 1))])
    for place in range(9):
        y = true.copy()
        y[place] += 3.0
        found = reconcile(pose(y, factor, table))
        seen = suspect(found, [Candidate("meter", place)])
        assert seen.size[0] == pytest.approx(3.0, rel=1e-9)
        assert seen.statistic[0] == pytest.approx(found.objective, rel=1e-9)
