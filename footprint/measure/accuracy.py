"""How sure a meter is: its stated uncertainty as a cause of error."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from footprint.base.cause import Cause, Error, shared
from footprint.base.units import Unit
from footprint.read.accuracy_words import Accuracy, accuracy_of, standard_in
from footprint.read.site import Meter


def stated_accuracy(meter: Meter) -> Accuracy | None:
    """Return what a meter's certificate states; None when nothing is stated or understood.

    Args:
        meter: as declared. [meter]

    Source: JCGM 100:2008, clause 4.3 (from memory)
    """
    found = accuracy_of(meter.uncertainty) if meter.uncertainty else None
    return found if isinstance(found, Accuracy) else None


def calibration_error(meter: Meter, values: NDArray[np.float64], unit: Unit) -> tuple[Error, ...]:
    """Return the error of a meter's calibration, the same all year; none when nothing is stated.

    A stated uncertainty is taken as wholly shared by all readings of the meter: the prudent choice,
    since only the part that is drawn anew with each reading averages out over a year.

    Args:
        meter: as declared. [meter]
        values: the readings. [unit]
        unit: of the readings. [unit]

    Source: JCGM 100:2008, clause 4.3 (from memory); shared part: common practice, no source
    """
    stated = stated_accuracy(meter)
    if stated is None:
        return ()
    cause = Cause(f"calibration of {meter.tag}", stated.distribution)
    if stated.unit is None:
        return (shared(cause, np.abs(values) * stated.standard),)
    absolute = standard_in(stated, unit)
    return () if absolute is None else (shared(cause, np.full(values.shape, absolute)),)
