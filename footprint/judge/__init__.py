"""All figures in, findings and verdicts out: can it be trusted?"""

from footprint.judge.accepted import accept
from footprint.judge.check import OUTCOMES, Check
from footprint.judge.figures import limits_of_closure
from footprint.judge.judgement import Judgement, judge

__all__ = ["OUTCOMES", "Check", "Judgement", "accept", "judge", "limits_of_closure"]
