"""What the report is made of: pages, figures of the year, checks, findings, files."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from typing import Literal

from footprint.base.finding import Finding
from footprint.base.line import Line, Page
from footprint.base.listing import Listing
from footprint.base.row import Row
from footprint.judge.check import Check
from footprint.read.readings import InputFile

State = Literal["PASS", "LOOK", "OPEN"]


@dataclass(frozen=True, eq=False, slots=True)
class Headline:
    """A figure of the year for the first sheet.

    Attributes:
        words: what the reader calls it. [text]
        row: the figure. [row, once]
        sentence: what it says, and what it does not. [text]
    """

    words: str
    row: Row
    sentence: str


@dataclass(frozen=True, slots=True)
class Verdict:
    """A judgement in plain words."""

    state: State
    text: str


@dataclass(frozen=True, eq=False, slots=True)
class ChartRows:
    """The rows that the two charts of the workbook are drawn from.

    Attributes:
        process: CO2 from feed by month. [line]
        fuel: CO2 from fuel by month. [line]
        minimum: least energy per tonne that chemistry allows, by month. [row, months]
        distance: energy per tonne above the minimum, by month. [row, months]
        energy: energy per tonne. [line]
        benchmarks: published or own figures to hold it against, with their names. [text, row once]
    """

    process: Line
    fuel: Line
    minimum: Row
    distance: Row
    energy: Line
    benchmarks: tuple[tuple[str, Row], ...] = ()


@dataclass(frozen=True, eq=False, slots=True)
class Flow:
    """Carbon that goes from one place of the works to the next in the year.

    Attributes:
        source: where it comes from. [text]
        target: where it goes. [text]
        words: what flows. [text]
        year: how much. [t C, row once]
        is_by_difference: it was not measured but follows from the others. [flag]
        is_loss: it leaves to the air, so it is drawn downward. [flag]
    """

    source: str
    target: str
    words: str
    year: Row
    is_by_difference: bool = False
    is_loss: bool = False


@dataclass(frozen=True, eq=False, slots=True)
class Book:
    """One run of the tool, ready to be shown.

    Attributes:
        works: name of the works. [text]
        operator: who runs it. [text]
        year: of the return. [year]
        plan: version and day of the monitoring plan, in words. [text]
        tool_version: of this package. [text]
        bases: rules that the figures follow. [text]
        gwp_set: edition of the global warming potentials. [text]
        boundary: what is inside, in a sentence. [text]
        headline: the figures of the year. [headlines]
        verdicts: judgements in plain words. [verdicts]
        is_fit_to_file: no finding stops it. [flag]
        pages: the sheets of lines and of entries, in order. [pages]
        checks: figures against limits. [checks]
        findings: faults and choices. [findings]
        files: what was read. [files]
        charts: rows of the charts; None leaves them out. [rows]
        flows: of carbon, for the picture; empty leaves it out. [flows]
        how: paragraphs of the last sheet, each with its title. [text]
        others: rows that were read but that no page needs, so that they are listed too. [rows]
    """

    works: str
    operator: str
    year: int
    plan: str
    tool_version: str
    bases: tuple[str, ...]
    gwp_set: str
    boundary: str
    headline: tuple[Headline, ...]
    verdicts: tuple[Verdict, ...]
    is_fit_to_file: bool
    pages: tuple[Page | Listing, ...]
    checks: tuple[Check, ...]
    findings: tuple[Finding, ...]
    files: tuple[InputFile, ...]
    charts: ChartRows | None = None
    flows: tuple[Flow, ...] = ()
    how: tuple[tuple[str, str], ...] = ()
    others: tuple[Row, ...] = ()

    @property
    def tops(self) -> list[Row]:
        """All rows that the workbook holds with whatever they are made from."""
        return [*self.shown, *self.others]

    @property
    def shown(self) -> list[Row]:
        """The rows of pages, first sheet, checks, charts and flows, in the order of showing.

        Source: definition
        """
        rows: list[Row | None] = [row for page in self.pages for row in _rows_of(page)]
        rows += [one.row for one in self.headline]
        for check in self.checks:
            limits = check.limits
            rows += [check.value, check.outcome]
            rows += [limits.stop_low, limits.warn_low, limits.warn_high, limits.stop_high]
        rows += _charted(self.charts)
        rows += [flow.year for flow in self.flows]
        return [row for row in rows if row is not None]

    @property
    def fingerprint(self) -> str:
        """One SHA-256 over the SHA-256 of every input file, in the order of their names."""
        hashes = [file.sha256 for file in sorted(self.files, key=lambda file: file.name)]
        return hashlib.sha256("\n".join(hashes).encode()).hexdigest()


def _rows_of(page: Page | Listing) -> list[Row | None]:
    if isinstance(page, Listing):
        return [*page.rows]
    lines = [line for section in page.sections for line in section.lines]
    return [row for line in lines for row in (line.months, line.year)]


def _charted(charts: ChartRows | None) -> list[Row | None]:
    if charts is None:
        return []
    lines = [charts.process, charts.fuel, charts.energy]
    rows = [row for line in lines for row in (line.months, line.year)]
    return [*rows, charts.minimum, charts.distance, *(row for _, row in charts.benchmarks)]
