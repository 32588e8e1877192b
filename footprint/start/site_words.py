"""The site file of a new folder, in words that need no programmer."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from footprint.read.left_to_fill import FILL_IN, NO_COUNTRY
from footprint.start.flows import FLOWS, Flow
from footprint.start.plan import FORMS, Column, Form

_HEAD = """\
# The site file of {name}.
#
# It tells which meters the works has, in which sheet and column their readings stand, and what
# flows through each of them. Any text editor can change it; save it as plain text (UTF-8).
#
# How it is written:
#   - what stands behind a # is a remark for people and is not read;
#   - words stand in quotes, numbers and days do not:  "Feed gas"   1150.0   {year}-03-14
#   - [[meters]] begins one more meter, [[analyses]] one more analysed gas, [[streams]] one more
#     stream; the lines below it belong to it until the next one begins.
#
# What to do:
#   1. Look for CHANGE and CHECK below and put your own words and numbers there.
#   2. Your works does not have one of the streams? Remove its [[streams]] lines, and the
#      [[meters]] lines of its meter; its column in the spreadsheet may stay empty then.
#   3. Fill in the spreadsheets in this folder:
#      {files}.
#   4. Run:  footprint check FOLDER   (it says what is missing, cell by cell)
#      then: footprint report FOLDER  (it writes the workbook)

# ------------------------------------------------------------------ the works and the return

[works]
name = {quoted_name}
operator = "{fill_in}"      # CHANGE: the company that answers for the return
country = "{no_country}"                    # CHANGE: two letters of your country, such as "IE"
year = {year}                       # the year of the return, January to December
bases = ["IPCC 2006"]             # CHECK: also "EU 2018/2066", "UK 2018/2066", "40 CFR Part 98"
gwp_set = "AR5"                   # CHECK: warming potentials your programme asks for: AR4, AR5, AR6
record = "fence meter"            # the gas bought counts; "sub-meters" if the meters inside do

[works.plan]                      # the monitoring plan that this file puts in short
version = "{fill_in}"       # CHANGE: as on its first page
approved = {year}-01-01             # CHANGE: the day of its approval
valid_from = {year}-01-01           # CHANGE: the first day that it is valid

[[units]]
name = "Ammonia"
process = "steam reforming"
nameplate_t_per_day = 1000.0      # CHANGE: tonnes of ammonia a day that the unit is built for
"""
_METERS = """
# ------------------------------------------------------------------ meters
# tag           a name for the meter, used further below; write the works' own if you like
# file, sheet   where its readings stand
# column        the heading of its column
# Without "rows", the sheet has one row a day. "monthly": one row a month. "stock": the content of
# a tank on the first day of each month and of the next year.
# You may add to each meter, from its certificate or data sheet:
#   uncertainty = "1.5 % (k=2)"      how wrong all its readings may be together
#   repeatability = "0.3 % (k=2)"    how much one reading differs from the next by chance
#   calibrated = {year}-03-14
#   calibration_due = {next_year}-03-14
# Other ways of writing an uncertainty: "0.5 °C (limits)", "class 0.5S", "2 t (k=2)",
#   "1.5 % (95 %)", "0.5 % of full scale (limits)" with range = {{ lowest = 0.0, highest = 900.0 }}.
#   A plain "1.5 %" is refused: it does not say how wide it covers. Where nothing is stated, wide
#   limits are taken.
# What several meters share, such as a flow computer, has an entry of its own:
#   [[devices]]
#   tag = "FC-110"
#   uncertainty = "0.3 % (k=2)"
# and each of its meters says  devices = ["FC-110"].
"""
_ANALYSES = """
# ------------------------------------------------------------------ gas analyses
# One sheet a gas, one row a sample. moisture = "dry": the shares are those of the gas without its
# water.
# represents: a sample holds "until the next sample" or "since the last sample".      CHECK
# You may add: uncertainty = "0.3 % (k=2)", the same in all samples, and sampling = "0.2 % (k=2)",
#   drawn anew in each; by component as well: {{ "CH4" = "0.1 % (k=2)", others = "1 % (k=2)" }}.
"""
_STREAMS = """
# ------------------------------------------------------------------ streams
# What flows. role is a word of the trade that tells what the stream counts as; meter is the tag of
# the meter that counts it; analysis is the gas that it consists of.
# Other roles, for more streams: "gas to third parties", "hydrogen bought", "hydrogen sold",
#   "start-up vent", "CO2 bought", "CO2 to storage", "CO2 recovered from stack",
#   "liquid CO2 stock", "CO2 liquefaction loss", "ammonia bought", "ammonia losses",
#   "power sold", "steam bought".
"""
_STEAM = """
[streams.steam]                   # state of the steam, and of the feedwater that it is made from
pressure_bar_abs = 26.0           # CHANGE, and the three below
temperature_c = 350.0
feedwater_pressure_bar_abs = 5.0
feedwater_temperature_c = 105.0
author = "{fill_in}"        # CHANGE: who answers for these four numbers
why = "{fill_in}"           # CHANGE: where they come from
when = {year}-01-01
"""
_FOOT = """
# ------------------------------------------------------------------ readings that are missing
# An empty cell is never taken for zero. Where a reading is lost for good, somebody has to answer
# for the number that stands in for it. Remove the # and write your own:
#
# [[substitutes]]
# meter = "feed gas"
# first_day = {year}-03-04
# last_day = {year}-03-06
# value = 720000.0                # of each day, in the unit of the column
# author = "your name, your post"
# why = "how you came to the number"
# when = {year}-04-02
"""


def site_text(name: str, year: int) -> str:
    """Return the site file that belongs to the sheets ready to fill in.

    Args:
        name: of the works. [text]
        year: of the return. [year]

    Source: definition
    """
    files = ", ".join(dict.fromkeys(form.file for form in FORMS))
    words = {
        "name": " ".join(name.split()),
        "quoted_name": value_text(name),
        "year": year,
        "next_year": year + 1,
        "files": files,
        "fill_in": FILL_IN,
        "no_country": NO_COUNTRY,
    }
    parts = [_HEAD, _METERS, "{meters}", _ANALYSES, "{analyses}", _STREAMS, "{streams}", _FOOT]
    meters = [_meter(form, column) for form in FORMS if not form.gas for column in form.columns]
    blocks = {
        "{meters}": "".join(meters),
        "{analyses}": "".join(_analysis(form) for form in FORMS if form.gas),
        "{streams}": "".join(_stream(flow, words) for flow in FLOWS),
    }
    return "".join(blocks[part] if part in blocks else part.format(**words) for part in parts)


def value_text(value: object) -> str:
    """Return a value as TOML writes it.

    Args:
        value: text, number, truth, list or table. [value]

    Source: TOML 1.0.0
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Mapping):
        inner = ", ".join(f"{key_text(key)} = {value_text(one)}" for key, one in value.items())
        return f"{{ {inner} }}"
    if isinstance(value, list | tuple):
        return "[" + ", ".join(map(value_text, value)) + "]"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    return str(value)


def key_text(key: str) -> str:
    """Return a key as TOML writes it, in quotes where it needs them.

    Args:
        key: as meant. [text]

    Source: TOML 1.0.0
    """
    is_bare = key.isascii() and key.replace("_", "").replace("-", "").isalnum()
    return key if is_bare else value_text(key)


def line_text(key: str, value: object, remark: str = "") -> str:
    """Return a line of the site file, its remark behind it in a column of its own.

    Args:
        key: as meant. [text]
        value: of the key. [value]
        remark: for people; no line break. [text]

    Source: TOML 1.0.0
    """
    line = f"{key_text(key)} = {value_text(value)}"
    return f"{line:<33} # {remark}\n" if remark else f"{line}\n"


def _meter(form: Form, column: Column) -> str:
    """Return the lines of one meter."""
    keys: dict[str, Any] = {"tag": column.tag, "file": form.file, "sheet": form.sheet}
    if form.rows != "daily":
        keys["rows"] = form.rows
    if form.date_heading != "Date":
        keys["date_column"] = form.date_heading
    keys["column"] = column.heading
    return "\n[[meters]]\n" + "".join(line_text(key, value) for key, value in keys.items())


def _analysis(form: Form) -> str:
    """Return the lines of one analysed gas."""
    keys = {
        "gas": form.gas,
        "file": form.file,
        "sheet": form.sheet,
        "unit": "mol-%",
        "moisture": "dry",
        "represents": "until the next sample",
    }
    return "\n[[analyses]]\n" + "".join(line_text(key, value) for key, value in keys.items())


def _stream(flow: Flow, words: Mapping[str, Any]) -> str:
    """Return the lines of one stream."""
    plain = (("name", flow.name, ""), ("role", flow.role, ""), ("meter", flow.meter, ""))
    lines = "".join(line_text(*one) for one in (*plain, *flow.keys))
    steam = _STEAM.format(**words) if flow.role == "steam exported" else ""
    return f"\n[[streams]]\n{lines}{steam}"
