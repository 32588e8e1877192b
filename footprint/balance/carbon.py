"""The carbon balance of the works: flows, what follows by difference, how closely nodes close."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.balance.network import (
    STANDING_IN_WORDS,
    Closure,
    Flow,
    Namer,
    Network,
    Standing,
    closure_of,
    compare,
    solve,
)
from footprint.balance.steam_reforming import NODES, OUTSIDE, SUPPLIERS, network_of
from footprint.base.finding import Finding, Where, declare
from footprint.base.row import Row
from footprint.measure import Measured

NOT_KNOWN = declare(
    "flow-cannot-be-known",
    "warn",
    means="Two or more carbon flows at one node have no meter, so none of them follows from the "
    "others.",
    effect="carbon that leaves by these ways is not told apart; totals by fuel and feed do not "
    "depend on it",
    mend="meter one of the flows and name the meter in the site file",
    example="neither CO2 to urea nor CO2 vented is metered",
)


@dataclass(frozen=True, eq=False)
class Balance:
    """The solved carbon network.

    Attributes:
        network: nodes and flows; a flow found by difference is marked. [network]
        standing: how each node stands. [text]
        closures: of the nodes that can be checked, and how the others stand. [closures]
        years: carbon of each flow over the year, by name of the flow. [t C]
        works: carbon bought against carbon that leaves, over the whole works; without figures
            where one of these flows cannot be known. [closure]
    """

    network: Network
    standing: dict[str, Standing]
    closures: tuple[Closure, ...]
    years: dict[str, Row]
    works: Closure

    def flow(self, name: str) -> Flow:
        """Return a flow by its name.

        Args:
            name: of the stream, or of the unmeasured flow. [text]

        Source: definition
        """
        return next(flow for flow in self.network.flows if flow.name == name)


def balance(measured: Measured) -> tuple[Balance, list[Finding]]:
    """Return the carbon network solved as far as its meters allow.

    Args:
        measured: every stream by month. [measured]

    Source: conservation of carbon
    """
    key = measured.context.key
    network, standing = solve(network_of(measured), key)
    closures = tuple(closure_of(network, node, standing[node], key) for node in network.nodes)
    years = {
        flow.name: measured.context.year(flow.carbon)
        for flow in network.flows
        if flow.carbon is not None
    }
    findings = [_not_known(network, node) for node, how in standing.items() if how == "not known"]
    return Balance(network, standing, closures, years, _works(network, key)), findings


def _not_known(network: Network, node: str) -> Finding:
    names = " and ".join(f'"{flow.name}"' for flow in network.unknown_at(node))
    return NOT_KNOWN.at(
        Where("site.toml"), f"{STANDING_IN_WORDS['not known']}: {names} at the {node}"
    )


def _works(network: Network, key: Namer) -> Closure:
    """Compare all carbon that enters the works with all that leaves it.

    A flow that follows by difference carries the closure of its own node with it, so this line
    repeats the sum of the nodes' closures; it is no further proof.
    """
    entering = [flow for flow in network.flows if flow.source == SUPPLIERS]
    leaving = [flow for flow in network.flows if flow.target in OUTSIDE and flow.source in NODES]
    if not entering or not leaving or any(flow.carbon is None for flow in (*entering, *leaving)):
        return Closure("whole works", "not known")
    return compare("whole works", entering, leaving, key)
