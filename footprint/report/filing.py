"""The sheet to file from: numbered lines, statements, what is lacking, left out, in doubt."""

from __future__ import annotations

from typing import Protocol

from footprint.base.listing import Column, Entries, Listing, Shown
from footprint.base.source import EVIDENCE
from footprint.base.units import label
from footprint.bases import Basis

QUESTION = "Which figures and statements does a return under these rules ask for?"
COLUMNS = (
    Column("Line", 17),
    Column("What is reported", 58),
    Column("As filed", 17, is_number=True),
    Column("Unit", 17),
    Column("Exact", 17, is_number=True),
    Column("Rule", 46),
    Column("Was the rule read?", 22),
)
TO_SIGN = (
    "The programme's current text and the competent authority decide what is filed and how. "
    "Where the last column says memory, read the rule before filing."
)
NOT_GIVEN = "Asked for by the rules; the works has not given it."
LEFT_OUT = "Covered by the rules and not in these accounts. Each needs a reason that holds."


class Cited(Protocol):
    """Anything that names its rule and says whether the rule was read."""

    @property
    def rule(self) -> str:
        """The place in the document."""

    @property
    def evidence(self) -> str:
        """Word of EVIDENCE."""


Line = tuple[Shown, ...]


def filing_of(basis: Basis) -> Listing:
    """Return the sheet to file from.

    Args:
        basis: applied to the year. [basis]

    Source: definition
    """
    figures = tuple(
        (one.number, one.words, one.filed, label(one.filed.unit), one.exact, *_cited(one))
        for one in basis.lines
    )
    said = tuple((one.number, one.words, one.text, "", None, *_cited(one)) for one in basis.said)
    lacking = tuple(
        (one.number, one.words, one.mend, "", None, *_cited(one)) for one in basis.lacking
    )
    left_out: tuple[Line, ...] = tuple(
        ("", one.source, one.reason or "no reason given", "", None, one.rule, "")
        for one in basis.excluded
    )
    doubts: tuple[Line, ...] = tuple(
        (f"{place}", doubt, None, "", None, "", "") for place, doubt in enumerate(basis.doubts, 1)
    )
    parts = (
        Entries("Figures for the return", figures, f"{basis.boundary} {TO_SIGN}".strip()),
        Entries("Statements for the return", said),
        Entries("Not given yet", lacking, NOT_GIVEN),
        Entries("Left out", left_out, LEFT_OUT),
        Entries("What is not certain about the rules", doubts),
    )
    return Listing(basis.sheet, QUESTION, COLUMNS, tuple(part for part in parts if part.lines))


def _cited(cited: Cited) -> tuple[str, str]:
    return cited.rule, EVIDENCE.get(cited.evidence, cited.evidence)
