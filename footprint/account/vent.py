"""CO2 vented: by its meter and by difference, with sign and interval, never clipped at zero."""

from __future__ import annotations

from footprint.balance import Balance
from footprint.balance.network import Flow
from footprint.balance.steam_reforming import ATMOSPHERE, CO2_HEADER
from footprint.base import units
from footprint.base.formulas import square_root, sum_of
from footprint.base.line import Line, Section
from footprint.base.row import Row, constant, step
from footprint.base.source import Assumption, Factor
from footprint.measure import Measured
from footprint.measure.accuracy import stated
from footprint.read.accuracy_words import Accuracy
from footprint.read.site import Stream

COVERAGE = Factor(
    "JCGM 100:2008", "clause 6.3.3", year="2008", is_seen=False, note="k = 2, about 95 %"
)
NOTE = (
    "A vent by difference carries the errors of all other meters at the header; it keeps its sign. "
    "Meters that state no share of the reading as uncertainty count as exact. Nothing here says "
    "whether a place is safe to breathe in."
)
NO_INTERVAL = (
    "No interval is given: another flow at the header is found by difference itself, so its error "
    "is not that of one meter."
)
BECAUSE = "root of the sum of squares"


def vent_section(measured: Measured, balance: Balance, by_flow: dict[str, Row]) -> list[Section]:
    """Return the vent by difference with its interval, beside the metered vent where there is one.

    Args:
        measured: every stream by month. [measured]
        balance: the solved carbon network. [balance]
        by_flow: CO2 of each flow at the header. [t CO2]

    Source: JCGM 100:2008, equation 10 (from memory); calibration errors last all year
    """
    into, out_of = balance.network.into(CO2_HEADER), balance.network.out_of(CO2_HEADER)
    vents = [
        flow for flow in out_of if flow.target == ATMOSPHERE and "liquefaction" not in flow.name
    ]
    others = [flow for flow in out_of if flow not in vents]
    if not vents or any(flow.name not in by_flow for flow in (*into, *others)):
        return []
    metered = [
        measured.context.line(by_flow[flow.name]) for flow in vents if not flow.is_by_difference
    ]
    found = _difference(measured, by_flow, into, others) if metered else by_flow[vents[0].name]
    difference = measured.context.line(found)
    if any(flow.is_by_difference for flow in (*into, *others)):
        return [Section("CO2 vented, by difference", (*metered, difference), NO_INTERVAL)]
    unsure = [_uncertainty(measured, flow, by_flow) for flow in (*into, *others)]
    interval = _interval(measured, difference, [line for line in unsure if line is not None])
    lines = (*metered, difference, *interval)
    return [Section("CO2 vented, by difference with its interval", lines, NOTE)]


def _difference(
    measured: Measured, by_flow: dict[str, Row], into: list[Flow], others: list[Flow]
) -> Row:
    entering = sum_of([by_flow[flow.name] for flow in into])
    leaving = [by_flow[flow.name] for flow in others]
    return step(
        entering - sum_of(leaving) if leaving else entering,
        measured.context.key("CO2 vented", "CO2", "by difference"),
        "CO2 vented, by difference",
        "into the CO2 header less all other ways out",
    )


def _uncertainty(measured: Measured, flow: Flow, by_flow: dict[str, Row]) -> Line | None:
    """Return the standard uncertainty of one flow by its meter's statement, for months and year."""
    context = measured.context
    stream = next((one for one in context.site.streams if one.name == flow.name), None)
    accuracy = stated(context.site.meter(stream.meter).uncertainty) if stream else None
    if stream is None or accuracy is None or accuracy.of_reading is None:
        return None
    share = _share(measured, flow, stream, accuracy)
    key = context.key(flow.name, "standard uncertainty", "stated")
    words = f"{flow.name}: standard uncertainty"
    because = "relative standard uncertainty of the meter times the quantity"
    row = by_flow[flow.name]
    return Line(
        step(row * share, key, words, because),
        step(context.year(row) * share, f"{key}/year", f"{words}, year", because),
    )


def _share(measured: Measured, flow: Flow, stream: Stream, accuracy: Accuracy) -> Row:
    """Return the relative standard uncertainty that the site file states for a meter."""
    works = measured.context.site.works
    why = f'"{accuracy.written}" for meter {stream.meter}'
    return constant(
        accuracy.of_reading or 0.0,
        units.NONE,
        measured.context.key(flow.name, "relative standard uncertainty", "stated"),
        f"{flow.name}: relative standard uncertainty",
        Assumption(works.operator, why, works.plan.approved, "meters"),
    )


def _interval(measured: Measured, difference: Line, unsure: list[Line]) -> list[Line]:
    """Return standard uncertainties, the combined one, and the ends of the interval."""
    if not unsure or difference.months is None or difference.year is None:
        return []
    key = measured.context.key("CO2 vented", "standard uncertainty", "by difference")
    words = "CO2 vented by difference: standard uncertainty"
    months = step(_root_of_squares([line.months for line in unsure]), key, words, BECAUSE)
    year = step(
        _root_of_squares([line.year for line in unsure]), f"{key}/year", f"{words}, year", BECAUSE
    )
    two = constant(
        2.0, units.NONE, "factors/any/coverage factor/JCGM 100", "coverage factor", COVERAGE
    )
    ends = [
        Line(
            _end(measured, difference.months, months * two, end, ""),
            _end(measured, difference.year, year * two, end, "/year"),
        )
        for end in ("low end", "high end")
    ]
    return [*unsure, Line(months, year), *ends]


def _end(measured: Measured, middle: Row, wide: Row, end: str, suffix: str) -> Row:
    return step(
        middle + wide if end == "high end" else middle - wide,
        measured.context.key("CO2 vented", end, f"by difference{suffix}"),
        f"CO2 vented by difference: {end} of the interval, about 95 %",
        "difference and twice its standard uncertainty",
    )


def _root_of_squares(rows: list[Row | None]) -> Row:
    return square_root(sum_of([row**2 for row in rows if row is not None]))
