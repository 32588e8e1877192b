"""Where every named row stands: each has one place, and a row without a place is refused."""

from __future__ import annotations

from dataclasses import dataclass, field

from footprint.base.axis import Axis
from footprint.base.row import Row
from footprint.report.book import Book
from footprint.report.lineage import Lineage, Side, lineage_of
from footprint.report.places import LayoutError, Place
from footprint.report.plan import FactorSheet, ListSheet, MonthSheet, ReadingBlock, TableSheet

AT_A_GLANCE, SIGN_OFF, CHECKS, FINDINGS = "At a glance", "Sign-off", "Checks", "Findings"
STEPS, READINGS, ANALYSES = "Workings", "Readings", "Gas analyses"
BY_PIECE, BY_DAY, FACTORS = "By analysis period", "By day", "Factors"
FILES, HOW = "Input files", "How it works"
BALANCE = "Carbon balance"  # page that the picture of flows stands on, where there is one
OURS = frozenset(
    [
        AT_A_GLANCE,
        SIGN_OFF,
        CHECKS,
        FINDINGS,
        STEPS,
        READINGS,
        ANALYSES,
        BY_PIECE,
        BY_DAY,
        FACTORS,
        FILES,
        HOW,
    ]
)


@dataclass(frozen=True, slots=True)
class BlockPlace:
    """The cells of a block: side by side, or one below the other where months run across.

    Attributes:
        sheet: name of the sheet. [text]
        row: first cell. [1]
        column: first cell. [1]
        size: number of rows in the block. [1]
        is_upright: one below the other. [flag]
        runs: moves along with the periods. [flag]
    """

    sheet: str
    row: int
    column: int
    size: int
    is_upright: bool
    runs: bool


@dataclass(eq=False)
class Layout:
    """The plan of the workbook.

    Attributes:
        book: what is shown. [book]
        lineage: named rows and how they hang together. [lineage]
        places: the cells that formulas refer to. [places]
        evidence: where the values stand of rows that are shown elsewhere by reference. [places]
        blocks: cells of each block, by its rows and the axis they are used on. [places]
    """

    book: Book
    lineage: Lineage
    places: dict[Row, Place] = field(default_factory=dict)
    evidence: dict[Row, Place] = field(default_factory=dict)
    blocks: dict[tuple[Side, Axis], BlockPlace] = field(default_factory=dict)
    pages: list[MonthSheet | ListSheet] = field(default_factory=list)
    checks: MonthSheet = field(default_factory=lambda: MonthSheet(CHECKS, ""))
    readings: list[ReadingBlock] = field(default_factory=list)
    tables: list[TableSheet] = field(default_factory=list)
    factors: FactorSheet = field(default_factory=FactorSheet)

    def place(self, row: Row) -> Place:
        """Return the cells that formulas refer to.

        Args:
            row: a named row. [row]

        Raises:
            LayoutError: the row has no place.

        Source: definition
        """
        if row not in self.places:
            raise LayoutError(
                f"{row.key or row.op or 'a nameless value'} has no place in the workbook"
            )
        return self.places[row]

    def put(self, row: Row, place: Place) -> None:
        """Give a row its place, unless it has one: then the new cells only refer to the old.

        Args:
            row: a named row. [row]
            place: its first cell. [place]

        Source: definition
        """
        self.places.setdefault(row, place)

    def source(self, row: Row) -> Place:
        """Return where the values of a row stand as they were read or found.

        Args:
            row: a named row. [row]

        Source: definition
        """
        return self.evidence.get(row) or self.place(row)


def empty_layout(book: Book) -> Layout:
    """Return a layout in which nothing has a place yet.

    Args:
        book: what is shown. [book]

    Raises:
        LayoutError: two pages share a name, or a page takes a name that is ours.

    Source: definition
    """
    names = [page.name.casefold() for page in book.pages]
    taken = {name.casefold() for name in OURS}
    for name in names:
        if names.count(name) > 1 or name in taken:
            raise LayoutError(f"two sheets would be called {name}")
    return Layout(book, lineage_of(book.tops))


def refuse_homeless(layout: Layout) -> None:
    """Make sure that every named row has a place.

    Args:
        layout: the finished plan. [layout]

    Raises:
        LayoutError: a row has none.

    Source: definition
    """
    homeless = [row.key for row in layout.lineage.rows if row not in layout.places]
    if homeless:
        raise LayoutError(f"no place in the workbook for {', '.join(homeless)}")
