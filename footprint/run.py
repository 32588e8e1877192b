"""The order of the stages, and nothing else: a folder goes in, a result comes out."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from functools import cached_property
from pathlib import Path

import pandas as pd

from footprint.account import account
from footprint.balance import balance
from footprint.base.finding import Finding, worst
from footprint.base.row import Row, ancestry
from footprint.base.units import label
from footprint.bases import bases
from footprint.judge import accept, judge
from footprint.measure import measure
from footprint.read import read
from footprint.register import load
from footprint.report import Book, Returns, book_of, report


@dataclass(frozen=True)
class Result:
    """One run over one folder.

    Attributes:
        book: everything the workbook shows; None when the folder could not be read at all. [book]
        notices: all findings, in the order of the stages. [findings]
    """

    book: Book | None
    notices: tuple[Finding, ...]

    @property
    def is_fit_to_file(self) -> bool:
        """Whether no finding stops a figure, but for those that somebody accepts."""
        return worst(self.notices) != "stop"

    @cached_property
    def figures(self) -> pd.DataFrame:
        """The year's figures: words, value, unit, sentence, key.

        Source: definition
        """
        headline = self.book.headline if self.book else ()
        columns = ["words", "value", "unit", "sentence", "key"]
        data = [
            (one.words, one.row.values[0], label(one.row.unit), one.sentence, one.row.key)
            for one in headline
        ]
        return pd.DataFrame(data, columns=columns)

    @cached_property
    def rows(self) -> pd.DataFrame:
        """Every named row, one line a value: key, words, unit, period, value, origin."""
        tops = self.book.tops if self.book else []
        lines = [line for row in ancestry(tops) if row.is_named for line in _values_of(row)]
        return pd.DataFrame(lines, columns=["key", "words", "unit", "period", "value", "origin"])

    @cached_property
    def findings(self) -> pd.DataFrame:
        """All findings: what, where, why, how to mend, and by whom and why one is accepted."""
        place = ["file", "sheet", "cell", "column"]
        said = ["code", "level", "what", *place, "read", "why", "mend"]
        flat = [{**asdict(one), **asdict(one.where), **_accepted(one)} for one in self.notices]
        return pd.DataFrame(flat, columns=[*said, "accepted", "author", "when", "reason"])

    def write(self, path: Path | str) -> None:
        """Write the workbook; nothing is left behind when writing fails.

        Args:
            path: of the .xlsx file. [path]

        Raises:
            ValueError: the folder could not be read, so there is nothing to write.

        Source: definition
        """
        if self.book is None:
            raise ValueError("nothing could be read: mend the findings first")
        report(self.book, Path(path))


def run(folder: Path | str) -> Result:
    """Return the accounts of a works from the folder that holds its site file and spreadsheets.

    Example:
        >>> import footprint
        >>> result = footprint.run("sample_inputs")
        >>> result.is_fit_to_file
        True
        >>> list(result.figures.columns)
        ['words', 'value', 'unit', 'sentence', 'key']

    Args:
        folder: holds site.toml and the spreadsheets it names. [path]

    Source: definition
    """
    register, findings = load()
    readings, found = read(Path(folder))
    findings += found
    if readings is None:
        return Result(None, tuple(findings))
    measured, found = measure(readings, register)
    findings += found
    balanced, found = balance(measured)
    findings += found
    accounted, found = account(measured, balanced)
    findings += found
    every, found = bases(accounted)
    findings += found
    before, _ = bases(accounted, readings.site.works.year - 1)
    judged, found = judge(accounted)
    findings += found
    findings = accept(findings, readings.site.accepted)
    return Result(
        book_of(accounted, Returns(tuple(every), tuple(before)), judged, findings), tuple(findings)
    )


def _accepted(finding: Finding) -> dict[str, str | bool]:
    """Return whether a finding is accepted, by whom, when and why."""
    one = finding.acceptance
    if one is None:
        return {"accepted": False, "author": "", "when": "", "reason": ""}
    return {
        "accepted": True,
        "author": one.author,
        "when": one.when.isoformat(),
        "reason": one.reason,
    }


def _values_of(row: Row) -> list[tuple[str, str, str, str, float, str]]:
    unit, lines = label(row.unit), []
    for place, period in enumerate(row.axis.labels):
        origin = row.origin(place)
        value = float(row.values[place if row.values.shape[-1] > 1 else 0])
        lines.append(
            (row.key, row.words, unit, period, value, origin.words if origin else row.because)
        )
    return lines
