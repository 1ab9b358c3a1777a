"""Routes that need no job: mixing, boiling, freezing, lists, explanations."""

from typing import Annotated

from fastapi import APIRouter, Path, Query
from pydantic import StringConstraints
from starlette.responses import Response

from toptank.interfaces.rest.reply import told
from toptank.interfaces.rest.shapes import System
from toptank.shop import door
from toptank.shop.door import (
    BleedAnswer,
    BoilAnswer,
    CausesAnswer,
    ChecksAnswer,
    ExplainAnswer,
    FreezeAnswer,
    MixAnswer,
    PricesAnswer,
    VehiclesAnswer,
    WaterAnswer,
)

routes = APIRouter(tags=["bench"])

Asked = Annotated[str, Query(max_length=80)]
Glycol = Annotated[str, Query(max_length=80, description="ethylene or propylene")]
Mix = Annotated[str, Query(max_length=80, description='share of concentrate: "50/50", "40 %"')]


@routes.get("/mix", response_model=MixAnswer)
def mix(
    capacity: Asked, now: Mix, want: Mix, drainable: Asked = "100 %", glycol: Glycol = "ethylene", units: System = "us"
) -> Response:
    """Say what to drain and what to add for a wanted mix."""
    answer = door.mix(capacity=capacity, now=now, want=want, drainable=drainable, glycol=glycol, units=units)
    return told(answer, units)


@routes.get("/boil", response_model=BoilAnswer)
def boil(
    cap: Asked = "15 psi", mix: Mix = "50/50", altitude: Asked = "0 ft", glycol: Glycol = "ethylene",
    units: System = "us",
) -> Response:  # fmt: skip
    """Boiling point under a cap, and under the usual caps."""
    return told(door.boil(cap=cap, glycol=glycol, mix=mix, altitude=altitude, units=units), units)


@routes.get("/freeze", response_model=FreezeAnswer)
def freeze(mix: Mix = "50/50", glycol: Glycol = "ethylene", units: System = "us") -> Response:
    """Freeze point of a mix."""
    return told(door.freeze(glycol=glycol, mix=mix, units=units), units)


@routes.get("/water")
def water(
    kind: Annotated[str, Query(max_length=80, description="distilled, deionised, tap, well, softened ...")],
    analysis: Annotated[
        list[Annotated[str, StringConstraints(max_length=80)]] | None,
        Query(max_length=20, description='figures of its analysis: "chloride=30" in mg/L'),
    ] = None,
) -> WaterAnswer:
    """Say whether a water may thin concentrate, by published limits, and both sides of the argument."""
    return door.water(kind, analysis or ())


@routes.get("/bleed")
def bleed(
    layout: Annotated[str | None, Query(max_length=80, description="every one if not said")] = None,
) -> BleedAnswer:
    """Say how to fill a system and get the air out, by its layout."""
    return door.bleed(layout)


@routes.get("/vehicles")
def vehicles() -> VehiclesAnswer:
    """List the typical vehicles."""
    return door.vehicles()


@routes.get("/causes")
def causes() -> CausesAnswer:
    """List the causes that are looked for."""
    return door.causes()


@routes.get("/checks")
def checks() -> ChecksAnswer:
    """List the checks with what each shows and its hazards."""
    return door.checks()


@routes.get("/prices")
def prices() -> PricesAnswer:
    """Show the price book: the shop's own, or the built-in one."""
    return door.prices()


@routes.get("/explain/{quantity}", response_model=ExplainAnswer)
def explain(
    quantity: Annotated[str, Path(max_length=200, description="a figure of an answer, or a field: core.rows")],
    units: System = "us",
) -> Response:
    """Say where a figure comes from, or what a field is."""
    return told(door.explain(quantity), units)
