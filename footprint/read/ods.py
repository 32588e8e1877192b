"""Workbooks of the OpenDocument format (ISO/IEC 26300) as sparse cells."""

from __future__ import annotations

import math
import re
import zipfile
from dataclasses import dataclass, field
from datetime import datetime
from io import BytesIO
from xml.etree import ElementTree as ET
from xml.etree.ElementTree import Element

from footprint.read.part_scan import CELLS_LIMIT, COLUMNS_LIMIT, ROWS_LIMIT, SPREAD_LIMIT
from footprint.read.sheet import Cell, Kind, Merged, Sheet
from footprint.read.workbook import typed, written_of

_ERROR = re.compile(r"#[A-Z0-9/!?]+|Err:\d+")
_OWN_SHEET = re.compile(r"\[\.([^\]#]*)\]")
_OTHER_FILE = re.compile(r"\['file:[^'#]*/([^'/#]+)'#\$?([^.\]]*)\.([^\]]*)\]")
_SPACE = "urn:oasis:names:tc:opendocument:xmlns:{}:1.0"
TABLE, STYLE, OFFICE = (_SPACE.format(name) for name in ("table", "style", "office"))
Value = float | str | datetime | bool


class NotAWorkbookError(ValueError):
    """A sheet holds what no real sheet does: cells without end, numbers that are none."""


def sheets_of_ods(name: str, content: bytes) -> tuple[Sheet, ...]:
    """Return the sheets of a workbook that passed the guard, row by row and without its styles.

    Args:
        name: of the file. [text]
        content: of the file. [bytes]

    Raises:
        NotAWorkbookError: cells without end, numbers that are none.

    Source: OASIS OpenDocument 1.2, part 1, chapter 9 (from memory)
    """
    scan = _Scan(name)
    with zipfile.ZipFile(BytesIO(content)) as archive, archive.open("content.xml") as part:
        for event, node in ET.iterparse(part, ("start", "end")):  # noqa: S314  the guard refused document types
            scan.take(event, node)
    return tuple(scan.sheets)


def _kind(node: Element) -> str:
    """Return the local name of an element."""
    return node.tag.rpartition("}")[2]


def _text(node: Element, space: str, name: str) -> str | None:
    """Return an attribute of an element, or None where it has no such."""
    return node.get(f"{{{space}}}{name}")


def _times(node: Element, attribute: str) -> int:
    """Return how often an element stands for itself, one after the other."""
    return max(int(_text(node, TABLE, attribute) or 1), 1)


def _is_hidden(node: Element) -> bool:
    """Return whether a row or column is hidden or filtered out."""
    return _text(node, TABLE, "visibility") in ("collapse", "filter")


@dataclass(eq=False, slots=True)
class _Scan:
    """The sheets read so far, and the table whose rows are being passed.

    Attributes:
        file: name of the file. [text]
        sheets: that are complete. [sheets]
        hidden_styles: of tables that are not shown. [text]
        table: the element whose rows are passed; None between tables. [element]
        row: that comes next. [1]
        column: whose width comes next. [1]
        cells: of the table. [cells]
        merged: ranges of the table. [ranges]
        hidden: rows and columns of the table. [1]
        passed: cells of all tables, empty ones too. [1]
        spread: cells that stand for a repetition: a small file must not make millions. [1]
    """

    file: str
    sheets: list[Sheet] = field(default_factory=list)
    hidden_styles: set[str] = field(default_factory=set)
    table: Element | None = None
    row: int = 1
    column: int = 1
    cells: dict[tuple[int, int], Cell] = field(default_factory=dict)
    merged: list[Merged] = field(default_factory=list)
    hidden: tuple[set[int], set[int]] = field(default_factory=lambda: (set(), set()))
    passed: int = 0
    spread: int = 0

    def take(self, event: str, node: Element) -> None:
        """Take the start or end of an element.

        Args:
            event: start or end. [text]
            node: that starts or ends. [element]

        Source: definition
        """
        kind = _kind(node)
        if event == "start":
            if kind == "table":
                self._begin(node)
        elif kind == "style" and any(_text(one, TABLE, "display") == "false" for one in node):
            self.hidden_styles.add(_text(node, STYLE, "name") or "")
        elif self.table is not None and kind == "table-column":
            self._pass_columns(node)
        elif self.table is not None and kind == "table-row":
            self._pass_rows(node)
            node.clear()  # so that a long sheet needs no more memory than its cells
        elif node is self.table:
            self._end()

    def _begin(self, table: Element) -> None:
        """Begin a table; one inside another is no sheet of a spreadsheet."""
        if self.table is not None:
            raise NotAWorkbookError("a table inside a table")
        self.table, self.row, self.column = table, 1, 1
        self.cells, self.merged, self.hidden = {}, [], (set(), set())

    def _end(self) -> None:
        """Keep a table that is complete."""
        if self.table is None:
            return
        style = _text(self.table, TABLE, "style-name")
        sheet = Sheet(
            self.file,
            _text(self.table, TABLE, "name") or "",
            self.cells,
            is_hidden=style in self.hidden_styles,
            hidden_rows=frozenset(self.hidden[0]),
            hidden_columns=frozenset(self.hidden[1]),
            merged=tuple(self.merged),
        )
        self.sheets.append(sheet)
        self.table.clear()
        self.table = None

    def _pass_columns(self, node: Element) -> None:
        """Pass the widths of columns, of which some are hidden."""
        after = min(self.column + _times(node, "number-columns-repeated"), COLUMNS_LIMIT + 1)
        if _is_hidden(node):
            self.hidden[1].update(range(self.column, after))
        self.column = after

    def _pass_rows(self, node: Element) -> None:
        """Pass a row and its repetitions."""
        times, before = _times(node, "number-rows-repeated"), len(self.cells)
        self._row(node, self.row, times)
        if _is_hidden(node) and before < len(self.cells):
            self.hidden[0].update(range(self.row, self.row + times))
        self.row += times

    def _row(self, row: Element, at: int, times: int) -> None:
        """Keep the cells of a row that hold something, as often as they are repeated."""
        column = 1
        for cell in row:
            if _kind(cell) not in ("table-cell", "covered-table-cell"):
                continue
            self.passed += 1
            if self.passed > CELLS_LIMIT:
                raise NotAWorkbookError("cells without end")
            repeated = _times(cell, "number-columns-repeated")
            self._merge(cell, at, column)
            if (found := _read(cell)) is not None:
                self._keep(found, range(at, at + times), range(column, column + repeated))
            column += repeated

    def _keep(self, found: tuple[Kind, Value, bool, str], rows: range, columns: range) -> None:
        """Keep one cell at each of its places."""
        is_outside = rows.stop > ROWS_LIMIT + 1 or columns.stop > COLUMNS_LIMIT + 1
        self.spread += len(rows) * len(columns) - 1
        is_endless = self.spread > SPREAD_LIMIT or len(self.cells) > CELLS_LIMIT
        if is_outside or is_endless:
            raise NotAWorkbookError("cells without end")
        kind, value, is_percent, formula = found
        text = written_of(value, is_percent=is_percent)
        for row in rows:
            for column in columns:
                self.cells[row, column] = Cell(
                    row, column, kind, value, text, is_percent=is_percent, formula=formula
                )

    def _merge(self, cell: Element, row: int, column: int) -> None:
        """Keep the range of a cell that spans others."""
        down, across = (
            _times(cell, name) for name in ("number-rows-spanned", "number-columns-spanned")
        )
        if row + down - 1 > ROWS_LIMIT or column + across - 1 > COLUMNS_LIMIT:
            raise NotAWorkbookError("cells without end")
        if down * across > 1:
            self.merged.append(Merged(row, column, row + down - 1, column + across - 1))


def _read(cell: Element) -> tuple[Kind, Value, bool, str] | None:
    """Return kind, value, whether it is shown as per cent, and formula; None for an empty cell."""
    stored, formula = (
        _text(cell, OFFICE, "value-type"),
        _formula(_text(cell, TABLE, "formula") or ""),
    )
    text = "\n".join("".join(one.itertext()) for one in cell if _kind(one) == "p")
    if stored is None and not text:
        return ("no result", "", False, formula) if formula else None
    if _ERROR.fullmatch(text) and stored in (None, "string"):
        return "error", text, False, formula
    kind, value = _stored(cell, stored, text)
    if value == "" and not formula:
        return None
    return kind, value, stored == "percentage", formula


def _stored(cell: Element, stored: str | None, text: str) -> tuple[Kind, Value]:
    """Return what the file says the value of a cell is."""
    match stored:
        case "float" | "currency" | "percentage":
            return "number", _finite(float(_text(cell, OFFICE, "value") or "nan"))
        case "date":
            return typed(datetime.fromisoformat(_text(cell, OFFICE, "date-value") or ""))
        case "time":
            return "time", text or (_text(cell, OFFICE, "time-value") or "")
        case "boolean":
            return "truth", _text(cell, OFFICE, "boolean-value") == "true"
        case _:
            return "text", text


def _finite(number: float) -> float:
    """Return a number, unless it is none."""
    if not math.isfinite(number):
        raise NotAWorkbookError("a number cell without number")
    return number


def _formula(stored: str) -> str:
    """Return a formula as a spreadsheet shows it: "of:=[.B2]*2" is "=B2*2"."""
    if not stored:
        return ""
    bare = "=" + stored.partition("=")[2]
    return _OWN_SHEET.sub(r"\1", _OTHER_FILE.sub(r"[\1]\2!\3", bare)).replace(":.", ":")
