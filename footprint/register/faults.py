"""What can be wrong with a factor file; each fault has a name that `explain` knows."""

from __future__ import annotations

from footprint.base.finding import declare
from footprint.base.source import EVIDENCE

_LEFT_OUT = "the line is left out, so every figure that needs it cannot be given"

FOLDER_EMPTY = declare(
    "factor-folder-empty",
    "stop",
    means="The folder of factor files does not exist or holds no .csv file.",
    effect="no factor is known, so no figure can be given",
    mend="install the tool again, or name the folder that holds the factor files",
    example="factors/ without gas_components.csv and its neighbours",
)
FILE_UNREADABLE = declare(
    "factor-file-unreadable",
    "stop",
    means="A factor file is not text in UTF-8.",
    effect="none of its lines is used, so every figure that needs one cannot be given",
    mend='save the file again as "CSV UTF-8 (comma delimited)"',
    example="a degree sign saved by an old spreadsheet program",
)
HEADING_WRONG = declare(
    "factor-heading-wrong",
    "stop",
    means="The first line of a factor file does not name the fifteen columns in their order.",
    effect="none of its lines is used, because a value could be taken for another",
    mend="copy the first line from one of the delivered factor files",
    example="quantity,value,unit instead of quantity,unit,value",
)
LINE_MISSHAPEN = declare(
    "factor-line-misshapen",
    "stop",
    means="A line of a factor file has more or fewer cells than there are columns.",
    effect=_LEFT_OUT,
    mend='write fifteen cells; put a text with a comma in double quotes: "2,2-dimethylbutane"',
    example="a decimal comma: 16,04246 makes two cells of one",
)
NAME_UNUSABLE = declare(
    "factor-name-unusable",
    "stop",
    means="The quantity or the jurisdiction of a factor is blank, or holds a slash.",
    effect="the value could not be looked up, or its id in the workbook could be misread",
    mend='write the quantity in plain words without "/", and a jurisdiction ("any" for physics)',
    example='"gas/diesel oil" becomes "gas or diesel oil"',
)
UNIT_UNKNOWN = declare(
    "factor-unit-unknown",
    "stop",
    means="The unit of a factor is not one of the units of the house.",
    effect="a value without a known unit cannot be multiplied safely; the line is left out",
    mend='write a unit such as kg/kmol, kg_CO2/TJ_net or t_CO2/t_NH3, and "1" for a plain number',
    example="kgCO2/TJ becomes kg_CO2/TJ_net",
)
NOT_A_NUMBER = declare(
    "factor-not-a-number",
    "stop",
    means="A value of a factor file is not written as a plain number with a decimal point.",
    effect=_LEFT_OUT,
    mend="write digits with a decimal point, such as 0.0445; leave low and high blank if unknown",
    example="16.04 kg, 5 %, or a blank value",
)
OUTSIDE_RANGE = declare(
    "factor-outside-its-range",
    "stop",
    means="A value lies below its own low end or above its own high end.",
    effect="one of the three figures is mistyped, and nobody can say which; the line is left out",
    mend="compare value, low and high with the document",
    example="value 56100, low 54300, high 5830",
)
OUTSIDE_ALLOWED = declare(
    "factor-outside-allowed",
    "stop",
    means="A value is impossible for what it measures: a molar mass of 0, a share of 1.2.",
    effect="it would turn every figure that uses it into nonsense; the line is left out",
    mend="compare the value with the document",
    example="molar mass of methane = -16.04246",
)
DAY_IMPOSSIBLE = declare(
    "factor-day-impossible",
    "stop",
    means="A day in a factor file is not a day of the calendar written as 2025-01-31.",
    effect="nobody can say when the value applies; the line is left out",
    mend="write year-month-day with four, two and two digits; leave it blank for an open end",
    example="2025-02-30, or 31.01.2025",
)
DAYS_REVERSED = declare(
    "factor-days-reversed",
    "stop",
    means="The last day of a factor is before its first day.",
    effect="the value applies on no day at all; the line is left out",
    mend="swap or correct first_day and last_day",
    example="first_day 2025-01-01, last_day 2024-12-31",
)
WITHOUT_SOURCE = declare(
    "factor-without-source",
    "stop",
    means="A factor names no document, or not how well it was checked.",
    effect="an auditor could not follow the figure to its source; the line is left out",
    mend=f"fill in document, and evidence with one of: {', '.join(EVIDENCE)}",
    example="document blank; evidence blank",
)
REPEATED = declare(
    "factor-repeated",
    "stop",
    means="The same quantity, jurisdiction and days stand on two lines.",
    effect="nobody can say which of the two applies; both are left out",
    mend="delete one of the two lines",
    example="GWP100 of CH4, AR5 entered twice",
)
SPANS_OVERLAP = declare(
    "factor-spans-overlap",
    "stop",
    means="Two editions of a factor apply on the same day.",
    effect="nobody can say which of the two applies; both are left out",
    mend="end the earlier edition on the day before the later one begins",
    example="2.5 until 2024-12-31 and 2.1 from 2024-07-01",
)
SPAN_GAP = declare(
    "factor-span-gap",
    "stop",
    means="Between two editions of a factor lie days on which neither applies.",
    effect="the nearest edition is never borrowed, so figures of those days cannot be given",
    mend="enter the edition that applied on those days, or correct first_day or last_day",
    example="2.5 until 2024-06-30 and 2.1 from 2024-08-01",
)
UNITS_DIFFER = declare(
    "factor-units-differ",
    "stop",
    means="Two editions of a factor have units that measure different things.",
    effect="the same calculation would change its meaning from one day to the next",
    mend="give both editions the same unit, or give one of them another name",
    example="kg_CO2/TJ_net until 2024, kg_CO2/TJ_gross from 2025",
)
NONE_IN_FORCE = declare(
    "no-factor-in-force",
    "stop",
    means="The calculation asks for a factor that no line gives for that day and jurisdiction.",
    effect="the figure cannot be given; the nearest year is never borrowed",
    mend="add a line with its document to a factor file, or correct the name in the site file",
    example='GWP set "AR7" asked for in site.toml',
)
