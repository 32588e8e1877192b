"""Charts of bars below the lines of a listing: native, with the figures beside the bars."""

from __future__ import annotations

from footprint.report.charts import BLUE, VERMILLION
from footprint.report.desk import Desk
from footprint.report.plan import ListedBars, rows_of_bars
from footprint.report.sheet import ROW_HEIGHT, Sheet

WIDE = 1080  # pixels
PIXELS = 4 / 3  # in a point


def write_bars(desk: Desk, sheet: Sheet, part: ListedBars) -> None:
    """Write a chart of bars, the first line on top; what is below zero has a lighter look.

    Args:
        desk: plan, file and looks. [desk]
        sheet: the sheet of the lines. [sheet]
        part: the lines and where the chart stands. [plan]

    Source: definition
    """
    bars, last = part.bars, part.first + part.bars.count - 1
    chart = desk.workbook.add_chart({"type": "bar"})
    chart.add_series(
        {
            "name": bars.title,
            "categories": [sheet.name, part.first, 0, last, 0],
            "values": [sheet.name, part.first, bars.column, last, bars.column],
            "fill": {"color": BLUE},
            "border": {"color": BLUE},
            "invert_if_negative": True,
            "invert_if_negative_color": VERMILLION,
            "data_labels": {"value": True, "num_format": "#,##0"},
            "gap": 40,
        }
    )
    chart.set_title({"name": bars.title, "name_font": {"size": 12}})
    chart.set_legend({"none": True})
    chart.set_y_axis(
        {"reverse": True, "label_position": "low", "num_font": {"size": 9}}
    )  # of a bar chart this one names the bars
    chart.set_x_axis(
        {
            "name": bars.unit,
            "num_font": {"size": 9},
            "num_format": "#,##0",
            "major_gridlines": {"visible": True, "line": {"color": "#C8CDD3", "width": 0.5}},
        }
    )
    rows = rows_of_bars(bars) - 1
    chart.set_size({"width": WIDE, "height": round(rows * ROW_HEIGHT * PIXELS)})
    alt = f"Bars: {bars.title}, in {bars.unit}. Cells: rows {part.first + 1} to {last + 1}."
    sheet.chart(part.at, chart, {"description": alt, "object_position": 2})
    sheet.hold_rows(part.at, rows)
