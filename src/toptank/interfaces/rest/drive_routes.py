"""Routes of drives: how one would go, what a logged one says of the causes, whether the repair did what was forecast.

A log or a GPX file comes as text in the body, or is named by the checksum under which it is kept with the job.
"""

from typing import Annotated, Literal, TypedDict

from fastapi import APIRouter, Depends, Query
from starlette.responses import Response

from toptank.interfaces.rest.reply import drawn, file, told
from toptank.interfaces.rest.shapes import Asker, DrivenLog, Name, Number, Units, VerifiedLog
from toptank.interfaces.turns import LONG
from toptank.interfaces.web.drawing.strip_chart import strip_chart, strip_of
from toptank.interfaces.web.drawing.svg import standing_alone
from toptank.shop.door import (
    DriveAnswer,
    LogAnswer,
    Road,
    SentLog,
    VerdictAnswer,
    answer_cache,
    job_verbs,
    log_answer,
    log_verdicts,
    verdict_answer,
)
from toptank.units.conversion import System
from toptank.units.refusal import Refusal

routes = APIRouter(tags=["answers"])

Legs = Annotated[str, Query(max_length=2000, description='"8 miles up 6 % at 45 mph, then idle 10 min"')]
Route = Annotated[str, Query(max_length=64, description="checksum of a GPX file that is kept with the job")]
Speed = Annotated[str, Query(max_length=200, description='how fast a route is driven: "50 mph, 35 mph from 3 mi"')]
Air = Annotated[str, Query(max_length=80, description='"98 F", or "88 F to 98 F" from start to end')]
Switch = Annotated[Literal["on", "off"] | None, Query(description="at the start; as at the duty if not said")]


def _asked(
    legs: Legs = "",
    route: Route = "",
    speed: Speed = "",
    ambient: Air = "",
    air_conditioning: Switch = None,
    duty: Name = None,
    plan: Name = None,
    cold: bool = False,
    units: Units = None,
) -> Road:
    return Road(
        legs=legs, route=route, speed=speed, ambient=ambient, air_conditioning=air_conditioning or "",
        duty=duty or "", plan=plan or "", cold="cold" if cold else "", system=units,
    )  # fmt: skip


Asked = Annotated[Road, Depends(_asked)]


@routes.get("/jobs/{number}/drive", response_model=DriveAnswer)
def drive(number: Number, asker: Asker, asked: Asked) -> Response:
    """Forecast a drive, of legs or of a route: the band of the gauge along it, its peak, what asking less would do."""
    return told(*_driven(asker, number, asked))


@routes.get("/jobs/{number}/drive.svg", openapi_extra=file("image/svg+xml"))
def drive_drawing(number: Number, asker: Asker, asked: Asked, along: Literal["time", "distance"] = "time") -> Response:
    """Draw a drive as a strip."""
    answer, system = _driven(asker, number, asked)
    return drawn(standing_alone(strip_chart(strip_of(answer), system, along=along)))


def _driven(asker: str, number: int, asked: Road) -> tuple[DriveAnswer, System]:
    job = job_verbs.stored_job(number)
    answer = LONG.answer(asker, lambda: answer_cache.road(number, job, asked))
    return answer, asked.system or job.system


@routes.post("/jobs/{number}/log", status_code=201, response_model=LogAnswer)
def log(number: Number, asker: Asker, body: DrivenLog) -> Response:
    """Let a log of a drive before the work speak of the causes; log and answer are kept with the job."""
    given = _given(body)
    answer, _ = LONG.answer(asker, lambda: log_verdicts.evidence(number, given, **_said(body)))
    return told(log_answer(answer), body.units or answer.job.system, 201)


@routes.post("/jobs/{number}/verify", status_code=201, response_model=VerdictAnswer)
def verify(number: Number, asker: Asker, body: VerifiedLog) -> Response:
    """Compare a log of the road test with the forecast of the repair; log and verdict are kept with the job."""
    given = _given(body)
    plan = body.plan or None
    answer, _ = LONG.answer(asker, lambda: log_verdicts.verify(number, given, done=body.done, plan=plan, **_said(body)))
    return told(verdict_answer(answer), body.units or answer.job.system, 201)


def _given(body: DrivenLog) -> str | SentLog:
    """The log, by its checksum or as text."""
    if bool(body.log) == bool(body.text):
        fix = "send the text of a log, or the checksum of one that is kept with the job"
        raise Refusal(field="log", value="both" if body.log else "(missing)", limit="or text is needed", fix=fix)
    return body.log or SentLog(text=body.text, name=body.name)


class _Said(TypedDict):
    columns: list[str]
    decimal: str
    ambient: str
    grade: str
    system: System | None


def _said(body: DrivenLog) -> _Said:
    """What its columns do not say."""
    return {
        "columns": body.columns,
        "decimal": body.decimal,
        "ambient": body.ambient,
        "grade": body.grade,
        "system": body.units,
    }
