"""The year in a screenful of plain text."""

from __future__ import annotations

from collections.abc import Sequence

from footprint.base.finding import LEVELS, Finding
from footprint.base.source import Factor, seen_or_memory
from footprint.base.units import label
from footprint.report.book import Book, Headline
from footprint.report.cells import shown
from footprint.report.lineage import lineage_of
from footprint.report.words import CANNOT_BE_GIVEN, in_figures

CAUTION = (
    "numbers, not advice: the programme's current text and an accredited verifier decide, and "
    "nothing here may be used to operate or protect a plant or to judge whether a place is safe "
    "to breathe in"
)


def summary(book: Book) -> str:
    """Return the year's figures, verdicts and counts as text for a terminal.

    Args:
        book: what is shown. [book]

    Source: definition
    """
    rules = ", ".join([*book.bases, book.gwp_set])
    state = (
        "no finding stops a figure"
        if book.is_fit_to_file
        else "NOT FIT TO FILE: a finding stops a figure"
    )
    lines = [f"{book.works}, {book.year} ({rules})", state, ""]
    lines += _figures(book.headline)
    lines += ["", *(f"{one.state:<4}  {one.text}" for one in book.verdicts)]
    lines += ["", f"checks: {_checks(book)}", f"findings: {counted(book.findings)}"]
    lines += [
        f"factors from memory: {_from_memory(book)} (listed on Factors)",
        f"run: {book.fingerprint}",
        CAUTION,
    ]
    return "\n".join(lines)


def _figures(headline: tuple[Headline, ...]) -> list[str]:
    texts = [_figure(one) for one in headline]
    width = max((len(text) for text in texts), default=0)
    units = [label(one.row.unit) for one in headline]
    room = max((len(unit) for unit in units), default=0)
    return [
        f"{text:>{width}}  {unit:<{room}}  {one.words}"
        for text, unit, one in zip(texts, units, headline, strict=True)
    ]


def _figure(one: Headline) -> str:
    value = shown(one.row, 0)
    if isinstance(value, str):
        return value
    return CANNOT_BE_GIVEN if value is None else in_figures(one.row, value)


def _checks(book: Book) -> str:
    outcomes = [
        shown(check.outcome, place)
        for check in book.checks
        for place in range(check.outcome.axis.size)
    ]
    return ", ".join(
        f"{outcomes.count(word)} {word}" for word in ("PASS", "LOOK", "OPEN", "not judged")
    )


def counted(findings: Sequence[Finding]) -> str:
    """Return how many findings of each level there are, and how many somebody accepts.

    Args:
        findings: of all stages. [findings]

    Source: definition
    """
    levels = [finding.level for finding in findings if finding.acceptance is None]
    accepted = len(findings) - len(levels)
    words = [f"{levels.count(level)} {level}" for level in LEVELS]
    return ", ".join([*words, f"{accepted} accepted"] if accepted else words)


def _from_memory(book: Book) -> int:
    leaves = [
        row
        for row in lineage_of(book.tops).rows
        if row.is_leaf and row.axis.kind in {"once", "editions"}
    ]
    origins = [origin for row in leaves for origin in row.origins if isinstance(origin, Factor)]
    return sum(
        1 for one in origins if one.document != "definition" and seen_or_memory(one) == "memory"
    )
