"""Workbooks in which single parts or cells are stored oddly, as other programs store them."""

from __future__ import annotations

import re

from tests.corpus.item import DAYS, GOOD, Item, in_book
from tests.corpus.package import (
    MAIN,
    SHEET,
    archive,
    inline,
    number,
    parts_of,
    relations,
    shared,
    sheet_of,
    styles,
    table,
    workbook,
)

STYLED = "xl/styles.xml"
DATE = "Date"


def odd(name: str, content: bytes, *codes: tuple[str, str], **values: float) -> Item:
    """Return a workbook that gives the good values, some of them changed."""
    changed = {key.replace("_", "-").removeprefix("d"): value for key, value in values.items()}
    return Item(name, "power.xlsx", content, GOOD | changed, codes)


def cell(name: str, text: str, code: str = "", value: float | None = None) -> Item:
    """Return a workbook whose middle reading is stored as given."""
    values = {day: known for day, known in GOOD.items() if day != DAYS[1]}
    if value is not None:
        values[DAYS[1]] = value
    found = ((code, in_book("B3")),) if code else ()
    return Item(name, "power.xlsx", workbook(sheet_of(table(B3=text))), values, found)


def date(name: str, text: str, code: str = "", day: str = "") -> Item:
    """Return a workbook whose middle date is stored as given."""
    values = {one: known for one, known in GOOD.items() if one != DAYS[1]}
    if day:
        values[day] = GOOD[DAYS[1]]
    found = ((code, in_book("A3", DATE)),) if code else ()
    return Item(name, "power.xlsx", workbook(sheet_of(table(A3=text))), values, found)


def formatted(code: str) -> Item:
    """Return a workbook whose readings have a number format that only looks like a date."""
    rows = table(B2=number("B2", "1.5", 2), B3=number("B3", "2.25", 2))
    return odd(f"format {code}", workbook(sheet_of(rows), **{STYLED: styles(code)}))


def unread(name: str, content: bytes, code: str = "unsafe-workbook") -> Item:
    """Return a workbook of which nothing is read."""
    return Item(name, "power.xlsx", content, {}, ((code, "power.xlsx"),))


def dates_of_1904() -> str:
    """Return the table with serial numbers counted from 1904."""
    return re.sub(r"<v>(45\d{3})</v>", lambda found: f"<v>{int(found[1]) - 1462}</v>", table())


def without_addresses(text: str) -> str:
    """Return rows whose cells follow each other without addresses."""
    return re.sub(r' r="[A-Z]?\d+"', "", text)


PLAIN = sheet_of(table())
FORMULA = '<c r="B3"><f>{}</f><v>{}</v></c>'
SHARED_CELLS = {
    "A1": '<c r="A1" t="s"><v>0</v></c>',
    "B1": '<c r="B1" t="s"><v>1</v></c>',
}
RICH = (
    f'<sst xmlns="{MAIN}">'
    "<si><t>Date</t></si><si><r><t>Power </t></r><r><t>bought (MWh)</t></r></si></sst>"
)
NUMBER_FORMATS = (
    '0.0 "MWh/d"',
    "0.0\\ \\m3/\\d",
    '0 "day"',
    "\\M\\S\\C\\F 0",
    "[Red]0.00",
    "@",
    '0.00 "%"',
    "#,##0.00_);[Red](#,##0.00)",
)
PACKAGE_ITEMS = [
    odd("plain workbook", workbook(PLAIN)),
    odd(
        "dates counted from 1904",
        workbook(sheet_of(dates_of_1904()), properties='<workbookPr date1904="1"/>'),
    ),
    odd("extent says A1", workbook(sheet_of(table(), before='<dimension ref="A1"/>'))),
    odd(
        "extent says the whole grid",
        workbook(sheet_of(table(), before='<dimension ref="A1:XFD1048576"/>')),
    ),
    odd("shared texts", workbook(sheet_of(table(**SHARED_CELLS)))),
    odd(
        "shared texts in pieces",
        workbook(sheet_of(table(**SHARED_CELLS)), **{"xl/sharedStrings.xml": RICH}),
    ),
    odd(
        "shared texts that nobody uses", workbook(PLAIN, **{"xl/sharedStrings.xml": shared(*"abc")})
    ),
    odd("cells without addresses", workbook(sheet_of(without_addresses(table())))),
    odd(
        "cells in turned order",
        workbook(
            sheet_of(
                re.sub(
                    r"(<c r=.B2.*?</c>)(</row>)",
                    r"\1\2",
                    re.sub(r"(<c r=.A(\d).*?</c>)(<c r=.B\2.*?</c>)", r"\3\1", table()),
                )
            )
        ),
    ),
    odd(
        "rows stored in turned order",
        workbook(sheet_of("".join(re.findall("<row.*?</row>", table())[::-1]))),
    ),
    odd(
        "cells far away from the table",
        workbook(sheet_of(table() + '<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>')),
    ),
    odd("part names in capitals", archive({**parts_of(PLAIN), "docProps/CORE.XML": "<a/>"})),
    *(formatted(code) for code in NUMBER_FORMATS),
    cell("number in powers", "<c r='B3'><v>2.25E+0</v></c>", value=2.25),
    cell("last digits of a machine", number("B3", "2.2500000000000004"), value=2.2500000000000004),
    cell("zero is a reading in a workbook", number("B3", "0"), value=0.0),
    cell("number stored as inline text", inline("B3", "2,5"), "number-stored-as-text", 2.5),
    cell("number with a typesetter's minus", inline("B3", "(2.5)"), "text-in-number-cell"),
    cell("blank text", inline("B3", " "), "text-in-number-cell"),
    cell("empty cell with a style", '<c r="B3" s="1"/>', "missing-reading"),
    cell("truth value", '<c r="B3" t="b"><v>1</v></c>', "text-in-number-cell"),
    cell("error #N/A", '<c r="B3" t="e"><v>#N/A</v></c>', "error-cell"),
    cell("error #REF!", '<c r="B3" t="e"><v>#REF!</v></c>', "error-cell"),
    cell("error typed as text", inline("B3", "#DIV/0!"), "text-in-number-cell"),
    cell(
        "formula with its result", FORMULA.format("B2+0.75", "2.25"), "reading-is-a-formula", 2.25
    ),
    cell("formula without result", '<c r="B3"><f>B2*2</f></c>', "formula-without-result"),
    cell(
        "formula with a text as result",
        '<c r="B3" t="str"><f>B2&amp;""</f><v>n/a</v></c>',
        "text-in-number-cell",
    ),
    cell(
        "formula with an error as result",
        '<c r="B3" t="e"><f>B2/0</f><v>#DIV/0!</v></c>',
        "error-cell",
    ),
    cell(
        "formula of a range",
        '<c r="B3"><f t="array" ref="B3:B3">B2*2</f><v>2.5</v></c>',
        "reading-is-a-formula",
        2.5,
    ),
    cell(
        "formula shared with others",
        '<c r="B3"><f t="shared" ref="B3:B9" si="0">B2*2</f><v>2.5</v></c>',
        "reading-is-a-formula",
        2.5,
    ),
    cell(
        "formula on another file",
        FORMULA.format("[1]Old!B3", "2.5"),
        "reading-from-another-file",
        2.5,
    ),
    cell("date in the place of a number", number("B3", "45691", 1), "date-in-number-cell"),
    cell(
        "ISO date in the place of a number",
        '<c r="B3" t="d"><v>2025-02-03</v></c>',
        "date-in-number-cell",
    ),
    cell("24:00 in the place of a number", number("B3", "1", 1), "date-in-number-cell"),
    date("ISO date", '<c r="A3" t="d"><v>2025-02-03</v></c>', day="2025-02-03"),
    date("ISO date and time", '<c r="A3" t="d"><v>2025-02-03T00:00:00</v></c>', day="2025-02-03"),
    date(
        "ISO date of Greenwich", '<c r="A3" t="d"><v>2025-02-03T00:00:00Z</v></c>', day="2025-02-03"
    ),
    date("date a billionth of a day early", number("A3", "45690.999999999", 1), day="2025-02-03"),
    date("date a billionth of a day late", number("A3", "45691.000000001", 1), day="2025-02-03"),
    date(
        "date at six in the morning",
        number("A3", "45691.25", 1),
        "time-of-day-left-out",
        "2025-02-03",
    ),
    date("date as plain number", number("A3", "45691"), "date-as-number", "2025-02-03"),
    date("date as broken plain number", number("A3", "45691.5"), "date-not-understood"),
    date("date as text", inline("A3", "2025-02-03"), "date-as-text", "2025-02-03"),
    date("date as text of two readings", inline("A3", "02/03/2025"), "mixed-dates"),
    date("day that never was (serial 60)", number("A3", "60", 1), "implausible-date"),
    date("serial 0", number("A3", "0", 1), "date-not-understood"),
    date("serial below zero", number("A3", "-5", 1), "implausible-date"),
    date("serial beyond all years", number("A3", "3000000", 1), "date-not-understood"),
    date("date error", '<c r="A3" t="e"><v>#VALUE!</v></c>', "date-not-understood"),
    date("date missing", "", "row-without-date"),
    Item(
        "macros",
        "power.xlsm",
        workbook(PLAIN, **{"xl/vbaProject.bin": b"macros"}),
        GOOD,
        (("macros-not-run", "power.xlsm"),),
    ),
    odd(
        "links to another workbook that is not there",
        workbook(PLAIN, **{"xl/externalLinks/externalLink1.xml": "<externalLink/>"}),
    ),
    odd(
        "picture and program in the package",
        workbook(PLAIN, **{"xl/media/a.png": b"\x89PNG", "xl/x.bin": b"MZ"}),
    ),
    odd("cells of a pretty printer", workbook(PLAIN.replace("><", ">\n  <"))),
    odd("sheet with a mark of UTF-8", workbook("\ufeff" + PLAIN)),
    odd("sheet in UTF-16", workbook("", **{SHEET: PLAIN.encode("utf-16")})),
    unread("reading NaN", workbook(sheet_of(table(B3=number("B3", "NaN"))))),
    unread("reading INF", workbook(sheet_of(table(B3=number("B3", "INF"))))),
    unread("reading of 5000 digits", workbook(sheet_of(table(B3=number("B3", "9" * 5000))))),
    unread(
        "shared text out of range", workbook(sheet_of(table(A1='<c r="A1" t="s"><v>99</v></c>')))
    ),
    unread("shared text below zero", workbook(sheet_of(table(A1='<c r="A1" t="s"><v>-1</v></c>')))),
    unread(
        "the same cell twice", workbook(sheet_of(table(B3=number("B3", "1") + number("B3", "2"))))
    ),
    unread(
        "the same cell with and without address",
        workbook(sheet_of(table(B3=number("B3", "1") + '</row><row r="3"><c/><c><v>7</v></c>'))),
    ),
    unread("cell outside the grid", workbook(sheet_of(table(B3=number("XFE3", "1"))))),
    unread(
        "row outside the grid",
        workbook(sheet_of(table() + '<row r="1048577"><c><v>1</v></c></row>')),
    ),
    unread("address in small letters", workbook(sheet_of(table(B3=number("b3", "1"))))),
    unread("style out of range", workbook(sheet_of(table(B3=number("B3", "1", 99))))),
    unread(
        "sheet target outside the package", archive(parts_of(PLAIN, target='"../../etc/passwd"'))
    ),
    unread(
        "sheet target on the net",
        archive(parts_of(PLAIN, target='"https://example.org/sheet.xml" TargetMode="External"')),
    ),
    unread(
        "sheet part missing",
        archive({name: part for name, part in parts_of(PLAIN).items() if name != SHEET}),
    ),
    unread(
        "no sheet at all", archive(parts_of(PLAIN) | {"xl/_rels/workbook.xml.rels": relations()})
    ),
]
