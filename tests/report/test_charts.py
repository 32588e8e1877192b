from __future__ import annotations

import re
import zipfile

import pytest

from footprint.report import report
from footprint.report.arrange import arrange
from tests.report.works import book


@pytest.fixture(scope="module")
def parts(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """Return the parts of a workbook that are text, by name."""
    path = tmp_path_factory.mktemp("charts") / "works.xlsx"
    report(book(), path)
    with zipfile.ZipFile(path) as file:
        return {name: file.read(name).decode() for name in file.namelist() if name.endswith(".xml")}


def test_charts_hold_their_points(parts: dict[str, str]) -> None:
    """A viewer that computes nothing draws the charts from stored points, twelve a series."""
    works = book()
    charts = works.charts
    assert charts is not None
    assert charts.process.months is not None

    points = re.findall(r"<c:val>.*?</c:val>", parts["xl/charts/chart1.xml"])

    assert len(points) == 2
    stored = [float(value) for value in re.findall(r"<c:v>([^<]+)</c:v>", points[0])]
    assert stored == pytest.approx(charts.process.months.values)


def test_charts_name_their_months(parts: dict[str, str]) -> None:
    """The axis shows names of months, not serial numbers."""
    categories = re.findall(r"<c:cat>.*?</c:cat>", parts["xl/charts/chart1.xml"])

    assert re.findall(r"<c:v>([^<]+)</c:v>", categories[0])[:3] == ["Jan", "Feb", "Mar"]


def test_charts_refer_to_the_cells_of_their_lines(parts: dict[str, str]) -> None:
    """A chart follows the cells of the page it stands on."""
    works = book()
    layout = arrange(works)
    assert works.charts is not None
    place = layout.place(works.charts.distance)

    assert f"'{place.sheet}'!$C${place.row + 1}:$N${place.row + 1}" in parts["xl/charts/chart2.xml"]


def test_benchmarks_are_lines_with_marks_of_their_own(parts: dict[str, str]) -> None:
    """Benchmarks are told apart by dash and marker, not by colour alone."""
    chart = parts["xl/charts/chart2.xml"]

    assert "<c:lineChart>" in chart
    assert '<a:prstDash val="dash"/>' in chart
    assert '<c:symbol val="diamond"/>' in chart


def test_every_picture_has_words(parts: dict[str, str]) -> None:
    """Charts and picture carry alternative text: what they show, from which cells."""
    texts = [
        text
        for name, part in parts.items()
        if "drawings/drawing" in name
        for text in re.findall(r'descr="([^"]*)"', part)
    ]

    assert len(texts) == 3
    assert sum("Cells: " in text for text in texts) == 2
    assert sum("Bands from left to right" in text for text in texts) == 1
