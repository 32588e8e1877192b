"""The picture of the year's carbon: left to right, losses down, recycles back."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import cycle
from typing import TYPE_CHECKING, Any

from footprint.report.book import Flow
from footprint.report.flows import LINE_OF_PRINT, Band, Node, Picture, picture_of
from footprint.report.outlines import BAR, SMALLEST, Outline, outline_of, wide

if TYPE_CHECKING:
    from matplotlib.axes import Axes

# of the Okabe-Ito colours, made for colour-blind readers, those that reach 3 : 1 on white
COLOURS = ("#0072B2", "#D55E00", "#CC79A7")
HEADER = "#009E73"  # a node that shares out what comes from outside
SOURCE = "#000000"  # a node that carbon comes in by
DOTS, UNIT = 140, 330.0  # dots by inch, and by unit of the picture
WIDTH = 11.0  # inches
LEFT, RIGHT, ABOVE, BELOW = 0.32, 0.42, 0.32, 0.24  # margins in units of the picture
PRINT = 8.0
LETTER = 0.0235  # width of a letter in units of the picture
NOTE = (
    "t C in the year; the width of a band is the flow. "
    "Hatched: by difference or negative. Arrows down: to air."
)


def carbon_picture(flows: Sequence[Flow], title: str) -> bytes:
    """Return the picture of carbon flows as PNG; the same flows give the same bytes.

    Args:
        flows: of carbon in the year. [t C]
        title: above the picture. [text]

    Source: drawing conventions: Schmidt 2008, part 2 (seen in part)
    """
    from matplotlib import style  # noqa: PLC0415  a run without a picture starts half a second sooner

    with style.context("default"):  # whatever the user's own settings are
        return _png(picture_of(flows), title)


def _png(picture: Picture, title: str) -> bytes:
    from matplotlib.figure import Figure  # noqa: PLC0415  as above

    low, high = picture.floor - BELOW, ABOVE
    across = WIDTH * DOTS / UNIT
    figure = Figure(figsize=(WIDTH, (high - low) * UNIT / DOTS), dpi=DOTS)
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.axis("off")
    axes.set_xlim(-LEFT, across - LEFT)
    axes.set_ylim(low, high)
    _draw(axes, picture, (across - LEFT - _right(picture)) / max(picture.columns - 1, 1))
    axes.text(0.04 - LEFT, high - 0.04, title, fontsize=12, va="top")
    axes.text(0.04 - LEFT, low + 0.04, NOTE, fontsize=PRINT, va="bottom")
    file = io.BytesIO()
    figure.savefig(file, format="png", metadata={"Software": None})
    return file.getvalue()


def alt_text(flows: Sequence[Flow], title: str) -> str:
    """Return what the picture shows, in words.

    Args:
        flows: of carbon in the year. [t C]
        title: of the picture. [text]

    Source: definition
    """
    picture = picture_of(flows)
    listed = "; ".join(_told(band) for band in picture.bands)
    left = (
        f" Not drawn, being nothing or unknown: {', '.join(one.words for one in picture.left_out)}."
    )
    return f"{title}. Bands from left to right, in t C: {listed}.{left if picture.left_out else ''}"


def _told(band: Band) -> str:
    marks = ", by difference" if band.flow.is_by_difference else ""
    marks += ", recycle" if band.is_recycle else ""
    return f"{band.flow.source} to {band.flow.target} {band.amount:,.0f} ({band.flow.words}{marks})"


def _right(picture: Picture) -> float:
    """Return the margin that losses of the last column need."""
    last = [node for node in picture.nodes.values() if node.column == picture.columns - 1]
    lost = [sum(wide(one) for one in node.out if one.flow.is_loss) for node in last]
    return RIGHT + max(lost, default=0.0)


def _draw(axes: Axes, picture: Picture, step: float) -> None:
    colours = _colours(picture)
    outlines = [(band, outline_of(picture, band, step)) for band in picture.bands]
    for band, outline in outlines:
        _draw_band(axes, band, outline, _colour_of(band, picture, colours))
    print_ = _Print(axes)
    for node in picture.nodes.values():
        _draw_node(axes, print_, (node.column * step, node), colours[node.name])
    for band, outline in sorted(outlines, key=lambda one: -one[1].label[1]):
        name, (x, y) = _name_of(band, step - BAR), outline.label
        below = (name.count("\n") + 1) * LINE_OF_PRINT / 2 if band.flow.is_loss else 0.0
        print_.write((x, y - below), name)


def _name_of(band: Band, room: float) -> str:
    """Return what flows and how much, on two lines where one would cover the nodes beside it."""
    amount = f"{band.amount:,.0f}{' (by difference)' if band.flow.is_by_difference else ''}"
    between = " " if (len(band.flow.words) + len(amount) + 1) * LETTER < room else "\n"
    return f"{band.flow.words}{between}{amount}"


def _colours(picture: Picture) -> dict[str, str]:
    """Give nodes fed from outside a colour each; others take that of their largest inflow."""
    found: dict[str, str] = {}
    fresh = cycle(COLOURS)
    for node in sorted(picture.nodes.values(), key=lambda one: one.column):
        fed = [one for one in node.into if one.flow.source in found]
        largest = max(fed, key=lambda one: one.height, default=None)
        if largest is None:
            found[node.name] = SOURCE
        elif found[largest.flow.source] not in {SOURCE, HEADER}:
            found[node.name] = found[largest.flow.source]
        else:
            shares_out = len({one.flow.target for one in node.out if one.leads_on}) > 1
            found[node.name] = (
                HEADER if shares_out and found[largest.flow.source] == SOURCE else next(fresh)
            )
    return found


def _colour_of(band: Band, picture: Picture, colours: dict[str, str]) -> str:
    """Return the colour of the node a band leaves, or, from outside, of the one it enters."""
    colour = colours[band.flow.source]
    if colour in {SOURCE, HEADER} and band.flow.target in picture.nodes and not band.flow.is_loss:
        return colours[band.flow.target]
    return colour


def _draw_band(axes: Axes, band: Band, outline: Outline, colour: str) -> None:
    from matplotlib.patches import PathPatch  # noqa: PLC0415  as above
    from matplotlib.path import Path  # noqa: PLC0415  as above

    look: dict[str, Any] = {"facecolor": colour, "edgecolor": "white", "linewidth": 0.6}
    if band.flow.is_by_difference or band.amount < 0:
        look = {"facecolor": "white", "edgecolor": colour, "linewidth": 0.9, "hatch": "////"}
    axes.add_patch(PathPatch(Path(outline.points, outline.codes), **look))


def _draw_node(axes: Axes, print_: _Print, placed: tuple[float, Node], colour: str) -> None:
    from matplotlib.patches import Rectangle  # noqa: PLC0415  as above

    x, node = placed
    height = max(node.height, SMALLEST)
    axes.add_patch(
        Rectangle(
            (x, node.top - height), BAR, height, facecolor=colour, edgecolor="black", linewidth=0.6
        )
    )
    words = f"{node.name}\n{node.amount:,.0f}" + (
        f"\nin less out {node.gap:,.0f}" if node.is_open else ""
    )
    lines = words.count("\n") + 1
    print_.write((x + BAR / 2, node.top + 0.02 + lines * LINE_OF_PRINT / 2), words, is_name=True)


@dataclass(frozen=True, slots=True)
class _Box:
    """A rectangle that words take."""

    left: float
    low: float
    right: float
    high: float

    def covers(self, other: _Box) -> bool:
        """Return whether two rectangles overlap."""
        across = self.left < other.right and other.left < self.right
        return across and self.low < other.high and other.low < self.high


@dataclass
class _Print:
    """Words on the picture, moved down where they would cover others."""

    axes: Axes
    taken: list[_Box] = field(default_factory=list)

    def write(self, middle: tuple[float, float], words: str, *, is_name: bool = False) -> None:
        """Write words around a point, or below it where others stand."""
        x, y = middle
        while not is_name and any(_box(x, y, words).covers(one) for one in self.taken):
            y -= LINE_OF_PRINT / 4
        self.taken.append(_box(x, y, words))
        look: dict[str, Any] = {"ha": "center", "va": "center", "linespacing": 1.1}
        if is_name:
            look["fontweight"] = "bold"
        else:
            look["bbox"] = {"facecolor": "white", "edgecolor": "none", "alpha": 0.85, "pad": 0.8}
        self.axes.text(x, y, words, fontsize=PRINT, **look)


def _box(x: float, y: float, words: str) -> _Box:
    lines = words.split("\n")
    half, tall = max(map(len, lines)) * LETTER / 2, len(lines) * LINE_OF_PRINT / 2
    return _Box(x - half, y - tall, x + half, y + tall)
