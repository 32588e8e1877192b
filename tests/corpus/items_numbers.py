"""Numbers as text: marks, blanks, signs, powers, and what only looks like a number."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tests.corpus.item import DAYS, GOOD, Item, in_text, text_of


def read_as(name: str, *texts: str, values: Sequence[float] = (), **keys: Any) -> Item:
    """Return a file whose numbers are read without a finding."""
    expected = dict(zip(DAYS, values, strict=True)) if values else GOOD
    return Item(name, "power.csv", text_of(texts), expected, keys=keys)


def refused(text: str, code: str = "text-in-number-cell", cell: str = "B3") -> Item:
    """Return a file whose second number is refused, while the others stay."""
    left = {day: value for day, value in GOOD.items() if day != DAYS[1]}
    name = f"number {text.encode('unicode_escape').decode()} refused"
    content = text_of(("1.5", text, "1234.5"))
    return Item(name, "power.csv", content, left, ((code, in_text(cell)),))


NOT_NUMBERS = (
    "nan",
    "inf",
    "-Infinity",
    "1_000",
    "\u0661\u0662",
    "\uff11\uff12",
    "-",
    "Bad",
    "<0.5",
    "5.0-",
    "(5.0)",
    "12 MWh",
    "12 E",
    "e5",
    ".5",
    "5.",
    "1.2.3",
    "--5",
    "0x10",
    "1e400",
    "12,34,567.5",
    "98.5%",
    "#N/A",
    "=1+1",
    "\u2155",
)
NUMBER_ITEMS = [
    read_as("point decimal", "1.5", "2.25", "1234.5"),
    read_as("comma decimal", "1,5", "2,25", "1234,5"),
    read_as("comma thousands", "1.5", "2.25", "1,234.5"),
    read_as("point thousands", "1,5", "2,25", "1.234,5"),
    read_as("blank thousands", "1,5", "2,25", "1 234,5"),
    read_as("no-break blank thousands", "1,5", "2,25", "1\u00a0234,5"),
    read_as("narrow no-break blank thousands", "1,5", "2,25", "1\u202f234,5"),
    read_as("thin blank thousands", "1.5", "2.25", "1\u2009234.5"),
    read_as("figure blank thousands", "1.5", "2.25", "1\u2007234.5"),
    read_as("apostrophe thousands", "1.5", "2.25", "1'234.5"),
    read_as("curved apostrophe thousands", "1.5", "2.25", "1\u2019234.5"),
    read_as("blanks around", " 1.5", "2.25\u00a0", "\u202f1234.5 "),
    read_as("plus sign", "+1.5", "+2.25", "+1234.5"),
    read_as("powers of ten", "1.5e0", "225E-2", "1.2345e+03"),
    read_as("millions", "1.5", "2.25", "1,234,567.5", values=(1.5, 2.25, 1234567.5)),
    read_as("leading zeros", "001.5", "02.25", "01234.5"),
    read_as("zero is a reading", "0", "0.0", "-0", values=(0, 0, 0)),
    read_as("mark learned from another cell", "101,001", "2,5", "3", values=(101.001, 2.5, 3.0)),
    read_as(
        "thousands learned from another cell", "101,001", "2.5", "3", values=(101001, 2.5, 3.0)
    ),
    read_as(
        "mark set to comma",
        *("101,001",) * 3,
        values=(101.001,) * 3,
        decimal_mark=",",
    ),
    read_as(
        "mark set to point",
        *("101,001",) * 3,
        values=(101001.0,) * 3,
        decimal_mark=".",
    ),
    Item(
        "marks leave it open",
        "power.csv",
        text_of(("101,001", "101,002", "101,003")),
        {},
        (("ambiguous-decimal-mark", in_text("B2:B4")),),
    ),
    Item(
        "marks contradict each other",
        "power.csv",
        text_of(("100.5", "100,5", "7")),
        {DAYS[0]: 100.5, DAYS[2]: 7.0},
        (("contradictory-decimal-marks", in_text("B3")),),
    ),
    Item(
        "minus of typesetters",
        "power.csv",
        text_of(("\u22121.5", "2.25", "1234.5")),
        GOOD | {DAYS[0]: -1.5},
        (("negative-ticket", in_text("B2")),),
    ),
    Item(
        "ticket without amount",
        "power.csv",
        text_of(("1.5", "", "1234.5")),
        {DAYS[0]: 1.5, DAYS[2]: 1234.5},
        (("missing-reading", in_text("B3")),),
    ),
    Item(
        "two refused beside each other are told once",
        "power.csv",
        text_of(("n/a", "NULL", "1234.5")),
        {DAYS[2]: 1234.5},
        (("text-in-number-cell", in_text("B2:B3")),),
    ),
    *(refused(text) for text in NOT_NUMBERS),
]
