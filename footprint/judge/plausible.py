"""What is doubtful about the readings themselves, whatever the figures made of them say."""

from __future__ import annotations

from footprint.account import Account
from footprint.base.finding import Finding
from footprint.judge.carbon_effect import CarbonEffect
from footprint.judge.gap_notes import gaps_judged
from footprint.judge.laboratory import laboratory_judged
from footprint.judge.meters import meters_judged
from footprint.judge.unit_steps import unit_steps


def readings_judged(account: Account) -> list[Finding]:
    """Return what is doubtful about meters, samples and filled gaps.

    Args:
        account: the figures of the works. [account]

    Findings:
        the codes of `unit_steps`, `meters`, `laboratory` and `gap_notes`.

    Source: definition
    """
    effect = CarbonEffect(account)
    steps, tags = unit_steps(effect)
    return [
        *steps,
        *meters_judged(effect, skipped=tags),
        *laboratory_judged(account),
        *gaps_judged(effect),
    ]
