"""Time and memory of reading hourly data against the fastest reader of the same cells; by hand.

The daily meters of the sample year are spread over hours: 12 workbooks of a month each, read,
checked and judged, beside calamine loading the same cells (aim: 4 times at most). A second table
reads as many csv files as one to ten years of hours hold. Each job runs in a process of its own,
without what importing takes.

    python tests/bench/reading.py
"""

from __future__ import annotations

import csv
import json
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Iterator
from datetime import datetime, timedelta
from itertools import groupby
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
SAMPLE = ROOT / "sample_inputs"
RUNS = 3
STREAMS = 20
YEARS = (1, 2, 5, 10)
Row = tuple[datetime, list[float | None]]


def hourly_meters() -> tuple[dict[str, Any], dict[str, str], dict[str, list[float | None]]]:
    """Return the site file, the heading and the hourly readings of its first daily meters."""
    from footprint.base.units import label  # noqa: PLC0415  only this job needs the package
    from footprint.read import read  # noqa: PLC0415
    from footprint.read.daily import is_level  # noqa: PLC0415
    from footprint.read.purposes import purposes_of  # noqa: PLC0415

    site = tomllib.loads((SAMPLE / "site.toml").read_text(encoding="utf-8"))
    readings, _ = read(SAMPLE)
    if readings is None:
        raise SystemExit("the sample cannot be read: nothing to measure")
    daily = [one.tag for one in readings.site.meters if one.rows == "daily"][:STREAMS]
    headings: dict[str, str] = {}
    values: dict[str, list[float | None]] = {}
    for tag in daily:
        series = readings.series[tag]
        parts = 1 if is_level(purposes_of(readings.site, tag)) else 24
        headings[tag] = f"{tag} ({label(series.unit)})"
        values[tag] = [
            None if day != day else float(day) / parts  # noqa: PLR0124  a missing day
            for day in series.values
            for _ in range(24)
        ]
    return site, headings, values


def hours(values: dict[str, list[float | None]], year: int) -> Iterator[Row]:
    """Yield each hour of the year with the readings of all streams."""
    first = datetime(year, 1, 1)  # noqa: DTZ001  hours on the wall
    for place, readings in enumerate(zip(*values.values(), strict=True)):
        yield first + timedelta(hours=place), list(readings)


def write_book(path: Path, headings: list[str], rows: list[Row]) -> None:
    """Write the hours of a month into a workbook."""
    import xlsxwriter  # noqa: PLC0415  only this job needs it

    with xlsxwriter.Workbook(path, {"default_date_format": "yyyy-mm-dd hh:mm"}) as book:
        sheet = book.add_worksheet("Hours")
        sheet.write_row(0, 0, ["Hour", *headings])
        for row, (hour, values) in enumerate(rows, start=1):
            sheet.write_datetime(row, 0, hour)
            sheet.write_row(row, 1, values)


def write_text(path: Path, headings: list[str], rows: list[Row]) -> None:
    """Write the hours of a month into a csv file."""
    with path.open("w", newline="", encoding="utf-8") as stream:
        table = csv.writer(stream, delimiter=";")
        table.writerow(["Hour", *headings])
        table.writerows([hour.isoformat(" "), *values] for hour, values in rows)


def make(folder: Path, kind: str, years: int = 1) -> int:
    """Write a site whose daily meters are hourly, and return its number of hourly cells."""
    from tests.sites.site_text import site_text  # noqa: PLC0415  only this job needs it

    shutil.copytree(SAMPLE, folder, ignore=shutil.ignore_patterns("brackwater", "*.py", "*.png"))
    site, headings, values = hourly_meters()
    months = groupby(hours(values, site["works"]["year"]), key=lambda row: row[0].month)
    write = write_book if kind == "xlsx" else write_text
    for month, found in months:
        rows = list(found)
        for year in range(years):
            name = f"hourly{year}_{month:02}.{kind}"
            write(folder / name, list(headings.values()), rows)
    for meter in [one for one in site["meters"] if one["tag"] in headings]:
        for key in ("sheet", "unit", "date_order", "decimal_mark"):
            meter.pop(key, None)
        meter |= {"rows": "hourly", "date_column": "Hour", "column": meter["tag"]}
        meter |= {"file": f"hourly0_*.{kind}"}
        for year in range(1, years):
            copy = meter | {"tag": f"{meter['tag']} {year}", "file": f"hourly{year}_*.{kind}"}
            site["meters"].append(copy)
    (folder / "site.toml").write_text(site_text(site), encoding="utf-8")
    return years * len(headings) * 8760


def job(name: str, folder: Path) -> float:
    """Return the seconds of the processor that one job takes, without importing."""
    if name == "calamine":
        import python_calamine  # noqa: PLC0415  importing is not measured

        started = time.process_time()
        for path in sorted(folder.glob("*.xlsx")):
            book = python_calamine.CalamineWorkbook.from_path(path)
            for sheet in book.sheet_names:
                book.get_sheet_by_name(sheet).to_python()
        return time.process_time() - started
    import footprint  # noqa: PLC0415
    from footprint.read import read  # noqa: PLC0415

    started = time.process_time()
    if name == "judge":
        footprint.run(folder)
    else:
        read(folder)
    return time.process_time() - started


def in_a_process(name: str, folder: Path) -> tuple[float, float]:
    """Return seconds and peak megabytes of one job in a process of its own."""
    command = [sys.executable, __file__, name, str(folder)]
    out = subprocess.run(command, check=True, capture_output=True, text=True, cwd=ROOT)
    seconds, megabytes = json.loads(out.stdout.splitlines()[-1])
    return seconds, megabytes


def compare(parent: Path) -> None:
    """Print reading and judging a year of hours beside the fastest reader of its cells."""
    cells = make(parent / "books", "xlsx")
    print(f"hourly cells in 12 workbooks: {cells}")
    medians: dict[str, float] = {}
    for name in ("calamine", "read", "judge"):
        seen = [in_a_process(name, parent / "books") for _ in range(RUNS)]
        seconds, megabytes = (statistics.median(one) for one in zip(*seen, strict=True))
        medians[name] = seconds
        ratio = seconds / medians["calamine"]
        print(f"{name:10} {seconds:7.2f} s {megabytes:6.0f} MB  {ratio:6.2f} times calamine")


def grow(parent: Path) -> None:
    """Print time and memory against the number of hourly rows in csv files."""
    first: tuple[float, float] | None = None
    for years in YEARS:
        folder = parent / f"text{years}"
        cells = make(folder, "csv", years)
        seconds, megabytes = in_a_process("read", folder)
        first = first or (seconds, megabytes)
        print(
            f"{years:3} years, {cells:8} cells {seconds:7.2f} s, {seconds / first[0]:5.2f} times "
            f"one year, {megabytes:6.0f} MB, {megabytes - first[1]:6.0f} more than one year"
        )
        shutil.rmtree(folder)


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    if len(sys.argv) == 1:
        with tempfile.TemporaryDirectory() as made:
            compare(Path(made))
            grow(Path(made))
    else:
        taken = job(sys.argv[1], Path(sys.argv[2]))
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        print(json.dumps([taken, peak]))
