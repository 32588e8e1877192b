"""Slips in the site file."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from tests.findings.case import Case
from tests.findings.site_folder import SiteFolder


def meter(tag: str, **keys: Any) -> Callable[[SiteFolder], None]:
    """Return a change of a meter's entry."""
    return lambda folder: folder.meter(tag).update(keys)


def stream(name: str, **keys: Any) -> Callable[[SiteFolder], None]:
    """Return a change of a stream's entry."""
    return lambda folder: folder.stream(name).update(keys)


def without(entry: Callable[[SiteFolder], dict[str, Any]], key: str) -> Any:
    """Return a change that removes a key."""
    return lambda folder: entry(folder).pop(key) and None


def works(**keys: Any) -> Callable[[SiteFolder], None]:
    """Return a change of the works."""
    return lambda folder: folder.site["works"].update(keys)


def raw(text: str) -> Callable[[SiteFolder], None]:
    """Return a change that writes the site file as it stands here."""

    def change(folder: SiteFolder) -> None:
        folder.texts["site.toml"] = text

    return change


def added_stream(**keys: Any) -> Callable[[SiteFolder], None]:
    """Return a change that declares one more stream, on the meter of the feed."""
    one = {"name": "more", "meter": "FT-1", **keys}
    return lambda folder: folder.site["streams"].append(one)


def fuel_beside_purge(folder: SiteFolder) -> None:
    """Declare purge gas to fuel, so that the fuel needs its position."""
    added_stream(role="purge gas", analysis="natural gas", to="fuel")(folder)


def unused_meter(folder: SiteFolder) -> None:
    """Declare a meter that no stream uses."""
    folder.site["meters"].append({**folder.meter("FT-1"), "tag": "FT-9"})


def span(folder: SiteFolder) -> None:
    """Declare a substitute that ends before it begins."""
    folder.site["substitutes"] = [
        {
            "meter": "FT-1",
            "first_day": date(2025, 3, 9),
            "last_day": date(2025, 3, 4),
            "value": 1.0,
            "author": "A. Tester",
            "why": "test",
            "when": date(2025, 4, 1),
        }
    ]


def diesel_by_litre(folder: SiteFolder) -> None:
    """Meter diesel in litres without its density."""
    folder.stream("power").update(role="other fuel", fuel="gas/diesel oil")
    folder.put("Power", "B3", "Power bought (litres)")


def co2_by_volume(folder: SiteFolder) -> None:
    """Meter CO2 as a gas volume without an analysis."""
    folder.stream("power").update(role="CO2 vented")
    folder.put("Power", "B3", "Power bought (Nm3)")


def line_without_analysis(folder: SiteFolder) -> None:
    """Declare a line for CO2 whose composition nobody analyses."""
    folder.stream("power").update(role="CO2 vented", line={"temperature": "T", "pressure": "P"})


SITE_CASES = [
    Case(
        "broken-site-file",
        raw('[works]\nname = "Brackwater\n'),
        "site.toml > line 2, column 19",
        "the file can't be read from here on",
    ),
    Case(
        "broken-site-file",
        raw('[works]\nname = "A"\nname = "B"\n'),
        "site.toml > line 3, column 11",
        "a key or table stands here for the second time",
    ),
    Case(
        "unknown-key",
        meter("FT-1", colour="red"),
        "site.toml > meters[1] FT-1 > colour",
        'key "colour" is not known here',
    ),
    Case(
        "unknown-key",
        lambda folder: folder.meter("FT-2").update(colunm=folder.meter("FT-2").pop("column")),
        "site.toml > meters[2] FT-2 > colunm",
        'key "colunm" is not known here',
    ),
    Case(
        "missing-key",
        without(lambda folder: folder.meter("FT-2"), "file"),
        "site.toml > meters[2] FT-2 > file",
        '"file" is missing',
    ),
    Case(
        "missing-key",
        without(lambda folder: folder.site, "works"),
        "site.toml > works",
        '"works" is missing',
    ),
    Case(
        "wrong-kind-of-value",
        works(year="2025"),
        "site.toml > works > year",
        '"year" must be a whole number, such as 2025',
    ),
    Case(
        "wrong-kind-of-value",
        works(country="Ireland"),
        "site.toml > works > country",
        '"country" must be two capital letters, such as "GB"',
    ),
    Case(
        "wrong-kind-of-value",
        works(atmospheric_pressure_kpa=1013.0),
        "site.toml > works > atmospheric_pressure_kpa",
        '"atmospheric_pressure_kpa" must be below 110',
    ),
    Case(
        "unknown-choice",
        stream("ammonia", role="ammonia product"),
        "site.toml > streams[3] ammonia > role",
        '"ammonia product" is not a choice for "role"',
    ),
    Case(
        "unknown-choice",
        works(gwp_set="AR7"),
        "site.toml > works > gwp_set",
        '"AR7" is not a choice for "gwp_set"',
    ),
    Case(
        "repeated-name",
        lambda folder: folder.site["meters"].append(dict(folder.meter("FT-1"))),
        "site.toml > meters[7] FT-1 > tag",
        '2 entries have the tag "FT-1"',
    ),
    Case(
        "undeclared-meter",
        stream("power", meter="EM-44"),
        "site.toml > streams[4] power > meter",
        '"EM-44" is not declared',
        also=("meter-not-used",),
    ),
    Case(
        "undeclared-gas",
        stream("feed", analysis="naturla gas"),
        "site.toml > streams[1] feed > analysis",
        '"naturla gas" is not declared',
    ),
    Case(
        "undeclared-stream",
        stream("fuel", position="after mixing", mixed_with=["purge"]),
        "site.toml > streams[2] fuel > mixed_with",
        '"purge" is not declared',
    ),
    Case(
        "undeclared-process-unit",
        stream("feed", unit="Ammonia 2"),
        "site.toml > streams[1] feed > unit",
        '"Ammonia 2" is not declared',
    ),
    Case(
        "key-needed-by-role",
        without(lambda folder: folder.stream("feed"), "analysis"),
        "site.toml > streams[1] feed > analysis",
        'a stream of role "feed" needs analysis',
    ),
    Case(
        "key-needed-by-role",
        fuel_beside_purge,
        "site.toml > streams[2] fuel > position",
        'a stream of role "fuel" needs position',
        also=("key-needed-by-role",),
    ),
    Case(
        "key-needed-by-role",
        added_stream(role="purge gas", analysis="natural gas"),
        "site.toml > streams[6] more > to",
        'a stream of role "purge gas" needs to',
    ),
    Case(
        "key-needed-by-role",
        stream("ammonia", role="CO2 sold", purity="LAB-3"),
        "site.toml > streams[3] ammonia > is_counted_elsewhere",
        'a stream of role "CO2 sold" needs is_counted_elsewhere',
        also=("key-needed-by-role",),
    ),
    Case(
        "key-needed-by-role",
        diesel_by_litre,
        "site.toml > streams[4] power > density_kg_per_litre",
        'meter "EM-4" reads L, so that the stream needs density_kg_per_litre',
    ),
    Case(
        "key-needed-by-role",
        co2_by_volume,
        "site.toml > streams[4] power > analysis",
        'meter "EM-4" reads Nm³ (0 °C, 101.325 kPa), so that the stream needs analysis',
    ),
    Case(
        "key-needed-by-role",
        lambda folder: folder.put("Gas", "B3", "Feed gas (m3 line)"),
        "site.toml > streams[1] feed > line",
        'meter "FT-1" reads m³ (line), so that the stream needs line',
    ),
    Case(
        "key-needed-by-role",
        line_without_analysis,
        "site.toml > streams[4] power > analysis",
        'a stream of role "CO2 vented" needs analysis',
        also=("undeclared-meter", "undeclared-meter", "bad-unit-for-role"),
    ),
    Case(
        "undeclared-meter",
        stream("feed", invoiced="BILL"),
        "site.toml > streams[1] feed > invoiced",
        '"BILL" is not declared',
    ),
    Case(
        "gas-volume-without-conditions",
        meter("FT-1", unit="m3"),
        "site.toml > meters[1] FT-1 > unit",
        'unit "m3" does not say at which temperature and pressure',
    ),
    Case(
        "rows-not-for-role",
        meter("LT-5", rows="monthly"),
        "site.toml > streams[5] tank > meter",
        'meter "LT-5" of role "ammonia stock" has rows = "monthly"',
        also=("date-outside-year",),
    ),
    Case(
        "meter-not-used",
        unused_meter,
        "site.toml > meters[7] FT-9",
        'no stream uses "FT-9"',
    ),
    Case(
        "span-turned-round",
        span,
        "site.toml > substitutes[1] FT-1 > first_day",
        "the days 2025-03-09 to 2025-03-04 cover none of the year",
    ),
    Case(
        "plan-not-valid-all-year",
        lambda folder: folder.site["works"]["plan"].update(valid_from=date(2025, 7, 1)),
        "site.toml > works > plan > valid_from",
        "the plan is valid from 2025-07-01 until further notice, the return is for 2025",
    ),
    Case(
        "unclear-uncertainty",
        meter("FT-1", uncertainty="1.5 %"),
        "site.toml > meters[1] FT-1 > uncertainty",
        '"1.5 %" does not say how wide it covers',
    ),
    Case(
        "unclear-uncertainty",
        meter("FT-1", uncertainty="2 t (k=2)"),
        "site.toml > meters[1] FT-1 > uncertainty",
        '"2 t (k=2)" is in another unit than the readings, Nm³ (0 °C, 101.325 kPa)',
    ),
    Case(
        "unknown-unit",
        meter("FT-1", unit="Nm4"),
        "site.toml > meters[1] FT-1 > unit",
        'unit "Nm4" is not known',
    ),
    Case(
        "unknown-component",
        lambda folder: folder.site["analyses"][0].update(components={"CH4": "methan"}),
        "site.toml > analyses[1] natural gas > components > CH4",
        '"methan" is no known component',
    ),
    Case(
        "left-to-fill-in",
        lambda folder: folder.site["works"].update(operator="to be filled in"),
        "site.toml > works > operator",
        '"operator" is still "to be filled in"',
    ),
]
