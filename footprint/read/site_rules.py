"""What the rules of reporting ask for beyond meters and streams, as tables of the site file."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Text = Annotated[str, Field(min_length=1)]


class Declared(BaseModel):
    """A table of the site file; unknown keys are refused."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, allow_inf_nan=False)


class Excluded(Declared):
    """A source that a basis covers and that is left out on purpose."""

    source: Text
    reason: Text
    author: Text
    when: date


class Guidelines(Declared):
    """How the 2006 IPCC Guidelines are applied."""

    tier: Literal[1, 2, 3] = 3  # 3: feed and fuel as metered; 1 and 2 rest on defaults
    urea_by: Literal["urea made", "CO2 metered"] = "urea made"  # what is deducted for urea
