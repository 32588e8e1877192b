"""The statements of the sample: whole, consistent with its model, and as wide as they say."""

from __future__ import annotations

import math
import re

import pytest

from footprint.base.slopes import variances
from footprint.measure.accuracy import stated
from tests.sites.sample_modules import brackwater
from tests.sites.sample_year import sample


def test_the_sample_takes_no_default() -> None:
    """Every meter, laboratory and assumed number of the sample states its uncertainty."""
    measured, _, _ = sample()

    assert measured.context.unstated.findings == []


def test_stated_repeatability_is_the_scatter_of_the_model() -> None:
    """The model lets each reading scatter by a quarter of the meter's lasting uncertainty."""
    measured, _, _ = sample()
    share = brackwater("instruments").DAILY
    meters = [one for one in measured.context.site.meters if one.repeatability]

    for meter in meters:
        lasting, fresh = stated(meter.uncertainty), stated(meter.repeatability)
        assert lasting is not None
        assert fresh is not None
        assert fresh.of_reading == pytest.approx(share * (lasting.of_reading or 0), rel=0.08)
    assert len(meters) > 10


def test_the_exchanged_counter_has_another_error_from_its_exchange() -> None:
    """Diesel of January to September shares the error of one pump, the rest that of the next."""
    measured, _, _ = sample()
    mass = measured.fuel["diesel"].mass
    found = variances(measured.context.year(mass))["calibration of TK-601"]

    first, then = mass.values[:9].sum(), mass.values[9:].sum()

    assert math.sqrt(found) == pytest.approx(0.005 * math.hypot(first, then), rel=1e-9)


def test_fence_and_sub_meters_share_the_chromatograph() -> None:
    """All gases of the sample name GC-1, whose errors move feed and fuel together."""
    measured, _, _ = sample()
    year = measured.context.year
    keys = [
        set(variances(year(measured.gas[name].carbon))) for name in ("feed gas", "boiler fuel gas")
    ]

    shared = {key for key in keys[0] & keys[1] if key.startswith("analyser GC-1")}

    assert {re.sub(r", part 2$", "", key) for key in shared} >= {"analyser GC-1: methane"}
    assert "device FC-110" in keys[0] & keys[1]
