"""Random formulas over the whole operation table, for comparing Python and spreadsheets."""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator

import numpy as np

from footprint.base.axis import Axis, months_of
from footprint.base.formulas import (
    absolute,
    block_product,
    block_sum,
    choose,
    count,
    dot,
    frozen,
    given,
    in_words,
    is_read,
    largest,
    pick,
    ratio,
    rounded,
    smallest,
    span,
    square_root,
    total,
)
from footprint.base.line import Line, Page, Section
from footprint.base.row import Row, apply, constant, leaf, step
from footprint.base.source import Factor, Reading
from footprint.base.units import NONE
from footprint.report import Book

MONTHS = months_of(2025)
DAYS = Axis("days", tuple(f"2025-01-{day:02d}" for day in range(1, 25)), "trial")
PAIRS = [(2 * month, 2 * month + 2) for month in range(12)]
ORIGIN = Factor("trial", "")


class Trees:
    """A generator of random rows, the same for the same seed."""

    def __init__(self, seed: int) -> None:
        """Draw the leaves that the trees grow from."""
        self.dice = random.Random(seed)  # noqa: S311  the same trees on every run
        self.monthly = [self._leaf(f"m{place}", MONTHS) for place in range(10)]
        self.single = [self._single(f"s{place}") for place in range(4)]
        self.crossing = list(self._crossing())

    def _leaf(self, name: str, axis: Axis) -> Row:
        values = np.array(
            [round(self.dice.uniform(-9, 9), self.dice.randint(0, 6)) for _ in axis.labels]
        )
        values[values == 0] = 1.5
        origins = [Reading("trial.xlsx", "Sheet", f"A{place}", "") for place in range(axis.size)]
        if name == "m9":  # one row with holes
            values[[2, 7]] = np.nan
        return leaf(values, NONE, axis, key=f"trial/{name}/value/read", words=name, origins=origins)

    def _single(self, name: str) -> Row:
        return constant(self.dice.uniform(-5, 5), NONE, f"trial/{name}/value/given", name, ORIGIN)

    def _crossing(self) -> Iterator[Row]:
        daily = [self._leaf(f"d{place}", DAYS) for place in range(3)]
        made = step(daily[0] * daily[1] - self.single[0], "trial/made/value/daily", "made", "trial")
        yield step(span(made, PAIRS, MONTHS), "trial/span/value/made", "span", "trial")
        yield step(dot(made, daily[2], PAIRS, MONTHS), "trial/dot/value/made", "dot", "trial")
        yield step(pick(daily[2], range(3, 15), MONTHS), "trial/pick/value/made", "pick", "trial")
        yield step(count(daily[2], PAIRS, MONTHS), "trial/count/value/made", "count", "trial")
        yield step(total(daily[1]), "trial/total/value/made", "total", "trial")
        yield frozen(
            np.tanh,
            NONE,
            self.monthly[0],
            key="trial/frozen/value/made",
            words="frozen",
            method="trial",
        )

    def tree(self, depth: int) -> Row:
        """Return a nameless row, or a leaf of it, as deep as asked."""
        if depth == 0 or self.dice.random() < 0.1:
            return self.dice.choice([*self.monthly[:9], *self.single, *self.crossing])
        return self.dice.choice(self._ways)(self, depth - 1)

    def truth(self, depth: int) -> Row:
        """Return a comparison, or a few joined."""
        first, second = self.tree(depth), self.tree(depth)
        sign = self.dice.choice(["<", "<=", ">", ">="])
        found = apply(sign, first, second)
        if self.dice.random() < 0.4:
            return apply(
                self.dice.choice(["AND", "OR"]), found, is_read(self.dice.choice(self.monthly))
            )
        return found

    def _block(self, depth: int) -> Row:
        del depth
        rows = self.dice.sample([row for row in self.monthly if row.words != "m9"], 3)
        if self.dice.random() < 0.3:
            return block_sum(rows)
        return block_product(rows, self.dice.sample(self.single, 3))

    _ways: tuple[Callable[[Trees, int], Row], ...] = (
        lambda self, depth: self.tree(depth) + self.tree(depth),
        lambda self, depth: self.tree(depth) - self.tree(depth),
        lambda self, depth: self.tree(depth) - (self.tree(depth) - self.tree(depth)),
        lambda self, depth: self.tree(depth) * self.tree(depth),
        lambda self, depth: self.tree(depth) / (absolute(self.tree(depth)) + 1),
        lambda self, depth: ratio(self.tree(depth), self.tree(depth), "none"),
        lambda self, depth: -self.tree(depth),
        lambda self, depth: self.tree(depth) ** self.dice.choice([2, 3]),
        lambda self, depth: square_root(absolute(self.tree(depth))),
        lambda self, depth: apply("SUM", self.tree(depth), self.tree(depth), self.tree(depth)),
        lambda self, depth: smallest(self.tree(depth), self.tree(depth)),
        lambda self, depth: largest(self.tree(depth), self.tree(depth)),
        lambda self, depth: rounded(self.tree(depth), self.dice.randint(-1, 4)),
        lambda self, depth: choose(self.truth(depth), self.tree(depth), self.tree(depth)),
        lambda self, depth: choose(is_read(self.monthly[9]), self.monthly[9], self.tree(depth)),
        lambda self, depth: self.truth(depth) * self.tree(depth),
        _block,
    )

    def row(self, place: int) -> Row:
        """Return a named row over the months."""
        grown = self.tree(4) + 0 * self.monthly[0]
        if place % 20 == 0:
            grown = in_words(self.truth(2) + 0 * self.monthly[0], "below", "above")
        if place % 20 == 1:
            grown = given(self.truth(2), grown, 'not "judged"')
        return step(grown, f"trial/{place}/value/grown", f"tree {place}", "trial")


def book_of_trees(seed: int, size: int) -> Book:
    """Return a book whose one page holds random rows."""
    trees = Trees(seed)
    rows = [trees.row(place) for place in range(size)]
    rows.append(step(trees.monthly[9], "trial/holes/value/named", "row with holes", "trial"))
    page = Page(
        "Trees", "Do spreadsheets agree?", (Section("Trees", tuple(Line(row) for row in rows)),)
    )
    return Book(
        works="Trial",
        operator="",
        year=2025,
        plan="",
        tool_version="0",
        bases=(),
        gwp_set="",
        boundary="",
        headline=(),
        verdicts=(),
        is_fit_to_file=True,
        pages=(page,),
        checks=(),
        findings=(),
        files=(),
    )
