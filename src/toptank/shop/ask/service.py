"""The verbs of the shop, one function each. Interfaces speak to these and to nothing below.

Imports of the model stay inside the verbs that need it: a boiling point must not wait for a compiler.
"""

from __future__ import annotations

import dataclasses
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING

from toptank.shop.files.typed_figure import between
from toptank.units.dimension import AIR_SPEED, ALTITUDE, FLOW, FRACTION, PRESSURE, TEMPERATURE
from toptank.units.quantity import parse_choice
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.knowledge.forecast import DutyForecast
    from toptank.shop.answers.answers import Boiling, CoreRating, Explanation, Forecast, Freezing, TypicalRow
    from toptank.shop.job.job import Job
    from toptank.units.conversion import System

GLYCOLS = ("ethylene", "propylene")
CAPS_PSI = (0, 4, 7, 13, 15, 16, 18, 22)
PSI = 6894.757293168361
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
        from toptank.shop.record.job_verbs import stored_job

        return stored_job(int(named[:30]))  # Python reads no integer of any length; the store holds none so long
    from toptank.shop.job.job_file import read_job

    return read_job(Path(named))


def demo_job() -> Job:
    """The built-in example: an invented orchard minibus."""
    import tomllib

    from toptank.shop.job.job_file import job_of

    return job_of(tomllib.loads(demo_text()))


def demo_text() -> str:
    """The built-in example as its file is written."""
    return resources.files("toptank.shop.ask").joinpath("demo.toml").read_text(encoding="utf-8")


def forecast(job: Job, *, draws: int | None = None, seed: int | None = None) -> Forecast:
    """Forecast every duty of a job, with bands."""
    from toptank.knowledge import forecast as knowledge
    from toptank.knowledge.sheet import duty_fields, sections
    from toptank.shop.answers.answers import Forecast, Weighty
    from toptank.shop.ask.remarks import on_forecast

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

    widest = tuple(tuple(weighty(*pair) for pair in duty.widest[:WIDEST]) for duty in duties)
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


def _known(job: Job) -> dict[str, int]:
    """Number of facts by how they were found."""
    from toptank.knowledge.sheet import Provenance

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
            f"{draws} vehicles are too few to tell apart {doubtful} facts that are not certain; "
            f"draw at least {2 * doubtful}, with --draws"
        )
    return "no single assumption stands out from the scatter of the draws"


def core_rating(
    path: Path, *, coolant_flow: str, coolant_in: str, air_in: str, face_velocity: str, system: System
) -> CoreRating:
    """Rate one core as on a bench, at flows and temperatures as people write them."""
    from toptank.shop.ask.core_bench import rate
    from toptank.shop.ask.remarks import on_core
    from toptank.shop.job.core_file import read_core

    sheet, remarks, assumed = read_core(path)
    notes = list(assumed)
    flow = between("coolant-flow", coolant_flow, FLOW, 1e-6, 0.05, system, notes)
    hot = between("coolant-in", coolant_in, TEMPERATURE, 250.0, 420.0, system, notes)
    cold = between("air-in", air_in, TEMPERATURE, 230.0, 340.0, system, notes)
    velocity = between("face-velocity", face_velocity, AIR_SPEED, 0.02, 40.0, system, notes)
    if hot <= cold:
        fix = "give the coolant the higher temperature"
        raise Refusal(field="coolant-in", value=coolant_in, limit=f"must lie above air-in = {air_in}", fix=fix)
    rated = rate(sheet, flow=flow, T_coolant_in=hot, T_air_in=cold, V_face=velocity, assumed_units=tuple(notes))
    said = on_core(
        T_coolant_in=hot,
        T_coolant_out=rated.T_coolant_out,
        concentrate=sheet.facts["fill.concentrate"].value,
        glycol=sheet.facts["fill.glycol"].value,
    )
    return dataclasses.replace(rated, remarks=(*remarks, *said))


def boil(*, cap: str, glycol: str, mix: str, altitude: str, system: System) -> Boiling:
    """Boiling point under a cap, the same under the usual caps, and what a pound of cap is really worth."""
    from toptank.equations.atmosphere import pressure_at_altitude
    from toptank.media.coolant import boiling_temperature
    from toptank.shop.answers.answers import Boiling, CapRow

    notes: list[str] = []
    pressure = between("cap", cap, PRESSURE, 0.0, 206843.0, system, notes)
    concentrate = between("mix", mix, FRACTION, 0.0, 0.7, system, notes)
    height = between("altitude", altitude, ALTITUDE, -500.0, 5500.0, system, notes)
    code = parse_choice(glycol, GLYCOLS, "glycol")
    outside = float(pressure_at_altitude(height))

    def point(gauge: float) -> float:
        return float(boiling_temperature(outside + gauge, concentrate, code))

    def gain(low: float, high: float) -> float:
        return (point(high) - point(low)) / (high - low)

    caps = [p * PSI for p in CAPS_PSI]
    rows = tuple(
        CapRow(pressure=here, boiling_point=point(here), slope=None if below is None else gain(below, here))
        for below, here in zip([None, *caps], caps, strict=False)
    )
    slope = gain(max(pressure - 0.5 * PSI, 0.0), pressure + 0.5 * PSI)
    mean = gain(0.0, pressure) if pressure > 0.0 else slope
    return Boiling(
        cap=pressure,
        concentrate=concentrate,
        glycol=GLYCOLS[int(code)],
        altitude=height,
        boiling_point=point(pressure),
        open_boiling_point=point(0.0),
        slope=slope,
        mean_slope=mean,
        rows=rows,
        assumed_units=tuple(notes),
    )


def freeze(*, glycol: str, mix: str, system: System) -> Freezing:
    """Freeze point of a mix."""
    from toptank.media import mixture
    from toptank.media.coolant import STRONGEST_FREEZING, freeze_point
    from toptank.shop.answers.answers import Freezing

    notes: list[str] = []
    concentrate = between("mix", mix, FRACTION, 0.0, 0.7, system, notes)
    code = parse_choice(glycol, GLYCOLS, "glycol")
    by_mass = float(mixture.glycol_mass_fraction(mixture.glycol_volume_fraction(concentrate, code), code))
    held = by_mass > STRONGEST_FREEZING
    return Freezing(
        concentrate=concentrate,
        glycol=GLYCOLS[int(code)],
        freeze_point=float(freeze_point(concentrate, code)),
        remarks=(f"this mix is {100.0 * by_mass:.0f} % glycol by mass; {_HELD}",) if held else (),
        assumed_units=tuple(notes),
    )


def vehicles() -> tuple[TypicalRow, ...]:
    """The typical vehicles."""
    from toptank.knowledge.typical import typical, typical_names
    from toptank.shop.answers.answers import TypicalRow

    found = [typical(name) for name in typical_names()]
    return tuple(
        TypicalRow(
            name=one.name,
            title=one.title,
            where=one.where,
            own_facts=sum(fact.origin.startswith("typical ") for fact in one.sheet.facts.values()),
        )
        for one in found
    )


def new_sheet(like: str, *, system: System) -> str:
    """A filled, commented starting file like a typical vehicle."""
    from toptank.knowledge.sheet_text import BY_HAND, render, render_duty
    from toptank.knowledge.typical import typical
    from toptank.shop.job.job_file import FORMAT

    one = typical(like)
    head = [
        f'format = "{FORMAT}"',
        f'units = "{system}"  # what a bare number means: us or metric',
        "",
        "[job]",
        f'title = "{one.title}"  # change it to this vehicle',
        'complaint = ""  # the driver\'s own words',
        f'limit = "{"225 F" if system == "us" else "107 C"}"  # the customer wants to stay under this',
        "",
        "[vehicle]",
        f'like = "{one.name}"  # fills in whatever is deleted below',
        "",
        "# What was seen: a figure of the gauge, or words = fine, warm, hot or boiled.",
        "# [[reading]]",
        '# duty = "usual"',
        f'# gauge = "{"195 F" if system == "us" else "90 C"}"',
        "",
    ]
    parts, usual = render(one.sheet, system, within=BY_HAND), render_duty(one.usual, system, within=BY_HAND)
    return "\n".join([*head, parts, usual])


def bare_sheet(like: str, *, title: str, complaint: str, system: System) -> str:
    """A starting file that says no more than is known: everything else is taken from the typical vehicle."""
    from toptank.knowledge.sheet_text import quoted
    from toptank.knowledge.typical import typical
    from toptank.shop.job.job_file import FORMAT

    one = typical(like)
    return "\n".join(
        (
            f'format = "{FORMAT}"',
            f'units = "{system}"',
            "",
            "[job]",
            f"title = {quoted(title.strip() or one.title)}",
            f"complaint = {quoted(complaint.strip())}",
            f'limit = "{"225 F" if system == "us" else "107 C"}"',
            "",
            "[vehicle]",
            f'like = "{one.name}"',
            "",
            "[[duty]]",
            'name = "where it runs hot"',
            "",
        )
    )


def explain(quantity: str) -> Explanation:
    """Where a figure comes from, or what a field of a sheet is."""
    from toptank.shop.ask.explain import explanation

    return explanation(quantity)


_HELD = (
    "beyond 60 % the freeze point is held at the figure for 60 %: a stronger mix does not protect more. It thickens to "
    "slush, and very strong ethylene glycol freezes sooner again, pure at 9 °F (-13 °C)"
)
"""As `media.coolant.freeze_point` has it."""
