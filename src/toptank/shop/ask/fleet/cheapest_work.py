"""The cheapest work after which a vehicle of a fleet holds: single remedies and pairs, by their price."""

from __future__ import annotations

import dataclasses
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.shop.answers.fleet import SURE, FleetWork, work_answer
from toptank.shop.job.price_book import built_in, read_prices
from toptank.studies.choose.worst_day_forecast import WorstDayCase, fitting, forced, repaired
from toptank.studies.fleet.day_batch import through_day

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.catalogue.remedies.remedy import Remedy
    from toptank.shop.ask.fleet.item import FleetQuestion
    from toptank.shop.ask.fleet.vehicle_of_item import Prepared

SCREENED = 64
"""Simulations with which plans are compared first."""

PROMISING = 8
"""Single remedies that are tried in pairs: those that cool most for their price."""

SCREENED_TO = 0.06
"""What so few simulations leave open in a chance to hold [1]: plans that miss by less are tried with all of them."""


def cheapest_work(one: Prepared, asked: FleetQuestion) -> FleetWork | None:
    """Return the cheapest work that holds 9 times in 10 and asks nothing of the driver; None where none is found."""
    book = built_in() if asked.price_book is None else read_prices(asked.price_book)
    case = _case(one)
    able = [remedy for remedy in fitting(case.vehicle) if not remedy.concession]
    singles = [(remedy,) for remedy in able]
    chances = _chances(one, case, singles, SCREENED)
    bare = _chances(one, case, [()], SCREENED)[0]

    def worth(plan: Sequence[Remedy]) -> float:
        gain = chances[able.index(plan[0])] - bare
        return gain / (1.0 + book.cost(forced(plan, case.vehicle)))

    best = [plan[0] for plan in sorted(singles, key=worth, reverse=True)[:PROMISING] if worth(plan) > 0.0]
    pairs = [pair for pair in combinations(best, 2) if pair[0].group != pair[1].group]
    tried = list(zip(singles, chances, strict=True))
    if max(chances, default=0.0) < 0.01 * SURE + SCREENED_TO or pairs:
        tried += list(zip(pairs, _chances(one, case, pairs, SCREENED), strict=True))
    near = [plan for plan, chance in tried if 100.0 * (chance + SCREENED_TO) >= SURE]
    for plan in sorted(near, key=lambda each: book.cost(forced(each, case.vehicle))):
        chance = _chances(one, case, [plan], asked.draws)[0]
        if 100.0 * chance >= SURE:
            done = forced(plan, case.vehicle)
            return work_answer(done, book.cost(done), book.currency, chance)
    return None


def _case(one: Prepared) -> WorstDayCase:
    """The vehicles as they stand and when sound; of a sheet alone nothing is known to be wrong."""
    vehicle = one.vehicle.vehicle
    if one.possible is None:
        from_sheet = np.zeros((one.vehicle.draws, len(CAUSES)))
        return WorstDayCase(vehicle, vehicle, from_sheet, {}, one.job.limit)
    return WorstDayCase(one.possible.vehicle, one.possible.sound, one.possible.severity, {}, one.job.limit)


def _chances(one: Prepared, case: WorstDayCase, plans: Sequence[Sequence[Remedy]], n: int) -> list[float]:
    """Chance to hold after each plan, with the first n simulations."""
    after = [dataclasses.replace(one.vehicle, vehicle=repaired(case, plan)) for plan in plans]
    return [float(outcome.held().mean()) for outcome in through_day(after, first=n)]
