from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footprint.gas.names import COMPONENTS, name_of

# headings as laboratories write them: common practice, no source
HEADINGS = {
    "CH4": "methane",
    "Methane, mol %": "methane",
    "C2H6 [mol%]": "ethane",
    "propane (mole percent)": "propane",
    "n-C4": "n-butane",
    "nC4H10": "n-butane",
    "i-C4H10": "isobutane",
    "iC4": "isobutane",
    "Iso-Butane": "isobutane",
    "nC5": "n-pentane",
    "i C5": "isopentane",
    "neo-C5": "neopentane",
    "n-Hexane": "n-hexane",
    "N2": "nitrogen",
    "N₂, %": "nitrogen",
    "CO2 (mol %)": "carbon dioxide",
    "CO": "carbon monoxide",
    "Ar": "argon",
    "He": "helium",
    "H2": "hydrogen",
    " h2 o ": "water",
    "water vapour": "water",
    "NH3": "ammonia",
    "O2": "oxygen",
    "H2S": "hydrogen sulfide",
    "hydrogen sulphide": "hydrogen sulfide",
    "COS": "carbonyl sulfide",
    "Ethene": "ethylene",
}


@pytest.mark.parametrize(("heading", "component"), HEADINGS.items())
def test_name_of_knows_formula_name_and_short_form(heading: str, component: str) -> None:
    """Headings of gas analyses lead to the component of the table."""
    assert name_of(heading) == component


@pytest.mark.parametrize(
    "heading", ["C6+", "hexanes plus", "C4H10", "C5", "C6", "butanes", "total", "date", "", "%"]
)
def test_name_of_refuses_what_is_no_single_component(heading: str) -> None:
    """A lumped fraction, a sum or another column is not taken for a component."""
    assert name_of(heading) is None


@pytest.mark.parametrize("component", COMPONENTS)
def test_name_of_knows_every_name_of_the_table(component: str) -> None:
    """Each component answers to its own name, also in capitals."""
    assert name_of(component) == component
    assert name_of(component.upper()) == component


@given(st.sampled_from(COMPONENTS), st.text(alphabet=" \t\u00a0", max_size=4))
def test_name_of_bears_blanks(component: str, blanks: str) -> None:
    """Blanks of any kind around a name change nothing."""
    assert name_of(f"{blanks}{component}{blanks}") == component
