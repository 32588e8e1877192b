"""Statements of uncertainty as data sheets and certificates write them."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from footprint.base.cause import Distribution
from footprint.base.finding import declare
from footprint.base.units import Unit, is_convertible, ratio_of, unit
from footprint.read.fault import Refusal, short
from footprint.read.number_words import meanings
from footprint.read.unit_words import unit_named

_STATEMENT = re.compile(r"(?:±|\+/-|\+-)?\s*([0-9][0-9.,]*)\s*([^(]*?)\s*\((.*)\)")
_COVERAGE = re.compile(r"k\s*=\s*([0-9]+(?:[.,][0-9]+)?)")
_NORMAL_95 = (
    1.959963984540054  # half-width of 95 % of a normal distribution over its standard deviation
)
_SUBSTANCES = ("CO2", "NH3", "urea", "steam")
_LARGEST = 0.5  # of a reading; more is a slip of the pen

UNCLEAR_UNCERTAINTY = declare(
    "unclear-uncertainty",
    "stop",
    means="The statement of a meter's uncertainty can't be understood, or leaves "
    "open how wide it covers.",
    effect="a limit, a standard uncertainty and an expanded one differ by a factor of up to two",
    mend='write "1.5 % (k=2)", "0.75 % (k=1)", "1.5 % (95 %)" or "1 % (limits)"',
    example='"1.5 %"; mended: "1.5 % (k=2)"',
)


@dataclass(frozen=True, slots=True)
class Accuracy:
    """Standard uncertainty of a reading, shared by all readings of the meter in the year.

    Attributes:
        standard: of the reading where `unit` is None, else in that unit. [1 or unit]
        unit: of an absolute statement; None for a share of the reading. [unit]
        distribution: normal, or rectangular for limits. [text]
        written: the statement as the site file has it. [text]
    """

    standard: float
    unit: Unit | None
    distribution: Distribution
    written: str


def accuracy_of(text: str) -> Accuracy | Refusal:
    """Return the standard uncertainty a statement stands for, or why it isn't understood.

    Args:
        text: such as "1.5 % (k=2)", "0.5 °C (limits)" or "1 % (95 %)". [text]

    Findings:
        unclear-uncertainty: no number, no unit, or no word on the coverage.

    Source: JCGM 100:2008, clause 4.3 (from memory)
    """
    match = _STATEMENT.fullmatch(text.strip())
    if not match:
        return Refusal(UNCLEAR_UNCERTAINTY, f'"{short(text)}" does not say how wide it covers')
    size = set(meanings(match[1]).values())
    divisor = _divisor(match[3])
    named = unit_named(match[2]) if match[2] != "%" else "percent"
    if len(size) != 1 or divisor is None or isinstance(named, Refusal):
        return Refusal(UNCLEAR_UNCERTAINTY, f'"{short(text)}" is not understood')
    standard = size.pop() / divisor
    is_limits = divisor == math.sqrt(3)
    distribution: Distribution = "rectangular" if is_limits else "normal"
    if named != "percent":
        return Accuracy(standard, unit(named), distribution, text)
    if standard / 100 > _LARGEST:
        return Refusal(UNCLEAR_UNCERTAINTY, f'"{short(text)}" is more than half of the reading')
    return Accuracy(standard / 100, None, distribution, text)


def standard_in(stated: Accuracy, metered: Unit) -> float | None:
    """Return an absolute standard uncertainty in the unit of readings, None if it is no such.

    A bare tonne counts as a tonne of what is metered.

    Args:
        stated: an absolute statement. [accuracy]
        metered: unit of the readings. [unit]

    Source: definition
    """
    if stated.unit is None:
        return None
    if is_convertible(stated.unit, metered):
        return stated.standard * ratio_of(stated.unit, metered)
    masses = [unit(f"t_{substance}") for substance in _SUBSTANCES]
    is_mass = is_convertible(stated.unit, unit("tonne"))
    found = next((mass for mass in masses if is_convertible(mass, metered)), None)
    if not is_mass or found is None:
        return None
    return stated.standard * ratio_of(stated.unit, unit("tonne")) * ratio_of(found, metered)


def _divisor(coverage: str) -> float | None:
    """Return what a half-width is divided by to give the standard uncertainty."""
    words = " ".join(coverage.lower().split())
    if match := _COVERAGE.fullmatch(words):
        factor = float(match[1].replace(",", "."))
        return factor if factor > 0 else None
    known = {"limits": math.sqrt(3), "standard": 1.0, "95 %": _NORMAL_95, "95%": _NORMAL_95}
    return known.get(words)
