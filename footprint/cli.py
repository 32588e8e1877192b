"""Commands: each prints findings and figures as text and ends with a status for scripts."""

from __future__ import annotations

import argparse
import io
import json
import os
import re
import sys
from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict
from difflib import get_close_matches
from pathlib import Path
from typing import NoReturn

from footprint.base.finding import CODES, LEVELS, MEANING_OF_LEVEL, Finding, worst
from footprint.base.units import label
from footprint.register import Entry, load
from footprint.report import Book, as_json, counted, summary
from footprint.run import Result, run
from footprint.start.commands import Told, add_draft, add_new, told_of_draft, told_of_new

GOOD, STOPPED, WRONG_COMMAND = 0, 1, 2
EXAMPLES = """examples:
  footprint new works_2025 --year 2025 --name "Our Works"
  footprint draft works_2025/gas.xlsx works_2025/power.csv
  footprint draft works_2025/*.xlsx --out works_2025/draft.toml
  footprint report sample_inputs
  footprint report works_2025 --out return_2025.xlsx --json rows.json
  footprint check works_2025
  footprint explain gas-volume-without-conditions
  footprint factors natural gas

exit status: 0 good, 1 a finding stops a figure, 2 the command line is wrong"""
_UNKNOWN = re.compile(r"invalid choice: (['\"])(.*?)\1 \(")  # as the parser words it


class _Parser(argparse.ArgumentParser):
    """A parser that offers the nearest command for a word it does not know."""

    def error(self, message: str) -> NoReturn:
        """Print what is wrong, the nearest command, and where help is.

        Args:
            message: as the parser words it. [text]

        Source: definition
        """
        unknown = _UNKNOWN.search(message)
        if unknown:
            near = get_close_matches(unknown[2], COMMANDS, n=1, cutoff=0.5)
            offered = f', the nearest is "{near[0]}"' if near else ""
            message = f'there is no command "{unknown[2]}"{offered}'
        _complain(f"{message}\nhelp: {self.prog} --help")
        raise SystemExit(WRONG_COMMAND)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status.

    Args:
        arguments: words of the command line; those of the process when None. [text]

    Returns:
        0 good, 1 a finding of level stop, 2 a wrong command line. [status]

    Source: definition
    """
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):  # a terminal may lack signs such as the 2 of CO₂
            stream.reconfigure(errors="replace")
    chosen = parser().parse_args(arguments)
    try:
        status: int = chosen.command(chosen)
        sys.stdout.flush()
    except BrokenPipeError:  # whoever reads the output, such as head, has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return GOOD
    return status


def parser() -> argparse.ArgumentParser:
    """Return what understands the command line.

    Source: definition
    """
    whole = _Parser(
        prog="footprint",
        description="Carbon and energy accounts of an ammonia works, from monthly spreadsheets.",
        epilog=EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    commands = whole.add_subparsers(title="commands", metavar="COMMAND", required=True)
    for name, (does, command, add) in COMMANDS.items():
        one = commands.add_parser(
            name,
            help=does,
            description=does,
            epilog=_examples_of(name),
            formatter_class=argparse.RawDescriptionHelpFormatter,
        )
        add(one)
        one.set_defaults(command=command)
    return whole


def _examples_of(name: str) -> str:
    lines = [line for line in EXAMPLES.splitlines() if line.startswith(f"  footprint {name}")]
    return "\n".join(["examples:", *lines])


def _add_folder(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "folder", type=Path, metavar="FOLDER", help="holds site.toml and the spreadsheets"
    )


def _add_report(parser: argparse.ArgumentParser) -> None:
    _add_folder(parser)
    parser.add_argument(
        "--out",
        type=Path,
        metavar="FILE.xlsx",
        help="workbook to write; named after works and year",
    )
    parser.add_argument("--json", type=Path, metavar="FILE", help="also write every row by key")


def _add_check(parser: argparse.ArgumentParser) -> None:
    _add_folder(parser)
    parser.add_argument("--json", action="store_true", help="print the findings for a program")


def _add_explain(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("code", metavar="CODE", help="as printed in square brackets")


def _add_factors(parser: argparse.ArgumentParser) -> None:
    parser.add_argument(
        "words", nargs="*", metavar="WORDS", help="only factors that hold all these words"
    )


def _told(
    begin: Callable[[argparse.Namespace], Told],
) -> Callable[[argparse.Namespace], int]:
    """Return the command that prints what a beginning has to tell."""

    def command(chosen: argparse.Namespace) -> int:
        told = begin(chosen)
        if told.problem:
            return _refuse(told.problem)
        _say(told.words)
        for finding in told.findings:
            _complain(finding.in_words())
        return STOPPED if worst(told.findings) == "stop" else GOOD

    return command


def _report(chosen: argparse.Namespace) -> int:
    wrong = _wrong_target(chosen.out, chosen.json)
    if wrong:
        return _refuse(wrong)
    result = run(chosen.folder)
    _print_findings(result.notices)
    if result.book is None:
        _say("\nnothing was written: the site file or a workbook could not be read")
        return STOPPED
    path = chosen.out or Path(f"{_plain(result.book.works)}-{result.book.year}.footprint.xlsx")
    wrong = _own_file(chosen.folder, result.book, path, chosen.json)
    if wrong:
        return _refuse(wrong)
    try:
        result.write(path)
        if chosen.json:
            _write_json(chosen.json, as_json(result.book))
    except OSError as problem:
        return _refuse(f'"{problem.filename or path}" cannot be written: {problem.strerror}')
    _say(f"\n{summary(result.book)}\n\nworkbook: {path}")
    return _status(result)


def _own_file(folder: Path, book: Book, *targets: Path | None) -> str:
    """Return why a file must not be written over, in words: it is one of those that were read."""
    names = ("site.toml", *(one.name for one in book.files))
    read = {(folder / name).resolve() for name in names}
    taken = [path for path in targets if path is not None and path.resolve() in read]
    return f'"{taken[0]}" is one of the files that are read: name another' if taken else ""


def _wrong_target(*paths: Path | None) -> str:
    """Return what is wrong with the files to write, in words; empty when nothing is."""
    for path in paths:
        if path is not None and not path.parent.is_dir():
            return f'the folder of "{path}" does not exist'
        if path is not None and path.is_dir():
            return f'"{path}" is a folder, not a file'
    if paths[0] is not None and paths[0].suffix.lower() != ".xlsx":
        return f'"{paths[0]}" does not end in .xlsx'
    return ""


def _write_json(path: Path, data: Mapping[str, object]) -> None:
    text = json.dumps(data, ensure_ascii=False, indent=1, allow_nan=False) + "\n"
    temporary = path.with_name(f".{path.name}.part")
    try:
        temporary.write_text(text, encoding="utf-8")
        temporary.replace(path)
    finally:
        temporary.unlink(missing_ok=True)


def _plain(name: str) -> str:
    return "-".join("".join(sign if sign.isalnum() else " " for sign in name.lower()).split())


def _check(chosen: argparse.Namespace) -> int:
    result = run(chosen.folder)
    if chosen.json:
        data = [asdict(one) for one in result.notices]
        _say(json.dumps(data, ensure_ascii=False, indent=1, default=str))
        return _status(result)
    _print_findings(result.notices)
    _say(f"\nfindings: {counted(result.notices)}")
    return _status(result)


def _explain(chosen: argparse.Namespace) -> int:
    code = CODES.get(chosen.code)
    if code is None:
        near = get_close_matches(chosen.code, CODES, n=3, cutoff=0.4)
        offered = f"; the nearest: {', '.join(near)}" if near else ""
        return _refuse(f'there is no finding "{chosen.code}"{offered}')
    _say(
        f"{code.code} ({code.level}: {MEANING_OF_LEVEL[code.level]})\n\n{code.means}\n\n"
        f"what it does to the figures: {code.effect}\n"
        f"how to mend it: {code.mend}\n"
        f"example: {code.example}"
    )
    return GOOD


def _factors(chosen: argparse.Namespace) -> int:
    register, findings = load()
    _print_findings(findings)
    found = register.search(chosen.words)
    if not found:
        return _refuse(f'no factor holds the words "{" ".join(chosen.words)}"')
    for entry in found:
        _say(_factor_line(entry))
    return STOPPED if any(one.level == "stop" for one in findings) else GOOD


def _factor_line(entry: Entry) -> str:
    value = f"{entry.value:.12g} {label(entry.unit)} [{entry.evidence}]"
    whose = f"{entry.jurisdiction}, {entry.span.words}"
    return f"{entry.quantity}: {value} {whose}; {entry.source.words}"


COMMANDS = {
    "new": ("make a folder with a site file and sheets to fill in", _told(told_of_new), add_new),
    "draft": ("draft the site file from spreadsheets that exist", _told(told_of_draft), add_draft),
    "report": ("write the audit-ready workbook of a folder", _report, _add_report),
    "check": ("read and judge a folder without writing", _check, _add_check),
    "explain": ("say what a finding means and how to mend it", _explain, _add_explain),
    "factors": ("list and search the factors with their sources", _factors, _add_factors),
}


def _print_findings(findings: Sequence[Finding]) -> None:
    """Print all findings: by file in the order met, within a file the most serious first."""
    files = list(dict.fromkeys(one.where.file for one in findings))
    order = sorted(findings, key=lambda one: (files.index(one.where.file), LEVELS.index(one.level)))
    for finding in order:
        _say(finding.in_words())


def _status(result: Result) -> int:
    return GOOD if result.is_fit_to_file else STOPPED


def _refuse(words: str) -> int:
    _complain(words)
    return WRONG_COMMAND


def _complain(words: str) -> None:
    sys.stderr.write(f"footprint: {words}\n")


def _say(words: str) -> None:
    sys.stdout.write(f"{words}\n")
