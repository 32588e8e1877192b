"""The columns of a gas analysis: which component each heading stands for, and in which unit."""

from __future__ import annotations

import re
from dataclasses import dataclass

from footprint.base.finding import Finding, declare
from footprint.gas.names import name_of
from footprint.read.entry_needs import SPLIT_NOT_USABLE
from footprint.read.fault import Refusal
from footprint.read.headings import (
    REPEATED_HEADING,
    Column,
    clean,
    headings_in,
    name_without_unit,
)
from footprint.read.plain_numbers import number_of
from footprint.read.rows import Rows
from footprint.read.site import Analysis
from footprint.read.unit_words import PER_CENT_BY_MOLE, unit_named

LUMPED = "heavier hydrocarbons"  # a column that the site file splits into components
_PLUS = re.compile(r"(n-?)?C[0-9]+ ?(\+|plus)|(pent|hex|hept|oct)anes? ?(\+|plus)", re.IGNORECASE)
_NO_COMPONENTS = re.compile(
    r"(total|sum|sample|id|no\.?|number|analyst|lab(oratory)?|remarks?|comments?|notes?|time|point|method"
    r"|density|rel(ative|\.)? density|wobbe.*|molar mass|mol(ecular|\.)? weight|mw|z|compress.*"
    r"|(gross|net|lower|higher|upper|inferior|superior)?\s*(calorific|heating) value"
    r"|gcv|ncv|hhv|lhv|ghv|pressure"
    r"|temperature)\b.*",
    re.IGNORECASE,
)
_FOREIGN = re.compile(r"[\s,(\[]*\b(ppm[vw]?|ppb|vpm|mg/N?m[3³])[)\]]*", re.IGNORECASE)

UNKNOWN_COMPONENT = declare(
    "unknown-component",
    "stop",
    means="A column of a gas analysis has a heading that is no known component.",
    effect="its carbon would be left out of the gas",
    mend='add components = { "heading" = "name of the component" } to the [[analyses]] entry',
    example='"Inerts"; mended: components = { "Inerts" = "nitrogen" }',
)
PLUS_FRACTION = declare(
    "plus-fraction-without-split",
    "stop",
    means="A column of a gas analysis sums up all heavier hydrocarbons.",
    effect="its carbon and heating value depend on what it consists of",
    mend='say what it consists of: plus_fraction = { "n-hexane" = 0.7, "n-heptane" = 0.3 }, or '
    'what it counts as: components = { "C6+" = "n-hexane" }',
    example='"C6+"; mended: components = { "C6+" = "n-hexane" } in the [[analyses]] entry',
)
NOT_MOLE_PER_CENT = declare(
    "analysis-not-in-mole-per-cent",
    "stop",
    means="A column of a gas analysis is in another unit than mole per cent.",
    effect="shares by mass or in ppm would be taken for mole per cent",
    mend="give the column in mole per cent",
    example='"H2S (ppm)"; mended: "H2S (mol-%)" with the values divided by 10 000',
)


@dataclass(frozen=True, eq=False, slots=True)
class Component:
    """A column of an analysis."""

    name: str
    heading: str
    column: int


def component_of(heading: str, analysis: Analysis) -> str | None:
    """Return the component of a heading: as the site file says, else as the trade knows it.

    Args:
        heading: as the sheet has it. [text]
        analysis: as declared. [entry]

    Source: common practice, no source
    """
    name, _ = name_without_unit(_FOREIGN.sub("", heading))
    for written, component in analysis.components.items():
        if clean(written).casefold() in (clean(heading).casefold(), name.casefold()):
            return name_of(component)
    return name_of(name)


def is_plus_fraction(heading: str) -> bool:
    """Return whether a heading sums up all heavier hydrocarbons, such as C6+.

    Args:
        heading: as the sheet has it. [text]

    Source: common practice, no source
    """
    return _PLUS.match(heading) is not None


def is_no_component(heading: str) -> bool:
    """Return whether a heading stands beside components and is none, such as Total or Density.

    Args:
        heading: as the sheet has it. [text]

    Source: common practice, no source
    """
    return _NO_COMPONENTS.fullmatch(heading) is not None


def components_of(
    table: Column, analysis: Analysis, rows: Rows
) -> tuple[list[Component], list[Finding]]:
    """Return the columns of an analysis; none where one of them must be mended first.

    Args:
        table: any column of the analysis, for the place of its headings. [column]
        analysis: as declared. [entry]
        rows: of the samples. [rows]

    Findings:
        unknown-component, plus-fraction-without-split, repeated-heading: the component.
        analysis-not-in-mole-per-cent: the unit.
        plus-fraction-split-not-usable: the split of the lumped column.

    Source: definition
    """
    components: list[Component] = []
    findings: list[Finding] = []
    for column, cell in headings_in(table.sheet, table.header_row):
        if column == table.date_column:
            continue
        heading = clean(str(cell.value))
        where = table.sheet.where(column, [table.header_row], heading)
        name = LUMPED if _is_lumped(heading, analysis) else component_of(heading, analysis)
        if name is None:
            findings += _unknown(table, column, heading, rows)
        elif any(one.name == name for one in components):
            what = f'"{heading}" is {name}, which another column holds already'
            findings.append(REPEATED_HEADING.at(where, what))
        elif text := _other_unit(table, column, heading):
            what = f'"{heading}" is in "{text}"'
            findings.append(NOT_MOLE_PER_CENT.at(where, what))
        else:
            components.append(Component(name, heading, column))
    findings += _split(table, analysis, components)
    is_broken = any(finding.level == "stop" for finding in findings)
    return ([] if is_broken else components), findings


def _is_lumped(heading: str, analysis: Analysis) -> bool:
    """Return whether a heading is the lumped column that the site file splits."""
    if not analysis.plus_fraction:
        return False
    if analysis.plus_column is None:
        return _PLUS.match(heading) is not None
    wanted = clean(analysis.plus_column).casefold()
    return wanted in (heading.casefold(), name_without_unit(heading)[0].casefold())


def _split(table: Column, analysis: Analysis, components: list[Component]) -> list[Finding]:
    """Return why the declared split fits no column, or fits beside none of the others."""
    names = {one.name: one for one in components}
    if not analysis.plus_fraction:
        return []
    if LUMPED not in names:
        where = table.sheet.where(table.date_column, [table.header_row])
        what = "no column is the lumped fraction that plus_fraction splits"
        return [SPLIT_NOT_USABLE.at(where, what, mend="name it: plus_column = its heading")]
    shared = [names[name] for part in analysis.plus_fraction if (name := name_of(part)) in names]
    return [
        SPLIT_NOT_USABLE.at(
            table.sheet.where(one.column, [table.header_row], one.heading),
            f'"{one.heading}" has a column of its own and a share of the lumped fraction',
            mend="leave the component out of plus_fraction",
        )
        for one in shared
    ]


def _unknown(table: Column, column: int, heading: str, rows: Rows) -> list[Finding]:
    """Return the finding of a heading that is no component, unless no numbers stand below it."""
    cells = [table.sheet.at(row, column) for row in rows.days]
    if is_no_component(heading) or all(number_of(cell) is None for cell in cells):
        return []
    code, what = UNKNOWN_COMPONENT, f'"{heading}" is no known component'
    if is_plus_fraction(heading):
        code, what = PLUS_FRACTION, f'"{heading}" sums up heavier hydrocarbons'
    return [code.at(table.sheet.where(column, [table.header_row], heading), what)]


def _other_unit(table: Column, column: int, heading: str) -> str:
    """Return the unit of a component column where it is not a share in per cent, else nothing."""
    below = table.sheet.at(table.unit_row, column) if table.unit_row else None
    texts = [name_without_unit(heading)[1], clean(str(below.value)) if below else ""]
    if match := _FOREIGN.search(heading):
        return match[1]
    return next((text for text in texts if text and not _is_mole_per_cent(text)), "")


def _is_mole_per_cent(text: str) -> bool:
    """Return whether a unit is mole per cent, or per cent without saying of what."""
    if re.search(r"mass|wt|w/w|m/m|weight|vol", text, re.IGNORECASE):
        return False
    found = unit_named(text)
    return found == "percent" or (isinstance(found, Refusal) and found.code is PER_CENT_BY_MOLE)
