"""One vehicle of a fleet as its source tells of it, what is asked of all of them; both go to other processes."""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

from toptank.system.balance import EQUATIONS_VERSION

if TYPE_CHECKING:
    from pathlib import Path

    from toptank.units.conversion import System

COOLED_FROM = 299.8
"""Air of the day from which whoever has air conditioning has it on, where the row does not say: 80 degF [K]; judgement.

A depot that asks about a hot day asks about vehicles with people in them.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class FleetItem:
    """One vehicle.

    Parameters
    ----------
    identity : its own name: it seeds its simulations, so that neither order nor company changes what comes of it
    file, line : where it stands; line 0 where it is a file or a job of its own
    kind : a row of a table, or a job file
    told : the cells of the row by their heads; of a job the parsed file
    """

    identity: str
    file: str
    line: int
    kind: Literal["row", "job"]
    told: dict[str, Any]

    def digest(self) -> str:
        """Name of what is told of it: another value, another name."""
        return _digest({"id": self.identity, "kind": self.kind, "told": self.told})


@dataclass(frozen=True, slots=True, kw_only=True)
class FleetQuestion:
    """What is asked of every vehicle.

    Parameters
    ----------
    day, coolest : hottest and coolest air of the day [K]
    route, speed : file of the road, how fast it is driven; None: each vehicle's own worst day
    leave : first and last hour of leaving
    plans : whether work is sought for those that do not hold
    price_book : file of prices, or None: the built-in ones
    draws, seed : simulations of each vehicle
    system : unit system of bare figures, and of the words of the answer
    """

    day: float
    coolest: float
    route: Path | None
    speed: str | None
    leave: tuple[int, int]
    plans: bool
    price_book: Path | None
    draws: int
    seed: int
    system: System

    def digest(self) -> str:
        """Name of the question with the content of its files and the version of the equations."""
        files = [None if path is None else path.read_bytes().hex() for path in (self.route, self.price_book)]
        figures = (self.day, self.coolest, self.speed, self.leave, self.plans, self.draws, self.seed, self.system)
        return _digest([EQUATIONS_VERSION, COOLED_FROM, files, figures])


def _digest(value: object) -> str:
    return hashlib.sha256(json.dumps(value, sort_keys=True, default=str).encode()).hexdigest()[:20]
