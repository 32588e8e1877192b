from __future__ import annotations

import math

import pytest

from footprint.base.units import unit
from footprint.read.accuracy_words import Accuracy, Part, accuracy_of, standard_in
from footprint.read.fault import Refusal


def one_part(text: str) -> Part:
    """Return the only part of a statement that is understood."""
    found = accuracy_of(text)
    assert isinstance(found, Accuracy), found
    (part,) = found.parts
    return part


@pytest.mark.parametrize(
    ("text", "standard", "distribution"),
    [
        ("1.5 % (k=2)", 0.0075, "normal"),
        ("± 1,5 % (k = 2)", 0.0075, "normal"),
        ("1.5 %, k=2", 0.0075, "normal"),
        ("0.75 % (k=1)", 0.0075, "normal"),
        ("0.75 % (standard)", 0.0075, "normal"),
        ("0.75 % of reading (normal, k=1)", 0.0075, "normal"),
        ("1 % (limits)", 0.01 / math.sqrt(3), "rectangular"),
        ("1 % (rectangular)", 0.01 / math.sqrt(3), "rectangular"),
        ("±1 %", 0.01 / math.sqrt(3), "rectangular"),
        ("1 % (MPE)", 0.01 / math.sqrt(3), "rectangular"),
        ("maximum permissible error 1 %", 0.01 / math.sqrt(3), "rectangular"),
        ("1 % (triangular)", 0.01 / math.sqrt(6), "triangular"),
        ("1 % (arcsine)", 0.01 / math.sqrt(2), "arcsine"),
        ("1 % (U-shaped)", 0.01 / math.sqrt(2), "arcsine"),
        ("1.96 % (95 %)", 0.0100, "normal"),
        ("2 % (95.45 % interval)", 0.0100, "normal"),
        ("1.65 % (rectangular, k=1.65)", 0.0100, "rectangular"),
    ],
)
def test_statement_becomes_a_standard_uncertainty(
    text: str, standard: float, distribution: str
) -> None:
    """Statements become standard uncertainties by JCGM 100:2008, clause 4.3 (from memory)."""
    part = one_part(text)

    assert part.standard == pytest.approx(standard, rel=5e-5)
    assert part.unit is None
    assert not part.is_of_scale
    assert part.distribution == distribution
    assert math.isinf(part.degrees_of_freedom)


@pytest.mark.parametrize(
    "text", ["1 % (k=2.13, 16 degrees of freedom)", "1 % (k=2,13; nu=16)", "1 %, k = 2.13, 16 dof"]
)
def test_degrees_of_freedom_stand_beside_the_factor(text: str) -> None:
    """A certificate states k = 2.13 for about 95 % at 16 degrees of freedom, and the tool keeps it.

    Source: JCGM 100:2008, table G.2: t for 95 % is 2.12, for 95.45 % 2.17 at 16 (from memory).
    """
    part = one_part(text)

    assert part.standard == pytest.approx(0.01 / 2.13)
    assert part.degrees_of_freedom == 16


def test_share_of_full_scale_is_no_share_of_the_reading() -> None:
    """What is stated of full scale is marked so."""
    part = one_part("0.5 % of full scale (limits)")

    assert part.is_of_scale
    assert part.standard == pytest.approx(0.005 / math.sqrt(3))
    assert one_part("0.5 % FS (k=2)").is_of_scale
    assert accuracy_of("0.5 % of full scale (k=2)").of_reading is None  # type: ignore[union-attr]


def test_parts_of_a_sum_stay_apart() -> None:
    """A statement of two parts is two independent causes, each in its own measure."""
    found = accuracy_of("1 % (k=2) + 0.1 t (limits)")

    assert isinstance(found, Accuracy)
    assert [part.unit for part in found.parts] == [None, unit("tonne")]
    assert [part.distribution for part in found.parts] == ["normal", "rectangular"]
    both = accuracy_of("0.3 % (k=1) + 0.4 % (k=1)")
    assert isinstance(both, Accuracy)
    assert both.of_reading == pytest.approx(0.005)


def test_absolute_statement_keeps_its_unit() -> None:
    """A statement in a unit stays absolute; a kelvin is as wide as a degree Celsius."""
    part = one_part("0.5 °C (k=2)")

    assert (part.standard, part.unit) == (0.25, unit("celsius"))
    assert standard_in(part, unit("celsius")) == 0.25
    assert standard_in(part, unit("kPa")) is None
    assert standard_in(one_part("0.5 K (k=2)"), unit("celsius")) == 0.25
    assert standard_in(one_part("0.02 mol-% (k=2)"), unit("percent")) == pytest.approx(0.01)
    assert standard_in(one_part("±5 Nm3/h (k=2)"), unit("Nm3/hour")) == 2.5


def test_bare_tonne_is_a_tonne_of_what_is_metered() -> None:
    """An absolute statement in tonnes fits a meter of any substance, and converts to its unit."""
    part = one_part("20 t (k=2)")

    assert standard_in(part, unit("t_NH3")) == 10
    assert standard_in(part, unit("kg_NH3")) == 10_000
    assert standard_in(part, unit("Nm3")) is None


@pytest.mark.parametrize(
    "text",
    [
        *(
            "1.5 %",
            "0.3 t",
            "1.5 (k=2)",
            "good",
            "1.5 % (k=0)",
            "1.5 % (class 1)",
            "80 % (k=1)",
            "",
        ),
        *("1 % (normal)", "1 % (95 %, 16 degrees of freedom)", "1 % (k=2, k=3)", "class X"),
        *("class 25", "1 % (k=2) + 0.1", "1 % (rectangular, triangular)", "1 % (5 %)"),
    ],
)
def test_statement_that_leaves_something_open_is_refused(text: str) -> None:
    """A statement without number, unit or coverage is refused."""
    found = accuracy_of(text)

    assert isinstance(found, Refusal)
    assert found.code.code == "unclear-uncertainty"
