"""Shared vocabulary of all stages: rows, axes, operations, units, sources, findings."""
