"""The questions of the shop, one function each: a job or figures as people write them in, one typed answer out.

Figures are taken as people write them, with their unit ("98 F", "15 psi", "5 %"); a bare one is in the units that are
named by `units`. Answers hold figures in the fixed units that their keys name; `answer.record("metric")` gives plain
values, with sentences in the units asked. What cannot be used is refused: `Refusal` names field, value, limit and fix.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.shop.ask import late

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from toptank.shop.answers.bench import BoilAnswer, CoreAnswer, ExplainAnswer, FreezeAnswer, VehiclesAnswer
    from toptank.shop.answers.checks_and_causes import CausesAnswer, ChecksAnswer
    from toptank.shop.answers.choice import ChoiceAnswer, PricesAnswer
    from toptank.shop.answers.diagnosis import DiagnosisAnswer
    from toptank.shop.answers.drive import DriveAnswer
    from toptank.shop.answers.evaluation import EvaluationAnswer
    from toptank.shop.answers.fit import FitAnswer
    from toptank.shop.answers.fleet import FleetAnswer
    from toptank.shop.answers.fluids.coolant import BleedAnswer, CapAnswer, WaterAnswer
    from toptank.shop.answers.fluids.mix import MixAnswer
    from toptank.shop.answers.forecast import ForecastAnswer
    from toptank.shop.answers.log import LogAnswer
    from toptank.shop.answers.verdict import VerdictAnswer
    from toptank.shop.answers.what_if import WhatIfAnswer
    from toptank.shop.job.job import Job
    from toptank.units.conversion import System


def open_job(named: str | Path) -> Job:
    """Open a job: "demo", the built-in example; the number of a stored job; or a job file."""
    return late.service.open_job(str(named))


def forecast(job: Job, *, draws: int | None = None, seed: int | None = None) -> ForecastAnswer:
    """Forecast the gauge at every duty of a job, with bands and what widens them.

    Parameters
    ----------
    job : as opened
    draws : possible vehicles; 2,047 if not said
    seed : same seed, same answer
    """
    return late.forecast_answer(late.service.forecast(job, draws=draws, seed=seed))


def diagnose(job: Job, *, seed: int | None = None, learn_from: Path | None = None) -> DiagnosisAnswer:
    """Rank what may be wrong, say what speaks for and against it, name the next checks.

    Parameters
    ----------
    job : as opened
    seed : same seed, same answer
    learn_from : folder of closed jobs that teach how often each cause occurs
    """
    return late.diagnosis_answer(late.diagnose.diagnose(job, seed=seed, learn_from=learn_from))


def choose(job: Job, *, seed: int | None = None, draws: int | None = None, prices: Path | None = None) -> ChoiceAnswer:
    """Weigh remedies on the customer's worst day, with their prices, and say which plan to take.

    Parameters
    ----------
    job : as opened
    seed, draws : of the possible vehicles
    prices : the shop's own price book (TOML)
    """
    return late.choice_answer(late.choose.choose(job, seed=seed, draws=draws, price_book=prices))


def fit(job: Job, *, name: str | None = None) -> FitAnswer:
    """Say whether a remedy, a plan or a radiator on offer goes into the bay; else what is on offer, or in now."""
    return late.fit_answer(late.fit.fit_job(job, name=name))


def drive(
    job: Job,
    *,
    legs: str | None = None,
    route: Path | None = None,
    speed: str | None = None,
    ambient: str | None = None,
    altitude: str | None = None,
    air_conditioning: str | None = None,
    duty: str | None = None,
    plan: str | None = None,
    cold: bool = False,
    seed: int | None = None,
    draws: int | None = None,
    units: System | None = None,
) -> DriveAnswer:
    """Drive a job's vehicle along a road: the gauge on the way, where it peaks, what would ease it.

    Parameters
    ----------
    job : as opened
    legs, route : "8 miles up 6 % at 45 mph, then idle 10 min", or a GPX file; one of the two
    speed : how fast a route is driven; left out: as its time stamps say
    ambient, altitude, air_conditioning, duty : weather, height of the start, "on" or "off", duty of the job behind
        what the drive does not say
    plan : as the work of a plan would leave it
    cold : it stood overnight
    seed, draws : of the possible vehicles
    units : of bare figures; those of the job if not said
    """
    return late.drive.drive(
        job, legs=legs, route=route, speed=speed, ambient=ambient, altitude=altitude,
        air_conditioning=air_conditioning, duty=duty, plan=plan, cold=cold, seed=seed, draws=draws, system=units,
    )  # fmt: skip


def fleet(
    source: str | Path,
    *,
    day: str,
    route: Path | None = None,
    speed: str | None = None,
    leave: str | None = None,
    plans: bool = False,
    prices: Path | None = None,
    out: Path | None = None,
    workers: int | None = None,
    scheduler: str | None = None,
    draws: int | None = None,
    seed: int | None = None,
    units: System = "us",
) -> FleetAnswer:
    """Ask what a hot day would do to every vehicle of a fleet: which hold, which do not, what would ease them.

    Parameters
    ----------
    source : folder of job files, a table (.csv, .parquet; one vehicle a row), or "record", the stored jobs
    day : hottest air of the day, "105 F", or coolest and hottest, "78 F to 105 F"
    route, speed : a road as a GPX file and how fast it is driven; left out: each vehicle's own worst day
    leave : hours of leaving, "06:00..20:00"
    plans, prices : also seek the cheapest work for those that do not hold, with the shop's own prices
    out : file of the vehicles (.csv, .parquet, .jsonl); a run that was stopped goes on from what stands beside it
    workers, scheduler : processes of this machine, or address of a Dask scheduler (`toptank[fleet]`)
    draws, seed : simulations of each vehicle
    units : of bare figures
    """
    return late.fleet.fleet(
        source, day=day, route=route, speed=speed, leave=leave, plans=plans, price_book=prices, out=out, draws=draws,
        seed=seed, system=units, workers=workers, scheduler=scheduler,
    )  # fmt: skip


def read_log(
    job: Job,
    log: Path,
    *,
    columns: Sequence[str] = (),
    decimal: str = "",
    ambient: str | None = None,
    grade: str | None = None,
    seed: int | None = None,
    units: System | None = None,
) -> LogAnswer:
    """Let a log of a drive before the work speak of the causes.

    Parameters
    ----------
    job, log : whose log it is, and its file
    columns, decimal : what its heads do not say: "W1 = coolant °F"; "comma" or "point"
    ambient, grade : what no column says: "92 F", "0 %"
    seed, units : same seed, same answer; units of bare figures
    """
    found = late.log.log(
        job, log, columns=columns, decimal=decimal, ambient=ambient, grade=grade, seed=seed, system=units
    )
    return late.log_answer(found)


def verify(
    job: Job,
    log: Path,
    *,
    done: Sequence[str] = (),
    columns: Sequence[str] = (),
    decimal: str = "",
    ambient: str | None = None,
    grade: str | None = None,
    seed: int | None = None,
    units: System | None = None,
) -> VerdictAnswer:
    """Hold a logged check drive beside the forecast of the repair: as forecast, better, worse, or too easy to tell.

    Parameters
    ----------
    job, log : whose repair it is, and the log of the drive
    done : work that was done, else that of the plan
    columns, decimal, ambient, grade, seed, units : as for `read_log`
    """
    found = late.verify.verify(
        job, log, done=done, columns=columns, decimal=decimal, ambient=ambient, grade=grade, seed=seed, system=units
    )
    return late.verdict_answer(found)


def what_if(
    job: Job,
    *,
    duty: str | None = None,
    ambient: str | None = None,
    grade: str | None = None,
    speed: str | None = None,
    air_conditioning: str | None = None,
    units: System | None = None,
) -> WhatIfAnswer:
    """Say where the gauge would settle if it were hotter, steeper, faster, with the air conditioning "on" or "off"."""
    changes = late.what_if.Changes(ambient, grade, speed, air_conditioning)
    return late.what_if_answer(late.what_if.what_if(job, changes, duty=duty, system=units))


def evaluate(folder: Path, *, seed: int | None = None) -> EvaluationAnswer:
    """Diagnose every closed job of a folder and compare with what it was."""
    return late.evaluation_answer(late.diagnose.evaluate(folder, seed=seed))


def cap(
    job: Job,
    *,
    parts: Sequence[str] = (),
    bottle: str | None = None,
    hottest: str | None = None,
    units: System | None = None,
) -> CapAnswer:
    """Choose the cap for a job's worst day by the weakest part, and size the recovery bottle."""
    found = late.coolant.cap(job, parts=parts, bottle=bottle, hottest=hottest, system=units or job.system)
    return late.cap_answer(found)


def mix(
    *,
    capacity: str,
    now: str,
    want: str = "50 %",
    drainable: str = "80 %",
    glycol: str = "ethylene",
    units: System = "us",
) -> MixAnswer:
    """Say what to drain and what to add for a wanted share of concentrate, and what the mix then bears."""
    found = late.mix.mix(capacity=capacity, now=now, want=want, drainable=drainable, glycol=glycol, system=units)
    return late.mix_answer(found)


def boil(
    *,
    cap: str = "15 psi",
    mix: str = "50/50",
    altitude: str = "0 ft",
    glycol: str = "ethylene",
    units: System = "us",
) -> BoilAnswer:
    """Boiling point of a mix under a cap at an altitude, and under the usual caps."""
    return late.boiling.boil(cap=cap, glycol=glycol, mix=mix, altitude=altitude, system=units)


def freeze(*, mix: str = "50/50", glycol: str = "ethylene", units: System = "us") -> FreezeAnswer:
    """Freeze point of a mix."""
    return late.boiling.freeze(glycol=glycol, mix=mix, system=units)


def core(
    file: Path,
    *,
    coolant_flow: str = "40 gpm",
    coolant_in: str = "200 F",
    air_in: str = "90 F",
    face_velocity: str = "4 m/s",
    units: System = "us",
) -> CoreAnswer:
    """Rate one core of a core file as on a bench: heat, outlet temperatures, pressure drops, conductance."""
    return late.service.core_rating(
        file, coolant_flow=coolant_flow, coolant_in=coolant_in, air_in=air_in, face_velocity=face_velocity, system=units
    )


def water(kind: str, analysis: Sequence[str] = ()) -> WaterAnswer:
    """Say whether a water may thin concentrate, by published limits; `analysis` holds figures such as "chloride=30"."""
    return late.water_answer(late.coolant.water(kind, analysis))


def bleed(layout: str | None = None, *, job: Job | None = None) -> BleedAnswer:
    """Say how to fill and bleed one layout, that of a job, or every one."""
    return late.bleed_answer(late.coolant.bleed(layout, job=job))


def vehicles() -> VehiclesAnswer:
    """List the typical vehicles that a sheet can start from."""
    return late.service.vehicles()


def causes() -> CausesAnswer:
    """List the causes that are looked for."""
    return late.causes_answer(late.diagnose.causes())


def checks() -> ChecksAnswer:
    """List the checks, with what each shows and its hazards."""
    return late.checks_answer(late.diagnose.checks())


def prices(book: Path | None = None) -> PricesAnswer:
    """Show a price book, or the built-in one."""
    return late.prices_answer(late.choose.prices(book))


def explain(quantity: str) -> ExplainAnswer:
    """Say which equations a figure rests on, with their sources, or what a field of a sheet is."""
    return late.explain.explain(quantity)
