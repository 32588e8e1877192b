"""The analyses of one gas as rows: composition as read, mole fractions, quality."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from footprint.base import units
from footprint.base.axis import Axis
from footprint.base.row import Row, constant, leaf, step
from footprint.base.source import Assumption
from footprint.gas.composition import normalise
from footprint.gas.names import name_of
from footprint.gas.properties import CONDITIONS
from footprint.gas.quality import GasQuality, gas_quality
from footprint.measure.accuracy import days_of
from footprint.measure.analysis_accuracy import component_errors
from footprint.measure.context import Context
from footprint.measure.line_range import unit_counted_in
from footprint.measure.properties import constants_of, properties_of
from footprint.read.components import LUMPED
from footprint.read.readings import AnalysisSeries, Listed
from footprint.read.site import Analysis


@dataclass(frozen=True, eq=False, slots=True)
class GasSamples:
    """The samples of one gas.

    Attributes:
        gas: its name. [text]
        axis: one period a sample. [axis]
        dates: day of each sample. [date]
        represents: which days a sample speaks for. [text]
        quality: what follows from the composition, by sample. [rows]
    """

    gas: str
    axis: Axis
    dates: tuple[date, ...]
    represents: str
    quality: GasQuality


def gas_samples(context: Context, gas: str) -> GasSamples:
    """Return the samples of one gas with their quality.

    Args:
        context: site, year, factors. [context]
        gas: name of the gas. [text]

    Source: ISO 6976:2016
    """
    series = context.readings.analyses[gas]
    declared = next(one for one in context.site.analyses if one.gas == gas)
    axis = _axis(series)
    as_read = {
        name: _component(context, declared, series, place)
        for place, name in enumerate(series.components)
    }
    if series.lumped is not None:
        as_read |= _parts(context, declared, _lumped(context, declared, series.lumped, axis))
    fractions = normalise(gas, as_read)
    conditions = _conditions(context, gas)
    quality = gas_quality(
        gas,
        fractions,
        properties_of(gas, series.components, context.physics, conditions),
        constants_of(context.physics, conditions),
        context.co2_per_carbon,
    )
    return GasSamples(gas, axis, series.dates, declared.represents, quality)


def _lumped(context: Context, declared: Analysis, listed: Listed, axis: Axis) -> Row:
    """Return the heavier hydrocarbons as the certificates have them."""
    gas = declared.gas
    return leaf(
        listed.values,
        units.unit("percent"),
        axis,
        key=f"gas/{gas}/{LUMPED}/as read",
        words=f"{LUMPED} in {gas}, as read",
        origins=listed.origins,
        errors=component_errors(context, declared, LUMPED, listed.values, days_of(axis)),
    )


def _parts(context: Context, declared: Analysis, lumped: Row) -> dict[str, Row]:
    """Return the components of a lumped fraction by the shares that the site file states."""
    works = context.site.works
    origin = Assumption(works.operator, "stated in the site file", works.plan.approved, "analyses")
    parts: dict[str, Row] = {}
    for written, share in declared.plus_fraction.items():
        name, key = str(name_of(written)), f"gas/{declared.gas}/{name_of(written)}"
        words = f"share of {name} in the {LUMPED} of {declared.gas}"
        stated = constant(share, units.NONE, f"{key}/share of the lumped fraction", words, origin)
        parts[name] = step(
            lumped * stated,
            f"{key}/of the lumped fraction",
            f"{name} in {declared.gas}",
            "share of the lumped fraction, as the site file splits it",
        )
    return parts


def _component(context: Context, declared: Analysis, series: AnalysisSeries, place: int) -> Row:
    """Return one component as the certificates have it."""
    name, values = series.components[place], series.values[:, place]
    return leaf(
        values,
        units.unit("percent"),
        _axis(series),
        key=f"gas/{series.gas}/{name}/as read",
        words=f"{name} in {series.gas}, as read",
        origins=[sample[place] for sample in series.origins],
        errors=component_errors(context, declared, name, values, series.dates),
    )


def _axis(series: AnalysisSeries) -> Axis:
    return Axis("samples", tuple(day.isoformat() for day in series.dates), series.gas)


def _conditions(context: Context, gas: str) -> list[str]:
    """Return the reference conditions at which this gas is metered."""
    streams = [one for one in context.site.streams if one.analysis == gas]
    metered = [
        unit for one in streams if (unit := unit_counted_in(one, context.readings)) is not None
    ]
    return [
        name
        for name in CONDITIONS
        if any(units.is_convertible(unit, units.unit(name)) for unit in metered)
    ]
