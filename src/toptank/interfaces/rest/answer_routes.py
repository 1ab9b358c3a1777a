"""Routes of the answers to a job: forecast, diagnosis, choice, fit, what if, work order, drawings."""

from typing import Annotated

from fastapi import APIRouter, Query
from pydantic import StringConstraints
from starlette.responses import Response

from toptank.interfaces.rest.reply import SHOWN, drawn, file, told
from toptank.interfaces.rest.shapes import Asker, Figure, Name, Number, Seed, Units
from toptank.interfaces.turns import BRIEF, LONG
from toptank.interfaces.web.drawing.loop_picture import loop_picture
from toptank.interfaces.web.drawing.svg import standing_alone
from toptank.interfaces.web.drawing.trade_off import trade_off
from toptank.shop.door import (
    CapAnswer,
    ChoiceAnswer,
    DiagnosisAnswer,
    FitAnswer,
    ForecastAnswer,
    Job,
    Order,
    Size,
    WhatIf,
    WhatIfAnswer,
    answer_cache,
    cap_answer,
    choice_answer,
    diagnose,
    fit_answer,
    fit_verbs,
    forecast_answer,
    job_verbs,
    service,
    what_if_answer,
)
from toptank.shop.door import choose_verbs as choose
from toptank.shop.door import coolant_verbs as coolant
from toptank.shop.door import order_pdf as pdf
from toptank.shop.door import order_web_page as web_page
from toptank.shop.door import what_if_verbs as verbs
from toptank.units.conversion import System

routes = APIRouter(tags=["answers"])

Paper = Annotated[Size | None, Query(description="letter in US units, A4 in metric ones if not said")]
Draws = Annotated[int | None, Query(description="simulations; the usual number if left out")]


def _job(number: int) -> Job:
    return job_verbs.stored_job(number)


@routes.get("/jobs/{number}/forecast", response_model=ForecastAnswer)
def forecast(number: Number, asker: Asker, units: Units = None, draws: Draws = None, seed: Seed = None) -> Response:
    """Forecast every duty of a job."""
    job = _job(number)
    answer = LONG.answer(asker, lambda: service.forecast(job, draws=draws, seed=seed))
    return told(forecast_answer(answer), units or job.system)


@routes.get("/jobs/{number}/diagnosis", response_model=DiagnosisAnswer)
def diagnosis(number: Number, asker: Asker, units: Units = None, seed: Seed = None) -> Response:
    """Rank the causes of a job's trouble and name the next checks."""
    job = _job(number)
    answer = LONG.answer(asker, lambda: answer_cache.diagnosis(job) if seed is None else diagnose(job, seed=seed))
    return told(answer, units or job.system)


@routes.get("/jobs/{number}/choice", response_model=ChoiceAnswer)
def choice(number: Number, asker: Asker, units: Units = None, draws: Draws = None, seed: Seed = None) -> Response:
    """Weigh remedies on the customer's worst day."""
    job = _job(number)
    answer = LONG.answer(asker, lambda: _choice(job, draws, seed))
    return told(answer, units or job.system)


def _choice(job: Job, draws: int | None, seed: int | None) -> ChoiceAnswer:
    if draws is None and seed is None:
        return answer_cache.choice(job)
    return choice_answer(choose.choose(job, draws=draws, seed=seed))


@routes.get("/jobs/{number}/trade-off.svg", openapi_extra=file("image/svg+xml"))
def trade_off_drawing(number: Number, asker: Asker, units: Units = None) -> Response:
    """Draw price against chance to hold."""
    job = _job(number)
    answer = LONG.answer(asker, lambda: answer_cache.choice(job))
    return drawn(standing_alone(trade_off(answer, units or job.system)))


@routes.get("/jobs/{number}/fit", response_model=FitAnswer)
def fit(number: Number, asker: Asker, units: Units = None, name: Name = None) -> Response:
    """Answer whether a remedy, a radiator on offer or what is in now goes into the bay."""
    job = _job(number)
    answer = BRIEF.answer(asker, lambda: fit_verbs.fit_job(job, name=name))
    return told(fit_answer(answer), units or job.system)


@routes.get("/jobs/{number}/cap", response_model=CapAnswer)
def cap(
    number: Number,
    asker: Asker,
    part: Annotated[
        list[Annotated[str, StringConstraints(max_length=80)]] | None,
        Query(max_length=20, description="what the pressure reaches, by name; guessed if none is named"),
    ] = None,
    bottle: Figure = None,
    at: Annotated[str | None, Query(max_length=80, description="hottest coolant; the limit if not said")] = None,
    units: Units = None,
) -> Response:
    """Choose the cap for the worst day by the weakest part, and size the recovery bottle."""
    job = _job(number)
    system = units or job.system
    answer = BRIEF.answer(asker, lambda: coolant.cap(job, parts=part or (), bottle=bottle, hottest=at, system=system))
    return told(cap_answer(answer), system)


@routes.get("/jobs/{number}/what-if", response_model=WhatIfAnswer)
def what_if(
    number: Number,
    asker: Asker,
    duty: Name = None,
    ambient: Figure = None,
    grade: Figure = None,
    speed: Figure = None,
    air_conditioning: Annotated[str | None, Query(max_length=80, description="on or off")] = None,
    units: Units = None,
) -> Response:
    """Answer the band of the gauge at a duty that is otherwise, and the figures of the loop there."""
    job, answer = _asked(asker, number, duty, (ambient, grade, speed, air_conditioning), units)
    return told(what_if_answer(answer), units or job.system)


@routes.get("/jobs/{number}/loop.svg", openapi_extra=file("image/svg+xml"))
def loop_drawing(
    number: Number,
    asker: Asker,
    duty: Name = None,
    ambient: Figure = None,
    grade: Figure = None,
    speed: Figure = None,
    air_conditioning: Annotated[str | None, Query(max_length=80, description="on or off")] = None,
    units: Units = None,
) -> Response:
    """Draw the loop at a duty, changed or as it is."""
    job, answer = _asked(asker, number, duty, (ambient, grade, speed, air_conditioning), units)
    title = f"{answer.duty.name}: {job.title}"
    drawing = loop_picture(answer.loop, units or job.system, title=title, limit=job.limit, invented=job.invented)
    return drawn(standing_alone(drawing))


def _asked(
    asker: str, number: int, duty: str | None, changed: tuple[str | None, ...], units: System | None
) -> tuple[Job, WhatIf]:
    job = _job(number)
    changes = verbs.Changes(*changed)
    return job, BRIEF.answer(asker, lambda: verbs.what_if(job, changes, duty=duty, system=units))


@routes.get("/jobs/{number}/order.pdf", openapi_extra=file("application/pdf"))
def order_pdf(number: Number, asker: Asker, plan: Name = None, paper: Paper = None) -> Response:
    """Write the work order as PDF: of the plan that is named, else the one that was taken, else the recommended one."""
    order, size = _order(asker, number, plan, paper)
    named = {"content-disposition": f'inline; filename="order-{number}.pdf"'}
    return Response(pdf(order, size), media_type="application/pdf", headers=named)


@routes.get("/jobs/{number}/order.html", openapi_extra=file("text/html"))
def order_page(number: Number, asker: Asker, plan: Name = None, paper: Paper = None) -> Response:
    """Write the work order as a page."""
    order, size = _order(asker, number, plan, paper)
    headers = {"content-security-policy": f"{SHOWN}; img-src data:; font-src data:"}
    return Response(web_page(order, size), media_type="text/html", headers=headers)


def _order(asker: str, number: int, plan: str | None, paper: Size | None) -> tuple[Order, Size]:
    job = _job(number)
    order = LONG.answer(asker, lambda: answer_cache.order(job, plan))
    return order, paper or ("letter" if job.system == "us" else "a4")
