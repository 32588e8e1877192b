"""Statements of uncertainty as data sheets and certificates write them."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from footprint.base.cause import Distribution
from footprint.base.finding import declare
from footprint.base.units import Unit, is_convertible, ratio_of, unit
from footprint.read.accuracy_cover import Cover, class_limits, cover_of
from footprint.read.fault import Refusal, short
from footprint.read.number_words import meanings
from footprint.read.rate_words import parted
from footprint.read.unit_words import unit_named

_PLUS = re.compile(r"(?<=[\w%)])\s*\+(?![/-])\s*")  # between parts; the sign +/- is another thing
_CLASS = re.compile(r"(?:accuracy )?class (\S+)( in service)?", re.IGNORECASE)
_LIMITS_FIRST = re.compile(r"(?:maximum permissible error|MPE)(?: of)?\s*[:=]?\s*", re.IGNORECASE)
_SIGN = re.compile(r"(?:±|\+/-|\+-)\s*")
_AMOUNT = re.compile(r"([0-9][0-9.,]*)\s*(.*?)\s*(?:\(([^()]*)\)|,\s*(.*))?")
_OF = re.compile(
    r"(.*?)\s*(?:of (?:the )?)?(reading|full scale|full-scale|range|span|FS)", re.IGNORECASE
)
_SUBSTANCES = ("CO2", "NH3", "urea", "steam")
_POINTS = ("percentage points", "mol-%", "% points")
_LARGEST = 0.5  # of a reading; more is a slip of the pen

UNCLEAR_UNCERTAINTY = declare(
    "unclear-uncertainty",
    "stop",
    means="A statement of uncertainty can't be understood, or leaves open how wide it covers.",
    effect="a limit, a standard uncertainty and an expanded one differ by a factor of up to two",
    mend='write "1.5 % (k=2)", "0.75 % (k=1)", "1.5 % (95 %)", "1 % (limits)", "class 0.5S" or '
    '"0.5 % of full scale (limits)"; join parts by +',
    example='"1.5 %"; mended: "1.5 % (k=2)"',
)


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a statement, such as the "1 % (k=2)" of "1 % (k=2) + 0.1 t (limits)".

    Attributes:
        standard: standard uncertainty: of the reading, of full scale, or in `unit`. [1 or unit]
        unit: of an absolute part; None for a share. [unit]
        is_of_scale: whether a share is one of full scale, not of the reading. [flag]
        distribution: normal, rectangular, triangular or arcsine. [text]
        degrees_of_freedom: as stated; infinite where nothing is said. [1]
    """

    standard: float
    unit: Unit | None
    is_of_scale: bool
    distribution: Distribution
    degrees_of_freedom: float = math.inf


@dataclass(frozen=True, slots=True)
class Accuracy:
    """A statement of uncertainty: its parts, independent of each other, and its text."""

    parts: tuple[Part, ...]
    written: str

    @property
    def of_reading(self) -> float | None:
        """Standard uncertainty as a share of the reading; None where a part is no such share."""
        if any(part.unit is not None or part.is_of_scale for part in self.parts):
            return None
        return math.hypot(*(part.standard for part in self.parts))


def accuracy_of(text: str) -> Accuracy | Refusal:
    """Return what a statement stands for, or why it isn't understood.

    A bare "±0.3 t" and a class are limits; a bare "1.5 %" leaves its width open and is refused.

    Args:
        text: such as "1.5 % (k=2)", "±0.3 t", "class 0.5S", "1 % (k=2) + 0.1 t (limits)". [text]

    Findings:
        unclear-uncertainty: no number, no unit, or no word on the coverage.

    Source: JCGM 100:2008, clause 4.3 (from memory)
    """
    parts: list[Part] = []
    for written in _PLUS.split(" ".join(text.split())):
        part = _part(written)
        if isinstance(part, str):
            return Refusal(UNCLEAR_UNCERTAINTY, f'"{short(text)}" {part}')
        parts.append(part)
    return Accuracy(tuple(parts), text)


def standard_in(part: Part, metered: Unit) -> float | None:
    """Return an absolute standard uncertainty in the unit of readings, None if it is no such.

    A bare tonne counts as a tonne of what is metered; a kelvin is as wide as a degree Celsius.

    Args:
        part: an absolute part of a statement. [part]
        metered: unit of the readings. [unit]

    Source: definition
    """
    if part.unit is None:
        return None
    if is_convertible(part.unit, metered):
        return part.standard * ratio_of(part.unit, metered)
    alike = [("kelvin", "celsius"), ("celsius", "kelvin"), ("kPa", "kPa_gauge")]
    alike += [("tonne", f"t_{substance}") for substance in _SUBSTANCES]
    for stated, read in alike:
        if is_convertible(part.unit, unit(stated)) and is_convertible(unit(read), metered):
            return part.standard * ratio_of(part.unit, unit(stated)) * ratio_of(unit(read), metered)
    return None


def _part(text: str) -> Part | str:
    """Return one part of a statement, or what is wrong with it."""
    if match := _CLASS.fullmatch(text):
        limits = class_limits(match[1], is_in_service=match[2] is not None)
        return (
            "names no known class" if limits is None else _sized("%", limits, Cover(math.sqrt(3)))
        )
    bare = _LIMITS_FIRST.sub("", text, count=1)
    unsigned = _SIGN.sub("", bare, count=1)
    match = _AMOUNT.fullmatch(unsigned)
    if not match:
        return "does not say how wide it covers"
    said = match[3] or match[4]
    if not said:
        said = "limits" if unsigned != text else ""
    if not said:
        return "does not say how wide it covers"
    size, cover = set(meanings(match[1].rstrip(",.")).values()), cover_of(said)
    if len(size) != 1 or cover is None:
        return "is not understood"
    return _sized(match[2], size.pop(), cover)


def _sized(of_what: str, half_width: float, cover: Cover) -> Part | str:
    """Return a part of what it is a share of, or in its unit."""
    standard, match = half_width / cover.divisor, _OF.fullmatch(of_what)
    share = match[1] if match else of_what
    rest = (cover.distribution, cover.degrees_of_freedom)
    if share == "%":
        if standard / 100 > _LARGEST:
            return "is more than half of the reading"
        is_of_scale = match is not None and match[2].lower() != "reading"
        return Part(standard / 100, None, is_of_scale, *rest)
    named = None if match else _unit(of_what)
    return "is not understood" if named is None else Part(standard, named, False, *rest)  # noqa: FBT003


def _unit(text: str) -> Unit | None:
    """Return the unit of an absolute part, of a rate too; None where it is not understood."""
    amount, time = parted(text)
    named = "percent" if text in _POINTS else unit_named(amount)
    if isinstance(named, Refusal):
        return None
    return unit(f"{named}/{time}") if time else unit(named)
