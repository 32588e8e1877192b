"""Reconciliation of measured flows with balances, and detection of gross errors: pure mathematics.

`pose` a problem, `reconcile` it, then ask: `global_test`, `suspect`, `eliminate`, `detectable`.
"""

from footprint.balance.reconcile.bounds import Bounded, reconcile_bounded
from footprint.balance.reconcile.candidates import (
    Candidate,
    Suspicion,
    each_cause,
    each_leak,
    each_meter,
    suspect,
)
from footprint.balance.reconcile.checks import Checks
from footprint.balance.reconcile.classify import Classified, classify
from footprint.balance.reconcile.courses import (
    Course,
    CourseVerdict,
    courses,
    error_of,
    judge_courses,
    stack,
)
from footprint.balance.reconcile.elimination import (
    Elimination,
    Step,
    allowing_for,
    allowing_for_errors,
    eliminate,
)
from footprint.balance.reconcile.independent import Dropped
from footprint.balance.reconcile.likeness import cosines, equivalent_sets, rivals
from footprint.balance.reconcile.nonlinear import Equations, Iterated, reconcile_nonlinear
from footprint.balance.reconcile.power import detectable, global_power, power
from footprint.balance.reconcile.problem import Problem, factor_of, own_errors, pose
from footprint.balance.reconcile.products import Term, equations_of, split_adjustment
from footprint.balance.reconcile.significance import (
    GlobalTest,
    any_chance,
    criterion_2048,
    critical_z,
    each_level,
    global_test,
    measurement_test,
    nodal_test,
)
from footprint.balance.reconcile.solve import Reconciled, reconcile

__all__ = [
    "Bounded",
    "Candidate",
    "Checks",
    "Classified",
    "Course",
    "CourseVerdict",
    "Dropped",
    "Elimination",
    "Equations",
    "GlobalTest",
    "Iterated",
    "Problem",
    "Reconciled",
    "Step",
    "Suspicion",
    "Term",
    "allowing_for",
    "allowing_for_errors",
    "any_chance",
    "classify",
    "cosines",
    "courses",
    "criterion_2048",
    "critical_z",
    "detectable",
    "each_cause",
    "each_leak",
    "each_level",
    "each_meter",
    "eliminate",
    "equations_of",
    "equivalent_sets",
    "error_of",
    "factor_of",
    "global_power",
    "global_test",
    "judge_courses",
    "measurement_test",
    "nodal_test",
    "own_errors",
    "pose",
    "power",
    "reconcile",
    "reconcile_bounded",
    "reconcile_nonlinear",
    "rivals",
    "split_adjustment",
    "stack",
    "suspect",
]
