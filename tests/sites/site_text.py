"""A site file written from the tables that it holds."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any


def site_text(tables: Mapping[str, Any]) -> str:
    """Return the text of a site file.

    Args:
        tables: as a reader of the file gives them. [tables]

    Source: TOML 1.0.0
    """
    parts: list[str] = []
    for name, content in tables.items():
        if isinstance(content, Mapping):
            parts.append(f"[{name}]\n{_keys(content)}")
        else:
            parts += [f"[[{name}]]\n{_keys(entry)}" for entry in content]
    return "\n".join(parts)


def _keys(table: Mapping[str, Any]) -> str:
    """Return the lines of one table."""
    return "".join(f"{_key(key)} = {_value(value)}\n" for key, value in table.items())


def _key(key: str) -> str:
    """Return a key, in quotes where it holds more than letters, digits, - and _."""
    is_bare = key.replace("_", "").replace("-", "").isalnum() and key.isascii()
    return key if is_bare else json.dumps(key)


def _value(value: object) -> str:
    """Return a value as the file writes it."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{_key(k)} = {_value(v)}" for k, v in value.items()) + " }"
    if isinstance(value, Sequence) and not isinstance(value, str):
        return "[" + ", ".join(map(_value, value)) + "]"
    return json.dumps(value, ensure_ascii=False) if isinstance(value, str) else repr(value)
