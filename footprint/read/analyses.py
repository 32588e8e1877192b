"""Gas analyses: one row a sample, one column a component, in mole per cent."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from footprint.base.finding import Finding, Where, declare
from footprint.base.source import Reading
from footprint.gas.names import name_of
from footprint.read.cell_values import Valued, values_in
from footprint.read.components import LUMPED, Component, component_of, components_of
from footprint.read.fault import Fault, Refusal, fault_in, merged_findings
from footprint.read.headings import (
    MISSING_COLUMN,
    Column,
    clean,
    headings_in,
    locate_any,
)
from footprint.read.nearest import offer
from footprint.read.readings import AnalysisSeries, Listed
from footprint.read.rows import Rows, Wanted, rows_of
from footprint.read.series import origin_of
from footprint.read.sheet import Sheet
from footprint.read.site import Analysis

SUM_STOP = (97.0, 103.0)  # limits: common practice, no source
PER_CENT = 100.0
ROUNDING = 1e-9  # of a sum in binary numbers
NO_COMPONENTS = declare(
    "no-components",
    "stop",
    means="The sheet of a gas analysis has no column with a known component.",
    effect="the gas can't be described",
    mend="name the sheet and the heading of the sampling dates in the [[analyses]] entry",
    example='sheet = "Cover" where the analyses stand in "GC"',
)
ANALYSIS_DOES_NOT_CLOSE = declare(
    "analysis-does-not-close",
    "stop",
    means="The components of a gas sample sum to less than 97 or more than 103 mole per cent.",
    effect="a component is missing or a value is wrong; scaling to 100 would hide it",
    mend="look at the values of the row and at components without a column",
    example="a sample that sums to 89.2",
)
ANALYSIS_CLOSES_POORLY = declare(
    "analysis-closes-poorly",
    "warn",
    means="The components of a gas sample sum to further from 100 mole per cent than the tolerance "
    "of its [[analyses]] entry allows: 1 where it states none.",
    effect="the sample is used, scaled to 100",
    mend="look at the values of the row; compare with the samples beside it",
    example="a sample that sums to 98.6",
)
EMPTY_COMPONENT = declare(
    "empty-component",
    "stop",
    means="A sample has no value for a component.",
    effect="a blank is never zero: the composition of the sample can't be given",
    mend="write 0 where the component was looked for and not found, else the value",
    example="an empty cell under CO2; mended: 0.00",
)
COMPONENT_OUT_OF_RANGE = declare(
    "component-out-of-range",
    "stop",
    means="A share of a component is below 0 or above 100 mole per cent.",
    effect="the sample can't be used",
    mend="look the value up and write it into the cell, 0 where nothing was found",
    example="-0.02 under N2; mended: 0",
)
WATER_IN_DRY_ANALYSIS = declare(
    "water-in-dry-analysis",
    "warn",
    means="An analysis declared dry holds water.",
    effect="the water dilutes the other components and may be taken off a second time",
    mend="give the analysis without water",
    example="1.2 under H2O in a dry analysis",
)
NO_SAMPLES = declare(
    "no-samples",
    "stop",
    means="The sheet of a gas analysis has headings but no sample of the year.",
    effect="the gas can't be described",
    mend="add the samples, with their dates",
    example="a sheet with headings alone",
)


def analysis_of(
    sheet: Sheet, analysis: Analysis, year: int
) -> tuple[AnalysisSeries | None, Rows, list[Finding]]:
    """Return the analyses of a gas, its rows, and what was found; None if no column is read.

    Args:
        sheet: where they stand. [sheet]
        analysis: as declared. [entry]
        year: of the return. [year]

    Findings:
        the codes of this module, of `headings`, `rows` and `cell_values`.

    Source: definition
    """
    table = locate_any(
        sheet, analysis.date_column, lambda text: component_of(text, analysis) is not None
    )
    if table is None:
        what = f'no heading is a known component of "{analysis.gas}"'
        return None, Rows(), [NO_COMPONENTS.at(Where(sheet.file, sheet.name), what)]
    if isinstance(table, Finding):
        return None, Rows(), [table]
    columns = [
        column for column, _ in headings_in(sheet, table.header_row) if column != table.date_column
    ]
    rows = rows_of(table, columns, Wanted("samples", year, analysis.date_order))
    components, findings = components_of(table, analysis, rows)
    findings = merged_findings(rows.faults) + findings
    if not components:
        return None, rows, findings
    if not rows.days:
        where = sheet.where(table.date_column, [table.header_row])
        return None, rows, [*findings, NO_SAMPLES.at(where, f'no sample of "{analysis.gas}"')]
    methods = _method_column(table, analysis)
    if isinstance(methods, Finding):
        findings, methods = [*findings, methods], None
    series, faults = _series(table, analysis, components, rows)
    if methods is not None:
        series = _with_methods(series, table, methods, rows)
    return series, rows, findings + merged_findings(faults)


def _method_column(table: Column, analysis: Analysis) -> int | Finding | None:
    """Return the column that names the method of each sample; None where none is declared."""
    if analysis.method_column is None:
        return None
    headings = headings_in(table.sheet, table.header_row)
    wanted = clean(analysis.method_column).casefold()
    for column, cell in headings:
        if clean(cell.written).casefold() == wanted:
            return column
    what = f'no column "{analysis.method_column}" for the method of "{analysis.gas}"'
    mend = offer(analysis.method_column, [clean(cell.written) for _, cell in headings])
    return MISSING_COLUMN.at(
        table.sheet.where(table.date_column, [table.header_row]), what, mend=mend
    )


def _with_methods(series: AnalysisSeries, table: Column, column: int, rows: Rows) -> AnalysisSeries:
    """Return the samples, the method of each beside the text of its shares."""
    ordered = [row for row, _ in sorted(rows.days.items(), key=lambda pair: pair[1])]
    cells = [table.sheet.at(row, column) for row in ordered]
    methods = [clean(cell.written) if cell else "no method named" for cell in cells]
    origins = tuple(
        tuple(replace(one, written=f"{one.written} by {method}") for one in sample)
        for sample, method in zip(series.origins, methods, strict=True)
    )
    return replace(series, origins=origins)


def _series(
    table: Column, analysis: Analysis, components: list[Component], rows: Rows
) -> tuple[AnalysisSeries, list[Fault]]:
    """Return the samples in the order of their dates."""
    ordered = [row for row, _ in sorted(rows.days.items(), key=lambda pair: pair[1])]
    values = np.full((len(ordered), len(components)), np.nan)
    faults: list[Fault] = []
    for index, component in enumerate(components):
        read, found = _column_values(table, analysis, component, ordered)
        values[:, index] = [read.get(row, np.nan) for row in ordered]
        faults += found
    faults += _sums(table, ordered, values, analysis.tolerance_percent)
    series = AnalysisSeries(
        analysis.gas,
        tuple(rows.days[row] for row in ordered),
        tuple(component.name for component in components),
        values,
        tuple(tuple(_origin(table, row, one.column) for one in components) for row in ordered),
    )
    return (_split(series, analysis) if LUMPED in series.components else series), faults


def _split(series: AnalysisSeries, analysis: Analysis) -> AnalysisSeries:
    """Return the samples with the lumped fraction replaced by the components of its split."""
    at = series.components.index(LUMPED)
    kept = [place for place in range(len(series.components)) if place != at]
    lumped = Listed(series.values[:, at], tuple(sample[at] for sample in series.origins))
    names = tuple(str(name_of(part)) for part in analysis.plus_fraction)
    parts = lumped.values[:, None] * np.array(list(analysis.plus_fraction.values()))
    return AnalysisSeries(
        series.gas,
        series.dates,
        (*(series.components[place] for place in kept), *names),
        np.hstack([series.values[:, kept], parts]),
        tuple(
            (*(sample[place] for place in kept), *[sample[at]] * len(names))
            for sample in series.origins
        ),
        lumped,
    )


def _column_values(
    table: Column, analysis: Analysis, component: Component, ordered: list[int]
) -> tuple[dict[int, float], list[Fault]]:
    """Return the shares of one component by row, and what is wrong with the others."""
    sheet = table.sheet
    present = {row: cell for row in ordered if (cell := sheet.at(row, component.column))}
    found = values_in(
        list(present.values()),
        analysis.decimal_mark,
        is_per_cent=True,
        is_text_usual=sheet.is_text,
    )
    read: dict[int, float] = {}
    blank = Refusal(EMPTY_COMPONENT, f"samples have no value for {component.name}")
    faults = [
        Fault(blank, sheet, component.heading, row, component.column)
        for row in ordered
        if row not in present
    ]
    for cell, one in zip(present.values(), found, strict=True):
        refusal = one if isinstance(one, Refusal) else _implausible(component, one)
        if refusal:
            faults.append(fault_in(sheet, component.heading, cell, refusal))
        if isinstance(one, Valued) and (refusal is None or refusal.code.level != "stop"):
            read[cell.row] = one.value
            faults += [fault_in(sheet, component.heading, cell, note) for note in one.notes]
    return read, faults


def _implausible(component: Component, found: Valued) -> Refusal | None:
    """Return why a number can't be the share of a component, or the warning that it is water."""
    if not 0 <= found.value <= 100:  # noqa: PLR2004  per cent
        return Refusal(COMPONENT_OUT_OF_RANGE, f"{found.value:.10g} is not between 0 and 100")
    if component.name == "water" and found.value > 0:
        return Refusal(WATER_IN_DRY_ANALYSIS, "samples declared dry hold water")
    return None


def _sums(
    table: Column, ordered: list[int], values: NDArray[np.float64], tolerance: float
) -> list[Fault]:
    """Return the samples whose components do not sum to 100; far off, their values become NaN."""
    faults: list[Fault] = []
    for row, sample in zip(ordered, values, strict=True):
        total = float(sample.sum())
        if np.isnan(total) or abs(total - PER_CENT) <= tolerance + ROUNDING:
            continue
        is_stop = not SUM_STOP[0] <= total <= SUM_STOP[1]
        code = ANALYSIS_DOES_NOT_CLOSE if is_stop else ANALYSIS_CLOSES_POORLY
        what = f"the components sum to {total:.6g} mole per cent"
        refusal = Refusal(code, what, "" if is_stop else _scaled(tolerance))
        cell = table.sheet.cells[(row, table.date_column)]
        faults.append(fault_in(table.sheet, table.date_heading, cell, refusal))
        if is_stop:
            sample[:] = np.nan
    return faults


def _scaled(tolerance: float) -> str:
    """Say what the tolerance is, and the sum that the sample is used with."""
    return (
        f"the sum as written is more than {tolerance:g} from 100; the sample is used with each "
        "component scaled alike, so that the sum is 100"
    )


def _origin(table: Column, row: int, column: int) -> Reading:
    """Return the place of a share, also of one that is missing."""
    cell = table.sheet.at(row, column)
    if cell is not None:
        return origin_of(table, cell)
    home = table.sheet.home(row)
    return Reading(home.file, home.name, table.sheet.address(row, column), "")
