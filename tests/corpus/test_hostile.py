from __future__ import annotations

import json
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.corpus.every import ITEMS
from tests.corpus.hostile import HOSTILE, Hostile

ROOT = Path(__file__).resolve().parents[2]
SECONDS = 2.0
MIB = 200.0
LEAST_NUMBER_OF_FILES = 120


@dataclass(frozen=True)
class Taken:
    """What reading a hostile file led to, and what it took."""

    codes: list[str] | None  # None where the process did not end by itself
    seconds: float
    mib: float


@pytest.fixture(scope="module")
def taken(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Taken]:
    """Return what each hostile file took, each in a process that only it can harm."""
    parent = tmp_path_factory.mktemp("hostile")
    folders = [parent / str(number) for number in range(len(HOSTILE))]
    for one, folder in zip(HOSTILE, folders, strict=True):
        one.write(folder)
    done = subprocess.run(
        [sys.executable, "-m", "tests.corpus.limited"],
        input="\n".join(map(str, folders)),
        check=True,
        capture_output=True,
        text=True,
        cwd=ROOT,
    )
    answers = [Taken(**json.loads(line)) for line in done.stdout.splitlines()]
    return dict(zip([one.name for one in HOSTILE], answers, strict=True))


@pytest.mark.parametrize("one", HOSTILE, ids=lambda one: one.name)
def test_hostile_file_is_refused_in_words(one: Hostile, taken: dict[str, Taken]) -> None:
    """A hostile file ends in one finding that says what it is."""
    assert taken[one.name].codes == [one.code]


@pytest.mark.parametrize("one", HOSTILE, ids=lambda one: one.name)
def test_hostile_file_holds_nobody_up(one: Hostile, taken: dict[str, Taken]) -> None:
    """A hostile file costs under 2 s of the processor and 200 MiB: a limit, no benchmark."""
    assert taken[one.name].seconds < SECONDS
    assert taken[one.name].mib < MIB


def test_corpus_is_large_enough() -> None:
    """The corpus holds at least 120 files, each of its own kind."""
    names = {one.name for one in [*ITEMS, *HOSTILE]}

    assert len(names) == len(ITEMS) + len(HOSTILE)
    assert len(names) >= LEAST_NUMBER_OF_FILES
