"""What can be wrong with the rows of a table and their dates."""

from __future__ import annotations

from footprint.base.finding import declare

REPEATED_DATE = declare(
    "repeated-date",
    "stop",
    means="A date stands in more than one row.",
    effect="nothing tells which reading of the day counts, so that none is used",
    mend="keep one row a date; add up rows that each hold a part of the day",
    example="2025-03-04 in A66 and A67; mended: 2025-03-05 in A67",
)
DATE_OUTSIDE_YEAR = declare(
    "date-outside-year",
    "warn",
    means="Rows above or below the others have dates before or after the year of the return.",
    effect="they are set aside and count in no month",
    mend="nothing, if the rows belong to another return; else mend the dates",
    example="2024-12-31 in the first row of a sheet for 2025",
)
IMPLAUSIBLE_DATE = declare(
    "implausible-date",
    "stop",
    means="A date outside the year of the return stands between dates of the "
    "year, or is years away.",
    effect="most likely a slip of the pen; the reading of its row counts in no month",
    mend="write the date of the reading into the cell",
    example="2052-03-04 between 2025-03-03 and 2025-03-05; mended: 2025-03-04",
)
ROW_WITHOUT_DATE = declare(
    "row-without-date",
    "stop",
    means="A row holds readings but no date.",
    effect="the readings belong to no day and are not used",
    mend="write the date, or remove the row; write Total in front of a row of totals",
    example="an empty A67 beside readings; mended: 2025-03-04 in A67",
)
TOTAL_WITHOUT_LABEL = declare(
    "total-without-label",
    "note",
    means="A row without date holds the sums of its columns.",
    effect="it was taken for a row of totals and set aside",
    mend="write Total in front of it",
    example="a last row of sums without a word in front; mended: Total in its first cell",
)
