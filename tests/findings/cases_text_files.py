"""Faults of text files: encoding, delimiter, lines."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tests.findings.case import Case
from tests.findings.site_folder import SiteFolder

GOOD = ["Date;Feed gas (Nm3)", "2025-03-04;12.5", "2025-03-05;12.75"]


def lines(*more: str, **keys: Any) -> Callable[[SiteFolder], None]:
    """Return a change that gives the feed meter a text file of these lines."""
    return lambda folder: folder.use_text(list(more), **keys)


def encoded(text: str, encoding: str) -> Callable[[SiteFolder], None]:
    """Return a change that gives the feed meter a text file in an encoding."""

    def change(folder: SiteFolder) -> None:
        folder.use_text(GOOD)
        folder.texts["feed.csv"] = text.encode(encoding)

    return change


TEXT = "\n".join(GOOD) + "\n"
TEXT_CASES = [
    Case(
        "unreadable-text-file",
        encoded(TEXT, "utf-16-le"),
        "feed.csv",
        "the file looks like UTF-16 without its mark, or is no text",
    ),
    Case("old-encoding", encoded(TEXT + "# °\n", "cp1252"), "feed.csv", "the file is not in UTF-8"),
    Case(
        "doubly-encoded-text",
        encoded(TEXT + "# Â°\n", "utf-8"),
        "feed.csv",
        "the file holds signs that were encoded twice",
    ),
    Case(
        "unclear-delimiter",
        lines("Date,Feed gas (Nm3)", "2025-03-04,12,5", "2025-03-05,12,75"),
        "feed.csv",
        "the fields of the lines are not parted by one and the same sign",
    ),
    Case(
        "uneven-line",
        lines(*GOOD, *["2025-03-06;1"] * 20, "2025-03-06;1;2"),
        "feed.csv",
        "line 24 has 3 fields, the lines above have 2",
    ),
    Case(
        "uneven-line",
        lines(*GOOD, '2025-03-06;"1'),
        "feed.csv",
        "line 4 opens a quote that is never closed, or a field without end",
    ),
    Case(
        "ambiguous-decimal-mark",
        lines("Date;Feed gas (Nm3)", "2025-03-04;12,500", "2025-03-05;12,750"),
        'feed.csv > B2:B3 (column "Feed gas (Nm3)")',
        '"12,500" may be 12.5 or 12500, and 1 more cell like it',
    ),
]
