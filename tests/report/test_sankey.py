from __future__ import annotations

from itertools import pairwise

import pytest

from footprint.base.row import constant
from footprint.base.units import unit
from footprint.report import Flow
from footprint.report.flows import Picture, picture_of
from footprint.report.outlines import outline_of
from footprint.report.sankey import alt_text, carbon_picture

AIR = "air"


def flow(source: str, target: str, amount: float, *, is_by_difference: bool = False) -> Flow:
    """Return a flow of carbon; what goes to the air is a loss."""
    words = f"{source} to {target}"
    year = constant(amount, unit("t_C"), f"test/{words}/carbon/year", words)
    return Flow(source, target, words, year, is_by_difference, is_loss=target == AIR)


FLOWS = (
    flow("feed", "front end", 100.0),
    flow("fuel", "furnace", 40.0),
    flow("front end", "removal", 103.0),
    flow("removal", "front end", 3.0),
    flow("removal", "header", 92.0),
    flow("removal", "loop", 8.0, is_by_difference=True),
    flow("loop", "furnace", 8.0),
    flow("furnace", AIR, 48.0, is_by_difference=True),
    flow("header", "urea", 80.0),
    flow("header", AIR, 12.0),
    flow("header", "storage", 0.0),
)


def heights(picture: Picture, name: str) -> tuple[float, float]:
    """Return how high all that enters and all that leaves a node is."""
    node = picture.nodes[name]
    return sum(one.height for one in node.into), sum(one.height for one in node.out)


@pytest.mark.parametrize("name", ["front end", "removal", "header", "loop", "furnace"])
def test_what_enters_a_node_leaves_it(name: str) -> None:
    """Bands are as wide as flows, so both sides of a node that closes are equally high."""
    picture = picture_of(FLOWS)

    entering, leaving = heights(picture, name)

    assert entering == pytest.approx(leaving)
    assert not picture.nodes[name].is_open


def test_a_node_that_does_not_close_says_by_how_much() -> None:
    """Carbon that enters and is not seen to leave is written on the node."""
    picture = picture_of((flow("feed", "front end", 100.0), flow("front end", "urea", 90.0)))

    assert picture.nodes["front end"].is_open
    assert picture.nodes["front end"].gap == pytest.approx(10)


def test_bands_of_one_scale_are_as_wide_as_their_flows() -> None:
    """All bands share one scale."""
    picture = picture_of(FLOWS)

    scales = [band.height / band.amount for band in picture.bands]

    assert scales == pytest.approx([scales[0]] * len(scales))


def test_flows_run_from_left_to_right() -> None:
    """Every band but a recycle or a loss ends in a later column than it starts in."""
    picture = picture_of(FLOWS)

    for band in picture.bands:
        if band.leads_on:
            assert picture.nodes[band.flow.source].column < picture.nodes[band.flow.target].column


def test_a_recycle_is_drawn_back_below_everything() -> None:
    """The band that closes a circle is a recycle, and runs lower than all nodes."""
    picture = picture_of(FLOWS)
    (recycle,) = [band for band in picture.bands if band.is_recycle]

    outline = outline_of(picture, recycle, 1.0)

    assert (recycle.flow.source, recycle.flow.target) == ("removal", "front end")
    assert min(y for _, y in outline.points) < min(node.bottom for node in picture.nodes.values())


def test_a_loss_leaves_downward() -> None:
    """A loss has no node at its end; its arrow points down, below the node it leaves."""
    picture = picture_of(FLOWS)
    vent = next(band for band in picture.bands if band.flow.is_loss)

    outline = outline_of(picture, vent, 1.0)

    assert AIR not in picture.nodes
    assert min(y for _, y in outline.points) < picture.nodes[vent.flow.source].bottom


def test_nodes_and_passing_bands_do_not_overlap() -> None:
    """In a column nothing covers anything else."""
    picture = picture_of(FLOWS)

    for column in range(picture.columns):
        spans = [
            (node.bottom, node.top) for node in picture.nodes.values() if node.column == column
        ]
        spans += [
            (band.tops[column] - band.height, band.tops[column])
            for band in picture.bands
            if column in band.tops
        ]
        ordered = sorted(spans)
        assert all(lower[1] <= upper[0] + 1e-12 for lower, upper in pairwise(ordered))


def test_a_flow_of_nothing_is_named_as_not_drawn() -> None:
    """What has no amount has no band, and the alternative text says so."""
    picture = picture_of(FLOWS)

    assert [one.words for one in picture.left_out] == ["header to storage"]
    assert "Not drawn, being nothing or unknown: header to storage." in alt_text(FLOWS, "Carbon")


def test_the_picture_is_the_same_byte_for_byte() -> None:
    """The same flows give the same file, without date or program."""
    first, second = carbon_picture(FLOWS, "Carbon"), carbon_picture(FLOWS, "Carbon")

    assert first == second
    assert b"Software" not in first


def test_the_alternative_text_names_every_flow() -> None:
    """A reader who cannot see the picture has every amount."""
    text = alt_text(FLOWS, "Carbon")

    assert "feed to front end 100" in text
    assert "removal to front end 3 (removal to front end, recycle)" in text
    assert "furnace to air 48 (furnace to air, by difference)" in text


def test_a_picture_of_nothing_can_be_drawn() -> None:
    """A year without any carbon still has its picture."""
    assert carbon_picture((flow("feed", "front end", 0.0),), "Carbon").startswith(b"\x89PNG")
