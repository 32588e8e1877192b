"""What every basis gives: the lines its report must contain, and how it came to them."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.base.line import Section
from footprint.base.row import Row


@dataclass(frozen=True, eq=False, slots=True)
class Filed:
    """One line of a return: the exact figure and the one to file.

    Attributes:
        words: what the basis calls it. [text]
        exact: figure of the year. [any]
        filed: the same, rounded as the basis has it. [any]
        rule: the place in the document. [text]
    """

    words: str
    exact: Row
    filed: Row
    rule: str


@dataclass(frozen=True, eq=False, slots=True)
class Basis:
    """One set of rules applied to the year.

    Attributes:
        name: of the basis. [text]
        sheet: name of its sheet. [text]
        lines: what the report must contain. [lines]
        sections: how the lines were found. [sections]
        doubts: what is not certain about the rule, in words. [text]
    """

    name: str
    sheet: str
    lines: tuple[Filed, ...]
    sections: tuple[Section, ...]
    doubts: tuple[str, ...]
