"""What may be wrong: each candidate by the mark it would leave in the imbalances."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy import special

from footprint.balance.reconcile.arrays import Array, Mask, lengths
from footprint.balance.reconcile.significance import LEVEL, any_chance, critical_z
from footprint.balance.reconcile.solve import Reconciled

Kind = Literal["meter", "leak", "cause", "pattern"]
ALIKE = 1e-6  # angle between two marks, below which no data can tell them apart [rad]


@dataclass(frozen=True, slots=True)
class Candidate:
    """One thing that may be wrong.

    Attributes:
        kind: a meter reads wrong, a balance leaks, or a cause of error is far larger than stated; a
            pattern is a meter wrong in a course of its own. [text]
        place: of the measured flow, balance or cause in the problem; of a pattern in its list. [1]
    """

    kind: Kind
    place: int


@dataclass(frozen=True, eq=False, slots=True)
class Suspicion:
    """Candidates one at a time: how much better the data fit with each, and how large it would be.

    Attributes:
        candidates: in the order of the arrays. [candidates]
        marks: of size 1, in coordinates where imbalances have covariance 1, shape (d, c). [any]
        z: signed root of the likelihood ratio, a standard normal variable if nothing is wrong;
            NaN where the candidate leaves no mark. [1]
        size: estimated size; NaN likewise. [of the candidate]
        error: standard uncertainty of the size; NaN likewise. [of the candidate]
    """

    candidates: tuple[Candidate, ...]
    marks: Array
    z: Array
    size: Array
    error: Array

    @property
    def statistic(self) -> Array:
        """Generalised likelihood ratio: the drop of the objective if this one is allowed for."""
        found: Array = self.z**2
        return found

    @property
    def visible(self) -> Mask:
        """Which candidates leave a mark."""
        found: Mask = np.isfinite(self.z)
        return found

    @property
    def tests(self) -> int:
        """How many candidates are tested."""
        return int(np.sum(self.visible))

    @property
    def chance(self) -> Array:
        """Chance that any of the candidates scores as high when nothing is wrong; NaN unseen."""
        return any_chance(2.0 * special.ndtr(-np.abs(self.z)), self.tests)

    def flagged(self, level: float = LEVEL) -> Mask:
        """Return which candidates score more than chance explains, all of them considered.

        Args:
            level: accepted chance of any false alarm. [1]

        Source: Šidák's limit for the number of candidates, see `critical_z`
        """
        found: Mask = np.abs(np.nan_to_num(self.z)) > critical_z(level, self.tests)
        return found

    def interval(self, level: float = LEVEL) -> tuple[Array, Array]:
        """Return the least and the largest size that the data leave possible, if this one is it.

        Args:
            level: chance that the true size is outside. [1]

        Source: normal law of the estimate
        """
        half = critical_z(level) * self.error
        return self.size - half, self.size + half

    def ranking(self) -> list[int]:
        """Return places of the visible candidates, the most suspect first; ties in given order.

        Source: largest likelihood ratio first
        """
        rounded = np.round(np.abs(np.nan_to_num(self.z, nan=-1.0)), 9)
        order = np.argsort(-rounded, kind="stable")
        return [int(place) for place in order if self.visible[place]]


def suspect(
    found: Reconciled, candidates: Sequence[Candidate], signatures: Array | None = None
) -> Suspicion:
    """Return how far each candidate is suspect.

    A bias adds size times its signature to the imbalances; T = (f'H^-1 r)^2 / f'H^-1 f is the
    likelihood ratio against "nothing is wrong", and z^2 = T. For a meter, z is the maximum-power
    measurement test; for a leak, the maximum-power nodal test; for a cause, a meter calibration
    that many flows share, it judges the cause itself.

    Args:
        found: a reconciliation. [reconciliation]
        candidates: what may be wrong. [candidates]
        signatures: what each candidate of size 1 adds to the remaining balances, shape (d, c); made
            from the kinds when left out. [any]

    Source: Narasimhan & Mah, AIChE J. 33:1514 (1987); Tamhane & Mah, Technometrics 27:409 (1985);
        Crowe (1989) (all from memory)
    """
    table = signatures_of(found, candidates) if signatures is None else signatures
    marks = found.weights.whiten(table)
    size = lengths(marks.T)
    seen = np.where(size > 0, size, np.nan)
    z = marks.T @ found.weights.whiten(found.imbalance) / seen
    return Suspicion(tuple(candidates), marks, z, z / seen, 1.0 / seen)


def signatures_of(found: Reconciled, candidates: Sequence[Candidate]) -> Array:
    """Return what each candidate of size 1 adds to the imbalances of the remaining balances.

    A meter of size 1 reads 1 too much; a leak of size 1 is an unrecorded 1 that leaves the balance;
    a cause of size 1 is one standard deviation.

    Args:
        found: a reconciliation. [reconciliation]
        candidates: meters, leaks, causes. [candidates]

    Source: as `suspect`
    """
    tables = {
        "meter": np.where(found.testable, found.classified.balances, 0.0),
        "leak": found.classified.joining,
        "cause": found.weights.spread,
    }
    columns = [tables[one.kind][:, one.place] for one in candidates]
    return np.column_stack(columns) if columns else np.zeros((found.imbalance.size, 0))


def each_meter(found: Reconciled) -> list[Candidate]:
    """Return a candidate for each measured flow.

    Args:
        found: a reconciliation. [reconciliation]

    Source: Narasimhan & Mah (1987) (from memory)
    """
    return [Candidate("meter", place) for place in range(found.problem.measured.size)]


def each_leak(found: Reconciled) -> list[Candidate]:
    """Return a candidate for each balance.

    Args:
        found: a reconciliation. [reconciliation]

    Source: Narasimhan & Mah (1987) (from memory)
    """
    return [Candidate("leak", place) for place in range(found.problem.right.size)]


def each_cause(found: Reconciled) -> list[Candidate]:
    """Return a candidate for each cause of error.

    Args:
        found: a reconciliation. [reconciliation]

    Source: the likelihood ratio of `suspect`, for errors in factor form
    """
    return [Candidate("cause", place) for place in range(found.problem.factor.shape[1])]
