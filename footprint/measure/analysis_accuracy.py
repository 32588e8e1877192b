"""How sure an analysis is: what all samples of an analyser share, and what each draws anew."""

from __future__ import annotations

from datetime import date
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from footprint.base.cause import Cause, Error, independent, shared
from footprint.base.units import unit
from footprint.gas.names import name_of
from footprint.measure.accuracy import Read, doubts_of, errors_of, stated
from footprint.measure.context import Context
from footprint.read.site import ALL_OTHERS, Analysis

Array = NDArray[np.float64]
LEVELS = (0.1, 1.0, 5.0, 10.0, 100.0)  # mol-%, upper ends in the table of defaults
TWO_RESULTS = np.sqrt(2.0) * 1.959963984540054  # half-width for two results over one deviation
Precision = Literal["reproducibility", "repeatability"]


def component_errors(
    context: Context, declared: Analysis, component: str, values: Array, days: tuple[date, ...]
) -> tuple[Error, ...]:
    """Return the errors of one component as the certificates have it, before it is normalised.

    What the site file states as `uncertainty` lasts over all samples, and over all gases of one
    analyser; what it states as `sampling` is drawn anew in each sample. Since the errors stand on
    the readings, and fractions are the readings over their sum, fractions always sum to 1.

    Args:
        context: site and factors. [context]
        declared: the analyses of one gas. [entry]
        component: as the component table names it. [text]
        values: one a sample. [mol-%]
        days: of the samples. [date]

    Source: JCGM 100:2008, clauses 4.3 and 5.2 (from memory); ASTM D1945 where nothing is stated
    """
    device = context.site.device(declared.analyser) if declared.analyser else None
    lasting = _statement(declared, declared.uncertainty, component)
    anew = _statement(declared, declared.sampling, component)
    lasting = lasting or (device.uncertainty if device else None)
    home = f"analyser {declared.analyser}" if declared.analyser else f"analysis of {declared.gas}"
    sampling = f"sampling of {declared.gas}: {component}"
    renewed = device.calibrations if device else []
    doubts = (
        *doubts_of(f"{home}: {component}", stated(lasting), calibrations=renewed),
        *doubts_of(sampling, stated(anew), is_anew=True),
    )
    if lasting is not None:
        return errors_of(doubts, Read(values, unit("percent"), days))
    words = "by default, ASTM D1945"
    common = _by_level(context, "reproducibility", values)
    errors = [shared(Cause(f"{home}: {component}", words=f"{home}: {component}, {words}"), common)]
    if anew is None:
        each = _by_level(context, "repeatability", values)
        errors.append(independent(Cause(sampling, words=f"{sampling}, {words}"), each))
    context.unstated.take_analysis(declared.gas)
    return (*errors, *errors_of(doubts, Read(values, unit("percent"), days)))


def _statement(declared: Analysis, said: dict[str, str], component: str) -> str | None:
    """Return what is stated for one component: by its name, its heading, or for all others."""
    for key, text in said.items():
        if component in {key, declared.components.get(key, ""), str(name_of(key))}:
            return text
    return said.get(ALL_OTHERS)


def _by_level(context: Context, precision: Precision, values: Array) -> Array:
    """Return the standard uncertainty of results by their level; 0 where nothing was found."""
    names = [f"{precision} of an analysis up to {level:g} mol-%" for level in LEVELS]
    widths = np.array([context.register.entry(name, context.last_day).value for name in names])
    places = np.searchsorted(LEVELS, np.nan_to_num(values)).clip(max=len(LEVELS) - 1)
    return np.where(values > 0, widths[places] / TWO_RESULTS, 0.0)
