"""Iterated balances: convergence told, products, what cannot be found."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.balance.reconcile import (
    Equations,
    Term,
    equations_of,
    own_errors,
    pose,
    reconcile,
    reconcile_nonlinear,
)


def test_linear_balances_take_the_linear_answer() -> None:
    """The first step is the answer, the second shows that it rests."""
    y, factor = np.array([10.0, 6.0, 5.0]), own_errors(np.array([1.0, 0.5, 0.5]))
    terms = [Term(0, sign, flow) for flow, sign in enumerate((1.0, -1.0, -1.0))]

    found = reconcile_nonlinear(y, factor, equations_of(terms, np.zeros(1)))

    told = reconcile(pose(y, factor, [[1.0, -1.0, -1.0]]))
    assert found.converged
    assert len(found.iterations) == 2
    assert found.reconciled.adjusted == pytest.approx(told.adjusted, rel=1e-14)
    assert found.iterations[-1].objective == pytest.approx(told.objective)


def test_slopes_of_products_agree_with_differences() -> None:
    """Squares, products and linear terms, of measured and unmeasured variables."""
    terms = [Term(0, 2.0, 0, 1), Term(0, -3.0, 2), Term(1, 0.5, 1, 1), Term(1, 1.0, 0, 3)]
    equations = equations_of(terms, np.array([1.0, 2.0]))
    x, u = np.array([1.5, -2.0, 0.7]), np.array([0.3])

    slopes = np.hstack(equations.slopes(x, u))

    here = np.concatenate([x, u])
    for place, step in enumerate(1e-6 * np.eye(4)):
        up, down = here + step, here - step
        rise = equations.miss(up[:3], up[3:]) - equations.miss(down[:3], down[3:])
        assert slopes[:, place] == pytest.approx(rise / 2e-6, abs=1e-8)


def test_an_iteration_that_does_not_come_to_rest_says_so() -> None:
    """x^2 = -1 has no answer: no figure is passed off as one."""
    equations = Equations(
        lambda x, _: x**2 + 1.0, lambda x, _: (2.0 * x[:, None], np.zeros((1, 0)))
    )

    found = reconcile_nonlinear(np.array([1.3]), own_errors(np.array([0.1])), equations)

    assert not found.converged
    assert found.iterations[-1].miss > 1e-3


def test_a_step_out_of_the_domain_is_shortened() -> None:
    """A root of a negative number on the way does not end the iteration."""
    equations = Equations(
        lambda x, _: np.sqrt(x) - 0.1, lambda x, _: (0.5 / np.sqrt(x)[:, None], np.zeros((1, 0)))
    )

    found = reconcile_nonlinear(np.array([4.0]), own_errors(np.array([1.0])), equations)

    assert found.converged
    assert found.reconciled.adjusted == pytest.approx([0.01])


def test_an_unmeasured_content_is_found_and_one_without_flow_to_it_is_not() -> None:
    """Carbon in = carbon out gives the one unknown content; of two, neither."""
    y, factor = np.array([100.0, 0.7, 60.0, 40.0]), own_errors(np.array([1.0, 0.01, 0.6, 0.4]))
    one = [Term(0, 1.0, 0), Term(0, -1.0, 2), Term(0, -1.0, 3)]
    one += [Term(1, 1.0, 0, 1), Term(1, -1.0, 2, 4)]
    two = [*one, Term(1, -1.0, 3, 5)]

    found = reconcile_nonlinear(y, factor, equations_of(one, np.zeros(2)), np.array([0.5]))
    open_ = reconcile_nonlinear(y, factor, equations_of(two, np.zeros(2)), np.array([0.5, 0.5]))

    assert found.converged
    assert found.unmeasured == pytest.approx([70.0 / 60.0])
    assert found.reconciled.unmeasured_sigma[0] > 0
    assert open_.converged
    assert not np.any(open_.reconciled.classified.observable)
    assert np.all(np.isnan(open_.reconciled.unmeasured))


def test_the_covariance_of_products_agrees_with_simulation() -> None:
    """Small errors, 1,000 draws (fixed seed): spread of the answers against the stated one."""
    true = np.array([100.0, 0.7, 60.0, 0.75, 40.0, 0.625])
    sigma = np.array([1.0, 0.002, 0.5, 0.004, 0.5, 0.004])
    signs = (1.0, -1.0, -1.0)
    terms = [Term(0, sign, 2 * k) for k, sign in enumerate(signs)]
    terms += [Term(1, sign, 2 * k, 2 * k + 1) for k, sign in enumerate(signs)]
    equations = equations_of(terms, np.zeros(2))
    random = np.random.default_rng(11)

    draws = [
        reconcile_nonlinear(true + sigma * random.normal(size=6), own_errors(sigma), equations)
        for _ in range(1000)
    ]

    stated = reconcile_nonlinear(true, own_errors(sigma), equations).reconciled.sigma
    spread = np.std([one.reconciled.adjusted for one in draws], axis=0)
    assert all(one.converged for one in draws)
    assert spread == pytest.approx(stated, rel=0.1)
