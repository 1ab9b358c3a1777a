"""The verbs of the check drive as it is noted by hand: what the gauge showed after the work, beside what was promised.

Such a reading is kept as a note beside the job, so that the document goes on telling of the trouble alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from toptank.shop.answers.words.wording import degrees, gauge_band
from toptank.shop.files.toml_file import shortened
from toptank.shop.job.evidence_file import HIGHEST, LOWEST
from toptank.shop.record import job_verbs
from toptank.shop.record.store.kinds import gauge_after, reading_of
from toptank.units.dimension import TEMPERATURE
from toptank.units.quantity import parse
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.shop.order.check_drive import CheckDrive, Expected
    from toptank.shop.record.store.record import JobRecord, Note
    from toptank.units.conversion import System


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """One condition of the check drive: what was promised, what was seen, what that says.

    Parameters
    ----------
    duty : its name; `worst` says that it belongs to the worst day
    before, after : bands of the gauge without the work and after it, in words
    seen : every figure that was noted, the newest last, in words
    verdict : as forecast, cooler, hotter, not better, or empty where nothing was noted
    says : one sentence
    """

    duty: str
    worst: bool
    before: str
    after: str
    seen: tuple[str, ...]
    verdict: str
    says: str


def note_after(number: int, duty: str, gauge: str, *, system: System, author: str = "") -> Note:
    """Note what the gauge showed at a condition after the work.

    Raises
    ------
    Refusal : if it is no temperature that a gauge shows
    """
    read = parse(gauge, TEMPERATURE, system=system, field="gauge")
    if not LOWEST <= read.value <= HIGHEST:
        limit = "must lie between -45 °F and 320 °F (-43 and 160 °C)"
        raise Refusal(field="gauge", value=shortened(gauge), limit=limit, fix="check its unit")
    told = f"{gauge.strip()} {read.unit}" if read.assumed else gauge.strip()
    duty = " ".join(duty.split())
    text = f"after the work: {duty}: gauge {told}"
    return job_verbs.add_note(number, text, author=author, about=gauge_after(duty, told))


def compared(drive: CheckDrive, record: JobRecord, system: System) -> tuple[Compared, ...]:
    """Lay what was noted beside what the order promised."""
    noted: dict[str, list[float]] = {}
    for note in record.notes:
        if is_after(note):
            duty, gauge = reading_of(note.about)
            noted.setdefault(duty, []).append(parse(gauge, TEMPERATURE, system=system, field="gauge").value)
    return tuple(_compared(one, noted.get(" ".join(one.duty.name.split()), []), system) for one in drive.duties)


def is_after(note: Note) -> bool:
    """Whether a note tells of the check drive."""
    return note.kind == "gauge_after"


def _compared(one: Expected, seen: list[float], system: System) -> Compared:
    verdict, says = _verdict(one, seen[-1]) if seen else ("", "")
    return Compared(
        duty=one.duty.name,
        worst=one.worst,
        before=gauge_band(one.before.p10, one.before.p90, one.boils_before.p50, system),
        after=gauge_band(one.after.p10, one.after.p90, one.boils_after.p50, system),
        seen=tuple(degrees(value, system) for value in seen),
        verdict=verdict,
        says=says,
    )


def _verdict(one: Expected, seen: float) -> tuple[str, str]:
    if one.after.p10 <= seen <= one.after.p90:
        return "as forecast", "It does what was forecast."
    if seen < one.after.p10:
        return "cooler", "Cooler than forecast: good, if outside temperature and load were as in the order."
    if one.before.p10 <= seen <= one.before.p90 or seen > one.before.p90:
        return (
            "not better",
            "As hot as without the work: look for air, a shut thermostat, a fan that does not grip.",
        )
    return "hotter", "Hotter than the forecast allows after this work: something else is still wrong."
