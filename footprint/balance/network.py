"""Nodes and flows of carbon: unmeasured flows follow by difference, the rest is the closure."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Literal

from footprint.base.formulas import ratio, sum_of, total
from footprint.base.row import Row, step

Standing = Literal["checked", "follows", "not known"]
STANDING_IN_WORDS = {
    "checked": "checked: what is left over tests the meters",
    "follows": "follows by difference: cannot be checked",
    "not known": "cannot be known from these meters",
}


@dataclass(frozen=True, eq=False, slots=True)
class Flow:
    """Carbon that goes from one node to another; the row is None where no meter counts it."""

    name: str
    source: str
    target: str
    carbon: Row | None
    is_by_difference: bool = False


@dataclass(frozen=True, eq=False, slots=True)
class Closure:
    """What is left over at a node, where every flow is measured.

    Attributes:
        node: name of the node. [text]
        standing: whether its closure proves anything. [text]
        entering: carbon in. [t C]
        leaving: carbon out. [t C]
        difference: in less out; None where the node was closed by difference. [t C]
        share: difference over carbon in. [1]
        year: the same four over the year. [rows]
    """

    node: str
    standing: Standing
    entering: Row | None = None
    leaving: Row | None = None
    difference: Row | None = None
    share: Row | None = None
    year: tuple[Row, Row, Row, Row] | None = None


@dataclass(frozen=True, eq=False, slots=True)
class Network:
    """Nodes in the order of the flow, and the flows between them and the outside."""

    nodes: tuple[str, ...]
    flows: tuple[Flow, ...]

    def into(self, node: str) -> list[Flow]:
        """Return the flows that enter a node.

        Args:
            node: its name. [text]

        Source: definition
        """
        return [flow for flow in self.flows if flow.target == node]

    def out_of(self, node: str) -> list[Flow]:
        """Return the flows that leave a node.

        Args:
            node: its name. [text]

        Source: definition
        """
        return [flow for flow in self.flows if flow.source == node]

    def unknown_at(self, node: str) -> list[Flow]:
        """Return the unmeasured flows at a node.

        Args:
            node: its name. [text]

        Source: definition
        """
        return [
            flow
            for flow in self.flows
            if node in (flow.source, flow.target) and flow.carbon is None
        ]


Namer = Callable[[str, str, str], str]


def solve(network: Network, key: Namer) -> tuple[Network, dict[str, Standing]]:
    """Return the network with unmeasured flows found by difference, and how each node stands.

    A node with exactly one unmeasured flow gives it as in less out, and then proves nothing; node
    after node, until none is left that can be solved.

    Args:
        network: flows, some without a row. [network]
        key: makes keys from stream, quantity and basis. [function]

    Source: conservation of carbon
    """
    standing: dict[str, Standing] = {}
    solved = network
    while True:
        node = next((one for one in solved.nodes if _can_be_solved(solved, one)), None)
        if node is None:
            break
        missing = solved.unknown_at(node)[0]
        found = replace(
            missing, carbon=_by_difference(solved, node, missing, key), is_by_difference=True
        )
        flows = tuple(found if flow is missing else flow for flow in solved.flows)
        solved = replace(solved, flows=flows)
        standing[node] = "follows"
    for node in solved.nodes:
        standing.setdefault(node, "not known" if solved.unknown_at(node) else "checked")
    return solved, standing


def _can_be_solved(network: Network, node: str) -> bool:
    """Return whether a node has one unmeasured flow, and a measured one on the other side."""
    unknown = network.unknown_at(node)
    if len(unknown) != 1:
        return False
    opposite = network.into(node) if unknown[0].source == node else network.out_of(node)
    return bool(_known(opposite))


def _known(flows: list[Flow]) -> list[Row]:
    return [flow.carbon for flow in flows if flow.carbon is not None]


def _sum(flows: list[Flow], key: str, words: str) -> Row:
    return step(sum_of(_known(flows)), key, words, "sum of the flows")


def _by_difference(network: Network, node: str, missing: Flow, key: Namer) -> Row:
    entering, leaving = _known(network.into(node)), _known(network.out_of(node))
    plus, minus = (entering, leaving) if missing.source == node else (leaving, entering)
    gross = sum_of(plus)
    result = gross - sum_of(minus) if minus else gross
    names = f"{node}: in less out" if missing.source == node else f"{node}: out less in"
    return step(
        result,
        key(missing.name, "carbon", "by difference"),
        f"{missing.name}: carbon, by difference",
        f"follows by difference, cannot be checked ({names})",
    )


def closure_of(network: Network, node: str, standing: Standing, key: Namer) -> Closure:
    """Return what is left over at one node, by month and for the year.

    Args:
        network: solved. [network]
        node: its name. [text]
        standing: how it stands. [text]
        key: makes keys from stream, quantity and basis. [function]

    Source: conservation of carbon
    """
    if standing != "checked":
        return Closure(node, standing)
    return compare(node, network.into(node), network.out_of(node), key)


def compare(node: str, into: list[Flow], out_of: list[Flow], key: Namer) -> Closure:
    """Return carbon in against carbon out for a set of measured flows.

    Args:
        node: what is compared. [text]
        into: flows in. [flows]
        out_of: flows out. [flows]
        key: makes keys from stream, quantity and basis. [function]

    Source: conservation of carbon
    """
    if not into or not out_of:
        return Closure(node, "not known")
    entering = _sum(into, key(node, "carbon in", "balance"), f"{node}: carbon in")
    leaving = _sum(out_of, key(node, "carbon out", "balance"), f"{node}: carbon out")
    difference = step(
        entering - leaving,
        key(node, "closure", "balance"),
        f"{node}: in less out",
        "conservation of carbon",
    )
    share = _share(difference, entering, key(node, "closure, share", "balance"), node)
    year = tuple(
        step(total(row), f"{row.key}/year", f"{row.words}, year", "sum of the months")
        for row in (entering, leaving, difference)
    )
    year_share = _share(year[2], year[0], f"{share.key}/year", node, ", year")
    return Closure(
        node,
        "checked",
        entering,
        leaving,
        difference,
        share,
        (year[0], year[1], year[2], year_share),
    )


def _share(left: Row, entering: Row, key: str, node: str, period: str = "") -> Row:
    return step(
        ratio(left, entering, "no carbon"),
        key,
        f"{node}: in less out, share of carbon in{period}",
        "difference over carbon in",
    )
