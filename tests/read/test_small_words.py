from __future__ import annotations

import pytest

from footprint.read.fault import short, texts_in_words
from footprint.read.nearest import nearest, offer
from tests.read.sheets import sheet_of


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ([7], "D7"),
        ([7, 8, 9], "D7:D9"),
        ([9, 7, 8, 12], "D7:D9, D12"),
        ([1, 3, 5, 7, 9, 10, 11], "D1, D3, D5, D7 and 3 more"),
    ],
)
def test_cells_are_told_as_ranges(rows: list[int], words: str) -> None:
    """Cells of a column are told as ranges, the first few of many."""
    assert sheet_of([]).where(4, rows).cell == words


def test_texts_are_told_once_each() -> None:
    """Equal texts are told once, of many the first few."""
    assert texts_in_words(["a", "b", "a"]) == "a, b"
    assert texts_in_words(["a", "b", "c", "d"]) == "a, b, c, ..."


def test_long_text_is_cut_to_one_line() -> None:
    """A long text of the user is cut, a text of several lines becomes one."""
    assert short("a\nb") == "a b"
    assert len(short("x" * 500)) == 80


def test_nearest_name_is_offered() -> None:
    """The name most like the one written is offered, whatever its case; else what there is."""
    names = ["January", "February"]

    assert nearest("januray", names) == "January"
    assert nearest("Total", names) is None
    assert offer("januray", names) == 'write "January", if that is meant'
    assert offer("Total", names) == 'write one of "January", "February"'
    assert offer("Total", []) == ""
