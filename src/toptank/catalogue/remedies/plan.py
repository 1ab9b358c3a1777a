"""A plan: which remedies are done together."""

from typing import TypeAlias

Plan: TypeAlias = tuple[str, ...]
"""Ids of the remedies of a plan, in the order of the work; empty: nothing is done."""
