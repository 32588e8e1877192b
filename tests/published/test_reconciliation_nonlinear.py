"""Published problems that are not linear.

Sources: Pai & Fisher, AIChE J. 34:876 (1988): equations seen in data set EDSONCV/dr-ged-benchmarks
98b250d (pf88), where the first constant is 255; that constant, 255.8, and the answers are from
memory, and only they agree with each other. Column: "Basic Concepts in Data Reconciliation", North
Carolina State University and University of Ottawa (2003), table 4.1 (data seen, no answer seen;
answers computed by two other methods that agree to 1e-4).
"""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import optimize

from footprint.balance.reconcile import (
    Equations,
    Iterated,
    Term,
    equations_of,
    global_test,
    own_errors,
    reconcile_nonlinear,
    split_adjustment,
)
from tests.published.reconciliation_cases import lines_of

Array = NDArray[np.float64]


def column(problem: str, name: str, measured: str = "yes") -> Array:
    """Return a column of the table, for measured or unmeasured variables; NaN where empty."""
    lines = [one for one in lines_of("nonlinear", problem) if one["measured"] == measured]
    return np.array([float(one[name]) if one[name] else np.nan for one in lines])


def pai_fisher(constant: float) -> Equations:
    """Return the six equations of Pai & Fisher, slopes by the complex step."""

    def sums(z: NDArray[np.complex128]) -> NDArray[np.complex128]:
        x1, x2, x3, x4, x5, u1, u2, u3 = z
        return np.array(
            [
                0.5 * x1**2 - 0.7 * x2 + x3 * u1 + x2**2 * u1 * u2 + 2 * x3 * u3**2 - constant,
                x1 - 2 * x2 + 3 * x1 * x3 - 2 * x2 * u1 - x2 * u2 * u3 + 111.2,
                x3 * u1 - x1 + 3 * x2 + x1 * u2 - x3 * np.sqrt(u3) - 33.57,
                x4 - x1 - x3**2 + u2 + 3 * u3,
                x5 - 2 * x3 * u2 * u3,
                2 * x1 + x2 * x3 * u1 + u2 - u3 - 126.6,
            ]
        )

    def miss(x: Array, u: Array) -> Array:
        return np.real(sums(np.concatenate([x, u]).astype(complex)))

    def slopes(x: Array, u: Array) -> tuple[Array, Array]:
        here = np.concatenate([x, u]).astype(complex)
        table = [np.imag(sums(here + 1e-30j * step)) / 1e-30 for step in np.eye(8)]
        whole = np.array(table).T
        return whole[:, :5], whole[:, 5:]

    return Equations(miss, slopes)


def solved(constant: float) -> Iterated:
    """Return the answer for one value of the doubtful constant."""
    name = "PAI-FISHER-1988"
    return reconcile_nonlinear(
        column(name, "value"),
        own_errors(column(name, "sigma")),
        pai_fisher(constant),
        column(name, "value", "no"),
    )


def test_pai_and_fisher() -> None:
    """All eight published values to their five digits."""
    found = solved(255.8)

    assert found.converged
    answer = np.concatenate([found.reconciled.adjusted, found.unmeasured])
    published = np.concatenate(
        [column("PAI-FISHER-1988", "published", kind) for kind in ("yes", "no")]
    )
    assert answer == pytest.approx(published, rel=5e-5)
    assert found.reconciled.checks.sound


def test_pai_and_fisher_s_first_constant_is_not_255() -> None:
    """The constant of the data set does not give the published answer: a doubt kept in sight."""
    found = solved(255.0)

    assert found.converged
    gap = np.abs(found.reconciled.adjusted - column("PAI-FISHER-1988", "published"))
    assert np.max(gap) > 1e-3


def column_terms(*, normal: bool) -> tuple[list[Term], Array]:
    """Return total and two component balances; with fractions that add up to 1 if asked."""
    terms = [Term(0, sign, flow) for flow, sign in enumerate((1.0, -1.0, -1.0))]
    for component in (0, 1):
        terms += [
            Term(1 + component, sign, flow, 3 + 2 * flow + component)
            for flow, sign in enumerate((1.0, -1.0, -1.0))
        ]
    if normal:
        terms += [Term(3 + flow, 1.0, 3 + 2 * flow + part) for flow in range(3) for part in (0, 1)]
    return terms, np.array([0.0, 0, 0, 1, 1, 1][: 6 if normal else 3])


@pytest.mark.parametrize(
    ("name", "normal"), [("COLUMN-BILINEAR", True), ("COLUMN-BILINEAR-NO-NORM", False)]
)
def test_column(name: str, *, normal: bool) -> None:
    """Flows and fractions with a gross error, fractions bound to add up to 1 or not."""
    y, sigma = column(name, "value"), column("COLUMN-BILINEAR", "sigma")

    found = reconcile_nonlinear(y, own_errors(sigma), equations_of(*column_terms(normal=normal)))

    assert found.converged
    assert found.reconciled.adjusted == pytest.approx(column(name, "computed"), abs=1e-4)
    if normal:
        told = column(name, "computed_sigma")
        assert found.reconciled.sigma == pytest.approx(told, rel=1e-2)


def test_column_agrees_with_a_general_optimiser() -> None:
    """Sequential quadratic programming of a general library finds the same minimum.

    It is not given the total balance, which follows from the others and would stop it.
    """
    y, sigma = column("COLUMN-BILINEAR", "value"), column("COLUMN-BILINEAR", "sigma")
    equations = equations_of(*column_terms(normal=True))
    none = np.zeros(0)
    found = reconcile_nonlinear(y, own_errors(sigma), equations).reconciled

    other = optimize.minimize(
        lambda z: float(np.sum(z**2)),
        np.zeros(y.size),
        jac=lambda z: 2.0 * z,
        method="SLSQP",
        constraints={
            "type": "eq",
            "fun": lambda z: equations.miss(y + sigma * z, none)[1:],
            "jac": lambda z: (equations.slopes(y + sigma * z, none)[0] * sigma)[1:],
        },
        options={"maxiter": 500, "ftol": 1e-12},
    )

    assert other.success
    assert found.adjusted == pytest.approx(y + sigma * other.x, rel=1e-5)
    assert found.objective == pytest.approx(other.fun, rel=1e-7)


def test_a_neat_answer_can_be_hopeless() -> None:
    """Column: the balances close, but 291 against a limit of near 11 says the data are wrong."""
    y, sigma = column("COLUMN-BILINEAR", "value"), column("COLUMN-BILINEAR", "sigma")
    found = reconcile_nonlinear(y, own_errors(sigma), equations_of(*column_terms(normal=True)))

    test = global_test(found.reconciled)

    assert not test.passes
    assert test.statistic == pytest.approx(291, abs=0.5)
    assert test.critical == pytest.approx(11.07, abs=5e-3)
    assert found.reconciled.adjustment[0] == pytest.approx(52, abs=0.5)


def test_the_first_step_splits_the_adjustment_of_a_product() -> None:
    """One product, adjusted to a target: the split is the first step of the iteration."""
    y, sigma = np.array([100.0, 0.7]), np.array([1.0, 0.002])
    equations = equations_of([Term(0, 1.0, 0, 1)], np.array([70.2]))
    flow, share = split_adjustment((y[:1], y[1:]), (sigma[:1], sigma[1:]), np.array([-0.2]))

    found = reconcile_nonlinear(y, own_errors(sigma), equations)

    assert found.reconciled.adjustment == pytest.approx([flow[0], share[0]], rel=1e-2)
    assert found.reconciled.adjusted.prod() == pytest.approx(70.2, rel=1e-12)
