"""A quotient by month beside that of the year: by tonne of ammonia, by energy, share of a whole."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.base.formulas import ratio
from footprint.base.line import Line
from footprint.base.row import Row, step
from footprint.measure import Measured


@dataclass(frozen=True, slots=True)
class Rate:
    """What a quotient is called and why it is formed.

    Attributes:
        key: key of the months; that of the year ends in /year. [text]
        words: what the reader calls it. [text]
        because: the rule, for the months. [text]
        because_year: the rule for the year; that of the months when empty. [text]
        otherwise: shown where there is nothing below the line. [text]
    """

    key: str
    words: str
    because: str
    because_year: str = ""
    otherwise: str = "no production"


def rate_of(measured: Measured, above: Row, below: Row, named: Rate) -> Line:
    """Return a quotient by month, and the quotient of the two years.

    Args:
        measured: every stream by month. [measured]
        above: what is divided, by month. [any]
        below: what it is divided by, by month; may be 0. [any]
        named: key, words and rule. [rate]

    Source: definition
    """
    months = step(ratio(above, below, named.otherwise), named.key, named.words, named.because)
    year = measured.context.year
    return Line(
        months,
        step(
            ratio(year(above), year(below), named.otherwise),
            f"{named.key}/year",
            f"{named.words}, year",
            named.because_year or named.because,
        ),
    )
