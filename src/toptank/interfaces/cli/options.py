"""What several commands share: their options, JSON on the screen, a sign that work goes on."""

from __future__ import annotations

import json
from enum import StrEnum
from typing import TYPE_CHECKING, Annotated

import typer
from rich.status import Status

from toptank.interfaces.cli import late
from toptank.interfaces.cli.screen import prints_every_sign, write

if TYPE_CHECKING:
    from toptank.shop.door import Answer
    from toptank.units.conversion import System


class Units(StrEnum):
    """Unit system of bare numbers and of the answer."""

    us = "us"
    metric = "metric"


UnitsOption = Annotated[Units | None, typer.Option("--units", help="us or metric; a job file brings its own")]
JobArgument = Annotated[
    str, typer.Argument(metavar="JOB", help="number of a stored job, a job file (TOML), or demo, the built-in example")
]
JsonOption = Annotated[bool, typer.Option("--json", help="print JSON; every key carries its unit")]
SeedOption = Annotated[int | None, typer.Option("--seed", help="seed of the draws: same seed, same answer")]


def print_json(answer: Answer, system: System = "us") -> None:
    """Print an answer as JSON, its texts worded in the units asked."""
    record = answer.record(system)
    write(json.dumps(record, indent=2, ensure_ascii=not prints_every_sign(), allow_nan=False))


def working(what: str) -> Status:
    """Show on a terminal that work goes on; elsewhere nothing."""
    return late.Console(stderr=True, highlight=False).status(f"{what} ...", spinner="line")
