"""Reconciliation in rational numbers, without any rounding, and random networks to try it on."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from footprint.balance.reconcile import Problem, own_errors, pose

Array = NDArray[np.float64]
Table = list[list[Fraction]]


@dataclass(frozen=True)
class Exact:
    """The answer."""

    adjusted: list[Fraction]
    unmeasured: list[Fraction]
    variances: list[Fraction]
    objective: Fraction


def fractions(table: Array) -> Table:
    """Return a table of floats as the fractions they are."""
    return [[Fraction(float(one)) for one in row] for row in np.atleast_2d(table)]


def product(left: Table, right: Table) -> Table:
    """Return a matrix product."""
    columns = list(zip(*right, strict=True))
    return [
        [sum((a * b for a, b in zip(row, column, strict=True)), Fraction(0)) for column in columns]
        for row in left
    ]


def transposed(table: Table) -> Table:
    """Return the transpose."""
    return [list(row) for row in zip(*table, strict=True)]


def solution(matrix: Table, right: Table) -> Table:
    """Return the solution of a square system by elimination."""
    rows = [[*left, *side] for left, side in zip(matrix, right, strict=True)]
    size = len(matrix)
    for column in range(size):
        pivot = next(row for row in range(column, size) if rows[row][column] != 0)
        rows[column], rows[pivot] = rows[pivot], rows[column]
        lead = rows[column][column]
        rows[column] = [one / lead for one in rows[column]]
        for row in range(size):
            share = rows[row][column]
            if row != column and share != 0:
                rows[row] = [a - share * b for a, b in zip(rows[row], rows[column], strict=True)]
    return [row[size:] for row in rows]


def exact(problem: Problem) -> Exact:
    """Return the answer of a problem whose balances are independent and flows all observable.

    Unknowns are the multipliers l and the unmeasured flows u of
    A (y - V A' l) + U u = b and U' l = 0.
    """
    a, u = fractions(problem.balances), fractions(problem.unmeasured)
    factor = fractions(problem.factor)
    v = product(factor, transposed(factor))
    y = [[one] for one in fractions(problem.measured)[0]]
    balances, hidden = len(a), problem.unmeasured.shape[1]
    h = product(product(a, v), transposed(a))
    whole = [[*h[row], *(-one for one in u[row])] for row in range(balances)]
    whole += [[*column, *[Fraction(0)] * hidden] for column in (transposed(u) if hidden else [])]
    miss = [
        [one[0] - Fraction(float(b))] for one, b in zip(product(a, y), problem.right, strict=True)
    ]
    effects = product(a, v)
    right = [[*miss[row], *effects[row]] for row in range(balances)]
    right += [[Fraction(0)] * len(right[0])] * hidden
    found = solution(whole, right)
    multipliers = [[row[0]] for row in found[:balances]]
    gain = product(product(v, transposed(a)), [row[1:] for row in found[:balances]])
    adjustment = product(product(v, transposed(a)), multipliers)
    return Exact(
        [one[0] - move[0] for one, move in zip(y, adjustment, strict=True)],
        [row[0] for row in found[balances:]],
        [v[place][place] - gain[place][place] for place in range(len(v))],
        sum((gap[0] * pull[0] for gap, pull in zip(miss, multipliers, strict=True)), Fraction(0)),
    )


def incidence(random: np.random.Generator, nodes: int, flows: int) -> Array:
    """Return in = +1, out = -1 of a random connected network that touches the outside."""
    found = np.zeros((nodes, flows))
    for flow in range(flows):
        if flow <= nodes:  # a chain from outside through all nodes to outside
            ends = (flow - 1, flow if flow < nodes else -1)
        else:
            ends = tuple(random.choice(nodes + 1, size=2, replace=False) - 1)
        for node, sign in zip(ends, (-1.0, 1.0), strict=True):
            if node >= 0:
                found[node, flow] += sign
    return found


def network(seed: int, *, spread: float, hidden: int = 0) -> Problem:
    """Return a random network, variances differing by powers of ten up to plus or minus spread."""
    random = np.random.default_rng(seed)
    nodes = int(random.integers(2, 6))
    flows = nodes + int(random.integers(1, 6)) + hidden
    table = incidence(random, nodes, flows)
    sigma = 10.0 ** (random.uniform(-spread, spread, flows) / 2.0)
    y = np.round(100.0 * random.uniform(0.1, 2.0, flows) + sigma * random.normal(size=flows), 6)
    out = np.zeros(flows, dtype=bool)
    out[random.permutation(nodes)[:hidden]] = True
    return pose(y[~out], own_errors(sigma[~out]), table[:, ~out], table[:, out])
