"""What several commands share: their options, JSON on the screen, a sign that work goes on."""

from __future__ import annotations

import json
from enum import StrEnum
from typing import TYPE_CHECKING, Annotated

import typer

from toptank.interfaces.cli import late
from toptank.interfaces.cli.screen import prints_every_sign, write

if TYPE_CHECKING:
    from collections.abc import Mapping

    from rich.status import Status

    from toptank.shop.door import Answer
    from toptank.units.conversion import System


class Units(StrEnum):
    """Unit system of bare numbers and of the answer."""

    us = "us"
    metric = "metric"
    uk = "uk"


UnitsOption = Annotated[
    Units | None, typer.Option("--units", help="us, metric or uk (°C, miles, inches, psi); if left out, as the job")
]
JobArgument = Annotated[
    str, typer.Argument(metavar="JOB", help="number of a stored job, a job file (TOML), or demo, the built-in example")
]
JsonOption = Annotated[bool, typer.Option("--json", help="print JSON for a program; every key carries its unit")]
FullOption = Annotated[bool, typer.Option("--full", help="print the whole answer, not just a screen of it")]
DrawsOption = Annotated[int | None, typer.Option("--draws", help="simulations: more is slower and steadier")]
SeedOption = Annotated[int | None, typer.Option("--seed", help="random seed: same seed, same answer")]


def print_json(answer: Answer, system: System = "us") -> None:
    """Print an answer as JSON, its texts worded in the units asked."""
    record = answer.record(system)
    write(json.dumps(record, indent=2, ensure_ascii=not prints_every_sign(), allow_nan=False))


def print_json_line(record: Mapping[str, object]) -> None:
    """Print a record as one line of JSON, as soon as it is there."""
    write(json.dumps(record, ensure_ascii=not prints_every_sign(), allow_nan=False))


def working(what: str) -> Status:
    """Show on a terminal that work goes on; elsewhere nothing."""
    return late.Console(stderr=True, highlight=False).status(f"{what} ...", spinner="line")
