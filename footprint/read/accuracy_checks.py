"""Statements of uncertainty all over the site file, and the devices that meters share."""

from __future__ import annotations

from collections.abc import Iterator

from footprint.base.finding import Finding, Where, declare
from footprint.gas.names import name_of
from footprint.read.accuracy_words import Accuracy, accuracy_of
from footprint.read.fault import Refusal
from footprint.read.nearest import offer
from footprint.read.role_needs import place_of
from footprint.read.site import ALL_OTHERS, Analysis, Meter, Site

UNDECLARED_DEVICE = declare(
    "undeclared-device",
    "stop",
    means="A meter shares the error of a device that site.toml does not declare.",
    effect="what its readings have in common with those of other meters would be left out",
    mend="mend the tag, or add a [[devices]] entry",
    example='devices = ["FC-11"]; mended: devices = ["FC-110"]',
)
DEVICE_NOT_USED = declare(
    "device-not-used",
    "note",
    means="site.toml declares a device that neither a meter nor the analyses of a gas name.",
    effect="its uncertainty acts on nothing",
    mend="name it in devices of a meter or analyser of a gas, or remove the entry",
    example='a [[devices]] entry PT-9 without devices = ["PT-9"] at any meter',
)
SCALE_WITHOUT_RANGE = declare(
    "full-scale-without-range",
    "stop",
    means="An uncertainty is stated as a share of full scale, and nothing says what full scale is.",
    effect="the uncertainty of a reading can't be told",
    mend="add range = { lowest = ..., highest = ... } to the meter, in its unit by reading",
    example='uncertainty = "0.5 % of full scale (limits)" without range',
)
COMPONENT_NOT_ANALYSED = declare(
    "uncertainty-of-unknown-component",
    "stop",
    means="A statement of an analysis names something that is no component.",
    effect="the uncertainty of the component meant is left out",
    mend='name a component or its heading, or "others" for all that are not named',
    example='uncertainty = { "CH5" = "0.1 % (k=2)" }; mended: "CH4"',
)
_OF_STREAMS = (
    ("steam", "pressure_uncertainty"),
    ("steam", "temperature_uncertainty"),
    ("water", "humidity_uncertainty"),
)
Stated = tuple[Where, str]


def accuracy_faults(site: Site) -> list[Finding]:
    """Return statements that are not understood, and devices that do not fit.

    Args:
        site: as declared. [site]

    Findings:
        unclear-uncertainty, full-scale-without-range: statements.
        undeclared-device, device-not-used: what meters share.
        uncertainty-of-unknown-component: statements of analyses.

    Source: definition
    """
    findings: list[Finding] = []
    for where, text in _statements(site):
        found = accuracy_of(text)
        if isinstance(found, Refusal):
            findings.append(found.code.at(where, found.what, read=text, mend=found.mend))
    for index, meter in enumerate(site.meters):
        findings += _of_meter(site, index, meter)
    for index, analysis in enumerate(site.analyses):
        findings += _of_analysis(index, analysis)
    return [*findings, *_unused(site)]


def _statements(site: Site) -> Iterator[Stated]:
    """Yield every statement of the site file with its place."""
    works = site.works.atmospheric_pressure_uncertainty
    if works:
        yield Where("site.toml", "works", "atmospheric_pressure_uncertainty"), works
    entries = [
        *(("meters", index, one, one.tag) for index, one in enumerate(site.meters)),
        *(("devices", index, one, one.tag) for index, one in enumerate(site.devices)),
        *(("assumptions", index, one, one.name) for index, one in enumerate(site.assumptions)),
        *(("substitutes", index, one, one.meter) for index, one in enumerate(site.substitutes)),
        *(("gaps", index, one, one.meter) for index, one in enumerate(site.gaps)),
        *(("streams", index, one, one.name) for index, one in enumerate(site.streams)),
    ]
    for kind, index, entry, name in entries:
        for key in ("uncertainty", "repeatability", "density_uncertainty"):
            text = getattr(entry, key, None)
            if text:
                yield place_of(kind, index, name, key), text
    for index, stream in enumerate(site.streams):
        for part, key in _OF_STREAMS:
            text = getattr(getattr(stream, part), key, None)
            if text:
                yield place_of("streams", index, stream.name, f"{part} > {key}"), text
    for index, analysis in enumerate(site.analyses):
        for key, component, text in _of_components(analysis):
            yield place_of("analyses", index, analysis.gas, f"{key} > {component}"), text


def _of_components(analysis: Analysis) -> Iterator[tuple[str, str, str]]:
    """Yield key, component and statement of the analyses of one gas."""
    for key, said in (("uncertainty", analysis.uncertainty), ("sampling", analysis.sampling)):
        yield from ((key, component, text) for component, text in said.items())


def _of_meter(site: Site, index: int, meter: Meter) -> list[Finding]:
    """Return devices that are not there, and shares of a full scale that is not stated."""
    findings = [
        UNDECLARED_DEVICE.at(
            place_of("meters", index, meter.tag, "devices"),
            f'"{tag}" is not declared',
            mend=offer(tag, [one.tag for one in site.devices]),
        )
        for tag in meter.devices
        if site.device(tag) is None
    ]
    shared = [device for tag in meter.devices if (device := site.device(tag)) is not None]
    texts = [meter.uncertainty, meter.repeatability, *(device.uncertainty for device in shared)]
    found = [accuracy_of(text) for text in texts if text]
    is_of_scale = any(
        part.is_of_scale for one in found if isinstance(one, Accuracy) for part in one.parts
    )
    if is_of_scale and meter.range is None:
        where = place_of("meters", index, meter.tag, "range")
        findings.append(SCALE_WITHOUT_RANGE.at(where, "a share of full scale without range"))
    return findings


def _of_analysis(index: int, analysis: Analysis) -> list[Finding]:
    """Return statements for what is no component."""
    return [
        COMPONENT_NOT_ANALYSED.at(
            place_of("analyses", index, analysis.gas, f"{key} > {component}"),
            f'"{component}" is no component',
        )
        for key, component, _ in _of_components(analysis)
        if component != ALL_OTHERS
        and component not in analysis.components
        and component != analysis.plus_column
        and name_of(component) is None
    ]


def _unused(site: Site) -> list[Finding]:
    used = {tag for meter in site.meters for tag in meter.devices}
    used |= {analysis.analyser for analysis in site.analyses if analysis.analyser}
    return [
        DEVICE_NOT_USED.at(place_of("devices", index, device.tag), f'nothing uses "{device.tag}"')
        for index, device in enumerate(site.devices)
        if device.tag not in used
    ]
