"""Balances that depend on others, balances that no error moves, and classes of flows."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import linalg

from footprint.balance.reconcile import classify, own_errors, pose, reconcile
from tests.balance.reconcile.exact import incidence

ROWS = np.array([[1.0, -1.0, 0.0], [0.0, 1.0, -1.0]])
THREE = own_errors(np.ones(3))


def test_a_forgotten_duplicate_is_dropped_and_named() -> None:
    """The overall balance beside those of the parts: the later one goes, with its parts named."""
    rows = np.vstack([ROWS, ROWS.sum(axis=0)])

    found = reconcile(pose([10.0, 11.0, 9.0], THREE, rows))

    (dropped,) = found.classified.dropped
    assert dropped.balance == 2
    assert list(dropped.others) == [0, 1]
    assert dropped.combination == pytest.approx([-1.0, -1.0, 1.0])
    assert dropped.consistent
    assert found.adjusted == pytest.approx([10.0, 10.0, 10.0])


def test_a_duplicate_that_contradicts_is_reported_with_its_gap() -> None:
    """The same balance with another right side: no adjustment can close both."""
    rows = np.vstack([ROWS, 2.0 * ROWS[0]])

    found = reconcile(pose([10.0, 11.0, 9.0], THREE, rows, right=[0.0, 0.0, 1.0]))

    (dropped,) = found.classified.dropped
    assert not dropped.consistent
    assert dropped.gap == pytest.approx(1.0)
    assert not found.checks.sound


def test_a_balance_of_constants_is_checked_not_solved() -> None:
    """What holds only exact values either agrees or contradicts."""
    y = [10.0, 9.5, 3.0]
    factor = own_errors(np.array([0.0, 0.0, 1.0]))

    found = reconcile(pose(y, factor, [[1.0, -1.0, 0.0], [1.0, 0.0, -3.0]]))

    (dropped,) = found.classified.dropped
    assert (dropped.balance, dropped.others.size) == (0, 0)
    assert dropped.gap == pytest.approx(-0.5)
    assert not dropped.consistent
    assert found.adjusted == pytest.approx([10.0, 9.5, 10.0 / 3.0])


def test_a_balance_that_a_shared_error_cannot_move_is_checked_not_solved() -> None:
    """Two readings of one meter have one error: their difference is a contradiction or nothing."""
    factor = np.array([[1.0, 0.0], [1.0, 0.0], [0.0, 1.0]])
    rows = [[1.0, -1.0, 0.0], [1.0, 0.0, -3.0]]

    agreeing = reconcile(pose([10.0, 10.0, 3.0], factor, rows))
    contrary = reconcile(pose([10.0, 11.0, 3.0], factor, rows))

    assert agreeing.degrees_of_freedom == contrary.degrees_of_freedom == 1
    assert agreeing.classified.dropped[0].consistent
    assert agreeing.checks.sound
    assert not contrary.classified.dropped[0].consistent
    assert abs(contrary.classified.dropped[0].gap) == pytest.approx(1.0)
    assert not contrary.checks.sound


def test_without_redundancy_nothing_is_adjusted_or_tested() -> None:
    """A quantity found by difference closes its balance by construction."""
    found = reconcile(pose([100.0, 30.0], own_errors(np.array([1.0, 2.0])), [[1, -1]], [[-1.0]]))

    assert found.degrees_of_freedom == 0
    assert found.adjusted == pytest.approx([100.0, 30.0], rel=1e-15)
    assert found.unmeasured == pytest.approx([70.0])
    assert found.unmeasured_sigma == pytest.approx([np.sqrt(5.0)])
    assert not np.any(found.testable)
    assert found.objective == 0.0
    assert found.checks.sound
    assert found.of_total(np.zeros(2), np.ones(1)) == pytest.approx((70.0, np.sqrt(5.0)))


@settings(max_examples=80, deadline=None)
@given(st.integers(0, 2**32 - 1), st.integers(1, 6), st.integers(1, 7))
def test_classes_agree_with_null_spaces(seed: int, nodes: int, more: int) -> None:
    """Against singular value decomposition of a general library, for any flows unmeasured."""
    random = np.random.default_rng(seed)
    table = incidence(random, nodes, nodes + more)
    hidden = random.random(nodes + more) < 0.4
    ax, au = table[:, ~hidden], table[:, hidden]
    left = linalg.null_space(au.T) if au.size else np.eye(nodes)
    free = linalg.null_space(au) if au.size else np.zeros((au.shape[1], 0))

    found = classify(pose(np.zeros(ax.shape[1]), own_errors(np.ones(ax.shape[1])), ax, au))

    assert list(found.redundant) == list(np.linalg.norm(left.T @ ax, axis=0) > 1e-9)
    assert list(found.observable) == list(np.linalg.norm(free, axis=1) < 1e-9)
    whole, part = np.linalg.matrix_rank(table), np.linalg.matrix_rank(au) if au.size else 0
    assert found.degrees_of_freedom == whole - part
    assert found.joining @ au == pytest.approx(np.zeros((found.joining.shape[0], au.shape[1])))
