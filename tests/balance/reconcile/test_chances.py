"""False alarms and detections: how often, against what is promised.

Simulated data with fixed seeds. Bounds are those of the binomial law that a right program leaves
once in some hundred thousand runs.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from footprint.balance.reconcile import (
    Candidate,
    Problem,
    Reconciled,
    detectable,
    each_leak,
    each_meter,
    global_power,
    global_test,
    nodal_test,
    own_errors,
    pose,
    power,
    reconcile,
    rivals,
    suspect,
)
from footprint.balance.reconcile.candidates import Suspicion
from tests.balance.reconcile.test_elimination import PLANT, TRUE

DRAWS = 4000
RIG = np.array([[0.8], [0.5], [0.0], [0.5], [0.0], [0.8]])
FACTOR = np.hstack([own_errors(np.array([0.9, 0.6, 0.4, 0.5, 0.3, 1.0])), RIG])


def within(count: int, draws: int, chance: float) -> bool:
    """Return whether a count is what a chance explains."""
    low, high = stats.binom.ppf([5e-6, 1 - 5e-6], draws, chance)
    return bool(low <= count <= high)


def drawn(draws: int, bias: float = 0.0, meter: int = 1) -> list[Reconciled]:
    """Return reconciliations of simulated measurements."""
    random = np.random.default_rng(20261201)
    shift = bias * np.eye(6)[meter]
    return [
        reconcile(pose(TRUE + FACTOR @ random.normal(size=7) + shift, FACTOR, PLANT))
        for _ in range(draws)
    ]


@pytest.fixture(scope="module")
def clean() -> list[Reconciled]:
    """Return reconciliations of data without a gross error."""
    return drawn(DRAWS)


def both(found: Reconciled) -> list[Candidate]:
    """Return meters and leaks as candidates."""
    return [*each_meter(found), *each_leak(found)]


def test_the_global_test_alarms_as_often_as_promised(clean: list[Reconciled]) -> None:
    """At 1, 5 and 20 %."""
    for level in (0.01, 0.05, 0.2):
        alarms = sum(not global_test(one, level).passes for one in clean)
        assert within(alarms, DRAWS, level)


def test_each_single_test_is_standard_normal(clean: list[Reconciled]) -> None:
    """The z of every balance, meter and leak by itself: 5 % beyond 1.96, mean 0, variance 1."""
    z = np.array(
        [np.concatenate([suspect(one, both(one)).z, nodal_test(one.problem)]) for one in clean]
    )
    for column in z.T:
        assert within(int(np.sum(np.abs(column) > 1.959964)), DRAWS, 0.05)
        assert abs(np.mean(column)) < 4.5 / np.sqrt(DRAWS)
        assert np.var(column) == pytest.approx(1.0, abs=4.5 * np.sqrt(2.0 / DRAWS))


def test_any_false_alarm_among_many_tests_is_no_more_than_promised(
    clean: list[Reconciled],
) -> None:
    """Šidák's limit is prudent: at most 5 %; without it, far more."""
    seen = [suspect(one, both(one)) for one in clean]

    flagged = sum(bool(np.any(one.flagged())) for one in seen)
    single = sum(bool(np.any(np.abs(one.z) > 1.959964)) for one in seen)

    assert flagged <= stats.binom.ppf(1 - 5e-6, DRAWS, 0.05)
    assert flagged > 0.01 * DRAWS
    assert single > 0.15 * DRAWS
    best = [np.nanmin(one.chance) for one in seen]
    assert sum(chance <= 0.05 for chance in best) == flagged


@pytest.mark.parametrize("bias", [1.5, 3.0])
def test_detections_come_as_often_as_the_power_says(bias: float) -> None:
    """Meter, and all imbalances, with a bias of a given size."""
    draws = 2000
    found = drawn(draws, bias)
    told = suspect(found[0], each_meter(found[0]))
    sizes = np.full(6, bias)

    flags = sum(bool(suspect(one, each_meter(one)).flagged()[1]) for one in found)
    alarms = sum(not global_test(one).passes for one in found)

    assert within(flags, draws, float(power(told, sizes)[1]))
    assert within(alarms, draws, float(global_power(told, sizes, 4)[1]))


def test_the_power_is_that_of_the_non_central_law() -> None:
    """Against the distributions of a general library: f'H^-1 f times size squared."""
    found = reconcile(pose(TRUE, FACTOR, PLANT))
    seen = suspect(found, both(found))
    h = PLANT @ FACTOR @ FACTOR.T @ PLANT.T
    f = np.hstack([PLANT, np.eye(4)])
    shift = np.einsum("ij,ij->j", f, np.linalg.solve(h, f))
    each = 1.0 - 0.95 ** (1.0 / 10.0)

    for size in (0.0, 0.5, 2.0, 5.0):
        sizes = np.full(10, size)
        one = stats.ncx2.sf(stats.chi2.isf(each, 1), 1, shift * size**2)
        whole = stats.ncx2.sf(stats.chi2.isf(0.05, 4), 4, shift * size**2)
        assert power(seen, sizes) == pytest.approx(one, rel=1e-8)
        assert global_power(seen, sizes, 4) == pytest.approx(whole, rel=1e-8)


@pytest.mark.parametrize("wanted", [0.03, 0.5, 0.9, 0.999])
def test_the_detectable_size_has_the_wanted_power(wanted: float) -> None:
    """Size for a power, then power of that size."""
    found = reconcile(pose(TRUE, FACTOR, PLANT))
    seen = suspect(found, both(found))

    sizes = detectable(seen, wanted)

    assert power(seen, sizes) == pytest.approx(np.full(10, wanted), rel=1e-9)


def blind() -> tuple[Reconciled, Suspicion]:
    """Return a problem with one flow that no balance tests."""
    problem: Problem = pose(
        [1.0, 1.0, 5.0], own_errors(np.ones(3)), [[1.0, -1.0, 0.0], [0.0, 0.0, 1.0]], [[0.0], [1.0]]
    )
    found = reconcile(problem)
    return found, suspect(found, each_meter(found))


def test_an_error_that_leaves_no_mark_is_never_detectable() -> None:
    """Its detectable size is infinite; without any redundancy the power is nothing."""
    _, seen = blind()

    assert np.isinf(detectable(seen)[2])
    assert np.isfinite(detectable(seen)[:2]).all()
    assert np.isnan(power(seen, np.ones(3))[2])
    assert list(global_power(seen, np.ones(3), 0)[:2]) == [0.0, 0.0]
    assert list(detectable(seen, wanted=0.001)[:2]) == [0.0, 0.0]


def test_the_true_culprit_is_seldom_rejected_as_a_rival() -> None:
    """With a bias of 2.5 on meter 2, it is the best or stands in 95 % of cases or more."""
    draws = 2000
    lost = 0
    for one in drawn(draws, 2.5):
        seen = suspect(one, both(one))
        lost += not rivals(seen, seen.ranking()[0])[1]

    assert lost <= stats.binom.ppf(1 - 5e-6, draws, 0.05)


def test_a_problem_without_redundancy_passes_and_says_nothing() -> None:
    """No test is passed off as one."""
    found = reconcile(pose([1.0], own_errors(np.ones(1)), [[1.0]], [[-1.0]]))

    test = global_test(found)

    assert (test.statistic, test.degrees_of_freedom, test.chance) == (0.0, 0, 1.0)
    assert test.passes
    assert np.isnan(nodal_test(found.problem)[0])
