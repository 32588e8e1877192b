"""Single values with their sources: assumptions, factors, definitions, iterated values."""

from __future__ import annotations

from collections.abc import Sequence

from footprint.base.row import Row
from footprint.base.source import Assumption, Factor, Origin, seen_or_memory
from footprint.base.units import label
from footprint.report.cells import contents
from footprint.report.desk import Desk
from footprint.report.iterated import write_iterated
from footprint.report.layout import FACTORS
from footprint.report.looks import factor_format, role_of
from footprint.report.place_leaves import VALUE_FACTOR
from footprint.report.places import Place
from footprint.report.plan import FactorLine
from footprint.report.sheet import Sheet
from footprint.report.words import formula_in_words

HEADINGS = (
    "Factor",
    "Value",
    "Unit",
    "Document, author or formula",
    "Place in it",
    "Year",
    "Valid from",
    "Valid to",
    "Evidence",
    "Note or reason",
    "Address",
    "Key",
    "Used in",
)
WIDTHS = (40, 15, 20, 38, 22, 8, 10, 10, 10, 40, 30, 40, 26)
EVIDENCE, USED = 8, 12
QUESTION = (
    "Which single values were used, from which document or on whose word, and was the text read?"
)


def write_factors(desk: Desk) -> None:
    """Write all single values with their sources.

    Args:
        desk: plan, file and looks. [desk]

    Source: definition
    """
    plan = desk.layout.factors
    sheet = desk.sheet(FACTORS, QUESTION, WIDTHS, HEADINGS)
    sheet.paper.print_area(0, 0, last_line(desk), EVIDENCE + 1)
    for heading, lines in plan.sections:
        for column in range(len(HEADINGS)):
            sheet.blank(heading.at, column, desk.looks.of("section"))
        sheet.text(heading.at, 0, heading.text, desk.looks.of("section"))
        for line in lines:
            _write_line(desk, sheet, line)
    if plan.iterated_heading is not None:
        write_iterated(desk, sheet, plan)


def last_line(desk: Desk) -> int:
    """Return the last line of the sheet of factors.

    Args:
        desk: plan, file and looks. [desk]

    Source: definition
    """
    plan = desk.layout.factors
    lines = [line for _, section in plan.sections for line in section] + plan.iterated
    return max((line.at for line in lines), default=0)


def memory_count(desk: Desk) -> int:
    """Return how many values on the sheet of factors are from memory.

    Args:
        desk: plan, file and looks. [desk]

    Source: definition
    """
    lines = [line for _, section in desk.layout.factors.sections for line in section]
    return sum(1 for line in lines if _evidence(line.row.origin(line.index)) == "memory")


def _evidence(origin: Origin | None) -> str:
    return (
        seen_or_memory(origin)
        if isinstance(origin, Factor) and origin.document != "definition"
        else ""
    )


def _write_line(desk: Desk, sheet: Sheet, line: FactorLine) -> None:
    row, at, looks = line.row, line.at, desk.looks
    words = row.words if row.axis.size == 1 else f"{row.words}, {row.axis.labels[line.index]}"
    sheet.text(at, 0, words, looks.of("text"))
    _write_value(desk, sheet, line)
    sheet.text(at, 2, label(row.unit), looks.of("text", indent=1))
    told = _told(row, row.origin(line.index))
    for column, text in enumerate(told, 3):
        if text:
            sheet.text(at, column, text, looks.of("small"))
    small = [(text, 1.2 * width) for text, width in zip(told, WIDTHS[3:], strict=False)]
    sheet.heighten(at, [(words, WIDTHS[0]), (label(row.unit), WIDTHS[2]), *small])
    sheet.text(at, USED - 1, row.key, looks.of("key"))
    desk.links(sheet, at, USED, desk.uses(row, 1))


def _write_value(desk: Desk, sheet: Sheet, line: FactorLine) -> None:
    row, looks = line.row, desk.looks
    home = Place(
        FACTORS, line.at - line.index, VALUE_FACTOR, "down" if row.axis.kind != "once" else "once"
    )
    what = list(contents(desk.layout, row, home))[line.index]
    if row.is_leaf:
        role = role_of(row.origin(line.index), is_missing=not isinstance(what, float))
        numbers = factor_format(float(row.values[line.index]))
    else:
        role, numbers = "calculated", looks.numbers(row)
    sheet.put(line.at, VALUE_FACTOR, what, looks.of(role, numbers, valign="top"))


def _told(row: Row, origin: Origin | None) -> Sequence[str]:
    """Return document, place, year, first and last day, evidence, note, address."""
    if isinstance(origin, Factor):
        days = [day.isoformat() if day else "" for day in (origin.first_day, origin.last_day)]
        document = [origin.document, origin.place, origin.year]
        return [*document, *days, _evidence(origin), origin.note, origin.address]
    if isinstance(origin, Assumption):
        return [
            origin.who,
            origin.place,
            "",
            origin.when.isoformat(),
            "",
            "assumed",
            origin.why,
            "",
        ]
    return [formula_in_words(row), "", "", "", "", "", row.because, ""]
