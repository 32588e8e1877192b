from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from footprint.balance.network import Flow, Network, closure_of, solve
from footprint.base.axis import months_of
from footprint.base.row import Row, leaf
from footprint.base.source import Reading
from footprint.base.units import unit

MONTHS = months_of(2025)


def key(stream: str, quantity: str, basis: str) -> str:
    """Return the key of a row of the test."""
    return f"unit/{stream}/{quantity}/{basis}"


def carbon(name: str, size: float) -> Row:
    """Return carbon that a meter read, the same in every month."""
    origins = [Reading("book.xlsx", "Sheet", "A1", str(size))]
    values = np.full(12, size)
    return leaf(
        values, unit("t_C"), MONTHS, key=key(name, "carbon", "read"), words=name, origins=origins
    )


def test_one_unmeasured_flow_follows_as_in_less_out() -> None:
    """A node with a single unmeasured flow gives it, and is marked as no proof."""
    network = Network(
        ("split",),
        (
            Flow("in", "outside", "split", carbon("in", 10)),
            Flow("left", "split", "outside", carbon("left", 7)),
            Flow("rest", "split", "outside", None),
        ),
    )

    solved, standing = solve(network, key)

    assert solved.unknown_at("split") == []
    assert standing == {"split": "follows"}
    assert solved.flows[2].is_by_difference
    assert solved.flows[2].carbon is not None
    assert solved.flows[2].carbon.values == pytest.approx(3.0)


def test_a_difference_keeps_its_sign() -> None:
    """A flow by difference below zero is shown as it is, never clipped."""
    network = Network(
        ("header",),
        (
            Flow("in", "outside", "header", carbon("in", 10)),
            Flow("used", "header", "outside", carbon("used", 11)),
            Flow("vent", "header", "outside", None),
        ),
    )

    solved, _ = solve(network, key)

    assert solved.flows[2].carbon is not None
    assert solved.flows[2].carbon.values == pytest.approx(-1.0)


def test_a_node_closed_by_difference_shows_no_closure() -> None:
    """What was closed by difference is never shown as 0.00 % as if it were proof."""
    network = Network(
        ("node",),
        (Flow("in", "outside", "node", carbon("in", 1)), Flow("out", "node", "outside", None)),
    )

    solved, standing = solve(network, key)
    closure = closure_of(solved, "node", standing["node"], key)

    assert closure.difference is None
    assert closure.share is None
    assert closure.standing == "follows"


def test_two_unmeasured_flows_are_left_open() -> None:
    """Two unmeasured flows at one node cannot be told apart and get no number."""
    network = Network(
        ("node",),
        (
            Flow("in", "outside", "node", carbon("in", 1)),
            Flow("a", "node", "outside", None),
            Flow("b", "node", "outside", None),
        ),
    )

    solved, standing = solve(network, key)

    assert standing == {"node": "not known"}
    assert [flow.carbon for flow in solved.flows[1:]] == [None, None]


def test_unmeasured_flows_inside_a_section_leave_one_check() -> None:
    """Front end and loop follow by difference; the node between them checks the whole section."""
    network = Network(
        ("front", "loop", "removal"),
        (
            Flow("feed", "outside", "front", carbon("feed", 100)),
            Flow("raw gas", "front", "removal", None),
            Flow("removed", "removal", "outside", carbon("removed", 93)),
            Flow("slip", "removal", "loop", None),
            Flow("purge", "loop", "outside", carbon("purge", 4)),
        ),
    )

    solved, standing = solve(network, key)
    closure = closure_of(solved, "removal", standing["removal"], key)

    assert standing == {"front": "follows", "loop": "follows", "removal": "checked"}
    assert closure.difference is not None
    assert closure.difference.values == pytest.approx(3.0)
    assert closure.year is not None
    assert closure.year[3].values == pytest.approx(0.03)


@given(st.floats(0.1, 10))
def test_scaling_all_flows_scales_the_closure(scale: float) -> None:
    """Closure in tonnes scales with the flows, closure as a share stays."""

    def closed(size: float) -> tuple[Row, Row]:
        flows = (
            Flow("in", "outside", "node", carbon("in", 10 * size)),
            Flow("out", "node", "outside", carbon("out", 9 * size)),
        )
        closure = closure_of(Network(("node",), flows), "node", "checked", key)
        assert closure.difference is not None
        assert closure.share is not None
        return closure.difference, closure.share

    tonnes, share = closed(1.0)
    scaled_tonnes, scaled_share = closed(scale)

    assert scaled_tonnes.values == pytest.approx(tonnes.values * scale)
    assert scaled_share.values == pytest.approx(share.values)
