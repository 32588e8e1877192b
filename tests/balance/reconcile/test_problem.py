"""What a problem may look like, and factors of covariances."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.balance.reconcile import factor_of, own_errors, pose, reconcile

ROW = [[1.0, -1.0]]


def test_shapes_that_do_not_fit_are_refused_by_name() -> None:
    """The message names the array."""
    factor = own_errors(np.ones(2))
    for name, arguments in {
        "factor": ([1.0, 2.0], np.ones((3, 1)), ROW),
        "balances": ([1.0, 2.0, 3.0], np.ones((3, 1)), ROW),
        "right": ([1.0, 2.0], factor, ROW, None, np.zeros(2)),
        "unmeasured": ([1.0, 2.0], factor, ROW, np.ones((2, 1))),
    }.items():
        with pytest.raises(ValueError, match=name):
            pose(*arguments)


def test_a_number_that_is_not_finite_is_refused() -> None:
    """A missing reading cannot be reconciled; it belongs among the unmeasured."""
    with pytest.raises(ValueError, match="measured holds a number that is not finite"):
        pose([1.0, np.nan], own_errors(np.ones(2)), ROW)


@pytest.mark.parametrize(
    "covariance",
    [
        [[1.0, 0.2, 0.3]],
        [[1.0, 0.5], [0.4, 1.0]],
        [[-1.0, 0.0], [0.0, 1.0]],
        [[0.0, 0.1], [0.1, 1.0]],
        [[1.0, 0.9, 0.0], [0.9, 1.0, 0.9], [0.0, 0.9, 1.0]],
    ],
)
def test_what_is_no_covariance_is_refused(covariance: list[list[float]]) -> None:
    """Not square, not symmetric, a negative variance, a fixed value that moves, no such law."""
    with pytest.raises(ValueError):
        factor_of(np.array(covariance))


def test_singular_covariances_have_a_factor() -> None:
    """Two values that move together, one of another unit, and one that is exact."""
    sigma = np.array([1e-6, 1e6, 0.0])
    table = np.outer(sigma, sigma)

    factor = factor_of(table)

    assert factor @ factor.T == pytest.approx(table, rel=1e-9)


def test_a_factor_and_its_covariance_give_the_same_answer() -> None:
    """Shared causes and the covariance they make are one problem."""
    factor = np.array([[1.0, 0.0, 0.5], [0.0, 0.7, 0.5], [0.3, 0.2, -0.4]])
    a = [[1.0, -1.0, -1.0]]
    y = [10.0, 6.0, 5.0]

    one, other = reconcile(pose(y, factor, a)), reconcile(pose(y, factor_of(factor @ factor.T), a))

    assert one.adjusted == pytest.approx(other.adjusted, rel=1e-12)
    assert one.covariance == pytest.approx(other.covariance, rel=1e-9, abs=1e-12)
    assert one.objective == pytest.approx(other.objective, rel=1e-12)
