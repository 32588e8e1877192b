"""The streams of a new site file: what each meter of the sheets counts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from footprint.read.left_to_fill import FILL_IN
from footprint.read.site import Role


@dataclass(frozen=True)
class Flow:
    """A stream of the site file: role, meter, what its role needs, a remark behind a key."""

    name: str
    role: Role
    meter: str
    keys: tuple[tuple[str, Any, str], ...] = ()


_NATURAL_GAS = ("analysis", "natural gas", "")
_BEFORE = ("position", "before mixing", "CHECK: do purge or flash gases join behind this meter?")
_PURE = ("purity", "ammonia purity", "")
_COUNTED = (
    "is_counted_elsewhere",
    False,
    "CHANGE to true if somebody else's inventory counts its later release",
)


def _loop(name: str, role: Role) -> Flow:
    return Flow(
        name,
        role,
        name,
        (("analysis", name, ""), ("to", "fuel", 'CHECK: "fuel", "flare" or "sold"')),
    )


def _wet_flow(name: str, role: Role, *more: tuple[str, Any, str]) -> Flow:
    water = {"temperature": f"{name} temperature", "pressure": f"{name} pressure"}
    remark = "saturated with water; remove this line if the meter counts dry gas"
    return Flow(name, role, name, (("analysis", "CO2 gas", ""), ("water", water, remark), *more))


FLOWS: tuple[Flow, ...] = (
    Flow("gas bought", "purchased gas", "gas bought", (_NATURAL_GAS,)),
    Flow("feed gas", "feed", "feed gas", (_NATURAL_GAS,)),
    Flow(
        "reformer fuel gas",
        "fuel",
        "reformer fuel",
        (_NATURAL_GAS, ("burner", "reformer", ""), _BEFORE),
    ),
    Flow(
        "boiler fuel gas", "fuel", "boiler fuel", (_NATURAL_GAS, ("burner", "boiler", ""), _BEFORE)
    ),
    _loop("purge gas", "purge gas"),
    _loop("let-down gas", "let-down gas"),
    _loop("solvent flash gas", "solvent flash gas"),
    _wet_flow("CO2 removed", "CO2 removed"),
    _wet_flow("CO2 to urea", "CO2 to urea", _COUNTED),
    _wet_flow("CO2 vented", "CO2 vented"),
    Flow(
        "CO2 sold",
        "CO2 sold",
        "CO2 sold",
        (("use", FILL_IN, "CHANGE: what the buyer does with it"), _COUNTED),
    ),
    Flow("ammonia produced", "ammonia produced", "ammonia produced", (_PURE,)),
    Flow("ammonia to urea", "ammonia to urea", "ammonia to urea", (_PURE,)),
    Flow("ammonia sold", "ammonia sold", "ammonia sold", (_PURE,)),
    Flow("ammonia in tanks", "ammonia stock", "ammonia tank", (_PURE,)),
    Flow("urea", "urea", "urea", (("nitrogen", "urea nitrogen", ""),)),
    Flow("power bought", "power bought", "power bought"),
    Flow("power made", "power made", "power made"),
    Flow("power to urea", "power exported", "power to urea", (("use", "urea", ""),)),
    Flow("steam to urea", "steam exported", "steam to urea", (("use", "urea", ""),)),
    Flow(
        "diesel",
        "other fuel",
        "diesel",
        (
            ("fuel", "gas or diesel oil", "as in the table of default fuels"),
            ("burner", "engine", ""),
            ("density_kg_per_litre", 0.84, "CHECK: of your supplier"),
        ),
    ),
    Flow("hours on line", "hours on line", "hours on line"),
    Flow("starts", "starts", "starts"),
    Flow("trips", "trips", "trips"),
)
