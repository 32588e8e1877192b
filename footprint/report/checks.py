"""The checks: each figure tested, its limits, and month by month the outcome in a word."""

from __future__ import annotations

from footprint.base.row import Row
from footprint.base.units import label
from footprint.judge.check import Check
from footprint.report.cells import Live, contents, shown
from footprint.report.desk import LIMITS, Desk
from footprint.report.layout import CHECKS
from footprint.report.pages import rule_of
from footprint.report.places import Place, target_of
from footprint.report.plan import HEADER, JANUARY, UNIT, YEAR, Tested
from footprint.report.sheet import Sheet
from footprint.report.words import MONTH_NAMES, formula_in_words

LIMIT, BASIS, HOW, KEY, LINK = YEAR + 1, YEAR + 5, YEAR + 6, YEAR + 7, YEAR + 8
BASIS_WIDE = 46  # characters of small print
HEADINGS = (
    "What is tested",
    "Unit",
    *MONTH_NAMES,
    "Year",
    *LIMITS,
    "Where the limits come from",
    "How it is computed",
    "Key",
    "Comes from (link)",
)


def write_checks(desk: Desk) -> None:
    """Write all checks, two lines each: the figure and the outcome.

    Args:
        desk: plan, file and looks. [desk]

    Source: definition
    """
    plan = desk.layout.checks
    tested = [part for part in plan.parts if isinstance(part, Tested)]
    sheet = desk.sheet(
        CHECKS, plan.question, [30, 11, *[8.2] * 12, 9.5, *[8.5] * 4, 36, 80, 40, 26], HEADINGS
    )
    sheet.paper.print_area(0, 0, plan.next_row, BASIS)
    for part in tested:
        _write_value(desk, sheet, part)
        _write_outcome(desk, sheet, part)
    colour_outcomes(desk, sheet, (HEADER + 1, JANUARY, max(plan.next_row - 1, HEADER + 1), YEAR))


def colour_outcomes(desk: Desk, sheet: Sheet, cells: tuple[int, int, int, int]) -> None:
    """Give the words PASS, LOOK and OPEN their colours, whatever a recalculation makes of them.

    Args:
        desk: plan, file and looks. [desk]
        sheet: the sheet. [sheet]
        cells: first row and column, last row and column. [1]

    Source: definition
    """
    looks = desk.looks
    for words, look in (
        ("PASS", looks.of("passed")),
        ("LOOK", looks.of("look")),
        ("OPEN", looks.of("open")),
    ):
        sheet.paper.conditional_format(
            *cells, {"type": "cell", "criteria": "==", "value": f'"{words}"', "format": look}
        )


def _write_value(desk: Desk, sheet: Sheet, part: Tested) -> None:
    check, at, looks = part.check, part.at, desk.looks
    sheet.text(at, 0, check.words, looks.of("text", bold=True))
    sheet.text(at, UNIT, label(check.value.unit), looks.of("text", indent=1))
    desk.fill(sheet, check.value, _home(check.value, at))
    limits = check.limits
    for offset, row in enumerate(
        (limits.stop_low, limits.warn_low, limits.warn_high, limits.stop_high)
    ):
        _write_limit(desk, sheet, row, (at, LIMIT + offset))
    sheet.merge((at, BASIS, at + 1, BASIS), _basis_of(check), looks.of("small", indent=1))
    sheet.heighten(at, [(check.words, 29)])
    sheet.heighten(at + 1, [(_basis_of(check)[BASIS_WIDE:], BASIS_WIDE)], 11.0)
    _write_lineage(desk, sheet, at, check.value)


def _write_outcome(desk: Desk, sheet: Sheet, part: Tested) -> None:
    check, at = part.check, part.at + 1
    sheet.text(at, 0, "outcome", desk.looks.of("text", indent=1))
    look = desk.looks.of("calculated", align="right")
    home = _home(check.outcome, at)
    for index, what in enumerate(contents(desk.layout, check.outcome, home)):
        sheet.put(*home.at(index), what, look)
    _write_lineage(desk, sheet, at, check.outcome)


def _basis_of(check: Check) -> str:
    return (
        f"{check.basis}; OPEN cannot be, by chemistry or conservation"
        if check.is_physics
        else check.basis
    )


def _home(row: Row, at: int) -> Place:
    return (
        Place(CHECKS, at, JANUARY, "across")
        if row.axis.kind == "months"
        else Place(CHECKS, at, YEAR)
    )


def _write_limit(desk: Desk, sheet: Sheet, row: Row, at: tuple[int, int]) -> None:
    if row.axis.kind == "once":
        desk.fill(sheet, row, Place(CHECKS, *at))
        return
    place = desk.layout.place(row)
    sheet.link(at, target_of(place, row.axis.size), "by month", desk.looks.of("link", font_size=8))


def _write_lineage(desk: Desk, sheet: Sheet, at: int, row: Row) -> None:
    how = "; ".join(text for text in (formula_in_words(row), rule_of(row)) if text)
    if how:
        sheet.text(at, HOW, how, desk.looks.of("key"))
    sheet.text(at, KEY, row.key, desk.looks.of("key"))
    place = desk.layout.place(row)
    is_mirror = (place.sheet, place.row) != (CHECKS, at)
    targets = [(place, row.axis.size)] if is_mirror else desk.sources(row, 1)
    desk.links(sheet, at, LINK, targets)


def count_of(desk: Desk, outcome: str) -> Live | float:
    """Return how often an outcome stands on the sheet of checks, as a live formula.

    Args:
        desk: plan, file and looks. [desk]
        outcome: PASS, LOOK or OPEN. [text]

    Source: definition
    """
    plan = desk.layout.checks
    if not plan.parts:
        return 0.0
    rows = [part.check.outcome for part in plan.parts if isinstance(part, Tested)]
    found = sum(shown(row, index) == outcome for row in rows for index in range(row.axis.size))
    cells = f"$C${HEADER + 2}:$O${plan.next_row}"
    return Live(f'COUNTIF({CHECKS}!{cells},"{outcome}")', float(found))
