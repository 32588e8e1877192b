"""Holes in a row of readings: runs of them, and the readings around each run."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

import numpy as np


def runs_of(places: Sequence[int]) -> list[tuple[int, int]]:
    """Return first and last of places that follow each other, run by run.

    Args:
        places: in rising order. [1]

    Source: definition
    """
    groups = groupby(enumerate(places), key=lambda pair: pair[1] - pair[0])
    runs = [[place for _, place in group] for _, group in groups]
    return [(run[0], run[-1]) for run in runs]


def windows(
    values: np.typing.NDArray[np.float64], run: tuple[int, int], most: int | None = None
) -> tuple[tuple[int, int], tuple[int, int]]:
    """Return the readings before and after a hole, as many as it is long, as far as they go.

    They end at the next hole.
    At the end of the year, where one side has none, the other side stands for both.

    Args:
        values: readings; NaN where missing. [any]
        run: first and last place of the hole. [1]
        most: readings on each side; as many as the hole is long when None. [1]

    Source: common practice, no source
    """
    first, last = run
    length = last - first + 1 if most is None else most
    is_there = ~np.isnan(values)
    start, end = first, last + 1
    while start > max(0, first - length) and is_there[start - 1]:
        start -= 1
    while end < min(len(values), last + 1 + length) and is_there[end]:
        end += 1
    before, after = (start, first), (last + 1, end)
    if start == first:
        return after, after
    return before, before if end == last + 1 else after
