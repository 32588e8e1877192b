"""All findings: what is wrong or was chosen, in which cell, why it matters, how to mend it."""

from __future__ import annotations

from footprint.base.finding import LEVELS, Finding, Level
from footprint.report.cells import Live
from footprint.report.desk import Desk
from footprint.report.layout import FINDINGS
from footprint.report.looks import Role
from footprint.report.plan import FIRST
from footprint.report.sheet import Sheet

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
ACCEPTED = "Accepted, with reason"
ROLE_OF: dict[Level, Role] = {"stop": "open", "warn": "look", "note": "calculated"}


def write_findings(desk: Desk) -> None:
    """Write all findings, the most serious first, then by file.

    Args:
        desk: plan, file and looks. [desk]

    Source: definition
    """
    sheet = desk.sheet(FINDINGS, QUESTION, WIDTHS, HEADINGS)
    counted = _counted(desk)
    for at, finding in enumerate(sorted(counted, key=_order), FIRST):
        _write_finding(desk, sheet, at, finding)
    accepted = [one for one in desk.layout.book.findings if one.acceptance is not None]
    if not accepted:
        return
    at = FIRST + len(counted) + 1
    sheet.text(at, 0, ACCEPTED, desk.looks.of("section"))
    for column in range(1, len(HEADINGS)):
        sheet.blank(at, column, desk.looks.of("section"))
    for line, finding in enumerate(sorted(accepted, key=_order), at + 1):
        _write_finding(desk, sheet, line, finding)


def _counted(desk: Desk) -> list[Finding]:
    """Return the findings that count: those that nobody accepts."""
    return [one for one in desk.layout.book.findings if one.acceptance is None]


def _write_finding(desk: Desk, sheet: Sheet, at: int, finding: Finding) -> None:
    sheet.text(at, 0, finding.level, desk.looks.of(ROLE_OF[finding.level], valign="top"))
    where, accepted = finding.where, finding.acceptance
    texts = [
        finding.code,
        where.file,
        where.sheet,
        where.cell or where.column,
        finding.read,
        finding.what,
        finding.why,
        f"accepted by {accepted.words}" if accepted else finding.mend,
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
    findings = _counted(desk)
    if not findings:
        return 0.0
    found = sum(finding.level == level for finding in findings)
    return Live(
        f'COUNTIF({FINDINGS}!$A${FIRST + 1}:$A${FIRST + len(findings)},"{level}")', float(found)
    )
