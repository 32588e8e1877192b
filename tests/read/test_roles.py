from __future__ import annotations

from typing import get_args

import pytest

from footprint.base.units import unit
from footprint.read.fault import Refusal
from footprint.read.roles import Purpose, unit_for
from footprint.read.site import Role

FITTING: dict[str, tuple[Purpose, ...]] = {
    "Nm3": ("feed", "fuel", "purge gas", "hydrogen sold", "CO2 removed", "start-up vent"),
    "t_CO2": ("CO2 sold", "liquid CO2 stock", "stack CO2"),
    "t_NH3": ("ammonia produced", "ammonia stock", "ammonia losses"),
    "t_urea": ("urea",),
    "t_steam": ("steam exported",),
    "tonne": ("other fuel",),
    "litre": ("other fuel",),
    "MWh": ("power bought", "power exported"),
    "hour": ("hours on line",),
    "start": ("starts", "trips"),
    "percent": ("purity", "nitrogen content"),
    "celsius": ("gas temperature",),
    "kPa": ("gas pressure", "gas pressure, atmosphere stated"),
    "kPa_gauge": ("gas pressure, atmosphere stated",),
    "m3_line": ("feed", "CO2 removed", "gas at line conditions"),
    "MWh_gross": ("supplier's bill",),
}
MASSES = ("t_CO2", "t_NH3", "t_urea", "t_steam")


@pytest.mark.parametrize(("name", "role"), [(n, role) for n, rs in FITTING.items() for role in rs])
def test_role_keeps_its_unit(name: str, role: Purpose) -> None:
    """A unit that measures what a role is counted in is kept."""
    assert unit_for(role, unit(name)) == unit(name)


@pytest.mark.parametrize("name", MASSES)
def test_bare_tonne_becomes_a_tonne_of_what_flows(name: str) -> None:
    """A tonne or kilogram without substance gets the substance of the stream."""
    for role in FITTING[name]:
        assert unit_for(role, unit("tonne")) == unit(name)
        assert unit_for(role, unit("kg")) == unit(name.replace("t_", "kg_"))


@pytest.mark.parametrize(
    ("role", "name"),
    [
        ("feed", "tonne"),
        ("feed", "MWh"),
        ("ammonia produced", "Nm3"),
        ("ammonia produced", "t_CO2"),
        ("CO2 sold", "t_NH3"),
        ("power bought", "GJ_gross"),
        ("purity", "tonne"),
        ("gas pressure", "kPa_gauge"),
        ("supplier's bill", "MWh"),
        ("supplier's bill", "GJ_net"),
        ("steam bought", "GJ"),
        ("urea", "t_NH3"),
    ],
)
def test_unit_of_something_else_is_refused(role: Purpose, name: str) -> None:
    """A unit that measures something else is refused."""
    found = unit_for(role, unit(name))

    assert isinstance(found, Refusal)
    assert found.code.code == "bad-unit-for-role"


@pytest.mark.parametrize("role", get_args(Role))
def test_every_role_has_units(role: Role) -> None:
    """Every role of the site file accepts at least one unit and refuses one that fits none."""
    names = ("Nm3", "tonne", "MWh", "hour", "start")

    assert any(not isinstance(unit_for(role, unit(name)), Refusal) for name in names)
    assert isinstance(unit_for(role, unit("percent")), Refusal)
