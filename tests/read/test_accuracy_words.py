from __future__ import annotations

import math

import pytest

from footprint.base.units import unit
from footprint.read.accuracy_words import Accuracy, accuracy_of, standard_in
from footprint.read.fault import Refusal


@pytest.mark.parametrize(
    ("text", "standard", "distribution"),
    [
        ("1.5 % (k=2)", 0.0075, "normal"),
        ("± 1,5 % (k = 2)", 0.0075, "normal"),
        ("0.75 % (k=1)", 0.0075, "normal"),
        ("0.75 % (standard)", 0.0075, "normal"),
        ("1 % (limits)", 0.01 / math.sqrt(3), "rectangular"),
        ("1.96 % (95 %)", 0.0100, "normal"),
    ],
)
def test_statement_becomes_a_standard_uncertainty(
    text: str, standard: float, distribution: str
) -> None:
    """Statements become standard uncertainties by JCGM 100:2008, clause 4.3 (from memory)."""
    found = accuracy_of(text)

    assert isinstance(found, Accuracy)
    assert found.standard == pytest.approx(standard, rel=5e-5)
    assert found.unit is None
    assert found.distribution == distribution


def test_absolute_statement_keeps_its_unit() -> None:
    """A statement in a unit stays absolute."""
    found = accuracy_of("0.5 °C (k=2)")

    assert isinstance(found, Accuracy)
    assert (found.standard, found.unit) == (0.25, unit("celsius"))
    assert standard_in(found, unit("celsius")) == 0.25
    assert standard_in(found, unit("kPa")) is None


def test_bare_tonne_is_a_tonne_of_what_is_metered() -> None:
    """An absolute statement in tonnes fits a meter of any substance, and converts to its unit."""
    found = accuracy_of("20 t (k=2)")

    assert isinstance(found, Accuracy)
    assert standard_in(found, unit("t_NH3")) == 10
    assert standard_in(found, unit("kg_NH3")) == 10_000
    assert standard_in(found, unit("Nm3")) is None


@pytest.mark.parametrize(
    "text", ["1.5 %", "1.5 (k=2)", "good", "1.5 % (k=0)", "1.5 % (class 1)", "80 % (k=1)", ""]
)
def test_statement_that_leaves_something_open_is_refused(text: str) -> None:
    """A statement without number, unit or coverage is refused."""
    found = accuracy_of(text)

    assert isinstance(found, Refusal)
    assert found.code.code == "unclear-uncertainty"
