"""Vehicles of a small fleet: typical ones on the worst day that is offered."""

import dataclasses
from types import SimpleNamespace

import pytest

from toptank.knowledge.conditions import draw_conditions
from toptank.knowledge.draws import draws
from toptank.knowledge.typical import typical
from toptank.shop.ask.choice.worst_day import usual_worst_day
from toptank.studies.fleet.fleet_vehicle import ConditionDay, FleetVehicle
from toptank.system.condition_batch import in_order

DRAWS = 64
LIMIT = 380.4


def made(like: str, seed: int) -> FleetVehicle:
    """One vehicle with its simulations."""
    one = typical(like)
    sheets = usual_worst_day(SimpleNamespace(duties=(one.usual,), worst_day=()))  # pyright: ignore[reportArgumentType] # it reads nothing else of a job
    sheets = tuple(
        dataclasses.replace(
            sheet,
            facts={
                **sheet.facts,
                "air_conditioning": dataclasses.replace(sheet.facts["air_conditioning"], value=1.0),
            },
        )
        for sheet in sheets
    )
    drawn = draw_conditions(one.sheet, sheets, DRAWS, seed)
    asked = tuple(sheet.name for sheet in sheets)
    day = ConditionDay(conditions={name: drawn[name] for name in in_order(drawn, asked)}, asked=asked)
    vehicle = draws(one.sheet, DRAWS, seed)
    return FleetVehicle(identity=f"{like} {seed}", vehicle=vehicle, limit=LIMIT, day=day)


@pytest.fixture(scope="session")
def fleet() -> list[FleetVehicle]:
    """Two with a belt-driven fan and air conditioning, one with an electric fan, one old one without either."""
    likes = ("minibus-1970s-v8-air", "wagon-1990s-v6-air", "pickup-1970s-v8-air", "saloon-1950s-six")
    return [made(like, seed) for seed, like in enumerate(likes, start=1)]
