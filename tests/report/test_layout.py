from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from footprint.base.formulas import block_product, total
from footprint.base.line import Line, Page, Section
from footprint.base.row import Row, leaf, step
from footprint.base.source import Reading
from footprint.base.units import unit
from footprint.report import Book
from footprint.report.arrange import arrange
from footprint.report.cells import contents
from footprint.report.places import LayoutError, Place
from tests.report.gas_rows import MONTHS, SEEN, properties, samples_of
from tests.report.works import book


def showing(*rows: Row, name: str = "Trial") -> Book:
    """Return a book with one page that shows the given rows over months."""
    page = Page(name, "?", (Section("Trial", tuple(Line(row) for row in rows)),))
    return replace(book(), pages=(page,), checks=(), charts=None, flows=(), headline=())


def monthly(words: str) -> Row:
    """Return a reading over the months."""
    origins = [Reading("a.xlsx", "S", f"B{place}", "1") for place in range(12)]
    return leaf(
        np.arange(1.0, 13.0),
        unit("tonne"),
        MONTHS,
        key=f"u/{words}/q/read",
        words=words,
        origins=origins,
    )


def formulas(works: Book, row: Row) -> list[str]:
    """Return the formulas of a row in its own cells."""
    layout = arrange(works)
    return [
        one.formula
        for one in contents(layout, row, layout.place(row))
        if not isinstance(one, float | str)
    ]


def test_two_rows_of_one_key_are_refused() -> None:
    """A key names one row, so that trace and tables can rely on it."""
    with pytest.raises(LayoutError, match="two rows have the key"):
        arrange(
            showing(
                step(monthly("a"), "u/x/q/made", "x", "b"),
                step(monthly("b"), "u/x/q/made", "y", "b"),
            )
        )


def test_a_nameless_row_on_a_page_is_refused() -> None:
    """What is shown needs a name."""
    with pytest.raises(LayoutError, match="has no key"):
        arrange(showing(monthly("a") + monthly("b")))


@pytest.mark.parametrize("name", ["Readings", "at a glance"])
def test_a_page_cannot_take_the_name_of_another_sheet(name: str) -> None:
    """Sheet names are unique whatever their capitals."""
    with pytest.raises(LayoutError, match="two sheets"):
        arrange(showing(monthly("a"), name=name))


def test_a_nameless_total_is_refused() -> None:
    """A sum over the months needs cells to sum."""
    made = step(total(monthly("a") + monthly("b")), "u/x/q/made", "x", "b")

    with pytest.raises(LayoutError, match="has no place in the workbook"):
        formulas(showing(made), made)


def test_a_formula_runs_with_its_months_and_stays_on_single_values() -> None:
    """Along a row references to months move, references to factors stand."""
    share = properties("share", "", (0.5, 0, 0, 0), SEEN)[0]
    made = step(monthly("a") * share, "u/x/q/made", "x", "b")

    found = formulas(showing(made, monthly("b")), made)

    assert found[0] == "Workings!C6*Factors!$B$6"
    assert found[11] == "Workings!N6*Factors!$B$6"


def test_a_row_on_two_pages_is_computed_once() -> None:
    """The second page refers to the first."""
    made = step(monthly("a") / 12, "u/x/q/made", "x", "b")
    works = showing(made)
    second = Page("Second", "?", (Section("Again", (Line(made),)),))
    layout = arrange(replace(works, pages=(*works.pages, second)))

    (first, *_) = contents(layout, made, Place("Second", 5, 2, "across"))

    assert getattr(first, "formula", "") == "Trial!C6"


def test_the_year_stands_beside_its_months() -> None:
    """A figure of the year under the key of its months takes the end of their line."""
    made = step(monthly("a") / 12, "u/x/q/made", "x", "b")
    year = step(total(made), "u/x/q/made/year", "x, year", "sum of the months")
    works = replace(showing(made), others=(year,))

    layout = arrange(works)

    assert layout.place(year) == Place("Trial", layout.place(made).row, 14)


def test_a_monthly_reading_is_evidence_down_and_shown_across() -> None:
    """A monthly reading has its lines on Readings, and a line of months that refers to them."""
    read = monthly("a")
    made = step(read * read, "u/x/q/made", "x", "b")
    layout = arrange(showing(made))

    texts = [getattr(one, "formula", "") for one in contents(layout, read, layout.place(read))]

    assert layout.evidence[read].sheet == "Readings"
    assert texts[:2] == ["Readings!$F$6", "Readings!$F$7"]


def test_two_gases_with_other_components_have_blocks_of_their_own() -> None:
    """Each gas is multiplied with properties of its own components, side by side in one order."""
    first, second = samples_of("feed gas", 3), samples_of("purge gas", 3)
    mass = properties("molar mass", "kg/kmol", (16, 30, 44, 28), SEEN)
    one = step(block_product(first, mass), "g/feed gas/mass/by sample", "mass of feed", "b")
    other = step(
        block_product(second[1:3], mass[1:3]), "g/purge gas/mass/by sample", "mass of purge", "b"
    )
    works = replace(showing(monthly("a")), others=(one, other))

    found = formulas(works, one)[0], formulas(works, other)[0]

    assert found == ("SUMPRODUCT(D14:G14,$D$13:$G$13)", "SUMPRODUCT(D39:E39,$D$38:$E$38)")


def test_blocks_of_monthly_rows_stand_one_below_the_other() -> None:
    """A composition by month is summed down a column, with its properties down another."""
    parts = [monthly(f"part {place}") for place in range(3)]
    weights = properties("weight", "", (1, 2, 3, 4), SEEN)[:3]
    made = step(block_product(parts, weights), "u/x/q/made", "x", "b")

    found = formulas(showing(made), made)

    assert found[0] == "SUMPRODUCT(Workings!C6:C8,Workings!$O$11:$O$13)"
    assert found[1] == "SUMPRODUCT(Workings!D6:D8,Workings!$O$11:$O$13)"


def test_single_values_side_by_side_have_a_table() -> None:
    """A block of factors times a block of factors has cells of its own."""
    first = properties("share", "", (0.1, 0.2, 0.3, 0.4), SEEN)
    second = properties("weight", "", (1, 2, 3, 4), SEEN)
    made = step(block_product(first, second), "u/x/q/made", "x", "b")
    works = replace(showing(monthly("a")), others=(made,))

    (found,) = formulas(works, made)

    assert found == "SUMPRODUCT('Gas analyses'!$D$13:$G$13,'Gas analyses'!$D$23:$G$23)"


def test_a_block_that_is_missing_is_told() -> None:
    """A row whose block was never planned is our own mistake, named by its key."""
    made = step(block_product([monthly("a")], [monthly("b")]), "u/x/q/made", "x", "b")
    layout = arrange(showing(made))
    layout.blocks.clear()

    with pytest.raises(LayoutError, match="u/x/q/made"):
        list(contents(layout, made, layout.place(made)))
