"""What a cell looks like: colour roles, each with a second mark, and number formats."""

from __future__ import annotations

from typing import Any, Literal

from xlsxwriter import Workbook
from xlsxwriter.format import Format

from footprint.base.row import Row
from footprint.base.source import Assumption, Factor, Origin, Reading
from footprint.report.words import decimals, is_share, published_decimals

Role = Literal[
    "reading",
    "assumption",
    "frozen",
    "factor",
    "calculated",
    "total",
    "passed",
    "look",
    "open",
    "estimated",
    "link",
    "heading",
    "section",
    "title",
    "note",
    "text",
    "small",
    "key",
    "missing",
    "entry",
    "figure",
]
LINE = "#8A97A8"
# text and fill of each role, with a contrast above 4.5 : 1; the second mark stands beside it
ROLES: dict[Role, dict[str, Any]] = {
    "reading": {
        "font_color": "#0B3D91",
        "bg_color": "#EDE7F6",
        "locked": False,
    },  # legend "entry"; unlocked
    "entry": {
        "font_color": "#0B3D91",
        "bg_color": "#EDE7F6",
        "locked": False,
        "bottom": 1,
        "bottom_color": LINE,
    },
    "assumption": {"font_color": "#3E2723", "bg_color": "#EFEBE9"},  # the author beside it
    "frozen": {"font_color": "#37474F", "bg_color": "#E0F2F1"},  # HOLDS or OPEN beside it
    "factor": {
        "font_color": "#1B3F73",
        "bg_color": "#DCE9F7",
    },  # lives on its own sheet, source beside it
    "calculated": {"font_color": "#000000"},  # a formula
    "total": {
        "font_color": "#000000",
        "bg_color": "#E7ECF2",
        "bold": True,
        "top": 1,
        "top_color": "#1F3A5F",
    },
    "passed": {"font_color": "#0B4F3C", "bg_color": "#D5EFE3", "bold": True},  # the word PASS
    "look": {"font_color": "#5C3D00", "bg_color": "#FFD9A0", "bold": True},  # the word LOOK
    "open": {"font_color": "#FFFFFF", "bg_color": "#B03A00", "bold": True},  # the word OPEN
    "estimated": {
        "font_color": "#5C3D00",
        "bg_color": "#FFD9A0",
        "locked": False,
    },  # letter E beside it
    "missing": {
        "font_color": "#5C3D00",
        "bg_color": "#FFD9A0",
        "italic": True,
        "locked": False,
    },  # words no data
    "link": {"font_color": "#0B5394", "underline": 1},
    "heading": {
        "font_color": "#FFFFFF",
        "bg_color": "#1F3A5F",
        "bold": True,
        "text_wrap": True,
        "valign": "vcenter",
    },
    "section": {"font_color": "#1F3A5F", "bold": True, "bottom": 1, "bottom_color": "#1F3A5F"},
    "title": {"font_color": "#1F3A5F", "bold": True, "font_size": 16},
    "note": {"font_color": "#404040", "italic": True},
    "text": {"font_color": "#000000", "text_wrap": True},
    "small": {"font_color": "#404040", "font_size": 8, "text_wrap": True},
    "key": {"font_color": "#555555", "font_size": 8},
    "figure": {"font_color": "#000000", "bold": True, "font_size": 12},
}


class Looks:
    """Formats of one workbook, each made once."""

    def __init__(self, workbook: Workbook) -> None:
        """Start without any format."""
        self._workbook = workbook
        self._made: dict[tuple[Any, ...], Format] = {}
        self._numbers: dict[Row, str] = {}

    def of(self, role: Role, numbers: str = "", **more: Any) -> Format:
        """Return the format of a role.

        Args:
            role: what the cell is. [role]
            numbers: number format; empty for text. [text]
            more: further properties, such as an indent. [any]

        Source: definition
        """
        wanted = (role, numbers, *more.items())
        if wanted not in self._made:
            number = {"num_format": numbers} if numbers else {}
            side = {"align": "left"} if "indent" in more else {}  # an indent needs its side named
            self._made[wanted] = self._workbook.add_format(
                {"valign": "top"} | ROLES[role] | number | side | more
            )
        return self._made[wanted]

    def numbers(self, row: Row) -> str:
        """Return the number format of a row.

        Args:
            row: a named row. [row]

        Source: definition
        """
        if row not in self._numbers:
            self._numbers[row] = number_format(row)
        return self._numbers[row]


def number_format(row: Row) -> str:
    """Return how the numbers of a row are shown: no unit, a minus for negatives, zero as 0.

    Args:
        row: a named row. [row]

    Source: definition
    """
    if row.is_leaf and row.axis.kind == "once":
        return factor_format(float(row.values[0]))
    places = decimals(row)
    if is_share(row):
        return f"0.{'0' * places}%"
    return "#,##0" + ("." + "0" * places if places else "")


TINY, MOST_PLACES = 1e-4, 12


def factor_format(value: float) -> str:
    """Return the format that shows all digits a factor was published with.

    Args:
        value: the number. [any]

    Source: definition
    """
    places = published_decimals(value) if value == value else 0  # noqa: PLR0124  NaN differs from itself
    if places > MOST_PLACES or 0 < abs(value) < TINY:
        digits = len(f"{value:.15g}".partition("e")[0].replace(".", "").lstrip("-0")) - 1
        return "0" + ("." + "0" * digits if digits else "") + "E+00"
    return "#,##0" + ("." + "0" * places if places else "")


def role_of(origin: Origin | None, *, is_missing: bool) -> Role:
    """Return the role of a cell that holds a value of its own.

    Args:
        origin: where the value comes from. [origin]
        is_missing: there is no value. [flag]

    Source: definition
    """
    if is_missing:
        return "missing"
    if isinstance(origin, Assumption):
        return "assumption"
    if isinstance(origin, Factor):
        return "factor"
    return "reading" if isinstance(origin, Reading) else "frozen"
