"""The two charts, native, with stored points and alt text, below their lines."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from xlsxwriter.chart import Chart

from footprint.base.row import Row
from footprint.base.units import label
from footprint.report.book import ChartRows
from footprint.report.desk import Desk
from footprint.report.pages import write_heading
from footprint.report.places import Place, in_words
from footprint.report.plan import HEADER, JANUARY, QUANTITY, UNIT, YEAR, Heading
from footprint.report.sheet import Sheet

# of the Okabe-Ito colours those that reach 3 : 1 on white
BLUE, VERMILLION, BLACK, GREEN, PURPLE = "#0072B2", "#D55E00", "#000000", "#009E73", "#CC79A7"
LINES = (
    (BLACK, "dash", "diamond"),
    (GREEN, "long_dash", "square"),
    (PURPLE, "round_dot", "triangle"),
)
HEIGHT_ROWS = 22
SIZE = {"width": 980, "height": 400}


@dataclass(frozen=True, eq=False, slots=True)
class Series:
    """One series of a chart: twelve cells in a row."""

    words: str
    place: Place


def write_charts(desk: Desk, sheet: Sheet, at: int) -> int:
    """Write the charts whose lines stand on a sheet; return the next free row.

    Args:
        desk: plan, file and looks. [desk]
        sheet: a sheet of months. [sheet]
        at: first free row below its lines. [1]

    Source: definition
    """
    rows = desk.layout.book.charts
    if rows is None:
        return at
    if rows.process.months is not None and _stands_on(desk, rows.process.months, sheet):
        at = _write_emissions(desk, sheet, at, rows)
    if _stands_on(desk, rows.distance, sheet):
        at = _write_energy(desk, sheet, at, rows)
    return at


def _stands_on(desk: Desk, row: Row, sheet: Sheet) -> bool:
    return desk.layout.place(row).sheet == sheet.name


def _series(desk: Desk, *rows: Row | None) -> list[Series]:
    return [Series(row.words, desk.layout.place(row)) for row in rows if row is not None]


def _write_emissions(desk: Desk, sheet: Sheet, at: int, rows: ChartRows) -> int:
    bars = _series(desk, rows.process.months, rows.fuel.months)
    unit = label(rows.process.row.unit)
    chart = _stacked(desk, sheet, bars)
    _dress(chart, f"Process and fuel CO2 by month, {desk.layout.book.year}", unit)
    return _insert(sheet, chart, at, _alt("Stacked columns: CO2 by month", bars, unit))


def _write_energy(desk: Desk, sheet: Sheet, at: int, rows: ChartRows) -> int:
    bars = _series(desk, rows.minimum, rows.distance)
    unit = label(rows.minimum.unit)
    chart = _stacked(desk, sheet, bars)
    lines, at = _benchmark_lines(desk, sheet, at, rows.benchmarks[: len(LINES)])
    if lines:
        chart.combine(_lined(desk, sheet, lines))
    _dress(chart, f"Energy per tonne against the minimum, {desk.layout.book.year}", unit)
    words = "Stacked columns: least energy that chemistry allows, and the distance to it"
    words += "; lines: benchmarks" if lines else ""
    return _insert(sheet, chart, at, _alt(words, [*bars, *lines], unit))


def _lined(desk: Desk, sheet: Sheet, lines: list[Series]) -> Chart:
    """Return a chart of lines, told apart by dash and marker as well as by colour."""
    chart = desk.workbook.add_chart({"type": "line"})
    for one, (colour, dash, marker) in zip(lines, LINES, strict=False):
        fill = {"fill": {"color": colour}, "border": {"color": colour}}
        line = {"color": colour, "width": 2, "dash_type": dash}
        look = {"line": line, "marker": {"type": marker, "size": 5, **fill}}
        chart.add_series(_points(sheet, one) | look)
    return chart


def _benchmark_lines(
    desk: Desk, sheet: Sheet, at: int, benchmarks: tuple[tuple[str, Row], ...]
) -> tuple[list[Series], int]:
    """Write each benchmark once a month: a line needs as many cells as the columns."""
    if not benchmarks:
        return [], at
    write_heading(desk, sheet, Heading(at, "Benchmarks, for the chart"))
    lines = []
    for words, row in benchmarks:
        at += 1
        sheet.text(at, QUANTITY, words, desk.looks.of("calculated"))
        sheet.text(at, UNIT, label(row.unit), desk.looks.of("calculated", indent=1))
        home = Place(sheet.name, at, JANUARY, "across")
        desk.fill(sheet, row, home, size=12)
        desk.links(sheet, at, YEAR + 4, [(desk.layout.place(row), 1)])
        lines.append(Series(words, home))
    return lines, at + 2


def _points(sheet: Sheet, one: Series) -> dict[str, Any]:
    first, last = one.place.at(0), one.place.at(11)
    return {
        "name": one.words,
        "categories": [sheet.name, HEADER, JANUARY, HEADER, JANUARY + 11],
        "values": [one.place.sheet, *first, *last],
    }


def _stacked(desk: Desk, sheet: Sheet, bars: list[Series]) -> Chart:
    chart = desk.workbook.add_chart({"type": "column", "subtype": "stacked"})
    looks: list[dict[str, Any]] = [
        {"fill": {"color": BLUE}, "border": {"color": BLUE}},
        {
            "pattern": {
                "pattern": "wide_upward_diagonal",
                "fg_color": VERMILLION,
                "bg_color": "#FFFFFF",
            },
            "border": {"color": VERMILLION},
        },
    ]
    for one, look in zip(bars, looks, strict=False):
        chart.add_series(_points(sheet, one) | look | {"gap": 60})
    return chart


def _dress(chart: Chart, title: str, unit: str) -> None:
    chart.set_title({"name": title, "name_font": {"size": 12}})
    chart.set_x_axis({"num_font": {"size": 9}})
    chart.set_y_axis(
        {
            "name": unit,
            "min": 0,
            "num_font": {"size": 9},
            "num_format": "#,##0.##",
            "major_gridlines": {"visible": True, "line": {"color": "#C8CDD3", "width": 0.5}},
        }
    )
    chart.set_legend({"position": "bottom"})
    chart.set_size(SIZE)


def _insert(sheet: Sheet, chart: Chart, at: int, alt: str) -> int:
    sheet.chart(at, chart, {"description": alt, "object_position": 2, "x_offset": 4, "y_offset": 6})
    sheet.hold_rows(at, HEIGHT_ROWS)
    return at + HEIGHT_ROWS


def _alt(words: str, series: list[Series], unit: str) -> str:
    cells = "; ".join(f"{one.words} ({in_words(one.place, 12)})" for one in series)
    return f"{words}, in {unit}. Cells: {cells}."
