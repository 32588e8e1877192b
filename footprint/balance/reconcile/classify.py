"""Unmeasured flows are removed from the balances; what can be checked and what can be found?"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from footprint.balance.reconcile.arrays import (
    Array,
    Mask,
    lengths,
    pivots,
    powers_of_two,
    solved,
    without_noise,
)
from footprint.balance.reconcile.echelon import solved_for_least_certain
from footprint.balance.reconcile.independent import Dropped, Independent, independent
from footprint.balance.reconcile.problem import Problem


@dataclass(frozen=True, eq=False, slots=True)
class Classified:
    """A problem whose balances hold measured flows only.

    Attributes:
        joining: which multiples of the problem's balances make each remaining one, (d, m). [any]
        balances: remaining coefficients, joining @ balances of the problem, shape (d, n); each has
            an uncertain flow of its own with coefficient 1. [any]
        right: remaining right side, constants moved to it, shape (d,). [any]
        redundant: whether a measured flow stands in a remaining balance, shape (n,). [1]
        constant: whether a measured flow is taken as exact, shape (n,). [1]
        observable: whether an unmeasured flow can be found, shape (p,). [1]
        finding: unmeasured flows out of what the balances lack, shape (p, m); 0 if not
            observable. [any]
        dropped: balances that follow from others. [balances]
    """

    joining: Array
    balances: Array
    right: Array
    redundant: Mask
    constant: Mask
    observable: Mask
    finding: Array
    dropped: tuple[Dropped, ...]

    @property
    def degrees_of_freedom(self) -> int:
        """How many independent statements the measured flows can be checked by."""
        return len(self.balances)


def classify(problem: Problem) -> Classified:
    """Return the problem without its unmeasured flows, and what each flow is.

    A measured flow is redundant if its column does not vanish: only then it can be adjusted and
    tested. An unmeasured flow is observable if the balances determine it. The unmeasured flows are
    eliminated, not given a large uncertainty, which would cost digits.

    Args:
        problem: as posed. [problem]

    Source: Crowe, Garcia Campos & Hrymak, AIChE J. 29:881 (1983) (abstract seen); by QR: Sanchez &
        Romagnoli, Comput. Chem. Eng. 20:S493 (1996) (from memory)
    """
    rows = independent(problem)
    widths = powers_of_two(lengths(rows.unmeasured.T))
    inner = _Elimination(rows.unmeasured * widths)
    mixing = solved_for_least_certain(_joined(rows, inner.joining), problem.sigma) @ inner.joining
    joining = np.zeros((mixing.shape[0], problem.balances.shape[0]))
    joining[:, rows.kept] = mixing * rows.scale
    finding = np.zeros((widths.size, problem.balances.shape[0]))
    finding[:, rows.kept] = widths[:, None] * inner.finding * rows.scale
    balances = _joined(rows, mixing)
    return Classified(
        joining,
        balances,
        mixing @ rows.right,
        np.any(balances != 0, axis=0),
        problem.constant,
        inner.observable,
        finding,
        rows.dropped,
    )


def _joined(rows: Independent, joining: Array) -> Array:
    return without_noise(joining @ rows.balances, np.abs(joining) @ np.abs(rows.balances))


class _Elimination:
    """Pivot balances give up the pivot flows; every other balance is freed of them."""

    def __init__(self, table: Array) -> None:
        """Eliminate the columns of a table of unit-sized rows and columns."""
        rows, columns = table.shape
        flow_order, rank = pivots(table)
        flows = np.sort(flow_order[:rank])
        give = np.sort(pivots(table[:, flows].T)[0][:rank])
        rest = np.setdiff1d(np.arange(rows), give)
        core = table[np.ix_(give, flows)]
        shares = solved(core.T, table[np.ix_(rest, flows)].T).T
        self.joining = np.zeros((rest.size, rows))
        self.joining[np.arange(rest.size), rest] = 1.0
        self.joining[:, give] = -without_noise(shares, np.ones_like(shares))
        free = np.setdiff1d(np.arange(columns), flows)
        ties = solved(core, table[np.ix_(give, free)])
        determined = np.all(np.abs(ties) <= 1e-10, axis=1)  # noqa: PLR2004  rounding, not a tie
        self.observable = np.zeros(columns, dtype=bool)
        self.observable[flows] = determined
        self.finding = np.zeros((columns, rows))
        inverse = solved(core, np.eye(rank))
        self.finding[np.ix_(flows[determined], give)] = inverse[determined]
