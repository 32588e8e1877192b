"""A pass over the parts of a workbook that stops at what no real workbook holds."""

from __future__ import annotations

import re
import zipfile
from xml.parsers import expat

from openpyxl.utils import get_column_letter

from footprint.base.finding import declare
from footprint.read.fault import Refusal

DEPTH_LIMIT = 64
CELLS_LIMIT = 2_000_000
ROWS_LIMIT = 1_048_576
COLUMNS_LIMIT = 16_384
CHUNK = 2**18
SPREAD_LIMIT = 50_000
RANGES_LIMIT = 10_000
FORMAT_LIMIT = 1_000  # a spreadsheet program allows 255 characters
_ADDRESS = re.compile(r"\$?([A-Z]{1,3})\$?([0-9]{1,7})")
_ROW = re.compile(r"[0-9]{1,7}")
_BEFORE_XML = b"\xef\xbb\xbf\xff\xfe\0 \t\r\n"

UNSAFE_WORKBOOK = declare(
    "unsafe-workbook",
    "stop",
    means="A workbook is damaged, or built in a way that no spreadsheet program builds one.",
    effect="opening it could exhaust the machine or read something else than what "
    "you see; it is not opened",
    mend="open it in a spreadsheet program, save it as a new .xlsx file, and use that",
    example="a workbook of 2 MB that unpacks to 2 GB; a file that was cut short while copied",
)


class _Stop(Exception):  # noqa: N818  it carries a finding out of the parser, it is no error of ours
    """Ends the pass with the reason in words."""


def scan_parts(archive: zipfile.ZipFile) -> Refusal | None:
    """Return why a part of the workbook is not safe to parse, or None.

    Every part that holds XML is looked at, whatever its name: a sheet may have any.

    Args:
        archive: the workbook, with its list of parts already checked. [archive]

    Findings:
        unsafe-workbook: document types, deep nesting, cells outside the grid or stored twice.

    Source: definition
    """
    for part in archive.infolist():
        try:
            _scan(archive, part)
        except _Stop as stop:
            return Refusal(UNSAFE_WORKBOOK, f'part "{part.filename}" {stop}')
        except expat.ExpatError:
            return Refusal(UNSAFE_WORKBOOK, f'part "{part.filename}" is not well-formed')
    return None


def _scan(archive: zipfile.ZipFile, part: zipfile.ZipInfo) -> None:
    """Run the parser over one part, unless it is a picture and the like."""
    parser = expat.ParserCreate()
    parser.StartDoctypeDeclHandler = _refuse_document_type
    _PartScan(parser)
    unpacked = 0
    with archive.open(part) as stream:
        while chunk := stream.read(CHUNK):
            if not unpacked and not chunk.lstrip(_BEFORE_XML).startswith(b"<"):
                return
            unpacked += len(chunk)
            if unpacked > part.file_size:
                raise _Stop("is longer than its archive says")
            parser.Parse(chunk, False)  # noqa: FBT003  the parser takes no keywords
    if unpacked:
        parser.Parse(b"", True)  # noqa: FBT003  the parser takes no keywords


def _refuse_document_type(*_: object) -> None:
    """Stop at a document type: through it come entities that swell or point to other files."""
    raise _Stop("declares a document type")


class _PartScan:
    """Follows depth, cells, ranges that spread over many cells, and number formats."""

    def __init__(self, parser: expat.XMLParserType) -> None:
        """Follow the elements that a parser meets."""
        self.seen: set[tuple[int, int]] = set()
        self.depth = 0
        self.cell_depth = -1  # of what stands right within a row
        self.row = 0
        self.column = 0
        self.ranges = 0
        self.spread = 0
        self.parser = parser
        self.text_of = {"n": self._number, "s": self._shared}
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        """Enter an element, and look at it where it says which cells it means."""
        self.depth += 1
        if self.depth > DEPTH_LIMIT:
            raise _Stop(f"nests elements deeper than {DEPTH_LIMIT}")
        if self.depth == self.cell_depth:
            self._cell(attributes.get("r"))
            self.parser.CharacterDataHandler = self.text_of.get(attributes.get("t", "n"))
            return
        match name.rpartition(":")[2]:
            case "row":
                self._row(attributes.get("r"))
            case "mergeCell" | "hyperlink":
                self._range(attributes.get("ref", ""))
            case _ if len(attributes.get("formatCode", "")) > FORMAT_LIMIT:
                raise _Stop(f"holds a number format of more than {FORMAT_LIMIT} characters")

    def _end(self, name: str) -> None:
        """Leave an element."""
        if self.depth == self.cell_depth:
            self.parser.CharacterDataHandler = None
        elif self.depth == self.cell_depth - 1 and name.rpartition(":")[2] == "row":
            self.cell_depth = -1
        self.depth -= 1

    def _number(self, text: str) -> None:
        """Enter the text of a number; the reader would take 1_000 for 1000."""
        if not text.isascii() or "_" in text:
            raise _Stop(f'holds "{text[:20]}" in the place of a number')

    def _shared(self, text: str) -> None:
        """Enter the place of a shared text; the reader would take the last text for -1."""
        digits = text.strip()
        if digits and not (digits.isascii() and digits.isdigit()):
            raise _Stop(f'holds "{text[:20]}" in the place of a shared text')

    def _row(self, number: str | None) -> None:
        """Enter a row; without a number it follows the row above it."""
        self.cell_depth = self.depth + 1
        self.row = self.row + 1 if number is None else _row_number(number)
        self.column = 0

    def _cell(self, address: str | None) -> None:
        """Enter a cell, which must lie in the grid and come once."""
        row, self.column = _place(address) if address else (self.row, self.column + 1)
        if not _is_in_grid(row, self.column):
            raise _Stop(f"holds a cell {(address or f'in row {row}')[:20]} outside the grid")
        if (row, self.column) in self.seen:
            raise _Stop(f"holds cell {get_column_letter(self.column)}{row} twice")
        self.seen.add((row, self.column))
        if len(self.seen) > CELLS_LIMIT:
            raise _Stop("holds more than 2 million cells")

    def _range(self, text: str) -> None:
        """Enter a range; the reader makes a cell for each of its places."""
        first, _, last = text.partition(":")
        (top, left), (bottom, right) = _place(first), _place(last or first)
        if not (_is_in_grid(top, left) and _is_in_grid(bottom, right)):
            raise _Stop(f'names a range "{text[:20]}" outside the grid')
        self.ranges += 1
        if self.ranges > RANGES_LIMIT:
            raise _Stop(f"merges or links more than {RANGES_LIMIT} ranges")
        self.spread += (abs(bottom - top) + 1) * (abs(right - left) + 1)
        if self.spread > SPREAD_LIMIT:
            raise _Stop(f"merges or links more than {SPREAD_LIMIT} cells")


def _row_number(text: str) -> int:
    """Return the number of a row, 0 where it is none."""
    return int(text) if _ROW.fullmatch(text) else 0


def _place(address: str) -> tuple[int, int]:
    """Return row and column of an address; zeros where it is none."""
    match = _ADDRESS.fullmatch(address)
    if not match:
        return 0, 0
    column = 0
    for letter in match[1]:
        column = column * 26 + ord(letter) - ord("A") + 1
    return int(match[2]), column


def _is_in_grid(row: int, column: int) -> bool:
    """Return whether a spreadsheet has a cell at this place."""
    return 1 <= column <= COLUMNS_LIMIT and 1 <= row <= ROWS_LIMIT
