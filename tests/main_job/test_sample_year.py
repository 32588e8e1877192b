"""The sample year against the truth that its model knows, and small sites against theirs."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest

from footprint.base.row import Row
from footprint.base.slopes import standard_uncertainty
from footprint.judge import judge
from footprint.measure import Measured
from tests.sites import builders
from tests.sites.sample_year import accounts_of, sample, truth

COVERAGE = 2.0  # about 95 %: JCGM 100:2008, 6.3.3 (from memory)
# noise of the sample's daily readings on a month, beyond the calibration of the meters
PER_DAY = 0.002


def metered(measured: Measured) -> dict[str, Row]:
    """Return the rows that have a true value of their own, by the name of the truth."""
    rows = {f"{name}/carbon": flow.carbon for name, flow in measured.gas.items()}
    rows |= {f"{name}/net energy": flow.net for name, flow in measured.gas.items()}
    rows |= {name: row for name, row in measured.mass.items() if "CO2" not in name}
    rows |= {f"{name}/CO2": row for name, row in measured.mass.items() if "CO2" in name}
    return rows


NAMES = sorted(set(metered(sample()[0])) & set(truth()))


@pytest.mark.parametrize("name", NAMES)
def test_a_metered_quantity_of_the_sample_is_true_within_its_uncertainty(name: str) -> None:
    """Each month and the year lie within the stated uncertainty of the meters from the truth."""
    measured, _, _ = sample()
    row, true = metered(measured)[name], truth()[name]
    year = measured.context.year(row)

    off = np.abs(row.values - true["months"])
    allowed = [COVERAGE * standard_uncertainty(row, month) for month in range(12)]
    noise = PER_DAY * np.abs(true["months"])

    assert np.all(off <= np.array(allowed) + noise)
    assert (
        abs(year.values[0] - true["year"])
        <= COVERAGE * standard_uncertainty(year) + noise.sum() / 12
    )


def test_the_years_figures_are_true_within_their_uncertainty() -> None:
    """Process CO2, stack CO2 and ammonia of the sample agree with the model."""
    measured, _, accounted = sample()
    process = measured.context.year(accounted.split.process)
    ammonia = measured.context.year(accounted.ammonia.produced)

    assert process.values[0] == pytest.approx(
        truth()["all feed carbon as CO2"]["year"], abs=COVERAGE * standard_uncertainty(process)
    )
    assert ammonia.values[0] == pytest.approx(
        truth()["ammonia produced"]["year"], abs=COVERAGE * standard_uncertainty(ammonia)
    )


def test_process_co2_of_a_normal_month_lies_where_such_works_lie() -> None:
    """Process CO2 is 1.15 to 1.40 t by tonne of ammonia: common practice, no source."""
    _, _, accounted = sample()
    runs = accounted.ammonia.runs.values == 1

    by_tonne = accounted.split.process.values[runs] / accounted.ammonia.produced.values[runs]

    assert np.all((by_tonne > 1.15) & (by_tonne < 1.40))


def test_hydrogen_to_nitrogen_of_the_make_up_gas_is_three_to_one() -> None:
    """The synthesis gas is 3 hydrogen to 1 nitrogen within 2 %: common practice, no source."""
    hydrogen, nitrogen = (
        np.array(truth()[f"{gas} in make-up gas"]["months"]) for gas in ("hydrogen", "nitrogen")
    )
    runs = nitrogen > 0

    assert hydrogen[runs] / nitrogen[runs] == pytest.approx(3.0, rel=0.02)


def test_the_turnaround_month_stays_in_the_year() -> None:
    """A month without ammonia has fuel CO2, no figure by tonne, and is no division by zero."""
    measured, _, accounted = sample()
    idle = int(np.flatnonzero(accounted.ammonia.produced.values == 0)[0])
    by_tonne = accounted.energy.by_tonne["net"].months

    assert accounted.split.fuel.values[idle] > 0
    assert by_tonne is not None
    assert np.isnan(by_tonne.values[idle])
    assert measured.context.year(accounted.split.fuel).values[0] == pytest.approx(
        accounted.split.fuel.values.sum()
    )


def test_both_splits_are_one_total() -> None:
    """By purpose and by point of release sum to the same CO2, month by month."""
    _, _, accounted = sample()

    shown = [line.months for section in accounted.split.fuel_sections for line in section.lines]
    left = next(
        row
        for row in shown
        if row is not None and row.key.endswith("difference of the splits/check")
    )

    assert left.values == pytest.approx(np.zeros(12), abs=1e-6)


@pytest.fixture(scope="module")
def twin(tmp_path_factory: pytest.TempPathFactory) -> tuple[Measured, dict[str, Any]]:
    """Return the twin of the sample that perfect meters read monthly, measured, with its truth."""
    built = builders.monthly_works(tmp_path_factory.mktemp("twin"))
    return accounts_of(built.folder)[0], built.truth["quantities"]


@pytest.mark.parametrize("name", NAMES)
def test_meters_without_error_give_the_truth(
    name: str, twin: tuple[Measured, dict[str, Any]]
) -> None:
    """A twin of the sample, read monthly by perfect meters, gives the model's own figures.

    Wet gas is left 1e-5: the model takes its saturation pressure from another formula.
    """
    measured, true = twin
    is_wet = name.removesuffix("/carbon").removesuffix("/net energy") in {
        "CO2 removed",
        "CO2 to urea",
        "CO2 vented",
    }

    got = metered(measured)[name].values

    assert got == pytest.approx(true[name]["months"], rel=1e-5 if is_wet else 1e-9)


def test_purge_carbon_counts_once_wherever_the_fuel_meter_stands(tmp_path: Path) -> None:
    """Fuel CO2 is the same with the meter before and after the mixing, within 0.1 % of the gas.

    The purge gas alone would add more than 5 % to the fuel carbon if it counted twice.
    """
    folders = [tmp_path / "before", tmp_path / "after"]
    for folder in folders:
        folder.mkdir()
    before = builders.monthly_works(folders[0])
    after = builders.works_with_fuel_meter_after_mixing(folders[1])

    fuels = [
        accounts_of(built.folder)[0].gas["reformer fuel gas"].carbon.values
        for built in (before, after)
    ]
    purge = accounts_of(before.folder)[0].gas["purge gas"].carbon.values

    assert fuels[1] == pytest.approx(fuels[0], rel=0.0015)
    assert purge.sum() > 0.05 * fuels[0].sum()


def test_without_removal_and_vent_meters_both_follow(tmp_path: Path) -> None:
    """CO2 removed and vented follow by difference, are marked so, and check no node."""
    built = builders.works_without_removal_and_vent_meters(tmp_path)
    measured, balanced, accounted = accounts_of(built.folder)
    true = built.truth["quantities"]

    removed, vented = balanced.flow("CO2 removed"), balanced.flow("CO2 vented")

    assert removed.is_by_difference
    assert vented.is_by_difference
    assert removed.carbon is not None
    assert vented.carbon is not None
    assert removed.carbon.values.sum() == pytest.approx(
        true["CO2 removed/carbon"]["year"], rel=1e-3
    )
    assert vented.carbon.values.sum() == pytest.approx(true["CO2 vented/carbon"]["year"], rel=0.02)
    assert balanced.standing["CO2 removal"] == "follows"
    assert balanced.standing["CO2 header"] == "follows"
    assert all(
        closure.share is None for closure in balanced.closures if closure.standing == "follows"
    )
    assert accounted.captured.vented is not None
    del measured


def test_the_sample_has_no_finding_that_stops_and_no_check_that_is_open() -> None:
    """The sample year is fit to file, and every judged month passes its checks."""
    _, _, accounted = sample()
    judgement, findings = judge(accounted)

    assert [one.code for one in findings] == ["gap-filled"]
    assert all(set(np.unique(check.outcome.values)) <= {0.0, 1.0} for check in judgement.checks)
