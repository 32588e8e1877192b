"""Courses of an error over twelve months: found, sized, and told apart where the data can."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import stats

from footprint.balance.reconcile import (
    Course,
    CourseVerdict,
    Problem,
    allowing_for_errors,
    cosines,
    courses,
    equivalent_sets,
    error_of,
    own_errors,
    pose,
    reconcile,
    stack,
)
from footprint.balance.reconcile import judge_courses as judge
from tests.balance.reconcile.test_elimination import PLANT, TRUE

Array = NDArray[np.float64]
MONTHS = 12
RANDOM_PART, SHARED_PART = 0.004, 0.005  # of the flow
SEASON = 1.0 + 0.2 * np.sin(np.arange(MONTHS))
FLOWS = SEASON[:, None] * TRUE


def year(readings: Array) -> Problem:
    """Return a year: own errors in each month, one calibration error of each meter all year."""
    months = [
        pose(one, own_errors(RANDOM_PART * true), PLANT)
        for one, true in zip(readings, FLOWS, strict=True)
    ]
    return stack(months, SHARED_PART * FLOWS[:, :, None] * np.eye(6))


def every_course() -> list[Course]:
    """Return all courses of all six meters."""
    return [one for flow in range(6) for one in courses(flow, MONTHS)]


def verdict(readings: Array) -> CourseVerdict:
    """Return the verdict on a year's readings, sizes relative to the flow."""
    return judge(reconcile(year(readings)), every_course(), FLOWS)


def spoilt(course: Course, size: float) -> Array:
    """Return exact readings with one meter spoilt."""
    readings = FLOWS.copy()
    readings[:, course.flow] += size * course.shape * FLOWS[:, course.flow]
    return readings


def noise(random: np.random.Generator) -> Array:
    """Return one year's errors of all readings."""
    own = RANDOM_PART * random.normal(size=(MONTHS, 6))
    return FLOWS * (own + SHARED_PART * random.normal(size=6))


def test_the_year_is_one_problem_with_shared_causes() -> None:
    """Its covariance is that of independent months plus one block of the calibration."""
    problem = year(FLOWS)
    covariance = problem.factor @ problem.factor.T

    for flow in (0, 3):
        places = flow + 6 * np.arange(MONTHS)
        block = covariance[np.ix_(places, places)]
        told = np.outer(FLOWS[:, flow], FLOWS[:, flow]) * SHARED_PART**2
        told += np.diag((RANDOM_PART * FLOWS[:, flow]) ** 2)
        assert block == pytest.approx(told)
    assert covariance[0, 1] == 0.0
    assert problem.balances.shape == (48, 72)


def test_months_need_the_same_flows() -> None:
    """A year cannot be stacked of unlike months."""
    one = pose([1.0, 1.0], own_errors(np.ones(2)), [[1.0, -1.0]])
    other = pose([1.0], own_errors(np.ones(1)), [[1.0]])
    with pytest.raises(ValueError, match="same measured flows"):
        stack([one, other])


@pytest.mark.parametrize("months", [1, 2, 3, 12])
def test_no_two_courses_have_one_shape(months: int) -> None:
    """A step in the last month is that month alone: each shape is tried once."""
    shapes = np.array([one.shape / np.linalg.norm(one.shape) for one in courses(0, months)])

    table = np.abs(shapes @ shapes.T)

    assert np.max(table - np.eye(len(shapes))) < 1 - 1e-9
    assert len(shapes) == {1: 1, 2: 3, 3: 8, 12: 35}[months]


@pytest.mark.parametrize("place", range(35))
def test_each_course_is_found_without_noise(place: int) -> None:
    """On exact data the course, its month and its size come back."""
    tried = every_course()
    true = tried[35 + place]  # of the second meter

    found = verdict(spoilt(true, 0.05))

    assert found.best is not None
    best = found.courses[found.best]
    assert (best.flow, best.family, best.first) == (true.flow, true.family, true.first)
    assert found.suspicion.size[found.best] == pytest.approx(0.05)
    assert np.sum(found.weight) == pytest.approx(1.0)
    assert found.stands[found.best]


def test_a_stated_calibration_error_is_not_suspect_but_a_larger_one_is() -> None:
    """A bias of one stated sigma all year stays below chance; one of eight is named."""
    course = courses(1, MONTHS)[0]

    quiet, loud = verdict(spoilt(course, SHARED_PART)), verdict(spoilt(course, 8 * SHARED_PART))

    assert np.nanmin(quiet.suspicion.chance) > 0.5
    assert np.nanmin(loud.suspicion.chance) < 1e-3
    assert loud.best is not None
    assert loud.courses[loud.best].family == "all year"


def test_the_shared_cause_is_what_makes_the_difference() -> None:
    """Taken as independent months, the same small bias would be flagged with certainty."""
    readings = spoilt(courses(1, MONTHS)[0], 2.0 * SHARED_PART)
    months = [
        pose(one, own_errors(np.hypot(RANDOM_PART, SHARED_PART) * true), PLANT)
        for one, true in zip(readings, FLOWS, strict=True)
    ]

    wrong = judge(reconcile(stack(months)), every_course(), FLOWS)

    assert np.nanmin(wrong.suspicion.chance) < 0.05
    assert np.nanmin(verdict(readings).suspicion.chance) > 0.5


def test_meters_of_one_balance_are_named_together_month_by_month() -> None:
    """With one balance, the same course of each meter is one suspect."""
    months = [pose([1.0, 1.0], own_errors(np.full(2, 0.01)), [[1.0, -1.0]]) for _ in range(6)]
    tried = [one for flow in (0, 1) for one in courses(flow, 6)]

    found = judge(reconcile(stack(months)), tried)

    sets = equivalent_sets(found.suspicion)
    half = len(tried) // 2
    assert sets == [(place, place + half) for place in range(half)]


def test_families_are_weighed_against_their_number_of_places() -> None:
    """Equal evidence: the drift, one place, counts as much as all ten steps together."""
    found = verdict(FLOWS)  # exact data: no evidence for anything

    by_family: dict[str, float] = {}
    for one, weight in zip(found.courses, found.weight, strict=True):
        by_family[one.family] = by_family.get(one.family, 0.0) + float(weight)

    assert by_family == pytest.approx(dict.fromkeys(by_family, 0.2))


def test_false_alarms_over_all_courses_stay_below_the_level() -> None:
    """210 courses of six meters, 200 years (fixed seed): at most 5 % see one flagged."""
    random = np.random.default_rng(7)
    alarms = sum(
        bool(np.any(verdict(FLOWS + noise(random)).suspicion.flagged())) for _ in range(200)
    )

    assert 0 < alarms <= stats.binom.ppf(1 - 5e-6, 200, 0.05)


@pytest.mark.parametrize(
    ("family", "first", "size"),
    [("one month", 4, 0.04), ("step", 5, 0.03), ("drift", 1, 0.06), ("carried over", 3, 0.04)],
)
def test_the_true_course_is_best_or_stands(family: str, first: int, size: float) -> None:
    """40 years with noise (fixed seed): never lost oftener than promised, mostly the best."""
    random = np.random.default_rng(13)
    tried = every_course()
    place = next(
        k for k, one in enumerate(tried) if (one.flow, one.family, one.first) == (1, family, first)
    )
    stood = best = 0
    for _ in range(40):
        found = verdict(spoilt(tried[place], size) + noise(random))
        stood += bool(found.stands[place])
        best += found.best is not None and found.courses[found.best].family == family

    assert stood >= stats.binom.ppf(5e-6, 40, 0.95)
    assert best >= 32


def test_likeness_says_which_courses_are_hard_to_tell_apart() -> None:
    """Steps of neighbouring months are nearly alike, a month's slip and a drift are not."""
    found = verdict(FLOWS)
    table = np.abs(cosines(found.suspicion))
    names = {(one.flow, one.family, one.first): k for k, one in enumerate(found.courses)}

    assert table[names[1, "step", 6], names[1, "step", 7]] > 0.8
    assert table[names[1, "one month", 6], names[1, "drift", 1]] < 0.4


def test_a_course_allowed_for_gives_its_size_and_what_is_left() -> None:
    """The unknown size is the estimate of the verdict, the objective falls by its ratio."""
    found = verdict(spoilt(every_course()[40], 0.05) + noise(np.random.default_rng(3)))
    assert found.best is not None
    before = reconcile(year(spoilt(every_course()[40], 0.05) + noise(np.random.default_rng(3))))

    error = error_of(found.courses[found.best], FLOWS)
    after = reconcile(allowing_for_errors(before.problem, error[:, None]))

    assert after.unmeasured[0] == pytest.approx(found.suspicion.size[found.best])
    assert after.unmeasured_sigma[0] == pytest.approx(found.suspicion.error[found.best])
    drop = before.objective - after.objective
    assert drop == pytest.approx(found.suspicion.statistic[found.best])


def test_nothing_to_judge_gives_no_best() -> None:
    """Without redundancy no course leaves a mark."""
    months = [pose([1.0], own_errors(np.ones(1)), [[1.0]], [[-1.0]]) for _ in range(3)]

    found = judge(reconcile(stack(months)), courses(0, 3))

    assert found.best is None
    assert not np.any(found.stands)
