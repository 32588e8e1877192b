"""Set aside one suspect at a time until the rest agrees, and say how wrong each would be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from footprint.balance.reconcile.arrays import Array
from footprint.balance.reconcile.candidates import Candidate, each_meter, suspect
from footprint.balance.reconcile.likeness import equivalent_sets, rivals
from footprint.balance.reconcile.problem import Problem
from footprint.balance.reconcile.significance import LEVEL, GlobalTest, global_test
from footprint.balance.reconcile.solve import Reconciled, reconcile

MOST = 3  # suspects: where more are needed, doubt the stated uncertainties first
Ending = Literal["agrees", "too many", "no suspect left"]


@dataclass(frozen=True, eq=False, slots=True)
class Step:
    """One suspect set aside.

    Attributes:
        chosen: the candidate whose allowance lowers the objective most. [candidate]
        drop: by how much it lowers it. [1]
        chance: that any candidate of this step does as much when nothing is wrong. [1]
        equivalent: candidates that no data can tell from the chosen one. [candidates]
        rivals: candidates that these data do not reject in favour of it, equivalent ones too.
            [candidates]
        test: of all imbalances after it. [test]
    """

    chosen: Candidate
    drop: float
    chance: float
    equivalent: tuple[Candidate, ...]
    rivals: tuple[Candidate, ...]
    test: GlobalTest


@dataclass(frozen=True, eq=False, slots=True)
class Elimination:
    """What was set aside, and the reconciliation that allows for it.

    Attributes:
        before: test of all imbalances with nothing set aside. [test]
        steps: in their order. [steps]
        sizes: estimated size of each chosen candidate, all allowed for together, shape (steps,).
            [of the candidates]
        errors: their standard uncertainties. [of the candidates]
        corrected: adjusted flows, freed of the estimated biases, shape (n,). [as measured]
        reconciled: the last reconciliation; its last unmeasured flows are the sizes.
            [reconciliation]
        ending: why it stopped. [text]
    """

    before: GlobalTest
    steps: tuple[Step, ...]
    sizes: Array
    errors: Array
    corrected: Array
    reconciled: Reconciled
    ending: Ending


def allowing_for(problem: Problem, suspects: Sequence[Candidate]) -> Problem:
    """Return a problem in which each suspect has an unknown size, one more unmeasured flow.

    Args:
        problem: as posed. [problem]
        suspects: meters, leaks or causes. [candidates]

    Source: a measurement with unknown bias says as much as none: Ripps (1965) (from memory)
    """
    tables = {
        "meter": problem.balances,
        "leak": np.eye(problem.right.size),
        "cause": problem.balances @ problem.factor,
    }
    return _with_unknown(problem, [tables[one.kind][:, one.place] for one in suspects])


def allowing_for_errors(problem: Problem, errors: Array) -> Problem:
    """Return a problem in which readings may be wrong by unknown multiples of given errors.

    Args:
        problem: as posed. [problem]
        errors: error of each reading at size 1, one kind of error a column, shape (n, s).
            [as measured]

    Source: as `allowing_for`
    """
    return _with_unknown(problem, list((problem.balances @ errors).T))


def _with_unknown(problem: Problem, imbalances: Sequence[Array]) -> Problem:
    unmeasured = np.column_stack([problem.unmeasured, *(-one for one in imbalances)])
    return Problem(problem.measured, problem.factor, problem.balances, unmeasured, problem.right)


def eliminate(
    problem: Problem,
    candidates: Sequence[Candidate] | None = None,
    level: float = LEVEL,
    most: int = MOST,
) -> Elimination:
    """Return the suspects that must be set aside, one at a time, until all imbalances agree.

    Each step takes the candidate with the largest likelihood ratio; classes of flows are found anew
    each time, since a measurement set aside can leave another without a check.

    Args:
        problem: as posed. [problem]
        candidates: what may be wrong; every meter when left out. [candidates]
        level: accepted chance of a false alarm. [1]
        most: largest number of suspects. [1]

    Source: Ripps (1965); Nogita (1972) (from memory); Serth & Heenan, AIChE J. 32:733 (1986)
        (abstract seen)
    """
    found = reconcile(problem)
    left = list(each_meter(found) if candidates is None else candidates)
    before = test = global_test(found, level)
    steps: list[Step] = []
    while not test.passes and len(steps) < most:
        step = _next(found, left, test)
        if step is None:
            break
        left.remove(step.chosen)
        found = reconcile(allowing_for(problem, [*(one.chosen for one in steps), step.chosen]))
        test = global_test(found, level)
        steps.append(replace(step, test=test))
    return _result(found, before, steps, most)


def _next(found: Reconciled, left: Sequence[Candidate], before: GlobalTest) -> Step | None:
    """Return the best candidate of a reconciliation with its likes, or none that leaves a mark."""
    suspicion = suspect(found, left)
    ranking = suspicion.ranking()
    if not ranking:
        return None
    best = ranking[0]
    alike = next((one for one in equivalent_sets(suspicion) if best in one), ())
    standing = np.flatnonzero(rivals(suspicion, best))
    return Step(
        left[best],
        float(suspicion.statistic[best]),
        float(suspicion.chance[best]),
        tuple(left[place] for place in alike if place != best),
        tuple(left[int(place)] for place in standing if place != best),
        before,
    )


def _result(found: Reconciled, before: GlobalTest, steps: Sequence[Step], most: int) -> Elimination:
    count = len(steps)
    first = found.unmeasured.size - count
    sizes, errors = found.unmeasured[first:], found.unmeasured_sigma[first:]
    corrected = found.adjusted.copy()
    for one, size in zip(steps, sizes, strict=True):
        if one.chosen.kind == "meter":
            corrected[one.chosen.place] -= size
        elif one.chosen.kind == "cause":
            corrected -= size * found.problem.factor[:, one.chosen.place]
    passed = (steps[-1].test if steps else before).passes
    ending: Ending = "agrees" if passed else "too many" if count == most else "no suspect left"
    return Elimination(before, tuple(steps), sizes, errors, corrected, found, ending)
