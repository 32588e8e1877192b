"""Codes of formulas with a stored result, which need a workbook that another library wrote."""

FORMULA_CODES = ("reading-is-a-formula", "reading-from-another-file")
