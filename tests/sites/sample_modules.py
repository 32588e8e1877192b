"""The invented works of the sample, loaded from its files because it is no installed package."""

from __future__ import annotations

import importlib
import importlib.util
import sys
from pathlib import Path
from types import ModuleType

ROOT = Path(__file__).resolve().parents[2]
SAMPLE = ROOT / "sample_inputs"
TRUTH = ROOT / "tests" / "sites" / "brackwater_truth.json"


def load(name: str, path: Path) -> ModuleType:
    """Return a module loaded from a file, the same one on every call.

    Args:
        name: under which it is known. [text]
        path: of the file; the __init__ of a package. [path]

    Source: definition
    """
    if name in sys.modules:
        return sys.modules[name]
    inner = [str(path.parent)] if path.stem == "__init__" else None
    spec = importlib.util.spec_from_file_location(name, path, submodule_search_locations=inner)
    if spec is None or spec.loader is None:
        raise ImportError(f"{path} cannot be loaded")
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    return module


def brackwater(module: str) -> ModuleType:
    """Return a module of the model of the works.

    Args:
        module: its name inside the package. [text]

    Source: definition
    """
    load("brackwater", SAMPLE / "brackwater" / "__init__.py")
    return importlib.import_module(f"brackwater.{module}")


def make_sample() -> ModuleType:
    """Return the script that writes the sample.

    Source: definition
    """
    load("brackwater", SAMPLE / "brackwater" / "__init__.py")
    return load("make_sample", SAMPLE / "make_sample.py")
