"""CO2 taken out of the synthesis gas and where it went: one line for each way, never netted."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.account.carbon_dioxide import as_co2
from footprint.account.vent import vent_section
from footprint.balance import Balance
from footprint.balance.network import Flow
from footprint.balance.steam_reforming import CO2_HEADER, UREA
from footprint.base.formulas import sum_of
from footprint.base.line import Line, Section
from footprint.base.row import Row, step
from footprint.measure import Measured
from footprint.read.site import Role


@dataclass(frozen=True, eq=False, slots=True)
class Captured:
    """CO2 by way, over the months: the carbon of each flow, counted as CO2.

    Attributes:
        by_flow: by name of the flow. [t CO2]
        removed: taken out of the synthesis gas; None where it cannot be known. [t CO2]
        vented: at the CO2 header, with its sign; None where it cannot be known. [t CO2]
        bound: bound in urea; None where no urea is made. [t CO2]
        sections: as shown. [sections]
    """

    by_flow: dict[str, Row]
    removed: Row | None
    vented: Row | None
    bound: Row | None
    sections: tuple[Section, ...]

    def of_role(self, measured: Measured, role: Role) -> list[tuple[str, Row]]:
        """Return the flows of one role, by name.

        Args:
            measured: every stream by month. [measured]
            role: trade term. [text]

        Source: definition
        """
        names = [one.name for one in measured.context.site.with_role(role)]
        return [(name, self.by_flow[name]) for name in names if name in self.by_flow]


def captured_of(measured: Measured, balance: Balance) -> Captured:
    """Return captured CO2 by destination.

    Args:
        measured: every stream by month. [measured]
        balance: the solved carbon network. [balance]

    Source: conservation of carbon at the CO2 header
    """
    network = balance.network
    into, out_of = network.into(CO2_HEADER), network.out_of(CO2_HEADER)
    urea = [flow for flow in network.out_of(UREA) if flow.carbon is not None]
    by_flow = {
        flow.name: _co2(measured, flow)
        for flow in (*into, *out_of, *urea)
        if flow.carbon is not None
    }
    removed = _total_of(measured, by_flow, _of_role(measured, into, "CO2 removed"), "CO2 removed")
    vented = _total_of(measured, by_flow, _of_role(measured, out_of, "CO2 vented"), "CO2 vented")
    sections = [
        Section("Into the CO2 header", _lines(measured, by_flow, into)),
        Section("Out of the CO2 header, by destination", _lines(measured, by_flow, out_of)),
        _urea(measured, by_flow, [*network.into(UREA), *urea]),
        *vent_section(measured, balance, by_flow),
    ]
    shown = tuple(one for one in sections if one.lines)
    return Captured(by_flow, removed, vented, by_flow.get("bound in urea"), shown)


def _urea(measured: Measured, by_flow: dict[str, Row], flows: list[Flow]) -> Section:
    return Section("Urea: CO2 sent, bound and lost", _lines(measured, by_flow, flows))


def _co2(measured: Measured, flow: Flow) -> Row:
    if flow.carbon is None:
        raise ValueError(f"{flow.name} has no figure")
    return as_co2(
        measured, flow.carbon, flow.name, "by difference" if flow.is_by_difference else "metered"
    )


def _of_role(measured: Measured, flows: list[Flow], role: Role) -> list[str]:
    """Return names of the flows of a role; of the unmeasured flow when no meter is declared."""
    declared = [one.name for one in measured.context.site.with_role(role)]
    return declared or [flow.name for flow in flows if flow.name == role]


def _total_of(
    measured: Measured, by_flow: dict[str, Row], names: list[str], title: str
) -> Row | None:
    rows = [by_flow[name] for name in names if name in by_flow]
    if not rows:
        return None
    if len(rows) == 1:
        return rows[0]
    return step(
        sum_of(rows),
        measured.context.key(title, "CO2", "all meters"),
        f"{title}, all meters",
        "sum of the meters",
    )


def _lines(measured: Measured, by_flow: dict[str, Row], flows: list[Flow]) -> tuple[Line, ...]:
    return tuple(
        measured.context.line(by_flow[flow.name]) for flow in flows if flow.name in by_flow
    )
