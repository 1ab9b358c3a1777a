"""The first verbs of the shop: open a job, forecast it, rate a core, list the vehicles."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from toptank.knowledge import forecast as knowledge
from toptank.knowledge.sheet import Provenance, duty_fields, sections
from toptank.knowledge.typical import typical, typical_names
from toptank.shop.answers.answer import filled
from toptank.shop.answers.answers import Forecast, Weighty
from toptank.shop.answers.bench import CoreAnswer, VehicleRow, VehiclesAnswer
from toptank.shop.ask.core_bench import rate
from toptank.shop.ask.remarks import on_core, on_forecast
from toptank.shop.files.typed_figure import between
from toptank.shop.job.core_file import read_core
from toptank.shop.job.job_file import read_job
from toptank.shop.job.starting_file import demo_job
from toptank.shop.record.job_verbs import stored_job
from toptank.units.dimension import AIR_SPEED, FLOW, TEMPERATURE
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.knowledge.forecast import DutyForecast
    from toptank.knowledge.typical import Typical
    from toptank.shop.job.job import Job
    from toptank.units.conversion import System

MOST_DRAWS = 100_000
WIDEST = 3
"""Assumptions named for each duty."""


DEMO = "demo"
"""The word that stands for the built-in example wherever a job is named."""


def open_job(named: str) -> Job:
    """Return the job that a person names: the word demo, the number of a stored job (its newest revision), or a file.

    A file that is itself called demo, or by a bare number, is named with its folder: ./demo, ./12.
    """
    if named == DEMO:
        return demo_job()
    if named.isascii() and named.isdecimal():
        return stored_job(int(named[:30]))  # Python reads no integer of any length; the store holds none so long

    return read_job(Path(named))


def forecast(job: Job, *, draws: int | None = None, seed: int | None = None) -> Forecast:
    """Forecast every duty of a job, with bands."""
    draws = knowledge.DRAWS if draws is None else draws
    seed = knowledge.SEED if seed is None else seed
    if not 50 <= draws <= MOST_DRAWS:
        limit = f"must lie between 50 and {MOST_DRAWS:,}"
        raise Refusal(field="draws", value=str(draws), limit=limit, fix=f"{knowledge.DRAWS:,} is usual")
    if not 0 <= seed < 2**32:
        raise Refusal(field="seed", value=str(seed), limit="must lie between 0 and 4294967295", fix="use another")
    duties = knowledge.forecast(job.sheet, job.duties, n=draws, seed=seed, limit=job.limit)

    def weighty(path: str, share: float) -> Weighty:
        section, _, key = path.partition(".")
        declaration = duty_fields()[key] if section == "duty" else sections()[section][key]
        return Weighty(path, declaration.means, share, declaration.in_the_bay(), declaration.measurable())

    widest = tuple(_widest([weighty(*pair) for pair in duty.widest]) for duty in duties)
    untold = tuple("" if found else _untold(job, duty, draws) for found, duty in zip(widest, duties, strict=True))
    return Forecast(
        job=job,
        duties=duties,
        widest=widest,
        untold=untold,
        known=_known(job),
        remarks=on_forecast(job, duties),
        draws=draws,
        seed=seed,
    )


def _widest(found: list[Weighty]) -> tuple[Weighty, ...]:
    """The assumptions that widen a band most; one that can be measured is among them, where there is any."""
    most, measurable = found[:WIDEST], [one for one in found if one.measurable]
    if measurable and measurable[0] not in most:
        most[-1] = measurable[0]
    return tuple(most)


def _known(job: Job) -> dict[str, int]:
    """Number of facts by how they were found."""
    known = {how.value: 0 for how in Provenance}
    for fact in job.sheet.facts.values():
        known[fact.how.value] += 1
    for duty in job.duties:
        for fact in duty.facts.values():
            # What a duty does not name is mostly not there: no trailer, no heater. Only what is in doubt is assumed.
            if fact.how != Provenance.ASSUMED or fact.spread > 0.0:
                known[fact.how.value] += 1
    return known


def _untold(job: Job, duty: DutyForecast, draws: int) -> str:
    """Why no assumption is named for a duty: too few draws to tell them apart, or none that stands out."""
    doubtful = sum(fact.spread > 0.0 for sheet in (job.sheet, duty.sheet) for fact in sheet.facts.values())
    if draws < 2 * doubtful:  # as in knowledge.weight
        return (
            f"{draws} simulations are too few to tell apart {doubtful} facts that are not certain; "
            f"draw at least {2 * doubtful}, with --draws"
        )
    return "no single assumption stands out"


def core_rating(
    path: Path, *, coolant_flow: str, coolant_in: str, air_in: str, face_velocity: str, system: System
) -> CoreAnswer:
    """Rate one core as on a bench, at flows and temperatures as people write them."""
    sheet, remarks, assumed = read_core(path)
    notes = list(assumed)
    flow = between("coolant-flow", coolant_flow, FLOW, 1e-6, 0.05, system, notes)
    hot = between("coolant-in", coolant_in, TEMPERATURE, 250.0, 420.0, system, notes)
    cold = between("air-in", air_in, TEMPERATURE, 230.0, 340.0, system, notes)
    velocity = between("face-velocity", face_velocity, AIR_SPEED, 0.02, 40.0, system, notes)
    if hot <= cold:
        fix = "give the coolant the higher temperature"
        raise Refusal(field="coolant-in", value=coolant_in, limit=f"must lie above air-in = {air_in}", fix=fix)
    rated = rate(sheet, flow=flow, T_coolant_in=hot, T_air_in=cold, V_face=velocity)
    said = on_core(
        T_coolant_in=hot,
        T_coolant_out=rated.T_coolant_out,
        concentrate=sheet.facts["fill.concentrate"].value,
        glycol=sheet.facts["fill.glycol"].value,
    )
    given = {
        "name": sheet.name,
        "tube_reynolds": round(rated.tube_reynolds, 1),
        "remarks": (*remarks, *said),
        "assumed_units": tuple(notes),
    }
    return filled(CoreAnswer, rated, given)


def vehicles() -> VehiclesAnswer:
    """The typical vehicles."""

    def row(one: Typical) -> VehicleRow:
        own = sum(fact.origin.startswith("typical ") for fact in one.sheet.facts.values())
        return filled(VehicleRow, one, {"own_facts": own})

    return VehiclesAnswer(vehicles=tuple(row(typical(name)) for name in typical_names()))
