"""The two commands that begin a works: their words on the command line, and what they tell."""

from __future__ import annotations

import argparse
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from footprint.base.finding import Finding
from footprint.start.draft import draft
from footprint.start.new import new, obstacle

YEARS = range(2005, 2101)


@dataclass(frozen=True)
class Told:
    """What a command has to tell: its result, or the problem that kept it from one."""

    words: str = ""
    problem: str = ""
    findings: tuple[Finding, ...] = ()


def add_new(parser: argparse.ArgumentParser) -> None:
    """Add the words that `new` takes to its parser.

    Args:
        parser: of the command. [parser]

    Source: definition
    """
    parser.add_argument("folder", type=Path, metavar="FOLDER", help="to make and to fill")
    parser.add_argument(
        "--year", type=int, metavar="YEAR", help="of the return; the last full year when not given"
    )
    parser.add_argument("--name", default="Our Works", metavar="NAME", help="of the works")


def add_draft(parser: argparse.ArgumentParser) -> None:
    """Add the words that `draft` takes to its parser.

    Args:
        parser: of the command. [parser]

    Source: definition
    """
    parser.add_argument(
        "files", nargs="+", type=Path, metavar="FILE", help="spreadsheet (.xlsx, .xlsm, .csv)"
    )
    parser.add_argument(
        "--out", type=Path, metavar="FILE.toml", help="write the draft there, not to the terminal"
    )


def told_of_new(chosen: argparse.Namespace) -> Told:
    """Return what was made in a new folder, or why nothing was.

    Args:
        chosen: words of the command line. [words]

    Source: definition
    """
    year = datetime.now(UTC).year - 1 if chosen.year is None else chosen.year
    problem = obstacle(chosen.folder)
    if year not in YEARS:
        problem = f"--year {year} is not between {YEARS[0]} and {YEARS[-1]}"
    elif not chosen.name.strip():
        problem = "--name is empty"
    if problem:
        return Told(problem=problem)
    try:
        made = new(chosen.folder, chosen.name.strip(), year)
    except OSError as fault:
        return Told(problem=_not_written(chosen.folder, fault))
    names = ", ".join(path.name for path in made.workbooks)
    return Told(
        f"made {chosen.folder} for {year}\n\n"
        f"1. open {made.site_file} in a text editor and look for CHANGE and CHECK\n"
        f"2. fill in {names}\n"
        f"3. footprint check {chosen.folder}"
    )


def told_of_draft(chosen: argparse.Namespace) -> Told:
    """Return the draft of a site file, or where it was written, or why there is none.

    Args:
        chosen: words of the command line. [words]

    Source: definition
    """
    problem = _in_the_way(chosen.files, chosen.out)
    if problem:
        return Told(problem=problem)
    drafted = draft(chosen.files)
    if chosen.out is None:
        return Told(drafted.text.rstrip("\n"), findings=drafted.findings)
    try:
        chosen.out.write_text(drafted.text, encoding="utf-8", newline="\n")
    except OSError as fault:
        return Told(problem=_not_written(chosen.out, fault))
    words = (
        f"draft: {chosen.out}, {drafted.meters} meters, {drafted.questions} questions\n"
        f"answer the questions, then save it as {drafted.folder / 'site.toml'}"
    )
    return Told(words, findings=drafted.findings)


def _in_the_way(files: list[Path], out: Path | None) -> str:
    """Return what keeps a draft from being made, in words; empty when nothing does."""
    missing = next((path for path in files if not path.is_file()), None)
    if missing is not None:
        return f'there is no file "{missing}"'
    if out is not None and out.exists():
        return f'"{out}" exists already: name another file'
    if out is not None and not out.parent.is_dir():
        return f'the folder of "{out}" does not exist'
    return ""


def _not_written(path: Path, fault: OSError) -> str:
    return f'"{fault.filename or path}" cannot be written: {fault.strerror}'
