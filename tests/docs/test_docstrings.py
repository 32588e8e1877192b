"""Every public function says what it takes, in which unit, and where its rule stands."""

from __future__ import annotations

import ast
import importlib
import inspect
import pkgutil
import re
import textwrap
from collections.abc import Callable, Iterator
from typing import Any

import pytest

import footprint

LINES_OF_A_SMALL_PROPERTY = 5
ARGUMENT = re.compile(r"^    (\w+): (.*)")
UNIT = re.compile(r"\[[^\]]+\]")


def modules() -> list[str]:
    """Return the names of all modules of the package."""
    found = pkgutil.walk_packages(footprint.__path__, "footprint.")
    return ["footprint", *(one.name for one in found)]


def functions_of(module: Any) -> Iterator[tuple[str, Callable[..., Any]]]:
    """Return the public functions and methods that a module defines."""
    for name, value in vars(module).items():
        if name.startswith("_") or getattr(value, "__module__", "") != module.__name__:
            continue
        if inspect.isclass(value):
            yield from _methods_of(value)
        elif inspect.isfunction(inspect.unwrap(value)):
            yield name, inspect.unwrap(value)


def _methods_of(owner: type) -> Iterator[tuple[str, Callable[..., Any]]]:
    for name, value in vars(owner).items():
        inner = value.func if hasattr(value, "func") else value  # a cached property
        is_property = isinstance(value, property) or inner is not value
        inner = inner.fget if isinstance(inner, property) else inner
        inner = inner.__func__ if isinstance(inner, (classmethod, staticmethod)) else inner
        if name.startswith("_") or not inspect.isfunction(inner):
            continue
        if not (is_property and _lines_of(inner) <= LINES_OF_A_SMALL_PROPERTY):
            yield f"{owner.__name__}.{name}", inner


def _lines_of(function: Callable[..., Any]) -> int:
    """Return how many lines the body of a function has, its docstring left out."""
    tree = ast.parse(textwrap.dedent(inspect.getsource(function)))
    found = next(one for one in ast.walk(tree) if isinstance(one, ast.FunctionDef))
    body = found.body[1:] or found.body
    return (body[-1].end_lineno or 0) - body[0].lineno + 1


def arguments_in(text: str) -> dict[str, str]:
    """Return what a docstring says of each argument."""
    _, _, after = text.partition("\nArgs:\n")
    found: dict[str, str] = {}
    name = ""
    for line in after.splitlines():
        if line and not line.startswith(" "):
            break
        if match := ARGUMENT.match(line):
            name = match[1].lstrip("*")
            found[name] = match[2]
        elif name:
            found[name] += f" {line.strip()}"
    return found


def faults_of(function: Callable[..., Any]) -> list[str]:
    """Return what a docstring leaves out."""
    text = inspect.getdoc(function) or ""
    said = arguments_in(text)
    taken = [name for name in inspect.signature(function).parameters if name != "self"]
    faults = [f"{name} is not said" for name in taken if name not in said]
    faults += [f"{name} has no unit" for name in taken if not UNIT.search(said.get(name, "[x]"))]
    faults += [f"{name} is no argument" for name in said if name not in taken]
    return faults if re.search(r"^Source: \S", text, re.MULTILINE) else [*faults, "no source"]


@pytest.mark.parametrize("name", modules())
def test_public_functions_say_arguments_units_and_source(name: str) -> None:
    """Each argument has a line with its unit or kind in square brackets; the rule has a source."""
    module = importlib.import_module(name)

    found = {
        f"{name}.{words}": faults
        for words, function in functions_of(module)
        if (faults := faults_of(function))
    }

    assert found == {}


def test_the_walk_sees_functions_methods_and_faults() -> None:
    """The check itself finds what it looks for, so that it cannot pass by seeing nothing."""

    def wanting(volume: float, share: float) -> float:  # noqa: D417  the fault that must be seen
        """Return a product.

        Args:
            volume: of gas. [Nm3]
        """
        return volume * share

    seen = {words for name in modules() for words, _ in functions_of(importlib.import_module(name))}

    assert {"step", "Row.origin", "Context.reading", "main", "run", "Result.write"} <= seen
    assert len(seen) > 200
    assert faults_of(wanting) == ["share is not said", "no source"]
