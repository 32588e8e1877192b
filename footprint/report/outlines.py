"""The outlines of the bands of the carbon picture; one unit across is as long as one unit down."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from footprint.report.flows import ARROW, RADIUS, Band, Node, Picture

MOVE, LINE, CURVE = 1, 2, 4  # codes of a path in the drawing library
BAR = 0.05  # width of a node
SMALLEST = 0.006  # so that a small flow can be seen at all
STUB = 0.1  # how far a recycle runs out before it turns
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Outline:
    """Corners of a band, ways from each to the next, and where its name stands or hangs."""

    points: list[Point]
    codes: list[int]
    label: Point


def outline_of(picture: Picture, band: Band, step: float) -> Outline:
    """Return the outline of one band.

    Args:
        picture: nodes and bands with their places. [picture]
        band: one of its bands. [band]
        step: distance of two columns. [unit of the picture]

    Source: drawing conventions: Schmidt 2008, part 2 (seen in part)
    """
    if band.flow.is_loss:
        return _down(picture.nodes[band.flow.source], band, step)
    if band.is_recycle:
        return _back(picture, band, step)
    return _on(picture, band, step)


def wide(band: Band) -> float:
    """Return the width of a band as drawn.

    Args:
        band: a band. [band]

    Source: definition
    """
    return max(band.height, SMALLEST)


def _on(picture: Picture, band: Band, step: float) -> Outline:
    """Return a band from left to right, past the columns that it crosses."""
    source, target = picture.nodes[band.flow.source], picture.nodes[band.flow.target]
    stops = [(source.column * step + BAR, band.top_at_source)]
    stops += [(column * step + BAR / 2, top) for column, top in sorted(band.tops.items())]
    stops += [(target.column * step, band.top_at_target)]
    points, codes = [stops[0]], [MOVE]
    for here, there in pairwise(stops):
        points += _bend(here, there)
        codes += [CURVE] * 3
    lower = [(x, top - wide(band)) for x, top in reversed(stops)]
    points.append(lower[0])
    codes.append(LINE)
    for here, there in pairwise(lower):
        points += _bend(here, there)
        codes += [CURVE] * 3
    (x0, a), (x1, b) = stops[0], stops[1]
    return Outline([*points, stops[0]], [*codes, LINE], ((x0 + x1) / 2, (a + b - wide(band)) / 2))


def _bend(here: Point, there: Point) -> list[Point]:
    middle = (here[0] + there[0]) / 2
    return [(middle, here[1]), (middle, there[1]), there]


def _down(node: Node, band: Band, step: float) -> Outline:
    """Return a band that turns down and ends in an arrow."""
    x, top, across = node.column * step + BAR, band.top_at_source, wide(band)
    inner = RADIUS + (top - band.height - node.bottom)  # the turn clears what leaves below
    x1, x2 = x + inner, x + inner + across
    end = node.bottom - RADIUS - ARROW / 2
    points = [
        (x, top),
        (x2, top),
        (x2, top),
        (x2, top - inner - across),
        (x2, end),
        ((x1 + x2) / 2, end - ARROW),
        (x1, end),
        (x1, top - across - inner),
        (x1, top - across),
        (x1, top - across),
        (x, top - across),
        (x, top),
    ]
    codes = [MOVE, CURVE, CURVE, CURVE, LINE, LINE, LINE, LINE, CURVE, CURVE, CURVE, LINE]
    return Outline(points, codes, ((x1 + x2) / 2, end - 1.2 * ARROW))


def _back(picture: Picture, band: Band, step: float) -> Outline:
    """Return a band that leaves to the right and runs back below everything."""
    x0 = picture.nodes[band.flow.source].column * step + BAR
    x1 = picture.nodes[band.flow.target].column * step
    across, floor = wide(band), picture.floor
    a, b, out, back = band.top_at_source, band.top_at_target, x0 + STUB, x1 - STUB
    points = [
        (x0, a),
        (out + across, a),
        (out + across, floor - across),
        (back - across, floor - across),
        (back - across, b),
        (x1, b),
        (x1, b - across),
        (back, b - across),
        (back, floor),
        (out, floor),
        (out, a - across),
        (x0, a - across),
        (x0, a),
    ]
    return Outline(points, [MOVE, *[LINE] * 12], ((x0 + x1) / 2, floor - across / 2))
