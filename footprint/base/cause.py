"""Why a reading may be wrong: causes of error, shared or not, with their distribution."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Distribution = Literal["normal", "rectangular", "triangular", "arcsine"]


@dataclass(frozen=True, slots=True)
class Cause:
    """One source of error, such as the calibration of a meter; streams share it by its key.

    Attributes:
        key: of the cause; equal keys are one cause. [text]
        distribution: of a draw, in standard uncertainties about 0. [text]
        degrees_of_freedom: how well its size is known; infinite where taken as certain. [1]
        words: what the reader calls it, with the statement it rests on; the key when empty. [text]
    """

    key: str
    distribution: Distribution = "normal"
    degrees_of_freedom: float = math.inf
    words: str = ""


@dataclass(frozen=True, eq=False, slots=True)
class Error:
    """What one cause does to a row: standard uncertainty of each value and the draw it belongs to.

    A size has a sign where the cause pulls this row the other way than others.
    `draw` all 0 means one error shared by every value; 0 and 1 across a recalibration; counting
    for repeatability.
    """

    cause: Cause
    size: NDArray[np.float64]
    draw: NDArray[np.int64]


def shared(cause: Cause, size: NDArray[np.float64]) -> Error:
    """Return an error that all values of a row have in common.

    Args:
        cause: why the row may be wrong. [cause]
        size: absolute standard uncertainty of each value. [unit of the row]

    Source: JCGM 100:2008, clause 5.2 (from memory); shared causes instead of a correlation matrix
    """
    return Error(cause, size, np.zeros(size.shape[-1], dtype=np.int64))


def independent(cause: Cause, size: NDArray[np.float64]) -> Error:
    """Return an error that is drawn anew for each value.

    Args:
        cause: why the row may be wrong. [cause]
        size: absolute standard uncertainty of each value. [unit of the row]

    Source: JCGM 100:2008, clause 5.1 (from memory)
    """
    return Error(cause, size, np.arange(size.shape[-1], dtype=np.int64))
