"""Entries of the site file held against each other: names that must exist, spans of days."""

from __future__ import annotations

from collections import Counter

from footprint.base.finding import Finding, Where, declare
from footprint.gas.names import COMPONENTS, name_of
from footprint.read.accuracy_checks import accuracy_faults
from footprint.read.components import UNKNOWN_COMPONENT
from footprint.read.entry_needs import entry_needs
from footprint.read.fault import Refusal
from footprint.read.left_to_fill import left_to_fill
from footprint.read.meter_keys import meter_keys
from footprint.read.nearest import offer
from footprint.read.purposes import beside_meter, purposes_of, settled
from footprint.read.rate_words import UNIT_IS_NO_RATE, parted
from footprint.read.role_needs import needs_of, place_of
from footprint.read.roles import GASES
from footprint.read.site import Gap, Meter, Site, Stream, Substitute
from footprint.read.unit_words import unit_named

_FILE = "site.toml"

REPEATED_NAME = declare(
    "repeated-name",
    "stop",
    means="Two entries of site.toml have the same name or tag.",
    effect="nothing tells which of the two is meant",
    mend="give each its own name",
    example="two [[meters]] with the tag FT-1101",
)
UNDECLARED_METER = declare(
    "undeclared-meter",
    "stop",
    means="site.toml uses a meter that it does not declare.",
    effect="the stream has no readings",
    mend="mend the tag, or add a [[meters]] entry",
    example='meter = "FT-1110"; mended: meter = "FT-1101"',
)
UNDECLARED_GAS = declare(
    "undeclared-gas",
    "stop",
    means="site.toml uses the analyses of a gas that it does not declare.",
    effect="the carbon of the stream can't be told",
    mend="mend the name of the gas, or add an [[analyses]] entry",
    example='analysis = "natural gas" without [[analyses]] gas = "natural gas"',
)
UNDECLARED_STREAM = declare(
    "undeclared-stream",
    "stop",
    means="mixed_with names a stream that site.toml does not declare as a gas.",
    effect="the carbon that joined before the meter can't be taken off and would count twice",
    mend="mend the name of the stream",
    example='mixed_with = ["purge"]; mended: mixed_with = ["purge gas to reformer"]',
)
UNDECLARED_UNIT = declare(
    "undeclared-process-unit",
    "stop",
    means="A stream belongs to a process unit that site.toml does not declare.",
    effect="the stream would count nowhere",
    mend="mend the name of the process unit",
    example='unit = "Ammonia 2" where only "Ammonia 1" is declared',
)
METER_NOT_USED = declare(
    "meter-not-used",
    "note",
    means="site.toml declares a meter or the analyses of a gas that no stream uses.",
    effect="it is read, but no figure rests on it",
    mend="name it in a stream, or remove the entry",
    example="a [[meters]] entry FT-9999 that no stream names",
)
SPAN_TURNED_ROUND = declare(
    "span-turned-round",
    "stop",
    means="A span of days ends before it begins, or lies outside the year of the return.",
    effect="it covers no day",
    mend="write the first day before the last, both in the year of the return",
    example="first_day = 2025-03-09, last_day = 2025-03-04",
)
PLAN_NOT_VALID = declare(
    "plan-not-valid-all-year",
    "warn",
    means="The monitoring plan that site.toml names is not valid on every day of the year.",
    effect="part of the year is reported under a plan that was not in force",
    mend="name the plan that was valid, or tell the authority of the change",
    example="valid_from = 2025-07-01 for the year 2025",
)


def check(site: Site) -> list[Finding]:
    """Return what does not fit together in a site file.

    Args:
        site: as declared. [site]

    Findings:
        repeated-name, undeclared-meter, undeclared-gas, undeclared-stream: names.
        undeclared-process-unit, meter-not-used, span-turned-round, plan-not-valid-all-year.
        the codes of `unit_words`: units of a meter; of `accuracy_checks`: uncertainties.
        unit-is-no-rate, meter-key-does-not-fit: keys of a meter.
        unknown-component: what a heading of an analysis stands for.
        the codes of `role_needs`: keys of a stream; of `entry_needs`: gaps and splits.
        left-to-fill-in: words of a new site file.

    Source: definition
    """
    return [
        *_repeated(site),
        *_plan(site),
        *_meters(site),
        *accuracy_faults(site),
        *meter_keys(site),
        *(
            finding
            for index, one in enumerate(site.streams)
            for finding in _stream(site, index, one)
        ),
        *_components(site),
        *_substitutes(site),
        *entry_needs(site),
        *_unused(site),
        *left_to_fill(site),
    ]


def _repeated(site: Site) -> list[Finding]:
    """Return names that two entries share."""
    named = {
        ("meters", "tag"): [meter.tag for meter in site.meters],
        ("devices", "tag"): [device.tag for device in site.devices],
        ("analyses", "gas"): [analysis.gas for analysis in site.analyses],
        ("streams", "name"): [stream.name for stream in site.streams],
        ("units", "name"): [one.name for one in site.units],
        ("assumptions", "name"): [one.name for one in site.assumptions],
    }
    findings: list[Finding] = []
    for (kind, key), names in named.items():
        for name, times in Counter(names).items():
            if times > 1:
                last = len(names) - 1 - names[::-1].index(name)
                what = f'{times} entries have the {key} "{name}"'
                findings.append(REPEATED_NAME.at(place_of(kind, last, name, key), what))
    return findings


def _plan(site: Site) -> list[Finding]:
    """Return a finding where the plan does not cover the year."""
    plan, year = site.works.plan, site.works.year
    is_late = plan.valid_from.year >= year and (plan.valid_from.month, plan.valid_from.day) != (
        1,
        1,
    )
    is_short = plan.valid_to is not None and plan.valid_to.isoformat() < f"{year}-12-31"
    if not (is_late or plan.valid_from.year > year or is_short):
        return []
    last = plan.valid_to.isoformat() if plan.valid_to else "further notice"
    span = f"from {plan.valid_from.isoformat()} until {last}"
    what = f"the plan is valid {span}, the return is for {year}"
    return [PLAN_NOT_VALID.at(Where(_FILE, "works > plan", "valid_from"), what)]


def _meters(site: Site) -> list[Finding]:
    """Return units of meters that are not understood."""
    findings: list[Finding] = []
    for index, meter in enumerate(site.meters):
        understood = None if meter.unit is None else _unit(site, meter, meter.unit)
        if isinstance(understood, Refusal):
            where = place_of("meters", index, meter.tag, "unit")
            what, mend = understood.what, understood.mend
            findings.append(understood.code.at(where, what, read=meter.unit or "", mend=mend))
    return findings


def _unit(site: Site, meter: Meter, text: str) -> str | Refusal:
    """Return the house name of a meter's unit, of a rate without its time, or the refusal."""
    is_rate = meter.counts == "rate"
    amount, time = parted(text) if is_rate else (text, "")
    if is_rate and not time:
        return Refusal(UNIT_IS_NO_RATE, f'unit "{text}" has no time below')
    found = unit_named(amount)
    if isinstance(found, Refusal):
        return settled(amount, found, purposes_of(site, meter.tag))
    return found


def _stream(site: Site, index: int, stream: Stream) -> list[Finding]:
    """Return what a stream names that is not there, and what its role needs that it lacks."""
    tags = [meter.tag for meter in site.meters]
    beside = [(key, tag) for key, tag, _ in beside_meter(site, stream)]
    used = [("meter", stream.meter), *beside]
    names = [one.name for one in site.streams if one is not stream and one.role in GASES]
    asked = [
        *((UNDECLARED_METER, key, tag, tags) for key, tag in used),
        (UNDECLARED_GAS, "analysis", stream.analysis, [one.gas for one in site.analyses]),
        (UNDECLARED_UNIT, "unit", stream.unit, [one.name for one in site.units]),
        *((UNDECLARED_STREAM, "mixed_with", name, names) for name in stream.mixed_with),
    ]
    findings = [
        code.at(
            place_of("streams", index, stream.name, key),
            f'"{name}" is not declared',
            mend=offer(name, known),
        )
        for code, key, name, known in asked
        if name is not None and name not in known
    ]
    return [*findings, *needs_of(site, index, stream)]


def _components(site: Site) -> list[Finding]:
    """Return headings of analyses that stand for no component of the table."""
    return [
        UNKNOWN_COMPONENT.at(
            place_of("analyses", index, analysis.gas, f"components > {heading}"),
            f'"{component}" is no known component',
            mend=offer(component, COMPONENTS),
        )
        for index, analysis in enumerate(site.analyses)
        for heading, component in analysis.components.items()
        if name_of(component) is None
    ]


def _substitutes(site: Site) -> list[Finding]:
    """Return substitutes and gaps of meters that are not declared, or for no day of the year."""
    findings: list[Finding] = []
    tags = [meter.tag for meter in site.meters]
    entries: list[tuple[str, int, Substitute | Gap]] = [
        *(("substitutes", index, one) for index, one in enumerate(site.substitutes)),
        *(("gaps", index, one) for index, one in enumerate(site.gaps)),
    ]
    for kind, index, one in entries:
        other = one.other_meter if isinstance(one, Gap) else None
        for key, tag in (("meter", one.meter), ("other_meter", other)):
            if tag is not None and tag not in tags:
                where = place_of(kind, index, one.meter, key)
                what = f'"{tag}" is not declared'
                findings.append(UNDECLARED_METER.at(where, what, mend=offer(tag, tags)))
        if one.last_day < one.first_day or site.works.year not in (
            one.first_day.year,
            one.last_day.year,
        ):
            where = place_of(kind, index, one.meter, "first_day")
            span = f"{one.first_day.isoformat()} to {one.last_day.isoformat()}"
            what = f"the days {span} cover none of the year"
            findings.append(SPAN_TURNED_ROUND.at(where, what))
    return findings


def _unused(site: Site) -> list[Finding]:
    """Return meters and analyses that no stream names."""
    used: set[str | None] = {gap.other_meter for gap in site.gaps}
    for stream in site.streams:
        used |= {stream.meter, *(tag for _, tag, _ in beside_meter(site, stream))}
    gases = {stream.analysis for stream in site.streams}
    asked: list[tuple[str, int, str, set[str | None]]] = [
        *(("meters", index, meter.tag, used) for index, meter in enumerate(site.meters)),
        *(("analyses", index, one.gas, gases) for index, one in enumerate(site.analyses)),
    ]
    return [
        METER_NOT_USED.at(place_of(kind, index, name), f'no stream uses "{name}"')
        for kind, index, name, known in asked
        if name not in known
    ]
