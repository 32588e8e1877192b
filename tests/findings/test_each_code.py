from __future__ import annotations

import importlib
import pkgutil
from dataclasses import dataclass

import pytest

import footprint.read
from footprint.base.finding import CODES, Code, Finding
from tests.findings.case import Case
from tests.findings.cases_analyses import ANALYSIS_CASES
from tests.findings.cases_cells import CELL_CASES
from tests.findings.cases_counted import COUNTED_CASES
from tests.findings.cases_entries import ENTRY_CASES
from tests.findings.cases_files import FILE_CASES
from tests.findings.cases_formats import FORMAT_CASES, FORMAT_CODES
from tests.findings.cases_formulas import FORMULA_CODES
from tests.findings.cases_shapes import SHAPE_CASES
from tests.findings.cases_site_file import SITE_CASES
from tests.findings.cases_tables import TABLE_CASES
from tests.findings.cases_text_files import TEXT_CASES
from tests.findings.cases_uncertainty import UNCERTAINTY_CASES
from tests.findings.site_folder import good_site

CASES = [
    *COUNTED_CASES,
    *FORMAT_CASES,
    *CELL_CASES,
    *TABLE_CASES,
    *SHAPE_CASES,
    *SITE_CASES,
    *FILE_CASES,
    *TEXT_CASES,
    *ANALYSIS_CASES,
    *ENTRY_CASES,
    *UNCERTAINTY_CASES,
]
WORDS_OF_MACHINES = ("Traceback", "Error", "None", "NaN", "pydantic", "Input should", "float(")


def codes_of_reading() -> set[str]:
    """Return the codes that the modules of reading declare."""
    names = [one.name for one in pkgutil.iter_modules(footprint.read.__path__)]
    modules = [importlib.import_module(f"footprint.read.{name}") for name in names]
    return {
        value.code
        for module in modules
        for value in vars(module).values()
        if isinstance(value, Code)
    }


@dataclass(frozen=True)
class Told:
    """A case and all that was found in its folder."""

    case: Case
    findings: list[Finding]


@pytest.fixture(scope="module", params=CASES, ids=lambda case: case.name)
def told(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Told:
    """Return what is found in a site with one fault."""
    case: Case = request.param
    folder = good_site(tmp_path_factory.mktemp("site"))
    case.change(folder)
    return Told(case, folder.read()[1])


def test_fault_is_told_once_with_its_place(told: Told) -> None:
    """One fault leads to the finding of its kind, at its place, and to nothing unrelated."""
    case = told.case

    found = [one for one in told.findings if one.code == case.code]

    assert found, [one.in_words() for one in told.findings]
    assert found[0].where.words == case.where
    assert found[0].what == case.what
    assert sorted(one.code for one in told.findings) == sorted((case.code, *case.also))


def test_finding_speaks_to_the_user(told: Told) -> None:
    """Every finding says what, why and how to mend it, a line each, in no words of machines."""
    texts = [text for one in told.findings for text in (one.what, one.why, one.mend)]

    assert all(texts)
    assert not any("\n" in text for text in texts)
    assert not any(one.what.endswith(".") for one in told.findings)
    assert not any(word in text for word in WORDS_OF_MACHINES for text in texts)


def test_every_code_of_reading_is_provoked() -> None:
    """No kind of finding is declared that no faulty sheet leads to."""
    provoked = {case.code for case in CASES} | set(FORMULA_CODES) | set(FORMAT_CODES)

    declared = codes_of_reading()

    assert declared == provoked | {"no-site-file"}


def test_codes_explain_themselves() -> None:
    """Every kind of finding has words for what it means, what it does, its mend and an example."""
    declared = [CODES[code] for code in codes_of_reading()]

    for code in declared:
        assert code.means.endswith(".")
        assert code.effect
        assert code.mend
        assert code.example
