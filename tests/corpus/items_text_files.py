"""Text files: encodings, delimiters, quotes, line ends, lines that are no rows."""

from __future__ import annotations

import codecs

from tests.corpus.item import DAYS, GOOD, POWER, Item, in_text, lines, text_of

HEAD = f"Date;{POWER}"
ROWS = ("2025-01-02;1.5", "2025-02-03;2.25", "2025-03-04;1234.5")
TEXT = (HEAD, *ROWS)
REMARK = "# wie im März bei 15 °C"


def text_file(name: str, content: bytes, *codes: tuple[str, str], **keys: str) -> Item:
    """Return a file that gives the good values, with the findings named."""
    return Item(f"text file, {name}", "power.csv", content, GOOD, codes, keys)


def unreadable(name: str, content: bytes, code: str) -> Item:
    """Return a file of which nothing is read."""
    return Item(name, "power.csv", content, {}, ((code, "power.csv"),))


def encoded(encoding: str, mark: bytes = b"") -> bytes:
    """Return the table with a remark that is not plain ASCII, in an encoding."""
    return mark + lines(*TEXT, REMARK, encoding=encoding)


TEXT_FILE_ITEMS = [
    text_file("utf-8", encoded("utf-8")),
    text_file("utf-8 with mark", encoded("utf-8-sig")),
    text_file("utf-16 with mark", encoded("utf-16")),
    text_file("utf-16 big-endian with mark", encoded("utf-16-be", codecs.BOM_UTF16_BE)),
    text_file("utf-16 little-endian with mark", encoded("utf-16-le", codecs.BOM_UTF16_LE)),
    text_file("cp1252", encoded("cp1252"), ("old-encoding", "power.csv")),
    text_file("latin-1 umlauts", encoded("latin-1"), ("old-encoding", "power.csv")),
    text_file(
        "utf-8 encoded twice",
        lines(*TEXT, "# Nm³".encode().decode("cp1252")),
        ("doubly-encoded-text", "power.csv"),
    ),
    text_file("semicolons", text_of(("1.5", "2.25", "1234.5"), sign=";")),
    text_file("commas", text_of(("1.5", "2.25", "1234.5"), sign=",")),
    text_file("tabs", text_of(("1.5", "2.25", "1234.5"), sign="\t")),
    text_file("bars", text_of(("1.5", "2.25", "1234.5"), sign="|")),
    text_file("sep= line", lines("sep=;", *TEXT)),
    text_file("sep= line of commas", lines("sep=,", *(line.replace(";", ",") for line in TEXT))),
    text_file("line ends of Windows", lines(*TEXT, end="\r\n")),
    text_file("line ends of old machines", lines(*TEXT, end="\r")),
    text_file("no line end at the end", lines(*TEXT).rstrip()),
    text_file("blank lines between", lines(HEAD, "", ROWS[0], "", "", ROWS[1], ";", ROWS[2], "")),
    text_file("title lines above", lines("A works that does not exist", "", *TEXT)),
    text_file("sep= line above a title with commas", lines("sep=;", "Works, Ltd, 2025", *TEXT)),
    unreadable(
        "title with a comma above semicolons", lines("Works, Ltd", *TEXT), "unclear-delimiter"
    ),
    text_file("remark below", lines(*TEXT, "checked by the shift leader")),
    text_file(
        "everything in quotes",
        lines(*(f'"{line.replace(";", chr(34) + ";" + chr(34))}"' for line in TEXT)),
    ),
    text_file(
        "delimiter within quotes", lines(HEAD + ";Remark", *(f'{row};"a; b"' for row in ROWS))
    ),
    text_file(
        "line end within quotes", lines(HEAD + ";Remark", *(f'{row};"a\nb"' for row in ROWS))
    ),
    text_file(
        "quotes within quotes", lines(HEAD + ";Remark", *(f'{row};"a ""b"" c"' for row in ROWS))
    ),
    text_file(
        "comma decimals in quotes",
        lines(
            f"Date,{POWER}",
            *(
                f'{day},"{value}"'
                for day, value in zip(DAYS, ("1,5", "2,25", "1234,5"), strict=True)
            ),
        ),
    ),
    text_file("empty fields behind", lines(*(line + ";;;" for line in TEXT))),
    text_file("lines of unequal length", lines(HEAD + ";Remark", ROWS[0] + ";", *ROWS[1:])),
    text_file("unit row", lines("Date;Power bought", ";MWh", *ROWS)),
    text_file("unit behind a comma", lines('Date;"Power bought, MWh"', *ROWS)),
    text_file("unit in square brackets", lines("Date;Power bought [MWh]", *ROWS)),
    text_file("heading in capitals", lines(HEAD.upper().replace("MWH", "MWh"), *ROWS)),
    text_file("no-break blank in the heading", lines(HEAD.replace(" ", "\u00a0"), *ROWS)),
    text_file(
        "zero-width blank in the heading", lines("\u200bDate;Power\u200b bought (MWh)", *ROWS)
    ),
    unreadable("utf-16 without mark", encoded("utf-16-le"), "unreadable-text-file"),
    unreadable("utf-16 cut within a sign", encoded("utf-16")[:-1], "unreadable-text-file"),
    unreadable(
        "mark of utf-8 before other bytes", codecs.BOM_UTF8 + b"\xff;\xfe\n", "unreadable-text-file"
    ),
    unreadable("zero bytes", lines(*TEXT).replace(b"1.5", b"1\x005"), "unreadable-text-file"),
    unreadable("zero bytes after a mark", "Date;\0".encode("utf-16"), "unreadable-text-file"),
    unreadable(
        "comma is delimiter and decimal mark",
        lines(f"Date,{POWER}", "2025-01-02,1,5", "2025-02-03,2,25"),
        "unclear-delimiter",
    ),
    unreadable("blanks between fields", lines("Date Power", "2025-01-02 1.5"), "unclear-delimiter"),
    unreadable("quote left open", lines(*TEXT[:2], '2025-02-03;"2.25', ROWS[2]), "uneven-line"),
    unreadable(
        "more fields than headings", lines(*TEXT, *ROWS[:1] * 20, "2025-03-05;1;2"), "uneven-line"
    ),
    unreadable(
        "field without end", lines(*TEXT, '2025-03-05;"' + "9" * 70_000 + '"'), "uneven-line"
    ),
    Item("no heading", "power.csv", lines(*ROWS), {}, (("missing-column", "power.csv"),)),
    Item(
        "heading in another language",
        "power.csv",
        lines("Datum;Strombezug (MWh)", *ROWS),
        {},
        (("missing-column", "power.csv"),),
    ),
    Item(
        "heading twice",
        "power.csv",
        lines(HEAD + ";" + POWER, *(row + ";1" for row in ROWS)),
        {},
        (("repeated-heading", "power.csv > B1, C1"),),
    ),
    Item("heading repeated on each page", "power.csv", lines(HEAD, ROWS[0], HEAD, *ROWS[1:])),
    Item("headings alone", "power.csv", lines(HEAD), {}),
    Item(
        "two rows without date",
        "power.csv",
        lines(*TEXT[:2], ";2.25", ";7.5", ROWS[2]),
        {DAYS[0]: 1.5, DAYS[2]: 1234.5},
        (("row-without-date", in_text("A3:A4", "Date")),),
    ),
]
