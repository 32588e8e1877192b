"""The first two sheets: the year at a glance, and the sign-off."""

from __future__ import annotations

from footprint.base.finding import LEVELS, MEANING_OF_LEVEL
from footprint.base.units import label
from footprint.report import checks, findings
from footprint.report.book import Book, Headline, State
from footprint.report.cells import Live
from footprint.report.desk import Desk, side_of
from footprint.report.factors import EVIDENCE, last_line, memory_count
from footprint.report.layout import AT_A_GLANCE, CHECKS, FACTORS, FINDINGS, SIGN_OFF
from footprint.report.looks import Role
from footprint.report.places import Place
from footprint.report.plan import FIRST, HEADER
from footprint.report.sheet import Sheet

WIDTHS = (40, 17, 22, 76, 26)
FIT = "no finding stops a figure; look at the open checks below before filing"
NOT_FIT = "NOT FIT TO FILE"
ROLE_OF: dict[State, Role] = {"PASS": "passed", "LOOK": "look", "OPEN": "open"}
CAUTIONS = (
    (
        "Numbers, not advice: this workbook computes from the files listed on Input files and does "
        "not decide what must be reported."
    ),
    (
        "The permit, the monitoring plan, the programme's current text and the competent authority "
        "come first; only an accredited verifier can verify."
    ),
    (
        "Nothing in it may be used to operate or protect a plant, or to judge whether a place is "
        "safe to breathe in."
    ),
    (
        "Figures marked E rest on estimates. Factors from memory must be checked against the "
        "official text before filing."
    ),
)


def write_glance(desk: Desk) -> Sheet:
    """Return the first sheet, written: what the year was, may it be filed, where to look.

    Args:
        desk: plan, file and looks. [desk]

    Source: definition
    """
    sheet = desk.sheet(
        AT_A_GLANCE,
        "What was the year, can it be filed, and where does each figure come from?",
        WIDTHS,
    )
    at = _write_facts(desk, sheet, HEADER)
    at = _write_headline(desk, sheet, at + 1)
    at = _write_verdicts(desk, sheet, at + 1)
    at = _write_counts(desk, sheet, at + 1)
    _section(desk, sheet, at + 1, "Cautions")
    for offset, caution in enumerate(CAUTIONS, at + 2):
        sheet.text(offset, 0, caution, desk.looks.of("note"))
    return sheet


def facts_of(book: Book) -> list[tuple[str, str]]:
    """Return what the first sheet says of the run.

    Args:
        book: what is shown. [book]

    Source: definition
    """
    return [
        ("Works", book.works),
        ("Operator", book.operator),
        ("Period", f"1 January to 31 December {book.year}"),
        ("Boundary", book.boundary),
        ("Monitoring plan", book.plan),
        ("Rules followed", ", ".join(book.bases)),
        ("Warming potentials", book.gwp_set),
        ("Made by", f"footprint {book.tool_version}"),
        ("Run (SHA-256 over all input files)", book.fingerprint),
    ]


def _write_facts(desk: Desk, sheet: Sheet, at: int) -> int:
    book, looks = desk.layout.book, desk.looks
    for words, fact in facts_of(book):
        sheet.text(at, 0, words, looks.of("text"))
        sheet.merge((at, 1, at, 4), fact, looks.of("text"))
        sheet.heighten(at, [(fact, 130)])
        at += 1
    sheet.text(at, 0, "May it be filed?", looks.of("text", bold=True))
    sheet.text(
        at,
        1,
        FIT if book.is_fit_to_file else NOT_FIT,
        looks.of("calculated" if book.is_fit_to_file else "open"),
    )
    return at + 1


def _section(desk: Desk, sheet: Sheet, at: int, *words: str) -> None:
    for column in range(len(WIDTHS)):
        text = words[column] if column < len(words) else ""
        if text:
            sheet.text(at, column, text, desk.looks.of("section", align=side_of(text)))
        else:
            sheet.blank(at, column, desk.looks.of("section"))


def _write_headline(desk: Desk, sheet: Sheet, at: int) -> int:
    _section(
        desk,
        sheet,
        at,
        "Figures of the year",
        "Value",
        "Unit",
        "What it says",
        "Computed at (link)",
    )
    for one in desk.layout.book.headline:
        at += 1
        _write_figure(desk, sheet, at, one)
    return at + 1


def _write_figure(desk: Desk, sheet: Sheet, at: int, one: Headline) -> None:
    looks = desk.looks
    sheet.text(at, 0, one.words, looks.of("text", bold=True))
    desk.fill(sheet, one.row, Place(AT_A_GLANCE, at, 1), role="figure")
    sheet.text(at, 2, label(one.row.unit), looks.of("text", indent=1))
    sheet.text(at, 3, one.sentence, looks.of("text"))
    sheet.heighten(at, [(one.sentence, 74), (one.words, 38)])
    desk.links(sheet, at, 4, [(desk.layout.place(one.row), 1)])


def _write_verdicts(desk: Desk, sheet: Sheet, at: int) -> int:
    _section(desk, sheet, at, "What to make of it", "", "", "", "Verdict")
    for one in desk.layout.book.verdicts:
        at += 1
        sheet.merge((at, 0, at, 3), one.text, desk.looks.of("text"))
        sheet.text(at, 4, one.state, desk.looks.of(ROLE_OF[one.state], align="center"))
        sheet.heighten(at, [(one.text, 145)])
    return at + 1


def _write_counts(desk: Desk, sheet: Sheet, at: int) -> int:
    _section(desk, sheet, at, "Checks, findings and factors", "Number", "", "", "Listed at (link)")
    listed: list[tuple[str, Live | float, str, str]] = [
        (f"Checks that are {one}", checks.count_of(desk, one), "", CHECKS) for one in ROLE_OF
    ]
    listed += [
        (f"Findings: {one}", findings.count_of(desk, one), MEANING_OF_LEVEL[one], FINDINGS)
        for one in LEVELS
    ]
    listed.append(("Factors from memory", _from_memory(desk), "check them before filing", FACTORS))
    for words, number, meaning, where in listed:
        at += 1
        sheet.text(at, 0, words, desk.looks.of("text"))
        sheet.put(at, 1, number, desk.looks.of("calculated", "0", valign="top"))
        sheet.text(at, 3, meaning, desk.looks.of("note")) if meaning else None
        if isinstance(number, Live):
            desk.links(sheet, at, 4, [(Place(where, FIRST, 0), 1)])
    return at + 1


def _from_memory(desk: Desk) -> Live | float:
    last = last_line(desk)
    if not desk.layout.factors.sections:
        return 0.0
    column = "ABCDEFGHIJ"[EVIDENCE]
    cells = f"{FACTORS}!${column}${FIRST + 1}:${column}${last + 1}"
    return Live(f'COUNTIF({cells},"memory")', float(memory_count(desk)))


def write_sign_off(desk: Desk) -> None:
    """Write the sheet on which people answer for the return.

    Args:
        desk: plan, file and looks. [desk]

    Source: definition
    """
    sheet = desk.sheet(
        SIGN_OFF,
        "Who prepared, who reviewed, who signs, and in what state were the figures then?",
        (36, 32, 32, 20, 36),
    )
    looks, at = desk.looks, HEADER
    for words, fact in facts_of(desk.layout.book):
        sheet.text(at, 0, words, looks.of("text"))
        sheet.merge((at, 1, at, 4), fact, looks.of("text"))
        sheet.heighten(at, [(fact, 110)])
        at += 1
    counts = [
        ("Checks that are OPEN", checks.count_of(desk, "OPEN")),
        ("Findings: stop", findings.count_of(desk, "stop")),
        ("Findings: warn", findings.count_of(desk, "warn")),
    ]
    for words, number in counts:
        sheet.text(at, 0, words, looks.of("text"))
        sheet.put(at, 1, number, looks.of("calculated", "0", align="left"))
        at += 1
    _write_lines_to_sign(desk, sheet, at + 1)


def _write_lines_to_sign(desk: Desk, sheet: Sheet, at: int) -> None:
    looks = desk.looks
    for column, words in enumerate(
        ("Three different persons", "Name", "Function", "Date", "Signature")
    ):
        sheet.text(at, column, words, looks.of("heading"))
    for words in ("Prepared by", "Reviewed by", "Approved by", "Verifier's reference"):
        at += 1
        sheet.paper.set_row(at, 30)
        sheet.text(at, 0, words, looks.of("text", valign="vcenter"))
        for column in range(1, 5):
            sheet.blank(at, column, looks.of("entry"))
    sheet.text(at + 2, 0, "Shaded cells are for entries.", looks.of("note"))
