"""The way from one total to another: fixed order, exact sums."""

from __future__ import annotations

import pytest

from footprint.base.row import Row, constant
from footprint.base.units import unit
from footprint.bases.basis import Basis, Effect
from footprint.bases.bridge import bridges_of
from footprint.bases.topics import TOPICS, Topic

CO2E = unit("t_CO2e")


def amount(name: str, value: float) -> Row:
    """Return a named mass of CO2e."""
    return constant(value, CO2E, f"test/{name}/amount/given", name)


def basis_with(name: str, total: float, steps: dict[Topic, list[float]]) -> Basis:
    """Return a basis whose effects are the given steps."""
    effects = tuple(
        Effect(topic, amount(f"{name} {topic} {place}", size), f"{name}'s rule")
        for topic, sizes in steps.items()
        for place, size in enumerate(sizes)
    )
    return Basis(name, f"Return, {name}", (), (), (), amount(f"{name} total", total), effects)


def test_steps_between_two_bases_add_up_exactly() -> None:
    """What the first basis does is taken off and what the second does is put on, topic by topic."""
    first = basis_with("first", 80.0, {"CO2 to urea": [-25.0], "other gases": [5.0]})
    second = basis_with("second", 104.0, {"other gases": [3.0], "rounding": [1.0]})

    to_first, to_second, between = bridges_of(amount("gross", 100.0), [first, second])

    sizes = {item.topic: float(item.size.values[0]) for item in between.steps}
    assert sizes == {"CO2 to urea": 25.0, "other gases": -2.0, "rounding": 1.0}
    for bridge in (to_first, to_second, between):
        assert bridge.left.values[0] == pytest.approx(0.0, abs=1e-12)
    assert (between.start, between.end) == ("first", "second")


def test_steps_stand_in_the_printed_order() -> None:
    """The order of the steps does not depend on the order in which a basis names them."""
    scrambled: dict[Topic, list[float]] = {topic: [1.0] for topic in reversed(TOPICS)}

    bridge, *_ = bridges_of(amount("gross", 0.0), [basis_with("one", len(TOPICS), scrambled)])

    assert tuple(item.topic for item in bridge.steps) == TOPICS
    assert [float(item.after.values[0]) for item in bridge.steps] == [
        float(place) for place in range(1, len(TOPICS) + 1)
    ]


def test_many_effects_on_one_topic_are_summed_in_parts() -> None:
    """Twenty effects on one topic make one step, in formulas that can be read in a cell."""
    many = basis_with("many", 20.0, {"other gases": [1.0] * 20})

    bridge, *_ = bridges_of(amount("gross", 0.0), [many])

    assert bridge.steps[0].size.values[0] == pytest.approx(20.0)
    assert len(bridge.steps[0].size.args) <= 7


def test_a_total_that_the_steps_do_not_explain_is_left_over() -> None:
    """A basis whose effects miss something shows how much."""
    wrong = basis_with("wrong", 130.0, {"CO2 to urea": [-25.0]})

    bridge, *_ = bridges_of(amount("gross", 100.0), [wrong])

    assert bridge.left.values[0] == pytest.approx(-55.0)
