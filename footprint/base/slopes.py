"""First-order effect of every leaf on one figure, and the uncertainty from shared causes."""

from __future__ import annotations

import math
from collections import defaultdict

import numpy as np
from numpy.typing import NDArray

from footprint.base.operations import OPERATIONS
from footprint.base.row import Row, ancestry

Array = NDArray[np.float64]


def slopes(top: Row, index: int = 0) -> dict[Row, Array]:
    """Return the derivative of one cell with respect to every value of every leaf behind it.

    Args:
        top: the row that holds the cell. [row]
        index: place of the cell on the row's axis. [1]

    Source: chain rule
    """
    seed = np.zeros(top.axis.size)
    seed[index] = 1.0
    gradient: dict[Row, Array] = {top: seed}
    for row in reversed(ancestry([top])):
        if row.is_leaf or row not in gradient:
            continue
        rule = OPERATIONS[row.op]
        values = [arg.values for arg in row.args]
        if rule.crosses:
            parts = rule.slopes(gradient[row], *values, extra=row.extra)
        else:
            parts = [gradient[row] * slope for slope in rule.slopes(*values, extra=row.extra)]
        for arg, part in zip(row.args, parts, strict=True):
            fitted = _fitted(np.asarray(part, dtype=float), arg)
            gradient[arg] = gradient[arg] + fitted if arg in gradient else fitted
    return {row: slope for row, slope in gradient.items() if row.is_leaf}


def _fitted(part: Array, arg: Row) -> Array:
    """Sum a gradient over the periods when the operand has a single value."""
    if arg.axis.size == 1 and part.ndim and part.shape[-1] > 1:
        summed: Array = np.nansum(part, axis=-1, keepdims=True)
        return summed
    return np.broadcast_to(np.nan_to_num(part), (arg.axis.size,))


def variances(top: Row, index: int = 0) -> dict[str, float]:
    """Return the variance that each cause of error adds to one cell.

    Pulls of one draw of one cause are added with their signs before they are squared, also across
    rows.

    Args:
        top: the row that holds the cell. [row]
        index: place of the cell on the row's axis. [1]

    Source: JCGM 100:2008, clause 5 (from memory), written on independent causes
    """
    pulls: dict[tuple[str, int], float] = defaultdict(float)
    for row, slope in slopes(top, index).items():
        for error in row.errors:
            each = np.broadcast_to(np.nan_to_num(error.size) * slope, error.draw.shape)
            sums = np.bincount(error.draw, weights=each)
            for draw, pull in enumerate(sums):
                pulls[error.cause.key, draw] += float(pull)
    shares: dict[str, float] = defaultdict(float)
    for (cause, _), pull in pulls.items():
        shares[cause] += pull * pull
    return dict(shares)


def standard_uncertainty(top: Row, index: int = 0) -> float:
    """Return the first-order standard uncertainty of one cell.

    Args:
        top: the row that holds the cell. [row]
        index: place of the cell on the row's axis. [1]

    Source: JCGM 100:2008, equation 13 (from memory)
    """
    return math.sqrt(sum(variances(top, index).values()))
