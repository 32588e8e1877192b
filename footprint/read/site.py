"""The site file: the works, its meters and where each reading is written."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from footprint.read.site_rules import Declared, Excluded, Guidelines, Text

Role = Literal[
    "purchased gas",
    "gas to third parties",
    "feed",
    "fuel",
    "other fuel",
    "purge gas",
    "let-down gas",
    "flash gas",
    "solvent flash gas",
    "hydrogen bought",
    "hydrogen sold",
    "start-up vent",
    "condensate stripper vent",
    "CO2 removed",
    "CO2 recovered from stack",
    "CO2 bought",
    "CO2 to urea",
    "CO2 sold",
    "CO2 liquefaction loss",
    "liquid CO2 stock",
    "CO2 to storage",
    "CO2 vented",
    "stack CO2",
    "ammonia produced",
    "ammonia bought",
    "ammonia sold",
    "ammonia to urea",
    "ammonia losses",
    "ammonia stock",
    "urea",
    "ammonia reclaimed",
    "power bought",
    "power made",
    "power sold",
    "power exported",
    "steam bought",
    "steam exported",
    "hours on line",
    "starts",
    "trips",
]
Layout = Literal["hourly", "daily", "weekly", "monthly", "tickets", "stock", "invoices"]
Status = Literal["provisional", "final", "corrected"]
GapMethod = Literal["neighbouring periods", "redundant meter", "production", "conservative value"]
Position = Literal["before mixing", "after mixing"]
Destination = Literal["fuel", "flare", "sold"]
ALL_OTHERS = "others"


def _of_all(stated: object) -> object:
    """Return one statement as that of all components."""
    return {ALL_OTHERS: stated} if isinstance(stated, str) else stated


ByComponent = Annotated[dict[str, Text], BeforeValidator(_of_all)]  # component = statement, or one


class Plan(Declared):
    """The monitoring plan that the site file puts in short."""

    version: Text
    approved: date
    valid_from: date
    valid_to: date | None = None


class Works(Declared):
    """The works, the year of the return and the rules to report under."""

    name: Text
    operator: Text
    country: Annotated[str, Field(pattern=r"^[A-Z]{2}$")]
    year: Annotated[int, Field(ge=2005, le=2100)]
    bases: Annotated[list[Text], Field(min_length=1)]
    gwp_set: Literal["AR4", "AR5", "AR6"]
    record: Literal["fence meter", "sub-meters"] = "fence meter"
    category: Literal["A", "B", "C"] | None = None  # of the installation, by its yearly emissions
    atmospheric_pressure_kpa: Annotated[float, Field(gt=60, lt=110)] | None = None
    atmospheric_pressure_uncertainty: Text | None = None
    plan: Plan


class Unit(Declared):
    """A process unit that makes ammonia."""

    name: Text
    process: Literal["steam reforming"]
    nameplate_t_per_day: Annotated[float, Field(gt=0)]
    tier_1_process: Literal[
        "modern, conventional reforming, natural gas",
        "modern, excess air reforming, natural gas",
        "modern, autothermal reforming, natural gas",
        "average, natural gas",
    ] = "average, natural gas"


class Source(Declared):
    """Where a series of readings stands."""

    file: Text
    sheet: str | None = None
    date_column: Text = "Date"
    rows: Layout = "daily"
    decimal_mark: Literal[".", ","] | None = (
        None  # needed where a column of text numbers leaves it open
    )
    date_order: Literal["day first", "month first"] | None = None  # where text dates leave it open
    across: bool = False  # periods run across the sheet; `column` then names the row of readings


class Exchange(Declared):
    """A meter taken out and another put in: where the old index ended and the new one began."""

    day: date
    closing: float
    opening: float


class Index(Declared):
    """A counter that only grows: amounts are differences of it.

    It is read at the start of the day of its date, or at the end; of monthly rows, at the start or
    the end of the month. A year needs the index at both its ends.
    """

    reads: Literal["start of the day", "end of the day"] = "start of the day"
    rolls_over_at: Annotated[float, Field(gt=0)] | None = None
    factor: Annotated[float, Field(gt=0)] = 1.0  # correction of the certificate, or pulse value
    exchanges: list[Exchange] = []


class DipTable(Declared):
    """What a tank holds at each level, from a sheet of its own."""

    file: Text
    sheet: str | None = None
    level_column: Text
    content_column: Text


class Range(Declared):
    """What a meter can read, in its own unit by reading."""

    lowest: float
    highest: float


class Meter(Source):
    """A thing that measures: flow meter, weighbridge, analyser, tank gauge, clock."""

    tag: Text
    column: Text
    unit: str | None = None  # needed when neither the heading nor a unit row names it
    day_starts: Annotated[str, Field(pattern=r"^([01]\d|2[0-3]):[0-5]\d$")] = "00:00"
    time_zone: str | None = None  # "Europe/Dublin": settles the days of 23 and 25 hours
    stamps: Literal["start", "end"] | None = None  # of an hour or week, where data leave it open
    status_column: str | None = None  # provisional, final, corrected: the later word counts
    uncertainty: Text | None = None  # "1.5 % (k=2)": the same error in all readings
    repeatability: Text | None = None  # what is drawn anew at each reading
    devices: list[str] = []  # tags of [[devices]] whose error this meter shares with others
    calibrated: date | None = None
    calibrations: list[date] = []  # in the year: the error is another one from that day on
    calibration_due: date | None = None
    range: Range | None = None
    counts: Literal["amount", "rate", "index"] = "amount"  # a rate is a mean over its period
    index: Index | None = None  # of counts = "index"
    tare_column: str | None = None  # of tickets: `column` is then the gross weight
    number_column: str | None = None  # of tickets: the number printed on each
    vehicle_column: str | None = None  # of tickets: who carried it
    to_column: str | None = None  # of invoices: last day of the billing period
    dips: DipTable | None = None  # of a stock read as a level


class Device(Declared):
    """What several meters share: a transmitter, a flow computer, a chromatograph, a test rig."""

    tag: Text
    uncertainty: Text | None = None  # of the readings of its meters, the same in all of them
    calibrated: date | None = None
    calibration_due: date | None = None
    calibrations: list[date] = []  # in the year: the error is another one from that day on


class Analysis(Source):
    """Gas analyses in mole per cent, one row a sample; headings name components."""

    gas: Text
    date_column: Text = "Sampled"
    rows: Literal["samples"] = "samples"  # type: ignore[assignment]  # analyses come by sample alone
    unit: Literal["mol-%"]
    moisture: Literal["dry"]
    represents: Literal["until the next sample", "since the last sample"]
    components: dict[str, str] = {}  # heading = component, where the heading is not known by itself
    method_column: str | None = None  # of certificates: the method of each sample
    plus_fraction: dict[str, float] = {}  # component = share of a lumped C6+, shares sum to 1
    plus_column: str | None = None  # heading of the lumped fraction
    uncertainty: ByComponent = {}  # the same in all samples
    sampling: ByComponent = {}  # drawn anew in each sample
    analyser: str | None = None  # gases of one analyser share its errors
    tolerance_percent: Annotated[float, Field(ge=0, le=3)] = 1.0  # sum may lie this far from 100


class Water(Declared):
    """Wet gas: the meters of temperature and pressure at which it left saturated with water."""

    temperature: Text
    pressure: Text
    relative_humidity: Annotated[float, Field(ge=0, le=1)] = 1.0
    humidity_uncertainty: Text | None = None


class LineConditions(Declared):
    """An uncorrected meter: the series of temperature and pressure in the line."""

    temperature: Text
    pressure: Text
    reference: Literal["Nm3", "Sm3", "m3_20C"] = "Nm3"
    equation: Literal["AGA 8 DETAIL", "GERG-2008"] = "AGA 8 DETAIL"


class SteamState(Declared):
    """Pressure and temperature of a steam stream and of the water that it is made from."""

    pressure_bar_abs: Annotated[float, Field(gt=0, lt=1000)]
    temperature_c: Annotated[float, Field(gt=0, lt=800)]
    feedwater_pressure_bar_abs: Annotated[float, Field(gt=0, lt=1000)]
    feedwater_temperature_c: Annotated[float, Field(ge=0, lt=350)]
    pressure_uncertainty: Text | None = None  # of steam and feedwater alike
    temperature_uncertainty: Text | None = None
    author: Text
    why: Text
    when: date


class Stream(Declared):
    """What flows: a role of the trade, the meter that counts it, and what its use needs."""

    name: Text
    role: Role
    unit: str | None = None  # process unit; the only one when the works has one
    meter: Text
    analysis: str | None = None  # gas analysed; for mixed fuel, the gas before mixing
    purity: str | None = None  # tag of the laboratory's series, in per cent by mass
    nitrogen: str | None = None  # tag of a series of per cent N, for urea that is not pure
    water: Water | None = None
    line: LineConditions | None = None  # of a gas metered in cubic metres at line conditions
    invoiced: str | None = None  # tag of the supplier's bill for the same gas, in gross energy
    position: Position | None = None  # of a fuel meter, where gases join
    mixed_with: list[
        str
    ] = []  # names of the streams that have joined before an "after mixing" meter
    burner: (
        Literal["reformer", "boiler", "heater", "flare pilot", "flare assist", "engine"] | None
    ) = None
    to: Destination | None = None  # of purge, let-down and flash gas
    use: str | None = None  # of CO2 sold, and of exported power or steam
    fuel: str | None = None  # of "other fuel": name in the table of default fuels
    density_kg_per_litre: Annotated[float, Field(gt=0.1, lt=2)] | None = None
    density_uncertainty: Text | None = None
    steam: SteamState | None = None
    is_counted_elsewhere: bool | None = (
        None  # CO2 leaving: is its later release counted by somebody else's inventory?
    )


class Assumption(Declared):
    """A number somebody answers for."""

    name: Text
    value: float
    unit: str
    uncertainty: Text | None = None
    author: Text
    why: Text
    when: date


class Substitute(Declared):
    """A value put in place of readings that are missing, with its author."""

    meter: Text
    first_day: date
    last_day: date
    value: float  # by period, as written: of an index its growth by factor, of a level the content
    uncertainty: Text | None = None  # of the value, the same in all its periods
    author: Text
    why: Text
    when: date


class Gap(Declared):
    """How missing readings of a meter are filled: a named method, with its author."""

    meter: Text
    method: GapMethod
    first_day: date
    last_day: date
    other_meter: str | None = None  # of "redundant meter" and "production"
    value: float | None = None  # of "conservative value", by reading
    uncertainty: Text | None = None  # of each filled reading, in place of the method's own scatter
    author: Text
    why: Text
    when: date


class Accepted(Declared):
    """A finding that somebody looked at and accepts: a judgement that the workbook lists."""

    code: Text
    file: str = ""
    sheet: str = ""
    cell: str = ""
    reason: Text
    author: Text
    when: date


class Site(Declared):
    """The whole site file."""

    works: Works
    units: Annotated[list[Unit], Field(min_length=1, max_length=1)]
    meters: Annotated[list[Meter], Field(min_length=1)]
    devices: list[Device] = []
    analyses: list[Analysis] = []
    streams: Annotated[list[Stream], Field(min_length=1)]
    assumptions: list[Assumption] = []
    substitutes: list[Substitute] = []
    gaps: list[Gap] = []
    accepted: list[Accepted] = []
    excluded: list[Excluded] = []
    ipcc: Guidelines = Guidelines()

    def meter(self, tag: str) -> Meter:
        """Return the meter of a tag.

        Args:
            tag: as declared. [text]

        Source: definition
        """
        return next(meter for meter in self.meters if meter.tag == tag)

    def device(self, tag: str) -> Device | None:
        """Return the device of a tag; None where none is declared.

        Args:
            tag: as declared. [text]

        Source: definition
        """
        return next((device for device in self.devices if device.tag == tag), None)

    def stand_ins(self, tag: str) -> list[Substitute | Gap]:
        """Return what stands in for missing readings of a meter: values and methods.

        Args:
            tag: of the meter. [text]

        Source: definition
        """
        values = [one for one in self.substitutes if one.meter == tag]
        return [*values, *(one for one in self.gaps if one.meter == tag)]

    def with_role(self, *roles: Role) -> list[Stream]:
        """Return the streams of some roles, in the order declared.

        Args:
            roles: trade terms. [text]

        Source: definition
        """
        return [stream for stream in self.streams if stream.role in roles]
