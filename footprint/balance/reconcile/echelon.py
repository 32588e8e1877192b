"""Remaining balances rewritten so that each gives one flow, the least certain ones first."""

from __future__ import annotations

import numpy as np

from footprint.balance.reconcile.arrays import Array, without_noise

CLEAR, ANY = 0.05, 1e-10  # of the largest term of a balance: a coefficient fit to divide by
ROUNDING = 1e-13


def solved_for_least_certain(balances: Array, sigma: Array) -> Array:
    """Return which multiples of balances give new ones that share no uncertain flow.

    Each new balance has one flow of its own with coefficient 1. Two flows of large uncertainty side
    by side would otherwise make their balances all but the same, and what their sum says of
    certain flows would drown in rounding. With coefficients 1 and -1 the rewriting is exact.

    Args:
        balances: independent balances, shape (d, n). [any]
        sigma: standard uncertainty of each flow, shape (n,). [any]

    Returns:
        Multiples, shape (d, d).

    Source: Gauss-Jordan elimination (textbook), columns in order of uncertainty
    """
    count = balances.shape[0]
    table = np.hstack([balances, np.eye(count)])
    waiting = np.ones(count, dtype=bool)
    order = np.argsort(-sigma * np.max(np.abs(balances), axis=0, initial=0.0), kind="stable")
    for least in (CLEAR, ANY):
        for flow in order:
            row = _best(table[:, : sigma.size], int(flow), waiting, least)
            if row is not None:
                table = _cleared(table, row, int(flow))
                waiting[row] = False
    return table[:, sigma.size :]


def _best(table: Array, flow: int, waiting: Array, least: float) -> int | None:
    """Return the waiting balance in which a flow weighs most, if it weighs enough."""
    if not np.any(waiting) or not np.any(table[waiting, flow]):
        return None
    largest = np.max(np.abs(table), axis=1)
    weight = np.where(waiting, np.abs(table[:, flow]) / np.where(largest > 0, largest, 1.0), 0.0)
    row = int(np.argmax(weight))
    return row if weight[row] >= least else None


def _cleared(table: Array, row: int, flow: int) -> Array:
    """Return the table with the flow in one row only, with coefficient 1."""
    lead = table[row] / table[row, flow]
    taken = table[:, [flow]] * lead
    rest = without_noise(table - taken, np.abs(table) + np.abs(taken), ROUNDING)
    rest[row] = lead
    return rest
