"""Three hundred random formulas, computed by Python and by two engines that are not ours."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from footprint.base.operations import OPERATIONS
from footprint.base.row import ancestry
from footprint.report import report
from tests.calc.random_trees import book_of_trees
from tests.calc.recalculate import (
    POISON,
    Values,
    differences,
    formulas_of,
    needs_calc,
    recalculate,
    recalculate_small,
    values_of,
)

ENGINES = [
    pytest.param(recalculate_small, id="small engine"),
    pytest.param(recalculate, id="LibreOffice", marks=[needs_calc, pytest.mark.calc]),
]


@pytest.mark.parametrize("engine", ENGINES)
def test_random_formulas_recalculate_to_what_python_computed(
    engine: Callable[[Path], Values], tmp_path: Path
) -> None:
    """Brackets, truths and words survive in any mixture of operations."""
    book = book_of_trees(seed=20250101, size=300)
    clean, poisoned = tmp_path / "clean.xlsx", tmp_path / "poisoned.xlsx"
    report(book, clean)
    report(book, poisoned, stored=lambda _: POISON)
    cells = list(formulas_of(clean))

    computed = engine(poisoned)

    assert len(cells) > 3000
    assert differences(values_of(clean), computed, cells) == []


def test_the_random_formulas_hold_every_operation() -> None:
    """No operation of the table is left out of the comparison."""
    book = book_of_trees(seed=20250101, size=300)

    assert {row.op for row in ancestry(book.tops) if row.op} == set(OPERATIONS)
