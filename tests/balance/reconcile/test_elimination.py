"""Suspects set aside one by one, rivals and sets that no data can tell apart."""

from __future__ import annotations

import numpy as np
import pytest

from footprint.balance.reconcile import (
    Candidate,
    Problem,
    cosines,
    each_cause,
    each_leak,
    each_meter,
    eliminate,
    equivalent_sets,
    own_errors,
    pose,
    reconcile,
    rivals,
    suspect,
)

PLANT = np.array(
    [
        [1.0, -1, -1, 0, 0, 0],
        [0, 1, 0, -1, 0, 0],
        [0, 0, 1, 0, -1, 0],
        [0, 0, 0, 1, 1, -1],
    ]
)
TRUE = np.array([100.0, 64, 36, 64, 36, 100])


def plant(*biases: tuple[int, float]) -> Problem:
    """Return the plant without noise, with biases on meters."""
    y = TRUE.copy()
    for place, size in biases:
        y[place] += size
    return pose(y, own_errors(np.full(6, 0.5)), PLANT)


def test_data_that_agree_lose_nothing() -> None:
    """No suspect is set aside where all imbalances pass together."""
    found = eliminate(plant((1, 0.3)))

    assert found.steps == ()
    assert found.ending == "agrees"
    assert found.corrected == pytest.approx(found.reconciled.adjusted)


def test_two_biases_are_found_with_their_sizes() -> None:
    """Without noise the sizes come back exactly, and so do the true flows."""
    found = eliminate(plant((1, 6.0), (5, -9.0)))

    assert {one.chosen.place for one in found.steps} == {1, 5}
    sizes = {one.chosen.place: size for one, size in zip(found.steps, found.sizes, strict=True)}
    assert sizes == pytest.approx({1: 6.0, 5: -9.0})
    assert found.corrected == pytest.approx(TRUE)
    assert found.ending == "agrees"
    assert np.all(found.errors > 0)


def test_a_leak_is_found_where_leaks_are_candidates() -> None:
    """An unrecorded 5 out of the exchanger."""
    y = TRUE.copy()
    y[3] -= 5.0
    y[5] -= 5.0
    problem = pose(y, own_errors(np.full(6, 0.5)), PLANT)
    found = reconcile(problem)

    ending = eliminate(problem, [*each_meter(found), *each_leak(found)])

    assert [one.chosen for one in ending.steps] == [Candidate("leak", 1)]
    assert ending.sizes == pytest.approx([5.0])
    assert ending.corrected == pytest.approx(y)


def test_the_number_of_suspects_is_capped_and_the_ending_told() -> None:
    """Three biases with a cap of two end as too many; one candidate alone runs out."""
    wrong = plant((0, 8.0), (1, -7.0), (4, 6.0))

    assert eliminate(wrong, most=2).ending == "too many"
    assert eliminate(wrong, [Candidate("meter", 2)]).ending == "no suspect left"


def test_flows_of_one_balance_cannot_be_told_apart() -> None:
    """With one balance every meter is as suspect as every other: all are named."""
    problem = pose([10.0, 6.0, 8.0], own_errors(np.array([0.1, 0.2, 0.3])), [[1.0, -1.0, -1.0]])

    found = eliminate(problem)

    (step,) = found.steps
    assert {step.chosen, *step.equivalent} == set(each_meter(found.reconciled))
    assert set(step.equivalent) == set(step.rivals)
    assert found.reconciled.degrees_of_freedom == 0


def test_a_shared_cause_is_a_suspect_of_its_own() -> None:
    """One calibration for two meters, three sigmas off: the cause is named, not either meter."""
    rig = np.array([[0.0], [2.0], [0.0], [0.0], [1.5], [0.0]])
    factor = np.hstack([own_errors(np.full(6, 0.2)), rig])
    y = TRUE + 8.0 * rig[:, 0]
    found = reconcile(pose(y, factor, PLANT))

    candidates = [*each_meter(found), *each_cause(found)]
    seen = suspect(found, candidates)

    assert candidates[seen.ranking()[0]] == Candidate("cause", 6)
    assert seen.size[-1] == pytest.approx(8.0)
    ending = eliminate(found.problem, candidates)
    assert ending.corrected == pytest.approx(TRUE)


def test_a_flow_without_a_check_is_never_suspect() -> None:
    """It leaves no mark: no z, no flag, an infinite place in no ranking."""
    problem = pose(
        [10.0, 9.0, 7.0],
        own_errors(np.ones(3)),
        [[1.0, -1.0, 0.0], [0.0, 0.0, 1.0]],
        [[0.0], [-1.0]],
    )
    found = reconcile(problem)
    seen = suspect(found, each_meter(found))

    assert list(seen.visible) == [True, True, False]
    assert np.isnan(seen.z[2])
    assert not seen.flagged()[2]
    assert 2 not in seen.ranking()
    assert seen.tests == 2
    assert not rivals(seen, 0)[2]
    assert equivalent_sets(seen) == [(0, 1)]
    assert np.isnan(cosines(seen)[0, 2])
    assert cosines(seen)[0, 1] == pytest.approx(-1.0)


def test_the_interval_of_a_size_holds_its_level() -> None:
    """Estimate plus or minus 1.96 standard uncertainties at 5 %."""
    found = reconcile(plant((1, 6.0)))
    seen = suspect(found, each_meter(found))

    low, high = seen.interval()

    assert (high - low)[1] / seen.error[1] == pytest.approx(2 * 1.959964, rel=1e-6)
    assert (low + high)[1] / 2 == pytest.approx(6.0)
