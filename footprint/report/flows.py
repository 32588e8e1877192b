"""Where nodes and bands of the carbon picture stand: left to right, in columns."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from footprint.report.book import Flow

# heights are parts of the fullest column
LINE_OF_PRINT = 0.054
GAP = 0.7 * LINE_OF_PRINT  # between the bands and nodes of a column
RADIUS, ARROW = 0.05, 0.06
LOSS_SPACE = (
    RADIUS + 1.5 * ARROW + 0.6 * LINE_OF_PRINT
)  # below a node that losses leave from, less their names
NOTEWORTHY = 1e-6  # of what enters a node: a smaller difference is rounding
LAST = math.inf  # place of a source that stands in a later column: below the others


@dataclass(eq=False, slots=True)
class Band:
    """One flow, drawn.

    Attributes:
        flow: what is drawn. [flow]
        amount: of the year. [t C]
        height: of the band. [parts of the fullest column]
        is_recycle: leads back to a node that it came from. [flag]
        tops: top of the band in each column that it crosses, by column. [height]
    """

    flow: Flow
    amount: float
    height: float
    is_recycle: bool = False
    tops: dict[int, float] = field(default_factory=dict)
    top_at_source: float = 0.0
    top_at_target: float = 0.0

    @property
    def leads_on(self) -> bool:
        """Whether the band runs from left to right between two nodes."""
        return not (self.is_recycle or self.flow.is_loss)

    @property
    def last_top(self) -> float:
        """Top of the band in the last column that was stacked."""
        return self.tops[max(self.tops)] if self.tops else self.top_at_source


@dataclass(eq=False, slots=True)
class Node:
    """A place of the works."""

    name: str
    column: int = 0
    top: float = 0.0
    into: list[Band] = field(default_factory=list)
    out: list[Band] = field(default_factory=list)

    @property
    def height(self) -> float:
        """The larger of what enters and what leaves."""
        return max(sum(one.height for one in self.into), sum(one.height for one in self.out))

    @property
    def bottom(self) -> float:
        """Lower end."""
        return self.top - self.height

    @property
    def amount(self) -> float:
        """The larger of what enters and what leaves, in t C."""
        sides = [sum(one.amount for one in side) for side in (self.into, self.out) if side]
        return max(sides)

    @property
    def gap(self) -> float:
        """What enters less what leaves, in t C; 0 for a node that has only one side."""
        if not self.into or not self.out:
            return 0.0
        return sum(one.amount for one in self.into) - sum(one.amount for one in self.out)

    @property
    def is_open(self) -> bool:
        """Whether less leaves than enters, or more."""
        return abs(self.gap) > NOTEWORTHY * max(self.amount, 1.0)


@dataclass(eq=False, slots=True)
class Picture:
    """Nodes and bands with their places, and the flows of nothing, which are not drawn."""

    nodes: dict[str, Node]
    bands: list[Band]
    left_out: list[Flow]

    @property
    def columns(self) -> int:
        """Number of columns."""
        return 1 + max((node.column for node in self.nodes.values()), default=0)

    @property
    def floor(self) -> float:
        """A height below everything, for recycles to run back on."""
        lowest = [node.bottom - _below(node) for node in self.nodes.values()]
        lowest += [top - band.height for band in self.bands for top in band.tops.values()]
        return min(lowest, default=0.0) - LINE_OF_PRINT


def picture_of(flows: Sequence[Flow]) -> Picture:
    """Return where nodes and bands stand.

    A loss has no node at its end. A flow that closes a circle is a recycle and moves no node.

    Args:
        flows: of carbon in the year. [t C]

    Source: drawing conventions: Schmidt 2008, part 2 (seen in part)
    """
    amounts = [float(flow.year.values[0]) for flow in flows]
    drawn = [
        (flow, amount)
        for flow, amount in zip(flows, amounts, strict=True)
        if amount and math.isfinite(amount)
    ]
    picture = Picture(
        {},
        [Band(flow, amount, abs(amount)) for flow, amount in drawn],
        [flow for flow in flows if all(flow is not one for one, _ in drawn)],
    )
    for band in picture.bands:
        _node(picture, band.flow.source).out.append(band)
        if not band.flow.is_loss:
            _node(picture, band.flow.target).into.append(band)
    _mark_recycles(picture.nodes)
    _set_columns(picture.nodes)
    _scale(picture)
    for column in range(picture.columns):
        _stack(picture, column)
    return picture


def _node(picture: Picture, name: str) -> Node:
    return picture.nodes.setdefault(name, Node(name))


def _mark_recycles(nodes: dict[str, Node]) -> None:
    """Mark bands that lead back to a node from which they came."""
    done: set[str] = set()

    def visit(name: str, path: frozenset[str]) -> None:
        for band in nodes[name].out:
            target = band.flow.target
            if band.flow.is_loss:
                continue
            if target in path:
                band.is_recycle = True
            elif target not in done:
                visit(target, path | {target})
        done.add(name)

    for name in [*(name for name, node in nodes.items() if not node.into), *nodes]:
        if name not in done:
            visit(name, frozenset([name]))


def _set_columns(nodes: dict[str, Node]) -> None:
    """Put every node right of the last that feeds it, and sources next to what they feed."""
    for _ in nodes:
        for node in nodes.values():
            before = [nodes[one.flow.source].column for one in node.into if one.leads_on]
            node.column = 1 + max(before) if before else 0
    for node in nodes.values():
        after = [nodes[one.flow.target].column for one in node.out if one.leads_on]
        if not node.into and after:
            node.column = min(after) - 1


def _scale(picture: Picture) -> None:
    """Turn amounts into heights, so that the fullest column has height 1."""
    full = [0.0] * picture.columns
    for node in picture.nodes.values():
        full[node.column] += node.height
    for band in picture.bands:
        for column in _crossed(picture, band):
            full[column] += band.height
    largest = max(full, default=0.0) or 1.0
    for band in picture.bands:
        band.height /= largest


def _crossed(picture: Picture, band: Band) -> range:
    """Return the columns that a band crosses between its ends."""
    if not band.leads_on:
        return range(0)
    return range(picture.nodes[band.flow.source].column + 1, picture.nodes[band.flow.target].column)


def _stack(picture: Picture, column: int) -> None:
    """Give nodes and passing bands of a column their heights, ordered as their feeders are."""
    passing = [band for band in picture.bands if column in _crossed(picture, band)]
    items: list[Node | Band] = [node for node in picture.nodes.values() if node.column == column]
    top = 0.0
    for item in sorted([*items, *passing], key=lambda one: _order(one, column)):
        if isinstance(item, Band):
            item.tops[column] = top
        else:
            top -= (
                0.0 if top == 0 else _name_height(item)
            )  # the names of the first row stand above all
            item.top = top
            _set_ends(item)
        top -= item.height + GAP + (_below(item) if isinstance(item, Node) else 0.0)


def _name_height(node: Node) -> float:
    return LINE_OF_PRINT * (3 if node.is_open else 2)


def _below(node: Node) -> float:
    """Return the room that arrows and names of a node's losses need below it."""
    losses = sum(1 for one in node.out if one.flow.is_loss)
    return LOSS_SPACE + losses * LINE_OF_PRINT if losses else 0.0


def _order(item: Node | Band, column: int) -> float:
    """Return how far down the feeders of an item stand, weighted by what they give."""
    fed = [item] if isinstance(item, Band) else [one for one in item.into if one.leads_on]
    weight = sum(one.height for one in fed)
    if not weight:
        return 0.0 if column == 0 else LAST
    return -sum((one.last_top - one.height / 2) * one.height for one in fed) / weight


def _set_ends(node: Node) -> None:
    top = node.top
    for band in sorted(node.out, key=_order_of_leaving):
        band.top_at_source = top
        top -= band.height
    top = node.top
    for band in _from_above(node.into):
        band.top_at_target = top
        top -= band.height


def _order_of_leaving(band: Band) -> tuple[bool, bool, float]:
    """Losses lowest, since they go down; recycles next; of the others the largest above."""
    return band.flow.is_loss, band.is_recycle, -band.height


def _from_above(bands: Iterable[Band]) -> list[Band]:
    return sorted(bands, key=lambda one: (one.is_recycle, -one.last_top))
