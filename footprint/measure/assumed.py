"""What the site file assumes instead of a published factor, with its author."""

from __future__ import annotations

from difflib import get_close_matches

from footprint.base.finding import Finding, Where, declare
from footprint.base.row import Row, constant
from footprint.base.source import Assumption as Assumed
from footprint.base.units import Unit, label
from footprint.measure.accuracy import errors_of_one, stated
from footprint.measure.unstated import Unstated
from footprint.read.accuracy_words import Accuracy, Part
from footprint.read.site import Assumption, Site
from footprint.register import Register
from footprint.register.doubt import HALF_OF_95

DEFINITIONS = ("GWP100",)  # what a programme prescribes has no error
PHYSICS = frozenset(["gas_components.csv", "gas_constants.csv", "water.csv"])  # nobody's choice
NOT_A_FACTOR = declare(
    "assumption-without-factor",
    "stop",
    means="An entry of [[assumptions]] names no factor that can be chosen, or states another unit.",
    effect="the value would be used nowhere, and the published factor would count instead",
    mend="write name and unit as `footprint factors` lists them",
    example='name = "steam efficiency"; mended: name = "efficiency of steam supply"',
)
STANDS_IN = declare(
    "factor-assumed",
    "note",
    means="An entry of [[assumptions]] stands in place of a published factor.",
    effect="every figure that rests on the factor moves with the assumed value",
    mend="nothing, if the author stands by it; else remove the entry",
    example='name = "efficiency of steam supply", value = 0.92, with author and reason',
)


def assumed_rows(
    site: Site, register: Register, unstated: Unstated
) -> tuple[dict[str, Row], list[Finding]]:
    """Return the rows that stand in place of factors, by name, and what was found.

    Args:
        site: as declared. [site]
        register: factors by day and jurisdiction. [register]
        unstated: defaults where no uncertainty is stated. [defaults]

    Source: definition
    """
    units = {
        entry.quantity: entry.unit for entry in register.entries if entry.line.file not in PHYSICS
    }
    rows: dict[str, Row] = {}
    findings: list[Finding] = []
    for one in site.assumptions:
        where = Where("site.toml", column=f"assumptions > {one.name}")
        unit = units.get(one.name)
        if unit is None or label(unit) != one.unit:
            findings.append(NOT_A_FACTOR.at(where, _what(one, unit), mend=_mend(one, units)))
            continue
        key, origin = f"assumed/{one.name}/value/site file", _origin(one)
        accuracy = stated(one.uncertainty) or _unstated(one, register, unstated)
        errors = errors_of_one(f"assumption: {one.name}", accuracy, one.value, unit)
        rows[one.name] = constant(one.value, unit, key, one.name, origin).replaced(errors=errors)
        what = f'"{one.name}" is {one.value:g} {one.unit} by {one.author}'
        findings.append(STANDS_IN.at(where, what))
    return rows, findings


def _unstated(one: Assumption, register: Register, unstated: Unstated) -> Accuracy | None:
    """Return the published range of the factor replaced, or a default; none of a definition."""
    published = next(entry for entry in register.entries if entry.quantity == one.name)
    if one.name.startswith(DEFINITIONS):
        return None
    if published.low is None or published.high is None or not published.value:
        return unstated.take("assumed factor", one.name)
    share = (published.high - published.low) / 2 / abs(published.value) / HALF_OF_95
    part = Part(share, None, is_of_scale=False, distribution="normal")
    return Accuracy((part,), "as wide as the range of the published factor")


def _origin(one: Assumption) -> Assumed:
    return Assumed(one.author, one.why, one.when, "assumptions")


def _what(one: Assumption, unit: Unit | None) -> str:
    if unit is None:
        return f'no factor that can be chosen is named "{one.name}"'
    return f'"{one.name}" is stated in "{one.unit}"'


def _mend(one: Assumption, units: dict[str, Unit]) -> str:
    if one.name in units:
        return f'write unit = "{label(units[one.name])}"'
    near = get_close_matches(one.name, units, n=3, cutoff=0.4)
    return f"write one of: {', '.join(near)}" if near else NOT_A_FACTOR.mend
