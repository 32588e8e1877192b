from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footprint.read.fault import Refusal
from footprint.read.number_words import MARKS, DecimalMark, meanings, numbers_in

THOUSANDS: dict[DecimalMark, tuple[str, ...]] = {
    ".": ("", ",", " ", "\u00a0", "\u202f", "'"),
    ",": ("", ".", " ", "\u00a0", "\u202f", "'"),
}


def written(number: float, mark: DecimalMark, thousands: str) -> str:
    """Return a number as a person of some country writes it."""
    text = f"{number:,.3f}".replace(",", "T").replace(".", mark)
    return text.replace("T", thousands)


@given(
    st.lists(st.decimals(-(10**9), 10**9, places=3), min_size=1, max_size=20),
    st.sampled_from(MARKS),
    st.data(),
)
def test_column_is_read_right_or_refused(
    numbers: list[float], mark: DecimalMark, data: st.DataObject
) -> None:
    """A column written in one way is read as written, or refused as open; never wrongly."""
    thousands = data.draw(st.sampled_from(THOUSANDS[mark]))
    texts = [written(float(number), mark, thousands) for number in numbers]

    found = numbers_in(texts)

    for number, one in zip(numbers, found, strict=True):
        is_open = isinstance(one, Refusal) and one.code.code == "ambiguous-decimal-mark"
        assert is_open or one == pytest.approx(float(number), abs=1e-9)


@given(st.lists(st.decimals(-(10**9), 10**9, places=3), min_size=1), st.sampled_from(MARKS))
def test_column_with_settled_mark_is_always_read(numbers: list[float], mark: DecimalMark) -> None:
    """Where the site file settles the decimal mark, nothing is open."""
    texts = [written(float(number), mark, "") for number in numbers]

    found = numbers_in(texts, mark)

    assert found == [float(number) for number in numbers]


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_repr_of_a_number_is_read_back(number: float) -> None:
    """What a program writes with all digits is read as the same number."""
    assert meanings(repr(number)).get(".") == number


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("184320", 184320.0),
        (" 1 234,5 ", 1234.5),
        ("1'234.5", 1234.5),
        ("1.234.567", 1234567.0),
        ("0,123", 0.123),
        ("\u22125", -5.0),
        ("+5", 5.0),
        ("1.5E-3", 0.0015),
    ],
)
def test_number_that_can_mean_one_thing_is_read(text: str, number: float) -> None:
    """A text that can be only one number is that number."""
    assert numbers_in([text]) == [number]


@pytest.mark.parametrize(
    "text",
    [
        *("<0.5", "5.0-", "(5.0)", "12 Nm3", "12 E", "Bad", "-", "nan", "inf", "1_000", "1.e5"),
        *("1,23,456", "1 23", "12,34.5.6", "\u0661\u0662", "1e999", "", "0x10", "1 000,5.5"),
    ],
)
def test_text_that_is_no_number_is_refused(text: str) -> None:
    """Whatever is no plain number is refused, also what a programming language would take."""
    (found,) = numbers_in([text])

    assert isinstance(found, Refusal)
    assert found.code.code == "text-in-number-cell"


def test_one_clear_cell_settles_the_column() -> None:
    """A single cell that can be read one way only settles the mark of all others."""
    assert numbers_in(["101,001", "100,5"]) == [101.001, 100.5]
    assert numbers_in(["101,001", "1,100.5"]) == [101001.0, 1100.5]


def test_contradiction_leaves_open_cells_open() -> None:
    """Where two cells contradict each other, cells that may be read both ways are refused too."""
    first, second, third = numbers_in(["100.5", "100,5", "101,001"])

    assert first == 100.5
    assert isinstance(second, Refusal)
    assert second.code.code == "contradictory-decimal-marks"
    assert isinstance(third, Refusal)
    assert third.code.code == "ambiguous-decimal-mark"


def test_mend_for_brackets_offers_the_minus() -> None:
    """A number in brackets is refused with an offer to write its minus."""
    (found,) = numbers_in(["(5.0)"])

    assert isinstance(found, Refusal)
    assert found.mend == 'write "-5.0" if a minus is meant'


def test_number_beyond_all_numbers_is_refused() -> None:
    """A text whose value no number can hold is not read as infinity."""
    assert not any(math.isinf(value) for value in meanings("1e400").values())
