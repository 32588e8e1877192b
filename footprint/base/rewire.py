"""The same figures with some rows put in place of others: live, under keys of their own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from footprint.base.operations import OPERATIONS
from footprint.base.row import Row, ancestry

YEAR = "/year"


def rewired(tops: Sequence[Row], instead: Mapping[Row, Row], mark: str) -> list[Row]:
    """Return rows as they come out when some of the rows behind them are replaced.

    Only what depends on a replaced row is made anew; the rest is shared. The new rows of a
    replacement may themselves depend on the row that they replace.

    Args:
        tops: the rows wanted. [rows]
        instead: for each row to replace, the one that takes its place. [rows]
        mark: set behind the key of each named row that is made anew. [text]

    Source: definition
    """
    made: dict[Row, Row] = dict(instead)
    for row in ancestry(tops):
        if row in made:
            continue
        args = tuple(made.get(arg, arg) for arg in row.args)
        if all(new is old for new, old in zip(args, row.args, strict=True)):
            made[row] = row
            continue
        number = OPERATIONS[row.op].number
        values = np.asarray(number(*(arg.values for arg in args), extra=row.extra), dtype=float)
        made[row] = row.replaced(args=args, values=values, key=_marked(row.key, mark))
    return [made[top] for top in tops]


def _marked(key: str, mark: str) -> str:
    """Return a key with a mark, kept before the word that makes it the year of its months."""
    if not key:
        return ""
    if key.endswith(YEAR):
        return f"{key.removesuffix(YEAR)}{mark}{YEAR}"
    return f"{key}{mark}"
