"""The composition of a gas: readings made to sum to 1, and volumes turned into mole fractions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from footprint.base.row import step
from footprint.gas.arithmetic import Number, total_of


def normalise(gas: str, readings: Mapping[str, Number]) -> tuple[Number, ...]:
    """Return the mole fractions: each reading over the sum of the readings.

    Args:
        gas: name of the gas. [text]
        readings: by component name, all in one unit (mole per cent, mole fraction). [any]

    Returns:
        mole fraction of each component, in the order of the readings; they sum to 1. [kmol/kmol]

    Source: definition
    """
    total = step(
        total_of(tuple(readings.values())),
        f"gas/{gas}/all components/sum of the readings",
        f"sum of the readings of {gas}",
        "sum over the components, before it is made 1",
    )
    return tuple(
        step(
            reading / total,
            f"gas/{gas}/{name}/normalised",
            f"mole fraction of {name} in {gas}",
            "reading over the sum of the readings",
        )
        for name, reading in readings.items()
    )


def from_volume_fractions(
    volumes: Sequence[float], summation: Sequence[float]
) -> tuple[float, ...]:
    """Return mole fractions from real volumes of the components before they were mixed.

    Args:
        volumes: volume fraction of each component; any common scale. [m3/m3]
        summation: summation factor of each component at the temperature of the volumes. [1]

    Source: ISO 14912 (from memory), with the compression factor 1 - s² of each pure component
    """
    amounts = [volume / (1 - s * s) for volume, s in zip(volumes, summation, strict=True)]
    total = sum(amounts)
    return tuple(amount / total for amount in amounts)
