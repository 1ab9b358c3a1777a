"""Routes that need no job: mixing, boiling, freezing, lists, explanations."""

from typing import Annotated

from fastapi import APIRouter, Path, Query
from pydantic import StringConstraints
from starlette.responses import Response

from toptank.interfaces.rest.reply import told
from toptank.interfaces.rest.shapes import System
from toptank.shop.answers.bench import BoilAnswer, ExplainAnswer, FreezeAnswer, VehiclesAnswer
from toptank.shop.answers.choice import PricesAnswer
from toptank.shop.answers.coolant import BleedAnswer, WaterAnswer
from toptank.shop.answers.diagnosis import CausesAnswer, ChecksAnswer
from toptank.shop.answers.mix import MixAnswer

routes = APIRouter(tags=["bench"])

Asked = Annotated[str, Query(max_length=80)]
Glycol = Annotated[str, Query(max_length=80, description="ethylene or propylene")]
Mix = Annotated[str, Query(max_length=80, description='share of concentrate: "50/50", "40 %"')]


@routes.get("/mix", response_model=MixAnswer)
def mix(
    capacity: Asked, now: Mix, want: Mix, drainable: Asked = "100 %", glycol: Glycol = "ethylene", units: System = "us"
) -> Response:
    """Say what to drain and what to add for a wanted mix."""
    from toptank.shop.answers.mix import mix_answer
    from toptank.shop.ask.coolant import mix as mix_verbs

    answer = mix_verbs.mix(capacity=capacity, now=now, want=want, drainable=drainable, glycol=glycol, system=units)
    return told(mix_answer(answer), units)


@routes.get("/boil", response_model=BoilAnswer)
def boil(
    cap: Asked = "15 psi", mix: Mix = "50/50", altitude: Asked = "0 ft", glycol: Glycol = "ethylene",
    units: System = "us",
) -> Response:  # fmt: skip
    """Boiling point under a cap, and under the usual caps."""
    from toptank.shop.answers.bench import boil_answer
    from toptank.shop.ask import service

    return told(boil_answer(service.boil(cap=cap, glycol=glycol, mix=mix, altitude=altitude, system=units)), units)


@routes.get("/freeze", response_model=FreezeAnswer)
def freeze(mix: Mix = "50/50", glycol: Glycol = "ethylene", units: System = "us") -> Response:
    """Freeze point of a mix."""
    from toptank.shop.answers.bench import freeze_answer
    from toptank.shop.ask import service

    return told(freeze_answer(service.freeze(glycol=glycol, mix=mix, system=units)), units)


@routes.get("/water")
def water(
    kind: Annotated[str, Query(max_length=80, description="distilled, deionised, tap, well, softened ...")],
    analysis: Annotated[
        list[Annotated[str, StringConstraints(max_length=80)]] | None,
        Query(max_length=20, description='figures of its analysis: "chloride=30" in mg/L'),
    ] = None,
) -> WaterAnswer:
    """Say whether a water may thin concentrate, by published limits, and both sides of the argument."""
    from toptank.shop.answers.coolant import water_answer
    from toptank.shop.ask.coolant import coolant

    return water_answer(coolant.water(kind, analysis or ()))


@routes.get("/bleed")
def bleed(
    layout: Annotated[str | None, Query(max_length=80, description="every one if not said")] = None,
) -> BleedAnswer:
    """Say how to fill a system and get the air out, by its layout."""
    from toptank.shop.answers.coolant import bleed_answer
    from toptank.shop.ask.coolant import coolant

    return bleed_answer(coolant.bleed(layout))


@routes.get("/vehicles")
def vehicles() -> VehiclesAnswer:
    """List the typical vehicles."""
    from toptank.shop.answers.bench import vehicles_answer
    from toptank.shop.ask import service

    return vehicles_answer(service.vehicles())


@routes.get("/causes")
def causes() -> CausesAnswer:
    """List the causes that are looked for."""
    from toptank.shop.answers.diagnosis import causes_answer
    from toptank.shop.ask import diagnose

    return causes_answer(diagnose.causes())


@routes.get("/checks")
def checks() -> ChecksAnswer:
    """List the checks with what each shows and its hazards."""
    from toptank.shop.answers.diagnosis import checks_answer
    from toptank.shop.ask import diagnose

    return checks_answer(diagnose.checks())


@routes.get("/prices")
def prices() -> PricesAnswer:
    """Show the built-in price book."""
    from toptank.shop.answers.choice import prices_answer
    from toptank.shop.ask import choose

    return prices_answer(choose.prices())


@routes.get("/explain/{quantity}", response_model=ExplainAnswer)
def explain(
    quantity: Annotated[str, Path(max_length=200, description="a figure of an answer, or a field: core.rows")],
    units: System = "us",
) -> Response:
    """Say where a figure comes from, or what a field is."""
    from toptank.shop.answers.bench import explain_answer
    from toptank.shop.ask import service

    return told(explain_answer(service.explain(quantity)), units)
