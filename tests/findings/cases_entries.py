"""Faults of gaps, and of the split of heavier hydrocarbons, in the site file."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from tests.findings.case import Case
from tests.findings.site_folder import SiteFolder

GAP = {
    "meter": "FT-1",
    "method": "redundant meter",
    "first_day": date(2025, 3, 4),
    "last_day": date(2025, 3, 4),
    "other_meter": "FT-2",
    "author": "A. Nobody",
    "why": "transmitter failed",
    "when": date(2025, 4, 1),
}
GAPS = "site.toml > gaps[1] FT-1 > "
SPLIT = "site.toml > analyses[1] natural gas > plus_fraction"
TABLE = "laboratory.xlsx > Natural gas > "


def gap(**keys: Any) -> Callable[[SiteFolder], None]:
    """Return a change that empties a cell and fills it by an entry with other keys."""

    def change(folder: SiteFolder) -> None:
        folder.put("Gas", "B66", None)
        entry = {**GAP, **keys}
        folder.site["gaps"] = [{key: one for key, one in entry.items() if one is not None}]

    return change


def split(heading: str, **shares: float) -> Callable[[SiteFolder], None]:
    """Return a change of the heading of ethane, with a split of what it sums up."""

    def change(folder: SiteFolder) -> None:
        folder.put("Natural gas", "C3", heading)
        parts = {name.replace("_", "-"): share for name, share in shares.items()}
        folder.site["analyses"][0]["plus_fraction"] = parts

    return change


ENTRY_CASES = [
    Case(
        "key-needed-by-gap",
        gap(other_meter=None),
        GAPS + "other_meter",
        '"redundant meter" needs other_meter',
    ),
    Case(
        "key-needed-by-gap",
        gap(method="conservative value", other_meter=None),
        GAPS + "value",
        '"conservative value" needs value',
    ),
    Case(
        "undeclared-meter", gap(other_meter="FT-9"), GAPS + "other_meter", '"FT-9" is not declared'
    ),
    Case(
        "span-turned-round",
        gap(last_day=date(2025, 3, 3)),
        GAPS + "first_day",
        "the days 2025-03-04 to 2025-03-03 cover none of the year",
        also=("missing-reading",),
    ),
    Case(
        "plus-fraction-split-not-usable",
        split("C6+", n_hexane=0.6, n_heptane=0.3),
        SPLIT,
        "the shares sum to 0.9, not to 1",
    ),
    Case(
        "plus-fraction-split-not-usable",
        split("C6+", n_hexan=1.0),
        SPLIT,
        '"n-hexan" is no known component',
    ),
    Case(
        "plus-fraction-split-not-usable",
        split("C6+", n_hexane=0.6, nitrogen=0.4),
        TABLE + 'D3 (column "N2")',
        '"N2" has a column of its own and a share of the lumped fraction',
    ),
    Case(
        "plus-fraction-split-not-usable",
        split("C2H6", n_hexane=1.0),
        TABLE + "A3",
        "no column is the lumped fraction that plus_fraction splits",
    ),
]
