"""How sure readings are: statements of uncertainty as errors, shared or drawn anew."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

import numpy as np
from numpy.typing import NDArray

from footprint.base.axis import Axis
from footprint.base.cause import Cause, Error
from footprint.base.units import Unit
from footprint.read.accuracy_words import Accuracy, Part, accuracy_of, standard_in
from footprint.read.site import Meter, Site

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Doubt:
    """One part of a statement: why a reading may be wrong, by how much, and how long alike.

    Attributes:
        cause: why. [cause]
        part: how much. [part]
        is_anew: whether it is drawn anew at each reading; else it lasts. [flag]
        calibrations: days from which a lasting error is another one. [date]
    """

    cause: Cause
    part: Part
    is_anew: bool = False
    calibrations: tuple[date, ...] = ()

    @property
    def is_by_reading(self) -> bool:
        """Whether it is a share of the reading."""
        return self.part.unit is None and not self.part.is_of_scale

    def draws(self, days: tuple[date, ...]) -> NDArray[np.int64]:
        """Return which draw of the cause each reading shares.

        Args:
            days: of the readings. [date]

        Source: definition
        """
        if self.is_anew:
            return np.arange(len(days), dtype=np.int64)
        return np.array([sum(one <= day for one in self.calibrations) for day in days], np.int64)


@dataclass(frozen=True, eq=False, slots=True)
class Read:
    """Readings that may be wrong.

    Attributes:
        numbers: as read. [unit]
        unit: of the numbers. [unit]
        days: of the numbers. [date]
        scale: full scale of the meter, where known. [unit]
        what: of several columns of one meter, so that each has its own repeatability. [text]
    """

    numbers: Array
    unit: Unit
    days: tuple[date, ...]
    scale: float | None = None
    what: str = ""


def stated(text: str | None) -> Accuracy | None:
    """Return what a statement says; None when nothing is stated or it isn't understood.

    Args:
        text: as the site file has it. [text]

    Source: JCGM 100:2008, clause 4.3 (from memory)
    """
    found = accuracy_of(text) if text else None
    return found if isinstance(found, Accuracy) else None


def doubts_of(
    key: str,
    accuracy: Accuracy | None,
    *,
    is_anew: bool = False,
    calibrations: Iterable[date] = (),
) -> tuple[Doubt, ...]:
    """Return the parts of one statement, each an independent cause.

    Args:
        key: of the cause, such as "calibration of FT-1". [text]
        accuracy: the statement, if any. [accuracy]
        is_anew: whether it is drawn anew at each reading. [flag]
        calibrations: days from which the error is another one. [date]

    Source: JCGM 100:2008, clause 5.1 (from memory)
    """
    days = tuple(sorted(set(calibrations)))
    parts = accuracy.parts if accuracy else ()
    return tuple(
        Doubt(_cause(key, place, part, accuracy.written if accuracy else ""), part, is_anew, days)
        for place, part in enumerate(parts, 1)
    )


def doubts_of_meter(site: Site, meter: Meter) -> tuple[Doubt, ...]:
    """Return all that is stated about a meter: its own lasting error, devices, repeatability.

    What a meter states by `uncertainty` is taken as wholly shared by its readings between two
    calibrations: the prudent choice, since only what is drawn anew averages out over a year.

    Args:
        site: as declared. [site]
        meter: one of its meters. [meter]

    Source: JCGM 100:2008, clauses 4.3 and 5.2 (from memory); shared part: common practice
    """
    tag, exchanges = meter.tag, meter.index.exchanges if meter.index else []
    renewed = [*meter.calibrations, *(one.day for one in exchanges)]
    own = doubts_of(f"calibration of {tag}", stated(meter.uncertainty), calibrations=renewed)
    devices = [device for name in meter.devices if (device := site.device(name)) is not None]
    common = [
        doubt
        for device in devices
        for doubt in doubts_of(
            f"device {device.tag}", stated(device.uncertainty), calibrations=device.calibrations
        )
    ]
    anew = doubts_of(f"repeatability of {tag}", stated(meter.repeatability), is_anew=True)
    return (*own, *common, *anew)


def errors_of(doubts: Iterable[Doubt], read: Read) -> tuple[Error, ...]:
    """Return the errors of readings; a part that is in another unit has no effect on them.

    Args:
        doubts: of what read them. [doubts]
        read: the readings. [readings]

    Source: JCGM 100:2008, clause 4.3 (from memory)
    """
    errors = []
    for doubt in doubts:
        size = _size(doubt.part, read)
        if size is not None:
            cause = doubt.cause
            if doubt.is_anew and read.what:
                own = f"{cause.key}, {read.what}"
                cause = replace(cause, key=own, words=f"{cause.words}, {read.what}")
            errors.append(Error(cause, size, doubt.draws(read.days)))
    return tuple(errors)


def errors_of_one(
    key: str, accuracy: Accuracy | None, value: float, unit: Unit
) -> tuple[Error, ...]:
    """Return the errors of a single value that somebody states.

    Args:
        key: of the cause. [text]
        accuracy: the statement, if any. [accuracy]
        value: the number. [unit]
        unit: of the number. [unit]

    Source: JCGM 100:2008, clause 4.3 (from memory)
    """
    return errors_of(doubts_of(key, accuracy), Read(np.array([value]), unit, (date.min,)))


def days_of(axis: Axis) -> tuple[date, ...]:
    """Return the day at which each period of an axis begins, by its labels.

    Args:
        axis: months, days, dates, tickets or samples. [axis]

    Source: definition
    """
    firsts = [label.partition(" ")[0] for label in axis.labels]
    return tuple(
        date.fromisoformat(f"{label}-01" if axis.kind == "months" else label) for label in firsts
    )


def _size(part: Part, read: Read) -> Array | None:
    """Return the standard uncertainty of each reading; None where the part does not fit."""
    if part.is_of_scale:
        return (
            None if read.scale is None else np.full(read.numbers.shape, part.standard * read.scale)
        )
    if part.unit is None:
        return np.abs(read.numbers) * part.standard
    absolute = standard_in(part, read.unit)
    return None if absolute is None else np.full(read.numbers.shape, absolute)


def _cause(key: str, place: int, part: Part, written: str) -> Cause:
    own = key if place == 1 else f"{key}, part {place}"
    return Cause(own, part.distribution, part.degrees_of_freedom, f"{own}: {written}")
