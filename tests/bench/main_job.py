"""Time and memory of the main job against the floor of the libraries it stands on; run by hand.

The floor imports the same libraries, reads the same files with the fastest suitable reader and
writes a workbook of as many cells. Each job runs in a process of its own, three times; the median
counts. A second table shows how time grows from one year of daily readings to ten.

    python tests/bench/main_job.py
"""

from __future__ import annotations

import json
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SAMPLE = ROOT / "sample_inputs"
RUNS = 3
METERS = 25  # daily meters of the sample: as many copies are one more year of daily readings
COPY = """
[[meters]]
tag = "COPY-{place}"
file = "gas_meters.xlsx"
sheet = "Natural gas"
column = "Auxiliary boiler gas"
uncertainty = "2.5 % (k=2)"

[[streams]]
name = "boiler fuel gas {place}"
role = "fuel"
meter = "COPY-{place}"
analysis = "natural gas"
burner = "boiler"
position = "before mixing"
"""


def main_job(target: Path) -> None:
    """Run the main job on the sample year."""
    from footprint import run  # noqa: PLC0415  importing is part of the job

    run(SAMPLE).write(target)


def floor(target: Path, cells: int) -> None:
    """Import, read with the fastest reader, write as many cells: text, numbers and formulas."""
    import chemicals.iapws  # noqa: F401, PLC0415
    import matplotlib.figure  # noqa: F401, PLC0415
    import numpy  # noqa: F401, ICN001, PLC0415
    import openpyxl  # noqa: F401, PLC0415
    import pandas  # noqa: F401, ICN001, PLC0415
    import pint  # noqa: F401, PLC0415
    import pydantic  # noqa: F401, PLC0415
    import python_calamine  # noqa: PLC0415
    import xlsxwriter  # noqa: PLC0415

    for path in sorted(SAMPLE.glob("*.xlsx")):
        book = python_calamine.CalamineWorkbook.from_path(path)
        for name in book.sheet_names:
            book.get_sheet_by_name(name).to_python()
    for path in sorted(SAMPLE.glob("*.csv")):
        path.read_text(encoding="utf-8").splitlines()
    with xlsxwriter.Workbook(target) as book:
        sheet = book.add_worksheet()
        for place in range(cells):
            row, column = divmod(place, 10)
            if column < 5:
                sheet.write_string(row, column, f"text {row}")
            elif column < 8:
                sheet.write_number(row, column, float(row))
            else:
                sheet.write_formula(row, column, f"=F{row + 1}*G{row + 1}", None, float(row) * row)


def in_a_process(job: str, *words: str) -> tuple[float, float]:
    """Return seconds and peak megabytes of one job in a process of its own."""
    started = time.perf_counter()
    command = [sys.executable, __file__, job, *words]
    out = subprocess.run(command, check=True, capture_output=True, text=True, cwd=ROOT)
    return time.perf_counter() - started, float(json.loads(out.stdout.splitlines()[-1]))


def cells_in(path: Path) -> int:
    """Return how many cells a workbook holds."""
    import openpyxl  # noqa: PLC0415

    book = openpyxl.load_workbook(path, read_only=True)
    return sum(
        1
        for sheet in book
        for row in sheet.iter_rows(values_only=True)
        for value in row
        if value is not None
    )


def compare(folder: Path) -> None:
    """Print both jobs side by side."""
    target = folder / "main.xlsx"
    main_job(target)
    cells = cells_in(target)
    jobs = {
        "main job": ("main", str(target)),
        "floor": ("floor", str(folder / "floor.xlsx"), str(cells)),
    }
    seen = {name: [in_a_process(*words) for _ in range(RUNS)] for name, words in jobs.items()}
    medians = {
        name: [statistics.median(column) for column in zip(*runs, strict=True)]
        for name, runs in seen.items()
    }
    print(f"cells in the workbook: {cells}")
    for name, (seconds, megabytes) in medians.items():
        print(f"{name:10} {seconds:6.2f} s {megabytes:7.0f} MB")
    ratios = [a / b for a, b in zip(medians["main job"], medians["floor"], strict=True)]
    print(f"ratio      {ratios[0]:6.2f}   {ratios[1]:7.2f}")


def grow(folder: Path) -> None:
    """Print time against years' worth of daily readings: the sample and copies of a meter."""
    from footprint import run  # noqa: PLC0415

    first = 0.0
    for years in (1, 2, 5, 10):
        works = folder / f"works_{years}"
        shutil.copytree(SAMPLE, works, ignore=shutil.ignore_patterns("brackwater", "*.py", "*.png"))
        text = (works / "site.toml").read_text(encoding="utf-8")
        copies = [COPY.format(place=place) for place in range((years - 1) * METERS)]
        (works / "site.toml").write_text(text + "".join(copies), encoding="utf-8")
        started = time.perf_counter()
        run(works).write(folder / "grown.xlsx")
        seconds = time.perf_counter() - started
        first = first or seconds
        print(
            f"{years:3} years of daily readings {seconds:7.2f} s, "
            f"{seconds / first:5.2f} times one year"
        )


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    if len(sys.argv) == 1:
        with tempfile.TemporaryDirectory() as made:
            compare(Path(made))
            grow(Path(made))
    else:
        if sys.argv[1] == "main":
            main_job(Path(sys.argv[2]))
        else:
            floor(Path(sys.argv[2]), int(sys.argv[3]))
        print(json.dumps(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024))
