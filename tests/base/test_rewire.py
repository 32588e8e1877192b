"""The same figures with rows put in place of others."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.base.axis import Axis
from footprint.base.formulas import span, total
from footprint.base.rewire import rewired
from footprint.base.row import Row, ancestry, leaf, step
from footprint.base.source import Reading
from footprint.base.units import unit

DAYS = Axis("days", tuple(f"day {place}" for place in range(6)), "six days")
HALVES = Axis("months", ("first", "second"), "two halves")
TONNE = unit("t_CO2")


def reading(name: str, values: list[float]) -> Row:
    """Return daily readings."""
    origins = [Reading("a.xlsx", "s", f"B{place}", "x") for place in range(len(values))]
    return leaf(values, TONNE, DAYS, key=f"reading/{name}", words=name, origins=origins)


def figures() -> tuple[Row, Row, Row, Row]:
    """Return two readings, the sum of both by half, and the year of it."""
    one, other = reading("one", [1.0] * 6), reading("other", [10.0] * 6)
    both = step(one + other, "works/both/CO2/sum", "both", "sum")
    halves = step(span(both, [(0, 3), (3, 6)], HALVES), "works/both/CO2/by half", "halves", "sum")
    year = step(total(halves), "works/both/CO2/by half/year", "year", "sum")
    return one, other, halves, year


def test_only_what_depends_on_the_replaced_row_is_made_anew() -> None:
    """Rows that do not depend on it are the same rows; the others have keys of their own."""
    one, other, halves, year = figures()
    instead = step(one + one, "works/one/CO2/doubled", "doubled", "twice")

    new_other, new_halves, new_year = rewired([other, halves, year], {one: instead}, ", doubled")

    assert new_other is other
    assert new_halves.key == "works/both/CO2/by half, doubled"
    assert new_year.key == "works/both/CO2/by half, doubled/year"
    assert np.array_equal(new_halves.values, [36.0, 36.0])
    assert new_year.values[0] == 72.0
    assert halves.values[0] == 33.0


def test_the_new_row_may_depend_on_the_one_it_replaces() -> None:
    """A replacement made from the replaced row keeps that row as its operand."""
    one, _, _, year = figures()
    instead = step(one * 10, "works/one/CO2/times ten", "times ten", "x 10")

    (new,) = rewired([year], {one: instead}, ", new")

    assert one in ancestry([new])
    assert new.values[0] == pytest.approx(6 * 20.0)
    keys = [row.key for row in ancestry([new, year]) if row.is_named]
    assert len(keys) == len(set(keys))
