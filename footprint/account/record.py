"""Meters of record: the fence meter counts, the sub-meters split it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from footprint.base.formulas import choose, sum_of
from footprint.base.line import Section
from footprint.base.row import Row, step
from footprint.measure import Measured
from footprint.measure.gas_flow import GasFlow
from footprint.read.site import Stream


@dataclass(frozen=True, eq=False, slots=True)
class Recorded:
    """A feed or fuel gas as it counts: scaled to the fence meter where that is of record."""

    stream: Stream
    carbon: Row
    net: Row
    reducing: Row
    nitrogen: Row


@dataclass(frozen=True, eq=False, slots=True)
class Record:
    """All feed and fuel gas as it counts, with the unscaled split beside it."""

    feeds: tuple[Recorded, ...]
    fuels: tuple[Recorded, ...]
    sections: tuple[Section, ...]


QUANTITIES: dict[str, Callable[[GasFlow], Row]] = {
    "carbon": lambda flow: flow.carbon,
    "net energy": lambda flow: flow.net,
    "reducing equivalents": lambda flow: flow.reducing,
    "nitrogen atoms": lambda flow: flow.nitrogen,
}


def gas_of_record(measured: Measured) -> Record:
    """Return feed and fuel gas by the meters of record that the site file names.

    Args:
        measured: every stream by month. [measured]

    Source: sub-meters share what the custody meter counts: common practice, no source
    """
    split = measured.gases("feed", "fuel")
    fence = measured.gases("purchased gas")
    is_scaled = measured.context.site.works.record == "fence meter" and bool(fence and split)
    counted = (
        _scaled(measured, split, fence)
        if is_scaled
        else {flow.stream.name: _as_metered(flow) for flow in split}
    )
    bought = [_as_metered(flow) for flow in measured.gases("hydrogen bought")]
    feeds = [counted[flow.stream.name] for flow in measured.gases("feed")] + bought
    fuels = [counted[flow.stream.name] for flow in measured.gases("fuel")]
    return Record(
        tuple(feeds), tuple(fuels), _sections(measured, [*feeds, *fuels], is_scaled=is_scaled)
    )


def _as_metered(flow: GasFlow) -> Recorded:
    return Recorded(flow.stream, flow.carbon, flow.net, flow.reducing, flow.nitrogen)


def _scaled(measured: Measured, split: list[GasFlow], fence: list[GasFlow]) -> dict[str, Recorded]:
    counted: dict[str, dict[str, Row]] = {flow.stream.name: {} for flow in split}
    for quantity, of in QUANTITIES.items():
        whole, metered = (
            _whole(measured, quantity, of, fence),
            _metered(measured, quantity, of, split),
        )
        for flow in split:
            name = flow.stream.name
            counted[name][quantity] = step(
                choose(metered > 0, whole * of(flow) / metered, of(flow)),
                measured.context.key(name, quantity, "of record"),
                f"{name}: {quantity}, of record",
                "share of the sub-meter in what the fence meter counts",
            )
    return {
        flow.stream.name: Recorded(
            flow.stream, *(counted[flow.stream.name][quantity] for quantity in QUANTITIES)
        )
        for flow in split
    }


def _whole(
    measured: Measured, quantity: str, of: Callable[[GasFlow], Row], fence: list[GasFlow]
) -> Row:
    bought = sum_of([of(flow) for flow in fence])
    others = measured.gases("gas to third parties")
    return step(
        bought - sum_of([of(flow) for flow in others]) if others else bought,
        measured.context.key("gas at the fence", quantity, "of record"),
        f"gas at the fence: {quantity}",
        "fence meter less third parties",
    )


def _metered(
    measured: Measured, quantity: str, of: Callable[[GasFlow], Row], split: list[GasFlow]
) -> Row:
    return step(
        sum_of([of(flow) for flow in split]),
        measured.context.key("gas by sub-meters", quantity, "metered"),
        f"gas by sub-meters: {quantity}",
        "sum of feed and fuel meters",
    )


def _sections(
    measured: Measured, counted: list[Recorded], *, is_scaled: bool
) -> tuple[Section, ...]:
    line = measured.context.line
    as_metered = Section(
        "Carbon by sub-meter, unscaled",
        tuple(line(measured.gas[one.stream.name].carbon) for one in counted),
    )
    if not is_scaled:
        return (as_metered,)
    scaled = Section(
        "Carbon of record: the fence meter, split by the sub-meters",
        tuple(line(one.carbon) for one in counted),
        "The fence meter is the meter of record; sub-meters only share out what it counts.",
    )
    return (as_metered, scaled)
