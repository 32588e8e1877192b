"""The carbon network of a steam-reforming unit: its nodes, and which stream joins which."""

from __future__ import annotations

from footprint.balance.network import Flow, Network
from footprint.base.formulas import sum_of
from footprint.base.row import Row, step
from footprint.measure import Measured
from footprint.measure.gas_flow import GasFlow
from footprint.read.site import Role, Stream

GAS_HEADER = "gas header"
FRONT_END = "front end"
REMOVAL = "CO2 removal"
LOOP = "synthesis loop"
STRIPPER = "condensate stripper"
FURNACE = "furnace and boilers"
FLARE = "flare"
CO2_HEADER = "CO2 header"
UREA = "urea unit"
SUPPLIERS = "suppliers"
CUSTOMERS = "customers"
STORAGE = "storage"
ATMOSPHERE = "atmosphere"
NODES = (GAS_HEADER, FRONT_END, STRIPPER, LOOP, REMOVAL, FURNACE, FLARE, CO2_HEADER, UREA)
OUTSIDE = (SUPPLIERS, CUSTOMERS, STORAGE, ATMOSPHERE)

OFF_GASES: tuple[Role, ...] = ("purge gas", "let-down gas", "flash gas")
BURNT_AT = {"fuel": FURNACE, "flare": FLARE, "sold": CUSTOMERS, None: FURNACE}


def network_of(measured: Measured) -> Network:
    """Return the carbon network of the works, unmeasured flows without a row.

    Args:
        measured: every stream by month. [measured]

    Source: design of steam-reforming ammonia units: common practice, no source
    """
    flows = [
        *_gas_supply(measured),
        *_front_end(measured),
        *_loop(measured),
        *_furnace(measured),
        *_co2_header(measured),
        *_urea(measured),
    ]
    met = {place for flow in flows for place in (flow.source, flow.target)}
    return Network(tuple(node for node in NODES if node in met), tuple(flows))


def _named(flow: GasFlow, source: str, target: str) -> Flow:
    return Flow(flow.stream.name, source, target, flow.carbon)


def _gas_supply(measured: Measured) -> list[Flow]:
    bought = measured.gases("purchased gas")
    origin = GAS_HEADER if bought else SUPPLIERS
    return [
        *(_named(flow, SUPPLIERS, GAS_HEADER) for flow in bought),
        *(_named(flow, GAS_HEADER, CUSTOMERS) for flow in measured.gases("gas to third parties")),
        *(_named(flow, origin, FRONT_END) for flow in measured.gases("feed")),
        *(_named(flow, SUPPLIERS, FRONT_END) for flow in measured.gases("hydrogen bought")),
        *(_named(flow, origin, FURNACE) for flow in measured.gases("fuel")),
    ]


def _front_end(measured: Measured) -> list[Flow]:
    stripped = measured.gases("condensate stripper vent")
    dissolved = [Flow("dissolved in condensate", FRONT_END, STRIPPER, None)] if stripped else []
    return [
        *(_named(flow, FRONT_END, ATMOSPHERE) for flow in measured.gases("start-up vent")),
        *dissolved,
        *(_named(flow, STRIPPER, ATMOSPHERE) for flow in stripped),
        Flow("raw synthesis gas", FRONT_END, REMOVAL, None),
        *(
            _named(flow, REMOVAL, BURNT_AT[flow.stream.to])
            for flow in measured.gases("solvent flash gas")
        ),
    ]


def _loop(measured: Measured) -> list[Flow]:
    off_gas = [_named(flow, LOOP, BURNT_AT[flow.stream.to]) for flow in measured.gases(*OFF_GASES)]
    return [
        Flow("carbon slip", REMOVAL, LOOP, None),
        *(off_gas or [Flow("off-gas", LOOP, FURNACE, None)]),
        *(_named(flow, LOOP, CUSTOMERS) for flow in measured.gases("hydrogen sold")),
    ]


def _furnace(measured: Measured) -> list[Flow]:
    stack = _of_role(measured, "stack CO2", FURNACE, ATMOSPHERE)
    flared = any(
        flow.stream.to == "flare" for flow in measured.gases(*OFF_GASES, "solvent flash gas")
    )
    return [
        *(
            Flow(fuel.stream.name, SUPPLIERS, FURNACE, fuel.carbon)
            for fuel in measured.fuel.values()
        ),
        *(stack or [Flow("stack CO2", FURNACE, ATMOSPHERE, None)]),
        *([Flow("flare CO2", FLARE, ATMOSPHERE, None)] if flared else []),
        *_of_role(measured, "CO2 recovered from stack", FURNACE, CO2_HEADER),
    ]


def _co2_header(measured: Measured) -> list[Flow]:
    removed = _of_role(measured, "CO2 removed", REMOVAL, CO2_HEADER)
    vented = _of_role(measured, "CO2 vented", CO2_HEADER, ATMOSPHERE)
    return [
        *(removed or [Flow("CO2 removed", REMOVAL, CO2_HEADER, None)]),
        *_of_role(measured, "CO2 bought", SUPPLIERS, CO2_HEADER),
        *_of_role(measured, "CO2 to urea", CO2_HEADER, UREA),
        *_of_role(measured, "CO2 sold", CO2_HEADER, CUSTOMERS),
        *_of_role(measured, "CO2 liquefaction loss", CO2_HEADER, ATMOSPHERE),
        *_stock_growth(measured),
        *_of_role(measured, "CO2 to storage", CO2_HEADER, STORAGE),
        *(vented or [Flow("CO2 vented", CO2_HEADER, ATMOSPHERE, None)]),
    ]


def _stock_growth(measured: Measured) -> list[Flow]:
    return [
        Flow(
            f"{one.name} growth",
            CO2_HEADER,
            STORAGE,
            carbon_of_co2(measured, measured.stock[one.name].growth, one),
        )
        for one in measured.context.site.with_role("liquid CO2 stock")
    ]


def _urea(measured: Measured) -> list[Flow]:
    if not measured.context.site.with_role("CO2 to urea"):
        return []
    made = [urea_carbon(measured, stream, mass) for stream, mass in measured.masses("urea")]
    if not made:
        return [Flow("bound in urea", UREA, CUSTOMERS, None)]
    key = measured.context.key("bound in urea", "carbon", "all products")
    words = "bound in urea: carbon, all products"
    bound = made[0] if len(made) == 1 else step(sum_of(made), key, words, "sum of the products")
    return [
        Flow("bound in urea", UREA, CUSTOMERS, bound),
        Flow("lost in the urea unit", UREA, ATMOSPHERE, None),
    ]


def _of_role(measured: Measured, role: Role, source: str, target: str) -> list[Flow]:
    streams = measured.context.site.with_role(role)
    return [_from_co2(measured, one, source, target) for one in streams]


def _from_co2(measured: Measured, stream: Stream, source: str, target: str) -> Flow:
    """Return a CO2 stream as a flow: by its analysis when metered as gas, else by molar mass."""
    if stream.name in measured.gas:
        return _named(measured.gas[stream.name], source, target)
    return Flow(
        stream.name, source, target, carbon_of_co2(measured, measured.mass[stream.name], stream)
    )


def carbon_of_co2(measured: Measured, mass: Row, stream: Stream) -> Row:
    """Return the carbon in a mass of CO2.

    Args:
        measured: every stream by month. [measured]
        mass: CO2 by month. [t CO2]
        stream: whose mass it is. [stream]

    Source: atomic weights of ISO 6976:2016, Annex A.2
    """
    context = measured.context
    return step(
        mass / context.co2_per_carbon,
        context.key(stream.name, "carbon", "by molar mass"),
        f"{stream.name}: carbon",
        "mass over CO2 per carbon",
    )


def urea_carbon(measured: Measured, stream: Stream, mass: Row) -> Row:
    """Return the carbon bound in urea.

    Args:
        measured: every stream by month. [measured]
        stream: the urea. [stream]
        mass: urea by month, 100 % basis. [t urea]

    Source: atomic weights of ISO 6976:2016, Annex A.2
    """
    context = measured.context
    return step(
        mass * context.factor("carbon in urea"),
        context.key(stream.name, "carbon", "by molar mass"),
        f"{stream.name}: carbon",
        "mass times carbon in urea",
    )
