"""A pass over the parts of a workbook that stops at what no real workbook holds."""

from __future__ import annotations

import re
import zipfile
from xml.parsers import expat

from footprint.base.finding import declare
from footprint.read.fault import Refusal

DEPTH_LIMIT = 64
CELLS_LIMIT = 2_000_000
ROWS_LIMIT = 1_048_576
COLUMNS_LIMIT = 16_384
CHUNK = 2**18
_ADDRESS = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")

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

    Args:
        archive: the workbook, with its list of parts already checked. [archive]

    Findings:
        unsafe-workbook: document types, deep nesting, cells outside the grid or stored twice.

    Source: definition
    """
    for part in archive.infolist():
        if part.filename.endswith((".xml", ".rels", ".vml")):
            try:
                _scan(archive, part)
            except _Stop as stop:
                return Refusal(UNSAFE_WORKBOOK, f'part "{part.filename}" {stop}')
            except expat.ExpatError:
                return Refusal(UNSAFE_WORKBOOK, f'part "{part.filename}" is not well-formed')
    return None


def _scan(archive: zipfile.ZipFile, part: zipfile.ZipInfo) -> None:
    """Run the parser over one part; raises _Stop or ExpatError."""
    parser = expat.ParserCreate()
    parser.StartDoctypeDeclHandler = _refuse_document_type
    scan = _CellScan if "worksheets/" in part.filename else _DepthScan
    scan(parser)
    unpacked = 0
    with archive.open(part) as stream:
        while chunk := stream.read(CHUNK):
            unpacked += len(chunk)
            if unpacked > part.file_size:
                raise _Stop("is longer than its archive says")
            parser.Parse(chunk, False)  # noqa: FBT003  the parser takes no keywords
    parser.Parse(b"", True)  # noqa: FBT003  the parser takes no keywords


def _refuse_document_type(*_: object) -> None:
    """Stop at a document type: through it come entities that swell or point to other files."""
    raise _Stop("declares a document type")


class _DepthScan:
    """Counts how deep elements are nested."""

    def __init__(self, parser: expat.XMLParserType) -> None:
        """Follow the elements that a parser meets."""
        self.depth = 0
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end

    def _start(self, name: str, attributes: dict[str, str]) -> None:  # noqa: ARG002  fixed by expat
        """Enter an element."""
        self.depth += 1
        if self.depth > DEPTH_LIMIT:
            raise _Stop(f"nests elements deeper than {DEPTH_LIMIT}")

    def _end(self, name: str) -> None:  # noqa: ARG002  fixed by expat
        """Leave an element."""
        self.depth -= 1


class _CellScan(_DepthScan):
    """Counts cells and looks at their addresses."""

    def __init__(self, parser: expat.XMLParserType) -> None:
        """Follow the elements that a parser meets."""
        super().__init__(parser)
        self.seen: set[str] = set()
        self.cells = 0

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        """Enter an element; a cell's address must lie in the grid and come once."""
        super()._start(name, attributes)
        if name.rpartition(":")[2] != "c":
            return
        self.cells += 1
        if self.cells > CELLS_LIMIT:
            raise _Stop("holds more than 2 million cells")
        address = attributes.get("r")
        if address is None:  # allowed: the cell follows its neighbour
            return
        if address in self.seen:
            raise _Stop(f"holds cell {address[:20]} twice")
        if not _is_in_grid(address):
            raise _Stop(f"holds a cell {address[:20]} outside the grid")
        self.seen.add(address)


def _is_in_grid(address: str) -> bool:
    """Return whether a spreadsheet has a cell of this address."""
    match = _ADDRESS.fullmatch(address)
    if not match:
        return False
    column = 0
    for letter in match[1]:
        column = column * 26 + ord(letter) - ord("A") + 1
    return column <= COLUMNS_LIMIT and 1 <= int(match[2]) <= ROWS_LIMIT
