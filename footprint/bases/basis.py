"""What every basis gives: the lines its report must contain, and how it came to them."""

from __future__ import annotations

from dataclasses import dataclass, replace

from footprint.base.line import Section
from footprint.base.row import Row
from footprint.bases.gap_rules import OwnGap
from footprint.bases.topics import Topic


@dataclass(frozen=True, eq=False, slots=True)
class Filed:
    """One figure of a return: the exact one and the one to file.

    Attributes:
        number: of the line in the document, such as an article or paragraph. [text]
        words: our sentence for it, in the terms of the basis. [text]
        exact: figure of the year, full precision. [any, row once]
        filed: the same, rounded as the basis has it. [any, row once]
        rule: the place in the document. [text]
        evidence: whether the rule was read: word of `base.source.EVIDENCE`. [text]
        is_headline: it belongs on the first sheet. [flag]
    """

    number: str
    words: str
    exact: Row
    filed: Row
    rule: str
    evidence: str
    is_headline: bool = False

    def on_first_sheet(self) -> Filed:
        """Return the line as one that belongs on the first sheet.

        Source: definition
        """
        return replace(self, is_headline=True)


@dataclass(frozen=True, slots=True)
class Said:
    """One element of a return that is words: a method, a tier, a place of a meter.

    Attributes:
        number: of the line in the document. [text]
        words: what is asked. [text]
        text: what the works says. [text]
        rule: the place in the document. [text]
        evidence: word of `base.source.EVIDENCE`. [text]
    """

    number: str
    words: str
    text: str
    rule: str
    evidence: str


@dataclass(frozen=True, slots=True)
class Lacking:
    """One element of a return that the works has not given.

    Attributes:
        number: of the line in the document. [text]
        words: what is asked. [text]
        mend: where to give it. [text]
        rule: the place in the document. [text]
        evidence: word of `base.source.EVIDENCE`. [text]
    """

    number: str
    words: str
    mend: str
    rule: str
    evidence: str


@dataclass(frozen=True, slots=True)
class Excluded:
    """A source that the basis covers and the accounts do not hold.

    Attributes:
        source: what may emit. [text]
        reason: why it is left out, with author and day; empty where nobody gave one. [text]
        rule: the place in the document that covers it. [text]
    """

    source: str
    reason: str
    rule: str


@dataclass(frozen=True, eq=False, slots=True)
class Effect:
    """One step from the gross CO2 of the works to the total of a basis.

    Attributes:
        topic: which difference of rules it is. [text]
        effect: what it adds to the total. [t CO2e, row once]
        because: the rule or reason. [text]
    """

    topic: Topic
    effect: Row
    because: str


@dataclass(frozen=True, eq=False, slots=True)
class Basis:
    """One set of rules applied to the year.

    The total is the gross CO2 of the works plus all effects, exactly: each is a live row.

    Attributes:
        name: of the basis. [text]
        sheet: name of the sheet to file from: "Return, " and a short name that a spreadsheet
            allows. [text]
        lines: figures that the report must contain, in the order of the document. [lines]
        sections: how they were found; shown on a sheet of its own. [sections]
        doubts: what is not certain about the rules, in words. [text]
        total: the one figure that is set against other bases, as filed. [t CO2e, row once]
        effects: from the gross CO2 of the works to the total. [effects]
        said: elements in words. [elements]
        lacking: elements that the works has not given. [elements]
        excluded: sources that are covered but not entered. [sources]
        boundary: what is inside, in the terms of the basis. [text]
        gaps: missing readings, as the basis fills them. [gaps]
    """

    name: str
    sheet: str
    lines: tuple[Filed, ...]
    sections: tuple[Section, ...]
    doubts: tuple[str, ...]
    total: Row
    effects: tuple[Effect, ...] = ()
    said: tuple[Said, ...] = ()
    lacking: tuple[Lacking, ...] = ()
    excluded: tuple[Excluded, ...] = ()
    boundary: str = ""
    gaps: tuple[OwnGap, ...] = ()
