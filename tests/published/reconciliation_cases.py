"""Published reconciliation problems, read from the tables beside this file.

Sources: `reconciliation_documents.csv`, with what was seen and what is from memory.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cached_property, lru_cache
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from footprint.balance.reconcile import Problem, factor_of, pose

Array = NDArray[np.float64]
HERE = Path(__file__).parent


@lru_cache
def table(name: str) -> tuple[dict[str, str], ...]:
    """Return the lines of one of the tables."""
    text = (HERE / f"reconciliation_{name}.csv").read_text("utf-8")
    return tuple(csv.DictReader(text.splitlines()))


def lines_of(name: str, problem: str) -> list[dict[str, str]]:
    """Return the lines of a table that belong to a problem."""
    return [one for one in table(name) if one["problem"] == problem]


@dataclass(frozen=True)
class Case:
    """A linear problem with its answers."""

    name: str

    @cached_property
    def flows(self) -> list[str]:
        """Names of the flows."""
        return [one["flow"] for one in lines_of("flows", self.name)]

    @cached_property
    def balances(self) -> list[str]:
        """Names of the balances."""
        return [one["balance"] for one in lines_of("balances", self.name)]

    def column(self, name: str) -> Array:
        """Return a column of the table of flows; NaN where nothing is stated."""
        texts = [one[name] for one in lines_of("flows", self.name)]
        return np.array([float(text) if text else np.nan for text in texts])

    @cached_property
    def coefficients(self) -> Array:
        """Coefficients of the flows in the balances."""
        found = np.zeros((len(self.balances), len(self.flows)))
        for row, one in enumerate(lines_of("balances", self.name)):
            for part in one["terms"].split("; "):
                flow, text = part.split("=")
                found[row, self.flows.index(flow)] = float(text)
        return found

    @cached_property
    def covariance(self) -> Array:
        """Covariance of the measured values."""
        sigma = self.column("sigma")
        correlation = np.eye(sigma.size)
        stated = lines_of("documents", self.name)[0]["correlations"]
        for part in stated.split("; ") if stated else []:
            pair, text = part.split("=")
            one, other = (self.flows.index(flow) for flow in pair.split("~"))
            correlation[one, other] = correlation[other, one] = float(text)
        return correlation * np.outer(sigma, sigma)

    @cached_property
    def problem(self) -> Problem:
        """The problem with every flow measured."""
        return pose(self.column("measured"), factor_of(self.covariance), self.coefficients)


NAMES = tuple(one["problem"] for one in table("documents"))
