"""What a column of readings is: which stream, in which unit, amounts or a counter that grows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from statistics import median

from footprint.base.finding import Finding
from footprint.base.units import unit
from footprint.read.fault import Refusal, short
from footprint.read.headings import locate, name_without_unit
from footprint.read.number_words import AMBIGUOUS_DECIMAL_MARK, numbers_in
from footprint.read.roles import unit_for
from footprint.read.site import Role
from footprint.read.unit_words import UNIT_IS_A_RATE, unit_named
from footprint.start.tables import Heading, Table
from footprint.start.trade_words import beside_of, is_cumulative, spoken_by, tag_in

FEWEST_STEPS = 6
_GROWS = 0.9  # share of the steps that must go up for a counter


@dataclass
class Guess:
    """A column of readings as the draft describes it.

    Attributes:
        tables: that hold it, in order; more than one where it goes on in other sheets. [tables]
        heading: in the first of them. [heading]
        tag: found in the sheet, or made from the heading. [text]
        column: name in the heading, as the site file needs it. [text]
        roles: that it may have; one is as good as certain. [text]
        because: what the role rests on. [text]
        burner: of a fuel, where its words name one. [text]
        beside: temperature, pressure, purity or nitrogen, of a series that serves a meter. [text]
        keys: more keys of the meter, each with its reason. [keys]
        questions: what is in doubt, with the key that would settle it. [questions]
    """

    tables: tuple[Table, ...]
    heading: Heading
    tag: str = ""
    has_own_tag: bool = False
    column: str = ""
    roles: tuple[Role, ...] = ()
    because: str = ""
    burner: str = ""
    beside: str = ""
    keys: list[tuple[str, object, str]] = field(default_factory=list)
    questions: list[tuple[str, str]] = field(default_factory=list)

    @property
    def table(self) -> Table:
        """The first table."""
        return self.tables[0]

    @property
    def unit_text(self) -> str:
        """The unit that the row below the heading or the heading itself names."""
        return self.heading.unit_text or name_without_unit(self.heading.text)[1]

    @property
    def place(self) -> str:
        """The cell of the heading, with its text."""
        cell = self.table.place(self.table.header_row, self.heading.column)
        return f'{cell} "{short(self.heading.text)}"'


def guess_of(tables: Sequence[Table], heading: Heading, context: str) -> Guess:
    """Return what a column of readings is thought to be.

    Args:
        tables: that hold it. [tables]
        heading: in the first of them. [heading]
        context: names of sheet and file, for headings that say nothing. [text]

    Source: common practice, no source
    """
    guess = Guess(tuple(tables), heading)
    guess.column = name_without_unit(heading.text)[0]
    _name_of_meter(guess)
    _place(guess)
    guess.beside = beside_of(heading.text)
    if not guess.beside:
        _role(guess, context)
    _unit(guess)
    _counting(guess)
    _marks(guess)
    return guess


def _name_of_meter(guess: Guess) -> None:
    """Take the tag from the heading, or from the cells above and below it."""
    table, column = guess.table, guess.heading.column
    rows = [table.header_row, table.header_row - 1, table.header_row - 2, table.header_row + 1]
    cells = [cell for row in rows if (cell := table.sheet.at(row, column)) and cell.kind == "text"]
    found = next(((tag, cell) for cell in cells if (tag := tag_in(str(cell.value)))), None)
    guess.tag = found[0] if found else guess.column
    guess.has_own_tag = found is not None


def _place(guess: Guess) -> None:
    """Ask where the reader of the site file would not find the column by its heading."""
    table = guess.table
    found = locate(table.sheet, table.date_heading, guess.column) if table.date_heading else None
    if isinstance(found, Finding):
        guess.questions.append(("column", f"{found.what}; {found.mend}"))


def _role(guess: Guess, context: str) -> None:
    """Take the role from the heading, else from heading, sheet and file together."""
    spoken = spoken_by(guess.heading.text)
    wider = spoken_by(f"{guess.heading.text} {context}")
    guess.because = f"the words of {guess.place}"
    if len(spoken.roles) != 1 and len(wider.roles) == 1:
        spoken = wider
        guess.because = f'the words of {guess.place} in "{context}"'
    guess.roles = spoken.roles
    guess.burner = spoken.burner or (wider.burner if guess.roles == ("fuel",) else "")


def _unit(guess: Guess) -> None:
    """Ask where nothing names the unit, or where what does leaves it open."""
    text = guess.unit_text
    if not text:
        if guess.roles not in (("starts",), ("trips",)):
            guess.questions.append(
                ("unit", f"neither {guess.place} nor a row below names the unit")
            )
        return
    found = unit_named(text)
    if isinstance(found, Refusal) and found.code is UNIT_IS_A_RATE:
        asked = f'"{text}" is per time: is each reading the mean of its period?'
        guess.questions.append(("counts = rate", asked))
    elif isinstance(found, Refusal):
        guess.questions.append(("unit", f"{found.what}: {found.why or found.code.effect}"))
    elif len(guess.roles) == 1:
        fitting = unit_for(guess.roles[0], unit(found))
        if isinstance(fitting, Refusal):
            guess.questions.append(("role", fitting.what))
            guess.roles = (*guess.roles, *guess.roles)  # as doubtful as two


def _values(guess: Guess) -> list[float]:
    """Return the numbers of the column from top to bottom; texts under the mark they allow."""
    cells = [
        cell
        for table in guess.tables
        for one in table.headings
        if one.text == guess.heading.text
        for cell in one.cells
    ]
    texts = iter(numbers_in([str(cell.value) for cell in cells if cell.kind == "text"]))
    read = [next(texts) if cell.kind == "text" else cell.value for cell in cells]
    return [one for one in read if isinstance(one, float)]


def _counting(guess: Guess) -> None:
    """Tell a counter that only grows from amounts, by its words and by its numbers."""
    if any(key == "counts = rate" for key, _ in guess.questions):
        return
    values = _values(guess)
    steps = [later - earlier for earlier, later in pairwise(values)]
    ups = [step for step in steps if step > 0]
    grows = sum(step >= 0 for step in steps)
    is_growing = (
        len(steps) >= FEWEST_STEPS
        and grows >= _GROWS * len(steps)
        and bool(ups)
        and max(values) > FEWEST_STEPS * median(ups)
    )
    says_so = is_cumulative(guess.heading.text)
    span = guess.table.span(guess.heading.column)
    if is_growing and says_so:
        reason = f"the heading says so, and {grows} of {len(steps)} steps in {span} go up"
        guess.keys.append(("counts", "index", reason))
        _falls(guess, values, steps)
    elif is_growing:
        asked = f"{span} only grows: is it a counter, whose differences are the amounts?"
        guess.questions.append(("counts = index", asked))
    elif says_so:
        asked = f"{guess.place} sounds like a counter, but {span} does not only grow: is it one?"
        guess.questions.append(("counts = index", asked))


def _falls(guess: Guess, values: Sequence[float], steps: Sequence[float]) -> None:
    """Ask what happened where a counter goes back: it rolled over, or the meter was exchanged."""
    at = next((place for place, step in enumerate(steps) if step < 0), None)
    if at is None:
        return
    before, after = values[at], values[at + 1]
    rolls_over_at = 10 ** len(f"{before:.0f}")
    asked = (
        f"the counter goes back from {before:.10g} to {after:.10g}: did it roll over, at "
        f"{rolls_over_at}, or was the meter exchanged on that day?"
    )
    guess.questions.append((f"index rolls over at {rolls_over_at}", asked))


def _marks(guess: Guess) -> None:
    """Ask for the decimal mark where the texts of the column leave it open."""
    texts = [str(cell.value) for cell in guess.heading.cells if cell.kind == "text"]
    found = (one for one in numbers_in(texts) if isinstance(one, Refusal))
    first = next((one for one in found if one.code is AMBIGUOUS_DECIMAL_MARK), None)
    if first:
        guess.questions.append(("decimal_mark", first.what))
