"""Carbon and energy accounts of ammonia works: monthly spreadsheets in, a workbook to audit out."""

from footprint.run import Result, run

__all__ = ["Result", "run"]
