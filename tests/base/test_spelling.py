from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import pytest

from footprint.base.axis import ONCE
from footprint.base.formulas import (
    block_product,
    choose,
    given,
    in_words,
    is_read,
    ratio,
    rounded,
    span,
    total,
)
from footprint.base.row import Row, apply, step
from footprint.base.spelling import Names, spell
from footprint.base.units import NONE
from tests.base.rows import DAYS, QUARTERS, read

A, B, C, D = (read([1, 2, 3, 4], "", words=letter) for letter in "abcd")
FLOW = read(range(8), axis=DAYS, words="flow")


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        (A - (B - C), "a-(b-c)"),
        (A - B - C, "a-b-c"),
        (A / (B * C), "a/(b*c)"),
        ((A + B) * C, "(a+b)*c"),
        (A * B + C, "a*b+c"),
        (-(A + B), "(-(a+b))"),
        (ratio(A + B, C - D), 'IF((c-d)=0,"no production",(a+b)/(c-d))'),
        (ratio(A * B, C * D), 'IF((c*d)=0,"no production",a*b/(c*d))'),
        ((A > B) * C, "IF(a>b,1,0)*c"),
        (A > B, "IF(a>b,1,0)"),
        (apply("AND", A > B, C <= D), "IF(AND(a>b,c<=d),1,0)"),
        (is_read(A), "IF(ISNUMBER(a),1,0)"),
        (apply("SUM", A, B > C), "SUM(a,IF(b>c,1,0))"),
        (choose(A > B, A - B, C), "IF(a>b,a-b,c)"),
        (given(A > B, A / B, 'not "judged"'), 'IF(a>b,a/b,"not ""judged""")'),
        (in_words(A - B, "PASS", "OPEN"), 'CHOOSE(1+(a-b),"PASS","OPEN")'),
        (in_words(A > B, "no", "yes"), 'CHOOSE(1+IF(a>b,1,0),"no","yes")'),
        (rounded(A + B, 2), "ROUND(a+b,2)"),
        ((A + B) ** 2, "POWER(a+b,2)"),
        (A * 1e-9, "a*1E-09"),
        (A / 1000, "a/1000"),
        (block_product([A, B], [C, D]), "SUMPRODUCT(a of each component,c of each component)"),
    ],
)
def test_a_formula_keeps_its_brackets(row: Row, expected: str) -> None:
    """Brackets stand where another sum would be read without them; truths are 1 and 0."""
    assert spell(row, 0, Names()) == expected


def test_a_named_operand_is_referred_to() -> None:
    """A named row stands in a formula as one reference, a nameless one is written out."""
    part = step(A + B, "test/part", "part", "b")

    assert spell(part * C, 0, Names()) == "part*c"
    assert spell(part, 0, Names()) == "a+b"


def test_a_sum_over_days_needs_a_name() -> None:
    """What may change its address from month to month stands alone in its row."""
    summed = span(FLOW, [(0, 2), (2, 4), (4, 6), (6, 8)], QUARTERS)

    with pytest.raises(ValueError, match="needs a name of its own"):
        spell(summed * A, 0, Names())


class Addresses:
    """Labels that show which place was asked for."""

    def cell(self, row: Row, index: int) -> str:
        """Return words and place."""
        return f"{row.words}{index}"

    def cells(self, row: Row, first: int, last: int) -> str:
        """Return words and places."""
        return f"{row.words}{first}:{last}"

    def block(self, rows: Sequence[Row], index: int) -> str:
        """Return words and place."""
        return f"{'|'.join(row.words for row in rows)}{index}"


SINGLE = Row(np.array([2.0]), NONE, ONCE, "test/single", "s")


@pytest.mark.parametrize(
    ("row", "index", "expected"),
    [
        (lambda: step(A * SINGLE, "k", "w", "b"), 3, "a3*s0"),
        (lambda: step(total(A), "k", "w", "b"), 0, "SUM(a0:4)"),
        (lambda: span(FLOW, [(0, 2), (2, 4), (4, 6), (6, 8)], QUARTERS), 2, "SUM(flow4:6)"),
        (lambda: block_product([A, B], [C, D]), 1, "SUMPRODUCT(a|b1,c|d1)"),
    ],
)
def test_a_formula_refers_to_its_own_period(
    row: Callable[[], Row], index: int, expected: str
) -> None:
    """Each period's formula names the cells of that period, and single values their one cell."""
    assert spell(row(), index, Addresses()) == expected
