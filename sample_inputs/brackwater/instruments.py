"""Meters of the invented works: each is off by a share of its own, and a little each day."""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, replace
from pathlib import Path
from random import Random

import numpy as np

from .sheets import Column, Table

DRAW = "Brackwater 32"  # a draw with balances that close as those of a well-kept works do
# "1.5 % (k=2)" or "class 0.5S"; temperatures and pressures, which state limits, are only noisy
STATED = re.compile(r"([0-9.]+) % \(k=2\)|class ([0-9.]+)S")
FARTHEST = 1.6  # standard uncertainties: no meter is off by more
DAILY = 0.25  # of the standard uncertainty: how much a meter differs from one reading to the next


@dataclass(frozen=True)
class Instruments:
    """The relative expanded uncertainty (k=2) of every meter, by tag."""

    expanded: dict[str, float]

    @classmethod
    def of_site(cls, site: Path) -> Instruments:
        """Return the instruments that a site file declares, those with a share of the reading.

        Args:
            site: the site file. [path]

        Source: definition
        """
        meters = tomllib.loads(site.read_text(encoding="utf-8"))["meters"]
        stated = {
            m["tag"]: STATED.fullmatch(m["uncertainty"]) for m in meters if "uncertainty" in m
        }
        return cls(
            {tag: float(words[1] or words[2]) / 100 for tag, words in stated.items() if words}
        )

    def bias(self, tag: str) -> float:
        """Return the share by which a meter reads high all year.

        Args:
            tag: of the meter. [text]

        Source: definition
        """
        drawn = Random(f"{DRAW} bias of {tag}").gauss(0, 1)
        return self.expanded.get(tag, 0.0) / 2 * max(-FARTHEST, min(FARTHEST, drawn))

    def readings(self, sheet: str, column: Column) -> list[float]:
        """Return what is written down for one column.

        Args:
            sheet: name of the sheet, so that equal headings of two sheets differ. [text]
            column: true values. [column]

        Source: definition
        """
        chance = Random(f"Brackwater readings of {sheet}, {column.heading}")
        factor, share = 1 + self.bias(column.tag), self.expanded.get(column.tag, 0.0) / 2 * DAILY
        return [
            round(
                float(value) * factor * (1 + share * chance.gauss(0, 1))
                + column.jitter * chance.gauss(0, 1),
                column.decimals,
            )
            for value in column.values
        ]

    def read(self, table: Table) -> Table:
        """Return a sheet with what the meters read in place of what was true.

        Args:
            table: with true values. [table]

        Source: definition
        """
        columns = [
            replace(column, values=np.array(self.readings(table.sheet, column)))
            for column in table.columns
        ]
        return replace(table, columns=tuple(columns))


def exact(_sheet: str, column: Column) -> list[float]:
    """Return the values of a column as they are, which a meter without any error would read.

    Args:
        _sheet: name of the sheet. [text]
        column: its values. [column]

    Source: definition
    """
    return [float(f"{value:.12g}") for value in column.values]
