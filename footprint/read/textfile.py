"""Text tables (csv) as sparse cells: the file settles encoding and delimiter, or is refused."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable
from dataclasses import dataclass
from hashlib import sha256
from itertools import islice

from footprint.base.finding import Finding, Where, declare
from footprint.read.fault import Refusal
from footprint.read.sheet import Book, Cell, Sheet

DELIMITERS = {";": "semicolon", "\t": "tab", "|": "bar", ",": "comma"}
LINES_LOOKED_AT = 20
FIELD_LIMIT = 2**16
LINE_LIMIT = 2**20
_LINE = re.compile(r"[^\r\n]*(?:\r\n?|\n)|[^\r\n]+")
_BYTE_ORDER_MARKS = (
    (b"\xef\xbb\xbf", "utf-8-sig"),
    (b"\xff\xfe", "utf-16"),
    (b"\xfe\xff", "utf-16"),
)

UNREADABLE_TEXT_FILE = declare(
    "unreadable-text-file",
    "stop",
    means="A text file is in an encoding that can't be told, or holds bytes that are no text.",
    effect="nothing can be read from it",
    mend="save it as csv in the UTF-8 encoding, or as .xlsx",
    example="a file in UTF-16 without its mark; mended: the same table saved as UTF-8",
)
OLD_ENCODING = declare(
    "old-encoding",
    "warn",
    means="A text file is not in UTF-8 and was read in the old Western European encoding.",
    effect="signs such as ³, ° and ä may have turned into others; figures are not touched",
    mend="save the file as csv in the UTF-8 encoding",
    example="Nm³ saved by an old program",
)
DOUBLY_ENCODED_TEXT = declare(
    "doubly-encoded-text",
    "warn",
    means="A text file holds signs that come from encoding it twice.",
    effect="a heading or unit may not be recognised; figures are not touched",
    mend="export the table again, in the UTF-8 encoding",
    example='"NmÂ³"; mended: "Nm³"',
)
UNCLEAR_DELIMITER = declare(
    "unclear-delimiter",
    "stop",
    means="The lines of a text table are not parted the same way by any of ; tab | and comma.",
    effect="values could move into the neighbouring column",
    mend='export the table with semicolons between the fields, or put a line "sep=;" on top',
    example="1,5,2,5 where the comma is both; mended: 1,5;2,5",
)
UNEVEN_LINE = declare(
    "uneven-line",
    "stop",
    means="A line of a text table has more fields than its heading, or a quote is left open.",
    effect="values could stand in the wrong column, so that the file is not read",
    mend="put texts that hold the delimiter into quotes, or close the open quote",
    example='2025-01-02;1;2;3 under Date;Feed gas; mended: "1;2"',
)


@dataclass(frozen=True, slots=True)
class _Line:
    """The fields of one line, with its number in the file."""

    number: int
    fields: list[str]


def open_text(name: str, content: bytes) -> tuple[Book | None, list[Finding]]:
    """Return a text table as one sheet without a name, and what was found.

    A cell is named as a spreadsheet shows it: column A is the first field, row 1 the first line,
    where a leading "sep=" line, which spreadsheets hide, is not counted.

    Args:
        name: of the file. [text]
        content: bytes that passed the guard. [bytes]

    Findings:
        unreadable-text-file, old-encoding, doubly-encoded-text: the encoding.
        unclear-delimiter, uneven-line: the fields.

    Source: definition
    """
    text, findings = _decoded(name, content)
    if text is None:
        return None, findings
    lines = _lines(text)
    if isinstance(lines, Finding | Refusal):
        return None, [*findings, _at(name, lines)]
    cells = {
        (line.number, column): Cell(line.number, column, "text", field, field)
        for line in lines
        for column, field in enumerate(line.fields, start=1)
        if field.strip()
    }
    sheet = Sheet(name, "", cells)
    return Book(name, len(content), sha256(content).hexdigest(), (sheet,), is_text=True), findings


def _at(name: str, fault: Finding | Refusal) -> Finding:
    """Return a refusal as a finding in the file."""
    return fault if isinstance(fault, Finding) else fault.code.at(Where(name), fault.what)


def _decoded(name: str, content: bytes) -> tuple[str | None, list[Finding]]:
    """Return the text of a file by its mark, else as UTF-8, else in the old encoding."""
    where = Where(name)
    encoding = next((known for mark, known in _BYTE_ORDER_MARKS if content.startswith(mark)), "")
    if not encoding and b"\0" in content:
        what = "the file looks like UTF-16 without its mark, or is no text"
        return None, [UNREADABLE_TEXT_FILE.at(where, what)]
    try:
        text = content.decode(encoding or "utf-8")
    except UnicodeDecodeError:
        if encoding:
            return None, [
                UNREADABLE_TEXT_FILE.at(where, "the file is not in the encoding of its mark")
            ]
        text = content.decode("cp1252", errors="replace")
        return text, [OLD_ENCODING.at(where, "the file is not in UTF-8")]
    if "\0" in text:
        return None, [UNREADABLE_TEXT_FILE.at(where, "the file holds bytes that are no text")]
    if any(sign in text for sign in ("Â³", "Â°", "Ã¤", "Ã¼", "Ã¶", "Ã©")):
        return text, [DOUBLY_ENCODED_TEXT.at(where, "the file holds signs that were encoded twice")]
    return text, []


def _lines(text: str) -> list[_Line] | Finding | Refusal:
    """Return the fields of all lines; a leading "sep=" line is not counted."""
    if number := _endless_line(text):
        return Refusal(UNEVEN_LINE, f"line {number} is longer than the line of any table")
    delimiter, body = _delimiter(text)
    if not delimiter:
        what = "the fields of the lines are not parted by one and the same sign"
        return Refusal(UNCLEAR_DELIMITER, what)
    csv.field_size_limit(FIELD_LIMIT)
    reader = csv.reader(_lines_of(body), delimiter=delimiter, strict=True)
    lines: list[_Line] = []
    try:
        lines.extend(_Line(number, fields) for number, fields in enumerate(reader, start=1))
    except csv.Error:
        what = f"line {len(lines) + 1} opens a quote that is never closed, or a field without end"
        return Refusal(UNEVEN_LINE, what)
    width = max(1, next((len(line.fields) for line in lines if len(line.fields) > 1), 1))
    for line in lines:
        if any(field.strip() for field in line.fields[width:]):
            what = f"line {line.number} has {len(line.fields)} fields, the lines above have {width}"
            return Refusal(UNEVEN_LINE, what)
    return lines


def _endless_line(text: str) -> int:
    """Return the number of the first line that is too long, 0 without one; looks no further."""
    start, number = 0, 0
    while start < len(text):
        number += 1
        match = _LINE.match(text, start, start + LINE_LIMIT + 1)
        if match is None or match.end() - start > LINE_LIMIT:
            return number
        start = match.end()
    return 0


def _lines_of(text: str) -> Iterable[str]:
    """Yield line by line, with whatever ends each: a whole file need not be held twice."""
    return (line.group() for line in _LINE.finditer(text))


def _delimiter(text: str) -> tuple[str, str]:
    """Return the delimiter, empty if it can't be told, and the text after a "sep=" line."""
    first, _, rest = text.partition("\n")
    if first.strip().lower().startswith("sep=") and len(first.strip("\r\n")) == len("sep=;"):
        return first[len("sep=")], rest
    lines = [line for line in islice(_lines_of(text), LINES_LOOKED_AT) if line.strip()]
    counts = [{sign: _count(line, sign) for sign in DELIMITERS} for line in lines]
    counts = [one for one in counts if any(one.values())]  # without titles and remarks
    firm = [sign for sign in DELIMITERS if _is_even(counts, sign, 0)]
    loose = [sign for sign in DELIMITERS if _is_even(counts, sign, len(text))]
    possible = firm if len(firm) == 1 else loose
    return (possible[0], text) if len(possible) == 1 else ("", text)


def _is_even(counts: list[dict[str, int]], sign: str, missing: int) -> bool:
    """Return whether a sign parts all lines like the first, but for some missing empty fields."""
    first = counts[0][sign] if counts else 0
    return first > 0 and all(max(1, first - missing) <= one[sign] <= first for one in counts)


def _count(line: str, sign: str) -> int:
    """Return how often a sign stands outside quotes."""
    return sum(part.count(sign) for part in line.split('"')[::2])
