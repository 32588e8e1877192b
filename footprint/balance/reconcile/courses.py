"""An error's course over the months: a month's slip, a step, a drift, or a bias all year."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy import linalg

from footprint.balance.reconcile.arrays import Array, Mask
from footprint.balance.reconcile.candidates import Candidate, Suspicion, suspect
from footprint.balance.reconcile.likeness import rivals
from footprint.balance.reconcile.problem import Problem, pose
from footprint.balance.reconcile.significance import LEVEL
from footprint.balance.reconcile.solve import Reconciled

Family = Literal["one month", "carried over", "step", "drift", "all year"]
FEWEST_FOR_A_COURSE = 3  # months: with fewer, step, drift and one month are the same


@dataclass(frozen=True, eq=False, slots=True)
class Course:
    """How a meter's error runs over the months.

    Attributes:
        flow: place of the measured flow in a month. [1]
        family: what kind of course. [text]
        first: first month that it touches, from 0. [1]
        shape: error in each month at size 1, shape (months,). [1]
    """

    flow: int
    family: Family
    first: int
    shape: Array


@dataclass(frozen=True, eq=False, slots=True)
class CourseVerdict:
    """Courses compared.

    Attributes:
        courses: in the order of the arrays. [courses]
        suspicion: how suspect each is, and how large its error would be. [suspicion]
        weight: share of belief in each, all courses being 1, if one of them is true and each
            flow and family was as likely before. [1]
        stands: whether the data do not reject it in favour of the best. [1]
        best: place of the best; none if no course leaves a mark. [1]
    """

    courses: tuple[Course, ...]
    suspicion: Suspicion
    weight: Array
    stands: Mask
    best: int | None


def stack(months: Sequence[Problem], shared: Array | None = None) -> Problem:
    """Return the problems of several months as one, with causes that act in all of them.

    Flow i of month t has place t * n + i; balances likewise.

    Args:
        months: problems with the same number of measured flows n; their causes are new in each
            month. [problems]
        shared: effect of each shared cause in each month, shape (months, n, causes). [as measured]

    Raises:
        ValueError: months with different flows.

    Source: errors shared over the year, such as a calibration: JCGM 100:2008, 5.2 (from memory)
    """
    if len({one.measured.size for one in months}) != 1:
        raise ValueError("every month needs the same measured flows")
    own = linalg.block_diag(*(one.factor for one in months))
    common = np.zeros((own.shape[0], 0)) if shared is None else np.vstack(list(shared))
    return pose(
        np.concatenate([one.measured for one in months]),
        np.hstack([own, common]),
        linalg.block_diag(*(one.balances for one in months)),
        linalg.block_diag(*(one.unmeasured for one in months)),
        np.concatenate([one.right for one in months]),
    )


def courses(flow: int, months: int) -> list[Course]:
    """Return the courses that an error of one meter may take, no two with the same shape.

    One month alone; an amount booked one month late or early; a step that stays; a drift from 0 in
    the first month to 1 in the last; a bias all year.

    Args:
        flow: place of the measured flow in a month. [1]
        months: how many. [1]

    Source: common practice, no source
    """
    each = np.eye(months)
    found = [Course(flow, "all year", 0, np.ones(months))]
    found += [Course(flow, "one month", at, each[at]) for at in range(months) if months > 1]
    if months >= FEWEST_FOR_A_COURSE:
        late = range(months - 1)
        found += [Course(flow, "carried over", at, each[at] - each[at + 1]) for at in late]
        steps = range(1, months - 1)
        found += [Course(flow, "step", at, np.sum(each[at:], axis=0)) for at in steps]
        found += [Course(flow, "drift", 1, np.arange(months) / (months - 1.0))]
    return found


def judge_courses(
    found: Reconciled, tried: Sequence[Course], sizes: Array | None = None, level: float = LEVEL
) -> CourseVerdict:
    """Return which course explains the imbalances of a year best, and which others stand.

    Every course has one unknown size, so that their likelihood ratios compare as they are: the
    penalty of BIC for parameters is the same for all. What differs is the number of places at which
    a family could fit by luck; belief is therefore shared evenly among flows and families first and
    within a family after, which takes the logarithm of its number of courses off the evidence. A
    shared cause in the factor counts as explained already: only a bias beyond the stated
    calibration error is suspect. `suspicion.chance` guards against luck by Šidák over all courses.

    Args:
        found: reconciliation of stacked months. [reconciliation]
        tried: courses of one or more flows. [courses]
        sizes: what size 1 is in each month and flow, shape (months, n): the flow itself makes sizes
            relative; 1 when left out. [as measured]
        level: accepted chance of rejecting the true course as a rival. [1]

    Source: generalised likelihood ratio, Narasimhan & Mah (1987) (from memory); weights: Schwarz
        (1978) and equal prior odds by family (from memory)
    """
    candidates = [Candidate("pattern", place) for place in range(len(tried))]
    suspicion = suspect(found, candidates, _signatures(found, tried, sizes))
    ranking = suspicion.ranking()
    if not ranking:
        nothing = np.zeros(len(tried))
        return CourseVerdict(tuple(tried), suspicion, nothing, nothing > 0, None)
    weight = _weight(suspicion, tried)
    best = max(ranking, key=lambda place: weight[place])
    return CourseVerdict(tuple(tried), suspicion, weight, rivals(suspicion, best, level), best)


def error_of(course: Course, sizes: Array) -> Array:
    """Return the error of every reading of the year, a course being at size 1.

    Args:
        course: of one flow. [course]
        sizes: what size 1 is in each month and flow, shape (months, n). [as measured]

    Returns:
        Errors in the order of `stack`, shape (months * n,); see `allowing_for_errors`.

    Source: as `judge_courses`
    """
    reading = np.zeros_like(sizes)
    reading[:, course.flow] = course.shape * sizes[:, course.flow]
    return reading.ravel()


def _signatures(found: Reconciled, tried: Sequence[Course], sizes: Array | None) -> Array:
    """Return what each course of size 1 adds to the remaining balances."""
    columns = []
    balances = np.where(found.testable, found.classified.balances, 0.0)
    for one in tried:
        ones = np.ones((one.shape.size, balances.shape[1] // one.shape.size))
        columns.append(balances @ error_of(one, ones if sizes is None else sizes))
    return np.column_stack(columns) if columns else np.zeros((found.imbalance.size, 0))


def _weight(suspicion: Suspicion, tried: Sequence[Course]) -> Array:
    """Return the share of belief in each course."""
    keys = [(one.flow, one.family) for one in tried]
    seen = Counter(key for key, sees in zip(keys, suspicion.visible, strict=True) if sees)
    places = np.array([max(seen[key], 1) for key in keys], dtype=float)
    evidence = np.where(suspicion.visible, suspicion.statistic / 2.0 - np.log(places), -np.inf)
    raw = np.exp(evidence - np.max(evidence))
    answer: Array = raw / np.sum(raw)
    return answer
