"""A gas stream by month: amount, carbon, energy and what it can make, from meter and analyses."""

from __future__ import annotations

from dataclasses import dataclass

from footprint.base.finding import Where, declare
from footprint.base.formulas import dot, pick, span
from footprint.base.row import Row, step
from footprint.measure.analysis import GasSamples
from footprint.measure.context import Context
from footprint.measure.pieces import Pieces, pieces_of
from footprint.measure.volume import condition_of, daily_volume, metered_volume, volume_by_piece
from footprint.measure.wet import WetVolume, dry_amount
from footprint.read.site import Stream

CARBON_MASS = "atomic weight of carbon, by kmol"
UNCOVERED = declare(
    "days-without-analysis",
    "warn",
    means="Some days of the year lie outside the time that any sample speaks for.",
    effect="the nearest sample is used for these days, so their carbon and energy rest on another "
    "week's gas",
    mend="enter the sample taken before the first (or after the last) of these days",
    example="first sample 8 January, which holds until the next: 1 to 7 January are uncovered",
)


@dataclass(frozen=True, eq=False, slots=True)
class GasFlow:
    """A gas stream over the months.

    Attributes:
        stream: as declared. [stream]
        amount: dry gas. [kmol]
        carbon: all carbon in it. [t C]
        net: net calorific energy at 25 °C. [GJ net]
        gross: gross calorific energy at 25 °C. [GJ gross]
        reducing: reducing equivalents. [kmol]
        nitrogen: nitrogen atoms. [kmol N]
        mass: of the dry gas. [kg]
        volume: dry, at the reference condition of its meter; None for wet gas. [volume]
    """

    stream: Stream
    amount: Row
    carbon: Row
    net: Row
    gross: Row
    reducing: Row
    nitrogen: Row
    mass: Row
    volume: Row | None


def gas_flow(context: Context, stream: Stream, samples: GasSamples) -> GasFlow:
    """Return one gas stream by month.

    Args:
        context: site, year, factors. [context]
        stream: a gas stream with a meter and an analysis. [stream]
        samples: the analyses of its gas. [samples]

    Source: definition; molar volume and calorific values by ISO 6976:2016
    """
    pieces = pieces_of(samples.dates, samples.represents, context.calendar, stream.name)
    _tell_uncovered(context, stream, pieces)
    cut = _Cut(context, stream, samples, pieces)
    if stream.water is not None:
        return _by_month(cut, _wet(cut), None)
    volume = volume_by_piece(context, stream, pieces)
    return _by_month(cut, _dry(cut, volume), volume)


@dataclass(frozen=True, eq=False, slots=True)
class _Cut:
    """A gas stream and the pieces that its samples and the months cut the year into."""

    context: Context
    stream: Stream
    samples: GasSamples
    pieces: Pieces

    def named(self, row: Row, key: tuple[str, str], words: str, because: str) -> Row:
        """Return a row under the name of the stream."""
        name = self.stream.name
        return step(row, self.context.key(name, *key), f"{name}: {words}", because)

    def monthly(self, amount: Row, quality: Row, quantity: str, words: str) -> Row:
        """Return a quantity by month from its content by kmol."""
        here = self.named(
            pick(quality, self.pieces.samples, self.pieces.axis),
            (f"{quantity} per kmol", "by analysis"),
            f"{words} per kmol",
            "of the sample that speaks for these days",
        )
        return self.named(
            dot(amount, here, self.pieces.months, self.context.calendar.months),
            (quantity, "metered"),
            words,
            "amount of gas times its analysis, summed over the month",
        )


def _tell_uncovered(context: Context, stream: Stream, pieces: Pieces) -> None:
    if pieces.uncovered:
        days = f'{pieces.uncovered} days of "{stream.name}"'
        what = f"{days} lie outside the time its analyses speak for"
        context.findings.append(UNCOVERED.at(Where("site.toml", column=stream.name), what))


def _dry(cut: _Cut, volume: Row) -> Row:
    """Return the amount of each piece of a gas that is metered dry."""
    by_kmol = cut.samples.quality.molar_volume[condition_of(volume)]
    here = cut.named(
        pick(by_kmol, cut.pieces.samples, cut.pieces.axis),
        ("molar volume", "by analysis"),
        "molar volume",
        "of the sample that speaks for these days",
    )
    return cut.named(
        volume / here,
        ("amount", "by analysis"),
        "amount of gas",
        "real volume over molar volume, ISO 6976:2016, formula 11",
    )


def _wet(cut: _Cut) -> Row:
    """Return the dry amount of each piece of a gas that is metered wet."""
    context, stream, pieces = cut.context, cut.stream, cut.pieces
    if metered_volume(context, stream).axis.kind == "months":
        volume = volume_by_piece(context, stream, pieces)
        seen = WetVolume(volume, pieces.samples, pieces.month_of)
        return dry_amount(context, stream, cut.samples, seen)
    seen = WetVolume(daily_volume(context, stream), pieces.by_day)
    return cut.named(
        span(dry_amount(context, stream, cut.samples, seen), pieces.days, pieces.axis),
        ("amount", "by analysis"),
        "dry gas",
        "sum of the days that one sample speaks for",
    )


def _by_month(cut: _Cut, amount: Row, volume: Row | None) -> GasFlow:
    quality, months = cut.samples.quality, cut.context.calendar.months
    atoms = cut.monthly(amount, quality.carbon, "carbon atoms", "carbon atoms")
    return GasFlow(
        cut.stream,
        amount=cut.named(
            span(amount, cut.pieces.months, cut.context.calendar.months),
            ("amount", "metered"),
            "amount of gas",
            "sum of the pieces of the month",
        ),
        carbon=cut.named(
            atoms * cut.context.factor(CARBON_MASS),
            ("carbon", "metered"),
            "carbon",
            "atoms times atomic weight",
        ),
        net=cut.monthly(amount, quality.net, "net energy", "net calorific energy"),
        gross=cut.monthly(amount, quality.gross, "gross energy", "gross calorific energy"),
        reducing=cut.monthly(
            amount, quality.reducing, "reducing equivalents", "reducing equivalents"
        ),
        nitrogen=cut.monthly(amount, quality.nitrogen, "nitrogen atoms", "nitrogen atoms"),
        mass=cut.monthly(amount, quality.molar_mass, "mass", "mass of gas"),
        volume=None
        if volume is None
        else cut.named(
            span(volume, cut.pieces.months, months),
            ("volume", "metered"),
            "volume, dry",
            "sum of the pieces of the month",
        ),
    )
