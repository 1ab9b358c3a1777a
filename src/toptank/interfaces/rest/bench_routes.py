"""Routes that need no job: mixing, boiling, freezing, lists, explanations."""

from typing import Annotated, Any

from fastapi import APIRouter, Path, Query
from pydantic import StringConstraints

from toptank.interfaces.rest.job_routes import answers
from toptank.interfaces.rest.shapes import System

routes = APIRouter(tags=["bench"])

Asked = Annotated[str, Query(max_length=80)]
Glycol = Annotated[str, Query(max_length=80, description="ethylene or propylene")]
Mix = Annotated[str, Query(max_length=80, description='share of concentrate: "50/50", "40 %"')]


@routes.get("/mix", openapi_extra=answers("answer-mix"))
def mix(
    capacity: Asked, now: Mix, want: Mix, drainable: Asked = "100 %", glycol: Glycol = "ethylene", units: System = "us"
) -> Any:
    """Say what to drain and what to add for a wanted mix."""
    from toptank.shop.answers.mix_json import mix_json
    from toptank.shop.ask.coolant import mix as mix_verbs

    answer = mix_verbs.mix(capacity=capacity, now=now, want=want, drainable=drainable, glycol=glycol, system=units)
    return mix_json(answer, units)


@routes.get("/boil", openapi_extra=answers("answer-boil"))
def boil(
    cap: Asked = "15 psi", mix: Mix = "50/50", altitude: Asked = "0 ft", glycol: Glycol = "ethylene",
    units: System = "us",
) -> Any:  # fmt: skip
    """Boiling point under a cap, and under the usual caps."""
    from toptank.shop.answers.as_json import boil_json
    from toptank.shop.ask import service

    return boil_json(service.boil(cap=cap, glycol=glycol, mix=mix, altitude=altitude, system=units), units)


@routes.get("/freeze", openapi_extra=answers("answer-freeze"))
def freeze(mix: Mix = "50/50", glycol: Glycol = "ethylene", units: System = "us") -> Any:
    """Freeze point of a mix."""
    from toptank.shop.answers.as_json import freeze_json
    from toptank.shop.ask import service

    return freeze_json(service.freeze(glycol=glycol, mix=mix, system=units), units)


@routes.get("/water", openapi_extra=answers("answer-water"))
def water(
    kind: Annotated[str, Query(max_length=80, description="distilled, deionised, tap, well, softened ...")],
    analysis: Annotated[
        list[Annotated[str, StringConstraints(max_length=80)]] | None,
        Query(max_length=20, description='figures of its analysis: "chloride=30" in mg/L'),
    ] = None,
) -> Any:
    """Say whether a water may thin concentrate, by published limits, and both sides of the argument."""
    from toptank.shop.answers.coolant_json import water_json
    from toptank.shop.ask.coolant import coolant

    return water_json(coolant.water(kind, analysis or ()))


@routes.get("/bleed", openapi_extra=answers("answer-bleed"))
def bleed(layout: Annotated[str | None, Query(max_length=80, description="every one if not said")] = None) -> Any:
    """Say how to fill a system and get the air out, by its layout."""
    from toptank.shop.answers.coolant_json import bleed_json
    from toptank.shop.ask.coolant import coolant

    return bleed_json(coolant.bleed(layout))


@routes.get("/vehicles", openapi_extra=answers("answer-vehicles"))
def vehicles() -> Any:
    """List the typical vehicles."""
    from toptank.shop.answers.as_json import vehicles_json
    from toptank.shop.ask import service

    return vehicles_json(service.vehicles())


@routes.get("/causes", openapi_extra=answers("answer-causes"))
def causes() -> Any:
    """List the causes that are looked for."""
    from toptank.shop.answers.diagnose_json import causes_json
    from toptank.shop.ask import diagnose

    return causes_json(diagnose.causes())


@routes.get("/checks", openapi_extra=answers("answer-checks"))
def checks() -> Any:
    """List the checks with what each shows and its hazards."""
    from toptank.shop.answers.diagnose_json import checks_json
    from toptank.shop.ask import diagnose

    return checks_json(diagnose.checks())


@routes.get("/prices", openapi_extra=answers("answer-prices"))
def prices() -> Any:
    """Show the built-in price book."""
    from toptank.shop.answers.choose_json import prices_json
    from toptank.shop.ask import choose

    return prices_json(choose.prices())


@routes.get("/explain/{quantity}", openapi_extra=answers("answer-explain"))
def explain(
    quantity: Annotated[str, Path(max_length=200, description="a figure of an answer, or a field: core.rows")],
    units: System = "us",
) -> Any:
    """Say where a figure comes from, or what a field is."""
    from toptank.shop.answers.as_json import explain_json
    from toptank.shop.ask import service

    return explain_json(service.explain(quantity, system=units))
