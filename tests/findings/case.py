"""One fault in a site that is good otherwise, and the finding it must lead to."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from tests.findings.site_folder import SiteFolder


def all_of(*changes: Callable[[SiteFolder], None]) -> Callable[[SiteFolder], None]:
    """Return a change that makes several changes."""

    def change(folder: SiteFolder) -> None:
        for one in changes:
            one(folder)

    return change


@dataclass(frozen=True)
class Case:
    """A fault and what the user must be told.

    Attributes:
        code: of the finding. [text]
        change: makes the fault. [function]
        where: the place in words. [text]
        what: the fault in words. [text]
        also: codes of findings that follow from the same fault. [text]
    """

    code: str
    change: Callable[[SiteFolder], None]
    where: str
    what: str
    also: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """Code and what, for the list of tests."""
        return f"{self.code}: {self.what}"
