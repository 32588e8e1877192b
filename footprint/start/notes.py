"""Lines of a draft: keys that are as good as certain, questions that are only remarks."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable

from footprint.start.site_words import line_text

_WIDTH = 98
_NO_SIGN = re.compile(r"[\x00-\x1f\x7f]")  # TOML 1.0.0 allows none of them in a remark
QUESTION = "QUESTION"


def tidy(text: str) -> str:
    """Return a text on one line, without signs that a remark may not hold.

    Args:
        text: of the user or ours. [text]

    Source: TOML 1.0.0
    """
    return " ".join(_NO_SIGN.sub(" ", text).split())


def remark(text: str) -> str:
    """Return a remark of as many lines as it needs.

    Args:
        text: for people. [text]

    Source: TOML 1.0.0
    """
    lines = textwrap.wrap(tidy(text), _WIDTH, break_long_words=False, break_on_hyphens=False)
    return "".join(f"# {line}\n" for line in lines)


def question(asked: str, key: str = "", value: object = None) -> str:
    """Return a question, with the key that would settle it as a remark to be uncommented.

    Args:
        asked: what is in doubt. [text]
        key: of the site file; none where no single key settles it. [text]
        value: to begin with. [value]

    Source: definition
    """
    lines = remark(f"{QUESTION}: {asked}")
    return lines + (commented(line_text(key, value)) if key else "")


def commented(text: str) -> str:
    """Return lines of the site file as remarks, which nothing reads.

    Args:
        text: lines. [text]

    Source: TOML 1.0.0
    """
    return "".join(
        line if line.startswith("#") or not line.strip() else f"# {line}"
        for line in text.splitlines(keepends=True)
    )


def known(key: str, value: object, reason: str = "") -> str:
    """Return a key that is as good as certain, with its reason behind it.

    Args:
        key: of the site file. [text]
        value: of the key. [value]
        reason: what it rests on. [text]

    Source: definition
    """
    return line_text(key, value, tidy(reason))


def heading(text: str) -> str:
    """Return the line that parts two sections.

    Args:
        text: what follows. [text]

    Source: definition
    """
    return f"\n# {'-' * 66} {tidy(text)}\n"


def listed(texts: Iterable[str], word: str = "or") -> str:
    """Return texts in quotes, the last one behind a word.

    Args:
        texts: any number. [text]
        word: before the last. [text]

    Source: definition
    """
    quoted = [f'"{text}"' for text in dict.fromkeys(texts)]
    return f" {word} ".join([", ".join(quoted[:-1]), quoted[-1]]) if quoted[1:] else "".join(quoted)
