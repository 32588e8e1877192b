"""What README and DEVELOPERS promise exists."""

from __future__ import annotations

import doctest
import re
import shlex
from pathlib import Path

import pytest

import footprint
from footprint import cli
from tests.sites.sample_modules import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
COMMAND = re.compile(r"^    (?:.*&& )?footprint (.*)$", re.MULTILINE)
PACKAGE = ROOT / "footprint"


def commands_of_readme() -> list[list[str]]:
    """Return the words of every command line that README shows, options in brackets included."""
    lines = [re.split(r" {3,}", found)[0] for found in COMMAND.findall(README)]
    return [shlex.split(line.replace("[", "").replace("]", "")) for line in lines]


@pytest.mark.parametrize("words", commands_of_readme(), ids=" ".join)
def test_commands_of_readme_are_understood(words: list[str]) -> None:
    """The parser takes each command line of README as it stands, with all its options."""
    chosen = cli.parser().parse_args(words)

    assert chosen.command


def test_readme_shows_every_command() -> None:
    """No command exists that README leaves out, and none is shown that does not exist."""
    shown = {words[0] for words in commands_of_readme()}

    assert shown == set(cli.COMMANDS)


@pytest.mark.parametrize("name", cli.COMMANDS)
def test_help_of_a_command_says_what_it_does_with_an_example(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """--help ends well, says what the command is for, and shows a line to copy."""
    with pytest.raises(SystemExit) as ended:
        cli.main([name, "--help"])

    text = capsys.readouterr().out
    assert ended.value.code == 0
    assert cli.COMMANDS[name][0] in text
    assert f"  footprint {name} " in text


def test_help_lists_all_commands(capsys: pytest.CaptureFixture[str]) -> None:
    """The help of the whole shows every command with its purpose, and the exit statuses."""
    with pytest.raises(SystemExit):
        cli.main(["--help"])

    text = capsys.readouterr().out
    for name, (does, *_) in cli.COMMANDS.items():
        assert name in text
        assert does in text
    assert "exit status: 0 good" in text


@pytest.mark.parametrize("name", cli.COMMANDS)
def test_examples_of_help_are_understood(name: str) -> None:
    """The parser takes every example of the help texts."""
    lines = [line for line in cli.EXAMPLES.splitlines() if line.startswith(f"  footprint {name}")]

    assert lines
    for line in lines:
        assert cli.parser().parse_args(shlex.split(line)[1:]).command


def test_attributes_of_readme_exist() -> None:
    """What README reads from a result in Python, a result has."""
    named = re.findall(r"result\.(\w+)", README)

    assert len(named) >= 4
    for name in named:
        assert hasattr(footprint.Result, name)


def test_the_example_of_run_holds(monkeypatch: pytest.MonkeyPatch) -> None:
    """The example in the docstring of run gives what it says."""
    monkeypatch.chdir(ROOT)
    found = doctest.DocTestFinder().find(footprint.run, "run")

    results = [doctest.DocTestRunner().run(one) for one in found]

    assert sum(one.attempted for one in results) >= 4
    assert sum(one.failed for one in results) == 0


def test_parts_that_developers_read_of_are_the_packages() -> None:
    """The picture of the parts names every package and module of the top, and no other."""
    picture = DEVELOPERS.partition("## The parts")[2].partition("##")[0]
    named = set(re.findall(r"^    (\w+/|\w+\.py)\s", picture, re.MULTILINE))

    packages = {f"{one.parent.name}/" for one in PACKAGE.glob("*/__init__.py")}
    modules = {one.name for one in PACKAGE.glob("*.py")} - {"__init__.py"}

    assert named == packages | modules


def test_files_that_developers_read_of_exist() -> None:
    """Every path that DEVELOPERS and README put in code marks is there."""
    quoted = re.findall(r"`([\w./]+/[\w./]*|[\w/]+\.(?:py|md|toml))`", DEVELOPERS + README)

    missing = [name for name in quoted if not _is_somewhere(name)]

    assert len(quoted) > 10
    assert missing == []


def _is_somewhere(name: str) -> bool:
    return any((place / name).exists() for place in (ROOT, PACKAGE, Path(ROOT, "sample_inputs")))
