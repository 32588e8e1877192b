"""The site file, read: every slip in it becomes a finding in words of the file."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from footprint.base.finding import Finding, Where, declare, worst
from footprint.read.fault import short
from footprint.read.nearest import nearest, offer
from footprint.read.site import Site
from footprint.read.site_checks import check

SITE_FILE = "site.toml"

NO_SITE_FILE = declare(
    "no-site-file",
    "stop",
    means="The folder holds no site.toml, or it can't be opened.",
    effect="nothing says which streams the works has and where their readings are written",
    mend="give the folder that holds site.toml, or write one",
    example="footprint of a folder of spreadsheets alone",
)
BROKEN_SITE_FILE = declare(
    "broken-site-file",
    "stop",
    means="site.toml is not written as TOML.",
    effect="nothing of it can be read",
    mend="look at the line named: a quote, a bracket or an equals sign is "
    "missing there or just above",
    example='name = "Brackwater without a closing quote',
)
UNKNOWN_KEY = declare(
    "unknown-key",
    "stop",
    means="site.toml has a key that nobody reads.",
    effect="what it should say would be ignored",
    mend="mend the spelling, or remove the key",
    example='colunm = "Feed gas"; mended: column = "Feed gas"',
)
MISSING_KEY = declare(
    "missing-key",
    "stop",
    means="site.toml lacks a key that is needed.",
    effect="the entry can't be used without it",
    mend="add the key",
    example="a [[meters]] entry without file",
)
WRONG_KIND_OF_VALUE = declare(
    "wrong-kind-of-value",
    "stop",
    means="A key of site.toml holds another kind of value than it should, or one "
    "outside its limits.",
    effect="the entry can't be used",
    mend="write the value as the message says",
    example='year = "2025"; mended: year = 2025',
)
UNKNOWN_CHOICE = declare(
    "unknown-choice",
    "stop",
    means="A key of site.toml that allows a few words holds another word.",
    effect="the entry can't be used",
    mend="write one of the words allowed",
    example='role = "ammonia made"; mended: role = "ammonia produced"',
)
_KINDS = {
    "string": 'text in quotes, such as "FT-1101"',
    "int": "a whole number, such as 2025",
    "finite": "a number with a decimal point, such as 1.5",
    "float": "a number with a decimal point, such as 1.5",
    "date": "a date without quotes, such as 2025-03-31",
    "bool": "true or false, without quotes",
    "list": 'a list in square brackets, such as ["purge gas"]',
    "dict": "a table of its own",
    "model": "a table of its own",
}
_LIMITS = {
    "greater_than": "above",
    "greater_than_equal": "at least",
    "less_than": "below",
    "less_than_equal": "at most",
}
_NAMING_KEYS = ("tag", "name", "gas", "meter")


def load_site(folder: Path) -> tuple[Site | None, list[Finding]]:
    """Return the site file of a folder, or None where something in it must be mended first.

    Args:
        folder: of the site. [path]

    Findings:
        no-site-file, broken-site-file: the file.
        unknown-key, missing-key, wrong-kind-of-value, unknown-choice: its keys.
        the codes of `site_checks`: entries that do not fit each other.

    Source: definition
    """
    site, findings = parse_site(folder)
    return (None if worst(findings) == "stop" else site), findings


def parse_site(folder: Path) -> tuple[Site | None, list[Finding]]:
    """Return the site file if it can be read, even where its entries do not fit each other.

    Args:
        folder: of the site. [path]

    Source: definition
    """
    where = Where(SITE_FILE)
    try:
        written = tomllib.loads((folder / SITE_FILE).read_bytes().decode("utf-8-sig"))
    except OSError:
        return None, [NO_SITE_FILE.at(where, f'no readable file "{SITE_FILE}" in the folder')]
    except UnicodeDecodeError:
        mend = "save it as plain text in the UTF-8 encoding"
        return None, [BROKEN_SITE_FILE.at(where, "the file is not in UTF-8", mend=mend)]
    except (ValueError, RecursionError) as fault:  # not TOML, or numbers and lists beyond measure
        return None, [_not_toml(str(fault))]
    try:
        site = Site.model_validate(written)
    except ValidationError as fault:
        return None, _slips(fault.errors(include_url=False), written)
    return site, check(site)


def _not_toml(message: str) -> Finding:
    """Return the finding for a file that is no TOML, at its line and column."""
    match = re.search(r"at line ([0-9]+), column ([0-9]+)", message)
    cell = f"line {match[1]}, column {match[2]}" if match else "last line"
    words = message.partition(" (at ")[0]
    what = "the file can't be read from here on"
    if "overwrite" in words or "twice" in words or "redefine" in words.lower():
        what = "a key or table stands here for the second time"
        return BROKEN_SITE_FILE.at(
            Where(SITE_FILE, cell=cell),
            what,
            mend="remove one of the two, or write [[...]] for lists",
        )
    return BROKEN_SITE_FILE.at(Where(SITE_FILE, cell=cell), what)


def _slips(errors: list[ErrorDetails], written: dict[str, Any]) -> list[Finding]:
    """Return the slips against the model; a misspelt key is not reported as missing as well."""
    meant = {
        (*error["loc"][:-1], near)
        for error in errors
        if error["type"] == "extra_forbidden" and (near := _key_meant(error["loc"]))
    }
    return [
        _slip(error, written)
        for error in errors
        if error["type"] != "missing" or error["loc"] not in meant
    ]


def _slip(error: ErrorDetails, written: dict[str, Any]) -> Finding:
    """Return one slip against the model as a finding in words of the file."""
    path, kind = error["loc"], error["type"]
    where, key = _place(path, written), _key_of(path)
    if kind == "extra_forbidden":
        near = _key_meant(path)
        mend = f'write it "{near}", if that is meant, or remove it' if near else ""
        return UNKNOWN_KEY.at(where, f'key "{key}" is not known here', mend=mend)
    if kind == "missing":
        mend = f"add {key} = ... to this entry" if len(path) > 1 else f"add [{key}] to the file"
        return MISSING_KEY.at(where, f'"{key}" is missing', mend=mend)
    read = "" if isinstance(error["input"], dict | list) else short(str(error["input"]))
    if kind == "literal_error":
        choices = re.findall("'([^']*)'", error["ctx"]["expected"])
        what = f'"{read}" is not a choice for "{key}"'
        return UNKNOWN_CHOICE.at(where, what, read=read, mend=offer(read, choices))
    wanted = _wanted(error)
    mend = f"write a value {wanted} for {key}" if kind in _LIMITS else f"write {key} as {wanted}"
    written_as = f'"{read}"' if isinstance(error["input"], str) else read
    what = f'"{key}" must be {wanted}'
    return WRONG_KIND_OF_VALUE.at(where, what, read=written_as, mend=mend)


def _wanted(error: ErrorDetails) -> str:
    """Return what a key must hold, in words of the file."""
    kind, limits = error["type"], error.get("ctx", {})
    if kind in _LIMITS:
        return f"{_LIMITS[kind]} {next(iter(limits.values())):g}"
    if kind == "string_too_short":
        return "a text that is not empty"
    if kind == "string_pattern_mismatch":
        return 'two capital letters, such as "GB"'
    if kind == "too_short":
        return f"a list of at least {limits['min_length']}"
    if kind == "too_long":
        return f"a list of at most {limits['max_length']}"
    return next((words for name, words in _KINDS.items() if kind.startswith(name)), "another value")


def _place(path: tuple[int | str, ...], written: dict[str, Any]) -> Where:
    """Return a place such as site.toml > meters[3] FT-1101 > unit; entries are counted from 1."""
    parts: list[str] = []
    here: Any = written
    for step in path:
        here = _inside(here, step)
        if isinstance(step, int):
            name = _name_of(here)
            parts[-1] += f"[{step + 1}]" + (f" {name}" if name else "")
        else:
            parts.append(step)
    return Where(SITE_FILE, " > ".join(parts[:-1]), parts[-1])


def _inside(table: Any, step: int | str) -> Any:
    """Return what stands under a key or at an index, or None."""
    try:
        return table[step]
    except (KeyError, IndexError, TypeError):
        return None


def _name_of(entry: Any) -> str:
    """Return the name by which the author knows an entry."""
    if not isinstance(entry, dict):
        return ""
    return next((short(str(entry[key])) for key in _NAMING_KEYS if key in entry), "")


def _key_of(path: tuple[int | str, ...]) -> str:
    """Return the last key of a path; an index belongs to the key before it."""
    return next((str(step) for step in reversed(path) if isinstance(step, str)), "")


def _key_meant(path: tuple[int | str, ...]) -> str | None:
    """Return the key of the model that a misspelt one is like."""
    model: type[BaseModel] | None = Site
    for step in path[:-1]:
        if isinstance(step, str) and model is not None and step in model.model_fields:
            model = _model_in(model.model_fields[step].annotation)
    return nearest(str(path[-1]), model.model_fields) if model else None


def _model_in(annotation: Any) -> type[BaseModel] | None:
    """Return the model that a list or an optional table holds."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((found for one in get_args(annotation) if (found := _model_in(one))), None)
