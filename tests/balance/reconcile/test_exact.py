"""Accuracy against exact solutions in rational numbers."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.balance.reconcile import own_errors, pose, reconcile
from tests.balance.reconcile.exact import exact, network

SEEDS = range(40)


@pytest.mark.parametrize("spread", [0.0, 4.0, 10.0])
def test_values_are_exact_to_rounding_however_variances_differ(spread: float) -> None:
    """Values, as a share of the largest flow, to 2e-13; objective to 1e-11, whatever the spread.

    Flows of a network with variances from 1e-10 to 1e10 times the usual.
    """
    for seed in SEEDS:
        problem = network(seed, spread=spread)
        true, found = exact(problem), reconcile(problem)
        values = np.array([float(one) for one in true.adjusted])
        size = max(np.max(np.abs(values)), np.max(np.abs(problem.measured)))
        assert np.max(np.abs(found.adjusted - values)) <= 2e-13 * size
        assert found.objective == pytest.approx(float(true.objective), rel=1e-11)
        assert found.checks.sound


@pytest.mark.parametrize("spread", [0.0, 4.0, 10.0])
def test_uncertainties_keep_their_digits(spread: float) -> None:
    """Each uncertainty to 1e-9 of itself, even one that shrinks by ten powers of ten."""
    for seed in SEEDS:
        problem = network(seed, spread=spread)
        sigma = np.sqrt([float(one) for one in exact(problem).variances])
        assert reconcile(problem).sigma == pytest.approx(sigma, rel=1e-9)


@pytest.mark.parametrize("spread", [0.0, 10.0])
def test_unmeasured_flows_are_exact_too(spread: float) -> None:
    """With two flows unmeasured, observable ones agree; every measured one agrees."""
    seen = 0
    for seed in SEEDS:
        problem = network(seed, spread=spread, hidden=2)
        found = reconcile(problem)
        if not np.all(found.classified.observable):
            continue
        true = exact(problem)
        values = np.array([float(one) for one in (*true.adjusted, *true.unmeasured)])
        size = max(np.max(np.abs(values)), np.max(np.abs(problem.measured)))
        answer = np.concatenate([found.adjusted, found.unmeasured])
        assert np.max(np.abs(answer - values)) <= 5e-13 * size
        seen += 1
    assert seen > len(SEEDS) / 2


@pytest.mark.parametrize("spread", [0.0, 10.0])
def test_duplicated_and_combined_balances_change_nothing(spread: float) -> None:
    """A balance given twice, scaled, or as the sum of others is dropped; the answer stays."""
    for seed in SEEDS:
        plain = network(seed, spread=spread)
        rows = plain.balances
        more = np.vstack([rows[0], 1e6 * rows, 1e-6 * rows.sum(axis=0)])
        found = reconcile(pose(plain.measured, plain.factor, np.vstack([rows, more])))
        true = exact(plain)
        values = np.array([float(one) for one in true.adjusted])
        size = max(np.max(np.abs(values)), np.max(np.abs(plain.measured)))
        assert np.max(np.abs(found.adjusted - values)) <= 1e-12 * size
        assert [one.balance for one in found.classified.dropped] == list(
            range(len(rows), len(rows) + len(more))
        )
        assert all(one.consistent for one in found.classified.dropped)


def test_a_correlated_problem_is_exact_too() -> None:
    """A cause shared by flows of very different own errors."""
    for seed in SEEDS:
        plain = network(seed, spread=6.0)
        random = np.random.default_rng(seed)
        common = np.round(random.normal(size=(plain.measured.size, 2)), 3)
        problem = pose(plain.measured, np.hstack([plain.factor, common]), plain.balances)
        true, found = exact(problem), reconcile(problem)
        values = np.array([float(one) for one in true.adjusted])
        sigma = np.sqrt([float(one) for one in true.variances])
        size = max(np.max(np.abs(values)), np.max(np.abs(plain.measured)))
        assert np.max(np.abs(found.adjusted - values)) <= 1e-12 * size
        assert found.sigma == pytest.approx(sigma, rel=1e-8)


def test_a_constant_is_not_a_tiny_uncertainty() -> None:
    """A flow without uncertainty stays to the last bit, and the others close about it."""
    y = np.array([100.0, 60.5, 41.0])

    found = reconcile(pose(y, own_errors(np.array([1.0, 0.0, 1.0])), [[1.0, -1.0, -1.0]]))

    assert found.adjusted[1] == 60.5
    assert found.adjusted == pytest.approx([100.75, 60.5, 40.25], rel=1e-15)
    assert list(found.testable) == [True, False, True]
