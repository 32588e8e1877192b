"""Words of a new site file that the works still has to replace by its own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from footprint.base.finding import Finding, Where, declare
from footprint.read.site import Site

FILL_IN = "to be filled in"
NO_COUNTRY = "XX"  # no country has it: ISO 3166-1 leaves it to its users
_FILE = "site.toml"

LEFT_TO_FILL_IN = declare(
    "left-to-fill-in",
    "warn",
    means="A key of site.toml still holds the words that a new site file begins with.",
    effect="the numbers beside it are a beginning as well; the return would not name who answers",
    mend="write your own words, and look at the keys beside it",
    example='operator = "to be filled in"; mended: operator = "Brackwater Nitrogen"',
)


def left_to_fill(site: Site) -> list[Finding]:
    """Return a warning for each key that still holds the words of a new site file.

    Args:
        site: as declared. [site]

    Findings:
        left-to-fill-in

    Source: definition
    """
    return [
        LEFT_TO_FILL_IN.at(
            Where(_FILE, " > ".join(path[:-1]), path[-1]), f'"{path[-1]}" is still "{text}"'
        )
        for path, text in _texts(site.model_dump(), ())
        if text == FILL_IN or (path[-1] == "country" and text == NO_COUNTRY)
    ]


def _texts(table: object, path: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], str]]:
    """Yield every text of the site file with its keys; entries are counted from 1."""
    if isinstance(table, Mapping):
        for key, inner in table.items():
            yield from _texts(inner, (*path, str(key)))
    elif isinstance(table, list):
        for number, inner in enumerate(table, 1):
            yield from _texts(inner, (*path[:-1], f"{path[-1]}[{number}]{_named(inner)}"))
    elif isinstance(table, str):
        yield path, table


def _named(entry: Any) -> str:
    """Return the name by which the author knows an entry, behind a blank."""
    keys = ("tag", "name", "gas", "meter")
    found = next((entry[key] for key in keys if isinstance(entry, Mapping) and key in entry), "")
    return f" {found}" if found else ""
