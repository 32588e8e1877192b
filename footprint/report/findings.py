"""All findings: what is wrong or was chosen, in which cell, why it matters, how to mend it."""

from __future__ import annotations

from footprint.base.finding import LEVELS, Finding, Level
from footprint.report.cells import Live
from footprint.report.desk import Desk
from footprint.report.layout import FINDINGS
from footprint.report.looks import Role
from footprint.report.plan import FIRST

HEADINGS = (
    "Level",
    "Finding",
    "File",
    "Sheet",
    "Cell",
    "As written",
    "What",
    "Why it matters",
    "How to mend it",
)
WIDTHS = (7, 22, 18, 11, 10, 14, 34, 34, 34)
QUESTION = (
    "What is wrong in the files, what was chosen for you, and how is it mended? (stop, warn, note)"
)
ROLE_OF: dict[Level, Role] = {"stop": "open", "warn": "look", "note": "calculated"}


def write_findings(desk: Desk) -> None:
    """Write all findings, the most serious first, then by file.

    Args:
        desk: plan, file and looks. [desk]

    Source: definition
    """
    sheet = desk.sheet(FINDINGS, QUESTION, WIDTHS, HEADINGS)
    for at, finding in enumerate(sorted(desk.layout.book.findings, key=_order), FIRST):
        sheet.text(at, 0, finding.level, desk.looks.of(ROLE_OF[finding.level], valign="top"))
        where = finding.where
        cell = where.cell or where.column
        texts = [
            finding.code,
            where.file,
            where.sheet,
            cell,
            finding.read,
            finding.what,
            finding.why,
            finding.mend,
        ]
        for column, text in enumerate(texts, 1):
            if text:
                sheet.text(at, column, text, desk.looks.of("text", font_size=9))
        sheet.heighten(
            at, [(text, 1.1 * width) for text, width in zip(texts, WIDTHS[1:], strict=True)], 12.0
        )


def _order(finding: Finding) -> tuple[int, str, str]:
    return LEVELS.index(finding.level), finding.where.file, finding.where.sheet


def count_of(desk: Desk, level: Level) -> Live | float:
    """Return how many findings of a level there are, as a live formula.

    Args:
        desk: plan, file and looks. [desk]
        level: stop, warn or note. [text]

    Source: definition
    """
    findings = desk.layout.book.findings
    if not findings:
        return 0.0
    found = sum(finding.level == level for finding in findings)
    return Live(
        f'COUNTIF({FINDINGS}!$A${FIRST + 1}:$A${FIRST + len(findings)},"{level}")', float(found)
    )
